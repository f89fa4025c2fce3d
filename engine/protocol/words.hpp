#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// The closed lists of words of the protocol file, each in the order of its enum. One list serves both directions
// (name_of and the resolver), so that what is written out can always be read back.

namespace rushlight::words {

inline constexpr std::array<std::string_view, 18> kThresholdKinds{
    "glucose",      "ketones", "time",    "count",   "weight",  "age",     "carbohydrate", "carbohydrate-per-weight",
    "medicine",     "content", "portion", "clock",   "percent", "insulin", "insulin-per-weight", "fluid-per-weight",
    "medicine-per-age", "factor"};

/// Of the questions; what comes from the child file has names of its own below.
inline constexpr std::array<std::string_view, 9> kFactKinds{
    "choice", "ordered-choice", "count", "glucose", "ketones", "time-since", "age", "weight", "insulin"};

inline constexpr std::array<std::string_view, 4> kUrgencies{"home", "clinic", "clinic-now", "emergency"};

inline constexpr std::array<std::string_view, 11> kActionKinds{"by-mouth",       "glucagon", "insulin", "fluid",
                                                               "measure",        "position", "pump",    "call-clinic",
                                                               "call-emergency", "watch",    "note"};

inline constexpr std::array<std::string_view, 9> kOutcomes{"given", "part",    "refused",   "vomited", "none-here",
                                                           "wrong", "reached", "no-answer", "told"};

inline constexpr std::array<std::string_view, 3> kContacts{"clinic", "on-call", "emergency"};

inline constexpr std::array<std::string_view, 7> kFoodKinds{"juice", "soft-drink", "sugar", "tablets",
                                                            "gel",   "honey",      "other"};

inline constexpr std::array<std::string_view, 3> kDeliveries{"injections", "pump", "automatic-pump"};
inline constexpr std::array<std::string_view, 3> kStrips{"blood", "urine", "none"};
inline constexpr std::array<std::string_view, 3> kRescueKinds{"nasal", "injection", "premixed"};
inline constexpr std::array<std::string_view, 12> kChildFacts{
    "age",           "weight",        "total-daily-dose",      "delivery",              "rescue", "strips",
    "mini-dose-kit", "correction-known", "lows-in-a-day", "days-low-at-this-hour", "days-high-at-this-hour",
    "protocols-before"};
inline constexpr std::array<std::string_view, 2> kLanguages{"en", "es"};
inline constexpr std::array<std::string_view, 3> kRoundDirections{"up", "down", "nearest"};
inline constexpr std::array<std::string_view, 4> kChanges{"fallen", "stayed", "risen", "unknown"};
inline constexpr std::array<std::string_view, 4> kComparisons{"below", "at-least", "above", "at-most"};

inline constexpr std::array<std::string_view, 17> kFillers{
    "child",         "food",           "other-foods",      "glucose",      "until",   "again",
    "clinic-number", "on-call-number", "emergency-number", "second-adult", "address", "rescue-place",
    "told",          "ketones",        "drunk",            "fluid-goal",   "syringe-mark"};

template <std::size_t N>
std::optional<std::size_t> place_of(const std::array<std::string_view, N>& list, std::string_view word) {
  for (std::size_t i = 0; i < N; ++i) {
    if (list[i] == word) return i;
  }
  return std::nullopt;
}

template <std::size_t N>
std::vector<std::string> all_of(const std::array<std::string_view, N>& list) {
  return {list.begin(), list.end()};
}

}  // namespace rushlight::words
