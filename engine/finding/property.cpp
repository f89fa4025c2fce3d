#include "finding/property.hpp"

#include <array>
#include <type_traits>

namespace rushlight {
namespace {

struct Words {
  const char* id;
  const char* sentence;
};

// In the order of the enum.
constexpr std::array<Words, kProperties> kWords = {{
    {"readable", "the file can be read"},
    {"words-known", "every word is known and stands where it belongs"},
    {"names-stand-for-one-thing", "every name stands for one thing"},
    {"numbers-fit", "every number has its unit and lies in its range"},
    {"texts-complete", "every text is there in every language"},
    {"sources-named", "every number names its source"},
    {"outcomes-covered", "every action says what follows when it does not work"},
    {"answers-covered", "every answer has a rule, \"can't tell\" too"},
    {"no-dead-rule", "every rule can match"},
    {"doses-covered", "every child has a row in every dose table"},
    {"rules-read-what-is-asked", "every rule reads what was asked before"},
    {"steps-connected", "every step can be reached and leads on"},
    {"loops-bounded", "every way round waits and comes to an end"},
    {"dangers-watched", "the danger signs are watched in every step, and an emergency is called and stays one"},
    {"giving-apart", "nothing by mouth in danger, no insulin in a low or beside glucagon, and a wait after giving"},
    {"own-laws-kept", "the clinic's own laws (safety.xml) are kept"},
    {"examples-come-out", "the clinic's worked examples (examples.xml) come out as they say"},
    {"usable", "what was kept or asked for can be used"},
}};

template <class K, class... Kinds>
inline constexpr bool is_one_of = (std::is_same_v<K, Kinds> || ...);

// A new kind without a property does not compile: it stops at the last line.
struct PropertyOf {
  template <class K>
  Property operator()(const K&) const {
    if constexpr (is_one_of<K, NotReadable, TooLarge, NotUtf8, ForbiddenCharacter, NotXml, NotJson>) {
      return Property::readable;
    } else if constexpr (is_one_of<K, RepeatedKey, UnknownKey, MissingKey, WrongType, UnknownElement, MissingElement,
                                   RepeatedElement, MisplacedElement, UnknownAttribute, MissingAttribute, WrongWord,
                                   StrayText, BadId>) {
      return Property::words_known;
    } else if constexpr (is_one_of<K, UnknownId, UnusedName, NobodyUses, RepeatedId, UnknownStart, ApartInSet,
                                   SetsMixed>) {
      return Property::names_stand_for_one_thing;
    } else if constexpr (is_one_of<K, BadNumber, MissingUnit, WrongUnit, OutOfRange, ValuesDisagree, DegreesApart,
                                   BandsGap, BandsOverlap, ImplausibleValue, BadDate, WrongFactKind, WrongThresholdKind,
                                   ThresholdsCrossed>) {
      return Property::numbers_fit;
    } else if constexpr (is_one_of<K, MissingLanguage, EmptyText, UnknownPlaceholder, BadPlaceholder,
                                   PlaceholderMissing, BlankUnfilled, OtherLanguage, NegationMissing, LanguagesApart,
                                   BlankMisread, ReadsAsOther, SignReadsAs, OtherBlank, NumberInText, GarbledText,
                                   ReadsAlike, OtherContact, OtherDoseNamed, AmountUntold, NumberUntold,
                                   LanguageLacking, UntilWithoutWait, UntilBeforeStart>) {
      return Property::texts_complete;
    } else if constexpr (is_one_of<K, MissingSource>) {
      return Property::sources_named;
    } else if constexpr (is_one_of<K, MissingOutcome>) {
      return Property::outcomes_covered;
    } else if constexpr (is_one_of<K, UnknownNotCovered, ValuesNotCovered>) {
      return Property::answers_covered;
    } else if constexpr (is_one_of<K, RuleNeverMatches, NeverCounted, BorderTakenTwice, BorderApart>) {
      return Property::no_dead_rule;
    } else if constexpr (is_one_of<K, DoseNotCovered, DoseRowNeverMatches, DoseFalls, BoundsCrossed, DoseOfNothing,
                                   DoseAboveCap, DoseBelowLeast, DoseWithoutCap, DoseWithoutLeast, BeyondPublished,
                                   DoseOfAnyChild>) {
      return Property::doses_covered;
    } else if constexpr (is_one_of<K, FactNotAsked, EarlyRuleUntold, AskedTwice, OldReading, WaitUnusual,
                                   ReadingTooOld>) {
      return Property::rules_read_what_is_asked;
    } else if constexpr (is_one_of<K, StepUnreachable, DeadEnd, OddWay, OtherProtocol>) {
      return Property::steps_connected;
    } else if constexpr (is_one_of<K, LoopWithoutWait, LoopWithoutLimit>) {
      return Property::loops_bounded;
    } else if constexpr (is_one_of<K, WatchNotHandled, CalmerThanWatch, WatchMissing, WatchByTimeAlone, TooCalm,
                                   SignMissing, OpeningLacks, EmergencyLeft, EmergencyNotCalled, DeedAnswers,
                                   LateAndCalm, WatchReadsNumber, WatchUntold, SignUnwatched, WatchLeadsBack,
                                   WatchCalms, WatchHeldBack, CannotTellElsewhere, CalmEnd, CallMissing, ComeIgnored,
                                   CalmerThanCall, SignElsewhere, CallsClinicOnly, NumberEndsCalmly, WatchElsewhere>) {
      return Property::dangers_watched;
    } else if constexpr (is_one_of<K, MouthWhileDanger, InsulinWithGlucagon, AsksAtOnce, InsulinFloorLow,
                                   InsulinWithoutDose, InsulinStacked, DoseUnnamed, NotGiven, TroubleEnds,
                                   InsulinInWords, ShownOtherwise, PumpUnworn, DrinksApart, HeadlineAlone,
                                   PumpForgotten, GlucagonForgotten, GlucagonUncounted>) {
      return Property::giving_apart;
    } else if constexpr (is_one_of<K, NeverBroken, CallTooLate, CallNever, LawNotShown, WorseIsCalmer, WorseTurned,
                                   LawIdle, UnknownIsCalm, LookOutside, HardToRead>) {
      return Property::own_laws_kept;
    } else if constexpr (is_one_of<K, ExampleDiffers, ExampleStuck>) {
      return Property::examples_come_out;
    } else {
      static_assert(is_one_of<K, SeveralNumbers, BandUnnamed, OtherUnitUnstated, StaleRow, NotATable, NotWritten,
                              ChangedMeanwhile, JournalDamaged, JournalNewer, WrongUse>,
                    "which property does this kind break?");
      return Property::usable;
    }
  }
};

std::vector<Property> up_to(Property last) {
  std::vector<Property> properties;
  for (int i = 0; i <= static_cast<int>(last); ++i) properties.push_back(static_cast<Property>(i));
  return properties;
}

}  // namespace

std::string id_of(Property property) { return kWords[static_cast<std::size_t>(property)].id; }
std::string sentence(Property property) { return kWords[static_cast<std::size_t>(property)].sentence; }
Property property_of(const Kind& kind) { return kind.visited_by(PropertyOf{}); }

std::vector<Property> properties_of_protocols() { return up_to(Property::examples_come_out); }
std::vector<Property> properties_of_child_files() { return up_to(Property::numbers_fit); }

}  // namespace rushlight
