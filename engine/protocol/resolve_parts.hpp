#pragma once

#include <array>
#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "protocol/resolve.hpp"
#include "protocol/words.hpp"

// Private to resolve*.cpp: what one run of resolve knows while it works, and the parts it is made of.
// Every part goes on after a mistake with a stand-in (place 0, an empty text, a zero), so that one run tells
// everything; a protocol with a stand-in in it is never handed out, because the mistake is an error.

namespace rushlight {

/// The names of one list of the protocol and where each was given; the place in it is the id.
struct Names {
  std::string noun;
  std::vector<std::string> names;
  std::vector<Where> places;
  std::vector<bool> used{};  // by place; shorter than the list when the last names are not used

  std::optional<std::uint16_t> find(std::string_view name) const;
  /// The same, and the name counts as used.
  std::optional<std::uint16_t> use(std::string_view name);
  bool is_used(std::size_t place) const { return place < used.size() && used[place]; }
};

struct Resolver {
  const Draft& draft;
  Protocol protocol{};
  std::vector<Finding> findings{};
  Names sources{"source", {}, {}};
  Names thresholds{"threshold", {}, {}};
  Names facts{"fact", {}, {}};
  Names doses{"dose", {}, {}};
  Names timers{"timer", {}, {}};
  Names counters{"counter", {}, {}};
  Names marks{"mark", {}, {}};
  Names watches{"watch rule", {}, {}};
  Names actions{"action", {}, {}};
  Names steps{"step", {}, {}};
  std::array<bool, kLanguages> told_undeclared{};

  void error(const Where& where, Kind kind, std::optional<Because> because = std::nullopt);
};

// resolve_ids.cpp
bool is_id(std::string_view text);
/// Fills every list of names; reports missing, bad and repeated ids.
void collect_names(Resolver& resolver);
/// The place of a word in a list; a word that is not there is a finding. Empty without a word.
std::optional<std::uint16_t> place_in(Resolver& resolver, Names& names, const MaybeWord& word);
/// The same for a word that must be there.
std::optional<std::uint16_t> needed_place_in(Resolver& resolver, Names& names, const MaybeWord& word,
                                             const char* attribute, const char* element, const Where& where);
template <class IdType>
std::optional<IdType> as_id(std::optional<std::uint16_t> place) {
  if (!place) return std::nullopt;
  return IdType{*place};
}
template <class IdType>
IdType id_or_stand_in(std::optional<std::uint16_t> place) {
  return IdType{place.value_or(0)};
}
/// The source named; without one the `otherwise` (of the step), or a MissingSource.
SourceId source_from(Resolver& resolver, const MaybeWord& word, const char* element, const std::string& id,
                     const Where& where, std::optional<SourceId> otherwise = std::nullopt);

// resolve_unknown_names.cpp
/// A name that is missing wherever it is used is one mistake: told once, where the name is given under another spelling or
/// at its first use.
void tell_unknown_names_once(Resolver& resolver);

// resolve_words.cpp
/// Words separated by blanks, each with its own place.
std::vector<Word> split(const Word& word);
/// The text of an attribute that must be there; a finding and nothing without it.
const Word* needed(Resolver& resolver, const MaybeWord& word, const char* attribute, const char* element,
                   const Where& where);
/// The place of the word in a closed list; a word outside it is a finding.
std::optional<std::size_t> place_in_words(Resolver& resolver, const Word& word, const char* what,
                                          const std::vector<std::string>& allowed);
/// yes or no; no without a word.
bool is_yes(Resolver& resolver, const MaybeWord& word, const char* attribute);
/// An attribute that has no meaning where it stands.
void refuse(Resolver& resolver, const MaybeWord& word, const char* attribute, const std::string& element,
            std::vector<std::string> allowed);

// resolve_numbers.cpp
std::optional<Quantity> quantity_from_word(Resolver& resolver, const Word& word, std::initializer_list<Unit> allowed);
/// A bare number in a unit that its attribute names.
std::optional<Decimal> number_from_word(Resolver& resolver, const Word& word, Unit unit);
std::optional<Age> age_from_word(Resolver& resolver, const Word& word);
std::optional<BodyWeight> weight_from_word(Resolver& resolver, const Word& word);
std::optional<ClockTime> clock_from_word(Resolver& resolver, const Word& word);
/// The value of any kind but glucose, whose two values stand in two words.
std::optional<Limit> limit_from_word(Resolver& resolver, ThresholdKind kind, const Word& word);

// resolve_range.cpp
/// `least` and `most` of a threshold: well formed, in order, and every value of every band within them. Empty when one
/// cannot be read.
std::optional<Range> range_from(Resolver& resolver, const DraftThreshold& draft, const Threshold& threshold);

/// Whether something was already said of the value written there. One that could not be read stands as a zero.
bool is_told(const Resolver& resolver, const Where& value);

// resolve_thresholds.cpp, resolve_bands.cpp
void resolve_thresholds(Resolver& resolver);
/// The bands of a threshold hold every age, weight and clock time exactly once.
void check_bands(Resolver& resolver, const Threshold& threshold);
/// A threshold of one of the kinds wanted; anything else is a finding.
std::optional<ThresholdId> threshold_from(Resolver& resolver, const MaybeWord& word,
                                          std::initializer_list<ThresholdKind> wanted);
std::optional<ThresholdId> needed_threshold(Resolver& resolver, const MaybeWord& word,
                                            std::initializer_list<ThresholdKind> wanted, const char* attribute,
                                            const char* element, const Where& where);
/// A threshold whose values are in this unit.
std::optional<ThresholdId> in_unit(Resolver& resolver, std::optional<ThresholdId> threshold, const MaybeWord& word,
                                   Unit unit);

// resolve_texts.cpp
void resolve_languages(Resolver& resolver);
/// The texts of an element, every blank in them known and in every language.
Text text_from(Resolver& resolver, const DraftText& draft, const char* element, const Where& parent);
/// A finding for each line that holds this blank, which means nothing where it stands.
void refuse_blank(Resolver& resolver, const DraftText& draft, Filler filler, const Kind& kind);

/// The part of a text, where it can be told exactly: a text on one line that stands in the file as it reads.
Where part_of(const Word& text, std::size_t from, std::size_t length);

// doubted_texts.cpp: what is well-formed, and says something else than it should.
/// Languages that do not say the same, numbers written out, letters saved in the wrong encoding.
void doubt_text(Resolver& resolver, const DraftText& draft, const char* element);
/// A text whose two languages cannot both be right.
void doubt_meanings(Resolver& resolver, const DraftText& draft, const char* element);
/// A text that gives another number to call, or another amount, than the action does.
void doubt_action(Resolver& resolver, const DraftAction& draft, const Action& action);

/// Tells a headline that names another amount than the step gives. The step's actions are resolved.
void doubt_headline(Resolver& resolver, const DraftText& draft, const Step& step);
/// Things to choose among of which two read alike. what: "answers of `awake`".
struct Choosable {
  std::string name;
  const DraftText* text;
};
void refuse_alike(Resolver& resolver, const std::string& what, const std::vector<Choosable>& choices);
/// Numbers, doses and marks that the file gives a name and never uses.
void doubt_unused_names(Resolver& resolver);

// resolve_facts.cpp
void resolve_facts(Resolver& resolver);
std::string_view word_of(FactKind kind);
/// The option's place; `unknown` is not one. A word that is no option is a finding.
std::optional<std::uint16_t> option_from(Resolver& resolver, FactId fact, const Word& word);
std::vector<Ask> asks_from(Resolver& resolver, const std::vector<DraftAsk>& drafts);
void resolve_opening_and_worse(Resolver& resolver);

// resolve_conditions.cpp
/// What a condition may read at its place.
enum class Readable { everything, what_is_given, child_file };
Conditions conditions_from(Resolver& resolver, const std::vector<DraftCondition>& drafts, Readable readable);

// resolve_doses.cpp
void resolve_foods(Resolver& resolver);
void resolve_doses(Resolver& resolver);

// resolve_part.cpp
void resolve_marks(Resolver& resolver);
/// What the file says for its own steps, once they are there.
void resolve_part(Resolver& resolver);

// resolve_steps.cpp, resolve_actions.cpp
void resolve_watch(Resolver& resolver);
void resolve_steps(Resolver& resolver);
Action action_from(Resolver& resolver, const DraftAction& draft, StepId step, SourceId step_source);

}  // namespace rushlight
