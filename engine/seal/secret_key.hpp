#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>

#include "seal/keys.hpp"

namespace rushlight {

// The clinic's secret key as it lies on a disk: under a passphrase. docs/key-format.md is the page for it.

enum class KeyRefusal {
  no_key_file,       // something else, or a part of one
  newer,             // of a later version of the program
  wrong_passphrase,  // or the box was changed: the two cannot be told apart
  other_public_key,  // the public key beside the box is not the one that belongs to it
  no_memory,         // Argon2id wants 256 MiB
};

/// The file's text. Every call makes another one, since salt and nonce are new. Empty when there is no memory for it.
std::optional<std::string> text_from_secret_key(const KeyPair& keys, std::string_view passphrase);

/// Opens the box. Takes half a second or more, on purpose: that is what a guess costs.
std::variant<KeyPair, KeyRefusal> secret_key_from_text(std::string_view text, std::string_view passphrase);

/// What can be read without the passphrase. Nobody vouches for it: opening the box compares it.
std::variant<PublicKey, KeyRefusal> public_key_beside_secret(std::string_view text);

}  // namespace rushlight
