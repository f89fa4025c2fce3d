#pragma once

#include <optional>
#include <string>
#include <vector>

#include "measure/amounts.hpp"
#include "measure/glucose.hpp"
#include "measure/moment.hpp"
#include "protocol/dose.hpp"
#include "protocol/text.hpp"

namespace rushlight {

enum class Delivery : std::uint8_t { injections, pump, automatic_pump };
enum class Strips : std::uint8_t { blood, urine, none };
enum class RescueKind : std::uint8_t { nasal, injection, premixed };

std::string_view name_of(Delivery delivery);
std::string_view name_of(Strips strips);
std::string_view name_of(RescueKind kind);

/// The options of the child-file choices, in the order of their option numbers in every protocol:
/// delivery as in Delivery; rescue: nasal, injection, premixed, expired, none; strips as in Strips.
inline constexpr const char* kRescueOptions[] = {"nasal", "injection", "premixed", "expired", "none"};

struct RescueMedicine {
  RescueKind kind;
  std::optional<Day> expires;  // unknown counts as in date; the view says to look at the date
  std::string place;           // "kitchen drawer"
  std::optional<Quantity> concentration = std::nullopt;  // in mg/mL once mixed, as the box says; a mini-dose needs it
};

/// What the family gives for a low, with the amount of carbohydrate in it.
struct ChildFood {
  FoodKind kind;
  std::string name[kLanguages];   // at least one is filled
  Unit unit;                      // millilitre, gram, or one (a piece)
  Decimal carbohydrate;           // grams in 100 mL, in 100 g, or in one piece
  std::string source;             // of that number: a label, a table
  struct Measure {                // "tablespoon" of 15 mL
    std::string name[kLanguages];
    Decimal size;                 // in the food's unit
  };
  std::optional<Measure> measure;
};

struct Contacts {
  std::string clinic, on_call, second_adult_name, second_adult, emergency, address;  // empty: not given
};

/// How far one unit of rapid-acting insulin brings the glucose down, as the clinic wrote it for this child.
struct CorrectionFactor {
  Decimal fall;
  GlucoseUnit unit;
};

/// What a child file may say. Beyond these no child is; between them and the plausible range (wire/plausible_weight) a person
/// is asked. Common practice, no source.
inline constexpr BodyWeight kLightestChild{Decimal::whole(1), kKilogram};
inline constexpr BodyWeight kHeaviestChild{Decimal::whole(250), kKilogram};
inline constexpr InsulinDose kLeastDailyDose{Decimal::of_micros(500'000), kInsulinUnit};
inline constexpr InsulinDose kMostDailyDose{Decimal::whole(400), kInsulinUnit};
constexpr Decimal least_correction_factor(GlucoseUnit unit) {
  return unit == GlucoseUnit::mg_per_dl ? Decimal::whole(5) : Decimal::of_micros(300'000);
}
constexpr Decimal greatest_correction_factor(GlucoseUnit unit) {
  return unit == GlucoseUnit::mg_per_dl ? Decimal::whole(400) : Decimal::whole(22);
}
/// The oldest a protocol is looked at for: the last month before the nineteenth birthday.
inline constexpr Age kOldestChild = Age::of_months(19 * 12 - 1);

/// What is known about the child before anything happens. Read and vetted by wire/child_from_json.
struct Child {
  std::string name;
  Day birth;
  std::optional<BodyWeight> weight;
  std::optional<Day> weighed;
  std::optional<InsulinDose> total_daily_dose;
  std::optional<Day> daily_dose_on;              // the day it was last agreed; an old one is none
  std::optional<InsulinDose> insulin_step;       // of the child's own pen or pump; empty: the protocol's
  std::optional<Quantity> insulin_strength;      // in [iU]/mL, as the pen says
  std::optional<CorrectionFactor> correction_factor;
  GlucoseUnit unit;
  Delivery delivery;
  Strips strips;
  std::vector<RescueMedicine> rescue;
  std::vector<ChildFood> foods;
  Contacts contacts;
  Language language;
  std::string protocols;  // folder of the clinic's set; empty: the embedded one named below
  std::string set;        // "reference" when the file names none
};

}  // namespace rushlight
