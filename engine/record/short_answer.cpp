#include "record/short_answer.hpp"

#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

using Kind = ShortAnswer::Kind;

struct Both {
  const char* en;
  const char* es;
  const char* in(Language language) const { return language == Language::es ? es : en; }
};

/// The questions that the shipped sets ask, by their ids: what stands before an answer that is no words of its own, and
/// the answer that is nothing to speak of. Where there is none, every answer is said.
struct ShortWords {
  const char* fact;
  Both label;
  const char* calm = "";
  Both calm_words{"", ""};
  Kind kind = Kind::news;
};

constexpr ShortWords kShort[] = {
    {"awake", {"awake", "despertar"}, "yes", {"wakes and talks", "se despierta y habla"}, Kind::danger_sign},
    {"breathing-normally",
     {"breathing", "respiración"},
     "yes",
     {"breathes as usual", "respira como siempre"},
     Kind::danger_sign},
    {"breathing",
     {"breathing", "respiración"},
     "usual",
     {"breathes as always", "respira como siempre"},
     Kind::danger_sign},
    {"drowsy", {"drowsy", "mucho sueño"}, "no", {"not drowsy", "sin mucho sueño"}, Kind::danger_sign},
    {"seizure", {"seizure", "convulsión"}, "no", {"no seizure", "sin convulsión"}, Kind::danger_sign},
    {"swallow", {"can swallow", "puede tragar"}, "yes", {"can swallow", "puede tragar"}, Kind::danger_sign},
    {"dehydrated", {"dried out", "sequedad"}, "no", {"not dried out", "sin sequedad"}, Kind::danger_sign},
    {"drinking", {"drinking", "bebe"}, "yes", {"drinks", "bebe"}, Kind::calm},
    {"belly-pain", {"belly pain", "dolor de barriga"}, "no", {"no belly pain", "sin dolor de barriga"}, Kind::calm},
    {"fever", {"fever", "fiebre"}, "no", {"no fever", "sin fiebre"}, Kind::calm},
    {"symptoms", {"signs of a low", "señales de baja"}, "no", {"no signs of a low", "sin señales de baja"}, Kind::calm},
    {"other-worry",
     {"other worry", "otra preocupación"},
     "no",
     {"no other worry", "sin otra preocupación"},
     Kind::calm},
    {"supplies-low", {"supplies low", "faltan provisiones"}, "no", {"supplies last", "hay provisiones"}, Kind::calm},
    {"already-given", {"given before", "dado antes"}, "no", {"nothing given before", "nada dado antes"}, Kind::calm},
    {"diarrhea", {"loose stools", "diarreas"}, "0", {"loose stools 0", "diarreas 0"}, Kind::calm},
    {"meals-missed", {"meals missed", "comidas perdidas"}, "0", {"meals missed 0", "comidas perdidas 0"}, Kind::calm},
    {"sick-since",
     {"ill for", "enfermedad"},
     "today",
     {"ill less than a day", "enfermedad de menos de un día"},
     Kind::calm},
    {"wrong-insulin", {"wrong insulin dose", "insulina equivocada"}},
    {"vomits", {"vomits", "vómitos"}},
    {"glucose", {"glucose", "glucosa"}},
    {"ketones", {"ketones", "cetonas"}},
    {"urine-ketones", {"urine ketones", "cetonas en orina"}},
    {"vomiting-since", {"vomiting for", "vomita desde hace"}},
    {"last-rapid-insulin", {"last rapid insulin before", "última insulina rápida hace"}},
    {"sugar-when", {"sugar given before", "azúcar dado hace"}},
    {"meal-soon", {"meal soon", "comida pronto"}},
    {"exercised", {"sport today", "deporte hoy"}},
    {"ate-recently", {"ate lately", "comió hace poco"}},
    {"bedtime", {"bedtime", "hora de dormir"}},
    {"rescue-given", {"rescue glucagon given", "glucagón de rescate dado"}},
    {"pump-paused", {"pump paused", "bomba en pausa"}},
    {"reading-from", {"reading from", "medida de"}},
    {"what-is-wrong", {"what is wrong", "qué pasa"}},
    {"clinic-said", {"the clinic said", "la clínica dijo"}},
    {"help-here", {"emergency crew", "equipo de emergencias"}},
    {"driver", {"who drives", "quién maneja"}},
    {"why-no-dose", {"why no insulin", "por qué sin insulina"}},
};

const ShortWords* short_of(const std::string& fact) {
  for (const ShortWords& each : kShort) {
    if (fact == each.fact) return &each;
  }
  return nullptr;
}

/// In the middle of a line: "Only small sips" with a small letter, "LO" and "ICU" as they are.
std::string within_a_line(std::string text) {
  const auto is_large = [](char letter) { return letter >= 'A' && letter <= 'Z'; };
  if (text.size() > 1 && is_large(text[0]) && !is_large(text[1])) text[0] = static_cast<char>(text[0] - 'A' + 'a');
  return text;
}

/// "30 min": how long ago, or that it was not lately.
std::string time_words(const Value& value, Language language) {
  if (const auto* ago = std::get_if<Ago>(&value)) return text_from_duration(ago->time);
  return phrase(Phrase::phone_not_in_a_day, language);
}

ShortAnswer in_short(const Scene& scene, FactId id, const Value& value, const ShortWords* words, Language language) {
  const Fact& fact = scene.protocol[id];
  const std::string label =
      words != nullptr ? words->label.in(language) : filled(scene, fact.question, language, std::nullopt);
  const std::string colon = words != nullptr ? ": " : " ";  // a question has its own mark
  const auto calm = [&](const std::string& answer) { return words != nullptr && answer == words->calm; };
  if (const auto* glucose = std::get_if<Glucose>(&value)) return {said(*glucose, language), Kind::reading};
  if (const auto* ketones = std::get_if<KetoneReading>(&value))
    return {label + " " + text_from_ketones(*ketones), Kind::reading};
  if (const auto* count = std::get_if<Count>(&value)) {
    const std::string number = std::to_string(count->number);
    return {label + " " + number, calm(number) ? words->kind : Kind::news};
  }
  if (const auto* chosen = std::get_if<Chosen>(&value)) {
    if (chosen->option >= fact.options.size()) return {"", Kind::news};
    const Option& option = fact.options[chosen->option];
    if (calm(option.name)) return {words->calm_words.in(language), words->kind};
    if (fact.yes_no)
      return {label + colon + phrase(option.name == "yes" ? Phrase::yes : Phrase::no, language), Kind::news};
    const std::string text = within_a_line(plain_words(option.text, language));
    if (fact.kind == FactKind::ordered_choice) return {label + colon + text, Kind::reading};
    if (fact.name == "reading-from") return {text, Kind::reading};  // it stands with the number it is about
    const bool needs_label = fact.name == "already-given" || fact.name == "sick-since";
    return {needs_label ? label + colon + text : text, Kind::news};
  }
  if (std::holds_alternative<CantTell>(value))
    return {label + colon + record_say(RecordWord::cannot_tell, language), Kind::news};
  return {label + " " + time_words(value, language), Kind::news};
}

}  // namespace

ShortAnswer short_answer(const Scene& scene, FactId fact, const Value& value, Language language) {
  const ShortWords* words = short_of(scene.protocol[fact].name);
  ShortAnswer answer = in_short(scene, fact, value, words, language);
  answer.seen_sign = words != nullptr && words->kind == ShortAnswer::Kind::danger_sign &&
                     answer.kind != ShortAnswer::Kind::danger_sign;
  return answer;
}

}  // namespace rushlight
