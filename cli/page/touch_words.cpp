#include "cli/page/touch_words.hpp"

#include <string_view>

namespace rushlight {
namespace {

struct Pair {
  Both keys, touch;  // an empty `touch`: left out
};

constexpr Pair kPairs[] = {
    {kAlarmTried,
     {"That sound was the alarm. No sound? Turn the volume up, and silent mode off. Then try it again under More.",
      "Ese sonido es la alarma. ¿No suena? Suba el volumen y quite el modo silencio. Pruebe otra vez en Más."}},
    {kBeforeThen, {"One of these happens meanwhile? Tap it:", "¿Pasa algo de esto mientras tanto? Tóquelo:"}},
    {kKetonesMeanwhile, {"", ""}},  // a button says it
    {kTellWait, {"", ""}},          // the page says more of it, beside the time that is left
    {kStartsWhenDone,
     {"The wait starts when you tap done. The alarm rings by {1}.",
      "La espera empieza al tocar hecho. La alarma suena a las {1} o antes."}},
    {kDoseStillOpen,
     {"Did the clinic give a dose? Tap how the call went.", "¿La clínica dio una dosis? Toque cómo fue la llamada."}},
    {kDrinkMore, {"After each drink tap how much it was.", "Tras cada bebida toque cuánto fue."}},
    {kMoreCautions, {"More: all cautions.", "Más: todos los avisos."}},
    {kGivenStays,
     {"What was given stays marked as given. Marked by mistake? Go back, then tap: it went wrong.",
      "Lo que se dio queda anotado. ¿Lo anotó por error? Vuelva y toque: algo salió mal."}},
    {kNeedsAnswer,
     {"This needs an answer. Not sure? Tap: I can't tell.", "Esto necesita respuesta. ¿No sabe? Toque: No lo sé."}},
    {kNothingElseHere,
     {"This one has no other answer. Tap done when it is done.",
      "Esto no tiene otra respuesta. Toque hecho cuando esté hecho."}},
    {kNoMeterHere, {"No meter or strips here? Tap: I can't tell.", "¿No hay medidor o tiras? Toque: No lo sé."}},
    {kNothingWrongHere,
     {"This is a question. Not sure? Tap: I can't tell.", "Esto es una pregunta. ¿No sabe? Toque: No lo sé."}},
    {kNothingToMark,
     {"There is nothing to mark here. Something got worse? Tap it below.",
      "Aquí no hay nada que marcar. ¿Algo va peor? Tóquelo abajo."}},
    {kKeptFirst,
     {"{1} is kept. First do what stands here. Then tap done.",
      "{1} queda anotado. Primero haga lo que dice aquí. Luego toque hecho."}},
    {kNotMgPerDl,
     {"{1} mg/dL cannot be right. Type the whole number, as 50 or 105. Only if the meter itself says mmol/L: tap Other "
      "unit.",
      "{1} mg/dL no puede ser. Escriba el número entero, como 50 o 105. Solo si el medidor mismo dice mmol/L: toque "
      "Otra unidad."}},
    {kNotMmolPerL,
     {"{1} mmol/L cannot be right. Type it with its point, as 5.2 or 10.5. Only if the meter itself says mg/dL: tap "
      "Other unit.",
      "{1} mmol/L no puede ser. Escríbalo con su coma, como 5,2 o 10,5. Solo si el medidor mismo dice mg/dL: toque "
      "Otra unidad."}},
};

/// What stands in the first blank when the text is this sentence; nothing when it is another.
std::optional<std::string> blank_in(std::string_view text, std::string_view sentence) {
  const std::size_t blank = sentence.find("{1}");
  if (blank == std::string_view::npos) return text == sentence ? std::optional<std::string>("") : std::nullopt;
  const std::string_view before = sentence.substr(0, blank);
  std::string_view after = sentence.substr(blank + 3);
  after = after.substr(0, after.find('{'));  // a second blank ends what is compared
  if (text.size() < before.size() || text.substr(0, before.size()) != before) return std::nullopt;
  const std::size_t end = text.find(after, before.size());
  if (end == std::string_view::npos) return std::nullopt;
  return std::string(text.substr(before.size(), end - before.size()));
}

}  // namespace

std::optional<std::string> by_touch(const std::string& text, Language language) {
  for (const Pair& pair : kPairs) {
    const std::string_view sentence = language == Language::es ? pair.keys.es : pair.keys.en;
    if (const auto blank = blank_in(text, sentence)) return say(pair.touch, language, *blank);
  }
  // "Not approved. ... m: all cautions." ends with the words of a key.
  const std::string keys = say(kMoreCautions, language);
  if (text.size() > keys.size() && text.ends_with(keys))
    return text.substr(0, text.size() - keys.size()) + *by_touch(keys, language);
  return text;
}

}  // namespace rushlight
