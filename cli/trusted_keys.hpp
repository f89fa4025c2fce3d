#pragma once

#include <string>
#include <vector>

#include "seal/seal.hpp"

namespace rushlight {

/// The folder of the public keys trusted at this machine: $XDG_CONFIG_HOME/rushlight/keys, or ~/.config/rushlight/keys.
/// Empty when there is no home. Source: XDG Base Directory Specification.
std::string trusted_keys_folder();

/// The keys of that folder, one file each (*.key). A file that others may write is not trusted, nor is one that holds no key.
std::vector<PublicKey> trusted_keys();

}  // namespace rushlight
