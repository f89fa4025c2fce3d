#include <utility>

#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

using Compared = std::pair<Comparison, const MaybeWord*>;

std::array<Compared, 4> comparisons(const DraftCondition& draft) {
  return {Compared{Comparison::below, &draft.below}, Compared{Comparison::at_least, &draft.at_least},
          Compared{Comparison::above, &draft.above}, Compared{Comparison::at_most, &draft.at_most}};
}

const char* word_of(Comparison comparison) { return words::kComparisons[static_cast<std::size_t>(comparison)].data(); }

std::optional<ThresholdKind> compared_with(FactKind kind) {
  switch (kind) {
    case FactKind::count:
      return ThresholdKind::count;
    case FactKind::glucose:
      return ThresholdKind::glucose;
    case FactKind::ketones:
      return ThresholdKind::ketones;
    case FactKind::time_since:
      return ThresholdKind::time;
    case FactKind::age:
      return ThresholdKind::age;
    case FactKind::weight:
      return ThresholdKind::weight;
    case FactKind::choice:
    case FactKind::ordered_choice:
    case FactKind::insulin:
      return std::nullopt;
  }
  return std::nullopt;
}

std::uint64_t options_from(Resolver& resolver, FactId fact, const Word& is) {
  std::uint64_t options = 0;
  std::vector<std::string> allowed;
  for (const Option& option : resolver.protocol[fact].options) allowed.push_back(option.name);
  allowed.emplace_back("unknown");
  const std::string what = "answer to `" + resolver.protocol[fact].name + "`";
  const std::vector<Word> written = split(is);
  for (const Word& word : written) {
    const auto place = place_in_words(resolver, word, what.c_str(), allowed);
    if (place) options |= *place + 1 == allowed.size() ? kUnknownBit : std::uint64_t{1} << *place;
  }
  if (written.empty()) resolver.error(is.where, WrongWord{"", what, allowed});
  return options;
}

void add_comparison(Resolver& resolver, FactId fact, Comparison comparison, const MaybeWord& word, const Where& where,
                    Conditions& conditions) {
  const Fact& read = resolver.protocol[fact];
  const auto kind = compared_with(read.kind);
  if (!kind) {
    const std::string kind_word = read.yes_no ? "yes-no" : std::string(rushlight::word_of(read.kind));
    resolver.error(word->where, WrongFactKind{read.name, kind_word, word_of(comparison)});
    return;
  }
  const auto limit = threshold_from(resolver, word, {*kind});
  conditions.push_back(Condition{Compares{fact, comparison, limit.value_or(ThresholdId{0})}, where});
}

// Several comparisons in one element all have to hold, like several elements.
void add_fact_test(Resolver& resolver, const DraftCondition& draft, Readable readable, Conditions& conditions) {
  refuse(resolver, draft.counter, "counter", "if", {"fact"});
  refuse(resolver, draft.done, "done", "if", {"fact"});
  const auto place = place_in(resolver, resolver.facts, draft.fact);
  if (!place) return;
  const FactId fact{*place};
  if (readable != Readable::everything && !resolver.protocol[fact].from_child) {
    resolver.error(draft.fact->where,
                   UnknownId{draft.fact->text, "child-file fact", words::all_of(words::kChildFacts)});
    return;
  }
  bool compared = false;
  for (const auto& [comparison, word] : comparisons(draft)) {
    if (!*word) continue;
    compared = true;
    add_comparison(resolver, fact, comparison, *word, draft.where, conditions);
  }
  if (draft.is) conditions.push_back(Condition{Is{fact, options_from(resolver, fact, *draft.is)}, draft.where});
  if (!draft.is && !compared) resolver.error(draft.where, MissingAttribute{"is", "if"});
}

void refuse_comparisons(Resolver& resolver, const DraftCondition& draft, const char* subject, bool at_least_too) {
  const std::vector<std::string> allowed =
      at_least_too ? std::vector<std::string>{subject} : std::vector<std::string>{subject, "at-least"};
  refuse(resolver, draft.is, "is", "if", allowed);
  for (const auto& [comparison, word] : comparisons(draft)) {
    if (comparison != Comparison::at_least || at_least_too) refuse(resolver, *word, word_of(comparison), "if", allowed);
  }
}

void add_counter_test(Resolver& resolver, const DraftCondition& draft, Readable readable, Conditions& conditions) {
  if (readable == Readable::child_file) {
    refuse(resolver, draft.counter, "counter", "if", {"fact"});
    return;
  }
  refuse(resolver, draft.done, "done", "if", {"counter", "at-least"});
  refuse_comparisons(resolver, draft, "counter", false);
  const auto counter = as_id<CounterId>(place_in(resolver, resolver.counters, draft.counter));
  const auto limit = needed_threshold(resolver, draft.at_least, {ThresholdKind::count}, "at-least", "if", draft.where);
  conditions.push_back(
      Condition{CountedAtLeast{counter.value_or(CounterId{0}), limit.value_or(ThresholdId{0})}, draft.where});
}

void add_done_test(Resolver& resolver, const DraftCondition& draft, Readable readable, Conditions& conditions) {
  if (readable == Readable::child_file) {
    refuse(resolver, draft.done, "done", "if", {"fact"});
    return;
  }
  refuse_comparisons(resolver, draft, "done", true);
  const auto action = as_id<ActionId>(place_in(resolver, resolver.actions, draft.done));
  conditions.push_back(Condition{WasGiven{action.value_or(ActionId{0})}, draft.where});
}

void add_clock_test(Resolver& resolver, const DraftCondition& draft, Readable readable, Conditions& conditions) {
  if (readable != Readable::everything) {
    refuse(resolver, draft.clock_from, "clock-from", "if", {"fact"});
    refuse(resolver, draft.clock_up_to, "clock-up-to", "if", {"fact"});
    return;
  }
  const auto from =
      needed_threshold(resolver, draft.clock_from, {ThresholdKind::clock}, "clock-from", "if", draft.where);
  const auto up_to =
      needed_threshold(resolver, draft.clock_up_to, {ThresholdKind::clock}, "clock-up-to", "if", draft.where);
  conditions.push_back(
      Condition{WithinClock{from.value_or(ThresholdId{0}), up_to.value_or(ThresholdId{0})}, draft.where});
}

void add_change_test(Resolver& resolver, const DraftCondition& draft, Readable readable, Conditions& conditions) {
  if (readable == Readable::child_file) {
    refuse(resolver, draft.change, "change", "if", {"fact"});
    return;
  }
  for (const auto& [comparison, word] : comparisons(draft)) refuse(resolver, *word, word_of(comparison), "if", {"is"});
  const auto mark = as_id<MarkId>(place_in(resolver, resolver.marks, draft.change));
  if (needed(resolver, draft.is, "is", "if", draft.where) == nullptr) return;
  std::uint8_t changes = 0;
  for (const Word& word : split(*draft.is)) {
    const auto place = place_in_words(resolver, word, "change", words::all_of(words::kChanges));
    if (place) changes = static_cast<std::uint8_t>(changes | 1U << *place);
  }
  conditions.push_back(Condition{HasChanged{mark.value_or(MarkId{0}), changes}, draft.where});
}

}  // namespace

Conditions conditions_from(Resolver& resolver, const std::vector<DraftCondition>& drafts, Readable readable) {
  Conditions conditions;
  for (const DraftCondition& draft : drafts) {
    if (draft.fact) {
      add_fact_test(resolver, draft, readable, conditions);
    } else if (draft.counter) {
      add_counter_test(resolver, draft, readable, conditions);
    } else if (draft.done) {
      add_done_test(resolver, draft, readable, conditions);
    } else if (draft.change) {
      add_change_test(resolver, draft, readable, conditions);
    }
    if (draft.clock_from || draft.clock_up_to) {
      add_clock_test(resolver, draft, readable, conditions);
    } else if (!draft.fact && !draft.counter && !draft.done && !draft.change) {
      resolver.error(draft.where, MissingAttribute{"fact", "if"});
    }
  }
  return conditions;
}

}  // namespace rushlight
