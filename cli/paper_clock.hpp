#pragma once

#include <optional>
#include <string>

#include "cli/clock.hpp"
#include "protocol/text.hpp"

namespace rushlight {

/// For a night that was kept on paper while the phone or the power was dead: the clock stands at the time that is being entered
/// and moves by what is typed, never back, never beyond the real one. "now" lets it go on as the real clock.
class PaperClock : public Clock {
 public:
  /// Stands at the latest `from` that has passed by the real clock.
  PaperClock(const Clock& real, ClockTime from);
  Moment now() const override { return at_ ? *at_ : real_.now(); }
  int practice() const override { return real_.practice(); }
  bool is_paper() const { return at_.has_value(); }
  /// Not before this moment: what was entered before stays before.
  void not_before(const Moment& earliest);

  /// What is left of a typed line once its time is taken off ("02:25 84" leaves "84"). A time that has not come yet is a
  /// refusal, to be said.
  struct Taken {
    std::string rest;
    std::string refusal;
  };
  Taken take(const std::string& typed, Language language);

 private:
  const Clock& real_;
  std::optional<Moment> at_;
};

}  // namespace rushlight
