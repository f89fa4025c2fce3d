#include "wire/child_parts.hpp"

#include <array>

#include "finding/number_words.hpp"
#include "protocol/words.hpp"

namespace rushlight::child_parts {

std::optional<Day> day_of(const JsonNode& node, const std::string& what, std::vector<Finding>& findings) {
  const auto text = text_of(node, what, findings, kLongestName);
  if (!text) return std::nullopt;
  const auto day = day_from_text(*text);
  if (!day) findings.push_back(error_at(node, BadDate{what, *text}));
  return day;
}

std::optional<Decimal> amount_of(const JsonNode& node, const std::string& what, Unit unit, Decimal least, Decimal most,
                                 std::vector<Finding>& findings) {
  const std::string unit_text(ucum(unit));
  if (node.kind == JsonNode::Kind::number) {
    findings.push_back(error_at(node, MissingUnit{node.text, "\"" + node.text + " " + unit_text + "\""}));
    return std::nullopt;
  }
  const auto text = text_of(node, what, findings, kLongestName);
  if (!text) return std::nullopt;
  const auto read = quantity_from_text(*text);
  if (const auto* mistake = std::get_if<QuantityMistake>(&read)) {
    switch (mistake->kind) {
      case QuantityMistake::Kind::number:
        findings.push_back(error_at(node, bad_number(*text, mistake->number.value_or(NumberMistake::not_a_number))));
        break;
      case QuantityMistake::Kind::missing_unit:
        findings.push_back(error_at(node, MissingUnit{*text, *text + " " + unit_text}));
        break;
      case QuantityMistake::Kind::unknown_unit:
        findings.push_back(error_at(node, WrongUnit{*text, unit_text}));
        break;
    }
    return std::nullopt;
  }
  const Quantity quantity = std::get<Quantity>(read);
  if (quantity.unit != unit) {
    findings.push_back(error_at(node, WrongUnit{*text, unit_text}));
    return std::nullopt;
  }
  if (quantity.value < least || quantity.value > most) {
    findings.push_back(error_at(node, OutOfRange{what, *text, text_from_quantity(Quantity{least, unit}),
                                                 text_from_quantity(Quantity{most, unit})}));
    return std::nullopt;
  }
  return quantity.value;
}

std::string telephone_of(const ObjectReader& reader, const std::string& key, std::vector<Finding>& findings) {
  const JsonNode* node = reader.optional(key);
  if (node == nullptr) return {};
  constexpr std::size_t kLongestTelephone = 40;
  const auto text = text_of(*node, key, findings, kLongestTelephone);
  if (!text) return {};
  const bool only_signs = text->find_first_not_of("0123456789 +()-./") == std::string::npos;
  if (!only_signs || text->find_first_of("0123456789") == std::string::npos) {
    findings.push_back(error_at(
        *node, WrongUse{"`" + *text + "` is not a telephone number", "use digits, blanks and + ( ) - . / only"}));
    return {};
  }
  return *text;
}

std::vector<RescueMedicine> rescue_from(const JsonNode& node, std::vector<Finding>& findings) {
  std::vector<RescueMedicine> medicines;
  if (node.kind != JsonNode::Kind::list) {
    findings.push_back(error_at(node, WrongType{"rescue", "a list in square brackets: [...]"}));
    return medicines;
  }
  for (const JsonNode& item : node.items) {
    const ObjectReader reader(item, "a rescue medicine", {"kind", "expires", "place", "concentration"}, findings);
    RescueMedicine medicine{RescueKind::nasal, std::nullopt, {}, std::nullopt};
    const JsonNode* kind = reader.required("kind");
    const auto place = kind ? word_of(*kind, "kind of rescue medicine", words::kRescueKinds, findings) : std::nullopt;
    if (place) medicine.kind = static_cast<RescueKind>(*place);
    if (const JsonNode* expires = reader.optional("expires")) medicine.expires = day_of(*expires, "expires", findings);
    medicine.place = reader.optional_text("place", kLongestName).value_or("");
    if (const JsonNode* strength = reader.optional("concentration")) {
      const auto value = amount_of(*strength, "concentration", Unit::mg_per_ml, Decimal::of_micros(100'000),
                                   Decimal::whole(10), findings);
      if (value) medicine.concentration = Quantity{*value, Unit::mg_per_ml};
    }
    medicines.push_back(std::move(medicine));
  }
  return medicines;
}

Contacts contacts_from(const JsonNode& node, std::vector<Finding>& findings) {
  Contacts contacts;
  const ObjectReader reader(node, "`contacts`", {"clinic", "on_call", "second_adult", "emergency", "address"},
                            findings);
  contacts.clinic = telephone_of(reader, "clinic", findings);
  contacts.on_call = telephone_of(reader, "on_call", findings);
  contacts.emergency = telephone_of(reader, "emergency", findings);
  contacts.address = reader.optional_text("address").value_or("");
  if (const JsonNode* adult = reader.optional("second_adult")) {
    const ObjectReader inner(*adult, "`second_adult`", {"name", "number"}, findings);
    contacts.second_adult_name = inner.required_text("name", kLongestName).value_or("");
    contacts.second_adult = telephone_of(inner, "number", findings);
  }
  return contacts;
}

}  // namespace rushlight::child_parts
