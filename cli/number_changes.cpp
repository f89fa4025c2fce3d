#include "cli/number_changes.hpp"

#include <algorithm>

#include "cli/number_words.hpp"
#include "cli/plain_text.hpp"
#include "episode/words.hpp"
#include "measure/written.hpp"
#include "protocol/band_name.hpp"
#include "read/threshold_edit.hpp"

namespace rushlight {
namespace {

Finding refused(const Wish& wish, Kind kind) { return Finding{Severity::error, wish.where, std::move(kind), {}}; }

std::vector<std::string> split_names(const std::string& text) {
  std::vector<std::string> names;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(',', begin), text.size());
    const std::string name(trimmed(std::string_view(text).substr(begin, end - begin)));
    if (!name.empty()) names.push_back(name);
    begin = end + 1;
  }
  return names;
}

std::vector<std::string> known_names(const NumbersSet& set) {
  std::vector<std::string> names;
  for (const Number& number : set.numbers) names.push_back(number.name);
  return names;
}

// People type what they read in the list.
std::optional<std::string> id_of_label(const NumbersSet& set, const std::string& typed) {
  for (const Number& number : set.numbers) {
    const Threshold& threshold = set.threshold(number.places.front());
    for (const Language language : {Language::en, Language::es}) {
      if (folded_letters(plain_words(threshold.label, language)) == folded_letters(typed)) return threshold.name;
    }
  }
  return std::nullopt;
}

Finding unknown_id(const NumbersSet& set, const Wish& wish, UnknownId unknown) {
  if (const std::optional<std::string> id = id_of_label(set, wish.id))
    return refused(wish,
                   WrongUse{"`" + wish.id + "` is what the number means; its name is shorter", "write `" + *id + "`"});
  return refused(wish, std::move(unknown));
}

/// The places in the protocols that were named, in the order of the files.
std::variant<std::vector<NumberPlace>, Finding> places_in(const NumbersSet& set, const Wish& wish) {
  std::vector<NumberPlace> places;
  for (const std::string& name : wish.protocols) {
    std::vector<std::string> protocols, ids;
    std::optional<NumberPlace> found;
    for (std::size_t file = 0; file < set.files.size(); ++file) {
      const Protocol& protocol = set.files[file].protocol;
      protocols.push_back(protocol.name);
      if (protocol.name != name) continue;
      for (std::size_t i = 0; i < protocol.thresholds.size(); ++i) {
        ids.push_back(protocol.thresholds[i].name);
        if (ids.back() == wish.id) found = NumberPlace{file, i};
      }
    }
    if (found) {
      if (std::find(places.begin(), places.end(), *found) == places.end()) places.push_back(*found);
    } else if (ids.empty()) {
      return refused(wish, UnknownId{name, "protocol", protocols});
    } else {
      return unknown_id(set, wish, UnknownId{wish.id, "threshold of protocol `" + name + "`", ids});
    }
  }
  std::sort(places.begin(), places.end(), [](NumberPlace a, NumberPlace b) { return a.file < b.file; });
  return places;
}

std::variant<std::vector<NumberPlace>, Finding> places_of(const NumbersSet& set, const Wish& wish) {
  if (!wish.protocols.empty()) return places_in(set, wish);
  std::vector<const Number*> meant;
  for (const Number& number : set.numbers) {
    if (set.threshold(number.places.front()).name == wish.id) meant.push_back(&number);
  }
  if (meant.size() == 1) return meant.front()->places;
  if (meant.empty()) {
    return unknown_id(set, wish, UnknownId{wish.id, "threshold", known_names(set)});
  }
  std::vector<std::string> names;
  for (const Number* number : meant) names.push_back(number->name);
  return refused(wish, SeveralNumbers{wish.id, names});
}

std::string name_of_places(const NumbersSet& set, const std::vector<NumberPlace>& places) {
  for (const Number& number : set.numbers) {
    if (number.places == places) return number.name;
  }
  return protocols_of(set, places, ",") + "/" + set.threshold(places.front()).name;
}

std::optional<Limit> limit_of(ThresholdKind kind, const ValueWords& words) {
  if (kind == ThresholdKind::glucose) {
    const auto mg = decimal_from_text(words.mg_dl), mmol = decimal_from_text(words.mmol_l);
    if (!std::holds_alternative<Decimal>(mg) || !std::holds_alternative<Decimal>(mmol)) return std::nullopt;
    return GlucoseLimit{std::get<Decimal>(mg), std::get<Decimal>(mmol)};
  }
  if (const auto clock = clock_time_from_text(words.value)) return *clock;
  if (const auto number = decimal_from_text(words.value); std::holds_alternative<Decimal>(number))
    return Quantity{std::get<Decimal>(number), Unit::one};
  const auto read = quantity_from_text(words.value);
  if (!std::holds_alternative<Quantity>(read)) return std::nullopt;
  const Quantity& quantity = std::get<Quantity>(read);
  if (const auto duration = duration_from_quantity(quantity)) return *duration;
  if (const auto age = age_from_quantity(quantity)) return *age;
  return quantity;
}

void add_once(std::vector<Finding>& all, Finding finding) {
  const bool told = std::any_of(all.begin(), all.end(), [&](const Finding& earlier) {
    return earlier.where == finding.where && sentence(earlier.kind) == sentence(finding.kind);
  });
  if (!told) all.push_back(std::move(finding));
}

/// The value stated, for each of its places.
std::optional<NumberChange> change_of(const NumbersSet& set, const Wish& wish, ChangePlan& plan) {
  auto named = named_number(set, wish);
  if (auto* finding = std::get_if<Finding>(&named)) {
    add_once(plan.findings, std::move(*finding));
    return std::nullopt;
  }
  NumberChange change{std::move(std::get<NamedNumber>(named)), {}, {}, std::nullopt, wish.where};
  std::vector<NumberPlace> changing;  // the others have this value already
  for (const NumberPlace& place : change.number.places) {
    const ThresholdKind kind = set.threshold(place).kind;
    Read<StatedValue> stated = stated_value(kind, wish.value, wish.where, wish.style);
    if (!stated.value) {
      for (Finding& finding : stated.findings) add_once(plan.findings, std::move(finding));
      return std::nullopt;
    }
    const ValueWords before = words_of(set.draft(place), change.number.band);
    if (same_words(kind, before, stated.value->words)) continue;
    changing.push_back(place);
    change.before.push_back(before);
    change.after.push_back(stated.value->words);
    change.proposed = stated.value->proposed;
  }
  if (changing.empty()) {
    plan.already.push_back(std::move(change.number));
    return std::nullopt;
  }
  if (changing != change.number.places) {
    change.number.places = std::move(changing);
    change.number.name = name_of_places(set, change.number.places) + (wish.band.empty() ? "" : ":" + wish.band);
  }
  return change;
}

/// Of two values for one number neither counts, also where one of them is the value that stands there.
void refuse_stated_twice(const NumbersSet& set, const std::vector<Wish>& wishes, ChangePlan& plan) {
  std::vector<std::pair<NamedNumber, const Wish*>> earlier;
  for (const Wish& wish : wishes) {
    auto named = named_number(set, wish);
    const auto* number = std::get_if<NamedNumber>(&named);
    if (number == nullptr) continue;
    const auto is_same = [&](const auto& other) {
      const std::vector<NumberPlace>& places = other.first.places;
      return other.first.band == number->band &&
             std::any_of(places.begin(), places.end(), [&](const NumberPlace& place) {
               return std::find(number->places.begin(), number->places.end(), place) != number->places.end();
             });
    };
    const auto same = std::find_if(earlier.begin(), earlier.end(), is_same);
    if (same != earlier.end()) {
      const std::string band = wish.band.empty() ? "" : ":" + wish.band;
      add_once(plan.findings, Finding{Severity::error, wish.where, RepeatedKey{wish.id + band},
                                      Because{"it is here too", same->second->where}});
    }
    earlier.emplace_back(*number, &wish);
  }
}

/// What of the changes is for one file.
std::vector<ThresholdChange> changes_in(const NumbersSet& set, std::size_t file,
                                        const std::vector<NumberChange>& changes) {
  std::vector<ThresholdChange> all;
  for (const NumberChange& change : changes) {
    for (std::size_t i = 0; i < change.number.places.size(); ++i) {
      const NumberPlace& place = change.number.places[i];
      if (place.file != file) continue;
      const bool banded = !set.draft(place).bands.empty();
      const Threshold& threshold = set.threshold(place);
      all.push_back(
          {threshold.name, banded ? name_of(threshold.bands[change.number.band]) : "", change.after[i], change.where});
    }
  }
  return all;
}

// A command line cannot say how it was written.
Finding not_to_be_taken_back(const NumberChange& change, const std::string& file, const ReplacedValue& replaced) {
  const ValueWords& words = replaced.before;
  const std::string plain = words.mg_dl.empty() ? words.value : words.mg_dl + " and " + words.mmol_l;
  return Finding{
      Severity::error,
      change.where,
      WrongUse{"`" + change.number.name + "` is written with character references or line breaks in " + file + ":" +
                   std::to_string(replaced.where.line) + ", and could not be taken back byte for byte",
               "write " + plain + " there in plain characters first"},
      {}};
}

}  // namespace

std::optional<Wish> wish_from_text(const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos) return std::nullopt;
  std::string name(trimmed(std::string_view(text).substr(0, equals)));
  Wish wish{{},
            "",
            "",
            std::string(trimmed(std::string_view(text).substr(equals + 1))),
            NumberStyle::point,
            Where{"--change " + text, 0, 0, 0}};
  if (const std::size_t slash = name.find('/'); slash != std::string::npos) {
    wish.protocols = split_names(name.substr(0, slash));
    name = name.substr(slash + 1);
  }
  if (const std::size_t colon = name.find(':'); colon != std::string::npos) {
    wish.band = trimmed(std::string_view(name).substr(colon + 1));
    name = name.substr(0, colon);
  }
  wish.id = trimmed(name);
  if (wish.id.empty()) return std::nullopt;
  return wish;
}

std::variant<NamedNumber, Finding> named_number(const NumbersSet& set, const Wish& wish) {
  auto places = places_of(set, wish);
  if (auto* finding = std::get_if<Finding>(&places)) return std::move(*finding);
  NamedNumber named{std::move(std::get<std::vector<NumberPlace>>(places)), 0, ""};
  named.name = name_of_places(set, named.places);
  const Threshold& first = set.threshold(named.places.front());
  if (wish.band.empty() && !has_bands(first)) return named;
  std::vector<std::string> bands;
  for (const Band& band : first.bands) {
    if (has_bands(first)) bands.push_back(name_of(band));
  }
  if (wish.band.empty()) return refused(wish, BandUnnamed{named.name, bands});
  // Places that were named one by one may be banded in different ways.
  for (const NumberPlace& place : named.places) {
    const auto band = has_bands(set.threshold(place)) ? band_named(set.threshold(place), wish.band) : std::nullopt;
    if (!band || (place != named.places.front() && *band != named.band))
      return refused(wish, UnknownId{wish.band, "band of `" + named.name + "`", bands});
    named.band = *band;
  }
  named.name += ":" + wish.band;
  return named;
}

bool same_words(ThresholdKind kind, const ValueWords& a, const ValueWords& b) {
  if (a == b) return true;
  const std::optional<Limit> first = limit_of(kind, a), second = limit_of(kind, b);
  return first && second && *first == *second;
}

ChangePlan planned(const NumbersSet& set, const std::vector<Wish>& wishes) {
  ChangePlan plan;
  refuse_stated_twice(set, wishes, plan);
  for (const Wish& wish : wishes) {
    if (auto change = change_of(set, wish, plan)) plan.changes.push_back(std::move(*change));
  }
  for (std::size_t file = 0; file < set.files.size(); ++file) {
    const std::vector<ThresholdChange> changes = changes_in(set, file, plan.changes);
    if (changes.empty()) continue;
    const NumbersFile& old = set.files[file];
    Read<EditedProtocol> edited = threshold_edit(old.bytes, old.draft, old.protocol, changes);
    for (Finding& finding : edited.findings) add_once(plan.findings, std::move(finding));
    if (edited.value && edited.value->bytes != old.bytes)
      plan.files.push_back({file, std::move(edited.value->bytes), std::move(edited.value->draft)});
    if (!edited.value) continue;
    std::size_t next = 0;
    for (NumberChange& change : plan.changes) {
      for (std::size_t i = 0; i < change.number.places.size(); ++i) {
        if (change.number.places[i].file != file) continue;
        const ReplacedValue& replaced = edited.value->replaced[next++];
        change.before[i] = replaced.before;
        if (!replaced.as_written) add_once(plan.findings, not_to_be_taken_back(change, old.name, replaced));
      }
    }
  }
  if (has_error(plan.findings)) plan.files.clear();
  return plan;
}

std::string value_typed(ThresholdKind kind, const ValueWords& words) {
  const std::string shown = value_shown(words, Language::en);
  const Read<StatedValue> again = stated_value(kind, shown, Where{"", 0, 0, 0});
  if (again.value && again.value->words == words) return shown;
  return words.mg_dl.empty() ? words.value : shown;
}

std::vector<std::string> undoing(const NumbersSet& set, const std::vector<NumberChange>& changes) {
  std::vector<std::string> words;
  for (const NumberChange& change : changes) {
    const auto kind = [&](std::size_t i) { return set.threshold(change.number.places[i]).kind; };
    const bool alike = std::all_of(change.before.begin(), change.before.end(),
                                   [&](const ValueWords& each) { return each == change.before.front(); });
    if (alike) {
      words.push_back(change.number.name + "=" + value_typed(kind(0), change.before.front()));
      continue;
    }
    const std::size_t colon = change.number.name.find(':');
    const std::string band = colon == std::string::npos ? "" : change.number.name.substr(colon);
    for (std::size_t i = 0; i < change.before.size(); ++i) {
      const NumberPlace& place = change.number.places[i];
      words.push_back(set.protocol(place) + "/" + set.threshold(place).name + band + "=" +
                      value_typed(kind(i), change.before[i]));
    }
  }
  return words;
}

}  // namespace rushlight
