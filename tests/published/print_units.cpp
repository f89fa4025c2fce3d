#include <iostream>
#include <string>
#include <variant>

#include "measure/amounts.hpp"
#include "measure/glucose.hpp"
#include "measure/ketones.hpp"

// Prints what the house believes about units, one fact a line and tab-separated, for ucum/check.mjs to ask an
// independent UCUM library about. The words of a line: what is claimed, then value and code of each side.

namespace {

using namespace rushlight;

void print_units() {
  for (int i = 0; i <= static_cast<int>(Unit::one); ++i) std::cout << "unit\t" << ucum(static_cast<Unit>(i)) << '\n';
}

void print_glucose() {
  for (int value = 20; value <= 600; ++value) {
    const Decimal given = Decimal::whole(value);
    std::cout << "glucose\t" << value << "\tmg/dL\t" << text_from_decimal(other_value(given, GlucoseUnit::mg_per_dl))
              << "\tmmol/L\n";
  }
  for (int tenths = 11; tenths <= 333; ++tenths) {
    const Decimal given = Decimal::of_micros(tenths * 100'000);
    std::cout << "glucose\t" << text_from_decimal(given) << "\tmmol/L\t"
              << text_from_decimal(other_value(given, GlucoseUnit::mmol_per_l)) << "\tmg/dL\n";
  }
}

void print_ketones() {
  for (int value = 1; value <= 100; ++value) {
    std::cout << "ketones\t" << value << "\tmg/dL\t" << text_from_decimal(ketones_from_mg_per_dl(Decimal::whole(value)))
              << "\tmmol/L\n";
  }
}

void print_times() {
  for (const Unit unit : {Unit::second, Unit::minute, Unit::hour, Unit::day}) {
    for (const int value : {1, 15, 90}) {
      const auto duration = duration_from_quantity(Quantity{Decimal::whole(value), unit});
      if (duration) std::cout << "same\t" << value << '\t' << ucum(unit) << '\t' << duration->count() << "\ts\n";
    }
  }
  for (const int years : {1, 6, 17}) {
    const auto age = age_from_quantity(Quantity{Decimal::whole(years), Unit::year});
    if (age) std::cout << "same\t" << years << "\ta\t" << age->months() << "\tmo\n";
  }
}

void print_weights() {
  for (int pounds = 5; pounds <= 300; ++pounds) {
    std::cout << "weight\t" << pounds << "\t[lb_av]\t"
              << text_from_decimal(weight_from_pounds(Decimal::whole(pounds)).in(kKilogram)) << "\tkg\n";
  }
}

}  // namespace

int main() {
  print_units();
  print_glucose();
  print_ketones();
  print_times();
  print_weights();
}
