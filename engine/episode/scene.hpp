#pragma once

#include <array>

#include "episode/episode.hpp"

namespace rushlight {

/// Everything a condition may look at: the protocol, the child and the episode at one instant.
struct Scene {
  const Protocol& protocol;
  const Child& child;
  const Episode& episode;
  Context context;  // the child's age and weight, and the local clock, at that instant
  Day today;
  Instant now;
  std::array<Value, kChildFacts> child_facts;  // by ChildFact; "can't tell" where the child file has none
};

Scene scene_at(const Protocol& protocol, const Child& child, const Episode& episode, Instant now);

/// An instant of the episode as the wall clock shows it, with the offset of the latest event.
Moment wall(const EpisodeClock& clock, Instant instant);

/// The value of a fact in the scene: from the child file, or as last answered; empty when nobody has answered.
/// A time-since grows with the time that passed since it was said.
std::optional<Value> value_of(const Scene& scene, FactId fact);

/// In the rules of a step an unanswered fact is "can't tell"; before every rule (watch) it is nothing at all.
enum class Unanswered : std::uint8_t { is_cant_tell, holds_nothing };

bool holds(const Scene& scene, const Condition& condition, Unanswered unanswered);
bool all_hold(const Scene& scene, const Conditions& conditions, Unanswered unanswered);

/// (Law: rules are first match.) The place of the first rule of the step that holds; empty when none does.
std::optional<std::uint16_t> first_match(const Scene& scene, const Step& step);

/// Whether a watch is looked at where the episode stands: that of the protocol one is in; in a visit the caller's too,
/// but for what the visiting step handles and what the visited protocol watches under the same name.
bool is_live(const Scene& scene, WatchId watch);

/// The caregiver's answer that a condition reads, if it reads one.
std::optional<FactId> question_in(const Protocol& protocol, const Condition& condition);

/// Whether a fact has an answer of its own here: told since, or together with the answer that led here, and not used by a step before. A
/// reading is never its own check, even when all was told in one second.
bool is_told_since(const Episode& episode, FactId fact, Instant since);

/// Whether the watch reads a question of the opening.
bool reads_the_opening(const Protocol& protocol, const Watch& watch);
/// Whether it leads to an emergency, at once or through a step that only leads on.
bool leads_to_danger(const Protocol& protocol, const Watch& watch);
/// Nothing is asked, done or waited for in the step.
bool only_leads_on(const Step& step);

/// (Law: watch comes before every rule.) The first watch that is true and that the step does not handle.
std::optional<std::uint16_t> watch_that_fires(const Scene& scene, const Step& step);

/// How the marked fact stands now to what it was when the mark was set; unknown when either is not known.
Change change_since(const Scene& scene, MarkId mark);

/// The injection kit at home that a mini-dose can be drawn from: in date, and its concentration on file. Null without one.
const RescueMedicine* mini_dose_kit(const Child& child, Day today);

/// The watch rules that are true, that the step handles and that lead elsewhere: known here, and no reason to leave.
std::vector<WatchId> watches_met(const Scene& scene, const Step& step);

/// The rescue medicine that would be used, as an option of ChildFact::rescue: the first kit in date that the protocol has a
/// dose of for this child; the first in date when it has one of none; expired or none where there is no kit in date.
std::uint16_t rescue_option(const Scene& scene);
std::uint16_t rescue_option(const Protocol& protocol, const Child& child, Moment at);

}  // namespace rushlight
