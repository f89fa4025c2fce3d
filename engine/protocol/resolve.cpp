#include "protocol/resolve.hpp"

#include "protocol/resolve_parts.hpp"

namespace rushlight {

namespace {

constexpr std::size_t kMostOfANoun = 60'000;  // places are 16 bits wide

std::string text_or_empty(const MaybeWord& word) { return word ? word->text : std::string{}; }

bool too_many(Resolver& resolver) {
  const Draft& draft = resolver.draft;
  std::size_t actions = 0;
  for (const DraftStep& step : draft.steps) actions += step.actions.size();
  for (const std::size_t count :
       {draft.sources.size(), draft.thresholds.size(), draft.facts.size(), draft.doses.size(), draft.timers.size(),
        draft.counters.size(), draft.marks.size(), draft.watch.size(), draft.steps.size(), actions}) {
    if (count <= kMostOfANoun) continue;
    resolver.error(draft.where, TooLarge{"elements of one kind", static_cast<long long>(count),
                                         static_cast<long long>(kMostOfANoun)});
    return true;
  }
  return false;
}

void resolve_head(Resolver& resolver) {
  const Draft& draft = resolver.draft;
  Protocol& protocol = resolver.protocol;
  for (const auto& [word, attribute] : {std::pair{&draft.set, "set"}, std::pair{&draft.id, "id"}}) {
    const Word* id = needed(resolver, *word, attribute, "protocol", draft.where);
    if (id != nullptr && !is_id(id->text)) resolver.error(id->where, BadId{id->text});
  }
  needed(resolver, draft.version, "version", "protocol", draft.where);
  protocol.set = text_or_empty(draft.set);
  protocol.name = text_or_empty(draft.id);
  protocol.version = text_or_empty(draft.version);
  protocol.where = draft.where;
  protocol.title = text_from(resolver, draft.title, "title", draft.where);
  for (const DraftText& caution : draft.cautions) {
    protocol.cautions.push_back(text_from(resolver, caution, "caution", draft.where));
  }
}

// A source says who printed it, or that nobody did.
void resolve_sources(Resolver& resolver) {
  for (const DraftSource& draft : resolver.draft.sources) {
    Source source{};
    source.name = text_or_empty(draft.id);
    source.common_practice = is_yes(resolver, draft.common_practice, "common-practice");
    source.from_memory = is_yes(resolver, draft.from_memory, "from-memory");
    if (!source.common_practice) {
      needed(resolver, draft.publisher, "publisher", "source", draft.where);
      needed(resolver, draft.title, "title", "source", draft.where);
    }
    source.publisher = text_or_empty(draft.publisher);
    source.year = text_or_empty(draft.year);
    source.title = text_or_empty(draft.title);
    source.place = text_or_empty(draft.place);
    source.where = draft.where;
    resolver.protocol.sources.push_back(std::move(source));
  }
}

void resolve_frame(Resolver& resolver) {
  for (const DraftTimer& timer : resolver.draft.timers) {
    resolver.protocol.timers.push_back(
        Timer{text_or_empty(timer.id), text_from(resolver, timer.label, "timer", timer.where), timer.where});
  }
  for (const DraftCounter& counter : resolver.draft.counters) {
    resolver.protocol.counters.push_back(Counter{text_or_empty(counter.id), counter.where});
  }
}

void resolve_start(Resolver& resolver) {
  const Draft& draft = resolver.draft;
  if (!draft.start) resolver.error(draft.where, UnknownStart{});
  resolver.protocol.start = id_or_stand_in<StepId>(place_in(resolver, resolver.steps, draft.start));
  resolver.protocol.weight_fresh = threshold_from(resolver, draft.weight_fresh, {ThresholdKind::time});
  if (draft.steps.empty()) resolver.error(draft.where, MissingElement{"step", "steps"});
}

}  // namespace

void Resolver::error(const Where& where, Kind kind, std::optional<Because> because) {
  findings.push_back(Finding{Severity::error, where, std::move(kind), std::move(because)});
}

Read<Protocol> resolve(const Draft& draft) {
  Resolver resolver{draft};
  if (too_many(resolver)) return {std::nullopt, std::move(resolver.findings)};
  resolve_languages(resolver);
  collect_names(resolver);  // first: texts, rules and actions may name what stands further down
  resolve_head(resolver);
  resolve_sources(resolver);
  resolve_thresholds(resolver);
  resolve_facts(resolver);
  resolve_marks(resolver);
  resolve_foods(resolver);
  resolve_doses(resolver);
  resolve_frame(resolver);
  resolve_opening_and_worse(resolver);
  resolve_steps(resolver);
  resolve_watch(resolver);
  resolve_start(resolver);
  resolve_part(resolver);
  if (!has_error(resolver.findings)) doubt_unused_names(resolver);
  sort_findings(resolver.findings);
  tell_unknown_names_once(resolver);
  Read<Protocol> read{std::nullopt, std::move(resolver.findings)};
  if (!has_error(read.findings)) read.value = std::move(resolver.protocol);
  return read;
}

}  // namespace rushlight
