#include "picture/decision_map.hpp"

namespace rushlight {
namespace {

bool is_number(const AxisValue& value) {
  return value.kind == AxisValue::Kind::number || value.kind == AxisValue::Kind::border;
}

// Numbers that nothing tells apart become one band; LO, HI, "can't tell" and each option stay bands of their own.
template <class Same>
std::vector<Stretched> bands_of(const std::vector<AxisValue>& values, Same same) {
  std::vector<Stretched> bands{{0, 0}};
  for (std::size_t i = 1; i < values.size(); ++i) {
    if (is_number(values[i - 1]) && is_number(values[i]) && same(i - 1, i)) {
      bands.back().last = i;
    } else {
      bands.push_back({i, i});
    }
  }
  return bands;
}

// Nothing reaches across the gap beside a mark of the meter or "can't tell".
bool stand_together(const std::vector<AxisValue>& values, const Stretched& one, const Stretched& other) {
  const AxisValue::Kind a = values[one.first].kind, b = values[other.first].kind;
  return (is_number(values[one.first]) && is_number(values[other.first])) ||
         (a == AxisValue::Kind::option && b == AxisValue::Kind::option);
}

}  // namespace

Regions regions_of(const Decisions& decisions) {
  Regions all;
  const std::vector<AxisValue>& across = decisions.across.values;
  const std::vector<AxisValue> none;
  const std::vector<AxisValue>& down = decisions.down ? decisions.down->values : none;
  all.columns = bands_of(across, [&](std::size_t one, std::size_t other) {
    for (std::size_t row = 0; row < decisions.rows(); ++row) {
      if (!(decisions.at(one, row) == decisions.at(other, row))) return false;
    }
    return true;
  });
  all.rows = bands_of(down, [&](std::size_t one, std::size_t other) {
    for (std::size_t column = 0; column < across.size(); ++column) {
      if (!(decisions.at(column, one) == decisions.at(column, other))) return false;
    }
    return true;
  });
  const auto decided = [&](std::size_t column, std::size_t row) -> const Decided& {
    return decisions.at(all.columns[column].first, all.rows[row].first);
  };
  std::vector<std::vector<bool>> taken(all.rows.size(), std::vector<bool>(all.columns.size()));
  const auto is_free = [&](std::size_t column, std::size_t row, const Decided& as) {
    return !taken[row][column] && decided(column, row) == as;
  };
  for (std::size_t row = 0; row < all.rows.size(); ++row) {
    for (std::size_t column = 0; column < all.columns.size(); ++column) {
      if (taken[row][column]) continue;
      const Decided& as = decided(column, row);
      std::size_t right = column, low = row;
      while (right + 1 < all.columns.size() && stand_together(across, all.columns[right], all.columns[right + 1]) &&
             is_free(right + 1, row, as)) {
        ++right;
      }
      const auto row_is_free = [&](std::size_t next) {
        for (std::size_t i = column; i <= right; ++i) {
          if (!is_free(i, next, as)) return false;
        }
        return true;
      };
      while (low + 1 < all.rows.size() && stand_together(down, all.rows[low], all.rows[low + 1]) &&
             row_is_free(low + 1)) {
        ++low;
      }
      for (std::size_t y = row; y <= low; ++y) {
        for (std::size_t x = column; x <= right; ++x) taken[y][x] = true;
      }
      all.regions.push_back(Region{{column, right}, {row, low}, as});
    }
  }
  return all;
}

}  // namespace rushlight
