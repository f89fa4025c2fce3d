#pragma once

#include <map>
#include <string>

#include "seal/seal.hpp"

namespace rushlight::tests {

/// The files of a set by their name.
using Files = std::map<std::string, std::string>;

/// Of the tree; `path` from its top.
std::string tree_file(const std::string& path);
/// Every *.xml of a folder of the tree.
Files tree_set(const std::string& folder);
/// A protocol of one page and the laws of another: enough to go through every bit.
Files small_set();

/// The clinic of these tests.
const KeyPair& clinic();

/// Signed by Ana Rill, consultant, from 2026-03-01 until 2027-03-01.
Files approved(const Files& files, const KeyPair& keys = clinic(), const std::string& until = "2027-03-01");

SealedSet looked_at(const Files& files, const std::vector<PublicKey>& trusted = {clinic().public_key});
bool holds(const Files& files);

/// `from` once replaced by `to` in this file; it must be there.
Files changed(Files files, const std::string& name, const std::string& from, const std::string& to);

/// The element in a signed file, letter by letter.
std::string element_in(const std::string& bytes);

}  // namespace rushlight::tests
