#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace rushlight {

/// What the laws of two sets demand otherwise: a line for each law that is changed, gone or new, with its place in
/// safety.xml. Empty when both demand the same: the name of the set, the approval, sources, comments, blanks, the order
/// of the laws and a new name of one make no difference. The bytes of no file are empty.
std::vector<std::string> told_laws(std::string_view was, std::string_view now);

}  // namespace rushlight
