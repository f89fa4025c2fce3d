#include <algorithm>
#include <string>
#include <vector>

#include "protocol/text_words.hpp"
#include "verify/in_words.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// Which drinks a text names, in either language.
struct Drinks {
  bool sweet = false, plain = false;
};

Drinks drinks_in(std::string_view text) {
  Drinks drinks;
  std::string before;
  each_word(text, [&](std::string_view word) {
    const bool sugar = word == "azúcar";
    drinks.sweet = drinks.sweet || word == "sugary" || word == "juice" || word == "jugo" || (sugar && before == "con");
    drinks.plain = drinks.plain || ((word == "water" || word == "agua") && before != "no") ||
                   (word == "free" && before == "sugar") || (sugar && before == "sin");
    before = word;
    return true;
  });
  return drinks;
}

Drinks drinks_of(const Protocol& protocol, const Text& text) {
  return drinks_in(text_by_names(protocol, text.in(Language::en)));
}

/// One screen tells to give sugary drinks and sugar-free ones: which text is wrong is for the clinic to say.
void look_at_drinks(Checking& checking, const Step& step) {
  const Drinks headline = drinks_of(checking.protocol, step.headline);
  const Action *sweet = nullptr, *plain = nullptr;
  int sweets = headline.sweet && !headline.plain ? 1 : 0, plains = headline.plain && !headline.sweet ? 1 : 0;
  for (const ActionId id : step.actions) {
    const Action& action = checking.protocol[id];
    const Drinks drinks = drinks_of(checking.protocol, action.text);
    if (drinks.sweet == drinks.plain) continue;
    (drinks.sweet ? sweet : plain) = &action;
    ++(drinks.sweet ? sweets : plains);
  }
  if (sweets == 0 || plains == 0) return;
  const Action* odd = plain == nullptr || (sweet != nullptr && sweets < plains) ? sweet : plain;
  const Action* other = odd == sweet ? plain : sweet;
  checking.warning(
      odd->where, DrinksApart{step.name, odd->name, odd == sweet},
      Because{other == nullptr ? "the headline" : "the other text", other == nullptr ? step.where : other->where});
}

/// An amount that stands in the headline, and that nothing of the step gives or speaks of.
void look_at_headline(Checking& checking, const Step& step) {
  const Protocol& protocol = checking.protocol;
  for (const Piece& piece : step.headline.in(Language::en)) {
    const auto* dose = std::get_if<DoseId>(&piece);
    if (dose == nullptr) continue;
    const std::string blank = "{" + protocol[*dose].name + "}";
    const bool done = std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) {
      const Action& action = protocol[id];
      const bool gives = action.kind == ActionKind::by_mouth || action.kind == ActionKind::glucagon ||
                         action.kind == ActionKind::insulin || action.kind == ActionKind::fluid;
      return gives || text_by_names(protocol, action.text.in(Language::en)).find(blank) != std::string::npos;
    });
    if (!done) return checking.warning(step.where, HeadlineAlone{step.name, protocol[*dose].name});
  }
}

}  // namespace

void a_screen_says_one_thing(Checking& checking) {
  for (const Step& step : checking.protocol.steps) {
    look_at_drinks(checking, step);
    look_at_headline(checking, step);
  }
}

}  // namespace rushlight
