#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "cli/at_the_screen.hpp"
#include "cli/protocol_set.hpp"

namespace rushlight::test {

/// Ana, an invented child of six and 21 kg, with every number on file.
inline Child ana(Language language = Language::en) {
  Child child = mara();
  child.name = "Ana";
  child.language = language;
  child.total_daily_dose = InsulinDose{Decimal::whole(15), kInsulinUnit};
  child.daily_dose_on = *day_from_text("2026-02-10");
  child.contacts.clinic = "555 0100";
  child.contacts.on_call = "555 0101";
  child.contacts.emergency = "555 0999";
  child.contacts.address = "1 Harbour Lane, second floor";
  return child;
}

/// Ana before the screen, in a protocol of the set that travels inside the program.
inline AtTheScreen in_the_set(const std::string& protocol, Child child = ana(), const std::string& set = "reference") {
  static const ProtocolSet reference = embedded_set("reference");
  static const ProtocolSet harbour = embedded_set("harbour-lane");
  const LoadedProtocol* found = (set == "reference" ? reference : harbour).find(protocol);
  if (found == nullptr) throw std::runtime_error("no protocol " + protocol);
  return {std::move(child), found->checked};
}

/// Types what is said of each question that comes, until the step is there.
inline AtTheScreen& until(AtTheScreen& person, const std::string& step,
                          const std::vector<std::pair<std::string, std::string>>& said) {
  for (int typed = 0; typed < 30 && person.view().step != step; ++typed) {
    bool found = false;
    for (const auto& [fact, line] : said) {
      if (person.view().ask.empty() || person.view().ask.front().name != fact) continue;
      person.types(line);
      found = true;
      break;
    }
    if (!found) break;
  }
  if (person.view().step != step) throw std::runtime_error("at " + person.view().step + ", not at " + step);
  return person;
}

/// The answers of a sick day that goes well enough, in the words of the reference set.
using Said = std::vector<std::pair<std::string, std::string>>;
inline Said sick_day(const Said& first = {}) {
  Said said = first;
  const Said rest = {{"awake", "1"},
                     {"already-given", "1"},
                     {"breathing", "1"},
                     {"drowsy", "1"},
                     {"what-is-wrong", "1"},
                     {"glucose", "142"},
                     {"ketones", "0.3"},
                     {"drinking", "2"},
                     {"vomits", "0"},
                     {"belly-pain", "1"},
                     {"diarrhea", "0"},
                     {"dehydrated", "1"},
                     {"fever", "1"},
                     {"supplies-low", "2"},
                     {"meals-missed", "0"},
                     {"sick-since", "1"},
                     {"vomiting-since", "40 min"},
                     {"last-rapid-insulin", "5 h"}};
  said.insert(said.end(), rest.begin(), rest.end());
  return said;
}

}  // namespace rushlight::test
