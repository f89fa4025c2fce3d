#include "cli/why_words.hpp"

#include "cli/outcome_words.hpp"
#include "cli/say.hpp"
#include "episode/scene.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

constexpr Both kWhyStart{"This is where the plan begins.", "Aquí empieza el plan."};
constexpr Both kWhyDanger{"A sign of danger comes before everything else.",
                          "Una señal de peligro va antes que todo lo demás."};
constexpr Both kWhyLate{"The check was late.", "El control llegó tarde."};
constexpr Both kWhyOnward{"The plan goes on from the step before.", "El plan sigue desde el paso anterior."};
constexpr Both kWhyOften{"This has been tried as often as the plan allows.",
                         "Esto ya se intentó las veces que permite el plan."};
constexpr Both kWhyHour{"It goes by the hour of the day.", "Va según la hora."};

/// Lines of plain words, each once.
class Reasons {
 public:
  explicit Reasons(const Situation& here) : here_(here), language_(here.language()) {}

  void add_answers(const Conditions& conditions) {
    for (const Condition& condition : conditions) {
      if (const auto* compared = std::get_if<Compares>(&condition.test)) add_answer(compared->fact);
      if (const auto* is = std::get_if<Is>(&condition.test)) add_answer(is->fact);
      if (std::holds_alternative<CountedAtLeast>(condition.test)) add(say(kWhyOften, language_));
      if (std::holds_alternative<WithinClock>(condition.test)) add(say(kWhyHour, language_));
      if (const auto* done = std::get_if<WasGiven>(&condition.test)) add_action(done->action, Outcome::given);
    }
  }

  void add_answer(FactId fact) {
    const std::optional<Known>& known = here_.episode.facts[fact.index];
    if (fact.index < kChildFacts || !known) return;
    const ShownQuestion question = question_of(here_, fact);
    add(question.text + " " + text_from_answer(question, known->value, here_.setting()) + ".");
  }

  void add_action(ActionId id, Outcome outcome) {
    const Action& action = here_.protocol[id];
    const Instant instant = here_.episode.clock.last_wall + here_.episode.clock.lost;
    const Scene scene = scene_at(here_.protocol, here_.child, here_.episode, instant);
    add(filled(scene, action.text, language_, action.dose) + " " + outcome_line(outcome, action.kind, language_) + ".");
  }

  void add(const std::string& line) {
    for (const std::string& earlier : lines) {
      if (earlier == line) return;
    }
    lines.push_back(line);
  }

  std::vector<std::string> lines;

 private:
  const Situation& here_;
  Language language_;
};

}  // namespace

std::vector<std::string> why_in_plain_words(const Situation& here) {
  const Language language = here.language();
  const Cause& cause = here.episode.cause;
  const Step& from = here.protocol[cause.from];
  Reasons reasons(here);
  switch (cause.kind) {
    case Cause::Kind::start:
      reasons.add(say(kWhyStart, language));
      break;
    case Cause::Kind::rule:
      reasons.add_answers(from.rules[cause.index].when);
      if (reasons.lines.empty()) {
        for (const Ask& ask : from.asks) reasons.add_answer(ask.fact);
      }
      break;
    case Cause::Kind::watch:
      reasons.add(say(kWhyDanger, language));
      reasons.add_answers(here.protocol.watch[cause.index].when);
      break;
    case Cause::Kind::outcome:
      reasons.add_action(ActionId{cause.index}, cause.outcome);
      break;
    case Cause::Kind::overdue:
      reasons.add(say(kWhyLate, language));
      break;
  }
  if (reasons.lines.empty()) reasons.add(say(kWhyOnward, language));
  return std::move(reasons.lines);
}

}  // namespace rushlight
