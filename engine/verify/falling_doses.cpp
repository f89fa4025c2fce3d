#include <algorithm>

#include "verify/neighbours.hpp"
#include "verify/properties.hpp"

namespace rushlight {

namespace {

/// What a row gives can be compared with another's: amounts of one thing that stand in the file.
std::optional<ThresholdId> amount_named(const DoseRow& row, std::size_t& kind) {
  kind = row.cell.index();
  if (const auto* fixed = std::get_if<DoseRow::Fixed>(&row.cell)) return fixed->amount;
  if (const auto* part = std::get_if<DoseRow::OfDailyDose>(&row.cell)) return part->percent;
  return std::nullopt;
}

class FallingDose {
 public:
  FallingDose(Checking& checking, const Dose& dose) : checking_(checking), protocol_(checking.protocol), dose_(dose) {}

  void look_at() {
    const Tables tables = tables_of(protocol_, dose_);
    for (const Table& table : tables.tables) {
      for (std::size_t place = 0; place < table.dimensions.size() && !told_; ++place) {
        if (!grows_with(table.dimensions[place].subject)) continue;
        ChildrenCompared comparing(protocol_, table, place, nullptr);
        for (std::size_t less = 0; less < dose_.rows.size(); ++less) {
          for (std::size_t more = 0; more < dose_.rows.size() && !told_; ++more)
            look_at(comparing, table.cell.context(), less, more);
        }
      }
    }
  }

 private:
  // A bigger child is not given less of anything that stands fixed, nor one with more ketones or a higher glucose less
  // insulin.
  bool grows_with(const Subject& subject) const {
    if (subject.kind != Subject::Kind::fact) return false;
    const FactId fact{subject.index};
    if (fact == fact_id(ChildFact::weight) || fact == fact_id(ChildFact::age)) return true;
    const FactKind kind = protocol_[fact].kind;
    return dose_.insulin && (kind == FactKind::ketones || kind == FactKind::ordered_choice || kind == FactKind::glucose);
  }

  /// A child whom `less` takes, and who would be given more by `more` if he were smaller or had fewer ketones or a lower glucose.
  void look_at(ChildrenCompared& comparing, const Context& context, std::size_t less, std::size_t more) {
    std::size_t kind = 0, other_kind = 0;
    const auto amount = amount_named(dose_.rows[less], kind), other = amount_named(dose_.rows[more], other_kind);
    if (!amount || !other || kind != other_kind || *amount == *other) return;
    const auto* small = std::get_if<Quantity>(&value_in(protocol_[*amount], context));
    const auto* large = std::get_if<Quantity>(&value_in(protocol_[*other], context));
    if (small == nullptr || large == nullptr || small->unit != large->unit || small->value >= large->value) return;
    // "Worse" is the greater answer here.
    for (const AnswerPair& at : answer_pairs_in(comparing.answers(), false)) {
      const auto pair = comparing.pair(less, more, at);
      if (!pair) continue;
      told_ = true;
      checking_.warning(dose_.rows[less].where,
                        DoseFalls{dose_.name, static_cast<int>(less) + 1, text_from_quantity(*small), pair->worse,
                                  static_cast<int>(more) + 1, text_from_quantity(*large), pair->better},
                        Because{"the row that gives more", dose_.rows[more].where});
      return;
    }
  }

  Checking& checking_;
  const Protocol& protocol_;
  const Dose& dose_;
  bool told_ = false;  // one pair of rows is enough to see which have changed places
};

}  // namespace

void no_dose_falls_as_the_child_grows(Checking& checking) {
  for (const Dose& dose : checking.protocol.doses) FallingDose(checking, dose).look_at();
}

}  // namespace rushlight
