#include "record/record_words.hpp"

namespace rushlight {
namespace {

struct InBoth {
  RecordWord word;
  const char* en;
  const char* es;
};

constexpr InBoth kWords[] = {
    {RecordWord::title, "{1}: {2}", "{1}: {2}"},
    {RecordWord::from_to, "From {1} to {2}", "Del {1} al {2}"},
    {RecordWord::still_open, "Still open.", "Sigue abierto."},
    {RecordWord::left_off, "Was closed by hand.", "Se cerró a mano."},
    {RecordWord::gravest, "At worst: {1}", "Lo más grave: {1}"},
    {RecordWord::set_line, "Set {1}, protocol {2}, version {3}", "Guía {1}, protocolo {2}, versión {3}"},
    {RecordWord::timeline, "What happened", "Qué pasó"},
    {RecordWord::readings_title, "Readings", "Medidas"},
    {RecordWord::totals_title, "In all", "En total"},
    {RecordWord::calls_title, "Calls", "Llamadas"},
    {RecordWord::patterns_title, "What these episodes show", "Qué muestran estos episodios"},
    {RecordWord::worse, "Got worse: {1}", "Empeoró: {1}"},
    {RecordWord::corrected, "Corrected: {1}", "Corregido: {1}"},
    {RecordWord::taken_over, "{1} carries on", "Sigue {1}"},
    {RecordWord::cannot_tell, "cannot tell", "no se sabe"},
    {RecordWord::nothing_given, "Nothing was given.", "No se dio nada."},
    {RecordWord::total_line, "{1}: {2}, {3}", "{1}: {2}, {3}"},
    {RecordWord::once, "once", "una vez"},
    {RecordWord::times, "{1} times", "{1} veces"},
    {RecordWord::call_open, "Not answered yet: {1}", "Sin contestar: {1}"},
    {RecordWord::episodes, "{1} episodes.", "{1} episodios."},
    {RecordWord::lowest, "Lowest glucose: {1}, {2}.", "Glucosa más baja: {1}, {2}."},
    {RecordWord::lows_by_hour, "{1} of {2} treatments of a low between {3} and {4}.",
     "{1} de {2} tratamientos de glucosa baja entre las {3} y las {4}."},
    {RecordWord::days_with_lows, "Lows were treated on {1} days.", "Se trató glucosa baja en {1} días."},
    {RecordWord::emergencies, "Emergency in {1} of them.", "Emergencia en {1} de ellos."},
    {RecordWord::no_pattern, "No episode in these days.", "Ningún episodio en estos días."},
    {RecordWord::page_of, "Page {1} of {2}", "Página {1} de {2}"},
    {RecordWord::by_rule, "rule {1}", "regla {1}"},
    {RecordWord::sensor, "sensor", "sensor"},
};

struct OutcomeInBoth {
  Outcome outcome;
  const char* en;
  const char* es;
};
constexpr OutcomeInBoth kOutcomeWords[] = {
    {Outcome::given, "done", "hecho"},
    {Outcome::part, "only part", "solo una parte"},
    {Outcome::refused, "refused", "no lo tomó"},
    {Outcome::vomited, "vomited", "vomitó"},
    {Outcome::none_here, "none here", "no hay"},
    {Outcome::wrong, "went wrong", "salió mal"},
    {Outcome::reached, "answered", "contestó"},
    {Outcome::no_answer, "no answer", "no contestó"},
    {Outcome::told, "said", "dijo"},
};

}  // namespace

std::string record_say(RecordWord word, Language language, const std::string& one, const std::string& two,
                       const std::string& three, const std::string& four) {
  for (const InBoth& each : kWords) {
    if (each.word != word) continue;
    const std::string written = language == Language::es ? each.es : each.en;
    std::string text;
    for (std::size_t at = 0; at < written.size(); ++at) {
      const bool blank = written[at] == '{' && at + 2 < written.size() && written[at + 2] == '}';
      if (!blank) {
        text += written[at];
        continue;
      }
      text += written[at + 1] == '1' ? one : written[at + 1] == '2' ? two : written[at + 1] == '3' ? three : four;
      at += 2;
    }
    return text;
  }
  return "";
}

std::string said_outcome(Outcome outcome, Language language) {
  for (const OutcomeInBoth& each : kOutcomeWords) {
    if (each.outcome == outcome) return language == Language::es ? each.es : each.en;
  }
  return "";
}

}  // namespace rushlight
