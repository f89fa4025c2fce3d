#include "cli/page/clinic_form.hpp"

#include "cli/number_words.hpp"
#include "cli/plain_text.hpp"
#include "cli/threshold_words.hpp"
#include "episode/words.hpp"
#include "measure/written.hpp"
#include "protocol/band_name.hpp"

namespace rushlight {
namespace {

std::string text_in(const Text& text, Language language) { return cleaned(plain_words(text, language)); }

void write_value(JsonWriter& json, const NumbersSet& set, const Number& number, std::size_t band, Language language) {
  const NumberPlace first = number.places.front();
  const Threshold& threshold = set.threshold(first);
  const bool banded = has_bands(threshold);
  json.begin_object().key("field").text(number.name + (banded ? ":" + name_of(threshold.bands[band]) : ""));
  if (banded) json.key("band").text(band_shown(threshold.bands[band], language));
  json.key("where").text(cleaned(places_shown(set, number.places, band, false)));
  json.key("parts");
  write_parts(json, words_of(set.draft(first), band), language);
  json.end_object();
}

void write_number(JsonWriter& json, const NumbersSet& set, const Number& number, Language language) {
  const Threshold& threshold = set.threshold(number.places.front());
  json.begin_object().key("name").text(number.name);
  json.key("label").text(sentence_case(text_in(threshold.label, language)));
  if (threshold.note) json.key("note").text(text_in(*threshold.note, language));
  json.key("source").text(cleaned(sources_shown(set, number, Citation::whole, language)));
  json.key("allowed").begin_list();
  for (const std::string& line : range_lines(set, number, language)) json.text(cleaned(line));
  json.end_list().key("values").begin_list();
  for (std::size_t band = 0; band < threshold.bands.size(); ++band) write_value(json, set, number, band, language);
  json.end_list().end_object();
}

struct FieldOf {
  const Number* number;
  std::size_t band;
};

std::optional<FieldOf> field_named(const NumbersSet& set, const std::string& name) {
  for (const Number& number : set.numbers) {
    const Threshold& threshold = set.threshold(number.places.front());
    for (std::size_t band = 0; band < threshold.bands.size(); ++band) {
      if (number.name + (has_bands(threshold) ? ":" + name_of(threshold.bands[band]) : "") == name)
        return FieldOf{&number, band};
    }
  }
  return std::nullopt;
}

/// The units of the parts as the file writes them.
std::vector<std::string> units_of(const ValueWords& words) {
  if (!words.mg_dl.empty()) return {std::string(ucum(Unit::mg_per_dl)), std::string(ucum(Unit::mmol_per_l))};
  return {clock_time_from_text(words.value) ? "" : std::string(written_from_text(words.value).unit)};
}

}  // namespace

void write_parts(JsonWriter& json, const ValueWords& words, Language language) {
  json.begin_list();
  const auto write = [&](const std::string& written) {
    const AmountWords amount = amount_words(written, language);
    json.begin_object().key("text").text(cleaned(amount.number)).key("unit").text(cleaned(amount.unit)).end_object();
  };
  if (words.mg_dl.empty()) {
    write(words.value);
  } else {
    for (const std::string& line : value_lines(words, language)) write(line);
  }
  json.end_list();
}

void write_form(JsonWriter& json, const NumbersSet& set, Language language) {
  json.begin_object().key("groups").begin_list();
  std::string last;
  std::size_t values = 0;
  for (const Number& number : set.numbers) {
    const std::string protocols = protocols_shown(set, number.places, language);
    if (protocols != last) {
      if (!last.empty()) json.end_list().end_object();
      const Both& title = number.places.size() > 1 ? threshold_words::kShared : threshold_words::kOne;
      json.begin_object().key("title").text(cleaned(say(title, language, protocols))).key("numbers").begin_list();
    }
    last = protocols;
    write_number(json, set, number, language);
    values += set.threshold(number.places.front()).bands.size();
  }
  if (!last.empty()) json.end_list().end_object();
  json.end_list().key("values").whole(static_cast<long long>(values));
  json.key("count").text(
      say(threshold_words::kCount, language, std::to_string(set.numbers.size()), std::to_string(values)));
  json.key("decides").text(say(threshold_words::kWhoDecides, language)).end_object();
}

std::vector<TypedField> typed_fields(const JsonNode* list) {
  std::vector<TypedField> fields;
  if (list == nullptr) return fields;
  for (const JsonNode& item : list->items) {
    const JsonNode *field = item.find("field"), *parts = item.find("parts");
    if (field == nullptr || parts == nullptr) continue;
    TypedField typed{field->text, {}};
    for (const JsonNode& part : parts->items) {
      const bool untouched = part.kind == JsonNode::Kind::null;
      typed.parts.push_back(untouched ? std::nullopt : std::optional<std::string>(std::string(trimmed(part.text))));
    }
    fields.push_back(std::move(typed));
  }
  return fields;
}

std::variant<Wish, Finding> wish_of(const NumbersSet& set, const TypedField& typed) {
  const Where where{typed.field, 0, 0, 0};
  const std::optional<FieldOf> field = field_named(set, typed.field);
  if (!field) return Finding{Severity::error, where, UnknownId{typed.field, "threshold", {}}, {}};
  const std::vector<std::string> units = units_of(words_of(set.draft(field->number->places.front()), field->band));
  std::string stated;
  for (std::size_t i = 0; i < typed.parts.size() && i < units.size(); ++i) {
    const std::string text = typed.parts[i].value_or("");
    if (text.empty()) continue;
    const bool bare = written_from_text(text).unit.empty() && !units[i].empty();
    stated += (stated.empty() ? "" : ", ") + text + (bare ? " " + units[i] : "");
  }
  if (stated.empty()) return Finding{Severity::error, where, BadNumber{"", "nothing is written"}, {}};
  std::optional<Wish> wish = wish_from_text(typed.field + "=");
  if (!wish) return Finding{Severity::error, where, UnknownId{typed.field, "threshold", {}}, {}};
  wish->value = stated;
  wish->where = where;
  return std::move(*wish);
}

}  // namespace rushlight
