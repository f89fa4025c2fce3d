#pragma once

#include <string>
#include <vector>

namespace rushlight::house {

/// What a file of engine/ or cli/ does against the rules of the house: one line each, "line 12: ...". Empty when it keeps them.
/// `path` is relative to the tree: "engine/episode/fold.cpp".
std::vector<std::string> breaches_in(const std::string& path, const std::string& text);

}  // namespace rushlight::house
