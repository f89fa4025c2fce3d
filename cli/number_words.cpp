#include "cli/number_words.hpp"

#include <algorithm>

#include "cli/say.hpp"
#include "episode/words.hpp"
#include "measure/written.hpp"
#include "protocol/band_name.hpp"

namespace rushlight {
namespace {

struct UnitName {
  Unit unit;
  Both one, many;
};

// Codes that are no words.
const UnitName kNames[] = {
    {Unit::insulin_unit, {"unit", "unidad"}, {"units", "unidades"}},
    {Unit::unit_per_kilogram, {"unit/kg", "unidad/kg"}, {"units/kg", "unidades/kg"}},
    {Unit::microgram, {"microgram", "microgramo"}, {"micrograms", "microgramos"}},
    {Unit::microgram_per_year, {"microgram a year", "microgramo al año"}, {"micrograms a year", "microgramos al año"}},
    {Unit::year, {"year", "año"}, {"years", "años"}},
    {Unit::month, {"month", "mes"}, {"months", "meses"}},
    {Unit::day, {"day", "día"}, {"days", "días"}},
    {Unit::gram_per_100_gram, {"g in 100 g", "g en 100 g"}, {"g in 100 g", "g en 100 g"}},
    {Unit::gram_per_100_ml, {"g in 100 mL", "g en 100 mL"}, {"g in 100 mL", "g en 100 mL"}},
};

std::string unit_shown(const std::string& number, std::string_view code, Language language) {
  const std::optional<Unit> unit = unit_from_ucum(code);
  for (const UnitName& name : kNames) {
    if (name.unit == unit) return say(number == "1" ? name.one : name.many, language);
  }
  return std::string(code);
}

AmountWords amount_of(const std::string& written, Language language) {
  const Written parts = written_from_text(written);
  if (parts.unit.empty()) return {std::string(parts.number), ""};
  // A clock time has no unit.
  if (clock_time_from_text(written)) return {written, ""};
  return {std::string(parts.number), unit_shown(std::string(parts.number), parts.unit, language)};
}

std::string text_of(const AmountWords& amount) {
  return amount.unit.empty() ? amount.number : amount.number + " " + amount.unit;
}

constexpr Both kFromTo{"{1} to {2}", "{1} a {2}"}, kOnly{"only {1}", "solo {1}"};

std::string range_shown(const std::string& least, const std::string& most, Language language) {
  const AmountWords low = amount_of(least, language), high = amount_of(most, language);
  if (text_of(low) == text_of(high)) return say(kOnly, language, text_of(low));
  const bool one_unit = written_from_text(least).unit == written_from_text(most).unit;
  return say(kFromTo, language, one_unit ? low.number : text_of(low), text_of(high));
}

struct Less {
  bool operator()(const GlucoseLimit& a, const GlucoseLimit& b) const { return a.mg_per_dl < b.mg_per_dl; }
  bool operator()(const Quantity& a, const Quantity& b) const { return a.unit == b.unit && a.value < b.value; }
  bool operator()(ClockTime, ClockTime) const { return false; }  // a range may pass midnight: which is narrower?
  template <class Value>
  bool operator()(const Value& a, const Value& b) const {
    return a < b;
  }
  template <class A, class B>
  bool operator()(const A&, const B&) const {
    return false;
  }
};

std::string in_other_unit(const GlucoseLimit& limit, const std::string& written) {
  const bool in_mg = written_from_text(written).unit == ucum(Unit::mg_per_dl);
  if (!in_mg) return text_from_decimal(limit.mg_per_dl) + " mg/dL";
  const std::string text = text_from_decimal(limit.mmol_per_l);
  return text + (text.find('.') == std::string::npos ? ".0" : "") + " mmol/L";
}

template <class Value, class Text>
std::string span_shown(const std::optional<Value>& from, const std::optional<Value>& up_to, const Text& text,
                       Language language) {
  constexpr Both kUnder{"under {1}", "menos de {1}"}, kFrom{"from {1}", "desde {1}"},
      kBetween{"from {1} to under {2}", "de {1} a menos de {2}"};
  if (!from) return say(kUnder, language, text_of(text(*up_to)));
  if (!up_to) return say(kFrom, language, text_of(text(*from)));
  const AmountWords low = text(*from), high = text(*up_to);
  const bool one_unit = low.unit == high.unit || low.number == "1";
  return say(kBetween, language, one_unit ? low.number : text_of(low), text_of(high));
}

}  // namespace

Narrowest narrowest(const NumbersSet& set, const Number& number) {
  const Threshold& first = set.threshold(number.places.front());
  Narrowest found{&first, &first};
  for (const NumberPlace& place : number.places) {
    const Threshold& one = set.threshold(place);
    if (!one.range || !found.least->range || !found.most->range) continue;
    if (std::visit(Less{}, found.least->range->least, one.range->least)) found.least = &one;
    if (std::visit(Less{}, one.range->most, found.most->range->most)) found.most = &one;
  }
  return found;
}

AmountWords amount_words(const std::string& written, Language language) { return amount_of(written, language); }

std::string amount_shown(const std::string& written, Language language) {
  return text_of(amount_of(written, language));
}

std::vector<std::string> value_lines(const ValueWords& words, Language language) {
  if (words.mg_dl.empty()) return {amount_shown(words.value, language)};
  return {words.mg_dl + " mg/dL", words.mmol_l + " mmol/L"};
}

std::string value_shown(const ValueWords& words, Language language) {
  const std::vector<std::string> lines = value_lines(words, language);
  return lines.size() == 1 ? lines.front() : lines.front() + ", " + lines.back();
}

std::string band_shown(const Band& band, Language language) {
  std::string words;
  const auto add = [&](const std::string& span) { words += (words.empty() ? "" : ", ") + span; };
  const auto age = [&](Age each) { return amount_of(text_from_age(each), language); };
  const auto weight = [&](BodyWeight each) { return amount_of(text_from_quantity(each.quantity()), language); };
  const auto clock = [&](ClockTime each) { return AmountWords{text_from_clock_time(each), ""}; };
  if (band.age_from || band.age_up_to) add(span_shown(band.age_from, band.age_up_to, age, language));
  if (band.weight_from || band.weight_up_to) add(span_shown(band.weight_from, band.weight_up_to, weight, language));
  constexpr Both kHours{"from {1} to {2}", "de {1} a {2}"}, kBefore{"before {1}", "antes de las {1}"},
      kSince{"from {1}", "desde las {1}"};
  if (band.clock_from && band.clock_up_to) {
    add(say(kHours, language, clock(*band.clock_from).number, clock(*band.clock_up_to).number));
  } else if (band.clock_up_to) {
    add(say(kBefore, language, clock(*band.clock_up_to).number));
  } else if (band.clock_from) {
    add(say(kSince, language, clock(*band.clock_from).number));
  }
  return words;
}

Border border_of(const NumbersSet& set, const Number& number, Language language) {
  const Narrowest found = narrowest(set, number);
  return {amount_shown(found.least->least, language), amount_shown(found.most->most, language)};
}

std::vector<std::string> range_lines(const NumbersSet& set, const Number& number, Language language) {
  const Narrowest found = narrowest(set, number);
  std::vector<std::string> lines{range_shown(found.least->least, found.most->most, language)};
  if (!found.least->range || !found.most->range) return lines;
  const auto* least = std::get_if<GlucoseLimit>(&found.least->range->least);
  const auto* most = std::get_if<GlucoseLimit>(&found.most->range->most);
  if (least && most) {
    lines.push_back(
        range_shown(in_other_unit(*least, found.least->least), in_other_unit(*most, found.most->most), language));
  }
  return lines;
}

std::string sources_shown(const NumbersSet& set, const Number& number, Citation form, Language language) {
  constexpr Both kNoSource{"common practice, no source", "práctica común, sin fuente"};
  std::vector<std::string> all;
  for (const NumberPlace& place : number.places) {
    const Protocol& protocol = set.files[place.file].protocol;
    Source source = protocol[set.threshold(place).source];
    if (form == Citation::brief) {
      source.title.clear();
      source.place.clear();
      if (!source.year.empty() && source.year.find_first_not_of("0123456789") != std::string::npos) source.year.clear();
    }
    const bool practice = source.common_practice && source.publisher.empty();
    const std::string text = practice ? say(kNoSource, language) : citation(source);
    if (std::find(all.begin(), all.end(), text) == all.end()) all.push_back(text);
  }
  std::string words;
  for (const std::string& text : all) words += (words.empty() ? "" : "; ") + text;
  return words;
}

std::string places_shown(const NumbersSet& set, const std::vector<NumberPlace>& places, std::size_t band, bool whole) {
  std::string words;
  for (const NumberPlace& place : places) {
    const DraftThreshold& draft = set.draft(place);
    const Where& where = draft.bands.empty() ? draft.where : draft.bands[band].where;
    const std::string& path = where.file;
    const std::string file = whole ? path : path.substr(path.find_last_of('/') + 1);
    words += (words.empty() ? "" : ", ") + file + ":" + std::to_string(where.line);
  }
  return words;
}

std::string protocols_shown(const NumbersSet& set, const std::vector<NumberPlace>& places, Language language) {
  constexpr Both kAnd{" and ", " y "}, kAndBeforeI{" and ", " e "};
  std::string words;
  for (std::size_t i = 0; i < places.size(); ++i) {
    const Both& last = set.protocol(places[i]).starts_with('i') ? kAndBeforeI : kAnd;
    if (i > 0) words += i + 1 == places.size() ? say(last, language) : ", ";
    words += set.protocol(places[i]);
  }
  return words;
}

}  // namespace rushlight
