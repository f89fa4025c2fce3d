#pragma once

#include <string>

#include "protocol/child.hpp"
#include "protocol/protocol.hpp"

namespace rushlight::tests {

/// A protocol with every kind of question and action; it makes no sense as care.
const Protocol& every_word();

/// The child of these tests: 21 kg, a meter in mg/dL.
Child sample_child();

/// A child file with everything in it, as text.
std::string whole_child_file();

/// `text` with the first `old` replaced; fails the test when there is none.
std::string changed(std::string text, const std::string& old, const std::string& put);

inline constexpr Day kToday{std::chrono::year{2026}, std::chrono::March, std::chrono::day{1}};

/// The kind ids, in order, joined by blanks.
std::string kinds_of(const std::vector<Finding>& findings);

std::string file_in_tree(const std::string& path);

}  // namespace rushlight::tests
