#include <algorithm>

#include "cli/numbers_set.hpp"
#include "episode/words.hpp"
#include "protocol/resolve.hpp"

namespace rushlight {
namespace {

bool same_value(const Band& a, const Band& b) {
  return a.age_from == b.age_from && a.age_up_to == b.age_up_to && a.weight_from == b.weight_from &&
         a.weight_up_to == b.weight_up_to && a.clock_from == b.clock_from && a.clock_up_to == b.clock_up_to &&
         a.value == b.value;
}

bool same_number(const Threshold& a, const Threshold& b) {
  if (a.name != b.name || a.kind != b.kind) return false;
  for (const Language language : {Language::en, Language::es}) {
    if (plain_words(a.label, language) != plain_words(b.label, language)) return false;
  }
  return std::equal(a.bands.begin(), a.bands.end(), b.bands.begin(), b.bands.end(), same_value);
}

}  // namespace

void collect_numbers(NumbersSet& set) {
  std::vector<Number>& all = set.numbers;
  for (std::size_t file = 0; file < set.files.size(); ++file) {
    for (std::size_t i = 0; i < set.files[file].protocol.thresholds.size(); ++i) {
      const NumberPlace place{file, i};
      const auto at = std::find_if(all.begin(), all.end(), [&](const Number& number) {
        return same_number(set.threshold(number.places.front()), set.threshold(place));
      });
      if (at == all.end()) {
        all.push_back({"", {place}});
      } else {
        at->places.push_back(place);
      }
    }
  }
  const auto meanings = [&](const std::string& id) {
    return std::count_if(all.begin(), all.end(),
                         [&](const Number& number) { return set.threshold(number.places.front()).name == id; });
  };
  for (Number& number : all) {
    const std::string& id = set.threshold(number.places.front()).name;
    number.name = meanings(id) == 1 ? id : protocols_of(set, number.places, ",") + "/" + id;
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Number& a, const Number& b) { return a.places.size() > b.places.size(); });
}

std::vector<Finding> add_draft(NumbersSet& set, const std::string& file, const std::string& bytes, Read<Draft> draft) {
  if (!draft.value || has_error(draft.findings)) return std::move(draft.findings);
  Read<Protocol> protocol = resolve(*draft.value);
  if (!protocol.value) {
    draft.findings.insert(draft.findings.end(), protocol.findings.begin(), protocol.findings.end());
    return std::move(draft.findings);
  }
  set.files.push_back({file, bytes, std::move(*draft.value), std::move(*protocol.value)});
  return {};
}

ValueWords words_of(const DraftThreshold& threshold, std::size_t band) {
  const auto text = [](const MaybeWord& word) { return word ? word->text : std::string(); };
  if (threshold.bands.empty()) return {text(threshold.value), text(threshold.mg_dl), text(threshold.mmol_l)};
  const DraftBand& one = threshold.bands[band];
  return {text(one.value), text(one.mg_dl), text(one.mmol_l)};
}

std::string protocols_of(const NumbersSet& set, const std::vector<NumberPlace>& places, const std::string& between) {
  std::string names;
  for (const NumberPlace& place : places) names += (names.empty() ? "" : between) + set.protocol(place);
  return names;
}

}  // namespace rushlight
