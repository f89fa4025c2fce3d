#include "protocol/resolve.hpp"

#include <algorithm>

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

bool is_about(const Finding& told, const UnknownId& again) {
  const auto* first = std::get_if<UnknownId>(&told.kind);
  return first != nullptr && first->id == again.id && first->what == again.what && first->known == again.known;
}

// A blank stands for a threshold or a dose: a name that both lack is one mistake.
bool is_about(const Finding& told, const UnknownPlaceholder& again) {
  if (const auto* first = std::get_if<UnknownPlaceholder>(&told.kind)) return first->name == again.name;
  const auto* first = std::get_if<UnknownId>(&told.kind);
  return first != nullptr && first->id == again.name && (first->what == "threshold" || first->what == "dose");
}

bool is_about(const Finding& told, const Finding& again) {
  if (const auto* id = std::get_if<UnknownId>(&again.kind)) return is_about(told, *id);
  const auto* blank = std::get_if<UnknownPlaceholder>(&again.kind);
  return blank != nullptr && is_about(told, *blank);
}

void add_line(Finding& told, const Where& again) {
  const std::string line = std::to_string(again.line);
  if (!told.because) {
    told.because = Because{"also on line " + line, {}};
  } else if (told.because->text.rfind("also on line", 0) == 0) {
    std::string& text = told.because->text;
    text = "also on lines" + text.substr(text.find(' ', text.find("line"))) + ", " + line;
  }
}

// A name misspelt where it is given is unknown wherever it is used: told once, at its first use, with the other lines.
void tell_unknown_names_once(std::vector<Finding>& findings) {
  std::vector<Finding> once;
  for (const bool ids : {true, false}) {  // ids first, so that blanks find them
    for (Finding& finding : findings) {
      if (std::holds_alternative<UnknownPlaceholder>(finding.kind) == ids) continue;
      const auto first = std::find_if(once.begin(), once.end(), [&](const Finding& told) { return is_about(told, finding); });
      if (first == once.end()) {
        once.push_back(std::move(finding));
      } else {
        add_line(*first, finding.where);
      }
    }
  }
  findings = std::move(once);
  sort_findings(findings);
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
  sort_findings(resolver.findings);
  tell_unknown_names_once(resolver.findings);
  Read<Protocol> read{std::nullopt, std::move(resolver.findings)};
  if (!has_error(read.findings)) read.value = std::move(resolver.protocol);
  return read;
}

}  // namespace rushlight
