#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "seal/approval_element.hpp"
#include "seal/keys.hpp"

namespace rushlight {

// An approval stands for a whole set: it names every file with its SHA-256, is signed once, and is written into each of
// them. A file that is changed, added, left out, or brought over from another approval voids it for all.

/// A file of a set: its name without a folder, and its bytes.
struct NamedBytes {
  std::string name;
  std::string_view bytes;
};

/// What the signature is over: nobody can change the name, the role, the days or a file without a new one.
std::string statement(const Approval& approval);

/// The approval of exactly these files. Empty when the secret key is none, or a name or a role cannot be said.
std::optional<Approval> signed_approval(const std::vector<NamedBytes>& files, const std::string& by,
                                        const std::string& role, const Day& on, const Day& until, const KeyPair& keys);

/// How it stands with one file of a set.
struct Sealed {
  std::string name;
  enum class State : std::uint8_t {
    fits,     // the very bytes that were approved
    none,     // it holds no approval
    changed,  // it is not what was approved
    missing,  // approved, and not here
    other,    // its approval is another one than that of the set
    unknown,  // it was not there when the set was approved
  } state;
  std::optional<Approval> approval;  // as it stands in the file
};

/// How it stands with a set.
struct SealedSet {
  std::vector<Sealed> files;  // by name
  enum class State : std::uint8_t { none, changed, untrusted, good } state = State::none;
  std::optional<Approval> approval;  // that of the set: the one most of its files hold; its `standing` is set

  const Sealed* find(const std::string& name) const;
};

/// Looks at every file. The set is good when all hold one and the same approval, under a key that is trusted here, and
/// are exactly the files that it names, byte for byte. Ed25519 (RFC 8032) and SHA-256 (FIPS 180-4), by libsodium.
SealedSet sealed_set(const std::vector<NamedBytes>& files, const std::vector<PublicKey>& trusted);

/// The same for one file without the rest of its set: whether these are the bytes that were approved under this name.
Standing standing_of(const NamedBytes& file, const std::vector<PublicKey>& trusted);

}  // namespace rushlight
