#include "verify/dose_changes.hpp"

#include <algorithm>
#include <set>
#include <utility>

#include "episode/words.hpp"
#include "finding/quoted.hpp"
#include "verify/dose_examples.hpp"
#include "verify/dose_pieces.hpp"
#include "verify/dose_several.hpp"
#include "verify/same_doses.hpp"

namespace rushlight {
namespace {

constexpr std::size_t kMostRuns = 20'000;

class Tables2 {
 public:
  Tables2(const SideBySide& sides, const DosePair& pair, GlucoseUnit unit)
      : protocol_(sides.both), same_(sides.both), pair_(pair), unit_(unit) {}

  std::optional<DoseChange> change() {
    if (same_.table(pair_.was, pair_.now)) return std::nullopt;
    pieces_.emplace(protocol_, pair_.was, pair_.now);
    if (pieces_->gave_up() || pieces_->things() > 0) too_many_ = true;
    bool both_units = true;
    for (const Table& table : pieces_->tables().tables) both_units = both_units && table.unit == GlucoseUnit::mg_per_dl;
    for (const DosePiece& piece : pieces_->pieces()) note_ends(piece);
    for (const DosePiece& piece : pieces_->pieces()) {
      // A table that is the same in both units stands for both.
      if (piece.table->unit == unit_ || both_units) look_at(piece);
    }
    if (regions_.empty() && !too_many_) return std::nullopt;
    regions_ = put_together(std::move(regions_), whole_, protocol_);
    examples_ = telling_ones(std::move(examples_), whole_, protocol_);
    for (Cases& region : regions_) name_borders(region);
    for (DoseExample& example : examples_) name_borders(example.who);
    const auto turn = less_ ? Difference::Turn::less : more_ ? Difference::Turn::graver : Difference::Turn::otherwise;
    DoseChange change{turn, {}, too_many_, text(true), text(false), both_units};
    change.regions = std::move(regions_);
    return change;
  }

 private:
  void look_at(const DosePiece& piece) {
    if (same_in(piece, pair_.was, pair_.now)) return;
    const auto spans = pieces_->spans(piece);
    if (!spans) return;
    std::vector<std::int64_t> values;
    for (const auto& ends : *spans) values.push_back(ends ? ends->least : 0);
    const std::vector<bool> was = pieces_->grows_with(pair_.was, piece), now = pieces_->grows_with(pair_.now, piece);
    std::vector<std::size_t> counting;
    for (std::size_t i = 0; i < was.size(); ++i) {
      if ((was[i] || now[i]) && (*spans)[i] && (*spans)[i]->least < (*spans)[i]->greatest) counting.push_back(i);
    }
    if (counting.empty()) {
      const Amounts amounts = at(piece, *spans, values);
      if (amounts.first != amounts.second) add_alike(piece, *spans, amounts);
    } else if (counting.size() == 1) {
      look_along(piece, *spans, counting.front(), values);
    } else {
      look_around(piece, *spans, counting, values);
    }
  }

  Amounts at(const DosePiece& piece, const DosePieces::Spans& spans, const std::vector<std::int64_t>& values) const {
    return {pieces_->amount_at(pair_.was, piece, values, spans), pieces_->amount_at(pair_.now, piece, values, spans)};
  }

  /// The amounts of one dose along a number, step by step. They grow with it, so where two are equal all between are.
  struct Staircase {
    DoseId dose;
    std::int64_t last = -1, width = 0;  // of the step stood on; nearly all of a staircase have one width
    std::optional<Decimal> amount{};
  };
  template <class AmountAt>
  void step_to(Staircase& stairs, std::int64_t from, std::int64_t end, std::int64_t grain, AmountAt amount_at) const {
    stairs.amount = amount_at(from);
    const auto is_on = [&](std::int64_t value) { return amount_at(value) == stairs.amount; };
    std::int64_t on = from, beyond = from + ((end - from) / grain + 1) * grain;
    const auto look = [&](std::int64_t value) {
      if (value <= on || value >= beyond) return;
      (is_on(value) ? on : beyond) = value;
    };
    look(from + stairs.width);
    for (std::int64_t far = grain; on > from && beyond - on > far; far *= 2) {
      const std::int64_t before = on;
      look(on + far);
      if (on == before) break;
    }
    for (std::int64_t far = grain; on == from && beyond - on > far; far *= 2) {
      const std::int64_t before = beyond;
      look(beyond - far);
      if (beyond == before) break;
    }
    while (beyond - on > grain) look(on + (beyond - on) / grain / 2 * grain);
    stairs.width = on - from;
    stairs.last = beyond > end && is_on(end) ? end : on;
  }

  void look_along(const DosePiece& piece, const DosePieces::Spans& spans, std::size_t along,
                  std::vector<std::int64_t> values) {
    const std::int64_t grain = pieces_->grain(piece, along), end = spans[along]->greatest;
    Staircase was{pair_.was}, now{pair_.now};
    const auto climb = [&](Staircase& stairs, std::int64_t to) {
      if (to <= stairs.last) return;
      step_to(stairs, to, end, grain, [&](std::int64_t value) {
        values[along] = value;
        return pieces_->amount_at(stairs.dose, piece, values, spans);
      });
    };
    std::optional<DosePieces::Ends> run;
    const auto close = [&] {
      if (run) add(piece, spans, {{along, *run}});
      run.reset();
    };
    for (std::int64_t from = spans[along]->least; from <= end;) {
      climb(was, from);
      climb(now, from);
      const Amounts amounts{was.amount, now.amount};
      const std::int64_t last = std::min(was.last, now.last);
      if (amounts.first == amounts.second) {
        close();
      } else {
        run = DosePieces::Ends{run ? run->least : from, last};
        add_example(piece, spans, along, {from, last}, amounts);
      }
      note_turn(amounts);
      if (++runs_ > kMostRuns) {
        too_many_ = true;
        if (run) run->greatest = end;
        break;
      }
      from = last + grain;
    }
    close();
  }

  // Of two numbers or more the amounts are looked at where people are.
  void look_around(const DosePiece& piece, const DosePieces::Spans& spans, const std::vector<std::size_t>& counting,
                   const std::vector<std::int64_t>& values) {
    const PlacesFound found =
        look_at_several(protocol_, {*pieces_, piece, spans, counting, values, pair_.was, pair_.now});
    if (found.all_same) return;
    for (const std::optional<FoundPlace>* each : {&found.less, &found.more}) {
      if (!*each) continue;
      const auto& [place, amounts] = **each;
      note_turn(amounts);
      examples_.push_back({region_of(piece, spans, fixed(counting, place)), amounts.first, amounts.second, 1,
                           factor_in(piece, counting, place)});
    }
    too_many_ = true;
    add(piece, spans, {});
  }

  std::string factor_in(const DosePiece& piece, const std::vector<std::size_t>& counting,
                        const std::vector<std::int64_t>& place) const {
    if (counting.back() < piece.table->dimensions.size()) return "";
    const Quantity factor{Decimal::of_micros(-place.back()), unit_of(piece.table->unit)};
    return "one unit brings down " + text_from_quantity(factor);
  }

  /// The same sum of the same numbers all over the piece, whatever leads to their rows: nothing needs to be worked out.
  bool same_in(const DosePiece& piece, DoseId was, DoseId now) const {
    const Dose &a = protocol_[was], &b = protocol_[now];
    if (a.round != b.round || a.insulin.has_value() != b.insulin.has_value() || !same_.value(a.to, b.to)) return false;
    return same_.row(a.rows[pieces_->row_in(was, piece)], b.rows[pieces_->row_in(now, piece)],
                     [&](DoseId one, DoseId other) { return same_in(piece, one, other); });
  }
  void note_turn(const Amounts& amounts) {
    if (amounts.first != amounts.second) (is_less(amounts) ? less_ : more_) = true;
  }

  std::string amount_text(const std::optional<Decimal>& amount, DoseId dose) const {
    return amount ? said(Quantity{*amount, protocol_[dose].unit}, Language::en) : "none";
  }

  /// By dimension, and the factor behind them: what of it is meant.
  using Run = std::vector<std::pair<std::size_t, DosePieces::Ends>>;
  static Run fixed(const std::vector<std::size_t>& counting, const std::vector<std::int64_t>& place) {
    Run run;
    for (std::size_t i = 0; i < counting.size(); ++i)
      run.emplace_back(counting[i], DosePieces::Ends{place[i], place[i]});
    return run;
  }

  Cases region_of(const DosePiece& piece, const DosePieces::Spans& spans, const Run& run) const {
    const Table& table = *piece.table;
    Cases region{unit_, {}};
    for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
      const auto one = std::find_if(run.begin(), run.end(), [&](const auto& each) { return each.first == i; });
      const bool along = one != run.end();
      if (!along && piece.box.sides[i] == table.whole.sides[i] && !is_cut(table, i)) continue;
      region.limits.push_back(
          limit_of(table, i, piece.box.sides[i], along ? std::optional(one->second) : spans[i], along));
    }
    if (table.cell.splits_clock) {
      const std::int64_t up_to = table.cell.clock_end ? table.cell.clock_end->minutes() : 24 * 60;
      region.limits.push_back(
          CaseLimit{{Subject::Kind::clock, 0}, {Interval{table.cell.clock.minutes(), up_to, true, false}}, {}, false});
    }
    return region;
  }

  void add(const DosePiece& piece, const DosePieces::Spans& spans, const Run& run) {
    regions_.push_back(region_of(piece, spans, run));
  }

  // The whole piece gets the same: an example told as readily as one of whole units, where the two amounts are not
  // equal, both capped to the same.
  void add_alike(const DosePiece& piece, const DosePieces::Spans& spans, const Amounts& amounts) {
    note_turn(amounts);
    add(piece, spans, {});
    if (amounts.first != amounts.second) examples_.push_back({regions_.back(), amounts.first, amounts.second, 1, ""});
  }

  void add_example(const DosePiece& piece, const DosePieces::Spans& spans, std::size_t along,
                   const DosePieces::Ends& ends, const Amounts& amounts) {
    int roundness = 0;
    const std::int64_t one = roundest_in(ends.least, ends.greatest, pieces_->grain(piece, along) == 1, roundness);
    examples_.push_back(
        {region_of(piece, spans, {{along, DosePieces::Ends{one, one}}}), amounts.first, amounts.second, roundness, ""});
  }

  // Ends that no child and no meter goes beyond need not be named.
  void note_ends(const DosePiece& piece) {
    const auto spans = pieces_->spans(piece);
    if (!spans) return;
    for (std::size_t i = 0; i < piece.table->dimensions.size(); ++i) {
      if (!(*spans)[i]) continue;
      const Interval ends{(*spans)[i]->least, (*spans)[i]->greatest, true, true};
      const Subject& subject = piece.table->dimensions[i].subject;
      for (const std::int64_t border : pieces_->borders(*piece.table, subject))
        borders_.insert({subject.index, border});
      const auto known =
          std::find_if(whole_.begin(), whole_.end(), [&](const CaseLimit& each) { return each.subject == subject; });
      const std::vector<Stretch>& stretches = piece.table->dimensions[i].stretches;
      const bool unknown =
          std::any_of(stretches.begin(), stretches.end(), [](const Stretch& each) { return each.unknown; });
      if (known == whole_.end()) {
        whole_.push_back({subject, {ends}, {}, unknown});
        continue;
      }
      known->cant_tell = known->cant_tell || unknown;
      Interval& whole = known->intervals.front();
      whole.from = std::min(*whole.from, *ends.from);
      whole.up_to = std::max(*whole.up_to, *ends.up_to);
    }
  }

  // What begins or ends beside a border is named by the border: nobody says 249.999.
  void name_borders(Cases& region) const {
    for (CaseLimit& limit : region.limits) {
      const bool number = limit.subject.kind == Subject::Kind::fact && !(limit.subject == kAgeSubject);
      if (!number || limit.intervals.size() != 1) continue;
      Interval& ends = limit.intervals.front();
      const auto is_border = [&](std::int64_t value) { return borders_.count({limit.subject.index, value}) > 0; };
      if (ends.from && ends.up_to && *ends.from == *ends.up_to) continue;
      const std::int64_t grain = grain_of(protocol_.facts[limit.subject.index].kind);
      if (ends.from && ends.with_from && is_border(*ends.from - grain))
        ends.from = *ends.from - grain, ends.with_from = false;
      if (ends.up_to && ends.with_up_to && is_border(*ends.up_to + grain))
        ends.up_to = *ends.up_to + grain, ends.with_up_to = false;
    }
  }

  bool is_cut(const Table& table, std::size_t i) const {
    const Subject& subject = table.dimensions[i].subject;
    const Subject weight{Subject::Kind::fact, fact_id(ChildFact::weight).index};
    return (subject == kAgeSubject && table.cell.splits_age) || (subject == weight && table.cell.splits_weight);
  }

  CaseLimit limit_of(const Table& table, std::size_t i, const Stretches& side,
                     const std::optional<DosePieces::Ends>& ends, bool along) const {
    const Dimension& dimension = table.dimensions[i];
    const std::vector<std::int64_t> borders = pieces_->borders(table, dimension.subject);
    CaseLimit limit{dimension.subject, {}, {}, false};
    if (ends) limit.intervals.push_back(Interval{ends->least, ends->greatest, true, true});
    bool joins = false;  // the stretch before is in the side too
    for (std::size_t bit = 0; bit < dimension.stretches.size(); ++bit) {
      const Stretch& stretch = dimension.stretches[bit];
      const bool joined = joins;
      joins = side.test(bit);
      if (!joins) continue;
      if (stretch.unknown) {
        limit.cant_tell = !along;
      } else if (has_options(dimension.subject)) {
        limit.options.push_back(static_cast<std::uint16_t>(stretch.value));
      } else if (ends) {
        // Below what a meter shows as a number is LO, above it HI.
        if (stretch.value == kMeterLo) limit.intervals.front().from.reset();
        if (stretch.value == kMeterHi) limit.intervals.front().up_to.reset();
      } else {
        const Interval interval = interval_around(borders, stretch.value);
        if (joined && !limit.intervals.empty()) {
          limit.intervals.back().up_to = interval.up_to;
          limit.intervals.back().with_up_to = interval.with_up_to;
        } else {
          limit.intervals.push_back(interval);
        }
      }
    }
    return limit;
  }
  bool has_options(const Subject& subject) const {
    if (subject.kind == Subject::Kind::fact) return !protocol_.facts[subject.index].options.empty();
    return subject.kind == Subject::Kind::change || subject.kind == Subject::Kind::done;
  }

  // Of everybody, or by the factor itself.
  bool is_said(const CaseLimit& limit, const DoseExample& example) const {
    const Subject known{Subject::Kind::fact, fact_id(ChildFact::correction_known).index};
    return (limit.subject == known && !example.factor.empty()) ||
           std::all_of(regions_.begin(), regions_.end(), [&](const Cases& region) {
             return std::find(region.limits.begin(), region.limits.end(), limit) != region.limits.end();
           });
  }

  std::string text(bool was) const {
    const DoseId dose = was ? pair_.was : pair_.now;
    if (examples_.empty()) return was ? "one sum" : "another sum: the amount is the same wherever it was looked at";
    std::string words;
    for (const DoseExample& example : examples_) {
      std::string who = example.factor;
      for (const CaseLimit& limit : example.who.limits) {
        if (!is_said(limit, example)) who += (who.empty() ? "" : ", ") + in_words(protocol_, limit, unit_);
      }
      words += (words.empty() ? "" : "; ") + (who.empty() ? "" : who + ": ") +
               amount_text(was ? example.was : example.now, dose);
    }
    return words;
  }

  const Protocol& protocol_;
  SameDoses same_;
  const DosePair& pair_;
  GlucoseUnit unit_;
  std::optional<DosePieces> pieces_;
  std::vector<Cases> regions_;
  std::vector<DoseExample> examples_;
  std::vector<CaseLimit> whole_;                              // by subject: all that may come
  std::set<std::pair<std::uint16_t, std::int64_t>> borders_;  // by fact
  std::size_t runs_ = 0;
  bool too_many_ = false, less_ = false, more_ = false;
};

}  // namespace

std::optional<DoseChange> dose_change(const SideBySide& sides, const DosePair& pair, GlucoseUnit unit) {
  return Tables2(sides, pair, unit).change();
}

}  // namespace rushlight
