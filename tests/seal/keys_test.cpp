#include <algorithm>
#include <boost/test/unit_test.hpp>
#include <set>

#include "sanitized.hpp"
#include "seal/secret_key.hpp"

using namespace rushlight;

namespace {

const std::string kPassphrase = "four words of a nurse";

/// One file for all tests: each costs the Argon2id of a real one.
const std::pair<KeyPair, std::string>& kept() {
  static const std::pair<KeyPair, std::string> both = [] {
    const KeyPair keys = new_key_pair();
    return std::pair{keys, *text_from_secret_key(keys, kPassphrase)};
  }();
  return both;
}

}  // namespace

BOOST_AUTO_TEST_SUITE(keys)

BOOST_AUTO_TEST_CASE(key_is_read_from_one_line_of_hexadecimal_digits_only) {
  const PublicKey key = new_key_pair().public_key;
  BOOST_TEST((public_key_from_text(" " + key.hex + "\n") == key));
  for (const std::string& wrong : {std::string(), std::string("12"), std::string("zz"), std::string("no key"),
                                   key.hex + "0", key.hex.substr(1), key.hex + " " + key.hex})
    BOOST_TEST(!public_key_from_text(wrong).has_value());
}

BOOST_AUTO_TEST_CASE(fingerprint_is_six_groups_of_five_digits_to_read_aloud) {
  // By python3: hashlib.sha256(b"rushlight key\n" + bytes(range(32))), five bytes a group, modulo 100000.
  const PublicKey key{"000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f"};
  BOOST_TEST(fingerprint(key) == "55484 98216 65413 11320 48579 05823");
  BOOST_TEST(fingerprint(PublicKey{"no key"}).empty());
  std::set<std::string> all;
  constexpr std::size_t kMany = 500;
  for (std::size_t i = 0; i < kMany; ++i) all.insert(fingerprint(new_key_pair().public_key));
  BOOST_TEST(all.size() == kMany);
}

BOOST_AUTO_TEST_CASE(secret_key_opens_with_its_passphrase_and_with_no_other) {
  const auto opened = secret_key_from_text(kept().second, kPassphrase);
  BOOST_REQUIRE(std::holds_alternative<KeyPair>(opened));
  BOOST_TEST(std::get<KeyPair>(opened).secret_hex == kept().first.secret_hex);
  BOOST_TEST((std::get<KeyPair>(opened).public_key == kept().first.public_key));
  for (const std::string& wrong : {std::string(), std::string("Four words of a nurse"), kPassphrase + " "}) {
    const auto refused = secret_key_from_text(kept().second, wrong);
    BOOST_REQUIRE(std::holds_alternative<KeyRefusal>(refused));
    BOOST_TEST((std::get<KeyRefusal>(refused) == KeyRefusal::wrong_passphrase));
  }
}

BOOST_AUTO_TEST_CASE(secret_key_does_not_stand_in_its_file) {
  const std::string& text = kept().second;
  const std::string& secret = kept().first.secret_hex;
  for (std::size_t at = 0; at + 8 <= 64; ++at) BOOST_TEST(text.find(secret.substr(at, 8)) == std::string::npos);
  BOOST_TEST(text.find(kPassphrase) == std::string::npos);
  BOOST_TEST(*text_from_secret_key(kept().first, kPassphrase) != text, "salt and nonce must be new each time");
}

BOOST_AUTO_TEST_CASE(public_key_is_read_without_the_passphrase_and_compared_with_it) {
  const auto open = public_key_beside_secret(kept().second);
  BOOST_TEST((std::get<PublicKey>(open) == kept().first.public_key));
  std::string other = kept().second;
  other.replace(other.find(kept().first.public_key.hex), 64, new_key_pair().public_key.hex);
  const auto refused = secret_key_from_text(other, kPassphrase);
  BOOST_TEST((std::get<KeyRefusal>(refused) == KeyRefusal::other_public_key));
}

BOOST_AUTO_TEST_CASE(file_that_is_cut_longer_or_of_a_later_version_is_refused_before_any_passphrase) {
  const std::string& text = kept().second;
  for (std::size_t size = 0; size < text.size(); ++size) {
    const auto read = public_key_beside_secret(text.substr(0, size));
    BOOST_TEST(std::holds_alternative<KeyRefusal>(read));
  }
  BOOST_TEST(std::holds_alternative<KeyRefusal>(public_key_beside_secret(text + "\n")));
  std::string later = text;
  later.replace(0, 22, "rushlight secret key 2");
  BOOST_TEST((std::get<KeyRefusal>(public_key_beside_secret(later)) == KeyRefusal::newer));
  BOOST_TEST((std::get<KeyRefusal>(public_key_beside_secret("<protocol/>")) == KeyRefusal::no_key_file));
}

BOOST_AUTO_TEST_CASE(changed_box_salt_or_nonce_never_opens) {
  // Each try costs an Argon2id: a few places of each line.
  for (const char* line : {"\nsalt ", "\nnonce ", "\nbox "}) {
    std::string changed = kept().second;
    char& digit = changed[changed.find(line) + std::string(line).size() + 3];
    digit = digit == '0' ? '1' : '0';
    const auto read = secret_key_from_text(changed, kPassphrase);
    BOOST_REQUIRE(std::holds_alternative<KeyRefusal>(read));
    BOOST_TEST((std::get<KeyRefusal>(read) == KeyRefusal::wrong_passphrase));
  }
}

BOOST_AUTO_TEST_SUITE_END()
