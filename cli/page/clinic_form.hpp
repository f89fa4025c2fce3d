#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/number_changes.hpp"
#include "wire/json_tree.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {

// The numbers of a set as fields to be filled in. A field is one value; it is named as `--change` names it
// ("low", "carb-by-age:under-6-years"). A glucose has two parts, everything else one.

/// Every number, grouped and ordered as `rushlight thresholds` lists them.
void write_form(JsonWriter& json, const NumbersSet& set, Language language);

/// A value cut into what is typed and the unit that stands behind it.
void write_parts(JsonWriter& json, const ValueWords& words, Language language);

/// A field that somebody typed into: the words of each part; empty where nobody did.
struct TypedField {
  std::string field;
  std::vector<std::optional<std::string>> parts;
};
std::vector<TypedField> typed_fields(const JsonNode* list);

/// What the field states, as `--change` would say it: a number without a unit has the one that stands behind its field.
/// Of a glucose with two parts the ones that somebody typed; the other is worked out. Refused where nothing is written,
/// and where no such field is in the set.
std::variant<Wish, Finding> wish_of(const NumbersSet& set, const TypedField& typed);

}  // namespace rushlight
