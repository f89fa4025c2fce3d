#pragma once

#include "record/night_record.hpp"

namespace rushlight {

/// What a clinic reads first, as sentences: the same on paper and as text.
struct RecordSummary {
  std::string title;
  std::vector<std::string>
      head;  // the worst and what stands now first; then the child, from when to when, the protocol
  std::vector<std::string> totals, calls;
  std::vector<std::string> sources;  // "[1] Publisher 2022, title: Treat as low below 70 mg/dL"
  std::string foot;                  // that it does not replace the clinic
};

RecordSummary summary_of(const NightRecord& night);

}  // namespace rushlight
