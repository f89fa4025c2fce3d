#include <algorithm>
#include <array>
#include <map>
#include <set>
#include <string>

#include "protocol/text_words.hpp"
#include "verify/in_words.hpp"
#include "verify/set_properties.hpp"

namespace rushlight {

namespace {

/// An answer by the names of its question and its own.
using AnswerName = std::pair<std::string, std::string>;

constexpr std::array<Language, 2> kBoth = {Language::en, Language::es};

std::string said_in(const Protocol& protocol, const Text& text, Language language) {
  const Template& line = text.line[static_cast<std::size_t>(language)];
  return line.empty() ? std::string{} : text_by_names(protocol, line);
}

const char* code_of(Language language) { return language == Language::en ? "en" : "es"; }

/// How an answer reads, and how often.
using Readings = std::map<AnswerName, std::map<std::string, int>>;

const std::string& usual_of(const std::map<std::string, int>& readings) {
  return std::max_element(readings.begin(), readings.end(),
                          [](const auto& a, const auto& b) { return a.second < b.second; })
      ->first;
}

/// Of the answers of one question, the one that has elsewhere the text that this one has here.
void look_at_answers(const Protocols& protocols, Language language, std::set<const Fact*>& told,
                     std::vector<Finding>& findings) {
  Readings readings;
  for (const Protocol* protocol : protocols) {
    for (const Fact& fact : protocol->facts) {
      for (const Option& option : fact.options) {
        if (!fact.from_child && !fact.yes_no)
          ++readings[{fact.name, option.name}][said_in(*protocol, option.text, language)];
      }
    }
  }
  for (const Protocol* protocol : protocols) {
    for (const Fact& fact : protocol->facts) {
      if (fact.from_child || fact.yes_no || told.count(&fact) > 0) continue;
      for (const Option& option : fact.options) {
        const std::string here = said_in(*protocol, option.text, language);
        if (here.empty() || usual_of(readings[{fact.name, option.name}]) == here) continue;
        const auto other = std::find_if(fact.options.begin(), fact.options.end(), [&](const Option& each) {
          return &each != &option && usual_of(readings[{fact.name, each.name}]) == here;
        });
        if (other == fact.options.end()) continue;
        told.insert(&fact);
        warn_of(findings, option.where, ReadsAsOther{fact.name, option.name, other->name, code_of(language)},
                Because{"the other answer", other->where});
        break;
      }
    }
  }
}

std::string small_letters(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

bool names_itself(const std::string& text, const std::string& name) {
  constexpr std::size_t kLongEnough = 4;
  return name.size() >= kLongEnough && small_letters(text).find(name) != std::string::npos;
}

bool says_no_in_english(const std::string& text) {
  const std::string all = " " + small_letters(text) + " ";
  constexpr const char* kNo[] = {" no ", " not ", "n't ", "cannot ", "nothing ", " never ", " none "};
  return std::any_of(std::begin(kNo), std::end(kNo),
                     [&](const char* each) { return all.find(each) != std::string::npos; });
}

/// The answers of one file by their own names: `insulin` reads "Rescue glucagon", and `glucagon` "Insulin".
void look_at_names(const Protocol& protocol, std::set<const Fact*>& told, std::vector<Finding>& findings) {
  for (const Fact& fact : protocol.facts) {
    if (fact.from_child || fact.yes_no || told.count(&fact) > 0) continue;
    for (const Option& one : fact.options) {
      for (const Option& other : fact.options) {
        const std::string here = said_in(protocol, one.text, Language::en),
                          there = said_in(protocol, other.text, Language::en);
        const bool exchanged = names_itself(here, other.name) && !names_itself(here, one.name) &&
                               names_itself(there, one.name) && !names_itself(there, other.name);
        const bool turned =
            one.name == "no" && other.name == "yes" && !says_no_in_english(here) && says_no_in_english(there);
        if (&one == &other || told.count(&fact) > 0 || (!exchanged && !turned)) continue;
        told.insert(&fact);
        warn_of(findings, one.where, ReadsAsOther{fact.name, one.name, other.name, "en"},
                Because{"the other answer", other.where});
      }
    }
  }
}

/// Whether two texts have a word in common that means something.
bool share_a_word(const std::string& one, const std::string& other) {
  constexpr std::string_view kSmall[] = {"will", "does", "that", "with", "child", "have", "como", "tiene", "puede"};
  constexpr std::size_t kStem = 4;
  std::set<std::string> stems;
  each_word(one, [&](std::string_view word) {
    const bool small = std::find(std::begin(kSmall), std::end(kSmall), word) != std::end(kSmall);
    if (word.size() >= kStem && !small) stems.insert(std::string(word.substr(0, kStem)));
    return true;
  });
  bool shared = false;
  each_word(other, [&](std::string_view word) {
    shared = word.size() >= kStem && stems.count(std::string(word.substr(0, kStem))) > 0;
    return !shared;
  });
  return shared;
}

/// A line of `<worse>` with the words of another answer.
void look_at_signs(const Protocols& protocols, Language language, const std::set<const Fact*>& told,
                   std::vector<Finding>& findings) {
  std::map<std::string, std::set<AnswerName>> read;
  for (const Protocol* protocol : protocols) {
    for (const Fact& fact : protocol->facts) {
      for (const Option& option : fact.options)
        read[said_in(*protocol, option.text, language)].insert({fact.name, option.name});
    }
  }
  for (const Protocol* here : protocols) {
    for (const Sign& sign : here->worse) {
      const Fact& fact = (*here)[sign.fact];
      const AnswerName name{fact.name, fact.options[sign.option].name};
      const std::string text = said_in(*here, sign.text, language);
      std::set<AnswerName> meant = read[text];
      for (const Protocol* there : protocols) {
        for (const Sign& other : there->worse) {
          const Fact& asked = (*there)[other.fact];
          if (there != here && said_in(*there, other.text, language) == text)
            meant.insert({asked.name, asked.options[other.option].name});
        }
      }
      if (text.empty() || meant.empty() || share_a_word(text, said_in(*here, fact.question, language)) ||
          share_a_word(text, said_in(*here, fact.options[sign.option].text, language)) || meant.count(name) > 0 ||
          told.count(&fact) > 0)
        continue;
      const bool said = std::any_of(findings.begin(), findings.end(),
                                    [&](const Finding& finding) { return finding.where == sign.where; });
      if (!said)
        warn_of(findings, sign.where,
                SignReadsAs{name.first, name.second, meant.begin()->first, meant.begin()->second, code_of(language)});
    }
  }
}

/// Two lines of one file whose words are each about the question of the other.
void look_at_pairs_of_signs(const Protocol& protocol, Language language, std::vector<Finding>& findings) {
  const auto about = [&](const Sign& sign, const Sign& question) {
    const Fact& fact = protocol[question.fact];
    return share_a_word(said_in(protocol, sign.text, language),
                        said_in(protocol, fact.question, language) + " " +
                            said_in(protocol, fact.options[question.option].text, language));
  };
  for (std::size_t i = 0; i < protocol.worse.size(); ++i) {
    for (std::size_t j = i + 1; j < protocol.worse.size(); ++j) {
      const Sign &one = protocol.worse[i], &other = protocol.worse[j];
      if (!about(one, other) || !about(other, one) || about(one, one) || about(other, other)) continue;
      const bool said = std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
        return finding.where == one.where || finding.where == other.where;
      });
      const Fact &fact = protocol[one.fact], &asked = protocol[other.fact];
      if (!said)
        warn_of(findings, one.where,
                SignReadsAs{fact.name, fact.options[one.option].name, asked.name, asked.options[other.option].name,
                            code_of(language)},
                Because{"the other line", other.where});
    }
  }
}

}  // namespace

void answers_keep_their_texts(const Protocols& protocols, std::vector<Finding>& findings) {
  std::set<const Fact*> told;
  for (const Protocol* protocol : protocols) look_at_names(*protocol, told, findings);
  for (const Language language : kBoth) look_at_answers(protocols, language, told, findings);
  for (const Language language : kBoth) look_at_signs(protocols, language, told, findings);
  for (const Protocol* protocol : protocols) look_at_pairs_of_signs(*protocol, Language::en, findings);
}

}  // namespace rushlight
