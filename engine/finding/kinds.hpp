#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <type_traits>
#include <utility>
#include <vector>

namespace rushlight {

// Each kind of mistake is a type; its fields are all that its sentence and remedy are made of.

// The bytes of a file.
struct NotReadable { std::string reason; };                      // cannot be opened or is not a file
struct TooLarge { std::string what; long long found; long long most; };   // file size, depth, attributes, text length
struct NotUtf8 {};
struct ForbiddenCharacter { std::string name; };                 // NUL, control characters, ...
struct NotXml { std::string what; std::string right; };          // bare &, < in an attribute, -- in a comment, two roots, DOCTYPE ...
struct NotJson { std::string what; };
struct RepeatedKey { std::string key; };
struct UnknownKey { std::string key; std::string owner; std::vector<std::string> allowed; };  // owner: "the child file", "the event"
struct MissingKey { std::string key; std::string owner; };
struct WrongType { std::string what; std::string wanted; };      // a list where a text stands; wanted: "a text", "true or false"

// The words of a file.
struct UnknownElement { std::string element; std::string parent; std::vector<std::string> allowed; };
struct MissingElement { std::string element; std::string parent; };
struct RepeatedElement { std::string element; std::string parent; };
struct MisplacedElement { std::string element; std::string parent; std::string before; };         // it belongs before `before`
struct UnknownAttribute { std::string attribute; std::string element; std::vector<std::string> allowed; };
struct MissingAttribute { std::string attribute; std::string element; };
struct WrongWord { std::string written; std::string what; std::vector<std::string> allowed; };  // a value outside a closed list
struct StrayText { std::string text; std::string element; };
struct UnknownId { std::string id; std::string what; std::vector<std::string> known; };         // what: "threshold", "fact", ...
struct UnusedName { std::string name; std::string what; std::string asked; int places; };       // nobody asks for `name`, and nothing is called `asked`
struct NobodyUses { std::string what; std::string id; };
struct RepeatedId { std::string id; std::string what; };
struct BadId { std::string id; };                                // not kebab-case

// Numbers and units.
struct BadNumber { std::string written; std::string why; std::string right{}; };  // right: when it is known
struct MissingUnit { std::string written; std::string example; };
struct WrongUnit { std::string written; std::string wanted; };
struct OutOfRange { std::string what; std::string value; std::string least; std::string most; };
struct ValuesDisagree {
  std::string threshold; std::string mg_per_dl; std::string mmol_per_l; std::string expected_mmol_per_l; std::string expected_mg_per_dl;
  bool stated = false;  // by a person who changes it, and who sees no file
};
struct BandsGap { std::string threshold; std::string example; };         // no band holds the example
struct BandsOverlap { std::string threshold; std::string example; };
struct ImplausibleValue { std::string what; std::string written; std::string question; };  // a child file value to be asked about
struct BadDate { std::string what; std::string written; };

// Texts.
struct MissingLanguage { std::string language; std::string element; };
struct EmptyText { std::string language; std::string element; };
struct UnknownPlaceholder { std::string name; std::vector<std::string> known; };
struct BadPlaceholder { std::string written; };                  // "{" without "}"
struct PlaceholderMissing { std::string name; std::string language; std::string other; };  // `other` has it, `language` lacks it
struct BlankUnfilled { std::string blank; std::string why; std::string right; };           // nothing would ever stand there
/// Its words are those of another language: the two texts stand in each other's place, or one was copied and not
/// translated.
struct OtherLanguage {
  std::string language;
  std::string element;
  std::string other;
};
struct NegationMissing { std::string language; std::string element; std::string other; std::string word; };  // `other` says `word`, and `language` nothing like it
struct LanguagesApart { std::string element; std::string english; std::string spanish; };  // a word of each that cannot both be right; one may be empty
struct BlankMisread { std::string blank; std::string before; };   // "at {again}"; before: empty where a word lacks
struct NumberInText { std::string written; };                    // "30 minutes": it stays when the threshold is changed
struct GarbledText { std::string written; std::string likely; }; // UTF-8 saved as UTF-8 once more
struct ReadsAlike { std::string what; std::string one; std::string other; std::string language; };  // what: "answers of `awake`", "signs"
struct OtherContact { std::string action; std::string contact; std::string blank; std::string own; };  // its text gives the number of somebody else
struct OtherDoseNamed { std::string action; std::string dose; std::string named; };
struct NumberUntold { std::string action; std::string language; std::string number; };  // a call whose text names no number to call
struct AmountUntold { std::string action; std::string dose; };   // its text does not say how much
struct LanguageLacking { std::string protocol; std::string language; std::string from; };  // `from` leads to it and speaks the language

// The sense of a protocol.
struct WrongFactKind { std::string fact; std::string kind; std::string comparison; };   // "at-least" on a yes-no
struct WrongThresholdKind { std::string threshold; std::string kind; std::string wanted; };
struct MissingSource { std::string element; std::string id; };
struct MissingOutcome { std::string action; std::string kind; std::string outcome; };
struct FactNotAsked { std::string fact; std::string step; };     // a rule reads what its step does not ask
struct UnknownNotCovered { std::string step; std::string fact; };        // no rule for "can't tell"
struct ValuesNotCovered { std::string step; std::string example; };      // a value of one fact that no rule takes
/// `together`: the earlier rules that take all of it, where it takes several.
struct RuleNeverMatches {
  int rule;
  std::string step;
  int earlier;
  std::vector<int> together{};
};
struct NeverCounted { int rule; std::string step; std::string counter; };   // the rule waits for a counter that stands still
struct ThresholdsCrossed { std::string lower; std::string lower_value; std::string upper; std::string upper_value; };  // `lower` is not below `upper`
struct StepUnreachable { std::string step; };
struct DeadEnd { std::string step; };                            // neither ends nor has a rule
struct LoopWithoutWait { std::vector<std::string> steps; };
/// `set_back`: a counter that would end it and is set back on the way; `counted`: one that is counted on the way.
struct LoopWithoutLimit { std::vector<std::string> steps; std::string set_back = {}; std::string counted = {}; };
struct WatchNotHandled { std::string step; std::string watch; std::string other = {}; }; // a watch leads to a step that does not declare it handles it; `other` does
struct CalmerThanWatch { std::string step; std::string watch; }; // handles a watch but is less urgent than its target
struct WatchMissing { std::string danger; std::string condition; };                     // will not wake, cannot swallow, seizure, not breathing normally
struct WatchByTimeAlone { std::string watch; };                  // it would come true with nobody there to look
struct MouthWhileDanger { std::string step; std::string action; };       // nothing by mouth when not awake or unable to swallow
struct TooCalm { std::string step; std::string watch; };         // meets a danger sign and is no emergency
struct InsulinWithGlucagon { std::string step; };                // both are drawn up in the same syringe
struct EmergencyLeft { std::string step; std::string to; std::string child; std::string fact; };  // a calm way out, and the child may still be in danger
struct EmergencyNotCalled { std::string step; std::string watch; };      // a danger sign leads here, and nobody is called
struct CallsClinicOnly { std::string step; std::string action; };         // an emergency that calls the clinic and not the emergency services
struct SignMissing { std::string child; std::string fact; std::string answer; };        // it cannot be said that it got worse
struct OpeningLacks { std::string fact; };
struct DeedAnswers { std::string action; std::string fact; };            // an action says that a danger is over, and nobody looked
struct LateAndCalm { std::string step; std::string late; bool calmer; }; // nobody answers, and nobody is called; or it is calmer than before
struct InsulinFloorLow { std::string dose; std::string threshold; std::string value; std::string least; };
struct InsulinWithoutDose { std::string action; };                       // nothing holds it back
struct InsulinStacked { std::string dose; std::string threshold; std::string time; std::string least; };  // the time that has to pass between two doses
struct WatchReadsNumber { std::string watch; std::string fact; };                          // a reading gets old, and the watch goes on firing
struct WatchUntold { std::string watch; std::string fact; std::string answer; };        // it got worse, and nobody can say so during a wait
struct SignUnwatched { std::string fact; std::string answer; };          // it can be said, and leads nowhere
struct WatchLeadsBack { std::string step; std::string watch; std::string from; std::string to; };  // `from` leads to the step, and the watch to `to` at once
/// The watch leads on to something calmer, from `others` more steps too; one that is not `told` fires as long as it is
/// true.
struct WatchCalms {
  std::string step;
  std::string watch;
  std::string to;
  std::string urgency;
  int others = 0;
  bool told = true;
};
struct WatchHeldBack { std::string watch; std::string sees; std::string beside; };  // it fires on what it sees only when something else is true too
struct OddWay { std::string to; std::string from; std::string usual; int times; };   // all others come to the step as `usual`
struct DrinksApart { std::string step; std::string action; bool sweet; };  // sugary and sugar-free on one screen; `action` says the one
struct HeadlineAlone { std::string step; std::string dose; };          // its headline tells an amount, and nothing in the step gives it
struct CalmEnd { std::string step; std::string to; std::string watch; std::string example; };      // the night ends at `to` on what the watch looks out for
/// The night ends calmly on a number that is dangerous wherever it is published.
struct NumberEndsCalmly { std::string step; std::string to; std::string example; std::string danger; std::string source; };
struct CallMissing { std::string step; std::string urgency; };           // help is waited for, and nobody has been called
struct ComeIgnored {
  int rule;
  std::string step;
  std::string to;
};  // the clinic says to come, and something calmer follows
struct CalmerThanCall { std::string step; std::string action; std::string urgency; };
struct DoseUnnamed { std::string action; };                              // its words measure out food, and it has no dose
struct NotGiven { std::string action; std::string outcome; std::string step; };         // it did not go in, and counts as given
struct TroubleEnds {
  std::string action;
  std::string outcome;
  std::string to;
};  // it did not go in, and the night ends calmly with nothing asked
struct InsulinInWords { std::string where; bool stops; };                // its words give insulin where none is given, or stop the basal insulin
struct PumpForgotten { std::string action; std::string lacks; };         // lacks: `starts` or `records`
struct GlucagonForgotten { std::string action; };
struct AskedTwice { std::string step; std::string fact; std::string from; };            // a reading that `from` has just asked
struct OldReading { std::string step; std::string action; std::string fact; std::string fresh; std::string lasts; };  // what is given is looked at by a reading from before it
struct EarlyRuleUntold { std::string rule; };                    // reads what nobody can tell during the wait
struct WaitUnusual { std::string step; std::string what; std::string time; std::string least; std::string most; };  // what: "after `sugar`", "in an emergency"
struct ReadingTooOld { std::string step; std::string fact; std::string fresh; std::string most; };  // `fresh` is longer than a reading tells anything
struct DoseOfAnyChild { std::string dose; int row; };  // insulin whose most is the same for every child
struct WatchElsewhere { std::string watch; std::string others; };  // the other protocols of the set watch it
struct DegreesApart { std::string celsius; std::string fahrenheit; std::string is; std::string right; };  // in one sentence
struct UntilWithoutWait { std::string step; std::string blank; };        // `{until}` or `{again}` where no wait ends; step: empty for a text of no step
struct UntilBeforeStart { std::string step; std::string after; };        // `{until}` of a wait that starts after an action
struct AsksAtOnce { std::string step; std::string action; std::string fact; };          // gives and measures without a wait
struct DoseNotCovered {                                          // a child that no row takes
  std::string dose; std::string example;
  struct Wider { int row; std::string comparison; bool alone; };  // a row that would, compared so: alone, or with the others
  std::vector<Wider> wider{};
};
struct DoseRowNeverMatches {
  int row;
  std::string dose;
  int earlier;
  std::vector<int> together{};
};
/// Two rules or rows (`what`) that lead to different things, and both take the border between them.
struct BorderTakenTwice {
  std::string what; std::string owner; std::string example; std::string border;
  int earlier; std::string earlier_without; int later; std::string later_without;   // the comparison that leaves the border out
};
struct BorderApart { std::string threshold; std::string written; std::string usual; int times; };  // everywhere else the border itself is judged the other way
struct GlucagonUncounted { std::string action; std::string counter; };   // others that give it count it
/// A bigger child, or one with more ketones, gets less.
struct DoseFalls { std::string dose; int row; std::string amount; std::string child; int other; std::string other_amount; std::string other_child; };
struct BoundsCrossed { std::string dose; int row; std::string least; std::string least_value; std::string most; std::string most_value; };
struct DoseOfNothing { std::string dose; int row; std::string amount; std::string child; };
struct DoseAboveCap { std::string dose; int row; std::string amount; std::string child; std::string cap; std::string most; };  // `cap` holds the other rows
struct DoseBelowLeast { std::string dose; int row; std::string amount; std::string child; std::string least; std::string value; };  // `least` holds the other rows
struct DoseWithoutCap { std::string dose; int row; std::string amount; std::string child; };
struct DoseWithoutLeast { std::string dose; int row; std::string amount; std::string child; };
struct BeyondPublished { std::string dose; std::string amount; std::string child; std::string most; std::string source; };
// The files of a set beside each other.
struct ReadsAsOther { std::string fact; std::string one; std::string other; std::string language; };  // an answer with the text of another
struct SignReadsAs { std::string fact; std::string answer; std::string other_fact; std::string other_answer; std::string language; };
struct ShownOtherwise { std::string action; std::string here; std::string there; int times; };  // others say the same, under another condition
struct PumpUnworn { std::string action; };                       // about a pump, for children on injections
struct OtherBlank { std::string blank; std::string usual; int times; };  // the same sentence stands elsewhere with `usual`
/// `when`: what the others have in common with it; empty where they are those of the file.
struct OtherProtocol { std::string step; std::string to; std::string when; std::string usual; int times; };
/// "Can't tell" goes with `answer` here and nowhere else (`together`), or everywhere but here. `unknown`: it is "can't tell" that goes to `to`.
struct CannotTellElsewhere { std::string step; std::string fact; std::string answer; std::string to; bool unknown; bool together; int times; };
struct ApartInSet { std::string what; std::string id; std::string here; std::string there; std::string in; };  // one name, two values; without values: two readings
struct SetsMixed { std::string set; std::string other; std::string in; };
struct SignElsewhere { std::string fact; std::string answer; std::string in; };         // it can be told there, and is watched here
// The laws of a clinic (safety.xml).
struct NeverBroken { std::string law; std::string example; std::string step; std::string offence; };  // offence: "is home, calmer than ...", "does ..."
struct CallTooLate { std::string law; std::string child; std::string urgency; bool late; std::string after; std::string limit; std::string night; bool walked; };  // late: with answers as late as can be; walked: by the engine
struct CallNever { std::string law; std::string child; std::string urgency; std::string how; std::string night; bool walked; };  // how: "ends at step `well`", "goes round for ever"
struct LawNotShown { std::string law; };                                 // too many nights to look through
struct WorseIsCalmer { std::string law; std::string worse; std::string worse_step; std::string worse_urgency;
                       std::string better; std::string better_step; std::string better_urgency; };
struct WorseTurned { std::string law; std::string fact; std::string worse; };  // the law takes the better end of a fact for the worse one
struct UnknownIsCalm { std::string law; std::string step; std::string fact; std::string to; };  // "can't tell" leads where the best answer leads
struct LawIdle { std::string law; std::string why; };                    // it refuses nothing
struct LookOutside { std::string law; std::string step; std::string what; std::string threshold; std::string time; std::string least; std::string most; };  // what: "waits", "`call` waits for an answer"
struct HardToRead { std::string what; std::string language; std::string measured; std::string limit; std::string word; int sentence; };  // the longest word, and words of the longest sentence

// The worked examples of a clinic (examples.xml).
inline constexpr const char* kNotOnTheScreen = "not on the screen";
struct ExampleDiffers { std::string example; std::string after; std::string what; std::string came; std::string expected; };  // what: "step", "urgency", "dose `sugar`"
struct ExampleStuck { std::string example; std::string after; std::string why; };       // it tells what cannot happen there

struct UnknownStart {};                                          // the protocol names no start step

// A change of a clinic's numbers.
struct SeveralNumbers { std::string id; std::vector<std::string> names; };       // one id, and the set's files mean different things by it
struct BandUnnamed { std::string threshold; std::vector<std::string> bands; };
struct OtherUnitUnstated { std::string threshold; std::string stated; std::string proposed; };   // "66 mg/dL", "3.7 mmol/L"
struct StaleRow { std::string threshold; std::string was; std::string now; };    // the table was made before somebody changed the file
struct NotATable { std::string what; std::string right; };
struct NotWritten { std::string reason; std::string right; };   // reason: in the words of the machine, or plainer; right: may be empty
struct ChangedMeanwhile {};                                      // by somebody else, between reading and writing

// Journals, settings and what is written.
struct JournalDamaged { std::string what; };
struct JournalNewer { std::string found; std::string known; };
struct WrongUse { std::string what; std::string right; };

template <class... Kinds>
struct KindList {
  static constexpr std::size_t kSize = sizeof...(Kinds);
};

using AllKinds = KindList<
    NotReadable, TooLarge, NotUtf8, ForbiddenCharacter, NotXml, NotJson, RepeatedKey, UnknownKey, MissingKey, WrongType,
    UnknownElement, MissingElement, RepeatedElement, MisplacedElement, UnknownAttribute, MissingAttribute, WrongWord,
    StrayText, UnknownId, UnusedName, NobodyUses, RepeatedId, BadId, BadNumber, MissingUnit, WrongUnit, OutOfRange, ValuesDisagree,
    BandsGap, BandsOverlap, ImplausibleValue, BadDate, MissingLanguage, EmptyText, UnknownPlaceholder, BadPlaceholder,
    PlaceholderMissing, BlankUnfilled, OtherLanguage, NegationMissing, LanguagesApart, BlankMisread, NumberInText, GarbledText, ReadsAlike, OtherContact,
    OtherDoseNamed, AmountUntold, NumberUntold, LanguageLacking, WrongFactKind, WrongThresholdKind, MissingSource,
    MissingOutcome, FactNotAsked, UnknownNotCovered, ValuesNotCovered, RuleNeverMatches, NeverCounted,
    ThresholdsCrossed, StepUnreachable, DeadEnd, LoopWithoutWait, LoopWithoutLimit, WatchNotHandled, CalmerThanWatch,
    WatchMissing, WatchByTimeAlone, MouthWhileDanger, TooCalm, InsulinWithGlucagon, EmergencyLeft, EmergencyNotCalled, CallsClinicOnly,
    SignMissing, OpeningLacks, DeedAnswers, LateAndCalm, InsulinFloorLow, InsulinWithoutDose, InsulinStacked,
    WatchReadsNumber, WatchUntold, SignUnwatched, WatchLeadsBack, WatchCalms, WatchHeldBack, OddWay, DrinksApart, HeadlineAlone, CalmEnd, NumberEndsCalmly, CallMissing, ComeIgnored,
    CalmerThanCall, DoseUnnamed, NotGiven, TroubleEnds, InsulinInWords, PumpForgotten, GlucagonForgotten, AskedTwice, OldReading, WaitUnusual, ReadingTooOld, DoseOfAnyChild,
    WatchElsewhere, DegreesApart, EarlyRuleUntold,
    UntilWithoutWait, UntilBeforeStart, AsksAtOnce, DoseNotCovered, DoseRowNeverMatches, BorderTakenTwice,
    BorderApart, GlucagonUncounted, DoseFalls, BoundsCrossed, DoseOfNothing, DoseAboveCap, DoseBelowLeast, DoseWithoutCap, DoseWithoutLeast, BeyondPublished,
    ReadsAsOther, SignReadsAs, ShownOtherwise, PumpUnworn, OtherBlank, OtherProtocol, CannotTellElsewhere,
    ApartInSet, SetsMixed, SignElsewhere, NeverBroken, CallTooLate, CallNever, LawNotShown, WorseIsCalmer, WorseTurned, LawIdle, UnknownIsCalm, LookOutside, HardToRead, ExampleDiffers, ExampleStuck,
    UnknownStart, SeveralNumbers, BandUnnamed, OtherUnitUnstated, StaleRow, NotATable, NotWritten, ChangedMeanwhile,
    JournalDamaged, JournalNewer, WrongUse>;

template <class K, class Kinds>
inline constexpr std::size_t kIndexAmong = 0;
template <class K, class... Kinds>
inline constexpr std::size_t kIndexAmong<K, KindList<Kinds...>> = [] {
  std::size_t index = 0;
  static_cast<void>(((std::is_same_v<K, Kinds> || (++index, false)) || ...));
  return index;
}();

template <class K>
concept OneOfTheKinds = kIndexAmong<K, AllKinds> < AllKinds::kSize;

/// One of the kinds, with its fields, which never change; copies share them. Not a std::variant: its code grows with the square
/// of the number of kinds.
class Kind {
 public:
  template <class K>
    requires OneOfTheKinds<std::remove_cvref_t<K>>
  Kind(K&& kind)
      : index_(kIndexAmong<std::remove_cvref_t<K>, AllKinds>),
        fields_(std::make_shared<const std::remove_cvref_t<K>>(std::forward<K>(kind))) {}

  /// The fields, or null when it is another kind.
  template <OneOfTheKinds K>
  const K* as() const {
    return is<K>() ? static_cast<const K*>(fields_.get()) : nullptr;
  }

  /// The fields. It must be that kind: whoever does not know asks with `as`.
  template <OneOfTheKinds K>
  const K& get() const {
    return *as<K>();
  }

  template <OneOfTheKinds K>
  bool is() const {
    return index_ == kIndexAmong<K, AllKinds>;
  }

  /// The place in AllKinds.
  std::size_t index() const { return index_; }

  /// What `visitor` says of the fields; it has to know every kind.
  template <class Visitor>
  auto visited_by(const Visitor& visitor) const {
    return visited_by(visitor, static_cast<const AllKinds*>(nullptr));
  }

 private:
  template <class Visitor, class... Kinds>
  auto visited_by(const Visitor& visitor, const KindList<Kinds...>*) const {
    using Said = decltype(visitor(std::declval<const NotReadable&>()));
    using Telling = Said (*)(const Visitor&, const void*);
    static constexpr Telling kTelling[] = {
        [](const Visitor& each, const void* fields) -> Said { return each(*static_cast<const Kinds*>(fields)); }...};
    return kTelling[index_](visitor, fields_.get());
  }

  std::size_t index_;
  std::shared_ptr<const void> fields_;
};

}  // namespace rushlight
