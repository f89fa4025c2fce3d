#pragma once

namespace rushlight::tests {

inline constexpr const char* kShippedFiles[] = {"reference/low.xml",        "reference/ketones.xml",
                                                "reference/illness.xml",    "harbour-lane/low.xml",
                                                "harbour-lane/ketones.xml", "harbour-lane/illness.xml"};

}  // namespace rushlight::tests
