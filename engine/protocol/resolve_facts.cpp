#include "protocol/child.hpp"
#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

constexpr std::size_t kMostOptions = 62;  // one bit each in a word of 64, one for "can't tell", one to spare

Text in_declared(const Resolver& resolver, const char* en, const char* es) {
  Text text;
  for (const Language language : resolver.protocol.languages) {
    text.line[static_cast<std::size_t>(language)] = {std::string(language == Language::en ? en : es)};
  }
  return text;
}

Option plain_option(const Resolver& resolver, std::string_view name) {
  const std::string word(name);
  return Option{word, in_declared(resolver, word.c_str(), word.c_str())};
}

Fact child_fact(const Resolver& resolver, ChildFact which, FactKind kind) {
  Fact fact{};
  fact.name = std::string(words::kChildFacts[static_cast<std::size_t>(which)]);
  fact.kind = kind;
  fact.from_child = true;
  fact.where = Where{resolver.draft.where.file, 0, 0, 0};
  return fact;
}

// In the order of ChildFact: their places are known to everyone.
void add_child_facts(Resolver& resolver) {
  std::vector<Fact>& facts = resolver.protocol.facts;
  facts.push_back(child_fact(resolver, ChildFact::age, FactKind::age));
  facts.push_back(child_fact(resolver, ChildFact::weight, FactKind::weight));
  facts.push_back(child_fact(resolver, ChildFact::total_daily_dose, FactKind::insulin));
  facts.push_back(child_fact(resolver, ChildFact::delivery, FactKind::choice));
  for (const std::string_view name : words::kDeliveries) facts.back().options.push_back(plain_option(resolver, name));
  facts.push_back(child_fact(resolver, ChildFact::rescue, FactKind::choice));
  for (const char* name : kRescueOptions) facts.back().options.push_back(plain_option(resolver, name));
  facts.push_back(child_fact(resolver, ChildFact::strips, FactKind::choice));
  for (const std::string_view name : words::kStrips) facts.back().options.push_back(plain_option(resolver, name));
  for (const ChildFact known : {ChildFact::mini_dose_kit, ChildFact::correction_known}) {
    facts.push_back(child_fact(resolver, known, FactKind::choice));
    for (const char* name : {"yes", "no"}) facts.back().options.push_back(plain_option(resolver, name));
  }
  for (const ChildFact past : kPastFacts)
    facts.push_back(child_fact(resolver, past, FactKind::count));
}

void add_options(Resolver& resolver, const DraftFact& draft, Fact& fact) {
  const char* element = draft.kind.text.c_str();
  for (const DraftOption& option : draft.options) {
    const Word* id = needed(resolver, option.id, "id", "option", option.where);
    const std::string name = id == nullptr ? "" : id->text;
    if (id != nullptr && !is_id(name)) resolver.error(id->where, BadId{name});
    if (name == "unknown") {
      resolver.error(id->where, RepeatedId{name, "option"}, Because{"every question already takes `unknown`", {}});
    }
    for (std::size_t i = 0; i < fact.options.size(); ++i) {
      if (name.empty() || fact.options[i].name != name) continue;
      resolver.error(id->where, RepeatedId{name, "option"},
                     Because{"the first `" + name + "`", draft.options[i].where});
      break;
    }
    fact.options.push_back(Option{name, text_from(resolver, option.text, "option", option.where), option.where});
  }
  std::vector<Choosable> choices;
  for (const DraftOption& option : draft.options) choices.push_back({option.id ? option.id->text : "", &option.text});
  refuse_alike(resolver, "answers of `" + fact.name + "`", choices);
  if (fact.options.size() < 2) resolver.error(draft.where, MissingElement{"option", element});
  if (fact.options.size() > kMostOptions) {
    resolver.error(draft.where, TooLarge{"options of one question", static_cast<long long>(fact.options.size()),
                                         static_cast<long long>(kMostOptions)});
    fact.options.resize(kMostOptions);
  }
}

Fact fact_from(Resolver& resolver, const DraftFact& draft) {
  const std::vector<std::string> kinds = {"yes-no",  "choice",  "ordered-choice", "count",
                                          "glucose", "ketones", "time-since"};
  Fact fact{};
  fact.name = draft.id ? draft.id->text : "";
  fact.where = draft.where;
  fact.yes_no = draft.kind.text == "yes-no";
  const auto kind = fact.yes_no ? std::size_t{0} : place_in_words(resolver, draft.kind, "question", kinds);
  const auto known = words::place_of(words::kFactKinds, draft.kind.text);
  fact.kind = kind && known ? static_cast<FactKind>(*known) : FactKind::choice;
  fact.question = text_from(resolver, draft.question, "ask", draft.where);
  if (draft.help) fact.help = text_from(resolver, *draft.help, "help", draft.where);
  const bool chooses = fact.kind == FactKind::choice || fact.kind == FactKind::ordered_choice;
  if (fact.yes_no) {
    fact.options = {Option{"yes", in_declared(resolver, "Yes", "Sí")}, Option{"no", in_declared(resolver, "No", "No")}};
  }
  if (chooses && kind && !fact.yes_no) {
    add_options(resolver, draft, fact);
  } else {
    for (const DraftOption& option : draft.options) {
      resolver.error(option.where, UnknownElement{"option", draft.kind.text, {"ask", "help"}});
    }
  }
  return fact;
}

}  // namespace

std::string_view word_of(FactKind kind) { return words::kFactKinds[static_cast<std::size_t>(kind)]; }

void resolve_facts(Resolver& resolver) {
  add_child_facts(resolver);
  for (const DraftFact& draft : resolver.draft.facts) resolver.protocol.facts.push_back(fact_from(resolver, draft));
}

std::optional<std::uint16_t> option_from(Resolver& resolver, FactId id, const Word& word) {
  const Fact& fact = resolver.protocol[id];
  std::vector<std::string> names;
  for (const Option& option : fact.options) names.push_back(option.name);
  const std::string what = "answer to `" + fact.name + "`";
  const auto place = place_in_words(resolver, word, what.c_str(), names);
  if (!place) return std::nullopt;
  return static_cast<std::uint16_t>(*place);
}

std::vector<Ask> asks_from(Resolver& resolver, const std::vector<DraftAsk>& drafts) {
  std::vector<Ask> asks;
  for (const DraftAsk& draft : drafts) {
    const auto place = needed_place_in(resolver, resolver.facts, draft.fact, "fact", "ask", draft.where);
    if (place && *place < kChildFacts) {
      resolver.error(draft.fact->where, UnknownId{draft.fact->text, "question", {}},
                     Because{"the child file answers `" + draft.fact->text + "`", {}});
    }
    for (const Ask& earlier : asks) {
      if (place && earlier.fact.index == *place) {
        resolver.error(draft.fact->where, RepeatedId{draft.fact->text, "question"},
                       Because{"it is already asked", earlier.where});
        break;
      }
    }
    asks.push_back(
        Ask{id_or_stand_in<FactId>(place), threshold_from(resolver, draft.fresh, {ThresholdKind::time}), draft.where});
  }
  return asks;
}

void resolve_opening_and_worse(Resolver& resolver) {
  resolver.protocol.opening = asks_from(resolver, resolver.draft.opening);
  for (const DraftSign& draft : resolver.draft.worse) {
    const auto place = needed_place_in(resolver, resolver.facts, draft.fact, "fact", "sign", draft.where);
    const Word* answer = needed(resolver, draft.is, "is", "sign", draft.where);
    Sign sign{id_or_stand_in<FactId>(place), 0, text_from(resolver, draft.text, "sign", draft.where), draft.where};
    if (place && *place < kChildFacts) {
      resolver.error(draft.fact->where, UnknownId{draft.fact->text, "question", {}},
                     Because{"the child file answers `" + draft.fact->text + "`", {}});
    } else if (place && resolver.protocol[sign.fact].options.empty()) {
      resolver.error(draft.fact->where,
                     WrongFactKind{draft.fact->text, std::string(word_of(resolver.protocol[sign.fact].kind)), "is"});
    } else if (place && answer != nullptr) {
      sign.option = option_from(resolver, sign.fact, *answer).value_or(0);
    }
    resolver.protocol.worse.push_back(std::move(sign));
  }
  std::vector<Choosable> signs;
  for (const DraftSign& draft : resolver.draft.worse) {
    signs.push_back({(draft.fact ? draft.fact->text : "") + ": " + (draft.is ? draft.is->text : ""), &draft.text});
  }
  refuse_alike(resolver, "signs", signs);
}

}  // namespace rushlight
