#pragma once

#include <functional>
#include <optional>
#include <vector>

#include "verify/dose_amount.hpp"
#include "verify/regions.hpp"

// Private to engine/verify: a dose and those it is made of, cut into pieces in each of which every one of them has one
// row.

namespace rushlight {

/// No number of a child file or a meter is finer: months of an age, thousandths of all else.
constexpr std::int64_t grain_of(FactKind kind) { return kind == FactKind::age ? 1 : 1'000; }

inline constexpr Subject kAgeSubject{Subject::Kind::fact, fact_id(ChildFact::age).index};

struct DosePiece {
  const Table* table;
  Box box;
  std::size_t row;  // of the dose itself, from 0
};

/// One child and one reading of a piece.
struct DoseCorner {
  DoseGrounds grounds;
  std::vector<std::optional<std::int64_t>> values;  // by dimension; empty where the dose does not depend on it
  bool factor_counts;                               // it was divided by the child's correction factor
  bool at_the_end;  // it depends on something that no condition ends: it would grow on with it
};

/// Lives no longer than the protocol.
class DosePieces {
 public:
  DosePieces(const Protocol& protocol, DoseId dose);
  /// Of two doses, so that each of them, and those they are made of, has one row in a piece.
  DosePieces(const Protocol& protocol, DoseId dose, DoseId other);

  /// How many things it reads, when they are more than can be told apart; 0 otherwise. There are no pieces then.
  std::size_t things() const { return tables_.things; }
  /// The rows overlap in more ways than are looked through: pieces are missing.
  bool gave_up() const { return gave_up_; }
  /// Of all pieces the amount is what a row gives, or nothing for the whole of it.
  const std::vector<DosePiece>& pieces() const { return pieces_; }
  /// Where the amount is greatest in the piece, and where it is least of those that are given at all (less than a step
  /// of insulin is none); empty when no child file and no meter reaches the piece.
  std::optional<DoseCorner> greatest(const DosePiece& piece) const;
  std::optional<DoseCorner> least_given(const DosePiece& piece) const;
  std::optional<Decimal> amount(const DosePiece& piece, const DoseCorner& corner) const;
  /// Every row on the way to the amount holds it below a `most`, or one of them does.
  bool is_capped(const DosePiece& piece) const;
  /// "age 15 years, weight 50 kg": the corner in words.
  std::string child(const DosePiece& piece, const DoseCorner& corner) const;

  struct Ends {
    std::int64_t least, greatest;
  };
  /// By dimension, empty where nothing is a number or known; behind them the correction factor, as a number below zero.
  using Spans = std::vector<std::optional<Ends>>;
  /// Empty when no child file and no meter reaches the piece.
  std::optional<Spans> spans(const DosePiece& piece) const;
  /// How fine a number of the piece may be, by dimension, and the factor behind them.
  std::int64_t grain(const DosePiece& piece, std::size_t dimension) const;
  /// The row of the dose, or of one that it is made of there, from 0.
  std::size_t row_in(DoseId dose, const DosePiece& piece) const;
  /// By dimension: whether the amount of the dose grows with it in the piece; behind them the correction factor.
  std::vector<bool> grows_with(DoseId dose, const DosePiece& piece) const;
  /// The amount of one of the doses at these values, by dimension and the factor behind them.
  std::optional<Decimal> amount_at(DoseId dose, const DosePiece& piece, const std::vector<std::int64_t>& values,
                                   const Spans& spans) const;
  /// Everything that a condition of a row compares the subject with, in order.
  std::vector<std::int64_t> borders(const Table& table, const Subject& subject) const;
  const Tables& tables() const { return tables_; }

 private:
  DoseCorner corner_at(const DosePiece& piece, const std::vector<std::int64_t>& values, const Spans& spans) const;
  struct Involved {
    DoseId dose;
    std::size_t first;  // of its rows in the tables
  };
  void involve(DoseId dose);
  void add_rows(DoseId dose);
  std::size_t first_row(DoseId dose) const;
  void add_piece(const Table& table, const Box& box);
  void split(DoseId dose, const Table& table, const Box& box, const std::function<void(const Box&)>& visit);
  DosePieces(const Protocol& protocol, const std::vector<DoseId>& doses);
  DoseGrounds grounds_at(const DosePiece& piece, const std::vector<std::int64_t>& values, const Spans& spans) const;
  std::optional<Decimal> amount(DoseId dose, const DosePiece& piece, const DoseGrounds& grounds) const;
  bool is_capped(DoseId dose, const DosePiece& piece) const;
  /// What the amount depends on; the correction factor too when this says so.
  void depends(DoseId dose, const DosePiece& piece, std::vector<FactId>& facts, bool& on_factor) const;

  const Protocol& protocol_;
  DoseId dose_;
  std::vector<Involved> involved_;
  std::vector<RowLine> rows_;
  Tables tables_;
  std::vector<DosePiece> pieces_;
  bool gave_up_ = false;
};

}  // namespace rushlight
