#include "cli/child_questions.hpp"

#include "cli/child_words.hpp"
#include "measure/written.hpp"
#include "wire/characters.hpp"
#include "wire/object_reader.hpp"
#include "wire/plausible_weight.hpp"

namespace rushlight::child_questions {

using namespace child_words;

namespace {

constexpr Day kEarliestBirth{std::chrono::year{1990}, std::chrono::January, std::chrono::day{1}};
constexpr Decimal kLightest = Decimal::whole(1);
constexpr Decimal kHeaviest = Decimal::whole(250);
constexpr Decimal kLeastInsulin = Decimal::of_micros(500'000);
constexpr Decimal kMostInsulin = Decimal::whole(400);
// One avoirdupois pound is 0.45359237 kg exactly (1959 international agreement); six places are far finer than a scale.
constexpr Decimal kKilogramInPound = Decimal::of_micros(453'592);
constexpr Decimal kTenth = Decimal::of_micros(100'000);

DecimalMark mark_of(Language language) {
  return language == Language::es ? DecimalMark::point_or_comma : DecimalMark::point;
}

// A text, which may be skipped.
void ask_text(Interview& interview, const Both& question, std::string& text, std::size_t longest) {
  interview.ask(question, [&](const std::string& typed) -> std::string {
    if (length_of(typed) > longest) return say(kTooLong, interview.language());
    text = typed;
    return {};
  });
}

void ask_telephone(Interview& interview, const Both& question, std::string& number) {
  interview.ask(question, [&](const std::string& typed) -> std::string {
    const bool only_signs = typed.find_first_not_of("0123456789 +()-./") == std::string::npos && typed.size() <= 40;
    const bool any_digit = typed.find_first_of("0123456789") != std::string::npos;
    if (!typed.empty() && (!only_signs || !any_digit)) return say(kTelephoneLike, interview.language());
    number = typed;
    return {};
  });
}

// Why a day cannot be taken; empty when it can.
std::string day_refused(const Interview& interview, const Day& day, const Day& least, const Day& today,
                        const Both& early) {
  if (day > today) return say(kDayNotYet, interview.language(), text_from_day(day));
  if (day < least) return say(early, interview.language(), text_from_day(day));
  return {};
}

// Kilograms; pounds only when the person wrote "lb".
std::optional<Decimal> kilograms_from(const std::string& typed, Language language) {
  const Written written = written_from_text(typed);
  const auto number = decimal_from_text(written.number, mark_of(language));
  const auto* value = std::get_if<Decimal>(&number);
  if (value == nullptr) return std::nullopt;
  const std::string unit = small_letters(trimmed(written.unit));
  if (unit.empty() || unit == "kg") return *value;
  if (unit == "lb" || unit == "lbs") return rounded(product(*value, kKilogramInPound), RoundDirection::nearest, kTenth);
  return std::nullopt;
}

std::string in_kilograms(Decimal value) { return text_from_quantity(Quantity{value, Unit::kilogram}); }

// Clean numbers that still lie inside: whole kilograms, tenths for the smallest children.
std::string usual_weights(const WeightRange& usual) {
  const Decimal least = usual.least.in(kKilogram);
  const Decimal step = least < Decimal::whole(10) ? kTenth : Decimal::whole(1);
  return text_from_decimal(rounded(least, RoundDirection::up, step)) + "-" +
         in_kilograms(rounded(usual.most.in(kKilogram), RoundDirection::down, step));
}

void ask_when_weighed(Interview& interview, Child& child, Day today) {
  interview.ask(kWeighed, [&](const std::string& typed) -> std::string {
    const auto day = typed.empty() ? std::optional<Day>(today) : day_from_text(typed);
    if (!day) return say(kDateLike, interview.language());
    const std::string reason = day_refused(interview, *day, child.birth, today, kBeforeBirth);
    if (reason.empty()) child.weighed = day;
    return reason;
  });
}

/// A number from `least` to `most`; empty when the person skips it.
std::optional<Decimal> ask_number(Interview& interview, const Both& question, const char* example, Decimal least,
                                  Decimal most) {
  std::optional<Decimal> number;
  interview.ask(question, [&](const std::string& typed) -> std::string {
    if (typed.empty()) return {};
    const auto read = decimal_from_text(typed, mark_of(interview.language()));
    const auto* value = std::get_if<Decimal>(&read);
    if (value == nullptr) return say(kNumberLike, interview.language(), typed, example);
    if (*value < least || *value > most)
      return say(kDoseOutside, interview.language(), typed, text_from_decimal(least) + "-" + text_from_decimal(most));
    number = *value;
    return {};
  });
  return number;
}

// What an extra dose on a sick day needs beside the total; without it the clinic says the dose.
void ask_for_sick_days(Interview& interview, Child& child) {
  if (const auto strength = ask_number(interview, kStrength, "100", Decimal::whole(10), Decimal::whole(500)))
    child.insulin_strength = Quantity{*strength, Unit::unit_per_ml};
  if (const auto step = ask_number(interview, kInsulinStep, "0.5", Decimal::of_micros(10'000), Decimal::whole(2)))
    child.insulin_step = InsulinDose{*step, kInsulinUnit};
  const bool mg = child.unit == GlucoseUnit::mg_per_dl;
  const auto fall = mg ? ask_number(interview, kCorrectionMg, "50", Decimal::whole(5), Decimal::whole(400))
                       : ask_number(interview, kCorrectionMmol, "3", Decimal::of_micros(300'000), Decimal::whole(22));
  if (fall) child.correction_factor = CorrectionFactor{*fall, child.unit};
}

}  // namespace

void ask_who(Interview& interview, Answers& answers, Day today) {
  Child& child = answers.child;
  interview.ask(kName, [&](const std::string& typed) -> std::string {
    if (typed.empty()) return say(kNeedsName, interview.language());
    if (length_of(typed) > kLongestName) return say(kTooLong, interview.language());
    child.name = typed;
    return {};
  });
  interview.ask(kBirth, [&](const std::string& typed) -> std::string {
    if (typed.empty()) return say(kNeedsBirth, interview.language());
    const auto day = day_from_text(typed);
    if (!day) return say(kDateLike, interview.language());
    const std::string reason = day_refused(interview, *day, kEarliestBirth, today, kTooLongAgo);
    if (reason.empty()) child.birth = *day;
    return reason;
  });
  child.unit =
      interview.choose(kUnit, {kMilligrams, kMillimoles}) == 0 ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
}

void ask_weight(Interview& interview, Answers& answers, Day today) {
  Child& child = answers.child;
  while (!interview.has_ended()) {
    std::optional<Decimal> weight;
    interview.ask(kWeight, [&](const std::string& typed) -> std::string {
      if (typed.empty()) return {};
      weight = kilograms_from(typed, interview.language());
      if (!weight) return say(kWeightLike, interview.language(), typed);
      if (*weight >= kLightest && *weight <= kHeaviest) return {};
      return say(kWeightOutside, interview.language(), in_kilograms(*weight));
    });
    if (!weight) return;
    ask_when_weighed(interview, child, today);
    if (!child.weighed) return;
    child.weight = BodyWeight{*weight, kKilogram};
    const WeightRange usual = plausible_weight(age_on(child.birth, *child.weighed));
    if (*child.weight >= usual.least && *child.weight <= usual.most) return;
    answers.confirmed.weight = interview.agrees(kUnusualWeight, in_kilograms(*weight), usual_weights(usual));
    if (answers.confirmed.weight) return;
    child.weight.reset();
    child.weighed.reset();
  }
}

void ask_insulin(Interview& interview, Answers& answers, Day today) {
  Child& child = answers.child;
  child.delivery = static_cast<Delivery>(interview.choose(kDelivery, {kInjections, kPump, kAutomaticPump}));
  child.strips = static_cast<Strips>(interview.choose(kStrips, {kBlood, kUrine, kNone}));
  while (!interview.has_ended()) {
    const std::optional<Decimal> dose = ask_number(interview, kDailyDose, "15", kLeastInsulin, kMostInsulin);
    if (!dose) return;
    const bool usual =
        !child.weight || *dose <= product(child.weight->in(kKilogram), most_daily_insulin_per_kilogram());
    answers.confirmed.total_daily_dose =
        !usual && interview.agrees(kUnusualDose, text_from_decimal(*dose), in_kilograms(child.weight->in(kKilogram)));
    if (!usual && !answers.confirmed.total_daily_dose) continue;
    child.total_daily_dose = InsulinDose{*dose, kInsulinUnit};
    child.daily_dose_on = today;
    return ask_for_sick_days(interview, child);
  }
}

void ask_rescue(Interview& interview, Answers& answers) {
  const Both* question = &kRescue;
  while (!interview.has_ended()) {
    const std::size_t kind = interview.choose(*question, {kNasal, kMixed, kReady, kNoRescue});
    if (kind == 3 || interview.has_ended()) return;
    RescueMedicine medicine{static_cast<RescueKind>(kind), std::nullopt, {}};
    interview.ask(kExpires, [&](const std::string& typed) -> std::string {
      if (typed.empty()) return {};
      medicine.expires = day_from_text(typed);
      return medicine.expires ? std::string{} : say(kDateLike, interview.language());
    });
    ask_text(interview, kPlace, medicine.place, kLongestName);
    if (medicine.kind == RescueKind::injection) {
      const auto strength = ask_number(interview, kConcentration, "1", Decimal::of_micros(100'000), Decimal::whole(10));
      if (strength) medicine.concentration = Quantity{*strength, Unit::mg_per_ml};
    }
    answers.child.rescue.push_back(std::move(medicine));
    question = &kAnotherRescue;
  }
}

void ask_contacts(Interview& interview, Answers& answers) {
  Contacts& contacts = answers.child.contacts;
  ask_telephone(interview, kClinic, contacts.clinic);
  ask_telephone(interview, kOnCall, contacts.on_call);
  ask_text(interview, kAdult, contacts.second_adult_name, kLongestName);
  if (!contacts.second_adult_name.empty()) ask_telephone(interview, kAdultNumber, contacts.second_adult);
  ask_telephone(interview, kEmergency, contacts.emergency);
  ask_text(interview, kAskAddress, contacts.address, kLongestText);
}

}  // namespace rushlight::child_questions
