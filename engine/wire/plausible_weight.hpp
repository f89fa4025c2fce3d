#pragma once

#include "measure/amounts.hpp"

namespace rushlight {

/// The weights that are taken without a question at an age. Outside, a person is asked: pounds typed as kilograms, or a
/// slip.
struct WeightRange {
  BodyWeight least;
  BodyWeight most;
};

/// Boys and girls together, straight lines between the rows of the table, as far as 20 years and the same from there
/// on. Source: birth to 5 years, WHO Child Growth Standards 2006, weight-for-age, the -3 SD line of girls (from memory)
/// and the +3 SD line of boys (girls from 48 months on, from memory), each a tenth wider; from 6 years, CDC growth
/// charts 2000, weight-for-age LMS values, the lighter 3rd and the heavier 97th percentile of both sexes, a fifth
/// lighter and a quarter heavier. The widening is common practice, no source: it lets unusual children through and
/// still stops most pounds.
WeightRange plausible_weight(Age age);

/// The largest total daily dose taken without a question, in insulin units for each kilogram of body weight: 2.
/// Source: Lamb, Pediatric type 1 diabetes (2021): adolescents may need as much as 2 units/kg a day.
Decimal most_daily_insulin_per_kilogram();

}  // namespace rushlight
