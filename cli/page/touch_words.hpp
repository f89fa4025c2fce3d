#pragma once

#include <optional>
#include <string>

#include "cli/say.hpp"

namespace rushlight {

// What stands on the buttons of the page. The clinic's own texts and the sentences of cli/say.hpp stand between them.

inline constexpr Both kButtonAllDone{"All done", "Todo hecho"};
inline constexpr Both kButtonAllWentIn{"Done: all {1} went in", "Hecho: entró todo, {1}"};
inline constexpr Both kButtonAllGiven{"Done: all {1} was given", "Hecho: se dio todo, {1}"};
inline constexpr Both kButtonHowMuch{"Done. Next: how much went in", "Hecho. Ahora: cuánto entró"};
inline constexpr Both kButtonDoseAsked{"Done. Next: what the clinic said", "Hecho. Ahora: qué dijo la clínica"};
inline constexpr Both kButtonHowTheCallWent{"Say how the call went", "Decir cómo fue la llamada"};
inline constexpr Both kButtonWorse{"Something got worse", "Algo va peor"};
inline constexpr Both kButtonWhy{"Why?", "¿Por qué?"};
inline constexpr Both kButtonMistyped{"I mistyped", "Me equivoqué"};
inline constexpr Both kButtonWentWrong{"It went wrong", "Algo salió mal"};
inline constexpr Both kButtonMore{"More", "Más"};
inline constexpr Both kButtonBack{"Back to the step", "Volver al paso"};
inline constexpr Both kButtonNotKnown{"Nobody knows", "No se sabe"};
inline constexpr Both kButtonClose{"Close", "Cerrar"};
inline constexpr Both kButtonReadingNow{"Type a reading now", "Escribir una medición"};
inline constexpr Both kButtonKetonesNow{"Type ketones now", "Escribir cetonas"};
inline constexpr Both kButtonDrank{"Type what was drunk", "Escribir lo que bebió"};
inline constexpr Both kButtonEnter{"Enter", "Listo"};
inline constexpr Both kButtonNotLately{"Not in the last day", "No en el último día"};
inline constexpr Both kMinutesAgo{"minutes ago", "minutos"};
inline constexpr Both kHoursAgo{"hours ago", "horas"};
inline constexpr Both kTimes{"times", "veces"};
inline constexpr Both kUnitsWord{"units", "unidades"};

/// The same sentence for somebody who taps, where the terminal's one names a key; other texts as they are. Nothing: the
/// sentence is about keys alone and is left out.
std::optional<std::string> by_touch(const std::string& text, Language language);

}  // namespace rushlight
