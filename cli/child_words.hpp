#pragma once

#include "cli/say.hpp"

// What `child new` says, in every language.

namespace rushlight::child_words {

inline constexpr Both kIntro{
    "This makes the child file. Everything can be changed later. Name and birth date are needed. Enter skips the rest.",
    "Esto crea la ficha del niño. Todo se puede cambiar después. Hacen falta nombre y fecha de nacimiento. Enter salta "
    "lo demás."};
inline constexpr Both kName{"The child's first name?", "¿Nombre del niño o de la niña?"};
inline constexpr Both kNeedsName{"A name is needed: it stands on every screen.",
                                 "Hace falta un nombre: sale en cada pantalla."};
inline constexpr Both kBirth{"Birth date? Year, month, day: 2019-05-14",
                             "¿Fecha de nacimiento? Año, mes, día: 2019-05-14"};
inline constexpr Both kNeedsBirth{"The birth date is needed: amounts go by age. Type it like 2019-05-14.",
                                  "Hace falta la fecha de nacimiento: las cantidades van por edad. Así: 2019-05-14."};
inline constexpr Both kDateLike{"Type the date like 2019-05-14.", "Escriba la fecha así: 2019-05-14."};
inline constexpr Both kDayNotYet{"{1} has not come yet. Type it again.", "{1} aún no ha llegado. Escríbala otra vez."};
inline constexpr Both kTooLongAgo{"{1} is too long ago. Type it again.", "{1} es demasiado atrás. Escríbala otra vez."};
inline constexpr Both kBeforeBirth{"That is before the birth date. Type it again.",
                                   "Es antes de nacer. Escríbala otra vez."};
inline constexpr Both kUnit{"What does the glucose meter show?", "¿Qué muestra el medidor de glucosa?"};
inline constexpr Both kMilligrams{"mg/dL (numbers like 110)", "mg/dL (números como 110)"};
inline constexpr Both kMillimoles{"mmol/L (numbers like 6.1)", "mmol/L (números como 6,1)"};
inline constexpr Both kWeight{"Weight in kilograms, like 21.5? In pounds, type 46 lb.",
                              "¿Peso en kilos, como 21,5? En libras, escriba 46 lb."};
inline constexpr Both kWeightLike{"\"{1}\" is not a weight I can read. Type it like 21.5 or 46 lb.",
                                  "\"{1}\" no es un peso que pueda leer. Escríbalo así: 21,5 o 46 lb."};
inline constexpr Both kWeightOutside{"{1} is no weight of a child. Type it again.",
                                     "{1} no es peso de un niño. Escríbalo otra vez."};
inline constexpr Both kWeighed{"When was that? Enter for today, or a date.",
                               "¿Cuándo se pesó? Enter si es hoy, o una fecha."};
inline constexpr Both kUnusualWeight{
    "{1} is unusual at this age: most weigh {2}. Is it really {1}, and not pounds? y or n",
    "{1} es raro a esta edad: la mayoría pesa {2}. ¿De verdad son {1}, y no libras? s o n"};
inline constexpr Both kDelivery{"How is insulin given?", "¿Cómo se pone la insulina?"};
inline constexpr Both kInjections{"injections", "inyecciones"};
inline constexpr Both kPump{"pump", "bomba"};
inline constexpr Both kAutomaticPump{"pump that doses by itself from a sensor",
                                     "bomba que dosifica sola con un sensor"};
inline constexpr Both kStrips{"Which ketone strips are at home?", "¿Qué tiras de cetonas hay en casa?"};
inline constexpr Both kBlood{"blood strips", "tiras de sangre"};
inline constexpr Both kUrine{"urine strips", "tiras de orina"};
inline constexpr Both kNone{"none", "ninguna"};
inline constexpr Both kDailyDose{"All insulin of one usual day, in units, like 15? Enter to skip.",
                                 "¿Toda la insulina de un día cualquiera, en unidades, como 15? Enter para saltar."};
inline constexpr Both kStrength{"How strong is the rapid-acting insulin, in units per mL? The pen says it, most say 100. Enter to skip.",
                                "¿Cuántas unidades por mL tiene la insulina rápida? Lo dice la pluma, casi siempre 100. Enter para saltar."};
inline constexpr Both kInsulinStep{"What is the smallest step of the pen or pump, like 0.5? Enter to skip.",
                                   "¿Cuál es el paso más pequeño de la pluma o la bomba, como 0.5? Enter para saltar."};
inline constexpr Both kCorrectionMg{"How many mg/dL does one unit bring down, as the clinic wrote? Enter to skip.",
                                    "¿Cuántos mg/dL baja una unidad, según la clínica? Enter para saltar."};
inline constexpr Both kCorrectionMmol{"How many mmol/L does one unit bring down, as the clinic wrote? Enter to skip.",
                                      "¿Cuántos mmol/L baja una unidad, según la clínica? Enter para saltar."};
inline constexpr Both kConcentration{"How many mg are in one mL once it is mixed, like 1? The box says it. Enter to skip.",
                                     "¿Cuántos mg hay en un mL ya mezclado, como 1? Lo dice la caja. Enter para saltar."};
inline constexpr Both kNumberLike{"\"{1}\" is not a number I can read. Type it like {2}.",
                                  "\"{1}\" no es un número que pueda leer. Escríbalo así: {2}."};
inline constexpr Both kDoseOutside{"{1} is outside {2}. Type it again.", "{1} está fuera de {2}. Escríbalo otra vez."};
inline constexpr Both kUnusualDose{"{1} units in one day is a lot for {2}. Is it right? y or n",
                                   "{1} unidades en un día es mucho para {2}. ¿Es correcto? s o n"};
inline constexpr Both kRescue{"Which rescue medicine (glucagon) is at home?",
                              "¿Qué medicamento de rescate (glucagón) hay en casa?"};
inline constexpr Both kAnotherRescue{"Another rescue medicine?", "¿Otro medicamento de rescate?"};
inline constexpr Both kNasal{"nose spray", "polvo para la nariz"};
inline constexpr Both kMixed{"injection that has to be mixed", "inyección que hay que mezclar"};
inline constexpr Both kReady{"injection ready to use", "inyección lista para usar"};
inline constexpr Both kNoRescue{"none", "ninguno"};
inline constexpr Both kExpires{"Its expiry date? Enter if you do not know.",
                               "¿Fecha de caducidad? Enter si no la sabe."};
inline constexpr Both kPlace{"Where is it kept?", "¿Dónde se guarda?"};
inline constexpr Both kFood{"What do you give first for a low?", "¿Qué le da primero cuando está baja?"};
inline constexpr Both kAnotherFood{"Another food for a low?", "¿Otro alimento para cuando está baja?"};
inline constexpr Both kJuice{"juice", "jugo"};
inline constexpr Both kSoftDrink{"soft drink with sugar", "refresco con azúcar"};
inline constexpr Both kSugar{"sugar", "azúcar"};
inline constexpr Both kTablets{"glucose tablets", "tabletas de glucosa"};
inline constexpr Both kGel{"glucose gel", "gel de glucosa"};
inline constexpr Both kHoney{"honey", "miel"};
inline constexpr Both kNoFood{"none", "ninguno"};
inline constexpr Both kFoodName{"What do you call it? For example: apple juice",
                                "¿Cómo lo llama? Por ejemplo: jugo de manzana"};
inline constexpr Both kPerMillilitres{"Look at the label: grams of carbohydrate in 100 mL, like 9.6?",
                                      "Mire la etiqueta: ¿gramos de carbohidratos en 100 mL, como 9,6?"};
inline constexpr Both kPerGrams{"Look at the label: grams of carbohydrate in 100 g, like 75?",
                                "Mire la etiqueta: ¿gramos de carbohidratos en 100 g, como 75?"};
inline constexpr Both kPerPiece{"Look at the label: grams of carbohydrate in one piece, like 4?",
                                "Mire la etiqueta: ¿gramos de carbohidratos en una pieza, como 4?"};
inline constexpr Both kLabelNeeded{"The label has this number. Without it, type 0: the food is left out.",
                                   "La etiqueta trae este número. Sin él, escriba 0: no se anota el alimento."};
inline constexpr Both kClinic{"The clinic's number?", "¿Número de la clínica?"};
inline constexpr Both kOnCall{"The number for nights and weekends?", "¿Número para noches y fines de semana?"};
inline constexpr Both kAdult{"A second adult to call: name?", "Otro adulto a quien llamar: ¿nombre?"};
inline constexpr Both kAdultNumber{"Their number?", "¿Su número?"};
inline constexpr Both kEmergency{"Your local emergency number?", "¿Número de emergencias de su zona?"};
inline constexpr Both kAskAddress{"The address, as you would tell an ambulance?",
                                  "¿La dirección, como se la diría a la ambulancia?"};
inline constexpr Both kTelephoneLike{"Type digits and blanks only, like 555 0100.",
                                     "Escriba solo cifras y espacios, como 555 0100."};
inline constexpr Both kTooLong{"That is too long. Type it shorter.", "Es demasiado largo. Escríbalo más corto."};
inline constexpr Both kUnderstood{"This is what I understood:", "Esto es lo que entendí:"};
inline constexpr Both kRight{"Is all of it right? y or n", "¿Está todo bien? s o n"};
inline constexpr Both kWritten{"Written to {1}. Only you can read it.", "Guardado en {1}. Solo usted puede leerlo."};
inline constexpr Both kThen{"To start: rushlight walk", "Para empezar: rushlight walk"};
inline constexpr Both kNothingWritten{"Nothing was written.", "No se guardó nada."};
inline constexpr Both kFromLabel{"the label, as typed by the family", "la etiqueta, escrita por la familia"};

// The list that is shown back.
inline constexpr Both kShowName{"Name: {1}", "Nombre: {1}"};
inline constexpr Both kShowBirth{"Born: {1}", "Nacimiento: {1}"};
inline constexpr Both kShowUnit{"Meter: {1}", "Medidor: {1}"};
inline constexpr Both kShowWeight{"Weight: {1}, on {2}", "Peso: {1}, el {2}"};
inline constexpr Both kShowNoWeight{"Weight: not known", "Peso: no se sabe"};
inline constexpr Both kShowDelivery{"Insulin by: {1}", "Insulina con: {1}"};
inline constexpr Both kShowStrips{"Ketone strips: {1}", "Tiras de cetonas: {1}"};
inline constexpr Both kShowDose{"Insulin in one day: {1} units", "Insulina en un día: {1} unidades"};
inline constexpr Both kShowStrength{"Rapid-acting insulin: {1} units in one mL", "Insulina rápida: {1} unidades por mL"};
inline constexpr Both kShowStep{"Smallest step: {1} units", "Paso más pequeño: {1} unidades"};
inline constexpr Both kShowCorrection{"One unit brings down: {1}", "Una unidad baja: {1}"};
inline constexpr Both kShowRescue{"Rescue medicine: {1}, until {2}", "Medicamento de rescate: {1}, hasta {2}"};
inline constexpr Both kShowNoRescue{"Rescue medicine: none", "Medicamento de rescate: ninguno"};
inline constexpr Both kShowFood{"Food for a low: {1}, {2}", "Alimento para una baja: {1}, {2}"};
inline constexpr Both kShowContact{"{1} {2}", "{1} {2}"};
inline constexpr Both kDateUnknown{"date not known", "fecha desconocida"};
inline constexpr Both kInHundredMillilitres{"{1} g in 100 mL", "{1} g en 100 mL"};
inline constexpr Both kInHundredGrams{"{1} g in 100 g", "{1} g en 100 g"};
inline constexpr Both kInAPiece{"{1} g in one piece", "{1} g en una pieza"};

}  // namespace rushlight::child_words
