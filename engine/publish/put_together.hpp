#pragma once

#include "record/night_record.hpp"

namespace rushlight {

/// The timeline of a long episode for one page: where nothing is new, up to `most` lines one after the other are one.
/// Nothing is new where the advice and each answer have stood in a line before, and what was done is drinks and
/// calls; with `answers_too` an answer may be told for the first time. An emergency begins a line of its own each time,
/// and so has what is corrected, given against a low or ketones, or a danger sign. One line for several says from when
/// to when, the least and the highest reading, every answer and every advice, and how often.
std::vector<RecordLine> put_together(const NightRecord& night, std::size_t most, bool answers_too);

}  // namespace rushlight
