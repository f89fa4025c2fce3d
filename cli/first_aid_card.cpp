#include "cli/first_aid_card.hpp"

#include <algorithm>
#include <filesystem>

#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "cli/shell_word.hpp"

namespace rushlight {
namespace {

// No digit, no dose, no age, no telephone number: what cannot be checked must not be printed here.
constexpr const char* kCard[kLanguages] = {
    R"(FIRST AID FOR A LOW. You can do this. Stay with the child.
Try to wake the child now.

THE CHILD WAKES, TALKS AND CAN SWALLOW
  Give sugar by mouth now: juice, a sweet drink, or sugar.
  Wait a little. Measure again, or look at the child again.
  Still low, or no better? Give sugar again.
  Then call your clinic.

THE CHILD WILL NOT WAKE, HAS A SEIZURE, OR CANNOT SWALLOW
  Call your local emergency number now. Give nothing by mouth.
  Lay the child on the side.
  Give the rescue medicine if it is there and you know how.
  The child does not breathe well? Say so on the phone. Do what they tell you.

NOT SURE? Call your local emergency number.
  Give no insulin until the clinic tells you to.
)",
    R"(PRIMEROS AUXILIOS: GLUCOSA BAJA. Usted puede. Quédese con el niño o la niña.
Intente despertarle ahora.

DESPIERTA, HABLA Y PUEDE TRAGAR
  Dele azúcar por la boca ahora: jugo, un refresco con azúcar o azúcar.
  Espere un poco. Mida otra vez o vuelva a mirar cómo está.
  ¿Sigue baja o no mejora? Dele azúcar otra vez.
  Después llame a su clínica.

NO DESPIERTA, CONVULSIONA O NO PUEDE TRAGAR
  Llame ahora al número de emergencias de su zona. No le dé nada por la boca.
  Acuéstele de lado.
  Dele el medicamento de rescate si lo tiene y sabe cómo.
  ¿No respira bien? Dígalo por teléfono. Haga lo que le indiquen.

¿TIENE DUDAS? Llame al número de emergencias de su zona.
  No le dé insulina hasta que la clínica lo diga.
)"};

constexpr Both kSeeAll{"To see all of it: rushlight check {1}", "Para verlo todo: rushlight check {1}"};
constexpr Both kMoreMistakes{"{1} mistakes in all. To see them: rushlight check {2}",
                             "{1} errores en total. Para verlos: rushlight check {2}"};
// Offered to whoever cannot read the card, so in the language that is not on it.
constexpr Both kOtherLanguage{"En español: {1} --lang es", "In English: {1} --lang en"};

}  // namespace

std::string first_aid_card(Language language) { return kCard[static_cast<int>(language)]; }

std::vector<std::string> what_is_wrong(const std::vector<Finding>& findings, Language language) {
  const auto is_error = [](const Finding& finding) { return finding.severity == Severity::error; };
  const auto first = std::find_if(findings.begin(), findings.end(), is_error);
  if (first == findings.end()) return {};
  const std::string text = text_from_finding(*first, std::nullopt);
  std::vector<std::string> lines = {cleaned(text.substr(0, text.find('\n')))};
  std::error_code error;
  if (first->where.line == 0 || !std::filesystem::exists(first->where.file.text(), error)) return lines;
  const std::string file = cleaned(shell_word(first->where.file));
  const auto errors = std::count_if(findings.begin(), findings.end(), is_error);
  lines.push_back(errors > 1 ? say(kMoreMistakes, language, std::to_string(errors), file)
                             : say(kSeeAll, language, file));
  return lines;
}

std::string other_language_line(Language language, const std::string& command) {
  return say(kOtherLanguage, language, cleaned(command));
}

std::string cannot_begin(const std::vector<std::string>& why, Language language, const std::string& command) {
  std::string text;
  for (const std::string& line : why) text += line + "\n";
  return text + "\n" + first_aid_card(language) + other_language_line(language, command) + "\n";
}

}  // namespace rushlight
