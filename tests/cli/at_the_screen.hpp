#pragma once

#include <string>
#include <vector>

#include "cli/screen_text.hpp"
#include "episode/night.hpp"

namespace rushlight::test {

/// A person before the screen on the night of episode/night.hpp: types lines and reads what is there.
class AtTheScreen {
 public:
  explicit AtTheScreen(Child child = mara()) : night_(std::move(child)) { look(); }
  AtTheScreen(Child child, const CheckedProtocol& protocol) : night_(std::move(child), protocol) { look(); }

  AtTheScreen& at(const std::string& clock) {
    night_.at(clock);
    clock_ = clock;
    look();
    return *this;
  }
  AtTheScreen& types(const std::string& line) {
    turn_ = turn_after(situation(), dialog_, line);
    dialog_ = turn_.next;
    said_ = turn_.said;
    if (turn_.what) night_.happens(*turn_.what);
    look();
    return *this;
  }
  AtTheScreen& happens(const What& what) {
    night_.happens(what);
    look();
    return *this;
  }

  Situation situation() const {
    Situation here{night_.protocol(), night_.child(), settled_, view_, Night::moment(clock_)};
    here.first = first;
    here.saving = saving;
    return here;
  }
  Screen screen() const { return screen_of(situation(), dialog_, said_); }
  std::string text() const { return text(80); }
  std::string text(int columns) const {
    std::string all;
    for (const auto& page : pages_of(screen(), {1000, columns}, view_.language)) {
      for (const Line& line : page) all += line.text + "\n";
    }
    return all;
  }
  bool shows(const std::string& words) const { return text(1000).find(words) != std::string::npos; }

  const View& view() const { return view_; }
  const Turn& turn() const { return turn_; }
  const Dialog& dialog() const { return dialog_; }
  const Episode& episode() const { return night_.episode(); }

  bool first = false, saving = true;

 private:
  void look() {
    settled_ = settled_at(night_.protocol(), night_.child(), night_.episode(), Night::moment(clock_));
    view_ = view_of(night_.protocol(), night_.child(), settled_, Night::moment(clock_));
    dialog_ = still_meant(situation(), std::move(dialog_));
  }

  Night night_;
  std::string clock_ = "02:10:00";
  Episode settled_;
  View view_;
  Dialog dialog_ = OnStep{};
  std::string said_;
  Turn turn_{OnStep{}};
};

}  // namespace rushlight::test
