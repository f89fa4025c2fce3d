#include "nights/random_sick_day.hpp"

namespace rushlight::test {

RandomSickDay::RandomSickDay(const CheckedProtocol& protocol, Child child, std::uint32_t number)
    : protocol_(protocol),
      child_(std::move(child)),
      dice_(number),
      now_(*moment_from_text("2026-03-01T02:10:00-05:00")),
      episode_(begun(protocol.protocol(), child_, now_)) {}

std::optional<RandomSickDay::Told> RandomSickDay::told(const std::string& fact) const {
  for (const auto& [id, told] : told_) {
    if (protocol()[id].name == fact) return told;
  }
  return std::nullopt;
}

// Mostly what lets a day go on, so that the days get long; now and then everything else.
Value RandomSickDay::any_value(const Fact& fact) {
  if (below(12) == 0) return CantTell{};
  switch (fact.kind) {
    case FactKind::glucose: {
      const int number = 45 + below(below(2) == 0 ? 150 : 420);
      return below(40) == 0 ? Glucose::lo(GlucoseUnit::mg_per_dl) : Glucose::reading(Decimal::whole(number), GlucoseUnit::mg_per_dl);
    }
    case FactKind::ketones:
      return KetoneReading::reading(BloodKetones{Decimal::of_micros(100'000 * below(below(3) == 0 ? 40 : 16)), kMillimolePerLitre});
    case FactKind::count:
      return Count{below(3) == 0 ? below(6) : 0};
    case FactKind::time_since:
      return below(2) == 0 ? Value{NotLately{}} : Value{Ago{std::chrono::minutes{10 * below(40)}}};
    default:
      break;
  }
  const bool sound = below(8) != 0;
  if (fact.name == "awake" || fact.name == "swallow" || fact.name == "breathing-normally") return Chosen{static_cast<std::uint16_t>(sound ? 0 : below(2))};
  if (fact.yes_no) return Chosen{static_cast<std::uint16_t>(sound ? 1 : 0)};
  return Chosen{static_cast<std::uint16_t>(sound ? 0 : below(static_cast<int>(fact.options.size())))};
}

void RandomSickDay::happen(decltype(Event::what) what) {
  const Event event{now_, std::move(what)};
  events_.push_back(event);
  episode_ = folded(protocol(), child_, std::move(episode_), event);
}

void RandomSickDay::answer(FactId fact, const Value& value) {
  happen(Answered{{{fact, value}}});
  std::erase_if(told_, [&](const auto& each) { return each.first == fact; });
  told_.push_back({fact, Told{value, now_.utc}});
}

void RandomSickDay::deal_with(const ShownAction& action) {
  if (is_call(action.kind)) {
    happen(Called{protocol()[action.id].call->contact, below(3) == 0 ? Outcome::no_answer : Outcome::reached, ""});
    return;
  }
  Deed deed{action.id, below(6) == 0 ? Outcome::refused : Outcome::given, std::nullopt, std::nullopt};
  if (action.kind == ActionKind::fluid) {
    deed.outcome = Outcome::part;
    deed.amount = Quantity{Decimal::whole(5 * (1 + below(30))), Unit::millilitre};
    drunk_ += static_cast<int>(deed.amount->value.micros() / Decimal::kMicrosPerOne);
  }
  if (action.kind == ActionKind::insulin && deed.outcome == Outcome::given) insulin_.push_back(now_.utc);
  happen(Done{{deed}});
}

View RandomSickDay::step() {
  const View view = view_of(protocol(), child_, episode_, now_);
  if (!view.ask.empty() && below(10) != 0) {
    now_.utc += std::chrono::seconds{5 + below(40)};
    answer(view.ask.front().id, any_value(protocol()[view.ask.front().id]));
  } else if (!view.actions.empty() && below(5) != 0) {
    now_.utc += std::chrono::seconds{5 + below(120)};
    deal_with(view.actions[static_cast<std::size_t>(below(static_cast<int>(view.actions.size())))]);
  } else {
    now_.utc += std::chrono::minutes{1 + below(view.wait ? 150 : 10)};
    happen(Ticked{});
  }
  return view_of(protocol(), child_, episode_, now_);
}

}  // namespace rushlight::test
