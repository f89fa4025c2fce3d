#pragma once

#include <optional>
#include <string>
#include <vector>

#include "finding/finding.hpp"
#include "seal/keys.hpp"

namespace rushlight {

/// A key that somebody at this machine trusts: a file NAME.key of the folder below.
struct TrustedKey {
  std::string name, file;
  PublicKey key;
};

/// A file of that folder that is not trusted, and why.
struct UntrustedFile {
  std::string file;
  enum class Why { others_may_write, no_key } why;
};

struct TrustedKeys {
  std::vector<TrustedKey> keys;  // by name
  std::vector<UntrustedFile> left_out;
};

/// The folder of the public keys trusted at this machine: `keys` in the settings folder. Empty when there is no home.
std::string trusted_keys_folder();

/// Everything in that folder. A key counts only in a file and a folder that nobody but its owner may write.
TrustedKeys trusted_keys_and_others();

/// Only the keys.
std::vector<PublicKey> trusted_keys();

/// From now on trusted under this name (a file of its own, never over another).
std::optional<Finding> trust_key(const PublicKey& key, const std::string& name);

/// No longer trusted. False when its file cannot be taken away.
bool forget_key(const TrustedKey& key);

/// Letters, digits and hyphens, at most 60: a name that is a file of that folder and nothing else.
bool can_name_a_key(const std::string& name);

}  // namespace rushlight
