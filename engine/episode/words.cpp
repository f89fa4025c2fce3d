#include "episode/words.hpp"

#include <algorithm>

#include "episode/dose_result.hpp"
#include "episode/drinks.hpp"
#include "episode/phrases.hpp"

namespace rushlight {
namespace {

const std::string& or_else(const std::string& given, const std::string& otherwise) {
  return given.empty() ? otherwise : given;
}

std::string latest_glucose(const Scene& scene, Language language) {
  if (const std::optional<FactId> fact = scene.protocol.fact_named("glucose")) {
    if (const std::optional<Value> value = value_of(scene, *fact)) {
      if (const auto* reading = std::get_if<Glucose>(&*value)) return said(*reading, language);
    }
  }
  return phrase(Phrase::no_reading, language);
}

/// What was told last, of blood or urine; both, blood first, when they were told together: either may have decided.
std::string latest_ketones(const Scene& scene, Language language) {
  std::string words;
  std::optional<Instant> last;
  for (const char* name : {"ketones", "urine-ketones"}) {
    const std::optional<FactId> fact = scene.protocol.fact_named(name);
    const std::optional<Known> known = fact ? scene.episode.facts[fact->index] : std::nullopt;
    if (!known) continue;
    std::string told;
    if (const auto* blood = std::get_if<KetoneReading>(&known->value)) told = text_from_ketones(*blood);
    if (const auto* urine = std::get_if<Chosen>(&known->value))
      told = plain_words(scene.protocol[*fact].options[urine->option].text, language);
    if (told.empty() || (last && known->learned < *last)) continue;
    words = last && known->learned == *last ? words + ", " + phrase(Phrase::in_urine, language, told) : told;
    last = known->learned;
  }
  return words.empty() ? phrase(Phrase::no_reading, language) : words;
}

/// The mark of a syringe for insulin of 100 units in a millilitre: one mark is a hundredth of a millilitre.
/// Source: Haymond and Schreiner 2001: 1 mg in 1 mL, one mark holds 10 micrograms.
std::string syringe_mark(const Scene& scene, Language language) {
  const RescueMedicine* kit = mini_dose_kit(scene.child, scene.today);
  for (const ActionId id : scene.protocol[scene.episode.step].actions) {
    const Action& action = scene.protocol[id];
    if (kit == nullptr || action.kind != ActionKind::glucagon || !action.dose) continue;
    const std::optional<Quantity> amount = dose_for(scene, *action.dose, language).amount;
    if (!amount || amount->unit != Unit::microgram) continue;
    const Decimal in_a_mark = product(kit->concentration->value, Decimal::whole(10));
    return text_from_decimal(rounded(quotient(amount->value, in_a_mark), RoundDirection::down, Decimal::whole(1)));
  }
  return phrase(Phrase::no_reading, language);
}

std::string rescue_place(const Scene& scene, Language language) {
  for (const RescueMedicine& medicine : scene.child.rescue) {
    const bool in_date = !medicine.expires || scene.today <= *medicine.expires;
    const bool in_use = static_cast<std::uint16_t>(medicine.kind) == rescue_option(scene);
    if (in_date && in_use && !medicine.place.empty()) return medicine.place;
  }
  return phrase(Phrase::rescue_place_unknown, language);
}

std::string food_text(const Scene& scene, std::optional<DoseId> dose, Language language, bool stand_ins) {
  std::string text;
  if (dose) {
    const std::optional<Quantity> amount = dose_for(scene, *dose, language).amount;
    if (amount && amount->unit == Unit::gram) {
      const Carbohydrate wanted{amount->value, kGram};
      text = stand_ins ? stand_ins_for(scene, wanted, language) : food_for(scene, wanted, language);
    }
  }
  return text.empty() ? phrase(Phrase::something_sweet, language) : text;
}

/// The dose {food} stands for where the step itself gives none by mouth.
std::optional<DoseId> first_gram_dose(const Protocol& protocol) {
  for (std::size_t place = 0; place < protocol.doses.size(); ++place) {
    if (protocol.doses[place].unit == Unit::gram) return DoseId{static_cast<std::uint16_t>(place)};
  }
  return std::nullopt;
}

std::string spoken(Duration time, Language language) {
  constexpr std::int64_t kMinute = 60;
  constexpr std::int64_t kHour = 60 * kMinute;
  if (time.count() % kMinute != 0) return text_from_duration(time);
  const std::int64_t hours = time.count() / kHour;
  const std::int64_t minutes = time.count() % kHour / kMinute;
  std::string words;
  if (hours == 1) words = phrase(Phrase::one_hour, language);
  if (hours > 1) words = phrase(Phrase::hours, language, std::to_string(hours));
  if (minutes == 0) return words;
  if (!words.empty()) words += " ";
  return words + (minutes == 1 ? phrase(Phrase::one_minute, language)
                               : phrase(Phrase::minutes, language, std::to_string(minutes)));
}

Duration time_of(const Scene& scene, ThresholdId id) {
  const auto* time = std::get_if<Duration>(&value_in(scene.protocol[id], scene.context));
  return time != nullptr ? *time : Duration{0};
}

struct Filling {
  const Scene& scene;
  Language language;
  std::optional<DoseId> food_dose;

  std::string operator()(const std::string& words) const { return words; }
  std::string operator()(ThresholdId id) const {
    return said(value_in(scene.protocol[id], scene.context), scene.child.unit, language);
  }
  std::string operator()(DoseId id) const {
    const DoseResult dose = dose_for(scene, id, language);
    if (!dose.amount) return "";  // `filled` gives the reason for the whole text
    return said(*dose.amount, language) + (dose.share.empty() ? "" : " (" + dose.share + ")");
  }
  std::string operator()(Filler filler) const {
    const Contacts& contacts = scene.child.contacts;
    switch (filler) {
      case Filler::child:
        return scene.child.name;
      case Filler::food:
        return food_text(scene, food_dose, language, false);
      case Filler::other_foods:
        return food_text(scene, food_dose, language, true);
      case Filler::glucose:
        return latest_glucose(scene, language);
      case Filler::until: {
        const std::optional<Instant> until = wait_ends_by(scene);
        const Instant shown = until ? *until : scene.now;
        return text_from_clock_time(clock_time_of(wall(scene.episode.clock, shown)));
      }
      case Filler::again:
        return when_again(scene, language);
      case Filler::clinic_number:
        return number_of(contacts, Contact::clinic, language);
      case Filler::on_call_number:
        return number_of(contacts, Contact::on_call, language);
      case Filler::emergency_number:
        return number_of(contacts, Contact::emergency, language);
      case Filler::second_adult: {
        const std::string name = or_else(contacts.second_adult_name, phrase(Phrase::second_adult, language));
        return contacts.second_adult.empty() ? name : name + ", " + contacts.second_adult;
      }
      case Filler::address:
        return or_else(contacts.address, phrase(Phrase::your_address, language));
      case Filler::rescue_place:
        return rescue_place(scene, language);
      case Filler::told:
        return scene.episode.told;
      case Filler::ketones:
        return latest_ketones(scene, language);
      case Filler::drunk:
      case Filler::fluid_goal: {
        const std::optional<ShownDrinks> drinks = drinks_of(scene);
        const Quantity none{Decimal{}, Unit::millilitre};
        if (!drinks) return said(none, language);
        return said(filler == Filler::drunk ? drinks->drunk : drinks->goal, language);
      }
      case Filler::syringe_mark:
        return syringe_mark(scene, language);
    }
    return "";
  }
};

}  // namespace

std::string said(const Quantity& quantity, Language language) {
  const std::string number = text_from_decimal(quantity.value);
  switch (quantity.unit) {
    case Unit::insulin_unit:
      return number == "1" ? phrase(Phrase::one_unit, language) : phrase(Phrase::units, language, number);
    case Unit::microgram:
      return phrase(Phrase::micrograms, language, number);
    case Unit::unit_per_kilogram:
      return said(Quantity{quantity.value, Unit::insulin_unit}, language) + "/kg";
    case Unit::year:
      return phrase(Phrase::years, language, number);
    case Unit::month:
      return phrase(Phrase::months, language, number);
    case Unit::day:
      return phrase(Phrase::days, language, number);
    default:
      return text_from_quantity(quantity);
  }
}

std::string said(const Limit& limit, GlucoseUnit unit, Language language) {
  if (const auto* age = std::get_if<Age>(&limit)) {
    const bool whole_years = age->months() % 12 == 0 && age->months() >= 24;
    return whole_years ? said(Quantity{Decimal::whole(age->completed_years()), Unit::year}, language)
                       : said(Quantity{Decimal::whole(age->months()), Unit::month}, language);
  }
  if (const auto* time = std::get_if<Duration>(&limit)) {
    constexpr std::int64_t kSecondsADay = 86'400;
    if (time->count() % kSecondsADay == 0 && time->count() >= 2 * kSecondsADay) {
      return said(Quantity{Decimal::whole(time->count() / kSecondsADay), Unit::day}, language);
    }
    return text_from_duration(*time);
  }
  if (const auto* quantity = std::get_if<Quantity>(&limit)) return said(*quantity, language);
  return text_from_limit(limit, unit);
}

std::string said(const Glucose& reading, Language) { return text_from_glucose(reading); }

std::string plain_words(const Text& text, Language language) {
  std::string words;
  for (const Piece& piece : text.in(language)) {
    if (const auto* part = std::get_if<std::string>(&piece)) words += *part;
  }
  return words;
}

namespace {

/// The step called the clinic for this dose, and somebody has answered.
bool clinic_has_said(const Scene& scene, DoseId dose) {
  const auto& actions = scene.protocol[scene.episode.step].actions;
  const bool called = std::any_of(actions.begin(), actions.end(), [&](ActionId id) {
    return scene.protocol[id].dose == dose && scene.protocol[id].call;
  });
  return called && std::all_of(scene.episode.calls.begin(), scene.episode.calls.end(),
                               [](const OpenCall& call) { return call.contact == Contact::emergency && call.by_step; });
}

}  // namespace

std::optional<std::string> withheld_in(const Scene& scene, const Text& text, Language language) {
  for (const Piece& piece : text.in(language)) {
    const auto* dose = std::get_if<DoseId>(&piece);
    if (dose == nullptr) continue;
    const DoseResult result = dose_for(scene, *dose, language);
    if (!result.amount && result.clinic_decides && clinic_has_said(scene, *dose))
      return phrase(Phrase::insulin_as_said, language);
    if (!result.amount) return result.working;
  }
  return std::nullopt;
}

std::string filled(const Scene& scene, const Text& text, Language language, std::optional<DoseId> food_dose) {
  // A reason put into a blank would read as an amount: "Give not for a child this young now."
  if (std::optional<std::string> reason = withheld_in(scene, text, language)) return *std::move(reason);
  const Filling filling{scene, language, food_dose ? food_dose : first_gram_dose(scene.protocol)};
  std::string words;
  for (const Piece& piece : text.in(language)) words += std::visit(filling, piece);
  return words;
}

std::string who(Contact contact, Language language) {
  switch (contact) {
    case Contact::clinic:
      return phrase(Phrase::clinic, language);
    case Contact::on_call:
      return phrase(Phrase::on_call_line, language);
    case Contact::emergency:
      return phrase(Phrase::emergency_services, language);
  }
  return "";
}

std::string number_of(const Contacts& contacts, Contact contact, Language language) {
  switch (contact) {
    // A clinic with one number has one line for both.
    case Contact::clinic:
      return or_else(contacts.clinic, or_else(contacts.on_call, phrase(Phrase::your_clinic_number, language)));
    case Contact::on_call:
      return or_else(contacts.on_call, or_else(contacts.clinic, phrase(Phrase::your_on_call_number, language)));
    case Contact::emergency:
      return or_else(contacts.emergency, phrase(Phrase::your_emergency_number, language));
  }
  return "";
}

std::string call_words(const Contacts& contacts, const OpenCall& call, Language language) {
  const std::string number = number_of(contacts, call.contact, language);
  switch (call.contact) {
    case Contact::clinic:
      return phrase(call.may_wait() ? Phrase::call_clinic_in_hours : Phrase::call_clinic, language, number);
    case Contact::on_call:
      if (!call.moved_on) return phrase(Phrase::call_on_call, language, number);
      return phrase(call.unsaid ? Phrase::clinic_may_be_silent : Phrase::clinic_silent, language, number);
    case Contact::emergency:
      if (!call.moved_on) return phrase(Phrase::call_emergency, language, number);
      return phrase(call.unsaid ? Phrase::nobody_may_have_answered : Phrase::nobody_answered, language, number);
  }
  return "";
}

std::string when_again(const Scene& scene, Language language) {
  const std::optional<Wait>& wait = scene.protocol[scene.episode.step].wait;
  if (!wait) return "";
  const std::optional<Instant>& ends = scene.episode.wait_ends;
  if (!ends) return phrase(Phrase::in_time, language, spoken(time_of(scene, wait->lasts), language));
  const std::string clock = text_from_clock_time(clock_time_of(wall(scene.episode.clock, *ends)));
  return phrase(Phrase::at_time, language, clock);
}

std::optional<Instant> wait_ends_by(const Scene& scene) {
  const Step& step = scene.protocol[scene.episode.step];
  if (!step.wait) return std::nullopt;
  if (scene.episode.wait_ends) return scene.episode.wait_ends;
  Instant latest = scene.episode.entered + time_of(scene, step.wait->lasts);
  if (step.wait->start_within) latest += time_of(scene, *step.wait->start_within);
  return latest;
}

Answers unnamed_worry(const Protocol& protocol) {
  for (const Sign& sign : protocol.worse) {
    if (protocol[sign.fact].name == "other-worry") return {{sign.fact, Chosen{static_cast<std::uint16_t>(sign.option)}}};
  }
  return {};
}

}  // namespace rushlight
