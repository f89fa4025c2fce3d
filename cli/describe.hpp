#pragma once

#include "cli/command_words.hpp"

namespace rushlight {

// The words of a command for --help, completion and manual, and what it does: one function a command, each in a file of
// its own.

void describe_approve(CLI::App& app, Commands& commands);
void describe_approval(CLI::App& app, Commands& commands);
void describe_key(CLI::App& app, Commands& commands);
void describe_new_set(CLI::App& app, Commands& commands);
void describe_record(CLI::App& app, Commands& commands);
void describe_plan(CLI::App& app, Commands& commands);
void describe_sheet(CLI::App& app, Commands& commands);
/// `page` and `import`: a walk on a phone, and back.
void describe_page(CLI::App& app, Commands& commands);
void describe_where(CLI::App& app, Commands& commands);

/// `completion` and `man`: made from all commands.
void describe_words(CLI::App& app, Commands& commands);

}  // namespace rushlight
