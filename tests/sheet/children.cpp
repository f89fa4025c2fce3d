#include "sheet/children.hpp"

namespace rushlight::test {

const std::vector<std::string>& hard_names() {
  static const std::vector<std::string> names = {
      "Maximiliana Theodora Wilhelmina von und zu Hohenbergen-Oberschlatt",
      std::string(90, 'W'),
      "\xD7\xA0\xD7\x95\xD7\xA2\xD7\x94 \xD7\x9B\xD7\x94\xD7\x9F",                                   // Hebrew
      "\xD9\x84\xD9\x8A\xD9\x84\xD9\x89 \xD8\xA8\xD9\x86\xD8\xAA \xD9\x8A\xD9\x88\xD8\xB3\xD9\x81",  // Arabic
      "\xCE\x95\xCE\xBB\xCE\xAD\xCE\xBD\xCE\xB7 \xD0\x96\xD0\xB0\xD0\xBD\xD0\xBD\xD0\xB0",           // Greek, Cyrillic
      "<b>Ann</b> & \"Bo\" {child} {1}",
      "A\xE2\x80\xAE"
      "b\xE2\x80\xACn",  // turns the line round
  };
  return names;
}

Child Children::next(const Day& today) {
  using std::chrono::days;
  using std::chrono::sys_days;
  Child child{};
  child.name =
      once_in(4) ? hard_names()[static_cast<std::size_t>(up_to(static_cast<int>(hard_names().size()) - 1))] : "Ada";
  const int age_days = 200 + up_to(17 * 365);
  child.birth = Day{sys_days(today) - days{age_days}};
  if (!once_in(6)) {
    child.weight = BodyWeight{
        Decimal::of_micros((4 + age_days / 365 * 3 + up_to(12)) * 1'000'000LL + up_to(9) * 100'000LL), kKilogram};
    child.weighed = Day{sys_days(today) - days{up_to(120)}};
  }
  child.unit = once_in(2) ? GlucoseUnit::mg_per_dl : GlucoseUnit::mmol_per_l;
  child.delivery = static_cast<Delivery>(up_to(2));
  child.strips = static_cast<Strips>(up_to(2));
  if (once_in(2)) {
    child.total_daily_dose = InsulinDose{Decimal::whole(5 + up_to(40)), kInsulinUnit};
    child.daily_dose_on = Day{sys_days(today) - days{up_to(200)}};
  }
  const int kits = up_to(2);
  for (int kit = 0; kit < kits; ++kit) {
    RescueMedicine medicine{static_cast<RescueKind>(up_to(2)), std::nullopt,
                            once_in(3) ? "" : "top drawer in the kitchen"};
    if (!once_in(3)) medicine.expires = Day{sys_days(today) + days{up_to(400) - 60}};
    if (medicine.kind == RescueKind::injection && once_in(2))
      medicine.concentration = Quantity{Decimal::whole(1), Unit::mg_per_ml};
    child.rescue.push_back(std::move(medicine));
  }
  if (!once_in(4)) {
    ChildFood food{FoodKind::juice,  {"apple juice", "jugo de manzana"},
                   Unit::millilitre, Decimal::of_micros(9'000'000LL + up_to(30) * 100'000LL),
                   "a label",        std::nullopt};
    if (once_in(2)) food.measure = ChildFood::Measure{{"tablespoon", "cucharada"}, Decimal::whole(15)};
    child.foods.push_back(std::move(food));
  }
  if (!once_in(3)) child.contacts.clinic = "555 0100";
  if (!once_in(3)) child.contacts.on_call = "555 0102";
  if (!once_in(3)) child.contacts.emergency = "112";
  if (once_in(2)) child.contacts.second_adult_name = once_in(3) ? hard_names().front() : "Bo";
  if (once_in(2)) child.contacts.second_adult = "555 0101";
  if (once_in(2)) child.contacts.address = "1 Harbour Lane, second floor, behind the yard, bell on the left";
  child.language = once_in(2) ? Language::en : Language::es;
  child.set = "reference";
  return child;
}

}  // namespace rushlight::test
