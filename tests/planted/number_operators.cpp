#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

#include "planted/operators.hpp"

// Slips in the numbers a clinic may change.

namespace rushlight::planted {
namespace {

std::vector<Markup::Element> thresholds_of(const Markup& file) {
  std::vector<Markup::Element> found;
  for (const Markup::Element all : file.all("thresholds")) {
    for (const Markup::Element label : file.within(all, "en")) {
      const Markup::Element one = *file.parent(label);
      if (file.has(one, "id") && file.parent(one) == all) found.push_back(one);
    }
  }
  return found;
}

double number_in(const std::string& quantity) { return std::strtod(quantity.c_str(), nullptr); }

std::string unit_in(const std::string& quantity) {
  const std::size_t blank = quantity.find(' ');
  return blank == std::string::npos ? "" : quantity.substr(blank);
}

std::string written(double number) {
  char text[32];
  std::snprintf(text, sizeof text, number < 10 ? "%.2f" : "%.0f", number);
  std::string digits = text;
  while (digits.find('.') != std::string::npos && digits.back() == '0') digits.pop_back();
  if (digits.back() == '.') digits.pop_back();
  return digits;
}

std::string in_mmol(double mg_per_dl) {
  char text[32];
  std::snprintf(text, sizeof text, "%.1f", mg_per_dl / 18.0156);
  return text;
}

Edits glucose(const Markup& file, Markup::Element one, double mg_per_dl) {
  return {file.with(one, "mg-dl", written(mg_per_dl)), file.with(one, "mmol-l", in_mmol(mg_per_dl))};
}

template <class Make>
std::vector<Fault> each_threshold(const Markup& file, const Make& make) {
  std::vector<Fault> faults;
  for (const Markup::Element one : thresholds_of(file)) make(one, faults);
  return faults;
}

/// The thresholds that the rules of one step compare the glucose with in this way, by what their ranges say.
std::vector<Fault> border_past_its_neighbour(const Markup& file) {
  std::vector<Fault> faults;
  const auto threshold = [&](const std::string& id) -> std::optional<Markup::Element> {
    for (const Markup::Element one : thresholds_of(file)) {
      if (file.name(one) == "glucose" && file.has(one, "mg-dl") && file.value(one, "id") == id) return one;
    }
    return std::nullopt;
  };
  const auto number = [&](Markup::Element one, const char* what) { return number_in(file.value(one, what)); };
  std::vector<std::pair<Markup::Element, Markup::Element>> told;
  for (const Markup::Element step : file.all("step")) {
    std::vector<Markup::Element> below;
    for (const Markup::Element test : file.within(step, "if")) {
      if (file.value(test, "fact") != "glucose" || !file.has(test, "below") ||
          file.within(*file.parent(test), "if").size() > 1)
        continue;
      if (const auto one = threshold(file.value(test, "below"))) below.push_back(*one);
    }
    for (std::size_t i = 0; i + 1 < below.size(); ++i) {
      const Markup::Element lower = below[i], upper = below[i + 1];
      const bool meant =
          number(lower, "least") <= number(upper, "least") && number(lower, "most") <= number(upper, "most");
      const double past = number(upper, "mg-dl");
      if (lower == upper || !meant || past > number(lower, "most")) continue;
      if (std::find(told.begin(), told.end(), std::pair{lower, upper}) != told.end()) continue;
      told.emplace_back(lower, upper);
      faults.push_back(Fault{{file.with(lower, "mg-dl", file.value(upper, "mg-dl")),
                              file.with(lower, "mmol-l", file.value(upper, "mmol-l"))},
                             lower,
                             "`" + file.value(lower, "id") + "` at `" + file.value(upper, "id") + "`"});
    }
  }
  return faults;
}

std::vector<Fault> times(const Markup& file, double factor, const char* words) {
  return each_threshold(file, [&](Markup::Element one, std::vector<Fault>& faults) {
    const std::string name = "`" + file.value(one, "id") + "` " + words;
    if (file.name(one) == "glucose" && file.has(one, "mg-dl")) {
      faults.push_back(Fault{glucose(file, one, std::round(number_in(file.value(one, "mg-dl")) * factor)), one, name});
    } else if (file.has(one, "value") && file.name(one) != "clock") {
      const std::string value = file.value(one, "value");
      if (number_in(value) == 0) return;
      faults.push_back(
          Fault{{file.with(one, "value", written(number_in(value) * factor) + unit_in(value))}, one, name});
    }
  });
}

std::vector<Fault> ten_times(const Markup& file) { return times(file, 10, "times ten"); }

std::vector<Fault> pounds(const Markup& file) {
  std::vector<Fault> faults;
  for (Fault& fault : times(file, 2.2046, "in pounds")) {
    const std::string kind = file.name(fault.at);
    if (kind == "weight" || kind.find("-per-weight") != std::string::npos) faults.push_back(std::move(fault));
  }
  return faults;
}

std::vector<Fault> pair_disagrees(const Markup& file) {
  return each_threshold(file, [&](Markup::Element one, std::vector<Fault>& faults) {
    if (!file.has(one, "mmol-l")) return;
    const double other = number_in(file.value(one, "mmol-l")) + 1;
    faults.push_back(Fault{{file.with(one, "mmol-l", written(other))},
                           one,
                           "`" + file.value(one, "id") + "` with another number in mmol/L"});
  });
}

std::vector<Fault> unit_forgotten(const Markup& file) {
  return each_threshold(file, [&](Markup::Element one, std::vector<Fault>& faults) {
    const std::string value = file.value(one, "value");
    if (unit_in(value).empty()) return;
    faults.push_back(Fault{{file.with(one, "value", value.substr(0, value.find(' ')))},
                           one,
                           "`" + file.value(one, "id") + "` without its unit"});
  });
}

std::vector<Fault> hours_for_minutes(const Markup& file) {
  return each_threshold(file, [&](Markup::Element one, std::vector<Fault>& faults) {
    const std::string value = file.value(one, "value");
    if (unit_in(value) != " min" && unit_in(value) != " mg") return;
    const std::string unit = unit_in(value) == " min" ? " h" : " kg";
    faults.push_back(Fault{{file.with(one, "value", value.substr(0, value.find(' ')) + unit)},
                           one,
                           "`" + file.value(one, "id") + "` in" + unit});
  });
}

std::vector<Fault> band_cut(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element band : file.all("band")) {
    for (const char* end : {"age-up-to", "weight-up-to"}) {
      if (!file.has(band, end)) continue;
      const std::string up_to = file.value(band, end);
      faults.push_back(Fault{{file.with(band, end, written(number_in(up_to) - 1) + unit_in(up_to))},
                             *file.parent(band),
                             "a band of `" + file.value(*file.parent(band), "id") + "` ends too early"});
    }
  }
  return faults;
}

std::vector<Fault> source_removed(const Markup& file) {
  return each_threshold(file, [&](Markup::Element one, std::vector<Fault>& faults) {
    faults.push_back(Fault{{file.without(one, "source")}, one, "`" + file.value(one, "id") + "` without its source"});
  });
}

/// As far as the range of the set goes; a border that then stands at its neighbour is another slip.
std::vector<Fault> within_its_range(const Markup& file) {
  return each_threshold(file, [&](Markup::Element one, std::vector<Fault>& faults) {
    const std::string name = "`" + file.value(one, "id") + "` as far as its range goes";
    const std::string least = file.value(one, "least"), most = file.value(one, "most");
    if (file.name(one) == "glucose" && file.has(one, "mg-dl")) {
      const double now = number_in(file.value(one, "mg-dl"));
      const double to = now + (now < number_in(most) ? 1 : -1);
      if (to < number_in(least) || to > number_in(most)) return;
      faults.push_back(Fault{glucose(file, one, to), one, name});
    } else if (file.has(one, "value") && file.name(one) != "clock") {
      const std::string to = file.value(one, "value") == most ? least : most;
      if (to == file.value(one, "value")) return;
      faults.push_back(Fault{{file.with(one, "value", to)}, one, name});
    }
  });
}

}  // namespace

std::vector<Operator> number_operators() {
  return {
      {"border-past-its-neighbour",
       "a border is moved past the next one",
       {"thresholds-crossed", "rule-never-matches"},
       border_past_its_neighbour},
      {"ten-times", "a number is ten times too large", {"out-of-range"}, ten_times},
      {"pounds-for-kilograms", "a number for each kilogram, or a weight, is in pounds", {"out-of-range"}, pounds},
      {"pair-disagrees", "the two units of a glucose disagree", {"values-disagree"}, pair_disagrees},
      {"unit-forgotten", "a number has no unit", {"missing-unit"}, unit_forgotten},
      {"other-unit", "hours for minutes, kilograms for milligrams", {"wrong-unit", "out-of-range"}, hours_for_minutes},
      {"band-cut", "a band ends before the next one begins", {"bands-gap"}, band_cut},
      {"source-removed", "a number names no source", {"missing-source"}, source_removed},
      {"within-its-range", "a number is changed within its range", {}, within_its_range, Owner::choice},
  };
}

}  // namespace rushlight::planted
