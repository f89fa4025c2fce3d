#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/number_changes.hpp"

namespace rushlight {

/// A set as the clinic's page holds it: as the program read it, beside the bytes it was read from. Nothing here reads
/// XML: a number is changed in the draft, and what follows is the way that every set takes.
struct ClinicSet {
  NumbersSet numbers;
  std::optional<SafetyDraft> laws;
  std::optional<ExamplesDraft> examples;
};

/// `drafts` is text_from_drafts, `files` what they were read from: each draft names its file.
Read<ClinicSet> clinic_set(const std::string& drafts, const std::vector<KeptFile>& files);

/// The set as it would be, put together and checked as `check` does it.
ProtocolSet set_with(const ClinicSet& set, const std::vector<ChangedFile>& changed);

}  // namespace rushlight
