#pragma once

#include <string>

#include "protocol/text.hpp"

namespace rushlight {

/// A sentence of the terminal's own, written in every language; "{1}" to "{3}" are blanks.
struct Both {
  const char* en;
  const char* es;
};

std::string say(const Both& both, Language language, const std::string& one = "", const std::string& two = "",
                const std::string& three = "");

// Beside the child's name.
inline constexpr Both kPractice{"practice clock, {1} times as fast", "reloj de práctica, {1} veces más rápido"};
inline constexpr Both kPracticeOnly{"practice clock", "reloj de práctica"};
inline constexpr Both kNotApproved{"not approved", "sin aprobar"};
inline constexpr Both kChangedSince{"changed since approval", "cambiada tras aprobarse"};
inline constexpr Both kKeyNotTrusted{"key not trusted", "clave sin confianza"};
inline constexpr Both kNotYetApproved{"not approved yet", "aún sin aprobar"};
inline constexpr Both kApprovalEnded{"approval ended", "aprobación terminada"};
inline constexpr Both kPaper{"entering from paper", "pasando del papel"};
inline constexpr Both kPaperHow{"Type the time in front: 02:25 84. At the end type: now",
                                "Escriba la hora delante: 02:25 84. Al final escriba: ahora"};
inline constexpr Both kPaperBefore{"{1} is before {2}, which is told already. Type a later time, or: now",
                                   "Las {1} son antes de las {2}, que ya se contaron. Escriba otra hora, o: ahora"};
inline constexpr Both kPaperNotYet{"{1} has not come yet. Type the time on the paper, or: now",
                                   "Todavía no son las {1}. Escriba la hora del papel, o: ahora"};
inline constexpr Both kNotSaved{"NOT BEING SAVED. Go on. If this stops, it starts from the top.",
                                "NO SE GUARDA. Siga. Si esto se cierra, empieza desde el principio."};
inline constexpr Both kPage{"Page {1} of {2}.", "Página {1} de {2}."};
inline constexpr Both kNextPage{"Enter: next.", "Enter: sigue."};

// The first screen.
inline constexpr Both kAlarmTried{"That beep was the alarm. No beep? Turn the sound up. a: beep again.",
                                  "Ese pitido es la alarma. ¿No suena? Suba el volumen. a: otra vez."};
inline constexpr Both kNoEmergencyNumber{"The child file has no emergency number. Keep yours at hand.",
                                         "La ficha no trae número de emergencias. Tenga el suyo a mano."};
inline constexpr Both kGoingOn{"Going on from {1}. Nothing is lost.", "Sigue desde las {1}. No se perdió nada."};
inline constexpr Both kDueAt{"Next: {1} at {2}.", "Lo próximo: {1} a las {2}."};

// On the step.
inline constexpr Both kTellDone{"Enter: all done. Or the number of a step that went wrong.",
                                "Enter: todo hecho. O el número del paso que salió mal."};
inline constexpr Both kTellAllWentIn{"Enter: all done, all {1} went in. Only part, or none? Type {2}.",
                                     "Enter: todo hecho, entró todo: {1}. ¿Solo parte, o nada? Escriba {2}."};
inline constexpr Both kTellAllGiven{"Enter: all done, all {1} was given. Only part, or none? Type {2}.",
                                    "Enter: todo hecho, se dio todo: {1}. ¿Solo parte, o nada? Escriba {2}."};
inline constexpr Both kTellHowMuch{"Enter: done. Then say how much went in: all, some or none.",
                                   "Enter: hecho. Luego diga cuánto entró: todo, parte o nada."};
inline constexpr Both kTellDoseAsked{"Enter: done. Then say if the clinic gave a dose.",
                                     "Enter: hecho. Luego diga si la clínica dio una dosis."};
inline constexpr Both kOfIt{"of it", "lo que dice la pantalla"};
inline constexpr Both kTellDoneOrReading{"Type the number on the meter. No meter or strips? Type {1}.",
                                         "Escriba el número del medidor. ¿No hay medidor o tiras? Escriba {1}."};
inline constexpr Both kTellCalled{"Enter: say how the call went.", "Enter: diga cómo fue la llamada."};
inline constexpr Both kTellChoice{"Type the number of your answer.", "Escriba el número de su respuesta."};
inline constexpr Both kTellGlucose{"Type the number on the meter, or LO or HI. Then Enter.",
                                   "Escriba el número del medidor, o LO o HI. Luego Enter."};
inline constexpr Both kTellKetones{"Type the number on the ketone meter, like 0.6, or HI. Then Enter.",
                                   "Escriba el número del medidor de cetonas, como 0,6, o HI. Luego Enter."};
inline constexpr Both kTellCount{"Type how many times: 0, 1, 2. Then Enter.",
                                 "Escriba cuántas veces: 0, 1, 2. Luego Enter."};
inline constexpr Both kTellAgo{"Type how long ago, like 40 min or 2 h. Or type no: not in the last day.",
                               "Escriba hace cuánto, como 40 min o 2 h. O escriba no: no en el último día."};
inline constexpr Both kTellWait{"The alarm rings here. Keep this screen open.",
                                "La alarma suena aquí. Deje esta pantalla abierta."};
inline constexpr Both kKetonesMeanwhile{"Ketones measured meanwhile? Type the word ketones and the number.",
                                        "¿Midió cetonas mientras tanto? Escriba la palabra cetonas y el número."};
inline constexpr Both kBeforeThen{"One of these happens meanwhile? Type its letter:",
                                  "¿Pasa algo de esto mientras tanto? Escriba su letra:"};
inline constexpr Both kTellEnded{"Enter: close. w: something got worse. b: mistyped.",
                                 "Enter: cerrar. p: algo va peor. v: corregir."};
inline constexpr Both kCantTellChoice{"I can't tell", "No lo sé"};
inline constexpr Both kWatchUntil{"Stay. Watch {2} until {1}.", "Quédese. Mire a {2} hasta las {1}."};
inline constexpr Both kHelpAnswered{"They answered. Stay on the phone.", "Ya contestaron. Siga al teléfono."};
inline constexpr Both kClinicAnswered{"They answered. Do what they tell you.", "Ya contestaron. Haga lo que le digan."};
inline constexpr Both kWaitUntil{"Now wait until {1}.", "Ahora espere hasta las {1}."};
inline constexpr Both kStillToDo{"Not marked as done yet: {1}", "Aún sin marcar como hecho: {1}"};
inline constexpr Both kGiven{"Given at {1}: {2}", "Dado a las {1}: {2}"};
inline constexpr Both kPartGiven{"At {1} only part went in: {2}", "A las {1} solo entró una parte: {2}"};
inline constexpr Both kTheySaid{"They said at {1}: {2}", "A las {1} le dijeron: {2}"};
inline constexpr Both kDoseStillOpen{"Did the clinic give a dose? Type c.", "¿La clínica dio una dosis? Escriba c."};
inline constexpr Both kMeasured{"Measured. Now look at {1}.", "Ya está medido. Ahora mire a {1}."};
inline constexpr Both kSoFar{"So far:", "Hasta ahora:"};
inline constexpr Both kMovesOn{"No answer by {1}? Then call the next number. The alarm rings.",
                               "¿Nadie contesta a las {1}? Llame al número siguiente. Suena la alarma."};
inline constexpr Both kCallAgain{"Nobody answered by {1}? Call again.", "¿Nadie contestó a las {1}? Llame otra vez."};
inline constexpr Both kReminder{"Reminder at {1}: {2}", "Aviso a las {1}: {2}"};
inline constexpr Both kReminderDue{"Due now: {1}", "Ya toca: {1}"};
inline constexpr Both kTimeLeft{"Time left {1}, until {2}.", "Faltan {1}, hasta las {2}."};
inline constexpr Both kStartsWhenDone{"Enter starts the wait. The alarm rings by {1}.",
                                      "Enter empieza la espera. La alarma suena a las {1} o antes."};
inline constexpr Both kRingsBy{"The alarm rings by {1}.", "La alarma suena a las {1} o antes."};
inline constexpr Both kMoreCautions{"m: all cautions.", "m: todos los avisos."};

// The keys that are the same on every screen.
inline constexpr Both kKeys{"Keys: w worse{1}, b mistyped, r why, m more{2}.",
                            "Teclas: p peor{1}, v corregir, r por qué, m más{2}."};
inline constexpr Both kFewKeys{"Keys: w worse{1}, m more.", "Teclas: p peor{1}, m más."};
inline constexpr Both kKeyCantTell{", t can't tell", ", d no sé"};
inline constexpr Both kWorseKey{"Key: w something got worse.", "Tecla: p algo va peor."};
inline constexpr Both kAllKeys{
    "Keys: w worse, t can't tell, b mistyped, r why, x a step went wrong, c how a call went, a beep, q stop.",
    "Teclas: p peor, d no sé, v corregir, r por qué, x un paso salió mal, c cómo fue una llamada, a pitido, q parar."};
inline constexpr Both kCantTellLead{"t. ", "d. "};
inline constexpr Both kKeyTrouble{", x went wrong", ", x salió mal"};
inline constexpr Both kKeyCall{", c call", ", c llamada"};

// Kind words for a wrong key.
inline constexpr Both kNotUnderstood{"I did not understand \"{1}\". Nothing is lost.",
                                     "No entendí \"{1}\". No se perdió nada."};
inline constexpr Both kOnlyOneOf{"The answers here are 1 to {1}. Nothing is lost.",
                                 "Aquí las respuestas son de 1 a {1}. No se perdió nada."};
inline constexpr Both kOnlyThese{"The answers here are {1}. Nothing is lost.",
                                 "Aquí las respuestas son {1}. No se perdió nada."};
inline constexpr Both kNeedsAnswer{"This needs an answer. Not sure? Type t.",
                                   "Esto necesita respuesta. ¿No sabe? Escriba d."};
inline constexpr Both kJustChanged{"The screen just changed. Read it, then answer again.",
                                   "La pantalla acaba de cambiar. Léala y responda otra vez."};
inline constexpr Both kJustChangedTyped{
    "The screen just changed. \"{1}\" is not taken yet. Read it, then answer again.",
    "La pantalla acaba de cambiar. \"{1}\" no cuenta todavía. Léala y responda otra vez."};
inline constexpr Both kNotYet{"Not yet. The alarm rings at {1}.", "Todavía no. La alarma suena a las {1}."};
inline constexpr Both kEarlyKept{"{1} is kept. It is early: check again at {2}.",
                                 "{1} queda anotado. Es pronto: mida otra vez a las {2}."};
inline constexpr Both kKeptFirst{"{1} is kept. First do what stands here. Then Enter.",
                                 "{1} queda anotado. Primero haga lo que dice aquí. Luego Enter."};
inline constexpr Both kNoQuestion{"There is no question now.", "Ahora no hay pregunta."};
inline constexpr Both kYouSaid{"You said: {1}", "Usted dijo: {1}"};
inline constexpr Both kMarked{"Marked: {1}", "Anotado: {1}"};

// Numbers that need a second look.
inline constexpr Both kNotANumber{"\"{1}\" is not a number I can read. Type it like {2}.",
                                  "\"{1}\" no es un número que pueda leer. Escríbalo como {2}."};
inline constexpr Both kPointNotComma{"\"{1}\" has a comma. With a point it is {2}. Type it like that.",
                                     "\"{1}\" lleva coma. Con punto es {2}. Escríbalo así."};
// The whole number first: a digit that is missing is likelier than a meter that is set to the other unit.
inline constexpr Both kNotMgPerDl{
    "{1} mg/dL cannot be right. Type the whole number, as 50 or 105. Only if the meter itself says mmol/L: type {1} "
    "mmol/L.",
    "{1} mg/dL no puede ser. Escriba el número entero, como 50 o 105. Solo si el medidor mismo dice mmol/L: escriba "
    "{1} mmol/L."};
inline constexpr Both kNotMmolPerL{
    "{1} mmol/L cannot be right. Type it with its point, as 5.2 or 10.5. Only if the meter itself says mg/dL: type {1} "
    "mg/dL.",
    "{1} mmol/L no puede ser. Escríbalo con su coma, como 5,2 o 10,5. Solo si el medidor mismo dice mg/dL: escriba {1} "
    "mg/dL."};
inline constexpr Both kOtherUnitTitle{"{1} is {2}.", "{1} son {2}."};
inline constexpr Both kOtherUnitAgain{"Type {1} again if the meter says {2}, or type what it shows.",
                                      "Escriba {1} otra vez si el medidor dice {2}, o escriba lo que muestra."};
inline constexpr Both kBeyondMeter{"No meter shows {1}. Look again. LO and HI are answers too.",
                                   "Ningún medidor muestra {1}. Mire otra vez. LO y HI también valen."};
inline constexpr Both kKetonesOtherUnit{"{1} is too high for mmol/L. Look again at the meter, or type HI.",
                                        "{1} es demasiado para mmol/L. Mire otra vez el medidor, o escriba HI."};
inline constexpr Both kKetonesBeyond{"No ketone meter shows {1}. Look again, or type HI.",
                                     "Ningún medidor de cetonas muestra {1}. Mire otra vez, o escriba HI."};
inline constexpr Both kTypeAgainTitle{"{1} is very high.", "{1} es un valor muy alto."};
inline constexpr Both kTypeAgain{"Type {1} again if the meter shows it, or type what it shows.",
                                 "Escriba {1} otra vez si lo muestra el medidor, o escriba lo que muestra."};
inline constexpr Both kNotKept{"{1} is not kept.", "{1} no queda anotado."};
inline constexpr Both kCountLike{"Type a whole number, like 2.", "Escriba un número entero, como 2."};
inline constexpr Both kMinutesOrHours{"{1} minutes or hours? Type {1} min or {1} h.",
                                      "¿{1} minutos u horas? Escriba {1} min o {1} h."};
inline constexpr Both kAgoLike{"Type it like 40 min or 2 h. Or no.", "Escríbalo como 40 min o 2 h. O no."};
inline constexpr Both kNotInTheLastDay{"not in the last day", "no en el último día"};
inline constexpr Both kAgo{"{1} ago, at {2}", "hace {1}, a las {2}"};
inline constexpr Both kAtClock{"at {1}", "a las {1}"};

// Something got worse.
inline constexpr Both kWorseTitle{"What got worse?", "¿Qué va peor?"};
inline constexpr Both kSomethingElse{"Something else", "Otra cosa"};
inline constexpr Both kBackToStep{"Enter: back to the step.", "Enter: volver al paso."};
inline constexpr Both kElseTitle{"You see something that is not on the list.",
                                 "Usted ve algo que no está en la lista."};
inline constexpr Both kElseDanger{"You think it is a danger? Call {1} now.",
                                  "¿Cree que hay peligro? Llame a {1} ahora."};
inline constexpr Both kElseClinic{"You are not sure? Call {1} now.", "¿Tiene dudas? Llame a {1} ahora."};

// What did not work out.
inline constexpr Both kWhichTitle{"Which step went wrong?", "¿Qué paso salió mal?"};
inline constexpr Both kOutcomeTitle{"What happened?", "¿Qué pasó?"};
inline constexpr Both kNothingElseHere{"This one has no other answer. Press Enter when it is done.",
                                       "Esto no tiene otra respuesta. Pulse Enter cuando esté hecho."};
inline constexpr Both kNoMeterHere{"No meter or strips here? Type t.", "¿No hay medidor o tiras? Escriba d."};
inline constexpr Both kNothingWrongHere{"This is a question. Not sure? Type t. Something got worse? Type w.",
                                        "Esto es una pregunta. ¿No sabe? Escriba d. ¿Algo va peor? Escriba p."};
inline constexpr Both kNothingToMark{"There is nothing to mark here. Something got worse? Type w.",
                                     "Aquí no hay nada que marcar. ¿Algo va peor? Escriba p."};
inline constexpr Both kDrinkTitle{"How much did it come to?", "¿Cuánto fue?"};
inline constexpr Both kDrinkLike{"Type it like: 60 mL", "Escríbalo así: 60 mL"};
inline constexpr Both kDrunk{"Drunk: {1}. It is counted.", "Bebió: {1}. Queda contado."};
inline constexpr Both kDrunkSoFar{"Drunk since {1}: {2}.", "Bebió desde las {1}: {2}."};
inline constexpr Both kDrinkGoal{"Goal by {1}: {2}.", "Meta para las {1}: {2}."};
inline constexpr Both kDrinkOrGlucose{"{1}: of what?", "{1}: ¿de qué?"};
inline constexpr Both kSoMuchDrunk{"{1} mL of drink", "{1} mL de bebida"};
inline constexpr Both kSoMuchGlucose{"A glucose of {1}", "Una glucosa de {1}"};
inline constexpr Both kDrinkMore{"After each drink type how much, like 60 mL.",
                                 "Tras cada bebida escriba cuánto, por ejemplo 60 mL."};
inline constexpr Both kTheySayCome{"They say: come to the hospital", "Dicen: vengan al hospital"};
inline constexpr Both kClinicAfterAll{"The clinic answered after all", "La clínica contestó después"};
inline constexpr Both kSayThis{"{1}: {2}. Say:", "{1}: {2}. Diga:"};
inline constexpr Both kWhatIsIt{"What is it about?", "¿De qué se trata?"};
inline constexpr Both kFirstByEnter{"Type the number. Enter: 1.", "Escriba el número. Intro: 1."};
inline constexpr Both kHowMuchTitle{"How much went in?", "¿Cuánto entró?"};
inline constexpr Both kDoseAsked{"Did the clinic give a dose?", "¿La clínica dio una dosis?"};
inline constexpr Both kNoDose{"No, not yet", "No, todavía no"};
inline constexpr Both kDoseSaid{"Yes", "Sí"};
inline constexpr Both kUnitsTitle{"How many units went in?", "¿Cuántas unidades entraron?"};
inline constexpr Both kUnitsLike{"Type it like: 2 or 2.5", "Escríbalo así: 2 o 2,5"};
inline constexpr Both kUnitsUnknown{"Enter: nobody knows.", "Enter: no se sabe."};
inline constexpr Both kAllOf{"All of it: {1}", "Todo: {1}"};

// Calls.
inline constexpr Both kCallTitle{"How did the call go?", "¿Cómo fue la llamada?"};
inline constexpr Both kReached{"Someone answered", "Alguien contestó"};
inline constexpr Both kNoAnswer{"Nobody answered", "Nadie contestó"};
inline constexpr Both kCallAgainNow{"Nobody answered. Call again now.", "Nadie contestó. Llame otra vez ahora."};
inline constexpr Both kTold{"They told me what to do", "Me dijeron qué hacer"};
inline constexpr Both kTypeWhatTheySaid{"Type what they said. Then Enter.", "Escriba lo que le dijeron. Luego Enter."};
inline constexpr Both kWhatDidTheySay{"What did they say?", "¿Qué le dijeron?"};
inline constexpr Both kNoOpenCall{"No call is open now.", "Ahora no hay ninguna llamada abierta."};
inline constexpr Both kNotCalledYet{"Enter: not called yet.", "Enter: aún no he llamado."};

// Mistyped.
inline constexpr Both kBackTitle{"Which answer was mistyped?", "¿Qué respuesta está mal?"};
inline constexpr Both kNoAnswersYet{"There is no answer to change yet.", "Aún no hay respuesta que cambiar."};
inline constexpr Both kGivenStays{"What was given stays marked as given. Marked by mistake? Enter, then x.",
                                  "Lo que se dio queda anotado. ¿Lo anotó por error? Enter, luego x."};
inline constexpr Both kCorrected{"Changed. Now it says: {1}", "Cambiado. Ahora dice: {1}"};
inline constexpr Both kAnswerAgain{"The answer again:", "La respuesta otra vez:"};

// Why, more, leaving.
inline constexpr Both kWhyTitle{"Why this step", "Por qué este paso"};
inline constexpr Both kForTheClinic{"For the clinic, the numbers and rules behind it:",
                                    "Para la clínica, los números y reglas detrás:"};
inline constexpr Both kSource{"Source: {1}", "Fuente: {1}"};
inline constexpr Both kRuleName{"Rule: {1}.", "Regla: {1}."};
inline constexpr Both kAddress{"Address: {1}", "Dirección: {1}"};
inline constexpr Both kNoNumber{"no number yet", "aún sin número"};
inline constexpr Both kMoreTitle{"More", "Más"};
inline constexpr Both kMoreCautionsItem{"All cautions", "Todos los avisos"};
inline constexpr Both kMoreContacts{"Phone numbers and address", "Teléfonos y dirección"};
inline constexpr Both kMoreTakeOver{"Somebody else carries on now", "Otra persona sigue ahora"};
inline constexpr Both kMoreLanguage{"Español", "English"};
inline constexpr Both kMoreStop{"Stop for now (you can go on later)", "Parar por ahora (puede seguir luego)"};
inline constexpr Both kMoreGiven{"What was given so far", "Qué se ha dado hasta ahora"};
inline constexpr Both kMoreClose{"End this episode for good", "Terminar este episodio del todo"};
inline constexpr Both kNothingGiven{"Nothing is marked as given.", "No hay nada anotado como dado."};
inline constexpr Both kCloseTitle{"End it for good? Is {1} well and with you?",
                                  "¿Terminar del todo? ¿{1} está bien y con usted?"};
inline constexpr Both kCloseYes{"Yes, end it", "Sí, terminar"};
inline constexpr Both kCloseNo{"No, go back", "No, volver"};
inline constexpr Both kNameTitle{"Who carries on? Type a name.", "¿Quién sigue? Escriba un nombre."};
inline constexpr Both kTakenOverBy{"{1} carries on. Ask again first.", "{1} sigue. Primero, pregunte otra vez."};
inline constexpr Both kStopped{"Stopped. Nothing is lost. To go on: {1}",
                               "Parado. No se perdió nada. Para seguir: {1}"};
inline constexpr Both kNoAlarmNow{"No alarm rings now. Check at {1}.",
                                  "Ahora no suena ninguna alarma. Mida a las {1}."};
inline constexpr Both kStoppedUnsaved{"Stopped. This was not saved. To start again: {1}",
                                      "Parado. Esto no se guardó. Para empezar otra vez: {1}"};
inline constexpr Both kClosed{"This episode has ended. To start a new one: {1}",
                              "Este episodio terminó. Para empezar otro: {1}"};

// A journal that cannot be used, and an old episode.
inline constexpr Both kJournalRefused{"Nothing can be saved in this file. It stays exactly as it is.",
                                      "En este archivo no se puede guardar. Queda exactamente como está."};
inline constexpr Both kEpisodeRefused{
    "An earlier episode of {1} is open and cannot be read now. Ask what was given.",
    "Un episodio anterior de {1} sigue abierto y no se puede leer. Pregunte qué se dio."};
inline constexpr Both kGoOnUnsaved{"To be led step by step without saving, type y. To leave, type n.",
                                   "Para seguir paso a paso sin guardar, escriba s. Para salir, n."};
inline constexpr Both kTypeYesOrNo{"Type y for yes or n for no.", "Escriba s para sí o n para no."};
inline constexpr Both kStaleTitle{"An earlier episode of {1} is still open, from {2}.",
                                  "Un episodio anterior de {1} sigue abierto, del {2}."};
inline constexpr Both kStaleWas{"Last at {1}: {2}", "Lo último, a las {1}: {2}"};
inline constexpr Both kStaleOld{"1. Go on with it", "1. Seguir con ese"};
inline constexpr Both kStaleNew{"2. Start a new one", "2. Empezar uno nuevo"};

// Two people.
inline constexpr Both kHeldTitle{"Somebody else has this open for {1}.", "Otra persona tiene esto abierto para {1}."};
inline constexpr Both kHeldSince{"Since {1}, in another window.", "Desde las {1}, en otra ventana."};
inline constexpr Both kHeldAsk{"Ask them what was given. Then, to carry on here, type y. To leave, type n.",
                               "Pregúnteles qué se ha dado. Para seguir aquí, escriba s. Para salir, n."};
inline constexpr Both kHeldLeft{"The other screen carries on. To try again: {1}",
                                "La otra pantalla sigue. Para intentarlo otra vez: {1}"};
inline constexpr Both kWasTakenOver{"Somebody else carries on with {1} now. Follow their screen.",
                                    "Ahora otra persona sigue con {1}. Siga su pantalla."};
inline constexpr Both kTakeBack{"To carry on here again, type y. To leave, type n.",
                                "Para seguir aquí otra vez, escriba s. Para salir, n."};

}  // namespace rushlight
