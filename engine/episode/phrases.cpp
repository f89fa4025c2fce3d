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
      return {"Example set. No clinic has approved it for care.", "Guía de ejemplo. Ninguna clínica la ha aprobado."};
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
    case Phrase::call_on_call:
      return {"Call the on-call line now: {1}.", "Llame ya a la línea de guardia: {1}."};
    case Phrase::call_emergency:
      return {"Call {1} now.", "Llame ya a {1}."};
    case Phrase::clinic_silent:
      return {"Nobody answered at the clinic. Call {1} now.",
              "En la clínica nadie contestó. Llame ya a la guardia: {1}."};
    case Phrase::others_silent:
      return {"Call {1} now. Nobody else answered.", "Llame ya a {1}. Nadie más contestó."};
    case Phrase::your_clinic_number:
      return {"your clinic's number", "el número de su clínica"};
    case Phrase::your_on_call_number:
      return {"your clinic's on-call number", "el número de guardia de su clínica"};
    case Phrase::your_emergency_number:
      return {"your local emergency number", "su número local de emergencia"};
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
    case Phrase::units:
      return {"{1} units", "{1} unidades"};
    case Phrase::micrograms:
      return {"{1} micrograms", "{1} microgramos"};
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
