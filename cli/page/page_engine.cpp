#include "cli/page/page_engine.hpp"

#include "cli/page/answered.hpp"
#include "cli/page/page_walk.hpp"

namespace {

rushlight::PageWalk& walk() {
  static rushlight::PageWalk walk;
  return walk;
}

}  // namespace

extern "C" {

const char* rushlight_open(const char* model, const char* child, const char* today) {
  return rushlight::answered([&] { return walk().open(model, child, today); });
}

const char* rushlight_call(const char* request) {
  return rushlight::answered([&] { return walk().call(request); });
}
}
