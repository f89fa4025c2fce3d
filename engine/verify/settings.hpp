#pragma once

#include <string>
#include <vector>

#include "verify/example_path.hpp"

// Private to engine/verify: the children and hours that a protocol tells apart, for examples.

namespace rushlight {

/// Something about the child or the hour that a protocol may look at, with values that are told apart.
struct Trait {
  std::string name;                 // as in the file: "delivery"
  std::vector<std::string> values;  // "injections", "pump", "automatic-pump"
};

/// One value of each trait, by its place.
using Choices = std::vector<std::size_t>;

/// Those that the protocol reads, or that its bands depend on. The first value of each is the usual one.
std::vector<Trait> traits_of(const Protocol& protocol);

/// An invented child, and the moment at which the episode begins, with these values.
Setting setting_with(const Protocol& protocol, const std::vector<Trait>& traits, const Choices& choices);

}  // namespace rushlight
