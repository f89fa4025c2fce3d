#include "finding/finding.hpp"

namespace rushlight {
namespace {

// One line for each kind and no other: a new kind without an id does not compile.
struct Id {
  std::string operator()(const NotReadable&) const { return "not-readable"; }
  std::string operator()(const TooLarge&) const { return "too-large"; }
  std::string operator()(const NotUtf8&) const { return "not-utf8"; }
  std::string operator()(const ForbiddenCharacter&) const { return "forbidden-character"; }
  std::string operator()(const NotXml&) const { return "not-xml"; }
  std::string operator()(const NotJson&) const { return "not-json"; }
  std::string operator()(const RepeatedKey&) const { return "repeated-key"; }
  std::string operator()(const UnknownKey&) const { return "unknown-key"; }
  std::string operator()(const MissingKey&) const { return "missing-key"; }
  std::string operator()(const WrongType&) const { return "wrong-type"; }
  std::string operator()(const UnknownElement&) const { return "unknown-element"; }
  std::string operator()(const MissingElement&) const { return "missing-element"; }
  std::string operator()(const RepeatedElement&) const { return "repeated-element"; }
  std::string operator()(const MisplacedElement&) const { return "misplaced-element"; }
  std::string operator()(const UnknownAttribute&) const { return "unknown-attribute"; }
  std::string operator()(const MissingAttribute&) const { return "missing-attribute"; }
  std::string operator()(const WrongWord&) const { return "wrong-word"; }
  std::string operator()(const StrayText&) const { return "stray-text"; }
  std::string operator()(const UnknownId&) const { return "unknown-id"; }
  std::string operator()(const UnusedName&) const { return "unused-name"; }
  std::string operator()(const NobodyUses&) const { return "nobody-uses"; }
  std::string operator()(const RepeatedId&) const { return "repeated-id"; }
  std::string operator()(const BadId&) const { return "bad-id"; }
  std::string operator()(const BadNumber&) const { return "bad-number"; }
  std::string operator()(const MissingUnit&) const { return "missing-unit"; }
  std::string operator()(const WrongUnit&) const { return "wrong-unit"; }
  std::string operator()(const OutOfRange&) const { return "out-of-range"; }
  std::string operator()(const ValuesDisagree&) const { return "values-disagree"; }
  std::string operator()(const BandsGap&) const { return "bands-gap"; }
  std::string operator()(const BandsOverlap&) const { return "bands-overlap"; }
  std::string operator()(const ImplausibleValue&) const { return "implausible-value"; }
  std::string operator()(const BadDate&) const { return "bad-date"; }
  std::string operator()(const MissingLanguage&) const { return "missing-language"; }
  std::string operator()(const EmptyText&) const { return "empty-text"; }
  std::string operator()(const UnknownPlaceholder&) const { return "unknown-placeholder"; }
  std::string operator()(const BadPlaceholder&) const { return "bad-placeholder"; }
  std::string operator()(const PlaceholderMissing&) const { return "placeholder-missing"; }
  std::string operator()(const BlankUnfilled&) const { return "blank-unfilled"; }
  std::string operator()(const OtherLanguage&) const { return "other-language"; }
  std::string operator()(const NegationMissing&) const { return "negation-missing"; }
  std::string operator()(const NumberInText&) const { return "number-in-text"; }
  std::string operator()(const GarbledText&) const { return "garbled-text"; }
  std::string operator()(const ReadsAlike&) const { return "reads-alike"; }
  std::string operator()(const OtherContact&) const { return "other-contact"; }
  std::string operator()(const OtherDoseNamed&) const { return "other-dose-named"; }
  std::string operator()(const AmountUntold&) const { return "amount-untold"; }
  std::string operator()(const LanguageLacking&) const { return "language-lacking"; }
  std::string operator()(const WrongFactKind&) const { return "wrong-fact-kind"; }
  std::string operator()(const WrongThresholdKind&) const { return "wrong-threshold-kind"; }
  std::string operator()(const MissingSource&) const { return "missing-source"; }
  std::string operator()(const MissingOutcome&) const { return "missing-outcome"; }
  std::string operator()(const FactNotAsked&) const { return "fact-not-asked"; }
  std::string operator()(const UnknownNotCovered&) const { return "unknown-not-covered"; }
  std::string operator()(const ValuesNotCovered&) const { return "values-not-covered"; }
  std::string operator()(const RuleNeverMatches&) const { return "rule-never-matches"; }
  std::string operator()(const NeverCounted&) const { return "never-counted"; }
  std::string operator()(const ThresholdsCrossed&) const { return "thresholds-crossed"; }
  std::string operator()(const StepUnreachable&) const { return "step-unreachable"; }
  std::string operator()(const DeadEnd&) const { return "dead-end"; }
  std::string operator()(const LoopWithoutWait&) const { return "loop-without-wait"; }
  std::string operator()(const LoopWithoutLimit&) const { return "loop-without-limit"; }
  std::string operator()(const WatchNotHandled&) const { return "watch-not-handled"; }
  std::string operator()(const CalmerThanWatch&) const { return "calmer-than-watch"; }
  std::string operator()(const WatchMissing&) const { return "watch-missing"; }
  std::string operator()(const WatchByTimeAlone&) const { return "watch-by-time-alone"; }
  std::string operator()(const MouthWhileDanger&) const { return "mouth-while-danger"; }
  std::string operator()(const TooCalm&) const { return "too-calm"; }
  std::string operator()(const InsulinWithGlucagon&) const { return "insulin-with-glucagon"; }
  std::string operator()(const EmergencyLeft&) const { return "emergency-left"; }
  std::string operator()(const EmergencyNotCalled&) const { return "emergency-not-called"; }
  std::string operator()(const SignMissing&) const { return "sign-missing"; }
  std::string operator()(const OpeningLacks&) const { return "opening-lacks"; }
  std::string operator()(const DeedAnswers&) const { return "deed-answers"; }
  std::string operator()(const LateAndCalm&) const { return "late-and-calm"; }
  std::string operator()(const InsulinFloorLow&) const { return "insulin-floor-low"; }
  std::string operator()(const InsulinWithoutDose&) const { return "insulin-without-dose"; }
  std::string operator()(const InsulinStacked&) const { return "insulin-stacked"; }
  std::string operator()(const WatchReadsNumber&) const { return "watch-reads-number"; }
  std::string operator()(const WatchUntold&) const { return "watch-untold"; }
  std::string operator()(const SignUnwatched&) const { return "sign-unwatched"; }
  std::string operator()(const WatchLeadsBack&) const { return "watch-leads-back"; }
  std::string operator()(const WatchCalms&) const { return "watch-calms"; }
  std::string operator()(const CalmEnd&) const { return "calm-end"; }
  std::string operator()(const CallMissing&) const { return "call-missing"; }
  std::string operator()(const ComeIgnored&) const { return "come-ignored"; }
  std::string operator()(const CalmerThanCall&) const { return "calmer-than-call"; }
  std::string operator()(const DoseUnnamed&) const { return "dose-unnamed"; }
  std::string operator()(const NotGiven&) const { return "not-given"; }
  std::string operator()(const TroubleEnds&) const { return "trouble-ends"; }
  std::string operator()(const PumpForgotten&) const { return "pump-forgotten"; }
  std::string operator()(const GlucagonForgotten&) const { return "glucagon-forgotten"; }
  std::string operator()(const AskedTwice&) const { return "asked-twice"; }
  std::string operator()(const EarlyRuleUntold&) const { return "early-rule-untold"; }
  std::string operator()(const UntilWithoutWait&) const { return "until-without-wait"; }
  std::string operator()(const UntilBeforeStart&) const { return "until-before-start"; }
  std::string operator()(const AsksAtOnce&) const { return "asks-at-once"; }
  std::string operator()(const DoseNotCovered&) const { return "dose-not-covered"; }
  std::string operator()(const DoseRowNeverMatches&) const { return "dose-row-never-matches"; }
  std::string operator()(const BorderTakenTwice&) const { return "border-taken-twice"; }
  std::string operator()(const BorderApart&) const { return "border-apart"; }
  std::string operator()(const GlucagonUncounted&) const { return "glucagon-uncounted"; }
  std::string operator()(const ApartInSet&) const { return "apart-in-set"; }
  std::string operator()(const SetsMixed&) const { return "sets-mixed"; }
  std::string operator()(const SignElsewhere&) const { return "sign-elsewhere"; }
  std::string operator()(const UnknownIsCalm&) const { return "unknown-is-calm"; }
  std::string operator()(const LookOutside&) const { return "look-outside"; }
  std::string operator()(const BoundsCrossed&) const { return "bounds-crossed"; }
  std::string operator()(const DoseOfNothing&) const { return "dose-of-nothing"; }
  std::string operator()(const DoseAboveCap&) const { return "dose-above-cap"; }
  std::string operator()(const DoseBelowLeast&) const { return "dose-below-least"; }
  std::string operator()(const DoseWithoutCap&) const { return "dose-without-cap"; }
  std::string operator()(const DoseWithoutLeast&) const { return "dose-without-least"; }
  std::string operator()(const BeyondPublished&) const { return "beyond-published"; }
  std::string operator()(const NeverBroken&) const { return "never-broken"; }
  std::string operator()(const CallTooLate&) const { return "call-too-late"; }
  std::string operator()(const CallNever&) const { return "call-never"; }
  std::string operator()(const LawNotShown&) const { return "law-not-shown"; }
  std::string operator()(const WorseIsCalmer&) const { return "worse-is-calmer"; }
  std::string operator()(const HardToRead&) const { return "hard-to-read"; }
  std::string operator()(const ExampleDiffers&) const { return "example-differs"; }
  std::string operator()(const ExampleStuck&) const { return "example-stuck"; }
  std::string operator()(const UnknownStart&) const { return "unknown-start"; }
  std::string operator()(const SeveralNumbers&) const { return "several-numbers"; }
  std::string operator()(const BandUnnamed&) const { return "band-unnamed"; }
  std::string operator()(const OtherUnitUnstated&) const { return "other-unit-unstated"; }
  std::string operator()(const StaleRow&) const { return "stale-row"; }
  std::string operator()(const NotATable&) const { return "not-a-table"; }
  std::string operator()(const NotWritten&) const { return "not-written"; }
  std::string operator()(const ChangedMeanwhile&) const { return "changed-meanwhile"; }
  std::string operator()(const JournalDamaged&) const { return "journal-damaged"; }
  std::string operator()(const JournalNewer&) const { return "journal-newer"; }
  std::string operator()(const WrongUse&) const { return "wrong-use"; }
};

}  // namespace

std::string id_of(const Kind& kind) { return std::visit(Id{}, kind); }

}  // namespace rushlight
