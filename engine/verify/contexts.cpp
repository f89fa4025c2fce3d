#include "verify/contexts.hpp"

#include <algorithm>

namespace rushlight {

namespace {

template <class Value>
void add(std::vector<Value>& edges, const std::optional<Value>& edge) {
  if (edge && std::find(edges.begin(), edges.end(), *edge) == edges.end()) edges.push_back(*edge);
}

template <class Value>
std::optional<Value> after(const std::vector<Value>& edges, std::size_t place) {
  if (place + 1 == edges.size()) return std::nullopt;
  return edges[place + 1];
}

}  // namespace

std::vector<ContextCell> context_cells(const Protocol& protocol, const std::vector<ThresholdId>& thresholds) {
  std::vector<Age> ages{Age::of_months(0)};
  std::vector<BodyWeight> weights{BodyWeight{Decimal{}, kKilogram}};
  std::vector<ClockTime> clocks{ClockTime::of_minutes(0)};
  for (const ThresholdId id : thresholds) {
    for (const Band& band : protocol[id].bands) {
      add(ages, band.age_from);
      add(ages, band.age_up_to);
      add(weights, band.weight_from);
      add(weights, band.weight_up_to);
      add(clocks, band.clock_from);
      add(clocks, band.clock_up_to);
    }
  }
  std::sort(ages.begin(), ages.end());
  std::sort(weights.begin(), weights.end());
  std::sort(clocks.begin(), clocks.end());
  std::vector<ContextCell> cells;
  for (std::size_t a = 0; a < ages.size(); ++a) {
    for (std::size_t w = 0; w < weights.size(); ++w) {
      for (std::size_t c = 0; c < clocks.size(); ++c) {
        cells.push_back(ContextCell{ages[a], after(ages, a), weights[w], after(weights, w), clocks[c], after(clocks, c),
                                    ages.size() > 1, weights.size() > 1, clocks.size() > 1});
      }
    }
  }
  return cells;
}

}  // namespace rushlight
