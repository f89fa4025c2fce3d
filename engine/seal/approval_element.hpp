#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "protocol/protocol.hpp"

namespace rushlight {

// Where an approval stands in the bytes of a file, and how it is spelled there. Anything else than this spelling in
// this place is no approval, so that no byte of a signed file can change unnoticed. docs/protocol-format.md is the page
// for it.

/// The file without the first approval, wherever it stands and however it is written: what is signed.
std::string without_approval(std::string_view bytes);

/// The approval right behind the opening tag of the root, letter by letter as with_approval writes it. Empty when there
/// is none, or one that is written in any other way.
std::optional<Approval> approval_in(std::string_view bytes);

/// There is an approval, however it is written and wherever it stands.
bool has_approval(std::string_view bytes);

/// The file with this approval put in right behind the opening tag of its root; one that was there is replaced. It adds
/// no line. Empty when the file has no such tag.
std::optional<std::string> with_approval(std::string_view bytes, const Approval& approval);

/// A name or a role that can be signed: something is in it, no control character, no blanks at its ends and no two
/// together.
bool can_be_said(std::string_view words);

}  // namespace rushlight
