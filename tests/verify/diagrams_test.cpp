#include "verify/diagrams.hpp"

#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <random>

using namespace rushlight;

namespace {

const std::vector<std::uint16_t> kSizes{3, 2, 4, 3};
const std::vector<bool> kInOrder{true, false, true, false};
using Values = Diagrams::Values;

/// Sets so small that every combination can be looked at.
struct SmallSet {
  Diagrams diagrams{kSizes};
  Diagrams::Set set = Diagrams::kNone;
  std::vector<Values> members;

  explicit SmallSet(unsigned seed) {
    std::mt19937 random(seed);
    for (unsigned boxes = 1 + random() % 4; boxes > 0; --boxes) {
      Diagrams::Choices choices;
      for (const std::uint16_t size : kSizes) {
        std::vector<bool> takes;
        for (std::uint16_t i = 0; i < size; ++i) takes.push_back(random() % 3 != 0);
        choices.push_back(random() % 2 == 0 ? std::nullopt : std::optional(takes));
      }
      set = diagrams.either(set, diagrams.within(choices));
    }
    each([&](const Values& values) {
      if (diagrams.meets(set, diagrams.only(values))) members.push_back(values);
    });
  }

  template <class Visit>
  static void each(Visit visit) {
    for (std::uint16_t a = 0; a < kSizes[0]; ++a) {
      for (std::uint16_t b = 0; b < kSizes[1]; ++b) {
        for (std::uint16_t c = 0; c < kSizes[2]; ++c) {
          for (std::uint16_t d = 0; d < kSizes[3]; ++d) visit(Values{a, b, c, d});
        }
      }
    }
  }

  bool holds(const Values& values) const { return std::find(members.begin(), members.end(), values) != members.end(); }
  bool holds_all(const Diagrams::Choices& box) const {
    bool all = true;
    each([&](const Values& values) { all = all && (!is_in(box, values) || holds(values)); });
    return all;
  }
  static bool is_in(const Diagrams::Choices& box, const Values& values) {
    for (std::size_t v = 0; v < values.size(); ++v) {
      if (box[v] && !(*box[v])[values[v]]) return false;
    }
    return true;
  }

  /// By its definition: whole variables from the last, then the values beside.
  Diagrams::Choices slow_box_around(const Values& point) const {
    Diagrams::Choices box;
    for (std::size_t v = 0; v < point.size(); ++v) {
      box.emplace_back(std::vector<bool>(kSizes[v], false));
      (*box[v])[point[v]] = true;
    }
    for (std::size_t v = box.size(); v-- > 0;) {
      Diagrams::Choices wider = box;
      wider[v].reset();
      if (holds_all(wider)) box = wider;
    }
    for (std::size_t v = 0; v < box.size(); ++v) {
      if (!box[v]) continue;
      const auto takes = [&](std::size_t value) {
        Diagrams::Choices wider = box;
        (*wider[v])[value] = true;
        if (!holds_all(wider)) return false;
        box = wider;
        return true;
      };
      for (std::size_t value = point[v] + 1U; value < kSizes[v] && (takes(value) || !kInOrder[v]);) ++value;
      for (std::size_t value = point[v]; value > 0 && (takes(value - 1) || !kInOrder[v]);) --value;
    }
    return box;
  }
};

}  // namespace

BOOST_AUTO_TEST_SUITE(diagrams)

BOOST_AUTO_TEST_CASE(box_around_a_combination_is_what_trying_every_value_gives) {
  std::size_t boxes = 0;
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SmallSet small(seed);
    for (const Values& point : small.members) {
      const Diagrams::Choices box = small.diagrams.box_around(small.set, point, kInOrder);
      BOOST_TEST((box == small.slow_box_around(point)), "seed " << seed);
      ++boxes;
    }
  }
  BOOST_TEST(boxes > 3'000U);
}

BOOST_AUTO_TEST_CASE(values_in_a_set_are_those_of_its_combinations) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SmallSet small(seed);
    std::vector<std::vector<bool>> values;
    for (const std::uint16_t size : kSizes) values.emplace_back(size, false);
    for (const Values& member : small.members) {
      for (std::size_t v = 0; v < member.size(); ++v) values[v][member[v]] = true;
    }
    BOOST_TEST((small.diagrams.values_in({small.set}) == values), "seed " << seed);
  }
}

BOOST_AUTO_TEST_CASE(a_set_is_read_by_the_variables_of_which_it_does_not_take_every_value_alike) {
  for (unsigned seed = 1; seed <= 300; ++seed) {
    SmallSet small(seed);
    for (std::size_t v = 0; v < kSizes.size(); ++v) {
      bool told_apart = false;
      SmallSet::each([&](Values values) {
        const bool held = small.holds(values);
        for (values[v] = 0; values[v] < kSizes[v]; ++values[v]) told_apart = told_apart || small.holds(values) != held;
      });
      BOOST_TEST(small.diagrams.read_by(small.set)[v] == told_apart, "seed " << seed << ", variable " << v);
    }
  }
}

BOOST_AUTO_TEST_SUITE_END()
