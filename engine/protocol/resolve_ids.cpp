#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

bool is_letter(char c) { return c >= 'a' && c <= 'z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

// A name that is already taken in another list (thresholds, doses and blanks share the texts' braces).
void refuse_taken(Resolver& resolver, const Names& other, const std::string& name, const std::string& noun,
                  const Where& where) {
  if (const auto place = other.find(name)) {
    resolver.error(where, RepeatedId{name, noun},
                   Because{"`" + name + "` is already a " + other.noun, other.places[*place]});
  }
}

void add_name(Resolver& resolver, Names& names, const MaybeWord& word, const char* element, const Where& where) {
  const Word* id = needed(resolver, word, "id", element, where);
  if (id == nullptr) {
    names.names.emplace_back();
    names.places.push_back(where);
    return;
  }
  if (!is_id(id->text)) {
    resolver.error(id->where, BadId{id->text});
  } else if (const auto first = names.find(id->text)) {
    resolver.error(id->where, RepeatedId{id->text, names.noun},
                   Because{"the first " + names.noun + " `" + id->text + "`", names.places[*first]});
  }
  names.names.push_back(id->text);
  names.places.push_back(id->where);
}

void reserve_fillers(Resolver& resolver, const MaybeWord& id, const std::string& noun) {
  if (id && words::place_of(words::kFillers, id->text)) {
    resolver.error(id->where, RepeatedId{id->text, noun},
                   Because{"`{" + id->text + "}` in a text already means something else", {}});
  }
}

}  // namespace

bool is_id(std::string_view text) {
  if (text.empty() || !is_letter(text.front()) || text.back() == '-') return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '-' && text[i - 1] == '-') return false;
    if (!is_letter(text[i]) && !is_digit(text[i]) && text[i] != '-') return false;
  }
  return true;
}

std::optional<std::uint16_t> Names::find(std::string_view name) const {
  if (name.empty()) return std::nullopt;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (names[i] == name) return static_cast<std::uint16_t>(i);
  }
  return std::nullopt;
}

std::optional<std::uint16_t> Names::use(std::string_view name) {
  const auto place = find(name);
  if (!place) return std::nullopt;
  if (used.size() <= *place) used.resize(*place + 1U);
  used[*place] = true;
  return place;
}

void collect_names(Resolver& resolver) {
  const Draft& draft = resolver.draft;
  for (const DraftSource& source : draft.sources)
    add_name(resolver, resolver.sources, source.id, "source", source.where);
  for (const DraftThreshold& threshold : draft.thresholds) {
    reserve_fillers(resolver, threshold.id, "threshold");
    add_name(resolver, resolver.thresholds, threshold.id, threshold.kind.text.c_str(), threshold.where);
  }
  for (const std::string_view name : words::kChildFacts) {
    resolver.facts.names.emplace_back(name);
    resolver.facts.places.push_back(Where{draft.where.file, 0, 0, 0});
  }
  for (const DraftFact& fact : draft.facts) {
    if (fact.id && words::place_of(words::kChildFacts, fact.id->text)) {
      resolver.error(fact.id->where, RepeatedId{fact.id->text, "fact"},
                     Because{"the child file answers `" + fact.id->text + "`", {}});
      resolver.facts.names.emplace_back();
      resolver.facts.places.push_back(fact.where);
      continue;
    }
    add_name(resolver, resolver.facts, fact.id, fact.kind.text.c_str(), fact.where);
  }
  for (const DraftDose& dose : draft.doses) {
    reserve_fillers(resolver, dose.id, "dose");
    if (dose.id) refuse_taken(resolver, resolver.thresholds, dose.id->text, "dose", dose.id->where);
    add_name(resolver, resolver.doses, dose.id, "dose", dose.where);
  }
  for (const DraftTimer& timer : draft.timers) add_name(resolver, resolver.timers, timer.id, "timer", timer.where);
  for (const DraftCounter& counter : draft.counters) {
    add_name(resolver, resolver.counters, counter.id, "counter", counter.where);
  }
  for (const DraftMark& mark : draft.marks) add_name(resolver, resolver.marks, mark.id, "mark", mark.where);
  for (const DraftWatch& rule : draft.watch) add_name(resolver, resolver.watches, rule.id, "rule", rule.where);
  for (const DraftStep& step : draft.steps) {
    add_name(resolver, resolver.steps, step.id, "step", step.where);
    for (const DraftAction& action : step.actions) add_name(resolver, resolver.actions, action.id, "do", action.where);
  }
}

std::optional<std::uint16_t> place_in(Resolver& resolver, Names& names, const MaybeWord& word) {
  if (!word) return std::nullopt;
  const auto place = names.use(word->text);
  if (!place) {
    std::vector<std::string> known;
    for (const std::string& name : names.names) {
      if (!name.empty()) known.push_back(name);
    }
    resolver.error(word->where, UnknownId{word->text, names.noun, std::move(known)});
  }
  return place;
}

std::optional<std::uint16_t> needed_place_in(Resolver& resolver, Names& names, const MaybeWord& word,
                                             const char* attribute, const char* element, const Where& where) {
  if (needed(resolver, word, attribute, element, where) == nullptr) return std::nullopt;
  return place_in(resolver, names, word);
}

SourceId source_from(Resolver& resolver, const MaybeWord& word, const char* element, const std::string& id,
                     const Where& where, std::optional<SourceId> otherwise) {
  if (word) return id_or_stand_in<SourceId>(place_in(resolver, resolver.sources, word));
  if (otherwise) return *otherwise;
  resolver.error(where, MissingSource{element, id});
  return SourceId{0};
}

}  // namespace rushlight
