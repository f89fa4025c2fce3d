#pragma once

#include <string>
#include <vector>

#include "cli/protocol_set.hpp"
#include "protocol/draft.hpp"
#include "read/stated_value.hpp"

namespace rushlight {

/// A protocol of the set, its words beside what they mean: place for place they are the same.
struct NumbersFile {
  std::string name, bytes;
  Draft draft;
  Protocol protocol;
};

struct NumberPlace {
  std::size_t file, threshold;  // in NumbersSet::files, in the thresholds of that file
  friend bool operator==(const NumberPlace&, const NumberPlace&) = default;
};

/// One number of a clinic. Files that give the same value and the same label to one id mean one number: it is listed
/// once and changed in all of them.
struct Number {
  std::string name;  // to be typed: "low", or "illness,ketones/most-late-checks" where the id alone means several
  std::vector<NumberPlace> places;
};

/// A set opened for its numbers.
struct NumbersSet {
  std::string path;  // as it was named
  bool inside_program = false;
  std::vector<NumbersFile> files;
  std::vector<KeptFile> beside;   // not listed and not changed, but checked with the others: laws, refused files, and
                                  // for a single file the rest of its set
  std::vector<Finding> findings;  // why a file is not listed
  FileTexts texts;
  std::vector<Number> numbers;  // those of most files first, otherwise in file order

  const Threshold& threshold(NumberPlace place) const { return files[place.file].protocol.thresholds[place.threshold]; }
  const DraftThreshold& draft(NumberPlace place) const { return files[place.file].draft.thresholds[place.threshold]; }
  const std::string& protocol(NumberPlace place) const { return files[place.file].protocol.name; }
};

/// The set of this name: a folder, a protocol file, or a set that travels inside the program. With a file, the other
/// files of its folder that belong to the same set are checked with it. What is on this disk comes first.
NumbersSet numbers_set(const std::string& name);

/// Adds a protocol that was read. What refuses it comes back, and then it is not added.
std::vector<Finding> add_draft(NumbersSet& set, const std::string& file, const std::string& bytes, Read<Draft> draft);

/// Makes the list of numbers of the files that are in the set.
void collect_numbers(NumbersSet& set);

/// The words of a value as the file has them; `band` counts from the first.
ValueWords words_of(const DraftThreshold& threshold, std::size_t band);

/// "illness, ketones" or "illness,ketones": the protocols a number belongs to.
std::string protocols_of(const NumbersSet& set, const std::vector<NumberPlace>& places, const std::string& between);

}  // namespace rushlight
