#pragma once

#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "episode/fold.hpp"
#include "episode/view.hpp"
#include "verify/check.hpp"

namespace rushlight::test {

/// A caregiver who answers whatever is asked with whatever dice say, does or does not do what is shown, corrects, and lets time
/// pass. The same number gives the same day.
class RandomSickDay {
 public:
  RandomSickDay(const CheckedProtocol& protocol, Child child, std::uint32_t number);

  /// One more event; the view after it.
  View step();

  const std::vector<Event>& events() const { return events_; }
  const Episode& episode() const { return episode_; }
  const Child& child() const { return child_; }
  const Protocol& protocol() const { return protocol_.protocol(); }
  Moment now() const { return now_; }

  /// What was told last, as the caregiver knows it; kept apart from the engine.
  struct Told {
    Value value;
    Instant when;
  };
  std::optional<Told> told(const std::string& fact) const;
  /// When insulin went in, as the caregiver knows it.
  const std::vector<Instant>& insulin() const { return insulin_; }
  /// Millilitres told as drunk.
  int drunk() const { return drunk_; }

 private:
  int below(int count) { return static_cast<int>(dice_() % static_cast<std::uint32_t>(count)); }
  Value any_value(const Fact& fact);
  void happen(decltype(Event::what) what);
  void answer(FactId fact, const Value& value);
  void deal_with(const ShownAction& action);

  CheckedProtocol protocol_;
  Child child_;
  std::mt19937 dice_;
  Moment now_;
  Episode episode_;
  std::vector<Event> events_;
  std::vector<std::pair<FactId, Told>> told_;
  std::vector<Instant> insulin_;
  int drunk_ = 0;
};

}  // namespace rushlight::test
