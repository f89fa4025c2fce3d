#include "cli/readings.hpp"

#include "cli/outcome_words.hpp"
#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "cli/why_words.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"

namespace rushlight {

Reading why(const Situation& situation) {
  const Language language = situation.language();
  Reading reading{say(kWhyTitle, language), why_in_plain_words(situation)};
  for (const ShownAction& action : situation.view.actions) {
    if (action.dose && action.dose->amount) reading.lines.push_back(action.dose->working);
  }
  for (const Why& ground : situation.view.why) {
    std::string line;
    if (!ground.label.empty()) line = ground.label;
    if (!ground.value.empty()) line += (line.empty() ? "" : ": ") + ground.value;
    if (!line.empty()) line += ". ";
    if (!ground.source.empty()) line += say(kSource, language, ground.source) + ". ";
    reading.for_the_clinic.push_back(line + say(kRuleName, language, ground.rule));
  }
  return reading;
}

Reading all_cautions(const Situation& situation) {
  return Reading{say(kMoreCautionsItem, situation.language()), situation.view.caution};
}

Reading contacts(const Situation& situation) {
  const Language language = situation.language();
  const Contacts& known = situation.child.contacts;
  Reading reading{say(kMoreContacts, language), {}};
  for (const Contact contact : {Contact::emergency, Contact::on_call, Contact::clinic}) {
    reading.lines.push_back(sentence_case(who(contact, language)) + ": " + number_of(known, contact, language));
  }
  if (!known.second_adult.empty() || !known.second_adult_name.empty()) {
    const std::string name =
        known.second_adult_name.empty() ? phrase(Phrase::second_adult, language) : known.second_adult_name;
    const std::string number = known.second_adult.empty() ? say(kNoNumber, language) : known.second_adult;
    reading.lines.push_back(name + ": " + number);
  }
  if (!known.address.empty()) reading.lines.push_back(say(kAddress, language, known.address));
  return reading;
}

Reading given_so_far(const Situation& situation) {
  const Language language = situation.language();
  Reading reading{say(kMoreGiven, language), {}};
  for (const GivenLine& given : situation.view.given) {
    reading.lines.push_back(clock_text(given.when) + "  " + given.text + " (" + outcome_mark(given.outcome, language) +
                            ")");
  }
  if (reading.lines.empty()) reading.lines.push_back(say(kNothingGiven, language));
  return reading;
}

Reading something_else(const Situation& situation) {
  const Language language = situation.language();
  const Contacts& known = situation.child.contacts;
  return Reading{say(kElseTitle, language),
                 {say(kElseDanger, language, number_of(known, Contact::emergency, language)),
                  say(kElseClinic, language, number_of(known, Contact::on_call, language))}};
}

}  // namespace rushlight
