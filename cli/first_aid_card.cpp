#include "cli/first_aid_card.hpp"

namespace rushlight {
namespace {

// No digit, no dose, no age, no telephone number: what cannot be checked must not be printed here.
constexpr const char* kCard[kLanguages] = {
    R"(FIRST AID FOR A LOW
You can do this. Stay with the child.

Try to wake the child now.

THE CHILD WAKES, TALKS AND CAN SWALLOW
  Give sugar by mouth now: juice, a sweet drink, or sugar.
  Wait a little. Measure again, or look at the child again.
  Still low, or no better? Give sugar again.
  Then call your clinic.

THE CHILD WILL NOT WAKE, HAS A SEIZURE, OR CANNOT SWALLOW
  Call your local emergency number now.
  Give nothing by mouth.
  Lay the child on the side.
  Give the rescue medicine if it is there and you know how.
  The child does not breathe well? Say so on the phone. Do what they tell you.

NOT SURE?
  Call your local emergency number.
  Give no insulin until the clinic tells you to.
)",
    R"(PRIMEROS AUXILIOS: GLUCOSA BAJA
Usted puede. Quédese con el niño o la niña.

Intente despertarle ahora.

DESPIERTA, HABLA Y PUEDE TRAGAR
  Dele azúcar por la boca ahora: jugo, un refresco con azúcar o azúcar.
  Espere un poco. Mida otra vez o vuelva a mirar cómo está.
  ¿Sigue baja o no mejora? Dele azúcar otra vez.
  Después llame a su clínica.

NO DESPIERTA, CONVULSIONA O NO PUEDE TRAGAR
  Llame ahora al número de emergencias de su zona.
  No le dé nada por la boca.
  Acuéstele de lado.
  Dele el medicamento de rescate si lo tiene y sabe cómo.
  ¿No respira bien? Dígalo por teléfono. Haga lo que le indiquen.

¿TIENE DUDAS?
  Llame al número de emergencias de su zona.
  No le dé insulina hasta que la clínica lo diga.
)"};

}  // namespace

std::string first_aid_card(Language language) { return kCard[static_cast<int>(language)]; }

std::string first_aid_cards(Language first) {
  std::string cards = first_aid_card(first);
  for (int i = 0; i < kLanguages; ++i) {
    if (i != static_cast<int>(first)) cards += "\n" + first_aid_card(static_cast<Language>(i));
  }
  return cards;
}

}  // namespace rushlight
