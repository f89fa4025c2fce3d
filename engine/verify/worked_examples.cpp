#include "verify/worked_examples.hpp"

#include <algorithm>

#include "episode/fold.hpp"
#include "episode/value_from_text.hpp"
#include "episode/view.hpp"
#include "finding/quoted.hpp"
#include "verify/example_path.hpp"

namespace rushlight {

namespace {

constexpr std::chrono::minutes kOffset{-300};  // any clock does
constexpr std::chrono::sys_days kFirstOfMarch = std::chrono::year{2026} / 3 / 1;

Moment began_at(ClockTime clock) {
  return Moment{kFirstOfMarch + std::chrono::minutes{clock.minutes()} - kOffset, kOffset};
}

/// The set as the clinic would see it once it stands for it, as long as this lives. A copy of all its texts for the
/// sake of a line took as long as walking a third of the examples.
class AsIfApproved {
 public:
  explicit AsIfApproved(Protocol& protocol) : protocol_(protocol), parts_(protocol.parts) {
    for (Part& part : protocol.parts) {
      if (part.insulin_doses)
        part.approval =
            Approval{"the clinic", "as an example", kFirstOfMarch, kFirstOfMarch, {}, "", "", Standing::good};
    }
  }
  AsIfApproved(const AsIfApproved&) = delete;
  AsIfApproved& operator=(const AsIfApproved&) = delete;
  ~AsIfApproved() { protocol_.parts = std::move(parts_); }

 private:
  Protocol& protocol_;
  std::vector<Part> parts_;
};

void add_rescue(Child& child, const ExampleChild& example) {
  const Day yesterday = kFirstOfMarch - std::chrono::days{1};
  if (example.rescue) child.rescue.push_back({*example.rescue, std::nullopt, "", std::nullopt});
  if (example.rescue_expired) child.rescue.push_back({RescueKind::injection, yesterday, "", std::nullopt});
  if (example.mini_dose_kit)
    child.rescue.push_back({RescueKind::injection, std::nullopt, "", Quantity{Decimal::whole(1), Unit::mg_per_ml}});
}

Child child_of(const ExampleChild& example, Language language) {
  Child child{};
  child.name = "the child";
  child.birth = Day{kFirstOfMarch} - std::chrono::months{example.age.months()};
  child.weight = example.weight;
  if (example.weight) child.weighed = Day{kFirstOfMarch};
  child.total_daily_dose = example.total_daily_dose;
  if (example.total_daily_dose) child.daily_dose_on = Day{kFirstOfMarch};
  child.insulin_step = example.insulin_step;
  child.insulin_strength = Quantity{Decimal::whole(100), Unit::unit_per_ml};
  child.correction_factor = example.correction_factor;
  child.unit = example.unit;
  child.delivery = example.delivery;
  child.strips = example.strips;
  add_rescue(child, example);
  child.language = language;
  return child;
}

class Walk {
 public:
  Walk(const Protocol& protocol, const WorkedExample& example, std::vector<Finding>& findings)
      : protocol_(protocol),
        example_(example),
        findings_(findings),
        setting_{child_of(example.child, protocol.languages.front()), began_at(example.begins), {}},
        episode_(beginning(protocol, setting_)),
        now_(setting_.began) {}

  void go() {
    for (const ExampleMoment& moment : example_.moments) {
      now_ = Moment{setting_.began.utc + moment.after, setting_.began.offset};
      after_ = hours_and_minutes(moment.after);
      tell(Ticked{});  // what has passed by then is passed once
      for (const ExampleLine& line : moment.lines) {
        if (!std::visit([&](const auto& each) { return happens(each); }, line)) return;
      }
    }
  }

 private:
  Episode seen_settled() const { return settled_at(protocol_, setting_.child, episode_, now_); }
  std::string ended_at() const { return "the night has ended at " + quoted(protocol_[seen_settled().step].name); }
  View seen() const { return view_of(protocol_, setting_.child, episode_, now_); }

  template <class What>
  bool tell(What what) {
    episode_ = folded(protocol_, setting_.child, std::move(episode_), Event{now_, std::move(what)});
    return true;
  }

  bool stuck(const Where& where, std::string why) {
    findings_.push_back(Finding{Severity::warning, where, ExampleStuck{example_.name, after_, std::move(why)}, {}});
    return false;
  }

  bool happens(const ExampleAnswers& told) {
    if (seen_settled().ended) return stuck(told.answers.front().second.where, ended_at());
    Answers answers;
    for (const auto& [fact, word] : told.answers) {
      auto value = value_from_text(word.text, protocol_[fact], setting_.child.unit);
      if (auto* kind = std::get_if<Kind>(&value)) {
        findings_.push_back(Finding{Severity::error, word.where, std::move(*kind), std::nullopt});
        return false;
      }
      answers.emplace_back(fact, std::get<Value>(std::move(value)));
    }
    return told.worse ? tell(GotWorse{std::move(answers)}) : tell(Answered{std::move(answers)});
  }

  bool happens(const ExampleDeed& deed) {
    const View view = seen();
    const auto shown = std::find_if(view.actions.begin(), view.actions.end(),
                                    [&](const ShownAction& action) { return action.id == deed.action; });
    const std::string name = quoted(protocol_[deed.action].name);
    if (view.ended || shown == view.actions.end())
      return stuck(deed.where, name + " is not among the actions of " + quoted(view.step));
    if (is_call(shown->kind)) return stuck(deed.where, name + " is a call: write `<call>`");
    return tell(Done{{Deed{deed.action, deed.outcome, deed.amount, std::nullopt}}});
  }

  bool happens(const ExampleAllDone& done) {
    if (seen_settled().ended) return stuck(done.where, ended_at());
    return tell(AllDone{});
  }

  bool happens(const ExampleCall& call) {
    const View view = seen();
    const bool open = std::any_of(view.open_calls.begin(), view.open_calls.end(),
                                  [&](const ShownCall& each) { return each.contact == call.contact; });
    if (!open) return stuck(call.where, "nobody is to call " + quoted(std::string(name_of(call.contact))));
    return tell(Called{call.contact, call.outcome, call.outcome == Outcome::told ? "as said" : ""});
  }

  bool happens(const Expectation& expected) {
    if (!is_as_expected(seen_settled(), expected)) compare(seen(), expected);
    return true;
  }

  /// What needs no screen to be seen: most examples expect a step, and it is the one.
  bool is_as_expected(const Episode& settled, const Expectation& expected) const {
    if (expected.dose || (expected.urgency && expected.urgency->first != urgency_of(protocol_, settled))) return false;
    const Part* part = protocol_.part_of(settled.step);
    return (!expected.step || expected.step->text == protocol_[settled.step].name) &&
           (!expected.protocol || expected.protocol->text == (part != nullptr ? part->name : protocol_.name));
  }

  void differs(const View& view, const Where& where, std::string what, std::string came, std::string expected) {
    findings_.push_back(
        Finding{Severity::warning, where,
                ExampleDiffers{example_.name, after_, std::move(what), std::move(came), std::move(expected)},
                led_there(view)});
  }

  /// What led to the step that is shown, and what it says: that is where a slip is looked for.
  Because led_there(const View& view) const {
    const Episode episode = seen_settled();
    const std::string screen = quoted(view.step) + ", which says: " + view.headline;
    const Cause& cause = episode.cause;
    const Step& from = protocol_[cause.from];
    switch (cause.kind) {
      case Cause::Kind::rule: {
        const std::string rule = "rule " + std::to_string(cause.index + 1) + " of step " + quoted(from.name);
        if (cause.index < from.rules.size()) return Because{rule + " led to " + screen, from.rules[cause.index].where};
        break;
      }
      case Cause::Kind::watch:
        if (cause.index < protocol_.watch.size()) {
          const Watch& watch = protocol_.watch[cause.index];
          return Because{"watch " + quoted(watch.name) + " led to " + screen, watch.where};
        }
        break;
      case Cause::Kind::outcome:
        if (cause.index < protocol_.actions.size()) {
          const Action& action = protocol_.actions[cause.index];
          const auto& rule = action.on[static_cast<std::size_t>(cause.outcome)];
          const std::string outcome = quoted(std::string(name_of(cause.outcome))) + " of " + quoted(action.name);
          return Because{outcome + " led to " + screen, rule ? rule->where : action.where};
        }
        break;
      case Cause::Kind::overdue:
        if (from.wait) return Because{"the wait of step " + quoted(from.name) + ", which nobody answered, led to " + screen, from.wait->where};
        break;
      case Cause::Kind::start:
        break;
    }
    return Because{"step " + screen, protocol_[episode.step].where};
  }

  void compare(const View& view, const Expectation& expected) {
    if (expected.protocol && expected.protocol->text != view.protocol) {
      differs(view, expected.protocol->where, "protocol", quoted(view.protocol), quoted(expected.protocol->text));
    } else if (expected.step && expected.step->text != view.step) {
      differs(view, expected.step->where, "step", quoted(view.step), quoted(expected.step->text));
    }
    if (expected.urgency && expected.urgency->first != view.urgency)
      differs(view, expected.urgency->second, "urgency", quoted(std::string(name_of(view.urgency))),
              quoted(std::string(name_of(expected.urgency->first))));
    if (expected.dose) compare_dose(view, expected);
  }

  void compare_dose(const View& view, const Expectation& expected) {
    const std::string what = "dose " + quoted(expected.dose->text);
    const Where& where = expected.amount ? expected.amount->second : expected.withheld->where;
    const std::string wanted = expected.amount ? text_from_quantity(expected.amount->first) : "withheld";
    const auto shown = std::find_if(view.actions.begin(), view.actions.end(), [&](const ShownAction& action) {
      const std::optional<DoseId> dose = protocol_[action.id].dose;
      return dose && action.dose && protocol_[*dose].name == expected.dose->text;
    });
    if (shown == view.actions.end()) return differs(view, expected.dose->where, what, kNotOnTheScreen, wanted);
    const DoseResult& dose = *shown->dose;
    if (!dose.amount) {
      if (expected.amount) differs(view, where, what, "withheld (" + dose.working + ")", wanted);
      return;
    }
    if (!expected.amount || !(expected.amount->first == *dose.amount))
      differs(view, where, what, text_from_quantity(*dose.amount), wanted);
  }

  const Protocol& protocol_;
  const WorkedExample& example_;
  std::vector<Finding>& findings_;
  Setting setting_;
  Episode episode_;
  Moment now_;
  std::string after_;
};

}  // namespace

WorkedExamples walked_examples(Protocol& whole, const std::vector<WorkedExample>& examples) {
  WorkedExamples walked;
  if (examples.empty()) return walked;
  const AsIfApproved approved(whole);
  std::size_t expectations = 0;
  for (const WorkedExample& example : examples) {
    Walk(whole, example, walked.findings).go();
    for (const ExampleMoment& moment : example.moments) {
      for (const ExampleLine& line : moment.lines) expectations += std::holds_alternative<Expectation>(line) ? 1U : 0U;
    }
  }
  if (walked.findings.empty())
    walked.shown =
        ExamplesCome{whole.name, LookedAt{examples.size(), "example"}, LookedAt{expectations, "expectation"}};
  return walked;
}

}  // namespace rushlight
