#include <algorithm>

#include "verify/diagrams.hpp"

namespace rushlight {

/// A variable is opened to all its values before those above it are tried, and to some of them after those above it. So
/// what holds all that is chosen below a variable is found once for each set met there.
class Diagrams::BoxAround {
 public:
  BoxAround(Diagrams& diagrams, Set set, const Values& point)
      : diagrams_(diagrams), point_(point), is_whole_(point.size(), false), reached_{set} {
    diagrams_.start_search();
    open_whole_variables(set);
  }

  Choices widened(const std::vector<bool>& in_order) {
    std::size_t left = static_cast<std::size_t>(std::count(is_whole_.begin(), is_whole_.end(), false));
    Choices box(point_.size());
    for (std::size_t v = 0; left > 0; ++v) {
      if (!is_whole_[v]) {
        box[v] = widened(v, in_order[v]);
        --left;
      }
      step_down(v, box[v]);
    }
    return box;
  }

 private:
  void open_whole_variables(Set set) {
    std::vector<Set> way;  // what the values of the point lead to, before each variable
    for (std::size_t v = 0; v < point_.size(); ++v) {
      way.push_back(set);
      set = diagrams_.child(set, static_cast<std::uint16_t>(v), point_[v]);
    }
    for (std::size_t v = point_.size(); v-- > 0;) {
      is_whole_[v] = diagrams_.variable(way[v]) != v || holds_all_pieces(way[v]);
    }
  }

  // Of all values of the whole variables, and the point's values of the others. The first number of the search says
  // that something of all that is chosen below is lacking, the second that nothing is.
  bool holds_all(Set set) {
    if (set == kNone || set == kAll) return set == kAll;
    if (diagrams_.looked_at_[set] >= diagrams_.searches_) return diagrams_.looked_at_[set] != diagrams_.searches_;
    const std::uint16_t at = diagrams_.variable(set);
    const bool all = is_whole_[at] ? holds_all_pieces(set) : holds_all(diagrams_.child(set, at, point_[at]));
    diagrams_.looked_at_[set] = diagrams_.searches_ + (all ? 1U : 0U);
    return all;
  }

  bool holds_all_pieces(Set set) {
    const std::uint32_t end = diagrams_.sizes_[diagrams_.variable(set)];
    for (std::size_t i = 0;; ++i) {
      if (!holds_all(diagrams_.piece(set, i).to)) return false;
      if (diagrams_.piece(set, i).up_to == end) return true;
    }
  }

  std::vector<bool> widened(std::size_t v, bool in_order) {
    std::vector<bool> takes(diagrams_.sizes_[v], false);
    takes[point_[v]] = true;
    const auto try_with = [&](std::size_t value) {
      return takes[value] = std::all_of(reached_.begin(), reached_.end(), [&](Set set) {
               return holds_all(diagrams_.child(set, static_cast<std::uint16_t>(v), value));
             });
    };
    for (std::size_t value = point_[v] + 1U; value < takes.size(); ++value) {
      if (!try_with(value) && in_order) break;
    }
    for (std::size_t value = point_[v]; value-- > 0;) {
      if (!try_with(value) && in_order) break;
    }
    return takes;
  }

  // From what is reached before the variable to what its values reach.
  void step_down(std::size_t v, const std::optional<std::vector<bool>>& takes) {
    std::vector<Set> next;
    for (const Set set : reached_) {
      if (diagrams_.variable(set) != v) {
        next.push_back(set);
        continue;
      }
      for (std::uint32_t from = 0, place = 0; from < diagrams_.sizes_[v]; ++place) {
        const Piece& piece = diagrams_.piece(set, place);
        bool taken = !takes;
        for (std::uint32_t i = from; !taken && i < piece.up_to; ++i) taken = (*takes)[i];
        if (taken) next.push_back(piece.to);
        from = piece.up_to;
      }
    }
    if (next.size() > reached_.size()) {
      std::sort(next.begin(), next.end());
      next.erase(std::unique(next.begin(), next.end()), next.end());
    }
    reached_ = std::move(next);
  }

  Diagrams& diagrams_;
  const Values& point_;
  std::vector<bool> is_whole_;  // by variable
  std::vector<Set> reached_;    // by what is chosen above a variable
};

Diagrams::Choices Diagrams::box_around(Set set, const Values& point, const std::vector<bool>& in_order) {
  return BoxAround(*this, set, point).widened(in_order);
}

}  // namespace rushlight
