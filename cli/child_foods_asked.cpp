#include "cli/child_questions.hpp"
#include "cli/child_words.hpp"
#include "wire/characters.hpp"
#include "wire/object_reader.hpp"

namespace rushlight::child_questions {

using namespace child_words;

namespace {

const Both& content_question(Unit unit) {
  if (unit == Unit::millilitre) return kPerMillilitres;
  return unit == Unit::gram ? kPerGrams : kPerPiece;
}

Decimal most_content(Unit unit) {
  if (unit == Unit::millilitre) return Decimal::whole(140);
  return unit == Unit::gram ? Decimal::whole(100) : Decimal::whole(60);
}

Unit unit_for(FoodKind kind) {
  switch (kind) {
    case FoodKind::juice:
    case FoodKind::soft_drink:
      return Unit::millilitre;
    case FoodKind::tablets:
      return Unit::one;
    case FoodKind::sugar:
    case FoodKind::gel:
    case FoodKind::honey:
    case FoodKind::other:
      break;
  }
  return Unit::gram;
}

// Grams of carbohydrate; zero: the label is not at hand.
Decimal ask_content(Interview& interview, Unit unit) {
  Decimal content;
  interview.ask(content_question(unit), [&](const std::string& typed) -> std::string {
    if (typed.empty()) return say(kLabelNeeded, interview.language());
    const auto mark = interview.language() == Language::es ? DecimalMark::point_or_comma : DecimalMark::point;
    const auto number = decimal_from_text(typed, mark);
    const auto* value = std::get_if<Decimal>(&number);
    if (value == nullptr) return say(kNumberLike, interview.language(), typed, "9.6");
    const bool left_out = *value == Decimal{};
    const Decimal least = Decimal::of_micros(500'000);
    if (!left_out && (*value < least || *value > most_content(unit))) {
      return say(kDoseOutside, interview.language(), typed,
                 text_from_decimal(least) + "-" + text_from_decimal(most_content(unit)));
    }
    content = *value;
    return {};
  });
  return content;
}

}  // namespace

void ask_foods(Interview& interview, Answers& answers) {
  const Both* question = &kFood;
  const std::vector<Both> lines{kJuice, kSoftDrink, kSugar, kTablets, kGel, kHoney, kNoFood};
  while (!interview.has_ended()) {
    const std::size_t chosen = interview.choose(*question, lines);
    if (chosen == 6 || interview.has_ended()) return;
    question = &kAnotherFood;
    const auto kind = static_cast<FoodKind>(chosen);
    ChildFood food{kind, {}, unit_for(kind), {}, {}, std::nullopt};
    std::string& name = food.name[static_cast<int>(interview.language())];
    interview.ask(kFoodName, [&](const std::string& typed) -> std::string {
      if (length_of(typed) > kLongestName) return say(kTooLong, interview.language());
      name = typed.empty() ? say(lines[chosen], interview.language()) : typed;
      return {};
    });
    food.carbohydrate = ask_content(interview, food.unit);
    food.source = say(kFromLabel, interview.language());
    if (food.carbohydrate > Decimal{}) answers.child.foods.push_back(std::move(food));
  }
}

}  // namespace rushlight::child_questions
