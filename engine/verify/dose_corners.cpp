#include <algorithm>
#include <set>

#include "protocol/child.hpp"
#include "verify/dose_pieces.hpp"

// The ends of a piece: the least and the greatest value of each thing that a child file and a meter can hold.

namespace rushlight {
namespace {

using Ends = DosePieces::Ends;

// What a child file can say, and what a meter can show.
Ends whole_domain(FactKind kind, GlucoseUnit unit) {
  switch (kind) {
    case FactKind::age:
      return {0, kOldestChild.months()};
    case FactKind::weight:
      return {kLightestChild.in(kKilogram).micros(), kHeaviestChild.in(kKilogram).micros()};
    case FactKind::insulin:
      return {kLeastDailyDose.in(kInsulinUnit).micros(), kMostDailyDose.in(kInsulinUnit).micros()};
    case FactKind::glucose:
      return {meter_range(unit).least.micros(), meter_range(unit).most.micros()};
    default:
      return {0, 0};
  }
}

// And what of that lies in the table's cell.
Ends domain_of(FactKind kind, const Table& table) {
  Ends ends = whole_domain(kind, table.unit);
  const ContextCell& cell = table.cell;
  const auto cut = [&](std::int64_t from, std::optional<std::int64_t> last) {
    ends = {std::max(ends.least, from), last ? std::min(ends.greatest, *last) : ends.greatest};
  };
  if (kind == FactKind::age)
    cut(cell.age.months(), cell.age_end ? std::optional<std::int64_t>(cell.age_end->months() - 1) : std::nullopt);
  if (kind == FactKind::weight) {
    cut(cell.weight.in(kKilogram).micros(),
        cell.weight_end ? std::optional(cell.weight_end->in(kKilogram).micros() - grain_of(kind)) : std::nullopt);
  }
  return ends;
}

bool is_a_number(const Protocol& protocol, const Subject& subject) {
  if (subject.kind != Subject::Kind::fact) return false;
  const FactKind kind = protocol.facts[subject.index].kind;
  return kind == FactKind::age || kind == FactKind::weight || kind == FactKind::insulin || kind == FactKind::glucose;
}

std::set<std::int64_t> borders_of(const Protocol& protocol, const std::vector<RowLine>& rows, const Table& table,
                                  const Subject& subject) {
  std::set<std::int64_t> borders;
  for (const RowLine& row : rows) {
    for (const Condition& condition : row.when) {
      const auto* test = std::get_if<Compares>(&condition.test);
      if (test == nullptr || !(subject_of(condition) == subject)) continue;
      borders.insert(number_of(value_in(protocol[test->limit], table.cell.context()), table.unit));
    }
  }
  return borders;
}

// A border is a stretch of its own; a stretch between two ends one grain beside them.
std::optional<Ends> ends_of(const Dimension& dimension, const Stretches& side, const std::set<std::int64_t>& borders,
                            const Ends& domain, std::int64_t grain) {
  std::optional<Ends> ends;
  for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
    if (!side.test(bit) || dimension.stretches[bit].unknown) continue;
    const std::int64_t value = dimension.stretches[bit].value;
    Ends own{value, value};
    if (borders.count(value) == 0) {
      const auto above = borders.upper_bound(value);
      own.least = above == borders.begin() ? domain.least : *std::prev(above) + grain;
      own.greatest = above == borders.end() ? domain.greatest : *above - grain;
    }
    own = {std::max(own.least, domain.least), std::min(own.greatest, domain.greatest)};
    if (own.least > own.greatest) continue;
    ends = Ends{ends ? std::min(ends->least, own.least) : own.least,
                ends ? std::max(ends->greatest, own.greatest) : own.greatest};
  }
  return ends;
}

// What nobody can tell, LO and HI.
bool may_be_no_number(const Dimension& dimension, const Stretches& side) {
  for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
    const Stretch& stretch = dimension.stretches[bit];
    const bool number = !stretch.unknown && stretch.value != kMeterLo && stretch.value != kMeterHi;
    if (side.test(bit) && !number) return true;
  }
  return false;
}

void put(DoseGrounds& grounds, const Fact& fact, std::int64_t value) {
  const Decimal number = Decimal::of_micros(value);
  if (fact.kind == FactKind::age) grounds.context.age = Age::of_months(static_cast<int>(value));
  if (fact.kind == FactKind::weight) grounds.context.weight = BodyWeight{number, kKilogram};
  if (fact.kind == FactKind::insulin) grounds.daily_dose = InsulinDose{number, kInsulinUnit};
  if (fact.kind == FactKind::glucose) grounds.glucose = number;
}

}  // namespace

std::optional<DosePieces::Spans> DosePieces::spans(const DosePiece& piece) const {
  const Table& table = *piece.table;
  Spans spans;
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    const Dimension& dimension = table.dimensions[i];
    spans.emplace_back();
    if (!is_a_number(protocol_, dimension.subject)) continue;
    const FactKind kind = protocol_.facts[dimension.subject.index].kind;
    spans.back() = ends_of(dimension, piece.box.sides[i], borders_of(protocol_, rows_, table, dimension.subject),
                           domain_of(kind, table), grain_of(kind));
    if (!spans.back() && !may_be_no_number(dimension, piece.box.sides[i])) return std::nullopt;
  }
  // The factor divides, so its greatest makes the amount least.
  spans.push_back(
      Ends{-greatest_correction_factor(table.unit).micros(), -least_correction_factor(table.unit).micros()});
  return spans;
}

DoseGrounds DosePieces::grounds_at(const DosePiece& piece, const std::vector<std::int64_t>& values,
                                   const Spans& spans) const {
  const Table& table = *piece.table;
  DoseGrounds grounds{table.cell.context(), {}, {}, Decimal::of_micros(-values.back()), table.unit};
  grounds.context.weight.reset();
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    if (spans[i]) put(grounds, protocol_.facts[table.dimensions[i].subject.index], values[i]);
  }
  return grounds;
}

std::vector<bool> DosePieces::grows_with(DoseId dose, const DosePiece& piece) const {
  std::vector<FactId> facts;
  bool factor = false;
  depends(dose, piece, facts, factor);
  std::vector<bool> grows;
  for (const Dimension& dimension : piece.table->dimensions) {
    const auto is_this = [&](FactId each) { return each.index == dimension.subject.index; };
    grows.push_back(is_a_number(protocol_, dimension.subject) && std::any_of(facts.begin(), facts.end(), is_this));
  }
  grows.push_back(factor);
  return grows;
}

std::optional<Decimal> DosePieces::amount_at(DoseId dose, const DosePiece& piece,
                                             const std::vector<std::int64_t>& values, const Spans& spans) const {
  return amount(dose, piece, grounds_at(piece, values, spans));
}

std::int64_t DosePieces::grain(const DosePiece& piece, std::size_t dimension) const {
  const std::vector<Dimension>& all = piece.table->dimensions;
  return grain_of(dimension < all.size() ? protocol_.facts[all[dimension].subject.index].kind : FactKind::choice);
}

std::vector<std::int64_t> DosePieces::borders(const Table& table, const Subject& subject) const {
  const std::set<std::int64_t> all = borders_of(protocol_, rows_, table, subject);
  return {all.begin(), all.end()};
}

DoseCorner DosePieces::corner_at(const DosePiece& piece, const std::vector<std::int64_t>& values,
                                 const Spans& spans) const {
  const Table& table = *piece.table;
  std::vector<FactId> facts;
  DoseCorner corner{grounds_at(piece, values, spans), {}, false, false};
  depends(dose_, piece, facts, corner.factor_counts);
  corner.at_the_end = corner.factor_counts;
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    corner.values.emplace_back();
    if (!spans[i]) continue;
    const std::uint16_t index = table.dimensions[i].subject.index;
    const bool counts = std::any_of(facts.begin(), facts.end(), [&](FactId each) { return each.index == index; });
    const bool may_be_unknown = piece.box.sides[i].meets(unknown_of(table.dimensions[i]));
    const bool all = piece.box.sides[i] == table.whole.sides[i];
    if (counts || (!may_be_unknown && !all)) corner.values.back() = values[i];
    const bool last = values[i] == whole_domain(protocol_.facts[index].kind, table.unit).greatest;
    corner.at_the_end = corner.at_the_end || (counts && last);
  }
  return corner;
}

std::optional<DoseCorner> DosePieces::greatest(const DosePiece& piece) const {
  const auto all = spans(piece);
  if (!all) return std::nullopt;
  std::vector<std::int64_t> values;
  for (const auto& ends : *all) values.push_back(ends ? ends->greatest : 0);
  // What ends a thousandth below a border is told as somebody would read it off, when that gives as much: 179, not 179.999.
  const auto given = amount_at(dose_, piece, values, *all);
  for (std::size_t i = 0; i + 1 < values.size(); ++i) {
    const std::int64_t exact = values[i];
    if (!(*all)[i] || grain(piece, i) == 1 || exact % Decimal::kMicrosPerOne == 0) continue;
    for (const std::int64_t step : {Decimal::kMicrosPerOne, Decimal::kMicrosPerOne / 10}) {
      values[i] = exact / step * step;
      if (values[i] >= (*all)[i]->least && amount_at(dose_, piece, values, *all) == given) break;
      values[i] = exact;
    }
  }
  return corner_at(piece, values, *all);
}

// From where everything is least, one thing after the other is raised until something is given, and each of them is
// brought down again as far as it goes, the last first.
std::optional<DoseCorner> DosePieces::least_given(const DosePiece& piece) const {
  const auto all = spans(piece);
  if (!all) return std::nullopt;
  std::vector<std::int64_t> values;
  for (const auto& ends : *all) values.push_back(ends ? ends->least : 0);
  const auto gives = [&] { return amount(dose_, piece, grounds_at(piece, values, *all)).has_value(); };
  const auto bring_down = [&](std::size_t i) {
    std::int64_t none = (*all)[i]->least;
    std::int64_t some = values[i];
    values[i] = none;
    if (gives()) return;
    const std::int64_t fine = grain(piece, i);
    while (some - none > fine) {
      const std::int64_t middle = none + (some - none) / fine / 2 * fine;
      values[i] = middle;
      (gives() ? some : none) = middle;
    }
    values[i] = some;
  };
  std::vector<std::size_t> raised;
  for (std::size_t i = 0; i < values.size() && !gives(); ++i) {
    if (!(*all)[i]) continue;
    raised.push_back(i);
    values[i] = (*all)[i]->greatest;
  }
  if (gives()) std::for_each(raised.rbegin(), raised.rend(), bring_down);
  return corner_at(piece, values, *all);
}

std::string DosePieces::child(const DosePiece& piece, const DoseCorner& corner) const {
  Table table = *piece.table;
  Box box = piece.box;
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    Dimension& dimension = table.dimensions[i];
    if (!corner.values[i]) continue;
    box.sides[i] &= known_of(dimension);
    const std::size_t bit = shown_bit(protocol_, table, i, box.sides[i]);
    dimension.stretches[bit] = Stretch{*corner.values[i], false};
    dimension.splits_bands = true;  // so that it is named
    box.sides[i].reset();
    box.sides[i].set(bit);
  }
  std::string text = example_of(protocol_, table, box);
  if (!corner.factor_counts) return text;
  const Quantity factor{corner.grounds.factor, unit_of(table.unit)};
  return text + ", one unit brings down " + text_from_quantity(factor);
}

}  // namespace rushlight
