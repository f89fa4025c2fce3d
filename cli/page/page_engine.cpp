#include "cli/page/page_engine.hpp"

#include <exception>

#include "cli/page/page_walk.hpp"

namespace {

rushlight::PageWalk& walk() {
  static rushlight::PageWalk walk;
  return walk;
}

// Whatever goes wrong inside is an answer: the page shows its first-aid card.
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

}  // namespace

extern "C" {

const char* rushlight_open(const char* model, const char* child, const char* today) {
  return answered([&] { return walk().open(model, child, today); });
}

const char* rushlight_call(const char* request) {
  return answered([&] { return walk().call(request); });
}
}
