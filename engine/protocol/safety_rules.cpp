#include "protocol/safety_rules.hpp"

#include <algorithm>

#include "protocol/names_of.hpp"

namespace rushlight {

namespace {

bool is_about(const MaybeWord& named, const Protocol& protocol) { return named && named->text == protocol.name; }

std::string name_or_empty(const MaybeWord& id) { return id ? id->text : std::string{}; }

std::optional<Urgency> urgency_from(Resolver& resolver, const MaybeWord& word) {
  if (!word) return std::nullopt;
  const auto place = place_in_words(resolver, *word, "urgency", words::all_of(words::kUrgencies));
  return place ? std::optional(static_cast<Urgency>(*place)) : std::nullopt;
}

Duration time_from(Resolver& resolver, const MaybeWord& word) {
  if (!word) return Duration{0};
  const std::optional<Limit> limit = limit_from_word(resolver, ThresholdKind::time, *word);
  const auto* time = limit ? std::get_if<Duration>(&*limit) : nullptr;
  return time != nullptr ? *time : Duration{0};
}

void add_never(Resolver& resolver, const DraftNever& draft, SafetyRules& rules) {
  NeverLaw law{
      name_or_empty(draft.id), conditions_from(resolver, draft.when, Readable::everything), {}, {}, draft.where};
  if (draft.does) {
    const auto kind = place_in_words(resolver, *draft.does, "kind of action", words::all_of(words::kActionKinds));
    if (kind) law.does = static_cast<ActionKind>(*kind);
  }
  law.calmer_than = urgency_from(resolver, draft.calmer_than);
  rules.never.push_back(std::move(law));
}

void add_within(Resolver& resolver, const DraftWithin& draft, SafetyRules& rules) {
  rules.within.push_back(WithinLaw{name_or_empty(draft.id),
                                   conditions_from(resolver, draft.stays, Readable::everything),
                                   urgency_from(resolver, draft.come_to).value_or(Urgency::emergency),
                                   time_from(resolver, draft.at_once), time_from(resolver, draft.late), draft.where});
}

std::optional<Duration> maybe_time(Resolver& resolver, const MaybeWord& word) {
  return word ? std::optional(time_from(resolver, word)) : std::nullopt;
}

void add_look(Resolver& resolver, const DraftLook& draft, SafetyRules& rules) {
  LookLaw law{name_or_empty(draft.id),
              as_id<DoseId>(place_in(resolver, resolver.doses, draft.after)),
              urgency_from(resolver, draft.urgency),
              maybe_time(resolver, draft.at_least),
              maybe_time(resolver, draft.at_most),
              draft.where};
  if (law.at_least && law.at_most && *law.at_most < *law.at_least) {
    resolver.error(draft.at_most->where, LawIdle{law.name, "`at-most` is shorter than `at-least`"});
    return;
  }
  rules.look.push_back(std::move(law));
}

// Only what has an order can be worse in one direction.
void add_monotone(Resolver& resolver, const DraftMonotone& draft, SafetyRules& rules) {
  const auto place = place_in(resolver, resolver.facts, draft.fact);
  MonotoneLaw law{name_or_empty(draft.id), FactId{place.value_or(0)}, draft.worse && draft.worse->text == "lower",
                  conditions_from(resolver, draft.when, Readable::everything), draft.where};
  if (place) {
    const Fact& fact = resolver.protocol[law.fact];
    if (fact.kind == FactKind::choice) {
      const std::string kind = fact.yes_no ? "yes-no" : std::string(word_of(fact.kind));
      resolver.error(draft.fact->where, WrongFactKind{fact.name, kind, "worse"});
    }
    // The choices stand from least to worst; of ketones more are worse wherever they are compared.
    const bool more_is_worse = fact.kind == FactKind::ordered_choice || fact.kind == FactKind::ketones;
    if (more_is_worse && law.lower_is_worse) {
      resolver.error(draft.worse->where, WorseTurned{law.name, fact.name, draft.worse->text});
    }
  }
  rules.monotone.push_back(std::move(law));
}

// A grade says how hard a text is, an ease how easy: each language is measured by the formula that was made for it.
const MaybeWord& limit_of(const DraftReading& draft, Language language) {
  return language == Language::en ? draft.grade_at_most : draft.ease_at_least;
}

void add_reading(Resolver& resolver, const DraftReading& draft, SafetyRules& rules) {
  const auto language = draft.language ? words::place_of(words::kLanguages, draft.language->text) : std::nullopt;
  if (!language) return;
  const auto spoken = static_cast<Language>(*language);
  const MaybeWord& written = limit_of(draft, spoken);
  const std::optional<Decimal> limit = written ? number_from_word(resolver, *written, Unit::one) : std::nullopt;
  if (limit) rules.reading.push_back(ReadingLaw{spoken, *limit, draft.where});
}

class Laws {
 public:
  Laws(const SafetyDraft& draft, const std::vector<std::string>& protocols) : draft_(draft), protocols_(protocols) {}

  std::vector<Finding> findings() {
    for (const DraftSource& source : draft_.sources) add_name(sources_, "source", source.id);
    for (const DraftNever& law : draft_.never) look_at(law);
    for (const DraftWithin& law : draft_.within) look_at(law);
    for (const DraftLook& law : draft_.look) look_at(law);
    for (const DraftMonotone& law : draft_.monotone) look_at(law);
    for (const DraftReading& law : draft_.reading) look_at_reading(law);
    for (const DraftNever& law : draft_.never) {
      if (!law.does && !law.calmer_than) error(law.where, MissingAttribute{"does", "never"});
    }
    for (const DraftLook& law : draft_.look) {
      if (!law.after && !law.urgency) error(law.where, MissingAttribute{"after", "look"});
      if (!law.at_least && !law.at_most) error(law.where, MissingAttribute{"at-most", "look"});
    }
    return std::move(findings_);
  }

 private:
  void error(const Where& where, Kind kind, std::optional<Because> because = std::nullopt) {
    findings_.push_back(Finding{Severity::error, where, std::move(kind), std::move(because)});
  }

  void add_name(std::vector<Word>& names, const char* what, const MaybeWord& id) {
    if (!id) return;
    for (const Word& name : names) {
      if (name.text == id->text)
        return error(id->where, RepeatedId{id->text, what}, Because{"it is named here", name.where});
    }
    names.push_back(*id);
  }

  void look_for(const MaybeWord& word, const char* what, const std::vector<std::string>& known) {
    if (!word || std::find(known.begin(), known.end(), word->text) != known.end()) return;
    error(word->where, UnknownId{word->text, what, known});
  }

  std::vector<std::string> source_names() const {
    std::vector<std::string> names;
    for (const Word& name : sources_) names.push_back(name.text);
    return names;
  }

  template <class Law>
  void look_at(const Law& law) {
    add_name(laws_, "law", law.id);
    look_for(law.source, "source", source_names());
    look_for(law.protocol, "protocol", protocols_);
  }

  void look_at_reading(const DraftReading& law) {
    look_for(law.source, "source", source_names());
    const auto language = law.language ? words::place_of(words::kLanguages, law.language->text) : std::nullopt;
    if (!language) return;
    const bool english = static_cast<Language>(*language) == Language::en;
    const MaybeWord& foreign = english ? law.ease_at_least : law.grade_at_most;
    const char* wanted = english ? "grade-at-most" : "ease-at-least";
    if (foreign) {
      error(foreign->where, UnknownAttribute{english ? "ease-at-least" : "grade-at-most",
                                             "reading language=\"" + law.language->text + "\"",
                                             {wanted}});
    } else if (!limit_of(law, static_cast<Language>(*language))) {
      error(law.where, MissingAttribute{wanted, "reading"});
    }
    for (const Word& earlier : languages_) {
      if (earlier.text == law.language->text)
        error(law.language->where, RepeatedId{law.language->text, "language"},
              Because{"it is named here", earlier.where});
    }
    languages_.push_back(*law.language);
  }

  const SafetyDraft& draft_;
  const std::vector<std::string>& protocols_;
  std::vector<Word> sources_, laws_, languages_;
  std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> safety_findings(const SafetyDraft& draft, const std::vector<std::string>& protocols) {
  return Laws(draft, protocols).findings();
}

Read<SafetyRules> safety_rules_of(const SafetyDraft& draft, const Protocol& protocol) {
  Resolver resolver = resolver_of(protocol);
  SafetyRules rules;
  for (const DraftNever& law : draft.never) {
    if (is_about(law.protocol, protocol)) add_never(resolver, law, rules);
  }
  for (const DraftWithin& law : draft.within) {
    if (is_about(law.protocol, protocol)) add_within(resolver, law, rules);
  }
  for (const DraftLook& law : draft.look) {
    if (is_about(law.protocol, protocol)) add_look(resolver, law, rules);
  }
  for (const DraftMonotone& law : draft.monotone) {
    if (is_about(law.protocol, protocol)) add_monotone(resolver, law, rules);
  }
  for (const DraftReading& law : draft.reading) add_reading(resolver, law, rules);
  if (has_error(resolver.findings)) return {std::nullopt, std::move(resolver.findings)};
  return {std::move(rules), std::move(resolver.findings)};
}

}  // namespace rushlight
