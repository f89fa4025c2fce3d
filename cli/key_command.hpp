#pragma once

#include <iosfwd>
#include <string>

#include "protocol/text.hpp"

namespace rushlight {

/// What is wanted of `rushlight key`, as typed. Empty: not given.
struct KeyWish {
  std::string secret;           // the file of the clinic's secret key; the usual one when empty
  std::string passphrase_file;  // for scripts
  std::string out;              // show: the file for families
  std::string key;              // trust: a file or 64 digits; forget: a name or 64 digits
  std::string name;             // trust
  bool yes = false, json = false;
  Language language = Language::en;
};

/// Makes the clinic's key: a new file that only its owner can read, the secret under a passphrase. Never over another.
int key_new(const KeyWish& wish, std::ostream& out, std::ostream& err);

/// The public key and its fingerprint; with `out` also as the file that families get.
int key_show(const KeyWish& wish, std::ostream& out, std::ostream& err);

/// Trusts a clinic's public key at this machine, after the fingerprint was compared.
int key_trust(const KeyWish& wish, std::ostream& out, std::ostream& err);

int key_list(const KeyWish& wish, std::ostream& out, std::ostream& err);

/// No longer trusts a key: what it approved no longer counts as approved here.
int key_forget(const KeyWish& wish, std::ostream& out, std::ostream& err);

}  // namespace rushlight
