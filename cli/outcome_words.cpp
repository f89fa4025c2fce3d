#include "cli/outcome_words.hpp"

#include <algorithm>

namespace rushlight {

std::vector<Outcome> outcomes_of(ActionKind kind) {
  std::vector<Outcome> outcomes = outcomes_to_cover(kind);
  outcomes.push_back(Outcome::given);
  return outcomes;
}

std::vector<Outcome> amounts_of(ActionKind kind) {
  std::vector<Outcome> outcomes = outcomes_of(kind);
  std::rotate(outcomes.begin(), outcomes.end() - 1, outcomes.end());
  return outcomes;
}

std::string outcome_mark(Outcome outcome, Language language) {
  const bool es = language == Language::es;
  switch (outcome) {
    case Outcome::given:
      return es ? "hecho" : "done";
    case Outcome::part:
      return es ? "solo una parte" : "only part";
    case Outcome::refused:
      return es ? "no se dio" : "not taken";
    case Outcome::vomited:
      return es ? "vomitado" : "vomited";
    case Outcome::none_here:
      return es ? "no hay aquí" : "none here";
    case Outcome::wrong:
      return es ? "salió mal" : "went wrong";
    case Outcome::reached:
      return es ? "contestaron" : "answered";
    case Outcome::no_answer:
      return es ? "nadie contestó" : "no answer";
    case Outcome::told:
      return es ? "le dijeron qué hacer" : "told what to do";
  }
  return "";
}

std::string outcome_line(Outcome outcome, ActionKind kind, Language language) {
  const bool es = language == Language::es;
  const bool needle = kind == ActionKind::glucagon || kind == ActionKind::insulin;
  switch (outcome) {
    case Outcome::given:
      return es ? "Está hecho, todo" : "It is done, all of it";
    case Outcome::part:
      return es ? "Solo entró una parte" : "Only part of it went in";
    case Outcome::refused:
      if (needle) return es ? "No se pudo dar" : "It could not be given";
      return es ? "No lo quiere, o lo escupe" : "Refuses it, or spits it out";
    case Outcome::vomited:
      return es ? "Lo vomitó" : "Vomited it";
    case Outcome::none_here:
      return es ? "Aquí no hay" : "There is none here";
    case Outcome::wrong:
      return es ? "Fue otra cosa u otra cantidad" : "It was the wrong thing or amount";
    case Outcome::reached:
    case Outcome::no_answer:
    case Outcome::told:
      break;
  }
  return outcome_mark(outcome, language);
}

}  // namespace rushlight
