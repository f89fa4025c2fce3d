#pragma once

#include <string>
#include <vector>

#include "planted/markup.hpp"

namespace rushlight::planted {

/// One fault, as somebody who writes a protocol might make it, in one place.
struct Fault {
  Edits edits;
  Markup::Element at;  // what was changed, or what stood there
  std::string what;
  std::vector<Markup::Element> also = {};  // what a report may name as well: the question that it is about
};

/// Whose it is to find a fault of a kind.
enum class Owner : std::uint8_t {
  proof,    // a proof has to find every one of them, and name the place
  example,  // the protocol still fits together and does something else: examples and laws find it, or nobody but a
            // comparison
  choice,   // a clinic may want it so: no mistake, and only a comparison of the old protocol with the new shows it
};

/// A kind of slip, everywhere in a file where it can be made.
struct Operator {
  std::string name;
  std::string slip;              // "a rule is left out"
  std::vector<std::string> ids;  // of the findings that have to tell it, where a proof has to
  std::vector<Fault> (*faults)(const Markup&);
  Owner owner = Owner::proof;
  bool in_rules = false;  // it changes the rules of one step and nothing else
};

std::vector<Operator> rule_operators();
std::vector<Operator> night_operators();
std::vector<Operator> danger_operators();
std::vector<Operator> number_operators();
std::vector<Operator> dose_operators();
std::vector<Operator> text_operators();
std::vector<Operator> set_operators();
std::vector<Operator> all_operators();

}  // namespace rushlight::planted
