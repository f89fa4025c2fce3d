#include <array>

#include "finding/number_words.hpp"
#include "protocol/words.hpp"
#include "wire/child_parts.hpp"

namespace rushlight::child_parts {
namespace {

constexpr std::array<std::string_view, 3> kFoodUnits{"mL", "g", "piece"};
constexpr Unit kUnits[] = {Unit::millilitre, Unit::gram, Unit::one};

// The unit that the carbohydrate of a food is given in, and the most there can be: pure sugar is 100 g in 100 g, a
// thick syrup holds more in 100 mL because it is heavier than water; no piece of food is larger than a slice of cake.
// Common practice, no source.
struct Content {
  Unit unit;
  Decimal most;
};
Content content_of(Unit food) {
  if (food == Unit::millilitre) return {Unit::gram_per_100_ml, Decimal::whole(140)};
  if (food == Unit::gram) return {Unit::gram_per_100_gram, Decimal::whole(100)};
  return {Unit::gram, Decimal::whole(60)};
}
constexpr Decimal kLeastContent = Decimal::of_micros(500'000);

// A name is one text (in the child's language), or one text for each language.
bool name_from(const JsonNode& node, const std::string& owner, Language usual, std::string (&name)[kLanguages],
               std::vector<Finding>& findings) {
  if (node.kind != JsonNode::Kind::object) {
    const auto text = text_of(node, "name", findings, kLongestName);
    name[static_cast<int>(usual)] = text.value_or("");
    return text.has_value();
  }
  const ObjectReader reader(node, owner, words::all_of(words::kLanguages), findings);
  bool any = false;
  for (std::size_t i = 0; i < words::kLanguages.size(); ++i) {
    name[i] = reader.optional_text(std::string(words::kLanguages[i]), kLongestName).value_or("");
    any = any || !name[i].empty();
  }
  if (node.members.empty()) findings.push_back(error_at(node, MissingKey{"en", owner}));
  return any;
}

std::optional<ChildFood::Measure> measure_from(const JsonNode& node, std::optional<Unit> food, Language usual,
                                               std::vector<Finding>& findings) {
  const ObjectReader reader(node, "`measure`", {"name", "size"}, findings);
  ChildFood::Measure measure{{}, {}};
  const JsonNode* name = reader.required("name");
  const bool named = name != nullptr && name_from(*name, "the name of a measure", usual, measure.name, findings);
  const JsonNode* size = reader.required("size");
  if (size == nullptr || !food) return std::nullopt;
  if (*food == Unit::one) {
    findings.push_back(error_at(node, WrongUse{"a food counted in pieces needs no measure", "leave `measure` out"}));
    return std::nullopt;
  }
  const auto amount = amount_of(*size, "size", *food, Decimal::whole(1), Decimal::whole(1000), findings);
  if (!named || !amount) return std::nullopt;
  measure.size = *amount;
  return measure;
}

std::optional<ChildFood> food_from(const JsonNode& node, Language usual, std::vector<Finding>& findings) {
  const ObjectReader reader(node, "a food", {"kind", "name", "unit", "carbohydrate", "measure", "source"}, findings);
  ChildFood food{FoodKind::other, {}, Unit::one, {}, {}, std::nullopt};
  const JsonNode* kind_node = reader.required("kind");
  const auto kind = kind_node ? word_of(*kind_node, "kind of food", words::kFoodKinds, findings) : std::nullopt;
  const JsonNode* name_node = reader.required("name");
  const bool named = name_node != nullptr && name_from(*name_node, "the name of a food", usual, food.name, findings);
  const JsonNode* unit_node = reader.required("unit");
  const auto unit_place = unit_node ? word_of(*unit_node, "unit of a food", kFoodUnits, findings) : std::nullopt;
  std::optional<Unit> unit;
  if (unit_place) unit = kUnits[*unit_place];
  const JsonNode* content_node = reader.required("carbohydrate");
  std::optional<Decimal> carbohydrate;
  if (content_node && unit) {
    const Content content = content_of(*unit);
    carbohydrate = amount_of(*content_node, "carbohydrate", content.unit, kLeastContent, content.most, findings);
  }
  if (const JsonNode* measure = reader.optional("measure"))
    food.measure = measure_from(*measure, unit, usual, findings);
  food.source = reader.required_text("source").value_or("");
  if (!kind || !named || !unit || !carbohydrate) return std::nullopt;
  food.kind = static_cast<FoodKind>(*kind);
  food.unit = *unit;
  food.carbohydrate = *carbohydrate;
  return food;
}

}  // namespace

std::vector<ChildFood> foods_from(const JsonNode& node, Language language, std::vector<Finding>& findings) {
  std::vector<ChildFood> foods;
  if (node.kind != JsonNode::Kind::list) {
    findings.push_back(error_at(node, WrongType{"foods", "a list in square brackets: [...]"}));
    return foods;
  }
  for (const JsonNode& item : node.items) {
    if (auto food = food_from(item, language, findings)) foods.push_back(std::move(*food));
  }
  return foods;
}

}  // namespace rushlight::child_parts
