#include <algorithm>

#include "episode/dose_result.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {
namespace {

// What a kitchen can measure out: common practice, no source. Portions of the child's own foods are rounded up to
// these; foods of the protocol bring their own step.
constexpr std::int64_t kMillilitreStep = 5;
constexpr std::int64_t kWholeStep = 1;

/// The portion that holds at least the carbohydrate wanted, in whole steps.
Decimal portion(Decimal wanted_grams, Decimal grams_in_base, Decimal base, Decimal step) {
  // Dividing cuts downward; one step more where the cut lost something.
  const Decimal exact = quotient(product(wanted_grams, base), grams_in_base);
  Decimal amount = rounded(exact, RoundDirection::up, step);
  if (product(amount, grams_in_base) < product(wanted_grams, base)) amount = amount + step;
  return amount;
}

bool allowed(const Scene& scene, FoodKind kind) {
  return std::all_of(scene.protocol.foods.begin(), scene.protocol.foods.end(), [&](const Food& food) {
    return food.kind != kind || all_hold(scene, food.when, Unanswered::is_cant_tell);
  });
}

std::string in_language(const std::string (&names)[kLanguages], Language language) {
  const std::string& wanted = names[static_cast<int>(language)];
  if (!wanted.empty()) return wanted;
  for (const std::string& other : names) {
    if (!other.empty()) return other;
  }
  return wanted;
}

std::string own_food(const ChildFood& food, Carbohydrate wanted, Language language) {
  const bool piece = food.unit == Unit::one;
  const Decimal base = Decimal::whole(piece ? 1 : 100);
  const Decimal step = Decimal::whole(food.unit == Unit::millilitre ? kMillilitreStep : kWholeStep);
  const Decimal amount = portion(wanted.in(kGram), food.carbohydrate, base, step);
  const std::string name = in_language(food.name, language);
  if (piece) return text_from_decimal(amount) + " " + name;
  std::string text = phrase(Phrase::of_food, language, said(Quantity{amount, food.unit}, language), name);
  if (food.measure) {
    const Decimal half = Decimal::of_micros(Decimal::kMicrosPerOne / 2);
    const Decimal measures = rounded(quotient(amount, food.measure->size), RoundDirection::up, half);
    text += " (" + text_from_decimal(measures) + " x " + in_language(food.measure->name, language) + ")";
  }
  return text;
}

std::string stand_in(const Scene& scene, const Food& food, Carbohydrate wanted, Language language) {
  const auto* content = std::get_if<Quantity>(&value_in(scene.protocol[food.carbohydrate], scene.context));
  const auto* step = std::get_if<Quantity>(&value_in(scene.protocol[food.step], scene.context));
  if (content == nullptr || step == nullptr || content->value == Decimal{}) return "";
  const Decimal amount = portion(wanted.in(kGram), content->value, Decimal::whole(100), step->value);
  return phrase(Phrase::of_food, language, said(Quantity{amount, food.unit}, language),
                plain_words(food.name, language));
}

}  // namespace

std::string food_for(const Scene& scene, Carbohydrate wanted, Language language) {
  for (const ChildFood& food : scene.child.foods) {
    if (allowed(scene, food.kind) && food.carbohydrate > Decimal{}) return own_food(food, wanted, language);
  }
  for (const Food& food : scene.protocol.foods) {
    if (!all_hold(scene, food.when, Unanswered::is_cant_tell)) continue;
    std::string text = stand_in(scene, food, wanted, language);
    if (!text.empty()) return text;
  }
  return "";
}

std::string stand_ins_for(const Scene& scene, Carbohydrate wanted, Language language) {
  std::string all;
  for (const Food& food : scene.protocol.foods) {
    if (!all_hold(scene, food.when, Unanswered::is_cant_tell)) continue;
    const std::string text = stand_in(scene, food, wanted, language);
    if (!text.empty()) all += (all.empty() ? "" : "; ") + text;
  }
  return all;
}

}  // namespace rushlight
