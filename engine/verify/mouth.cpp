#include <algorithm>
#include <string_view>

#include "verify/dangers.hpp"
#include "verify/properties.hpp"
#include "verify/told_words.hpp"

namespace rushlight {

namespace {

/// Whether the words name food, whatever the action calls itself.
bool names_food(const Protocol& protocol, const Text& text) {
  for (const Template& line : text.line) {
    for (const Piece& piece : line) {
      if (const auto* filler = std::get_if<Filler>(&piece)) {
        if (*filler == Filler::food || *filler == Filler::other_foods) return true;
      } else if (const auto* dose = std::get_if<DoseId>(&piece)) {
        const Unit unit = protocol[*dose].unit;
        if (unit == Unit::gram || unit == Unit::millilitre) return true;
      }
    }
  }
  return false;
}

// Whoever writes "give juice" as a note gives it all the same, and "a spoon of sugar in the cheek" needs no verb.
constexpr std::string_view kFoods[] = {"juice",  "sugar",  "sugary", "honey",  "gel",    "sips",  "drink", "water",
                                       "milk",   "bread",  "food",   "sweets", "candy",  "snack", "eat",   "drinks",
                                       "jugo",   "azúcar", "miel",   "sorbos", "bebida", "agua",  "leche", "pan",
                                       "comida", "dulces", "coma",   "beba",   "comer",  "beber"};
// What is taken along on the way to the hospital.
constexpr std::string_view kPacks[] = {"take", "bring", "pack", "lleve", "traiga"};

bool orders_food(std::string_view sentence) {
  bool food = false, packs = false, forbids = false, excepts = false;
  each_word(sentence, [&](std::string_view word) {
    food = food || is_among(word, kFoods);
    packs = packs || is_among(word, kPacks);
    forbids = forbids || is_among(word, kForbids);
    excepts = excepts || is_among(word, kExcepts);
    return true;
  });
  return food && !packs && (!forbids || excepts);
}

bool orders_food(const Text& text) {
  return any_sentence(text, [](std::string_view sentence) { return orders_food(sentence); });
}

bool gives_by_mouth(const Protocol& protocol, const Action& action) {
  return action.kind == ActionKind::by_mouth || action.kind == ActionKind::fluid || names_food(protocol, action.text) ||
         orders_food(action.text);
}

void tell(Checking& checking, const Step& step, const Because& danger) {
  const Protocol& protocol = checking.protocol;
  const auto seen = [&](const Where& where) {
    return std::any_of(checking.findings.begin(), checking.findings.end(), [&](const Finding& finding) {
      return finding.where == where && finding.kind.is<MouthWhileDanger>();
    });
  };
  for (const ActionId id : step.actions) {
    const Action& action = protocol[id];
    if (!gives_by_mouth(protocol, action) || seen(action.where)) continue;
    checking.error(action.where, MouthWhileDanger{step.name, action.name}, danger);
  }
  if ((names_food(protocol, step.headline) || orders_food(step.headline)) && !seen(step.where))
    checking.error(step.where, MouthWhileDanger{step.name, ""}, danger);
}

}  // namespace

// In a step that does not handle the danger its watch fires before anything is shown; but at an end nothing fires any
// more.
void nothing_by_mouth_in_danger(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  for (const Step& step : protocol.steps) {
    const Watch* danger = danger_handled(protocol, step);
    if (danger != nullptr)
      tell(checking, step, Because{"the step handles watch `" + danger->name + "`", danger->where});
  }
  for (const Way& way : checking.graph.ways) {
    const Step& to = protocol[way.to];
    if (!to.ends || danger_handled(protocol, to) != nullptr) continue;
    const Watch* danger = danger_along(protocol, checking.tables, way);
    if (danger == nullptr) continue;
    tell(checking, to,
         Because{"step `" + protocol[way.from].name + "` leads here in the danger of watch `" + danger->name + "`",
                 way.where});
  }
}

}  // namespace rushlight
