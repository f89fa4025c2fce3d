#include "protocol/band_name.hpp"

namespace rushlight {

namespace {

struct Edge {
  std::string number, unit;
  std::string text() const { return unit.empty() ? number : number + "-" + unit; }
};

std::string counted(int number, const char* one) { return number == 1 ? one : std::string(one) + "s"; }

Edge edge_of(Age age) {
  if (age.months() % 12 != 0) return {std::to_string(age.months()), counted(age.months(), "month")};
  return {std::to_string(age.completed_years()), counted(age.completed_years(), "year")};
}

Edge edge_of(BodyWeight weight) { return {text_from_decimal(weight.in(kKilogram)), "kg"}; }

Edge edge_of(ClockTime time) { return {text_from_clock_time(time), ""}; }

// "6-to-under-12-years": the unit of both stands once. An hour needs no "under": nobody takes 06:00 for more than
// itself.
template <class Value>
std::string span_of(const std::optional<Value>& from, const std::optional<Value>& up_to, const char* under) {
  if (!from) return std::string(under) + edge_of(*up_to).text();
  if (!up_to) return "from-" + edge_of(*from).text();
  const Edge low = edge_of(*from), high = edge_of(*up_to);
  const bool one_unit = low.unit == high.unit || counted(2, low.unit.c_str()) == high.unit;
  return (one_unit ? low.number : low.text()) + "-to-" + (high.unit.empty() ? "" : under) + high.text();
}

}  // namespace

std::string name_of(const Band& band) {
  std::string name;
  const auto add = [&](const std::string& span) { name += (name.empty() ? "" : "-and-") + span; };
  if (band.age_from || band.age_up_to) add(span_of(band.age_from, band.age_up_to, "under-"));
  if (band.weight_from || band.weight_up_to) add(span_of(band.weight_from, band.weight_up_to, "under-"));
  if (band.clock_from || band.clock_up_to) add(span_of(band.clock_from, band.clock_up_to, "before-"));
  return name.empty() ? "every-child" : name;
}

std::optional<std::size_t> band_named(const Threshold& threshold, std::string_view name) {
  for (std::size_t i = 0; i < threshold.bands.size(); ++i) {
    if (name_of(threshold.bands[i]) == name) return i;
  }
  return std::nullopt;
}

bool has_bands(const Threshold& threshold) {
  const Band& first = threshold.bands.front();
  return threshold.bands.size() > 1 || name_of(first) != "every-child";
}

}  // namespace rushlight
