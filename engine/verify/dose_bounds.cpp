#include <algorithm>
#include <map>
#include <set>

#include "episode/words.hpp"
#include "verify/dose_pieces.hpp"
#include "verify/properties.hpp"

namespace rushlight {
namespace {

/// The largest amount of its kind that a published source gives at once.
struct Published {
  ActionKind kind;
  Unit unit;
  Decimal most;
  const char* source;
};

constexpr Published kLargest[] = {
    {ActionKind::glucagon, Unit::milligram, Decimal::whole(3), "US label, nasal glucagon, 2025"},
    {ActionKind::glucagon, Unit::microgram, Decimal::whole(300),
     "twice the largest mini-dose, Haymond and Schreiner 2001"},
    {ActionKind::insulin, Unit::insulin_unit, Decimal::whole(20), "Alder Hey, largest ketone correction"},
};

// Drinks may grow with the child. A medicine that does has an end; so has sugar, which has a beginning too: what is
// worked out for the smallest child is less than any spoon holds.
bool is_sugar(Unit unit) { return unit == Unit::gram; }
bool has_an_end(Unit unit) {
  return is_sugar(unit) || unit == Unit::milligram || unit == Unit::microgram || unit == Unit::insulin_unit;
}

bool grows(const DoseRow& row) {
  return std::holds_alternative<DoseRow::PerKilogram>(row.cell) || std::holds_alternative<DoseRow::PerYear>(row.cell);
}

bool is_made_into_another(const Protocol& protocol, DoseId id) {
  return std::any_of(protocol.doses.begin(), protocol.doses.end(), [&](const Dose& dose) {
    return std::any_of(dose.rows.begin(), dose.rows.end(), [&](const DoseRow& row) {
      const auto* of = std::get_if<DoseRow::OfDose>(&row.cell);
      const auto* larger = std::get_if<DoseRow::LargerOf>(&row.cell);
      return (of != nullptr && of->dose == id) || (larger != nullptr && (larger->one == id || larger->other == id));
    });
  });
}

const Action* action_that_gives(const Protocol& protocol, DoseId id) {
  const auto at = std::find_if(protocol.actions.begin(), protocol.actions.end(),
                               [&](const Action& action) { return action.dose == id; });
  return at == protocol.actions.end() ? nullptr : &*at;
}

class DoseBounds {
 public:
  DoseBounds(Checking& checking, DoseId id)
      : checking_(checking),
        protocol_(checking.protocol),
        dose_(checking.protocol[id]),
        id_(id),
        pieces_(protocol_, id) {}

  void look_at() {
    if (pieces_.things() > 0) return tell_too_many_things();
    if (pieces_.gave_up()) checking_.error(dose_.where, too_entangled());
    for (const DosePiece& piece : pieces_.pieces()) {
      if (const auto corner = pieces_.least_given(piece)) look_at_least(piece, *corner);
      if (const auto corner = pieces_.greatest(piece)) look_at_greatest(piece, *corner);
    }
    if (has_crossed_bounds()) return;  // what follows from that is not told
    for (const auto& [row, greatest] : uncapped_) tell_uncapped(row, greatest);
    for (const auto& [row, greatest] : above_) {
      if (uncapped_.count(row) == 0) tell_above(row, greatest);
    }
    if (uncapped_.empty() && above_.empty()) look_at_published();
    if (dose_.insulin && action_that_gives(protocol_, id_) != nullptr) look_at_the_child();
  }

 private:
  struct Greatest {
    Decimal amount;
    std::string child;
    ThresholdId cap;
    Context context;
  };

  std::string text(Decimal amount) const { return said(Quantity{amount, dose_.unit}, Language::en); }
  const Where& where(std::size_t row) const { return dose_.rows[row].where; }
  static int number(std::size_t row) { return static_cast<int>(row) + 1; }

  // With the doses it is made of; of the dose alone coverage has told it.
  void tell_too_many_things() {
    if (tables_of(protocol_, dose_).things > 0) return;
    checking_.error(dose_.where, TooLarge{"things that one dose reads, with those it is made of",
                                          static_cast<long long>(pieces_.things()), Cover::kMostDimensions});
  }

  bool has_crossed_bounds() const {
    return std::any_of(checking_.findings.begin(), checking_.findings.end(), [&](const Finding& finding) {
      const auto* crossed = finding.kind.as<BoundsCrossed>();
      return crossed != nullptr && crossed->dose == dose_.name;
    });
  }

  void look_at_least(const DosePiece& piece, const DoseCorner& corner) {
    const auto amount = pieces_.amount(piece, corner);
    if (amount && *amount > Decimal{}) look_at_other_leasts(piece, corner, *amount);
    if (!amount || *amount > Decimal{}) return;
    if (!nothing_.emplace(piece.row, true).second) return;
    checking_.error(where(piece.row),
                    DoseOfNothing{dose_.name, number(piece.row), text(*amount), pieces_.child(piece, corner)});
  }

  // What stands fixed is what somebody printed; what is worked out can come out too small.
  void look_at_other_leasts(const DosePiece& piece, const DoseCorner& corner, Decimal amount) {
    const DoseRow& row = dose_.rows[piece.row];
    if (!grows(row) || row.least) return;
    const Context& context = corner.grounds.context;
    std::optional<ThresholdId> least;
    for (const DoseRow& other : dose_.rows) {
      if (other.least && (!least || value_of(*other.least, context) < value_of(*least, context))) least = other.least;
    }
    if (!least && is_sugar(dose_.unit) && is_given()) {
      if (!below_.insert(piece.row).second) return;
      checking_.error(where(piece.row),
                      DoseWithoutLeast{dose_.name, number(piece.row), text(amount), pieces_.child(piece, corner)});
      return;
    }
    if (!least || amount >= value_of(*least, context) || !below_.insert(piece.row).second) return;
    const Threshold& bound = protocol_[*least];
    checking_.error(where(piece.row),
                    DoseBelowLeast{dose_.name, number(piece.row), text(amount), pieces_.child(piece, corner),
                                   bound.name, text(value_of(*least, context))},
                    Because{"`" + bound.name + "`", band_in(bound, context).where});
  }

  void look_at_greatest(const DosePiece& piece, const DoseCorner& corner) {
    const auto amount = pieces_.amount(piece, corner);
    if (!amount) return;
    Greatest greatest{*amount, pieces_.child(piece, corner), ThresholdId{0}, corner.grounds.context};
    const auto keep = [&](std::map<std::size_t, Greatest>& of) {
      const auto known = of.find(piece.row);
      if (known == of.end() || known->second.amount < greatest.amount) of.insert_or_assign(piece.row, greatest);
    };
    if (has_an_end(dose_.unit) && corner.at_the_end && !pieces_.is_capped(piece)) keep(uncapped_);
    if (const auto cap = cap_for(corner.grounds.context); cap && !dose_.rows[piece.row].most) {
      greatest.cap = *cap;
      if (*amount > value_of(*cap, greatest.context)) keep(above_);
    }
    if (!largest_ || largest_->amount < greatest.amount) largest_ = greatest;
  }

  Decimal value_of(ThresholdId id, const Context& context) const {
    const auto* quantity = std::get_if<Quantity>(&value_in(protocol_[id], context));
    return quantity == nullptr ? Decimal{} : quantity->value;
  }

  // The greatest `most` that a row of the dose names.
  std::optional<ThresholdId> cap_for(const Context& context) const {
    std::optional<ThresholdId> cap;
    for (const DoseRow& row : dose_.rows) {
      if (row.most && (!cap || value_of(*cap, context) < value_of(*row.most, context))) cap = row.most;
    }
    return cap;
  }

  // A dose that only others are made of has its bounds where it is given.
  bool is_given() const {
    return action_that_gives(protocol_, id_) != nullptr || !is_made_into_another(protocol_, id_);
  }

  void tell_uncapped(std::size_t row, const Greatest& greatest) {
    if (!is_given()) return;
    checking_.error(where(row), DoseWithoutCap{dose_.name, number(row), text(greatest.amount), greatest.child});
  }

  void tell_above(std::size_t row, const Greatest& greatest) {
    const Threshold& cap = protocol_[greatest.cap];
    checking_.error(where(row),
                    DoseAboveCap{dose_.name, number(row), text(greatest.amount), greatest.child, cap.name,
                                 text(value_of(greatest.cap, greatest.context))},
                    Because{"`" + cap.name + "`", band_in(cap, greatest.context).where});
  }

  void look_at_published() {
    const Action* action = action_that_gives(protocol_, id_);
    if (action == nullptr || !largest_) return;
    for (const Published& published : kLargest) {
      if (published.kind != action->kind || published.unit != dose_.unit || largest_->amount <= published.most)
        continue;
      checking_.warning(dose_.where, BeyondPublished{dose_.name, text(largest_->amount), largest_->child,
                                                     text(published.most), published.source});
    }
  }

  // A number of units is as much for a toddler as for an adult.
  bool is_bounded_by_the_child(const DoseRow& row) const {
    if (row.most_percent || row.most_per_kg) return true;
    if (const auto* of = std::get_if<DoseRow::OfDose>(&row.cell)) return all_bounded_by_the_child(protocol_[of->dose]);
    if (const auto* larger = std::get_if<DoseRow::LargerOf>(&row.cell))
      return all_bounded_by_the_child(protocol_[larger->one]) && all_bounded_by_the_child(protocol_[larger->other]);
    return std::holds_alternative<DoseRow::OfDailyDose>(row.cell) ||
           std::holds_alternative<DoseRow::PerKilogram>(row.cell) ||
           std::holds_alternative<DoseRow::Withheld>(row.cell);
  }
  bool all_bounded_by_the_child(const Dose& dose) const {
    return std::all_of(dose.rows.begin(), dose.rows.end(),
                       [&](const DoseRow& row) { return is_bounded_by_the_child(row); });
  }

  void look_at_the_child() {
    for (std::size_t row = 0; row < dose_.rows.size(); ++row) {
      if (!is_bounded_by_the_child(dose_.rows[row]))
        checking_.warning(where(row), DoseOfAnyChild{dose_.name, number(row)});
    }
  }

  Checking& checking_;
  const Protocol& protocol_;
  const Dose& dose_;
  DoseId id_;
  DosePieces pieces_;
  std::map<std::size_t, bool> nothing_;  // told once a row
  std::set<std::size_t> below_;
  std::map<std::size_t, Greatest> uncapped_, above_;
  std::optional<Greatest> largest_;
};

}  // namespace

void every_amount_keeps_its_bounds(Checking& checking) {
  for (std::size_t i = 0; i < checking.protocol.doses.size(); ++i)
    DoseBounds(checking, DoseId{static_cast<std::uint16_t>(i)}).look_at();
}

}  // namespace rushlight
