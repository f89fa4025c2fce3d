#include "verify/side.hpp"

#include <algorithm>

namespace rushlight {

Stretches Stretches::first(std::size_t count) {
  Stretches all;
  all.put(0, static_cast<std::uint32_t>(count));
  return all;
}

void Stretches::put(std::uint32_t from, std::uint32_t up_to) {
  if (from < up_to) runs_.push_back({from, up_to});
}

bool Stretches::test(std::size_t place) const {
  return std::any_of(runs_.begin(), runs_.end(),
                     [&](const Run& run) { return run.from <= place && place < run.up_to; });
}

void Stretches::set(std::size_t place) {
  const auto at = static_cast<std::uint32_t>(place);
  Stretches wider;
  Run added{at, at + 1};
  for (const Run& run : runs_) {
    if (run.up_to < added.from) {
      wider.runs_.push_back(run);
    } else if (run.from > added.up_to) {
      wider.runs_.push_back(added);
      added = run;
    } else {
      added = {std::min(run.from, added.from), std::max(run.up_to, added.up_to)};
    }
  }
  wider.runs_.push_back(added);
  runs_ = std::move(wider.runs_);
}

void Stretches::reset(std::size_t place) {
  const auto at = static_cast<std::uint32_t>(place);
  remove(Run{at, at + 1});
}

void Stretches::keep(const Run& run) {
  std::size_t kept = 0;
  for (const Run& each : runs_) {
    const Run both{std::max(each.from, run.from), std::min(each.up_to, run.up_to)};
    if (both.from < both.up_to) runs_.begin()[kept++] = both;
  }
  runs_.shorten(kept);
}

void Stretches::remove(const Run& run) {
  if (runs_.size() == 1 && (run.from <= runs_.front().from || run.up_to >= runs_.front().up_to)) {
    Run& only = runs_.front();  // nothing falls in two, which is what most cuts are
    if (run.from <= only.from) {
      only.from = std::max(only.from, run.up_to);
    } else {
      only.up_to = std::min(only.up_to, run.from);
    }
    if (only.from >= only.up_to) runs_.clear();
    return;
  }
  Stretches one;
  one.put(run.from, run.up_to);
  remove(one);
}

void Stretches::remove(const Stretches& other) {
  Stretches left;
  auto out = other.runs_.begin();
  for (Run run : runs_) {
    while (out != other.runs_.end() && out->up_to <= run.from) ++out;
    for (auto cut = out; cut != other.runs_.end() && cut->from < run.up_to; ++cut) {
      left.put(run.from, std::max(run.from, cut->from));
      run.from = std::min(run.up_to, cut->up_to);
    }
    left.put(run.from, run.up_to);
  }
  runs_ = std::move(left.runs_);
}

Stretches& Stretches::operator&=(const Stretches& other) {
  if (other.runs_.size() == 1) {
    keep(other.runs_.front());
    return *this;
  }
  Stretches both;
  auto mine = runs_.begin();
  auto theirs = other.runs_.begin();
  while (mine != runs_.end() && theirs != other.runs_.end()) {
    both.put(std::max(mine->from, theirs->from), std::min(mine->up_to, theirs->up_to));
    if (mine->up_to < theirs->up_to) {
      ++mine;
    } else {
      ++theirs;
    }
  }
  runs_ = std::move(both.runs_);
  return *this;
}

bool Stretches::meets(const Stretches& other) const {
  auto mine = runs_.begin();
  auto theirs = other.runs_.begin();
  while (mine != runs_.end() && theirs != other.runs_.end()) {
    if (mine->up_to <= theirs->from) {
      ++mine;
    } else if (theirs->up_to <= mine->from) {
      ++theirs;
    } else {
      return true;
    }
  }
  return false;
}

bool Stretches::contains(const Stretches& other) const {
  auto mine = runs_.begin();
  for (const Run& run : other.runs_) {
    while (mine != runs_.end() && mine->up_to <= run.from) ++mine;
    if (mine == runs_.end() || mine->from > run.from || mine->up_to < run.up_to) return false;
  }
  return true;
}

}  // namespace rushlight
