#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "planted/operators.hpp"
#include "wire/kept_set.hpp"

namespace rushlight::planted {

/// A shipped set: its files as they are, and each protocol as elements.
struct ShippedSet {
  std::string name;
  std::vector<KeptFile> files;
  std::vector<Markup> protocols;
};
ShippedSet shipped_set(const std::string& name);

/// What the program says about the set with the fault in it.
std::vector<Finding> findings_with(const ShippedSet& set, const Markup& file, const Fault& fault);

/// What became of a planted fault.
struct Verdict {
  enum class Kind : std::uint8_t {
    by_proof,    // a finding that owns it names the place
    by_another,  // another finding, of the protocol alone
    by_law,      // of safety.xml
    by_example,  // of examples.xml
    same,        // shown: nothing decides otherwise
    nobody,
  } kind;
  std::string id;           // of the finding
  std::uint32_t lines = 0;  // from what was changed; 0 when it stands there
};
inline constexpr int kVerdicts = 6;

Verdict judged(const ShippedSet& set, const Operator& slip, const Markup& file, const Fault& fault);

}  // namespace rushlight::planted
