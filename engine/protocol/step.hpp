#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "protocol/condition.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// Ordered from calm to grave; of several, the worst wins.
enum class Urgency : std::uint8_t { home, clinic, clinic_now, emergency };
constexpr Urgency worst(Urgency a, Urgency b) { return a < b ? b : a; }
std::string_view name_of(Urgency urgency);

enum class ActionKind : std::uint8_t {
  by_mouth, glucagon, insulin, fluid, measure, position, pump, call_clinic, call_emergency, watch, note,
};
std::string_view name_of(ActionKind kind);
constexpr bool is_call(ActionKind kind) { return kind == ActionKind::call_clinic || kind == ActionKind::call_emergency; }

/// How an action went. The last three are for calls.
enum class Outcome : std::uint8_t { given, part, refused, vomited, none_here, wrong, reached, no_answer, told };
inline constexpr int kOutcomes = 9;
std::string_view name_of(Outcome outcome);
/// The outcomes an action of this kind must have a rule for.
std::vector<Outcome> outcomes_to_cover(ActionKind kind);

/// Whom to call; each is followed by the next when nobody answers. Emergency has no next: it stays open.
enum class Contact : std::uint8_t { clinic, on_call, emergency };
std::string_view name_of(Contact contact);

/// What follows an outcome: another step, or the same as "given".
struct OutcomeRule {
  std::optional<StepId> go;  // empty: as given
  Where where;
};

struct Action {
  std::string name;
  ActionKind kind;
  StepId step;
  Text text;
  Conditions when;
  std::optional<DoseId> dose;
  std::array<std::optional<OutcomeRule>, kOutcomes> on;
  std::optional<CounterId> counts;
  struct Records { FactId fact; std::uint16_t option; };
  std::optional<Records> records;
  struct Starts { TimerId timer; ThresholdId lasts; };
  std::optional<Starts> starts;
  std::optional<TimerId> stops;
  struct Call { Contact contact; ThresholdId answer_within; };
  std::optional<Call> call;
  SourceId source;
  Where where;
};

/// A question of a step, and how old its answer may be; without `fresh` it must be learned in the step (after the wait).
struct Ask {
  FactId fact;
  std::optional<ThresholdId> fresh;
  Where where;
};

struct Wait {
  TimerId timer;
  ThresholdId lasts;
  std::optional<ActionId> after;            // starts when this has an outcome,
  std::optional<ThresholdId> start_within;  // or this long after the step was entered
  std::optional<ThresholdId> insulin_again;  // ends earlier, this long after the last rapid-acting insulin
  ThresholdId overdue;                      // this long after it ended without an answer
  StepId go;                                // the episode goes here
  Where where;
};

/// First match wins. `otherwise` takes what is left when every question of the step has a known answer. An `early` rule is
/// looked at during the step's wait too, whenever something is told: it reads what was answered in this step.
/// A rule may visit another protocol of the set, and `go` is the step to come back to; or hand over to it for good.
struct Rule {
  std::string name;  // "treat/2" when the file gives none
  Conditions when;
  bool otherwise;
  StepId go;
  std::vector<CounterId> resets;
  SourceId source;
  Where where;
  bool early = false;
  std::vector<MarkId> sets = {};       // these take the present values
  std::string visits = {};             // the other protocol's id
  std::string hands_over_to = {};
  std::optional<StepId> enters = {};   // the other protocol's first step, once linked
};

struct Step {
  std::string name;
  Urgency urgency;
  Text headline;
  std::vector<ActionId> actions;
  std::vector<Ask> asks;
  std::optional<Wait> wait;
  std::vector<Rule> rules;
  std::vector<WatchId> handles;
  std::optional<CounterId> counts;
  bool ends;
  SourceId source;
  Where where;
  bool ends_visit = false;  // whoever came here from another protocol goes back to it
};

/// A rule before every rule. In a step that handles it, and that it does not lead to, `also` is said as well. One that is
/// `told` fires on news only: every question it reads was answered in the step one is in, and no rule has used it yet. It fires on an answer once.
struct Watch {
  std::string name;
  Conditions when;
  StepId go;
  SourceId source;
  Where where;
  std::optional<Text> also = std::nullopt;
  bool told = false;
};

/// A line of "something got worse": saying it records this answer.
struct Sign {
  FactId fact;
  std::uint64_t option;  // one option's place
  Text text;
  Where where;
};

}  // namespace rushlight
