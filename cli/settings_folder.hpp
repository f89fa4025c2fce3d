#pragma once

#include <string>

namespace rushlight {

/// Where the person's own settings lie: $XDG_CONFIG_HOME/rushlight, or ~/.config/rushlight. Empty when there is no
/// home. Source: XDG Base Directory Specification.
std::string settings_folder();

/// The clinic's secret key, under its passphrase; empty when there is no home.
std::string usual_secret_key_file();

}  // namespace rushlight
