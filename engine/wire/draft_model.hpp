#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "finding/finding.hpp"
#include "protocol/draft.hpp"
#include "protocol/examples_draft.hpp"
#include "protocol/safety_draft.hpp"

namespace rushlight {

/// A set as it is written: what was read from its files, before an id is looked up.
struct SetDrafts {
  std::vector<Draft> protocols;
  std::optional<SafetyDraft> laws;
  std::optional<ExamplesDraft> examples;
};

/// The drafts as text that another build of the engine reads back as the very same, every word with its place. So that
/// it can resolve and check a set with other numbers and has no reader of XML.
std::string text_from_drafts(SetDrafts drafts);

/// Back again. Refuses a text that was cut, changed by accident (its sum) or written by another version of this format.
Read<SetDrafts> drafts_from_text(std::string_view text);

}  // namespace rushlight
