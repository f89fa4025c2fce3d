#include "lockstep.hpp"

#include <algorithm>
#include <set>

#include "episode/settle.hpp"
#include "finding/quoted.hpp"
#include "measure/decimal.hpp"
#include "standing.hpp"
#include "taken_back.hpp"
#include "verify/in_words.hpp"

namespace rushlight::tests {
namespace {

constexpr int kTriesOfAnOccasion = 25;

class Judge {
 public:
  Judge(const Protocol& was, const Protocol& now, const Differences& said, Dice& dice, Judged& judged)
      : was_(was), now_(now), said_(said), dice_(dice), judged_(judged), drawn_(was, now, dice) {}

  void night() {
    child_ = drawn_.any_child();
    moment_ = Moment{Instant{std::chrono::sys_days{std::chrono::year{2026} / 3 / 1}} +
                         std::chrono::minutes(static_cast<int>(dice_.below(24 * 60))),
                     std::chrono::minutes{0}};
    Version was{was_, begun(was_, child_, moment_)}, now{now_, begun(now_, child_, moment_)};
    if (!walk("at the start", "", was, now)) return;
    for (int steps = 0; steps < 12 && judged_.complaint.empty(); ++steps) {
      if (!compare_steps(was, now)) return;
      if (was.episode.ended || now.episode.ended) return;
      if (!occasion(was, now)) return;
    }
  }

 private:
  void happens(Version& version, decltype(Event::what) what) {
    version.episode = folded(version.protocol, child_, std::move(version.episode), Event{moment_, std::move(what)});
  }

  /// Where a version stands before something happens.
  struct Left {
    StepId step;
    int entered_by;
  };
  static Left left_by(const Version& version) { return {version.episode.step, version.episode.entered_by}; }

  /// Answers what is asked until there is something to do or to wait for; false when there never is.
  bool come_to_rest(Version& version, const Values& values, const Left& left, bool leaves) {
    std::set<std::string> told;
    for (int turns = 0; turns < 80; ++turns) {
      const Step& step = version.protocol[version.episode.step];
      if (has_gone_elsewhere(version)) return false;
      const bool has_left =
          !leaves || !(version.episode.step == left.step) || version.episode.entered_by > left.entered_by;
      const bool asks_again = std::any_of(step.asks.begin(), step.asks.end(), [&](const Ask& ask) {
        return !ask.fresh && told.count(version.protocol[ask.fact].name) > 0;
      });
      if (has_left && version.episode.opening.empty() && (acts(step) || asks_again)) {
        // What was asked on the way here without a stop was known from before.
        if (version.episode.cause.kind == Cause::Kind::rule) {
          const Step& from = version.protocol[version.episode.cause.from];
          for (const Ask& ask : from.asks) {
            if (told.count(version.protocol[ask.fact].name) == 0) all_told_ = false;
          }
        }
        return true;
      }
      const std::vector<FactId> open = open_questions(version.protocol, child_, version.episode, moment_.utc);
      if (open.empty()) return false;
      note_what_was_known(version, step, open, told);
      Answers answers;
      for (const FactId fact : open) {
        const std::string& name = version.protocol[fact].name;
        answers.emplace_back(fact, values.at(name));
        told_.insert(name);
        if (version.episode.opening.empty() || version.episode.step == left.step) told.insert(name);
      }
      happens(version, Answered{std::move(answers)});
    }
    return false;
  }

  void note_what_was_known(const Version& version, const Step& step, const std::vector<FactId>& open,
                           const std::set<std::string>& told) {
    for (const Ask& ask : step.asks) {
      const bool is_open = std::find(open.begin(), open.end(), ask.fact) != open.end();
      if (!is_open && told.count(version.protocol[ask.fact].name) == 0) all_told_ = false;
    }
  }

  Values new_values() {
    told_.clear();
    all_told_ = true;
    return drawn_.any_values(child_.unit);
  }

  Occasion occasion_of(const Version& before, const Values& values) const {
    return Occasion{before, child_, moment_, values, told_, all_told_, false};
  }
  /// What a step on the way asks may be known from before and is no news then.
  Occasion told_alone(const Version& before, const Values& values) const {
    return Occasion{before, child_, moment_, values, told_, all_told_, true};
  }

  void complain(const std::string& text) {
    if (judged_.complaint.empty()) judged_.complaint = text;
  }

  std::string told_in(const Values& values) const { return told_words(was_, child_.unit, values, told_); }

  // With answers known from before, a step that has something to do is passed unseen; what differs behind it is said of
  // it. Several may be passed at one moment.
  bool is_said_of_a_step_passed(const Version& before, const Values& values) {
    const bool all_told = all_told_;
    all_told_ = false;
    const bool said = std::any_of(was_.steps.begin(), was_.steps.end(), [&](const Step& step) {
      const auto is_known = [&](const Ask& ask) { return told_.count(was_[ask.fact].name) == 0; };
      const bool known = std::any_of(step.asks.begin(), step.asks.end(), is_known);
      return known && !step.actions.empty() && !step.wait &&
             said_.is_said({Difference::Kind::leads}, "after", step.name, occasion_of(before, values));
    });
    all_told_ = all_told && !said;
    return said;
  }

  // The comparison knows no age of an answer. Where everything was told anew, no age can make the difference.
  bool is_told_of_the_question() const { return !all_told_ && said_.has(Difference::Kind::question); }

  /// False when the night is not to go on.
  bool walk(const std::string& occasion, const std::string& step, Version& was, Version& now) {
    const Version before = was;
    was_before_ = was.episode, now_before_ = now.episode;
    const Values values = new_values();
    const bool leaves = !step.empty();
    const bool at_rest = come_to_rest_both(was, now, values, leaves);
    if (at_rest) look_at_calls(occasion, step, before, values, was, now);
    return landed(occasion, step, before, values, was, now, at_rest);
  }

  void look_at_calls(const std::string& occasion, const std::string& step, const Version& before, const Values& values,
                     const Version& was, const Version& now) {
    const bool same = was.protocol[was.episode.step].name == now.protocol[now.episode.step].name;
    if (!same || called(was_before_) != called(now_before_) || called(was.episode) == called(now.episode)) return;
    ++judged_.other_calls;
    // The step calls otherwise itself, or is no emergency any more: then whoever was on the phone is gone.
    if (said_.has(Difference::Kind::action) || said_.has(Difference::Kind::urgency)) return;
    if (all_told_ && !said_.is_said({Difference::Kind::call}, occasion, step, occasion_of(before, values)) &&
        when_taken_back(values) == Apart::nothing_stands)
      complain(occasion + " `" + step + "`: another call, not said; with " + told_in(values));
  }
  bool come_to_rest_both(Version& was, Version& now, const Values& values, bool leaves) {
    const bool one = come_to_rest(was, values, left_by(was), leaves);
    return come_to_rest(now, values, left_by(now), leaves) && one;
  }

  bool landed(const std::string& occasion, const std::string& step, const Version& before, const Values& values,
              const Version& was, const Version& now, bool at_rest) {
    if (!at_rest) return false;
    ++judged_.cases;
    const std::string& one = was.protocol[was.episode.step].name;
    const std::string& other = now.protocol[now.episode.step].name;
    const bool apart = one != other && shown(was, child_, moment_) != shown(now, child_, moment_);
    const bool alike = one != other && !apart;
    if (apart) ++judged_.apart;
    bool said = said_.is_said({Difference::Kind::leads}, occasion, step, occasion_of(before, values));
    if (!said && apart) said = is_said_of_a_step_passed(before, values);
    if (apart && !said && is_told_of_the_question()) return false;
    if (apart && !said && is_not_followed(step, values)) {
      ++judged_.not_followed;
      return false;
    }
    // Of an answer that was known before, `after` may speak as of news; and a first step with something to do is told
    // as a place of its own, though the answers to the opening lead on from it at once.
    const bool at_first = step.empty() && !was_[was_.start].actions.empty();
    if (said && !apart && (!all_told_ || at_first)) return one == other;
    if (said && !apart && !alike &&
        !said_.is_said({Difference::Kind::leads}, occasion, step, told_alone(before, values)))
      return one == other;
    if (said && !apart && !alike && !step.empty() && when_taken_back(values) == Apart::yes) return one == other;
    if (said != apart && !alike)
      complain(occasion + " `" + step + "`: " + one + " and " + other + (apart ? ", not said" : ", said to differ") +
               "; with " + told_in(values) + "; the clock " +
               text_from_clock_time(scene_at(was.protocol, child_, before.episode, moment_.utc).context.clock) +
               said_.everything(step, occasion_of(before, values)));
    return one == other && have_counted_alike(was, now) && know_alike(was, now);
  }
  bool is_not_followed(const std::string& step, const Values& values) {
    if (step.empty()) return false;
    return (!all_told_ && is_known_in_part(was_, step, told_)) || when_taken_back(values) == Apart::no;
  }
  /// The comparison speaks of a step as if the dangers that led there had been taken back in it, as they may be. Where
  /// they stand, both come back to it from what does not handle them.
  enum class Apart { yes, no, nothing_stands };
  Apart when_taken_back(const Values& values) {
    Version was{was_, was_before_}, now{now_, now_before_};
    const StepId was_left = was.episode.step, now_left = now.episode.step;
    const Answers taken = dangers_taken_back(was, now, child_, moment_);
    if (taken.empty()) return Apart::nothing_stands;
    both(was, now, GotWorse{taken});
    const bool stay = was.episode.step == was_left && now.episode.step == now_left;
    if (!stay || !come_to_rest_both(was, now, values, true)) return Apart::nothing_stands;
    const bool same = was_[was.episode.step].name == now_[now.episode.step].name ||
                      shown(was, child_, moment_) == shown(now, child_, moment_);
    return same ? Apart::no : Apart::yes;
  }

  /// In one step both show the same, or compare says what differs there for this child.
  bool compare_steps(Version& was, Version& now) {
    const Step &a = was.protocol[was.episode.step], &b = now.protocol[now.episode.step];
    if (a.name != b.name) return false;
    ++judged_.content;
    const Values none;
    told_.clear();
    all_told_ = true;
    const bool differs = shown(was, child_, moment_) != shown(now, child_, moment_);
    const bool said = said_.is_said({Difference::Kind::urgency, Difference::Kind::action, Difference::Kind::order,
                                     Difference::Kind::words, Difference::Kind::dose},
                                    "in", a.name, occasion_of(was, none));
    // Texts and amounts name numbers; those are told once, as numbers and doses.
    if (differs && !said && !said_.has(Difference::Kind::number))
      complain("in `" + a.name + "`: " + shown(was, child_, moment_) + " and " + shown(now, child_, moment_) +
               ", not said");
    if (a.wait && b.wait) {
      const Duration one = std::get<Duration>(value_in(was.protocol[a.wait->lasts], context(was)));
      const Duration other = std::get<Duration>(value_in(now.protocol[b.wait->lasts], context(now)));
      const bool wait_said = said_.is_said({Difference::Kind::wait}, "in", a.name, occasion_of(was, none));
      if (one != other && !wait_said) complain("in `" + a.name + "`: another wait, not said");
      if (one != other) return false;
    }
    return a.wait.has_value() == b.wait.has_value();
  }
  Context context(const Version& version) const {
    return scene_at(version.protocol, child_, version.episode, moment_.utc).context;
  }

  template <class What>
  void both(Version& was, Version& now, const What& what) {
    for (Version* each : {&was, &now}) happens(*each, what);
  }
  bool occasion(Version& was, Version& now) {
    const std::string step = was.protocol[was.episode.step].name;
    if (dice_.chance(12)) return worse(was, now, step);
    if (dice_.chance(12)) return outcome(was, now, step);
    if (was.protocol[was.episode.step].wait && dice_.chance(8)) return nobody(was, now, step);
    return answers(was, now, step);
  }

  bool answers(Version& was, Version& now, const std::string& step) {
    const Step& here = was.protocol[was.episode.step];
    if (here.asks.empty() && !here.wait) return after_deeds(was, now, step);
    if (!here.actions.empty()) both(was, now, AllDone{});
    if (was.protocol[was.episode.step].name != step || now.protocol[now.episode.step].name != step) return false;
    if (here.wait) {
      if (!was.episode.wait_ends || !now.episode.wait_ends || *was.episode.wait_ends != *now.episode.wait_ends)
        return false;
      moment_.utc = std::max(moment_.utc, *was.episode.wait_ends);
      both(was, now, Ticked{});
      if (was.protocol[was.episode.step].name != step || now.protocol[now.episode.step].name != step) return false;
    }
    // Many answers to the same questions; the last goes on.
    Version last_was = was, last_now = now;
    bool goes_on = false;
    for (int i = 0; i < kTriesOfAnOccasion && judged_.complaint.empty(); ++i) {
      last_was.episode = was.episode;
      last_now.episode = now.episode;
      goes_on = walk("after", step, last_was, last_now);
    }
    was.episode = std::move(last_was.episode);
    now.episode = std::move(last_now.episode);
    return goes_on;
  }

  bool after_deeds(Version& was, Version& now, const std::string& step) {
    const Version before = was;
    const Values values = new_values();
    const Left was_left = left_by(was), now_left = left_by(now);
    both(was, now, AllDone{});
    const bool one = come_to_rest(was, values, was_left, true);
    const bool other = come_to_rest(now, values, now_left, true);
    return landed("after", step, before, values, was, now, one && other);
  }

  bool outcome(Version& was, Version& now, const std::string& step) {
    std::vector<ActionId> actions = was.protocol[was.episode.step].actions;
    if (actions.empty()) return false;
    const Action& action = was.protocol[dice_.one_of(actions)];
    const auto other = now.protocol.action_named(action.name);
    const auto kind = static_cast<Outcome>(dice_.below(6));
    if (!other || now.protocol[*other].step.index != now.episode.step.index ||
        !action.on[static_cast<std::size_t>(kind)])
      return false;
    const auto own = was.protocol.action_named(action.name);
    const Scene one = scene_at(was.protocol, child_, was.episode, moment_.utc);
    const Scene two = scene_at(now.protocol, child_, now.episode, moment_.utc);
    if (!applies(one, action) || !applies(two, now.protocol[*other])) return false;
    const bool leads = action.on[static_cast<std::size_t>(kind)]->go.has_value();
    const bool leads_now = now.protocol[*other].on[static_cast<std::size_t>(kind)] &&
                           now.protocol[*other].on[static_cast<std::size_t>(kind)]->go.has_value();
    if (!leads || !leads_now) return false;  // "as given" may finish the step: `answers` looks at that
    const Version before = was;
    const Values values = new_values();
    const Left was_left = left_by(was), now_left = left_by(now);
    happens(was, Done{{Deed{*own, kind, std::nullopt, std::nullopt}}});
    happens(now, Done{{Deed{*other, kind, std::nullopt, std::nullopt}}});
    const bool a = come_to_rest(was, values, was_left, true);
    const bool b = come_to_rest(now, values, now_left, true);
    return landed(quoted(action.name) + " " + std::string(name_of(kind)) + " in", step, before, values, was, now,
                  a && b);
  }

  bool nobody(Version& was, Version& now, const std::string& step) {
    const Step& here = was.protocol[was.episode.step];
    if (!was.episode.wait_ends && !here.actions.empty()) both(was, now, AllDone{});
    if (was.protocol[was.episode.step].name != step || now.protocol[now.episode.step].name != step) return false;
    if (!was.episode.wait_ends || !now.episode.wait_ends || *was.episode.wait_ends != *now.episode.wait_ends)
      return false;
    if (here.asks.empty() || now_[now.episode.step].asks.empty()) return false;
    const Duration one = std::get<Duration>(value_in(was.protocol[here.wait->overdue], context(was)));
    const Duration other =
        std::get<Duration>(value_in(now.protocol[now.protocol[now.episode.step].wait->overdue], context(now)));
    if (one != other) return false;
    const Version before = was;
    const Values values = new_values();
    const Left was_left = left_by(was), now_left = left_by(now);
    moment_.utc = *was.episode.wait_ends + one;
    both(was, now, Ticked{});
    if (was.episode.cause.kind != Cause::Kind::overdue || now.episode.cause.kind != Cause::Kind::overdue) return false;
    const bool a = come_to_rest(was, values, was_left, true);
    const bool b = come_to_rest(now, values, now_left, true);
    return landed("nobody answers in", step, before, values, was, now, a && b);
  }

  bool worse(Version& was, Version& now, const std::string& step) {
    if (was_.watch.empty()) return false;
    const Step& here = was.protocol[was.episode.step];
    if (!here.wait || was.episode.wait_passed) return false;  // told while it waits: nothing else reads it
    const Watch& watch = was_.watch[dice_.below(was_.watch.size())];
    Answers one, other;
    Values values = new_values();
    for (const Condition& condition : watch.when) {
      const auto fact = question_in(was_, condition);
      if (!fact) continue;
      const auto id = now_.fact_named(was_[*fact].name);
      values[was_[*fact].name] = drawn_.any_value(was_[*fact], child_.unit);
      const bool asked =
          std::any_of(here.asks.begin(), here.asks.end(), [&](const Ask& ask) { return ask.fact == *fact; });
      if (!id || asked) return false;
      told_.insert(was_[*fact].name);
      one.emplace_back(*fact, values[was_[*fact].name]);
      other.emplace_back(*id, values[was_[*fact].name]);
    }
    if (one.empty()) return false;
    const Version before = was;
    const Left was_left = left_by(was), now_left = left_by(now);
    happens(was, GotWorse{one});
    happens(now, GotWorse{other});
    const bool was_moved = was.episode.entered_by != was_left.entered_by,
               now_moved = now.episode.entered_by != now_left.entered_by;
    const bool a = !was_moved || come_to_rest(was, values, was_left, true);
    const bool b = !now_moved || come_to_rest(now, values, now_left, true);
    if (a && b) {
      ++judged_.cases;
      const std::string& x = was.protocol[was.episode.step].name;
      const std::string& y = now.protocol[now.episode.step].name;
      const bool apart =
          was_moved != now_moved || (x != y && shown(was, child_, moment_) != shown(now, child_, moment_));
      const bool said =
          said_.is_said({Difference::Kind::leads}, "told at any time in", step, occasion_of(before, values));
      if (apart) ++judged_.apart;
      if (apart && !said && is_told_of_the_question()) return false;
      if (apart != said && x != y)
        complain("told in `" + step + "`: " + x + " and " + y + (apart ? ", not said" : ", said to differ") + "; " +
                 in_words(was_, Event{moment_, GotWorse{one}}));
    }
    return false;
  }

  const Protocol &was_, &now_;
  const Said said_;
  Dice& dice_;
  Judged& judged_;
  Drawn drawn_;
  Child child_{};
  Moment moment_{};
  Episode was_before_{}, now_before_{};  // when the last answers were given
  bool all_told_ = true;                 // nothing was known from before
  std::set<std::string> told_;           // on this occasion, to either
};

}  // namespace

void judge(const Protocol& was, const Protocol& now, const Differences& said, Dice& dice, long cases, Judged& judged) {
  const long end = judged.cases + cases;
  for (int nights = 0; judged.cases < end && judged.complaint.empty() && nights < cases; ++nights)
    Judge(was, now, said, dice, judged).night();
}

}  // namespace rushlight::tests
