#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "finding/finding.hpp"
#include "protocol/threshold.hpp"

namespace rushlight {

/// The words of one value as a protocol holds them, without their quote signs. A glucose has the two units and no
/// `value`, everything else a `value` alone.
struct ValueWords {
  std::string value, mg_dl, mmol_l;
  friend bool operator==(const ValueWords&, const ValueWords&) = default;
};

/// How numbers were written. In a table with a decimal comma a point may part thousands, so that "1.500" is doubtful
/// there; "1,500" is doubtful everywhere.
enum class NumberStyle : std::uint8_t { point, comma };

/// What a person wrote as the new value of a number, as the file will hold it.
struct StatedValue {
  ValueWords words;
  std::optional<GlucoseUnit> proposed;  // this value was not stated: it was worked out from the other one
};

/// Understands "66 mg/dL, 3.7 mmol/L", "66 mg/dL", "20 minutes", "3,5 g", "6 years", "9:30", each by a rule and never
/// by a guess; what the file takes as it is stays letter for letter. Of a glucose the value that is not stated is what
/// its unit prints for the one that is (measure/glucose, other_value). What cannot be understood of a glucose, and what
/// may be a thousand or a fraction, is a finding here; every other wrong number is left as it is, for the reader of
/// protocols to refuse (threshold_edit).
Read<StatedValue> stated_value(ThresholdKind kind, std::string_view text, const Where& where,
                               NumberStyle style = NumberStyle::point);

}  // namespace rushlight
