#pragma once

#include <optional>
#include <string>
#include <vector>

#include "verify/regions.hpp"

// Private to engine/verify: two children who are alike in all but one answer.

namespace rushlight {

/// Two answers next to each other, as places among the stretches of the fact.
struct AnswerPair {
  std::size_t worse, better;
};

inline std::vector<AnswerPair> answer_pairs_in(const Dimension& dimension, bool lower_is_worse) {
  std::vector<AnswerPair> pairs;
  for (std::size_t i = 0; i + 1 < dimension.stretches.size(); ++i) {
    if (dimension.stretches[i + 1].unknown) continue;  // "can't tell" stands last and in no order
    pairs.push_back(lower_is_worse ? AnswerPair{i, i + 1} : AnswerPair{i + 1, i});
  }
  return pairs;
}

inline std::optional<std::size_t> dimension_of(const Table& table, FactId fact) {
  for (std::size_t i = 0; i < table.dimensions.size(); ++i) {
    if (table.dimensions[i].subject == Subject{Subject::Kind::fact, fact.index}) return i;
  }
  return std::nullopt;
}

/// Two children who differ in one answer, each taken by a rule or row.
struct ChildPair {
  std::string worse, better;
};

/// The rules or rows of one table, asked for two children beside each other.
class ChildrenCompared {
 public:
  /// `law`: which children are compared; all without one.
  ChildrenCompared(const Protocol& protocol, const Table& table, std::size_t place, const Box* law)
      : protocol_(protocol), table_(table), place_(place), takers_(takers_of(table)), meant_(table.whole.sides[place]) {
    for (const Box* taker : takers_) open_.push_back(for_all_answers(*taker));
    if (law != nullptr) {
      law_ = for_all_answers(*law);
      meant_ = law->sides[place];
    }
  }

  const Dimension& answers() const { return table_.dimensions[place_]; }

  /// A child whom `worse_rule` takes, and who with the better answer would be taken by `better_rule`.
  std::optional<ChildPair> pair(std::size_t worse_rule, std::size_t better_rule, const AnswerPair& at) {
    const std::size_t worse = table_.watched.size() + worse_rule, better = table_.watched.size() + better_rule;
    if (!meant_.test(at.worse) || !meant_.test(at.better) || !takes(worse, at.worse) || !takes(better, at.better))
      return std::nullopt;
    Box both = open_[worse];
    both &= open_[better];
    if (law_) both &= *law_;
    std::vector<const Box*> earlier;
    if (!add_earlier(worse, at.worse, both, earlier) || !add_earlier(better, at.better, both, earlier))
      return std::nullopt;
    std::optional<ChildPair> found;
    const Search search = each_left_over(both, earlier, [&](const Box& left) {
      found = ChildPair{example(left, at.worse), example(left, at.better)};
      return false;
    });
    gave_up_ = gave_up_ || search == Search::gave_up;
    return found;
  }
  bool gave_up() const { return gave_up_; }

 private:
  Box for_all_answers(Box box) const {
    box.sides[place_] = table_.whole.sides[place_];
    return box;
  }
  bool takes(std::size_t taker, std::size_t answer) const { return takers_[taker]->sides[place_].test(answer); }

  // What takes a child with this answer before a taker does; false when one of them takes all of the box.
  bool add_earlier(std::size_t taker, std::size_t answer, const Box& box, std::vector<const Box*>& earlier) const {
    for (std::size_t i = 0; i < taker; ++i) {
      if (!takes(i, answer) || !open_[i].meets(box)) continue;
      if (open_[i].contains(box)) return false;
      earlier.push_back(&open_[i]);
    }
    return true;
  }

  std::string example(Box box, std::size_t answer) const {
    box.sides[place_].reset();
    box.sides[place_].set(answer);
    return example_of(protocol_, table_, box);
  }

  const Protocol& protocol_;
  const Table& table_;
  std::size_t place_;
  std::vector<const Box*> takers_;  // what is watched, then the rules or rows
  Stretches meant_;                 // the answers that are compared
  std::optional<Box> law_;          // which children are, for all answers
  std::vector<Box> open_;           // each of them for all answers, so that boxes at two answers can be compared
  bool gave_up_ = false;
};

}  // namespace rushlight
