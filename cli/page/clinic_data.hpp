#pragma once

#include <string>

#include "cli/protocol_set.hpp"
#include "wire/draft_model.hpp"

namespace rushlight {

/// What the clinic's page is made of. `name` is what the set is called in a command line.
struct ClinicWish {
  const ProtocolSet& set;
  std::string name;
  bool inside_program;
  Language language;
  Day today;
};

/// A set for the page: each file by its own name, without the folder it lay in, and as it was read.
struct ClinicData {
  SetDrafts drafts;
  std::vector<KeptFile> files;
};
/// Refused is a set with a file that cannot be read to its end; what `check` finds beyond that is what the page is for.
Read<ClinicData> clinic_data(const ProtocolSet& set);

/// {"set":...,"shell":...,"inside":...,"made":...,"language":...,"approval":{...},"drafts":...,"files":[...]}, for a
/// script.
std::string json_from_clinic(const ClinicWish& wish, const ClinicData& data);

}  // namespace rushlight
