#include "verify/settings.hpp"

#include <algorithm>
#include <set>

namespace rushlight {
namespace {

const Moment kAtNight{
    std::chrono::sys_days{std::chrono::year{2026} / 3 / 1} + std::chrono::hours{7} + std::chrono::minutes{10},
    std::chrono::minutes{-300}};
constexpr Duration kToAfternoon = std::chrono::hours{12};
constexpr int kUsualMonths = 6 * 12 + 6;

/// Calls `visit` with every condition and every threshold that a walk may look at.
template <class OfCondition, class OfThreshold>
void each_part(const Protocol& protocol, const OfCondition& of_condition, const OfThreshold& of_threshold) {
  const auto conditions = [&](const Conditions& all) {
    for (const Condition& condition : all) of_condition(condition);
  };
  for (const Watch& watch : protocol.watch) conditions(watch.when);
  for (const Action& action : protocol.actions) conditions(action.when);
  for (const Dose& dose : protocol.doses) {
    for (const DoseRow& row : dose.rows) conditions(row.when);
  }
  for (const Step& step : protocol.steps) {
    for (const Rule& rule : step.rules) conditions(rule.when);
  }
  for (const Threshold& threshold : protocol.thresholds) of_threshold(threshold);
}

struct Looked {
  std::set<std::uint16_t> facts;
  std::set<int> months;  // borders of ages
  bool weight = false, hour = false, past = false;
};

Looked looked_at(const Protocol& protocol) {
  Looked read;
  const auto add_age = [&](const Limit& limit) {
    if (const auto* age = std::get_if<Age>(&limit)) read.months.insert(age->months());
  };
  each_part(
      protocol,
      [&](const Condition& condition) {
        if (const auto* is = std::get_if<Is>(&condition.test)) read.facts.insert(is->fact.index);
        if (const auto* compares = std::get_if<Compares>(&condition.test)) {
          read.facts.insert(compares->fact.index);
          if (compares->fact == fact_id(ChildFact::age)) {
            for (const Band& band : protocol[compares->limit].bands) add_age(band.value);
          }
        }
        if (std::holds_alternative<WithinClock>(condition.test)) read.hour = true;
      },
      [&](const Threshold& threshold) {
        for (const Band& band : threshold.bands) {
          if (band.age_from) read.months.insert(band.age_from->months());
          if (band.age_up_to) read.months.insert(band.age_up_to->months());
          read.weight = read.weight || band.weight_from || band.weight_up_to;
          read.hour = read.hour || band.clock_from || band.clock_up_to;
        }
      });
  read.weight = read.weight || read.facts.count(fact_id(ChildFact::weight).index) > 0;
  for (const ChildFact fact : kPastFacts) read.past = read.past || read.facts.count(fact_id(fact).index) > 0;
  return read;
}

std::string in_months(int months) { return std::to_string(months) + " months"; }

int months_of(const std::string& words) {
  int months = 0;
  for (std::size_t i = 0; words[i] >= '0' && words[i] <= '9'; ++i) months = months * 10 + (words[i] - '0');
  return months;
}

Day born(int months) {
  const Day began = local_day_of(kAtNight);
  return began - std::chrono::months{months};
}

constexpr const char* kAge = "age";
constexpr const char* kWeight = "weight";
constexpr const char* kHour = "hour";
constexpr const char* kPast = "earlier nights";
constexpr const char* kDelivery = "delivery";
constexpr const char* kRescue = "rescue";
constexpr const char* kStrips = "strips";
constexpr const char* kKit = "mini-dose-kit";
constexpr const char* kCorrection = "correction-known";

History nights_with_lows_and_highs() {
  History past;
  const auto ago = [](Duration time) { return Moment{kAtNight.utc - time, kAtNight.offset}; };
  for (const int hours : {9, 6, 3}) past.treatments.push_back(ago(std::chrono::hours{hours}));
  for (const int days : {4, 3, 2, 1}) {
    past.treatments.push_back(ago(std::chrono::hours{24 * days}));
    past.readings.push_back({ago(std::chrono::hours{24 * days}), Glucose::hi(GlucoseUnit::mg_per_dl)});
  }
  std::sort(past.treatments.begin(), past.treatments.end(),
            [](const Moment& a, const Moment& b) { return a.utc < b.utc; });
  return past;
}

void give_rescue(Child& child, const std::string& value, bool with_kit) {
  child.rescue.clear();
  if (value == "none") return;
  RescueMedicine medicine{RescueKind::nasal, std::nullopt, "", std::nullopt};
  if (value == "injection") medicine.kind = RescueKind::injection;
  if (value == "premixed") medicine.kind = RescueKind::premixed;
  if (value == "expired") medicine.expires = born(1);
  child.rescue.push_back(medicine);
  if (with_kit)
    child.rescue.push_back({RescueKind::injection, std::nullopt, "", Quantity{Decimal::whole(1), Unit::mg_per_ml}});
}

}  // namespace

std::vector<Trait> traits_of(const Protocol& protocol) {
  const Looked read = looked_at(protocol);
  std::vector<Trait> traits;
  const auto add = [&](const char* name, ChildFact fact, std::vector<std::string> values) {
    if (read.facts.count(fact_id(fact).index) > 0) traits.push_back(Trait{name, std::move(values)});
  };
  std::vector<std::string> ages{in_months(kUsualMonths)};
  for (const int border : read.months) {
    for (const int months : {border - 1, border}) {
      if (months >= 0) ages.push_back(in_months(months));
    }
  }
  if (ages.size() > 1) traits.push_back(Trait{kAge, std::move(ages)});
  if (read.weight) traits.push_back(Trait{kWeight, {"21 kg", "unknown"}});
  add(kDelivery, ChildFact::delivery, {"injections", "pump", "automatic-pump"});
  add(kRescue, ChildFact::rescue, {"nasal", "injection", "premixed", "expired", "none"});
  add(kStrips, ChildFact::strips, {"blood", "urine", "none"});
  add(kKit, ChildFact::mini_dose_kit, {"no", "yes"});
  add(kCorrection, ChildFact::correction_known, {"yes", "no"});
  if (read.hour) traits.push_back(Trait{kHour, {"at night", "in the afternoon"}});
  if (read.past) traits.push_back(Trait{kPast, {"nothing", "lows and highs"}});
  return traits;
}

Setting setting_with(const Protocol& protocol, const std::vector<Trait>& traits, const Choices& choices) {
  const auto value_of = [&](const std::string& name, const std::string& usual) {
    for (std::size_t i = 0; i < traits.size(); ++i) {
      if (traits[i].name == name) return traits[i].values[choices[i]];
    }
    return usual;
  };
  Child child{};
  child.name = "the child";
  child.birth = born(months_of(value_of(kAge, in_months(kUsualMonths))));
  if (value_of(kWeight, "21 kg") != "unknown") {
    child.weight = BodyWeight{Decimal::whole(21), kKilogram};
    child.weighed = born(0);
  }
  child.total_daily_dose = InsulinDose{Decimal::whole(16), kInsulinUnit};
  child.daily_dose_on = born(0);
  child.unit = GlucoseUnit::mg_per_dl;
  if (value_of(kCorrection, "yes") == "yes")
    child.correction_factor = CorrectionFactor{Decimal::whole(90), GlucoseUnit::mg_per_dl};
  const std::string delivery = value_of(kDelivery, "injections"), strips = value_of(kStrips, "blood");
  child.delivery = delivery == "pump"             ? Delivery::pump
                   : delivery == "automatic-pump" ? Delivery::automatic_pump
                                                  : Delivery::injections;
  child.strips = strips == "urine" ? Strips::urine : strips == "none" ? Strips::none : Strips::blood;
  give_rescue(child, value_of(kRescue, "nasal"), value_of(kKit, "no") == "yes");
  child.language = protocol.languages.front();
  Setting setting{std::move(child), kAtNight, {}};
  if (value_of(kHour, "at night") != "at night") setting.began.utc += kToAfternoon;
  if (value_of(kPast, "nothing") != "nothing") setting.past = nights_with_lows_and_highs();
  return setting;
}

}  // namespace rushlight
