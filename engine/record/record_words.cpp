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
    {RecordWord::worse, "Got worse", "Empeoró"},
    {RecordWord::corrected, "Corrected", "Corregido"},
    {RecordWord::taken_over, "{1} carries on", "Sigue {1}"},
    {RecordWord::cannot_tell, "cannot tell", "no se sabe"},
    {RecordWord::nothing_given, "Nothing was given.", "No se dio nada."},
    {RecordWord::total_line, "{1}: {2}, {3}", "{1}: {2}, {3}"},
    {RecordWord::once, "once", "una vez"},
    {RecordWord::times, "{1} times", "{1} veces"},
    {RecordWord::episodes, "{1} episodes.", "{1} episodios."},
    {RecordWord::lowest, "Lowest glucose: {1}, {2}.", "Glucosa más baja: {1}, {2}."},
    {RecordWord::lows_by_hour, "{1} of {2} treatments of a low between {3} and {4}.",
     "{1} de {2} tratamientos de glucosa baja entre las {3} y las {4}."},
    {RecordWord::days_with_lows, "Lows were treated on {1} days.", "Se trató glucosa baja en {1} días."},
    {RecordWord::emergencies, "Emergency in {1} of them.", "Emergencia en {1} de ellos."},
    {RecordWord::no_pattern, "No episode in these days.", "Ningún episodio en estos días."},
    {RecordWord::page_of, "Page {1} of {2}", "Página {1} de {2}"},
    {RecordWord::sensor, "sensor", "sensor"},
    {RecordWord::glucose, "Glucose", "Glucosa"},
    {RecordWord::ketones, "Ketones", "Cetonas"},
    {RecordWord::urine_ketones, "Urine ketones", "Cetonas en orina"},
    {RecordWord::told_column, "Told", "Dicho"},
    {RecordWord::advised_column, "Advised (rule and source number)", "Aconsejado (regla y número de fuente)"},
    {RecordWord::done_column, "Done", "Hecho"},
    {RecordWord::sources_title, "Sources of the advice", "Fuentes de los consejos"},
    {RecordWord::stands, "At {1}: {2}", "A las {1}: {2}"},
    {RecordWord::next_look, "{1}: {2}.", "{1}: {2}."},
    {RecordWord::ended_at, "Ended at {1}.", "Terminó a las {1}."},
    {RecordWord::drunk, "Drunk: {1}", "Bebido: {1}"},
    {RecordWord::of_goal, "{1} of a goal of {2}", "{1} de una meta de {2}"},
    {RecordWord::vomits, "Vomits, each time asked: {1}", "Vómitos, cada vez que se preguntó: {1}"},
    {RecordWord::not_given, "Not told as given: {1}", "No consta como dado: {1}"},
    {RecordWord::sugar, "sugar", "azúcar"},
    {RecordWord::insulin, "insulin", "insulina"},
    {RecordWord::glucagon, "glucagon", "glucagón"},
    {RecordWord::no_calls, "None asked for, none told.", "Ninguna pedida, ninguna contada."},
    {RecordWord::no_danger_signs, "no danger signs", "sin señales de peligro"},
    {RecordWord::else_unchanged, "rest same", "resto igual"},
    {RecordWord::asked_at, "late, asked at {1}", "tarde, se preguntó a las {1}"},
    {RecordWord::alarm_unanswered, "Alarm at {1}: nobody answered", "Alarma de las {1}: nadie contestó"},
    {RecordWord::worse_unnamed, "Something got worse", "Algo empeoró"},
    {RecordWord::withheld, "Withheld, {1}: {2}", "No se indica, {1}: {2}"},
    {RecordWord::times_until, "{1} times until {2}", "{1} veces hasta las {2}"},
    {RecordWord::late, "late", "tarde"},
    {RecordWord::until, "until {1}", "hasta {1}"},
    {RecordWord::looks_together,
     "In short: looks with little new stand together. Each by itself, and the numbers from the sources: rushlight record "
     "--text.",
     "En breve: van juntos los controles con poca novedad. Uno por uno, y los números de las fuentes: rushlight record "
     "--text."},
    {RecordWord::withheld_named, "Withheld: {1}", "No se indica: {1}"},
    {RecordWord::drank, "drank", "bebió"},
    {RecordWord::short_clinic, "clinic", "clínica"},
    {RecordWord::short_on_call, "on-call", "guardia"},
    {RecordWord::short_emergency, "emergency", "emergencias"},
    {RecordWord::untold, "not told", "no se contó"},
    {RecordWord::as_before, "as before", "como antes"},
    {RecordWord::silent_by, "nobody answered by {1}", "nadie contestó hasta las {1}"},
    {RecordWord::not_answered_yet, "not answered yet", "sin contestar"},
    {RecordWord::no_longer_needed, "no longer needed {1}", "ya no hizo falta {1}"},
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

std::string wall_clock(const Moment& moment) { return text_from_clock_time(clock_time_of(moment)); }

std::string day_and_wall_clock(const Moment& moment) {
  return text_from_day(local_day_of(moment)) + " " + wall_clock(moment);
}

}  // namespace rushlight
