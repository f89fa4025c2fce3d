#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "cli/numbers_set.hpp"

namespace rushlight {

/// A change as somebody stated it.
struct Wish {
  std::vector<std::string> protocols;  // that were named; none: every protocol that has the number
  std::string id, band;
  std::string value;
  NumberStyle style = NumberStyle::point;
  Where where;            // where it was stated
  std::string cell = {};  // of a table: "line 2 of the table, column `value` (E)"
  std::string kept = {};  // the old value that the cell of the other unit still holds: "3.9 mmol/L"
};

/// "low=66 mg/dL", "illness,low/most-lows=3", "carb-by-age:under-6-years=6 g". Empty: no "=" in it, or no name before.
std::optional<Wish> wish_from_text(const std::string& text);

/// What a wish names.
struct NamedNumber {
  std::vector<NumberPlace> places;
  std::size_t band;
  std::string name;  // as it is typed, with its band
};

/// The places that a wish is for. Refuses an id, a protocol or a band that is not there, an id that means several
/// numbers while no protocol is named, and a number with bands while none of them is.
std::variant<NamedNumber, Finding> named_number(const NumbersSet& set, const Wish& wish);

/// One change worked out.
struct NumberChange {
  NamedNumber number;
  std::vector<ValueWords> before, after;  // for each place
  std::optional<GlucoseUnit> proposed;    // nobody stated this value yet
  Where where;                            // where the change was stated
};

/// A file as it would be.
struct ChangedFile {
  std::size_t file;  // in NumbersSet::files
  std::string bytes;
  Draft draft;  // as reading these bytes gives it
};

/// The files as they would be.
struct ChangePlan {
  std::vector<NumberChange> changes;
  std::vector<NamedNumber> already;  // had the value that was asked for
  std::vector<ChangedFile> files;    // those whose bytes change
  std::vector<Finding> findings;
};

/// All wishes together; with a finding that is an error there are no files. Pure.
ChangePlan planned(const NumbersSet& set, const std::vector<Wish>& wishes);

/// The words after `--change` that undo the changes, each as it is typed.
std::vector<std::string> undoing(const NumbersSet& set, const std::vector<NumberChange>& changes);

/// The value that stands for these words in `--change`: as a person reads it where that gives the very same letters
/// back.
std::string value_typed(ThresholdKind kind, const ValueWords& words);

/// Whether both are one value, however they are written.
bool same_words(ThresholdKind kind, const ValueWords& a, const ValueWords& b);

}  // namespace rushlight
