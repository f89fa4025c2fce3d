#pragma once

// What the browser sees of the clinic's engine: text in, text out. Each answer stays until the next call.

extern "C" {
/// ClinicPage::add_file.
void rushlight_clinic_file(const char* name, const char* bytes);
/// ClinicPage::open.
const char* rushlight_clinic_open(const char* drafts);
/// ClinicPage::call.
const char* rushlight_clinic_call(const char* request);
}
