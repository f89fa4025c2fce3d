#include "verify/dose_several.hpp"

#include <algorithm>
#include <cmath>

#include "verify/dose_examples.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostHalvings = 2'000, kLines = 8, kAlongALine = 200;

using Ends = DosePieces::Ends;
using Place = std::vector<std::int64_t>;

class Several {
 public:
  Several(const Protocol& protocol, const SeveralAsked& asked)
      : protocol_(protocol), asked_(asked), values_(asked.values) {
    for (const std::size_t i : asked_.counting) ends_.push_back(*asked_.spans[i]);
  }

  PlacesFound found() {
    if (is_settled(corners(ends_))) return all_same();
    look_at_places();
    if (!best_less_ && !best_more_) look_along_lines();
    if (!best_less_ && !best_more_ && is_same_all_over()) return all_same();
    return {std::move(best_less_), std::move(best_more_), false};
  }

 private:
  static PlacesFound all_same() { return {{}, {}, true}; }

  Amounts amounts_at(const Place& place) {
    for (std::size_t i = 0; i < place.size(); ++i) values_[asked_.counting[i]] = place[i];
    return {asked_.pieces.amount_at(asked_.was, asked_.piece, values_, asked_.spans),
            asked_.pieces.amount_at(asked_.now, asked_.piece, values_, asked_.spans)};
  }

  const Dimension* dimension(std::size_t i) const {
    const std::vector<Dimension>& all = asked_.piece.table->dimensions;
    return asked_.counting[i] < all.size() ? &all[asked_.counting[i]] : nullptr;
  }
  FactKind kind(std::size_t i) const {
    return dimension(i) != nullptr ? protocol_.facts[dimension(i)->subject.index].kind : FactKind::choice;
  }
  std::int64_t grain(std::size_t i) const { return asked_.pieces.grain(asked_.piece, asked_.counting[i]); }

  // Most children have about as many units a day as kilograms: of several examples the one that could be a child is
  // told. Only the choice hangs on it.
  double strangeness(const Place& place) const {
    double units = 0, kilograms = 0;
    for (std::size_t i = 0; i < place.size(); ++i) {
      if (kind(i) == FactKind::insulin) units = static_cast<double>(place[i]);
      if (kind(i) == FactKind::weight) kilograms = static_cast<double>(place[i]);
    }
    return units > 0 && kilograms > 0 ? std::abs(std::log(units / kilograms)) : 0;
  }

  void look(const Place& place) {
    const Amounts amounts = amounts_at(place);
    if (amounts.first == amounts.second) return;
    std::optional<FoundPlace>& best = is_less(amounts) ? best_less_ : best_more_;
    if (!best || strangeness(place) < strangeness(best->place)) best = FoundPlace{place, amounts};
  }

  std::vector<Place> all_of(const std::vector<Place>& tried) const {
    std::vector<Place> all{{}};
    for (const Place& values : tried) {
      std::vector<Place> longer;
      for (const Place& place : all) {
        for (const std::int64_t value : values) {
          longer.push_back(place);
          longer.back().push_back(value);
        }
      }
      all = std::move(longer);
    }
    return all;
  }

  void look_at_places() {
    const std::int64_t along = ends_.size() == 2 ? 12 : ends_.size() == 3 ? 7 : 4;
    std::vector<Place> tried;
    for (std::size_t i = 0; i < ends_.size(); ++i) tried.push_back(places_in(ends_[i], along, grain(i)));
    for (const Place& place : all_of(tried)) look(place);
  }

  // What moves an amount a little shows only where it is rounded otherwise: along the glucose of a few children, as a
  // meter shows it.
  void look_along_lines() {
    std::size_t line = 0;
    for (std::size_t i = 0; i < ends_.size(); ++i) {
      if (kind(i) == FactKind::glucose) line = i;
    }
    std::vector<Place> tried;
    for (std::size_t i = 0; i < ends_.size(); ++i)
      tried.push_back(i == line ? Place{ends_[i].least} : places_in(ends_[i], 4, grain(i)));
    std::vector<Place> children = all_of(tried);
    std::stable_sort(children.begin(), children.end(),
                     [&](const Place& a, const Place& b) { return strangeness(a) < strangeness(b); });
    children.resize(std::min(children.size(), kLines));
    for (Place& place : children) {
      for (const std::int64_t value : places_in(ends_[line], kAlongALine, grain(line))) {
        place[line] = value;
        look(place);
      }
    }
  }

  struct Box {
    std::vector<Ends> ends;
    Amounts least, greatest;
  };
  Box corners(std::vector<Ends> ends) {
    Place least, greatest;
    for (const Ends& each : ends) least.push_back(each.least), greatest.push_back(each.greatest);
    return {std::move(ends), amounts_at(least), amounts_at(greatest)};
  }
  // The amounts grow with each number, so where they are the same at the least and at the greatest of all they are the
  // same between.
  static bool is_settled(const Box& box) { return box.least == box.greatest && box.least.first == box.least.second; }

  // Halves what is not settled, the widest first, until all of it is or the search is used up.
  bool is_same_all_over() {
    std::vector<Box> open{corners(ends_)};
    for (std::size_t looked_at = 0; !open.empty(); ++looked_at) {
      if (looked_at > kMostHalvings) return false;
      const Box box = std::move(open.back());
      open.pop_back();
      if (is_settled(box)) continue;
      if (box.least.first != box.least.second || box.greatest.first != box.greatest.second) {
        Place least, greatest;
        for (const Ends& each : box.ends) least.push_back(each.least), greatest.push_back(each.greatest);
        look(box.least.first != box.least.second ? least : greatest);
        return false;
      }
      const std::size_t i = widest(box);
      const Ends ends = box.ends[i];
      if (ends.greatest - ends.least < grain(i)) continue;  // one place, and the same there
      const std::int64_t middle = ends.least + (ends.greatest - ends.least) / grain(i) / 2 * grain(i);
      for (const Ends half : {Ends{ends.least, middle}, Ends{middle + grain(i), ends.greatest}}) {
        std::vector<Ends> part = box.ends;
        part[i] = half;
        open.push_back(corners(std::move(part)));
      }
    }
    return true;
  }

  std::size_t widest(const Box& box) const {
    const auto width = [&](std::size_t i) {
      return static_cast<double>(box.ends[i].greatest - box.ends[i].least) /
             static_cast<double>(ends_[i].greatest - ends_[i].least);
    };
    std::size_t widest = 0;
    for (std::size_t i = 1; i < box.ends.size(); ++i) {
      if (width(i) > width(widest)) widest = i;
    }
    return widest;
  }

  const Protocol& protocol_;
  const SeveralAsked& asked_;
  Place values_;
  std::vector<Ends> ends_;  // of what counts
  std::optional<FoundPlace> best_less_, best_more_;
};

}  // namespace

PlacesFound look_at_several(const Protocol& protocol, const SeveralAsked& asked) {
  return Several(protocol, asked).found();
}

}  // namespace rushlight
