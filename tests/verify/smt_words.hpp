#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "protocol/protocol.hpp"

// The words of SMT-LIB that the tests write, and the names they give to what a protocol reads.

namespace rushlight::tests::smt {

// Numbers are in thousandths, the finest that a meter, a scale or a file has; ages in months, times in seconds.
inline constexpr const char* kLo = "(- 1)";
inline constexpr const char* kHi = "1000000000";

inline std::string call(const std::string& what, const std::string& a, const std::string& b) {
  return "(" + what + " " + a + " " + b + ")";
}
inline std::string no(const std::string& a) { return "(not " + a + ")"; }
inline std::string all_of(const std::vector<std::string>& parts) {
  std::string text = "(and true";
  for (const std::string& part : parts) text += " " + part;
  return text + ")";
}
inline std::string any_of(const std::vector<std::string>& parts) {
  std::string text = "(or false";
  for (const std::string& part : parts) text += " " + part;
  return text + ")";
}
inline std::string choose(const std::string& which, const std::string& yes, const std::string& otherwise) {
  return "(ite " + which + " " + yes + " " + otherwise + ")";
}
inline std::string number(std::int64_t value) { return std::to_string(value); }
inline std::string thousandths(Decimal value) { return number(value.micros() / 1'000); }

inline std::string value_of(FactId fact) { return "v" + std::to_string(fact.index); }
inline std::string known(FactId fact) { return "k" + std::to_string(fact.index); }
inline std::string count_of(CounterId counter) { return "c" + std::to_string(counter.index); }
inline std::string given(ActionId action) { return "d" + std::to_string(action.index); }
inline std::string change_of(MarkId mark) { return "g" + std::to_string(mark.index); }

}  // namespace rushlight::tests::smt
