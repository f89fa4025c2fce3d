#include "wire/deeds_from_json.hpp"

#include <chrono>

#include "finding/number_words.hpp"
#include "protocol/words.hpp"
#include "wire/object_reader.hpp"

namespace rushlight {
namespace {

// No single amount of sugar or drink is larger, no rescue dose and no insulin of a child. Common practice, no source.
constexpr Decimal largest_amount(Unit unit) {
  if (unit == Unit::insulin_unit) return Decimal::whole(100);
  if (unit == Unit::milligram) return Decimal::whole(5);
  return Decimal::whole(1000);
}

// What lies further back belongs to another night. Common practice, no source.
constexpr std::chrono::hours kLongestAgo{7 * 24};

bool may_be_given(Unit unit) {
  return unit == Unit::gram || unit == Unit::millilitre || unit == Unit::milligram || unit == Unit::microgram ||
         unit == Unit::insulin_unit;
}

std::optional<Quantity> amount_from(const JsonNode& node, const Protocol& protocol, const std::optional<ActionId>& id,
                                    std::vector<Finding>& findings) {
  std::optional<Unit> wanted;
  if (id && protocol[*id].dose) wanted = protocol[*protocol[*id].dose].unit;
  if (node.kind == JsonNode::Kind::number) {
    const std::string unit(ucum(wanted.value_or(Unit::gram)));
    findings.push_back(error_at(node, MissingUnit{node.text, "\"" + node.text + " " + unit + "\""}));
    return std::nullopt;
  }
  const auto text = text_of(node, "amount", findings, kLongestName);
  if (!text) return std::nullopt;
  const std::string units = wanted ? std::string(ucum(*wanted)) : "g, mL, mg, ug or [iU]";
  const auto read = quantity_from_text(*text);
  if (const auto* mistake = std::get_if<QuantityMistake>(&read)) {
    switch (mistake->kind) {
      case QuantityMistake::Kind::number:
        findings.push_back(error_at(node, bad_number(*text, mistake->number.value_or(NumberMistake::not_a_number))));
        break;
      case QuantityMistake::Kind::missing_unit:
        findings.push_back(
            error_at(node, MissingUnit{*text, *text + " " + std::string(ucum(wanted.value_or(Unit::gram)))}));
        break;
      case QuantityMistake::Kind::unknown_unit:
        findings.push_back(error_at(node, WrongUnit{*text, units}));
        break;
    }
    return std::nullopt;
  }
  const Quantity quantity = std::get<Quantity>(read);
  if (wanted ? quantity.unit != *wanted : !may_be_given(quantity.unit)) {
    findings.push_back(error_at(node, WrongUnit{*text, units}));
    return std::nullopt;
  }
  const Decimal largest = largest_amount(quantity.unit);
  if (quantity.value < Decimal{} || quantity.value > largest) {
    const std::string unit = " " + std::string(ucum(quantity.unit));
    findings.push_back(error_at(node, OutOfRange{"amount", *text, "0" + unit, text_from_decimal(largest) + unit}));
    return std::nullopt;
  }
  return quantity;
}

std::vector<std::string> outcomes_of(ActionKind kind) {
  if (is_call(kind)) return {"given", "reached", "no-answer", "told"};
  const bool through_skin = kind == ActionKind::insulin || kind == ActionKind::glucagon;
  if (through_skin) return {"given", "part", "refused", "none-here", "wrong"};
  return {"given", "part", "refused", "vomited", "none-here", "wrong"};
}

std::optional<Outcome> outcome_from(const JsonNode& node, const Protocol& protocol, const std::optional<ActionId>& id,
                                    std::vector<Finding>& findings) {
  const auto text = text_of(node, "outcome", findings, kLongestName);
  if (!text) return std::nullopt;
  const std::vector<std::string> allowed = id ? outcomes_of(protocol[*id].kind) : words::all_of(words::kOutcomes);
  for (const std::string& word : allowed) {
    if (word == *text) return static_cast<Outcome>(*words::place_of(words::kOutcomes, word));
  }
  findings.push_back(error_at(node, WrongWord{*text, "outcome of this action", allowed}));
  return std::nullopt;
}

std::optional<Deed> deed_from(const JsonNode& node, const Protocol& protocol, const std::optional<Moment>& at,
                              std::vector<Finding>& findings) {
  const ObjectReader reader(node, "`done`", {"action", "outcome", "amount", "when"}, findings);
  std::optional<ActionId> action;
  if (const auto name = reader.required_text("action", kLongestName)) {
    action = protocol.action_named(*name);
    if (!action) {
      std::vector<std::string> known;
      for (const Action& one : protocol.actions) known.push_back(one.name);
      findings.push_back(error_at(*reader.optional("action"), UnknownId{*name, "action", known}));
    }
  }
  const JsonNode* outcome_node = reader.required("outcome");
  const auto outcome = outcome_node ? outcome_from(*outcome_node, protocol, action, findings) : std::nullopt;
  const JsonNode* amount_node = reader.optional("amount");
  const auto amount = amount_node ? amount_from(*amount_node, protocol, action, findings) : std::nullopt;
  const JsonNode* when_node = reader.optional("when");
  const auto when = when_node ? moment_from_json(*when_node, "when", findings) : std::nullopt;
  if (when && at && when->utc > at->utc) {
    findings.push_back(error_at(*when_node, WrongUse{"`when` lies after `at`: it has not happened yet",
                                                     "give the time when it was done, or leave `when` out"}));
  }
  if (when && at && when->utc < at->utc - kLongestAgo) {
    findings.push_back(error_at(
        *when_node, WrongUse{"`when` lies more than 7 days before `at`", "look at the date, or leave `when` out"}));
  }
  if (!action || !outcome) return std::nullopt;
  return Deed{*action, *outcome, amount, when};
}

}  // namespace

std::optional<Moment> moment_from_json(const JsonNode& node, const std::string& what, std::vector<Finding>& findings) {
  const auto text = text_of(node, what, findings, kLongestName);
  if (!text) return std::nullopt;
  const auto moment = moment_from_text(*text);
  if (!moment) {
    findings.push_back(error_at(node, WrongUse{"`" + what + "` is no date and time with an offset: `" + *text + "`",
                                               "write it like `2026-03-01T02:10:00-05:00`"}));
  }
  return moment;
}

std::vector<Deed> deeds_from_json(const JsonNode& node, const Protocol& protocol, const std::optional<Moment>& at,
                                  std::vector<Finding>& findings) {
  std::vector<Deed> deeds;
  if (node.kind == JsonNode::Kind::list) {
    if (node.items.empty()) {
      findings.push_back(
          error_at(node, WrongUse{"`done` is an empty list", "name at least one action, or write `true`"}));
    }
    for (const JsonNode& item : node.items) {
      if (auto deed = deed_from(item, protocol, at, findings)) deeds.push_back(*deed);
    }
    return deeds;
  }
  if (auto deed = deed_from(node, protocol, at, findings)) deeds.push_back(*deed);
  return deeds;
}

}  // namespace rushlight
