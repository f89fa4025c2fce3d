#include <algorithm>

#include "generate.hpp"
#include "parts.hpp"

namespace rushlight::naive {

namespace {

Value some_value(Dice& dice, const Protocol& protocol, FactId id, Duration beat) {
  const Fact& fact = protocol[id];
  if (dice.chance(12)) return CantTell{};
  switch (fact.kind) {
    case FactKind::count:
      return Count{dice.between(0, 4)};
    case FactKind::time_since:
      return dice.chance(15) ? Value{NotLately{}} : Value{Ago{beat * dice.between(0, 12)}};
    case FactKind::ketones:
      return dice.chance(10) ? KetoneReading::hi()
                             : KetoneReading::reading(
                                   BloodKetones{Decimal::of_micros(dice.between(3, 17) * 100'000), kMillimolePerLitre});
    case FactKind::glucose: {
      const GlucoseUnit unit = dice.chance(70) ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
      if (dice.chance(8)) return dice.chance(50) ? Glucose::lo(unit) : Glucose::hi(unit);
      const Decimal border = Decimal::whole(dice.between(6, 9) * 10 + dice.between(-1, 1));
      return Glucose::reading(unit == GlucoseUnit::mg_per_dl ? border : other_value(border, GlucoseUnit::mg_per_dl),
                              unit);
    }
    default:
      return Chosen{static_cast<std::uint16_t>(dice.below(fact.options.size() + (dice.chance(40) ? 0 : 1)) %
                                               fact.options.size())};
  }
}

class NextEvent {
 public:
  NextEvent(Dice& dice, const Protocol& protocol, const Episode& episode, const std::vector<FactId>& asked, Moment at,
            Duration beat)
      : dice_(dice), protocol_(protocol), episode_(episode), asked_(asked), at_(at), beat_(beat) {}

  decltype(Event::what) drawn() {
    const int lot = dice_.between(1, 100);
    if (lot <= 42 && !asked_.empty()) return answered();
    if (lot <= 50) return Answered{{any_answer()}};
    if (lot <= 55) return got_worse();
    if (lot <= 63) return corrected();
    if (lot <= 77) return done();
    if (lot <= 84) return AllDone{};
    if (lot <= 91) return call();
    if (lot <= 94) return TakenOver{"somebody"};
    if (lot <= 95) return Abandoned{"enough"};
    if (lot <= 96) return LanguageChanged{dice_.chance(50) ? Language::es : Language::en};
    return Ticked{};
  }

 private:
  std::pair<FactId, Value> answer_to(FactId fact) { return {fact, some_value(dice_, protocol_, fact, beat_)}; }
  std::pair<FactId, Value> any_answer() {
    const int asked = static_cast<int>(protocol_.facts.size());
    return answer_to(FactId{static_cast<std::uint16_t>(dice_.between(kChildFacts, asked - 1))});
  }

  Answered answered() {
    Answered said{{answer_to(asked_.front())}};
    for (std::size_t i = 1; i < asked_.size(); ++i) {
      if (dice_.chance(50)) said.answers.push_back(answer_to(asked_[i]));
    }
    return said;
  }

  GotWorse got_worse() {
    if (dice_.chance(30)) return GotWorse{};
    if (dice_.chance(50)) return GotWorse{{{FactId{kChildFacts}, Chosen{2}}}};
    return GotWorse{{any_answer()}};
  }

  Corrected corrected() {
    Corrected said{{any_answer()}};
    const auto second = any_answer();
    if (dice_.chance(20) && !(second.first == said.answers.front().first)) said.answers.push_back(second);
    return said;
  }

  Done done() {
    const std::vector<ActionId>& here = protocol_[episode_.step].actions;
    std::vector<ActionId> choice = here;
    if ((here.empty() || dice_.chance(8)) && !protocol_.actions.empty()) {
      choice = {ActionId{static_cast<std::uint16_t>(dice_.below(protocol_.actions.size()))}};
    }
    Done done;
    for (int i = dice_.chance(15) ? 2 : 1; i > 0 && !choice.empty(); --i) {
      const ActionId id = dice_.one_of(choice);
      if (is_call(protocol_[id].kind)) continue;
      Deed deed{id, dice_.chance(55) ? Outcome::given : static_cast<Outcome>(dice_.between(0, 5)), {}, {}};
      if (dice_.chance(30)) deed.when = Moment{at_.utc - beat_ * dice_.between(0, 6), at_.offset};
      done.deeds.push_back(deed);
    }
    return done;
  }

  Called call() {
    constexpr Outcome kOutcomesOfCalls[] = {Outcome::reached, Outcome::no_answer, Outcome::told};
    const Outcome outcome = dice_.one_of(kOutcomesOfCalls);
    Contact contact = static_cast<Contact>(dice_.between(0, 2));
    if (!episode_.calls.empty() && dice_.chance(75)) contact = dice_.one_of(episode_.calls).contact;
    return Called{contact, outcome, outcome == Outcome::told ? "Give more." : ""};
  }

  Dice& dice_;
  const Protocol& protocol_;
  const Episode& episode_;
  const std::vector<FactId>& asked_;
  Moment at_;
  Duration beat_;
};

}  // namespace

Event next_event(Dice& dice, const Protocol& protocol, const Episode& episode, const std::vector<FactId>& asked,
                 Moment before, Duration beat) {
  constexpr int kBeatsLater[] = {0, 0, 0, 1, 1, 1, 2, 2, 3, 4, 5, 8};
  Moment at = before;
  if (dice.chance(4)) {
    at.utc -= beat * dice.between(1, 8);
  } else {
    at.utc += beat * dice.one_of(kBeatsLater);
  }
  if (dice.chance(3)) at.offset += std::chrono::minutes{dice.chance(50) ? 60 : -30};
  return Event{at, NextEvent(dice, protocol, episode, asked, at, beat).drawn()};
}

Child child_from(Dice& dice) {
  Child child = plain_child();
  child.delivery = static_cast<Delivery>(dice.between(0, 2));
  child.birth = dice.chance(50) ? *day_from_text("2020-01-15") : *day_from_text("2020-03-02");
  if (dice.chance(30)) child.weight.reset();
  if (dice.chance(60)) {
    child.rescue.push_back({static_cast<RescueKind>(dice.between(0, 2)),
                            *day_from_text(dice.chance(30) ? "2026-03-01" : "2027-03-01"), ""});
  }
  return child;
}

Moment evening_from(Dice& dice) {
  Moment moment = *moment_from_text("2026-03-01T20:00:00-05:00");
  moment.utc += std::chrono::minutes{10 * dice.between(0, 30)};
  return moment;
}

}  // namespace rushlight::naive
