#include "cli/page/clinic_engine.hpp"

#include "cli/page/answered.hpp"
#include "cli/page/clinic_page.hpp"

namespace {

rushlight::ClinicPage& clinic_page() {
  static rushlight::ClinicPage page;
  return page;
}

}  // namespace

extern "C" {

void rushlight_clinic_file(const char* name, const char* bytes) { clinic_page().add_file(name, bytes); }

const char* rushlight_clinic_open(const char* drafts) {
  return rushlight::answered([&] { return clinic_page().open(drafts); });
}

const char* rushlight_clinic_call(const char* request) {
  return rushlight::answered([&] { return clinic_page().call(request); });
}
}
