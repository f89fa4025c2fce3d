#pragma once

#include <iosfwd>
#include <optional>
#include <string>
#include <variant>

#include "finding/finding.hpp"
#include "seal/secret_key.hpp"

namespace rushlight {

/// There is no such file: nobody has made the clinic's key yet, or it lies elsewhere. A command ends with 2 then.
std::optional<Finding> no_secret_key(const std::string& file);

/// The clinic's key, its passphrase asked for (cli/passphrase), or why it cannot be used. Refuses a file that others
/// may read.
std::variant<KeyPair, Finding> opened_secret_key(const std::string& file, const std::string& passphrase_file,
                                                 std::ostream& asks);

/// The public key beside it; needs no passphrase.
std::variant<PublicKey, Finding> public_key_of(const std::string& secret_key_file);

}  // namespace rushlight
