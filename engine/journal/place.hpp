#pragma once

#include <optional>
#include <string>
#include <variant>

#include "finding/finding.hpp"

namespace rushlight {

/// Where a journal is, or would be, once it is known that only its owner can get at it.
struct JournalPlace {
  std::string path;  // its folder without symbolic links, then its name
  bool exists;
};

/// Makes missing folders (0700). Refuses (not readable, journal damaged) as Journal::open says; changes no file, but
/// takes away the name that the journal was made under, if a killed program left it.
std::variant<JournalPlace, Kind> private_place(const std::string& path);

/// An empty file of the owner alone at `path`, where none may be yet. Empty: it is there.
std::optional<Kind> make_private_file(const std::string& path);

/// The name under which this program makes the journal that is to stand at `path`.
std::string name_of_making(const std::string& path);

/// Gives the file at `from` the name `to`, unless that name is taken; durable when it returns true.
bool name_for_good(const std::string& from, const std::string& to);

}  // namespace rushlight
