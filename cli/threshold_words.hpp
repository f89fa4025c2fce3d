#pragma once

#include "cli/say.hpp"

// What `rushlight thresholds` says, in both languages.

namespace rushlight::threshold_words {

// The list.
inline constexpr Both kHeadName{"NUMBER", "NÚMERO"}, kHeadValue{"NOW", "AHORA"}, kHeadRange{"ALLOWED", "PERMITIDO"},
    kHeadLabel{"WHAT IT IS", "QUÉ ES"};
inline constexpr Both kOne{"In {1}", "En {1}"};
inline constexpr Both kShared{"In {1}: one number each; a change goes into all of them",
                              "En {1}: cada uno es un solo número; el cambio va a todos"};
inline constexpr Both kSource{"source: {1}", "fuente: {1}"};
inline constexpr Both kCount{"{1} numbers, {2} values.", "{1} números, {2} valores."};
inline constexpr Both kHow{"To change one: ", "Para cambiar uno: "};
inline constexpr Both kCopy{
    "This set is inside the program. Make a copy to change it: rushlight new-set my-clinic --from {1}",
    "Este conjunto está dentro del programa. Para cambiarlo, haga una copia: rushlight new-set mi-clinica --from {1}"};
inline constexpr Both kWhoDecides{
    "Which numbers are right for your children is the clinic's decision. The program does not know it.",
    "Qué números convienen a sus niños lo decide la clínica. El programa no lo sabe."};

// A change.
inline constexpr Both kIn{"in {1}", "en {1}"};
inline constexpr Both kInEach{"in {1}: one number, changed in each of them", "en {1}: un solo número, cambia en todos"};
inline constexpr Both kStays{"{1} stays as it is in {2}", "{1} queda como está en {2}"};
inline constexpr Both kWorkedOut{"nobody stated {1}: it is {2}, converted and rounded as meters print it",
                                 "nadie dio el valor en {1}: es {2}, convertido y redondeado como en un medidor"};
inline constexpr Both kSourceStays{"its source stays {1}: look whether it prints this value",
                                   "su fuente sigue siendo {1}: mire si da este valor"};
inline constexpr Both kTake{"Write {1} too? Type y for yes or n for no.",
                            "¿Escribir también {1}? Escriba s para sí o n para no."};
inline constexpr Both kTakeAll{"Write the {1} converted values too? Type y for yes or n for no.",
                               "¿Escribir también los {1} valores convertidos? Escriba s para sí o n para no."};
inline constexpr Both kAlready{"{1} is {2} already.", "{1} ya es {2}."};
inline constexpr Both kNothing{"Nothing to change. Nothing is written.",
                               "No hay nada que cambiar. No se escribió nada."};
inline constexpr Both kNothingWritten{"Nothing is written.", "No se escribió nada."};
inline constexpr Both kChecked{"Checked with the new numbers. Errors: {1}. Warnings: {2}.",
                               "Revisado con los números nuevos. Errores: {1}. Avisos: {2}."};
inline constexpr Both kNewOnes{"These come with the change:", "Estos vienen con el cambio:"};
inline constexpr Both kHadErrors{"Errors before this change: {1}.", "Errores antes de este cambio: {1}."};
inline constexpr Both kDraftHow{
    "To write it all the same, as a draft that nobody can walk: add --draft. `rushlight compare` then says what it "
    "changes.",
    "Para escribirlo igual, como borrador que nadie puede seguir: añada --draft. `rushlight compare` dice luego qué "
    "cambia."};
inline constexpr Both kDraft{"Written as a draft. Errors to mend before anybody can walk it: {1}.",
                             "Escrito como borrador. Errores que corregir antes de que alguien pueda seguirlo: {1}."};
inline constexpr Both kWritten{"Written: {1}", "Escrito: {1}"};
inline constexpr Both kLink{"{1} is a link and stays one. The file behind it was written: {2}",
                            "{1} es un enlace y lo sigue siendo. Se escribió el archivo al que lleva: {2}"};
inline constexpr Both kVoid{
    "The approval of {1} (by {2}, until {3}) was for the old numbers. It is void. Have the file approved again.",
    "La aprobación de {1} (de {2}, hasta {3}) era para los números de antes. Ya no vale. Haga aprobar el archivo otra "
    "vez."};
inline constexpr Both kUndo{"To take it back:", "Para deshacerlo:"};
inline constexpr Both kClinic{
    "The check shows that the numbers fit together. Whether they are right for your children is the clinic's decision.",
    "La revisión muestra que los números encajan. Si convienen a sus niños lo decide la clínica."};

}  // namespace rushlight::threshold_words
