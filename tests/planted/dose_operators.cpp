#include <algorithm>

#include "planted/operators.hpp"

// Slips in the doses.

namespace rushlight::planted {
namespace {

std::string dose_of(const Markup& file, Markup::Element row) {
  return "`" + file.value(*file.around(row, "dose"), "id") + "`";
}

template <class Make>
std::vector<Fault> each_row(const Markup& file, const Make& make) {
  std::vector<Fault> faults;
  for (const Markup::Element dose : file.all("dose")) {
    const auto rows = file.within(dose, "row");
    for (std::size_t i = 0; i < rows.size(); ++i) make(rows, i, faults);
  }
  return faults;
}

std::string row_name(const Markup& file, Markup::Element row, std::size_t place) {
  return "row " + std::to_string(place + 1) + " of " + dose_of(file, row);
}

std::vector<Fault> row_attribute_removed(const Markup& file, const std::string& attribute) {
  return each_row(file, [&](const auto& rows, std::size_t i, std::vector<Fault>& faults) {
    if (file.has(rows[i], attribute))
      faults.push_back(Fault{
          {file.without(rows[i], attribute)}, rows[i], row_name(file, rows[i], i) + " without `" + attribute + "`"});
  });
}

std::vector<Fault> cap_lifted(const Markup& file) { return row_attribute_removed(file, "most"); }
std::vector<Fault> least_removed(const Markup& file) { return row_attribute_removed(file, "least"); }

std::vector<Fault> row_removed(const Markup& file) {
  return each_row(file, [&](const auto& rows, std::size_t i, std::vector<Fault>& faults) {
    faults.push_back(
        Fault{{file.without(rows[i])}, *file.around(rows[i], "dose"), row_name(file, rows[i], i) + " left out"});
  });
}

std::vector<Fault> row_condition_removed(const Markup& file) {
  return each_row(file, [&](const auto& rows, std::size_t i, std::vector<Fault>& faults) {
    for (const Markup::Element test : file.within(rows[i], "if")) {
      faults.push_back(Fault{
          {file.without(test)}, rows[i], row_name(file, rows[i], i) + " without `" + file.value(test, "fact") + "`"});
    }
  });
}

std::vector<Fault> rows_swapped(const Markup& file) {
  return each_row(file, [&](const auto& rows, std::size_t i, std::vector<Fault>& faults) {
    if (i + 1 < rows.size())
      faults.push_back(
          Fault{file.swapped(rows[i], rows[i + 1]), rows[i], row_name(file, rows[i], i) + " swapped with the next"});
  });
}

std::vector<Fault> row_edge_moved(const Markup& file) {
  return each_row(file, [&](const auto& rows, std::size_t i, std::vector<Fault>& faults) {
    for (const Markup::Element test : file.within(rows[i], "if")) {
      for (const auto& [from, to] : {std::pair{"below", "at-most"}, {"at-least", "above"}}) {
        if (!file.has(test, from)) continue;
        const std::string limit = file.value(test, from);
        faults.push_back(Fault{{file.without(test, from), file.with(test, to, limit)},
                               rows[i],
                               row_name(file, rows[i], i) + ": `" + to + "` for `" + from + "`"});
      }
    }
  });
}

std::vector<Fault> limit_of_insulin_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element dose : file.all("dose")) {
    for (const char* limit : {"floor", "no-stacking", "fresh", "to"}) {
      if (file.has(dose, limit))
        faults.push_back(
            Fault{{file.without(dose, limit)}, dose, "`" + file.value(dose, "id") + "` without `" + limit + "`"});
    }
  }
  return faults;
}

/// The threshold of this name with another value, and a range that lets it pass.
Edits threshold_with(const Markup& file, const std::string& name,
                     const std::vector<std::pair<const char*, const char*>>& values, Markup::Element& at) {
  Edits edits;
  for (const char* kind : {"glucose", "time", "insulin", "percent"}) {
    for (const Markup::Element one : file.all(kind)) {
      if (file.value(one, "id") != name || !file.has(one, "source")) continue;
      at = one;
      for (const auto& [attribute, value] : values) edits.push_back(file.with(one, attribute, value));
    }
  }
  return edits;
}

std::vector<Fault> limit_of_insulin(const Markup& file, const char* limit,
                                    const std::vector<std::pair<const char*, const char*>>& values, const char* words) {
  std::vector<Fault> faults;
  std::string told;
  for (const Markup::Element dose : file.all("dose")) {
    const std::string name = file.value(dose, limit);
    bool gives = false;  // a clinic that says every dose by phone has a table that gives none
    for (const Markup::Element row : file.within(dose, "row")) gives = gives || !file.has(row, "withheld");
    if (name.empty() || name == told || !gives) continue;
    told = name;
    Markup::Element at = dose;
    Edits edits = threshold_with(file, name, values, at);
    if (!edits.empty()) faults.push_back(Fault{std::move(edits), at, "`" + name + "`, a limit of insulin, " + words});
  }
  return faults;
}

std::vector<Fault> insulin_floor_lowered(const Markup& file) {
  return limit_of_insulin(file, "floor", {{"mg-dl", "54"}, {"mmol-l", "3.0"}, {"least", "54 mg/dL"}}, "at 54 mg/dL");
}
std::vector<Fault> no_stacking_of_no_time(const Markup& file) {
  return limit_of_insulin(file, "no-stacking", {{"value", "0 min"}, {"least", "0 min"}}, "of no time");
}
std::vector<Fault> reading_of_yesterday(const Markup& file) {
  return limit_of_insulin(file, "fresh", {{"value", "24 h"}, {"most", "24 h"}}, "of a day");
}

std::vector<Fault> rounded_otherwise(const Markup& file, bool insulin) {
  std::vector<Fault> faults;
  for (const Markup::Element dose : file.all("dose")) {
    const bool up = file.value(dose, "round") == "up";
    if ((file.value(dose, "unit") == "[iU]") != insulin) continue;
    faults.push_back(Fault{{file.with(dose, "round", up ? "down" : "up")},
                           dose,
                           "`" + file.value(dose, "id") + "` rounded " + (up ? "down" : "up")});
  }
  return faults;
}

std::vector<Fault> insulin_rounded_up(const Markup& file) { return rounded_otherwise(file, true); }
std::vector<Fault> other_rounding(const Markup& file) { return rounded_otherwise(file, false); }

/// Of insulin, and of food by mouth that the text measures out.
std::vector<Fault> dose_of_an_action_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element action : file.all("do")) {
    const std::string kind = file.value(action, "kind"), inner = file.inner(action);
    const bool measured = kind == "by-mouth" && inner.find("food") < inner.find("<on ");
    if (file.has(action, "dose") && (kind == "insulin" || measured))
      faults.push_back(
          Fault{{file.without(action, "dose")}, action, "`" + file.value(action, "id") + "` without its dose"});
  }
  return faults;
}

}  // namespace

std::vector<Operator> dose_operators() {
  constexpr Owner kExample = Owner::example;
  return {
      {"cap-lifted",
       "the most of a dose is lifted",
       {"dose-without-cap", "dose-above-cap", "beyond-published"},
       cap_lifted},
      {"least-dropped", "the least of a dose is dropped", {"dose-of-nothing", "dose-below-least", "dose-without-least"}, least_removed},
      {"insulin-limit-removed",
       "a dose loses its floor, its time, its freshness or its step",
       {"missing-attribute"},
       limit_of_insulin_removed},
      {"insulin-floor-lowered", "insulin for a child who is low", {"insulin-floor-low"}, insulin_floor_lowered},
      {"insulin-stacked", "insulin again at once", {"insulin-stacked"}, no_stacking_of_no_time},
      {"insulin-rounded-up", "insulin is rounded up", {"wrong-word"}, insulin_rounded_up},
      {"action-without-dose",
       "insulin, or food that is measured out, loses its dose",
       {"insulin-without-dose", "dose-unnamed", "blank-unfilled"},
       dose_of_an_action_removed},
      {"row-removed", "a row of a dose is left out", {}, row_removed, kExample},
      {"row-condition-removed", "a row of a dose takes more children", {}, row_condition_removed, kExample},
      {"rows-swapped", "two rows of a dose change places", {}, rows_swapped, kExample},
      {"row-edge-moved", "`at-most` for `below`, or `above` for `at-least`, in a row", {}, row_edge_moved, kExample},
      {"other-rounding", "sugar or drinks are rounded the other way", {}, other_rounding, Owner::choice},
      {"insulin-by-an-older-reading",
       "insulin by a reading of a day, as far as its new range goes",
       {},
       reading_of_yesterday,
       Owner::choice},
  };
}

}  // namespace rushlight::planted
