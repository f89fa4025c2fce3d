#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

struct InBoth {
  SheetWord word;
  const char* en;
  const char* es;
};

// Short, plain, for somebody who is frightened. A blank line is longer than a printed one: people write by hand.
constexpr InBoth kWords[] = {
    {SheetWord::title, "{1}: {2}", "{1}: {2}"},
    {SheetWord::age_and_weight, "{1}, {2}", "{1}, {2}"},
    {SheetWord::awake_and_swallows, "Is {1} awake and able to swallow?", "¿{1} responde y puede tragar?"},
    {SheetWord::yes, "YES", "SÍ"},
    {SheetWord::no, "NO", "NO"},
    {SheetWord::no_or_unsure, "NO, or you cannot tell", "NO, o no se sabe"},
    {SheetWord::at_any_time, "At any time, one of these", "En cualquier momento, una de estas"},
    {SheetWord::emergency, "EMERGENCY", "EMERGENCIA"},
    {SheetWord::never_wait, "Call first. Never wait for the parents.", "Llame primero. Nunca espere a los padres."},
    {SheetWord::trained_title, "Trained to give glucagon?", "¿Sabe dar glucagón?"},
    {SheetWord::trained_tick, "Tick before the parents leave.", "Márquelo antes de que salgan los padres."},
    {SheetWord::trained_no, "NO, or none here", "NO, o no hay"},
    {SheetWord::not_awake_after, "Not awake after {1}", "No despierta tras {1}"},
    {SheetWord::glucagon_already, "Glucagon was given before you came", "Ya se dio glucagón antes"},
    {SheetWord::glucagon_before, "Given before you came", "Dado antes"},
    {SheetWord::waiting_title, "Until help comes", "Hasta que llegue ayuda"},
    {SheetWord::measure_title, "Measure ({1})", "Mida ({1})"},
    {SheetWord::give_title, "Give sugar", "Dé azúcar"},
    {SheetWord::again_title, "Wait {1}. Measure ({2}).", "Espere {1}. Mida ({2})."},
    {SheetWord::eat_title, "Not low now", "Ya no está baja"},
    {SheetWord::later_title, "Look again tonight", "Vuelva a mirar esta noche"},
    {SheetWord::trouble_title, "It goes wrong", "Algo sale mal"},
    {SheetWord::below_or_lo, "Below {1}, or LO", "Menos de {1}, o LO"},
    {SheetWord::from_to, "{1} to {2}", "De {1} a {2}"},
    {SheetWord::or_more, "{1} or more, or HI", "{1} o más, o HI"},
    {SheetWord::or_less, "Any reading", "Cualquier medida"},
    {SheetWord::no_reading, "No reading", "Sin medida"},
    {SheetWord::looks_well, "well", "se ve bien"},
    {SheetWord::looks_unwell, "unwell or not sure", "se ve mal o no se sabe"},
    {SheetWord::very_low_also, "{1}, also", "{1}, además"},
    {SheetWord::round, "Round {1}", "Ronda {1}"},
    {SheetWord::sugar_at, "sugar", "azúcar"},
    {SheetWord::measured_at, "check", "control"},
    {SheetWord::reading_blank, "reading", "marca"},
    {SheetWord::after_round, "Still low in round {1}", "Sigue baja en la ronda {1}"},
    {SheetWord::after_round_or_blind, "Still low, or no reading, in round {1}",
     "Sigue baja, o sin medida, en la ronda {1}"},
    {SheetWord::blind_round, "No reading in round {1}", "Sin medida en la ronda {1}"},
    {SheetWord::after_more_rounds, "Still low {1} more times", "Sigue baja {1} veces más"},
    {SheetWord::low_again, "Low again later", "Baja otra vez más tarde"},
    {SheetWord::low_so_often, "Low later, time {1} in one night", "Baja más tarde, vez {1} en una noche"},
    {SheetWord::still_after, "Still so after {1}, and low", "Igual tras {1}, y baja"},
    {SheetWord::still_after_not_low, "Still so after {1}, and not low", "Igual tras {1}, y no baja"},
    {SheetWord::blood_ketones_from, "Blood ketones {1} or more", "Cetonas en sangre {1} o más"},
    {SheetWord::refused, "Will not take it", "No lo quiere"},
    {SheetWord::refused_again, "Still will not", "Sigue sin querer"},
    {SheetWord::part_taken, "Spilled, or only part", "Se derramó, o solo parte"},
    {SheetWord::vomited, "Vomits", "Vomita"},
    {SheetWord::none_here, "None of it here", "No hay de eso"},
    {SheetWord::none_at_all, "Nothing sweet at all", "No hay nada dulce"},
    {SheetWord::wrong_drink, "It was sugar-free", "No tenía azúcar"},
    {SheetWord::call_clinic, "Call {1} now.", "Llame ya a la clínica: {1}."},
    {SheetWord::call_clinic_in_hours, "Call {1}.", "Llame a la clínica: {1}."},
    {SheetWord::then, "Then", "Luego"},
    {SheetWord::anything_else, "Anything else, or not sure", "Cualquier otra cosa, o dudas"},
    {SheetWord::no_insulin, "No insulin from this sheet. Call first.", "Nada de insulina por esta hoja. Antes, llame."},
    {SheetWord::nobody_answers, "The clinic does not answer in {1}: call {2}.",
     "La clínica no contesta en {1}. Llame: {2}."},
    {SheetWord::still_nobody, "Still no answer in {1}: call {2}.", "Siguen sin contestar en {1}. Llame: {2}."},
    {SheetWord::low_then, "Low then", "Si está baja"},
    {SheetWord::low_then_swallows, "Low then, and swallows", "Si está baja y traga"},
    {SheetWord::low_as_for, "Low then: as for \u201c{1}\u201d", "Si está baja: como con «{1}»"},
    {SheetWord::not_low_then, "Not low then", "Si no está baja"},
    {SheetWord::not_low_again, "Not low the next time too", "Tampoco está baja la próxima vez"},
    {SheetWord::go_on_at, "Help is on the way", "La ayuda viene en camino"},
    {SheetWord::line_emergency, "Emergency", "Emergencias"},
    {SheetWord::line_clinic, "Clinic", "Clínica"},
    {SheetWord::line_on_call, "Clinic, on call", "Clínica, guardia"},
    {SheetWord::address, "You are at", "Usted está en"},
    {SheetWord::say_on_phone, "Say", "Diga"},
    {SheetWord::say_child, "{1} has type 1 diabetes. {2}.", "{1} tiene diabetes tipo 1. {2}."},
    {SheetWord::readings_and_times, "Readings and times: see what you wrote.", "Medidas y horas: lo que anotó."},
    {SheetWord::what_was_given, "What you gave, and when.", "Qué dio, y a qué hora."},
    {SheetWord::valid_until, "Use until {1}", "Use hasta el {1}"},
    {SheetWord::valid_weight, "then weigh again", "luego pese otra vez"},
    {SheetWord::valid_approval, "then the approval ends", "luego termina la aprobación"},
    {SheetWord::valid_rescue, "then the rescue medicine is out of date", "luego vence el medicamento de rescate"},
    {SheetWord::valid_age, "then a dose changes with age", "luego cambia una dosis por la edad"},
    {SheetWord::valid_look_again, "then print it again", "luego imprima otra"},
    {SheetWord::not_valid, "OUT OF DATE: {1}. Print a new sheet.", "CADUCADA: {1}. Imprima otra hoja."},
    {SheetWord::printed, "Printed {1}", "Impresa el {1}"},
    {SheetWord::clock_blank, "___:___ (in {1})", "___:___ (en {1})"},
    {SheetWord::page, "Page {1} of {2}", "Página {1} de {2}"},
    {SheetWord::go_to, "go to {1}", "vaya a {1}"},
    {SheetWord::see_page, "page\u00a0{1}", "página\u00a0{1}"},
    {SheetWord::sign_or_answer, "{1} {2}", "{1} {2}"},
    {SheetWord::signs_title, "You see this", "Usted ve esto"},
    {SheetWord::cannot_tell, "You cannot tell", "No se sabe"},
    {SheetWord::or_cannot_tell, ", or you cannot tell", ", o no se sabe"},
    {SheetWord::from_on, "{1} or more", "{1} o más"},
    {SheetWord::by_hours, "From {1} to {2}", "De {1} a {2}"},
};

void put_in(std::string& text, const std::string& blank, const std::string& what) {
  const std::size_t at = text.find(blank);
  if (at != std::string::npos) text.replace(at, blank.size(), what);
}

}  // namespace

std::string sheet_say(SheetWord word, Language language, const std::string& one, const std::string& two) {
  for (const InBoth& each : kWords) {
    if (each.word != word) continue;
    const std::string written = language == Language::es ? each.es : each.en;
    // The second blank first, so that a "{2}" in what is put in for the first stays what it is.
    std::string text = written;
    put_in(text, "{2}", two);
    put_in(text, "{1}", one);
    return text;
  }
  return "";
}

}  // namespace rushlight
