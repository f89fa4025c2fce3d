#include "wire/child_from_json.hpp"

#include <array>

#include "protocol/words.hpp"
#include "wire/child_parts.hpp"
#include "wire/json_tree.hpp"
#include "wire/object_reader.hpp"
#include "wire/plausible_weight.hpp"

namespace rushlight {
namespace {

using namespace child_parts;

const std::vector<std::string> kKeys{
    "name",     "birth",    "weight",   "weighed",          "weight_confirmed",
    "unit",     "delivery", "strips",   "total_daily_dose", "total_daily_dose_confirmed",
    "total_daily_dose_on",  "insulin_step", "insulin_strength", "correction_factor",
    "rescue",   "foods",    "contacts", "language",         "set",
    "protocols"};
constexpr std::array<std::string_view, 2> kGlucoseUnits{"mg/dL", "mmol/L"};

// Whoever was born before is no child any more, and 1926 for 2026 is a slip. A fixed day, so that nobody is refused one
// night for having grown a day older. Common practice, no source.
constexpr Day kEarliestBirth{std::chrono::year{1990}, std::chrono::January, std::chrono::day{1}};

/// "100 [iU]/mL" for "U100" or "U-100", as boxes and people say it; empty for anything else.
std::string strength_from_box(const JsonNode& node) {
  constexpr std::string_view kLetter = "Uu- ";
  const std::size_t digits = node.text.find_first_not_of(kLetter);
  const bool said_so = node.kind == JsonNode::Kind::text && digits != std::string::npos && digits > 0 &&
                       node.text.find_first_not_of("0123456789", digits) == std::string::npos;
  return said_so ? node.text.substr(digits) + " " + std::string(ucum(Unit::unit_per_ml)) : "";
}

class ChildReader {
 public:
  ChildReader(const JsonNode& root, Day today, std::vector<Finding>& findings)
      : today_(today), findings_(findings), reader_(root, "the child file", kKeys, findings) {}

  Child read() {
    child_.name = reader_.required_text("name", kLongestName).value_or("");
    child_.language = static_cast<Language>(optional_word("language", words::kLanguages, 0));
    child_.unit = static_cast<GlucoseUnit>(required_word("unit", kGlucoseUnits));
    child_.delivery = static_cast<Delivery>(required_word("delivery", words::kDeliveries));
    child_.strips =
        static_cast<Strips>(optional_word("strips", words::kStrips, static_cast<std::size_t>(Strips::none)));
    read_birth();
    read_weight();
    read_daily_dose();
    read_insulin();
    if (const JsonNode* node = reader_.optional("rescue")) child_.rescue = rescue_from(*node, findings_);
    if (const JsonNode* node = reader_.optional("foods")) child_.foods = foods_from(*node, child_.language, findings_);
    if (const JsonNode* node = reader_.optional("contacts")) child_.contacts = contacts_from(*node, findings_);
    child_.protocols = reader_.optional_text("protocols").value_or("");
    child_.set = reader_.optional_text("set", kLongestName).value_or("reference");
    return std::move(child_);
  }

 private:
  template <std::size_t N>
  std::size_t optional_word(const char* key, const std::array<std::string_view, N>& list, std::size_t usual) {
    const JsonNode* node = reader_.optional(key);
    return node == nullptr ? usual : word_of(*node, key, list, findings_).value_or(usual);
  }
  template <std::size_t N>
  std::size_t required_word(const char* key, const std::array<std::string_view, N>& list) {
    const JsonNode* node = reader_.required(key);
    return node == nullptr ? 0 : word_of(*node, key, list, findings_).value_or(0);
  }

  // A day from `least` to today.
  std::optional<Day> past_day(const JsonNode& node, const std::string& what, const Day& least) {
    const auto day = day_of(node, what, findings_);
    if (!day) return std::nullopt;
    if (*day >= least && *day <= today_) return day;
    findings_.push_back(error_at(
        node, OutOfRange{what, text_from_day(*day), text_from_day(least), text_from_day(today_) + " (today)"}));
    return std::nullopt;
  }

  void read_birth() {
    const JsonNode* node = reader_.required("birth");
    if (node == nullptr) return;
    const auto day = past_day(*node, "birth", kEarliestBirth);
    if (!day) return;
    child_.birth = *day;
    birth_known_ = true;
  }

  void read_weight() {
    const JsonNode* node = reader_.optional("weight");
    const JsonNode* day = reader_.optional("weighed");
    const bool confirmed = is_confirmed("weight_confirmed", "weight", node);
    if (day != nullptr) {
      child_.weighed = past_day(*day, "weighed", birth_known_ ? child_.birth : kEarliestBirth);
    }
    if (node == nullptr) {
      if (day != nullptr) {
        findings_.push_back(
            error_at(*day, WrongUse{"`weighed` stands without `weight`", "add `weight`, or leave `weighed` out"}));
      }
      return;
    }
    const auto value = amount_of(*node, "weight", Unit::kilogram, kLightestChild.in(kKilogram), kHeaviestChild.in(kKilogram), findings_);
    if (day == nullptr) {
      findings_.push_back(
          error_at(*node, WrongUse{"the day of weighing is missing", "add `weighed` with the day, like `2026-03-01`"}));
    }
    if (!value) return;
    child_.weight = BodyWeight{*value, kKilogram};
    if (birth_known_ && child_.weighed && !confirmed) ask_about_weight(*node);
  }

  void ask_about_weight(const JsonNode& node) {
    const Age age = age_on(child_.birth, *child_.weighed);
    const WeightRange range = plausible_weight(age);
    if (*child_.weight >= range.least && *child_.weight <= range.most) return;
    const std::string usual =
        text_from_quantity(range.least.quantity()) + " to " + text_from_quantity(range.most.quantity());
    weight_in_doubt_ = true;
    const bool heavy = *child_.weight > range.most;
    findings_.push_back(error_at(node, ImplausibleValue{"weight", node.text,
                                                        "at " + text_from_age(age) + " it lies outside " + usual +
                                                            (heavy ? "; is it in pounds?" : "; is it right?") +
                                                            " if the scale says so, add \"weight_confirmed\": true"}));
  }

  void read_daily_dose() {
    const JsonNode* node = reader_.optional("total_daily_dose");
    const bool confirmed = is_confirmed("total_daily_dose_confirmed", "total_daily_dose", node);
    if (node == nullptr) return;
    const auto value =
        amount_of(*node, "total_daily_dose", Unit::insulin_unit, kLeastDailyDose.in(kInsulinUnit), kMostDailyDose.in(kInsulinUnit), findings_);
    if (!value) return;
    child_.total_daily_dose = InsulinDose{*value, kInsulinUnit};
    if (!child_.weight || weight_in_doubt_ || confirmed) return;
    const Decimal most = product(child_.weight->in(kKilogram), most_daily_insulin_per_kilogram());
    if (*value <= most) return;
    findings_.push_back(error_at(
        *node, ImplausibleValue{
                   "total_daily_dose", node->text,
                   "for this weight it lies above " + text_from_decimal(most) +
                       " units; is it the insulin of one whole day? if so, add \"total_daily_dose_confirmed\": true"}));
  }

  // The ranges only catch slips: pens step by half or whole units, pumps by hundredths; insulin comes in 40 to 500 units in
  // a millilitre. Common practice, no source.
  void read_insulin() {
    if (const JsonNode* node = reader_.optional("total_daily_dose_on")) {
      child_.daily_dose_on = past_day(*node, "total_daily_dose_on", birth_known_ ? child_.birth : kEarliestBirth);
      if (reader_.optional("total_daily_dose") == nullptr)
        findings_.push_back(error_at(*node, WrongUse{"`total_daily_dose_on` stands without `total_daily_dose`",
                                                     "add `total_daily_dose`, or leave `total_daily_dose_on` out"}));
    }
    if (const JsonNode* node = reader_.optional("insulin_step")) {
      const auto step = amount_of(*node, "insulin_step", Unit::insulin_unit, Decimal::of_micros(10'000),
                                  Decimal::whole(2), findings_);
      if (step) child_.insulin_step = InsulinDose{*step, kInsulinUnit};
    }
    if (const JsonNode* node = reader_.optional("insulin_strength")) {
      const std::string meant = strength_from_box(*node);
      if (!meant.empty()) {
        findings_.push_back(error_at(*node, BadNumber{node->text, "the strength is written with its unit", meant}));
      } else if (const auto strength = amount_of(*node, "insulin_strength", Unit::unit_per_ml, Decimal::whole(10),
                                                 Decimal::whole(500), findings_)) {
        child_.insulin_strength = Quantity{*strength, Unit::unit_per_ml};
      }
    }
    if (const JsonNode* node = reader_.optional("correction_factor")) {
      const auto fall = amount_of(*node, "correction_factor", unit_of(child_.unit), least_correction_factor(child_.unit),
                                  greatest_correction_factor(child_.unit), findings_);
      if (fall) child_.correction_factor = CorrectionFactor{*fall, child_.unit};
    }
  }

  bool is_confirmed(const char* key, const char* what, const JsonNode* confirmed_node) {
    const JsonNode* node = reader_.optional(key);
    if (node == nullptr) return false;
    if (node->kind != JsonNode::Kind::boolean) {
      findings_.push_back(error_at(*node, WrongType{key, "`true` or `false`"}));
      return false;
    }
    if (confirmed_node == nullptr) {
      findings_.push_back(error_at(*node, WrongUse{std::string("`") + key + "` stands without `" + what + "`",
                                                   std::string("add `") + what + "`, or leave `" + key + "` out"}));
    }
    return node->text == "true";
  }

  Day today_;
  std::vector<Finding>& findings_;
  ObjectReader reader_;
  Child child_{};
  bool birth_known_ = false;
  bool weight_in_doubt_ = false;  // nothing is judged by it then
};

}  // namespace

Read<Child> child_from_json(std::string_view bytes, const std::string& file, Day today) {
  Read<JsonNode> tree = json_from_text(bytes, file, kChildLimits);
  if (!tree.value) return {std::nullopt, std::move(tree.findings)};
  Read<Child> result;
  if (tree.value->kind != JsonNode::Kind::object) {
    result.findings.push_back(error_at(*tree.value, WrongType{"the child file", "an object in braces: {...}"}));
    return result;
  }
  Child child = ChildReader(*tree.value, today, result.findings).read();
  sort_findings(result.findings);
  if (!has_error(result.findings)) result.value = std::move(child);
  return result;
}

}  // namespace rushlight
