#pragma once

#include <string>

namespace rushlight {

/// The word as it can be typed into a shell: quoted when it holds anything that a shell would change.
std::string shell_word(const std::string& word);

}  // namespace rushlight
