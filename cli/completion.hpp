#pragma once

#include <string>
#include <vector>

#include "cli/command_words.hpp"

namespace rushlight {

/// A script for bash that completes every command, option, file, folder and closed list of `program`. `sets` are those
/// inside the program.
std::string bash_completion(const CommandWords& program, const std::vector<std::string>& sets);

/// The same for zsh.
std::string zsh_completion(const CommandWords& program, const std::vector<std::string>& sets);

}  // namespace rushlight
