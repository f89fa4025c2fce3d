#include "cli/page/clinic_engine.hpp"

#include <exception>

#include "cli/page/clinic_page.hpp"

namespace {

rushlight::ClinicPage& clinic_page() {
  static rushlight::ClinicPage page;
  return page;
}

// Whatever goes wrong inside is an answer: the page says that it cannot work the numbers out.
template <class Call>
const char* told(Call call) {
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

void rushlight_clinic_file(const char* name, const char* bytes) { clinic_page().add_file(name, bytes); }

const char* rushlight_clinic_open(const char* drafts) {
  return told([&] { return clinic_page().open(drafts); });
}

const char* rushlight_clinic_call(const char* request) {
  return told([&] { return clinic_page().call(request); });
}
}
