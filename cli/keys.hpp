#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace rushlight {

/// What a key means, the same on every screen. English / Spanish: w / p worse, t / d can't tell, b / v mistyped, and in
/// both r why, m more, x trouble with an action, c how a call went, a beep again, q stop, Enter go on. The letters of
/// both languages always count, whatever the screen speaks: no letter means two things.
enum class Key { enter, worse, cant_tell, back, why, more, trouble, call, beep, stop };

/// The key for one letter or its word ("worse", "por qué"), whatever the case and the accents; "?" is "can't tell".
/// Empty for anything else.
std::optional<Key> key_from_text(std::string_view typed);

/// 1 to 99 typed alone. Empty for anything else, also for 0.
std::optional<int> number_from_text(std::string_view typed);

/// The letters of what may happen meanwhile, in their order: no key, no yes or no, and nothing that a meter shows, so
/// that beside them a number is always a step or a reading.
inline constexpr std::string_view kMeanwhileLetters = "efghijkl";

/// The place of a letter typed alone in kMeanwhileLetters, whatever the case. Empty for anything else.
std::optional<std::size_t> meanwhile_place_from_text(std::string_view typed);

/// What stands behind "ketones" or "cetonas", whatever the case: "1.6", "HI", or nothing. Empty for anything else.
std::optional<std::string> ketones_named_in(std::string_view typed);

/// y, yes, s, si, sí / n, no, in either language.
std::optional<bool> yes_no_from_text(std::string_view typed);

}  // namespace rushlight
