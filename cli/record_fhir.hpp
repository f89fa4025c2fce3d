#pragma once

#include <string>
#include <vector>

#include "protocol/child.hpp"
#include "record/night_record.hpp"

namespace rushlight {

/// The readings as an HL7 FHIR R4 Bundle (docs/record.md): the patient, an Observation for each glucose and each ketone
/// reading with LOINC and UCUM, and for each episode a Provenance that names the protocol and its version. The same
/// records give the same bytes.
std::string fhir_from_records(const std::vector<NightRecord>& nights, const Child& child);

}  // namespace rushlight
