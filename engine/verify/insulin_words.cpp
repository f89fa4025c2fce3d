#include "verify/properties.hpp"
#include "verify/told_words.hpp"

namespace rushlight {

namespace {

constexpr std::string_view kInsulinWords[] = {"insulin", "insulina"};
constexpr std::string_view kGivesInsulin[] = {"give", "inject", "ponga", "póngale", "inyecte",
                                              "dé",   "dele",   "déle",  "aplique", "administre"};
// The clinic says it by phone, or somebody reads it on the child's own plan.
constexpr std::string_view kElsewhere[] = {"told", "says", "plan", "digan", "diga", "dice"};
constexpr std::string_view kUsualDose[] = {"usual", "siempre", "habitual"};
constexpr std::string_view kStopsIt[] = {"stop", "skip",     "pause", "suspend", "omit", "leave",
                                         "pare", "suspenda", "omita", "salte",   "deje", "quite"};

bool does(const Protocol& protocol, const Step& step, ActionKind kind) {
  return std::any_of(step.actions.begin(), step.actions.end(), [&](ActionId id) { return protocol[id].kind == kind; });
}

/// Hardly a text speaks of insulin, and reading all word by word takes long.
bool names_insulin(const Text& text) {
  return std::any_of(std::begin(text.line), std::end(text.line), [](const Template& line) {
    return std::any_of(line.begin(), line.end(), [](const Piece& piece) {
      const auto* words = std::get_if<std::string>(&piece);
      return words != nullptr &&
             (words->find("nsulin") != std::string::npos || words->find("asal") != std::string::npos);
    });
  });
}

struct InsulinTold {
  bool gives = false, stops = false;
};

/// What a text does in words; `low_or_worse`: the usual dose is none for this child.
InsulinTold told_by(const Text& text, bool low_or_worse) {
  InsulinTold told;
  if (!names_insulin(text)) return told;
  any_sentence(text, [&](std::string_view sentence) {
    bool insulin = false, gives = false, basal = false, stops = false, forbids = false, elsewhere = false;
    each_word(sentence, [&](std::string_view word) {
      insulin = insulin || is_among(word, kInsulinWords);
      gives = gives || is_among(word, kGivesInsulin);
      basal = basal || word == "basal";
      stops = stops || is_among(word, kStopsIt);
      forbids = forbids || is_among(word, kForbids);
      elsewhere = elsewhere || is_among(word, kElsewhere) || (!low_or_worse && is_among(word, kUsualDose));
      return true;
    });
    told.gives = told.gives || (insulin && gives && !forbids && !elsewhere);
    told.stops = told.stops || (basal && stops && !forbids);
    return false;
  });
  return told;
}

}  // namespace

// What words give no floor holds back, and no time between two doses. Basal insulin is never stopped on a sick day
// (ISPAD 2022, sick day management), and not because a child was low.
void insulin_is_not_given_in_words(Checking& checking) {
  const Protocol& protocol = checking.protocol;
  const auto look_at = [&](const Text& text, const Where& where, const std::string& what, bool gives, bool low) {
    const InsulinTold told = told_by(text, low);
    if (gives && told.gives) checking.warning(where, InsulinInWords{what, false});
    if (told.stops) checking.warning(where, InsulinInWords{what, true});
  };
  for (const Step& step : protocol.steps) {
    const bool in_words = !does(protocol, step, ActionKind::insulin);
    const bool low = step.urgency == Urgency::emergency || does(protocol, step, ActionKind::by_mouth);
    look_at(step.headline, step.where, "the headline of step `" + step.name + "`", in_words, low);
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      look_at(action.text, action.where, "the text of `" + action.name + "`", in_words, low);
    }
  }
}

}  // namespace rushlight
