#include "episode/telephone_words.hpp"

#include <algorithm>
#include <vector>

#include "episode/dose_result.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

// What a nurse asks about a child, in her order. Readings, vomiting and insulin have lines of their own.
constexpr const char* kAskedByNurses[] = {"awake",    "breathing-normally", "breathing", "drowsy",     "swallow",
                                          "seizure",  "symptoms",           "drinking",  "belly-pain", "vomiting-since",
                                          "diarrhea", "dehydrated",         "fever"};

constexpr std::chrono::minutes kStillNow{30};  // common practice, no source: an older answer is told as one

/// What stands behind "Say: " in the text of the call, up to its full stop. Empty without one.
std::string reason_in(const Scene& scene, ActionId id, Language language) {
  const Action& action = scene.protocol[id];
  if (!is_call(action.kind)) {
    const std::string label = action.dose ? plain_words(scene.protocol[*action.dose].label, language) : "";
    return label.empty() ? "" : phrase(Phrase::phone_which_dose, language, label);
  }
  const std::string mark = phrase(Phrase::phone_say_mark, language);
  const std::string text = filled(scene, action.text, language, std::nullopt);
  const std::size_t from = text.find(mark);
  if (from == std::string::npos) return "";
  std::string reason = text.substr(from + mark.size());
  reason = reason.substr(0, reason.find(". "));
  if (!reason.empty() && reason.back() == '.') reason.pop_back();
  const std::string again = "diabetes, ";
  return reason.rfind(again, 0) == 0 ? reason.substr(again.size()) : reason;
}

std::vector<std::string> signs_that_are_true(const Scene& scene, Language language) {
  std::vector<std::string> signs;
  for (const Sign& sign : scene.protocol.worse) {
    const std::optional<Value> value = value_of(scene, sign.fact);
    const auto* chosen = value ? std::get_if<Chosen>(&*value) : nullptr;
    if (chosen != nullptr && chosen->option == sign.option) {
      signs.push_back(filled(scene, sign.text, language, std::nullopt));
    }
  }
  return signs;
}

std::string answer_in_words(const Scene& scene, const Fact& fact, const Value& value, Language language) {
  const std::string question = filled(scene, fact.question, language, std::nullopt) + " ";
  if (const auto* chosen = std::get_if<Chosen>(&value)) {
    const Option& option = fact.options[chosen->option];
    if (!fact.yes_no) return plain_words(option.text, language);
    return question + phrase(option.name == "yes" ? Phrase::yes : Phrase::no, language);
  }
  if (const auto* count = std::get_if<Count>(&value)) return question + std::to_string(count->number);
  if (const auto* ago = std::get_if<Ago>(&value)) return question + text_from_duration(ago->time);
  if (std::holds_alternative<NotLately>(value)) return question + phrase(Phrase::no, language);
  return question + phrase(Phrase::phone_not_known, language);
}

}  // namespace

std::string why_somebody_calls(const Scene& scene, Language language) {
  const std::optional<ActionId>& called_for = scene.episode.called_for;
  const std::vector<std::string> signs = signs_that_are_true(scene, language);
  std::string words = phrase(Phrase::phone_type_1, language);
  const bool seen = !signs.empty() && called_for && scene.protocol[*called_for].kind == ActionKind::call_emergency;
  const std::string reason = called_for && !seen ? reason_in(scene, *called_for, language) : "";
  if (!reason.empty()) words += ": " + reason;
  for (const std::string& sign : signs) words += ". " + sign;
  return words;
}

std::string child_in_one_line(const Scene& scene, Language language) {
  const Child& child = scene.child;
  const Age exact = scene.context.age;
  const bool in_years = exact.months() >= 24;
  std::string line = child.name + ", " +
                     said(in_years ? Quantity{Decimal::whole(exact.completed_years()), Unit::year}
                                   : Quantity{Decimal::whole(exact.months()), Unit::month},
                          language);
  const auto add = [&](const std::string& words) { line += ", " + words; };
  add(child.weight ? said(child.weight->quantity(), language) : phrase(Phrase::phone_weight_unknown, language));
  constexpr Phrase kDeliveries[] = {Phrase::phone_injections, Phrase::phone_pump, Phrase::phone_automatic_pump};
  add(phrase(kDeliveries[static_cast<std::size_t>(child.delivery)], language));
  if (child.total_daily_dose) {
    // Without the word "units": beside a dose that nobody states it would be read as one.
    add(phrase(Phrase::phone_daily_total, language, text_from_decimal(child.total_daily_dose->in(kInsulinUnit))));
  }
  constexpr Phrase kRescues[] = {Phrase::phone_rescue_nasal, Phrase::phone_rescue_injection,
                                 Phrase::phone_rescue_injection, Phrase::phone_rescue_old, Phrase::phone_no_rescue};
  add(phrase(kRescues[rescue_option(scene)], language));
  return line;
}

std::string answers_in_one_line(const Scene& scene, Language language) {
  std::string now, before;
  Instant oldest = scene.now;
  const auto add = [](std::string& words, const std::string& answer) { words += (words.empty() ? "" : ". ") + answer; };
  for (const char* name : kAskedByNurses) {
    const std::optional<FactId> id = scene.protocol.fact_named(name);
    const std::optional<Known> known = id ? scene.episode.facts[id->index] : std::nullopt;
    if (!known) continue;
    const bool is_old = scene.now - known->learned >= kStillNow;
    if (is_old && std::holds_alternative<Ago>(known->value)) continue;  // "40 min ago" of last night is not so any more
    const std::string answer = answer_in_words(scene, scene.protocol[*id], known->value, language);
    add(is_old ? before : now, answer);
    if (is_old) oldest = std::min(oldest, known->learned);
  }
  if (before.empty()) return now;
  const Moment since = wall(scene.episode.clock, oldest);
  add(now, phrase(Phrase::phone_earlier, language, text_from_clock_time(clock_time_of(since)), before));
  return now;
}

}  // namespace rushlight
