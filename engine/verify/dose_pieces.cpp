#include "verify/dose_pieces.hpp"

#include <algorithm>

#include "protocol/child.hpp"

namespace rushlight {
namespace {

/// The doses that a row is made of.
std::vector<DoseId> made_of(const DoseRow& row) {
  if (const auto* cell = std::get_if<DoseRow::OfDose>(&row.cell)) return {cell->dose};
  if (const auto* cell = std::get_if<DoseRow::LargerOf>(&row.cell)) return {cell->one, cell->other};
  return {};
}

void add(std::vector<ThresholdId>& all, const std::optional<ThresholdId>& id) {
  if (id) all.push_back(*id);
}

struct ThresholdsOf {
  std::vector<ThresholdId>& all;
  void operator()(const DoseRow::Withheld&) const {}
  void operator()(const DoseRow::Fixed& cell) const { add(all, cell.amount); }
  void operator()(const DoseRow::PerYear& cell) const { add(all, cell.amount); }
  void operator()(const DoseRow::OfDailyDose& cell) const { add(all, cell.percent); }
  void operator()(const DoseRow::LargerOf&) const {}
  void operator()(const DoseRow::PerKilogram& cell) const {
    add(all, cell.amount);
    add(all, cell.over);
    add(all, cell.plus);
  }
  void operator()(const DoseRow::Correction& cell) const {
    add(all, cell.target);
    add(all, cell.times);
  }
  void operator()(const DoseRow::OfDose& cell) const {
    add(all, cell.during);
    add(all, cell.times);
  }
};

std::vector<ThresholdId> thresholds_of(const Dose& dose) {
  std::vector<ThresholdId> all{dose.to};
  for (const DoseRow& row : dose.rows) {
    std::visit(ThresholdsOf{all}, row.cell);
    add(all, row.least);
    add(all, row.most);
    add(all, row.most_percent);
    add(all, row.most_per_kg);
  }
  return all;
}

// What withholds insulin whatever the rows say, as far as a table can know it (episode/insulin.hpp).
void add_insulin_conditions(const Protocol& protocol, const Dose& dose, Conditions& when) {
  if (!dose.insulin) return;
  if (const auto glucose = protocol.fact_named("glucose"))
    when.push_back(Condition{Compares{*glucose, Comparison::at_least, dose.insulin->floor}, dose.where});
  constexpr auto bit = [](Delivery delivery) { return std::uint64_t{1} << static_cast<int>(delivery); };
  when.push_back(
      Condition{Is{fact_id(ChildFact::delivery), bit(Delivery::injections) | bit(Delivery::pump)}, dose.where});
}

}  // namespace

DosePieces::DosePieces(const Protocol& protocol, DoseId dose) : DosePieces(protocol, std::vector<DoseId>{dose}) {}

DosePieces::DosePieces(const Protocol& protocol, DoseId dose, DoseId other)
    : DosePieces(protocol, std::vector<DoseId>{dose, other}) {}

DosePieces::DosePieces(const Protocol& protocol, const std::vector<DoseId>& doses)
    : protocol_(protocol), dose_(doses.front()) {
  for (const DoseId dose : doses) involve(dose);
  std::vector<ThresholdId> cut_by;
  bool by_weight = false;
  for (const Involved& each : involved_) {
    add_rows(each.dose);
    for (const DoseRow& row : protocol[each.dose].rows) by_weight = by_weight || row.most_per_kg;
    const std::vector<ThresholdId> more = thresholds_of(protocol[each.dose]);
    cut_by.insert(cut_by.end(), more.begin(), more.end());
  }
  // A bound for each kilogram needs no weight: without one it bounds nothing.
  std::vector<Subject> along{kAgeSubject};
  if (by_weight) along.push_back({Subject::Kind::fact, fact_id(ChildFact::weight).index});
  tables_ = tables_of(protocol, rows_, cut_by, along, protocol[dose_].insulin.has_value());
  for (const Table& table : tables_.tables) {
    split(dose_, table, table.whole, [&](const Box& box) {
      if (doses.size() == 1) return add_piece(table, box);
      split(doses.back(), table, box, [&](const Box& both) { add_piece(table, both); });
    });
  }
}

void DosePieces::add_piece(const Table& table, const Box& box) {
  constexpr std::size_t kMostPieces = 100'000;
  if (pieces_.size() == kMostPieces) gave_up_ = true;
  if (gave_up_) return;
  pieces_.push_back(DosePiece{&table, box, 0});
  pieces_.back().row = row_in(dose_, pieces_.back());
}

void DosePieces::involve(DoseId dose) {
  if (std::any_of(involved_.begin(), involved_.end(), [&](const Involved& each) { return each.dose == dose; })) return;
  const std::size_t first =
      involved_.empty() ? 0 : involved_.back().first + protocol_[involved_.back().dose].rows.size();
  involved_.push_back(Involved{dose, first});
  for (const DoseRow& row : protocol_[dose].rows) {
    for (const DoseId other : made_of(row)) involve(other);
  }
}

void DosePieces::add_rows(DoseId id) {
  const Dose& dose = protocol_[id];
  for (const DoseRow& row : dose.rows) {
    rows_.push_back(RowLine{row.when, needs_of(protocol_, row)});
    add_insulin_conditions(protocol_, dose, rows_.back().when);
  }
}

std::size_t DosePieces::first_row(DoseId dose) const {
  const auto at =
      std::find_if(involved_.begin(), involved_.end(), [&](const Involved& each) { return each.dose == dose; });
  return at->first;
}

// A piece lies within one row of each dose on its way and beside the rows before it.
std::size_t DosePieces::row_in(DoseId dose, const DosePiece& piece) const {
  const std::size_t first = first_row(dose);
  std::size_t row = 0;
  while (!piece.table->rules[first + row].meets(piece.box)) ++row;
  return row;
}

void DosePieces::split(DoseId id, const Table& table, const Box& box, const std::function<void(const Box&)>& visit) {
  const Dose& dose = protocol_[id];
  std::vector<const Box*> earlier;
  for (std::size_t row = 0; row < dose.rows.size() && !gave_up_; ++row) {
    const Box& taken = table.rules[first_row(id) + row];
    Box part = box;
    part &= taken;
    const std::vector<DoseId> others = made_of(dose.rows[row]);
    const Search search = each_left_over(part, earlier, [&](const Box& left) {
      if (others.empty()) visit(left);
      if (others.size() == 1) split(others.front(), table, left, visit);
      if (others.size() == 2)
        split(others.front(), table, left, [&](const Box& one) { split(others.back(), table, one, visit); });
      return !gave_up_;
    });
    if (search == Search::gave_up) gave_up_ = true;
    earlier.push_back(&taken);
  }
}

std::optional<Decimal> DosePieces::amount(DoseId id, const DosePiece& piece, const DoseGrounds& grounds) const {
  const Dose& dose = protocol_[id];
  return amount_of_row(protocol_, dose, dose.rows[row_in(id, piece)], grounds,
                       [&](DoseId other) { return amount(other, piece, grounds); });
}

std::optional<Decimal> DosePieces::amount(const DosePiece& piece, const DoseCorner& corner) const {
  return amount(dose_, piece, corner.grounds);
}

bool DosePieces::is_capped(DoseId id, const DosePiece& piece) const {
  const DoseRow& row = protocol_[id].rows[row_in(id, piece)];
  if (row.most || std::holds_alternative<DoseRow::Withheld>(row.cell) ||
      std::holds_alternative<DoseRow::Fixed>(row.cell))
    return true;
  const std::vector<DoseId> others = made_of(row);
  return !others.empty() &&
         std::all_of(others.begin(), others.end(), [&](DoseId other) { return is_capped(other, piece); });
}

bool DosePieces::is_capped(const DosePiece& piece) const { return is_capped(dose_, piece); }

void DosePieces::depends(DoseId id, const DosePiece& piece, std::vector<FactId>& facts, bool& on_factor) const {
  const DoseRow& row = protocol_[id].rows[row_in(id, piece)];
  for (const FactId fact : needs_of(protocol_, row)) facts.push_back(fact);
  if (row.most_per_kg) facts.push_back(fact_id(ChildFact::weight));
  if (std::holds_alternative<DoseRow::PerYear>(row.cell)) facts.push_back(fact_id(ChildFact::age));
  on_factor = on_factor || std::holds_alternative<DoseRow::Correction>(row.cell);
  for (const DoseId other : made_of(row)) depends(other, piece, facts, on_factor);
}

}  // namespace rushlight
