#pragma once

#include <exception>
#include <string>

namespace rushlight {

/// The answer as the browser takes it; it stays until the next call. Whatever goes wrong inside is an answer as well: the
/// walk shows its first-aid card, the clinic's page says that it cannot work the numbers out.
template <class Call>
const char* answered(Call call) {
  static std::string answer;
  try {
    answer = call();
  } catch (const std::exception&) {
    answer = R"({"error":{"severity":"error","kind":"not-readable","sentence":"the engine has no room left"}})";
  }
  return answer.c_str();
}

}  // namespace rushlight
