#include "episode/phrases.hpp"

namespace rushlight {
namespace {

struct Wording {
  const char* en;
  const char* es;
};

Wording wording(Phrase phrase) {
  switch (phrase) {
    case Phrase::not_approved:
      return {"Not approved. No clinic has approved it for care.", "Sin aprobar. Ninguna clínica ha aprobado esta guía."};
    case Phrase::in_urine:
      return {"urine: {1}", "orina: {1}"};
    case Phrase::approval_void:
      return {"Changed since the clinic approved it. Ask the clinic.",
              "Esta guía cambió después de que la clínica la aprobara. Pregunte a la clínica."};
    case Phrase::approval_untrusted:
      return {"Not approved here: nobody on this machine trusts the key of its approval. Ask the clinic.",
              "Sin aprobación aquí: en este equipo nadie confía en la clave con que se aprobó. Pregunte a la clínica."};
    case Phrase::approval_to_come:
      return {"Not approved yet: the approval begins on {1}. Ask the clinic.",
              "Todavía sin aprobación: empieza el {1}. Pregunte a la clínica."};
    case Phrase::approval_over:
      return {"The approval ended on {1}. Ask the clinic.",
              "La aprobación terminó el {1}. Pregunte a la clínica."};
    case Phrase::approved_by:
      return {"Approved by {1}, until {2}.", "Aprobado por {1}, hasta {2}."};
    case Phrase::does_not_replace:
      return {
          "This follows the clinic's written plan. It does not replace the clinic, a licensed professional or local "
          "emergency rules. If in doubt, call.",
          "Esto sigue el plan escrito de la clínica. No reemplaza a la clínica, a un profesional con licencia ni las "
          "reglas locales de emergencia. Si duda, llame."};
    case Phrase::weight_from:
      return {"The weight is from {1}. Weigh the child again soon.",
              "El peso es del {1}. Pese al niño otra vez pronto."};
    case Phrase::weight_unknown:
      return {"The weight is not known. The amount goes by age.", "No se sabe el peso. La cantidad va por edad."};
    case Phrase::reading_was_early:
      return {"That reading came before the recheck time. It is kept. Measure again {1}.",
              "Esa medida llegó antes de la hora. Queda anotada. Mida otra vez {1}."};
    case Phrase::clock_went_back:
      return {"The clock of this device went back. Waiting times still count in full.",
              "El reloj de este aparato se atrasó. Los tiempos de espera siguen completos."};
    case Phrase::time_is_up:
      return {"Time is up. Check now.", "Ya es la hora. Revise ahora."};
    case Phrase::given_until:
      return {"Given. Check again at {1}.", "Ya está dado. Revise otra vez a las {1}."};
    case Phrase::second_alarm:
      return {"Set a second alarm on another clock.", "Ponga otra alarma en otro reloj."};
    case Phrase::look_at_expiry:
      return {"No expiry date is on file for the rescue medicine. Look at the box.",
              "No hay fecha de caducidad del medicamento de rescate. Mire la caja."};
    case Phrase::rescue_expired:
      return {"The rescue medicine at home is out of date.", "El medicamento de rescate de casa está caducado."};
    case Phrase::clinic:
      return {"the clinic", "la clínica"};
    case Phrase::on_call_line:
      return {"the clinic's on-call line", "la línea de guardia de la clínica"};
    case Phrase::emergency_services:
      return {"the emergency services", "los servicios de emergencia"};
    case Phrase::call_clinic:
      return {"Call the clinic too: {1}.", "Llame también a la clínica: {1}."};
    case Phrase::call_clinic_in_hours:
      return {"Call the clinic in its hours: {1}.", "Llame a la clínica en su horario: {1}."};
    case Phrase::call_on_call:
      return {"Call the on-call line now: {1}.", "Llame ya a la línea de guardia: {1}."};
    case Phrase::call_emergency:
      return {"Call {1} now.", "Llame ya a {1}."};
    case Phrase::clinic_silent:
      return {"The clinic was not reached. Call {1} now.",
              "No se habló con la clínica. Llame ya a la guardia: {1}."};
    case Phrase::nobody_answered:
      return {"Call {1} now. Nobody was reached.", "Llame ya a {1}. No se habló con nadie."};
    case Phrase::clinic_may_be_silent:
      return {"Call {1} now, if the clinic was not reached.",
              "Llame ya a la guardia ({1}), si no habló con la clínica."};
    case Phrase::nobody_may_have_answered:
      return {"Call {1} now, if nobody was reached.", "Llame ya a {1}, si no habló con nadie."};
    case Phrase::your_clinic_number:
      return {"your clinic's number", "su número"};
    case Phrase::your_on_call_number:
      return {"your clinic's on-call number", "el número de guardia"};
    case Phrase::your_emergency_number:
      return {"your local emergency number", "emergencias"};
    case Phrase::second_adult:
      return {"a second adult", "otro adulto"};
    case Phrase::your_address:
      return {"your address", "su dirección"};
    case Phrase::rescue_place_unknown:
      return {"where you keep it", "donde lo guarda"};
    case Phrase::of_food:
      return {"{1} of {2}", "{1} de {2}"};
    case Phrase::at_most:
      return {"at most {1}", "como máximo {1}"};
    case Phrase::at_least:
      return {"at least {1}", "como mínimo {1}"};
    case Phrase::rounded_up_to:
      return {"up to {1}", "hacia arriba a {1}"};
    case Phrase::rounded_down_to:
      return {"down to {1}", "hacia abajo a {1}"};
    case Phrase::rounded_to:
      return {"rounded to {1}", "redondeado a {1}"};
    case Phrase::pen_in_steps:
      return {"with a pen in steps of {1}: {2}", "con una pluma de pasos de {1}: {2}"};
    case Phrase::pen_too_coarse:
      return {"a pen in steps of {1} cannot give it: call the clinic",
              "una pluma de pasos de {1} no puede darla: llame a la clínica"};
    case Phrase::no_dose_known:
      return {"There is no amount for this child. Call.", "No hay cantidad para este niño. Llame."};
    case Phrase::no_reading:
      return {"no reading", "sin medida"};
    case Phrase::something_sweet:
      return {"a sugary drink that is not sugar-free", "una bebida con azúcar, que no sea sin azúcar"};
    case Phrase::as_advised:
      return {"the amount on the screen", "la cantidad indicada"};
    case Phrase::pump_is_paused:
      return {"The pump is still paused. Start it again, or call.", "La bomba sigue parada. Actívela, o llame."};
    case Phrase::yes:
      return {"Yes", "Sí"};
    case Phrase::no:
      return {"No", "No"};
    case Phrase::years:
      return {"{1} years", "{1} años"};
    case Phrase::months:
      return {"{1} months", "{1} meses"};
    case Phrase::days:
      return {"{1} days", "{1} días"};
    case Phrase::in_time:
      return {"in {1}", "en {1}"};
    case Phrase::at_time:
      return {"at {1}", "a las {1}"};
    case Phrase::one_hour:
      return {"1 hour", "1 hora"};
    case Phrase::hours:
      return {"{1} hours", "{1} horas"};
    case Phrase::one_minute:
      return {"1 minute", "1 minuto"};
    case Phrase::minutes:
      return {"{1} minutes", "{1} minutos"};
    case Phrase::one_unit:
      return {"1 unit", "1 unidad"};
    case Phrase::units:
      return {"{1} units", "{1} unidades"};
    case Phrase::micrograms:
      return {"{1} micrograms", "{1} microgramos"};
    case Phrase::call_for_the_dose:
      return {"Call the clinic for the dose.", "Llame a la clínica para la dosis."};
    case Phrase::insulin_as_said:
      return {"Insulin as the clinic says, by pen or syringe.", "Insulina como diga la clínica, con pluma o jeringa."};
    case Phrase::insulin_clinic_said:
      return {"You asked the clinic about this insulin. Give what it said and nothing else.",
              "Ya preguntó a la clínica por esta insulina. Ponga lo que dijo y nada más."};
    case Phrase::insulin_not_approved:
      return {"No insulin dose here: this guide is not approved now.",
              "Aquí no hay dosis de insulina: esta guía no está aprobada ahora."};
    case Phrase::insulin_not_switched_on:
      return {"No insulin dose here: the clinic gives it by phone.",
              "Aquí no hay dosis de insulina: la clínica la da por teléfono."};
    case Phrase::insulin_pump_corrects:
      return {"No insulin dose here: the automatic pump may have given some by itself.",
              "Aquí no hay dosis de insulina: la bomba automática puede haber puesto algo sola."};
    case Phrase::insulin_daily_dose_unknown:
      return {"No insulin dose here: the total daily dose is not on file.",
              "Aquí no hay dosis de insulina: falta la dosis diaria total en la ficha."};
    case Phrase::insulin_daily_dose_old:
      return {"No insulin dose here: the total daily dose on file is too old.",
              "Aquí no hay dosis de insulina: la dosis diaria total de la ficha es antigua."};
    case Phrase::insulin_strength_unknown:
      return {"No insulin dose here: the strength of the insulin is not on file.",
              "Aquí no hay dosis de insulina: falta la concentración de la insulina en la ficha."};
    case Phrase::insulin_other_strength:
      return {"No insulin dose here: this insulin is not 100 units in a millilitre.",
              "Aquí no hay dosis de insulina: esta insulina no es de 100 unidades por mililitro."};
    case Phrase::insulin_somebody_else:
      return {"No insulin dose here: somebody may have given insulin already.",
              "Aquí no hay dosis de insulina: quizá alguien ya puso insulina."};
    case Phrase::insulin_last_unknown:
      return {"No insulin dose here: nobody knows when the last insulin was.",
              "Aquí no hay dosis de insulina: no se sabe cuándo fue la última insulina."};
    case Phrase::insulin_too_soon:
      return {"No more insulin before {1}. The last dose still works.",
              "No más insulina antes de las {1}. La última dosis todavía actúa."};
    case Phrase::insulin_no_reading:
      return {"No insulin dose here without a glucose reading.", "Aquí no hay dosis de insulina sin medir la glucosa."};
    case Phrase::insulin_reading_old:
      return {"Measure the glucose again first. The last reading is too old for insulin.",
              "Primero mida la glucosa otra vez. La última medida es antigua para la insulina."};
    case Phrase::insulin_asked_first:
      return {"No insulin before this is answered: was something given?",
              "Nada de insulina antes de responder: ¿le dieron algo?"};
    case Phrase::insulin_below_floor:
      return {"No insulin dose here below {1}.", "Aquí no hay dosis de insulina por debajo de {1}."};
    case Phrase::insulin_less_than_a_step:
      return {"No insulin dose here: it would be less than the smallest step.",
              "Aquí no hay dosis de insulina: sería menos que el paso más pequeño."};
    case Phrase::a_day:
      return {"{1} a day", "{1} al día"};
    case Phrase::above_target:
      return {"{1} / {2} for each unit", "{1} / {2} por unidad"};
    case Phrase::phone_weight_unknown:
      return {"weight not known", "peso desconocido"};
    case Phrase::phone_glucose:
      return {"Glucose: {1}", "Glucosa: {1}"};
    case Phrase::phone_ketones:
      return {"Blood ketones: {1}", "Cetonas en sangre: {1}"};
    case Phrase::phone_urine:
      return {"Urine ketones: {1}", "Cetonas en orina: {1}"};
    case Phrase::phone_insulin:
      return {"Insulin: {1}", "Insulina: {1}"};
    case Phrase::phone_drinks:
      return {"Drunk: {1}", "Bebió: {1}"};
    case Phrase::phone_vomits:
      return {"Vomited in the last 4 hours: {1}", "Vómitos en las últimas 4 horas: {1}"};
    case Phrase::phone_done:
      return {"Done so far: {1}", "Hecho hasta ahora: {1}"};
    case Phrase::phone_at:
      return {"{1} at {2}", "{1} a las {2}"};
    case Phrase::phone_nothing:
      return {"nothing yet", "nada todavía"};
    case Phrase::phone_not_known:
      return {"not known", "no se sabe"};
    case Phrase::phone_not_asked:
      return {"not measured", "sin medir"};
    case Phrase::phone_rapid_ago:
      return {"last rapid-acting at {1}", "última rápida a las {1}"};
    case Phrase::phone_not_in_a_day:
      return {"no rapid-acting in the last day", "sin rápida en el último día"};
    case Phrase::phone_of_goal:
      return {"{1} of {2}", "{1} de {2}"};
    case Phrase::phone_goal_alone:
      return {"not told (goal {1})", "sin decir (meta {1})"};
    case Phrase::phone_nothing_else:
      return {"nothing else yet", "nada más todavía"};
    case Phrase::phone_yesterday:
      return {"{1} yesterday", "{1} de ayer"};
    case Phrase::phone_days_ago:
      return {"{1} ({2} days ago)", "{1} (hace {2} días)"};
    case Phrase::phone_type_1:
      return {"Type 1 diabetes", "Diabetes tipo 1"};
    case Phrase::phone_say_mark:
      return {"Say: ", "Diga: "};
    case Phrase::phone_which_dose:
      return {"which dose? {1}", "¿qué dosis? {1}"};
    case Phrase::phone_daily_total:
      return {"usual daily insulin {1}", "insulina diaria {1}"};
    case Phrase::phone_injections:
      return {"injections", "inyecciones"};
    case Phrase::phone_pump:
      return {"pump", "bomba"};
    case Phrase::phone_automatic_pump:
      return {"automatic pump", "bomba automática"};
    case Phrase::phone_rescue_nasal:
      return {"rescue: nasal", "rescate: nasal"};
    case Phrase::phone_rescue_injection:
      return {"rescue: injection", "rescate: inyección"};
    case Phrase::phone_no_rescue:
      return {"no rescue medicine", "sin medicamento de rescate"};
    case Phrase::phone_rescue_old:
      return {"rescue out of date", "rescate vencido"};
    case Phrase::phone_nobody_asked:
      return {"not asked yet", "aún sin preguntar"};
    case Phrase::phone_part:
      return {"{1}, only part", "{1}, solo una parte"};
    case Phrase::phone_refused:
      return {"{1}, not taken", "{1}, no se dio"};
    case Phrase::phone_vomited:
      return {"{1}, vomited", "{1}, vomitado"};
    case Phrase::phone_wrong:
      return {"{1}, went wrong", "{1}, salió mal"};
    case Phrase::phone_answers:
      return {"Answers: {1}", "Respuestas: {1}"};
    case Phrase::phone_earlier:
      return {"Since {1}: {2}", "Desde las {1}: {2}"};
    case Phrase::larger_of:
      return {"the larger of {1} and {2}", "la mayor entre {1} y {2}"};
  }
  return {"", ""};
}

void replace_all(std::string& text, const std::string& mark, const std::string& with) {
  for (std::size_t at = text.find(mark); at != std::string::npos; at = text.find(mark, at + with.size())) {
    text.replace(at, mark.size(), with);
  }
}

}  // namespace

std::string phrase(Phrase phrase, Language language, const std::string& one, const std::string& two) {
  const Wording words = wording(phrase);
  std::string text = language == Language::es ? words.es : words.en;
  // The second blank first: a name that holds "{2}" must stay a name.
  if (text.find("{2}") != std::string::npos) {
    const std::size_t at = text.find("{2}");
    std::string head = text.substr(0, at);
    const std::string tail = text.substr(at + 3);
    replace_all(head, "{1}", one);
    return head + two + tail;
  }
  replace_all(text, "{1}", one);
  return text;
}

std::string shown_as(Urgency urgency, Language language) {
  const bool es = language == Language::es;
  switch (urgency) {
    case Urgency::home:
      return es ? "Atienda aquí" : "Treat here";
    case Urgency::clinic:
      return es ? "Llame a la clínica" : "Call the clinic";
    case Urgency::clinic_now:
      return es ? "Llame a la clínica ahora" : "Call the clinic now";
    case Urgency::emergency:
      return es ? "Emergencia" : "Emergency";
  }
  return "";
}

}  // namespace rushlight
