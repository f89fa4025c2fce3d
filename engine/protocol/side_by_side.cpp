#include "protocol/side_by_side.hpp"

#include <algorithm>

#include "protocol/moving.hpp"

namespace rushlight {
namespace {

template <class Thing>
std::optional<std::uint16_t> place_of(const std::vector<Thing>& things, const std::string& name) {
  for (std::uint16_t i = 0; i < things.size(); ++i) {
    if (things[i].name == name) return i;
  }
  return std::nullopt;
}

// Those of one name are one. When one alone is left over on each side, it has a new name.
template <class IdType, class Thing>
std::vector<IdType> matched(std::vector<Thing>& both, const std::vector<Thing>& now) {
  const auto is_only_in = [](const std::vector<Thing>& others) {
    return [&others](const Thing& thing) { return !place_of(others, thing.name); };
  };
  const std::vector<Thing> was(both.begin(), both.end());
  const bool renamed = std::count_if(was.begin(), was.end(), is_only_in(now)) == 1 &&
                       std::count_if(now.begin(), now.end(), is_only_in(was)) == 1;
  std::vector<IdType> ids;
  for (const Thing& thing : now) {
    std::optional<std::uint16_t> place = place_of(was, thing.name);
    if (!place && renamed) {
      const auto old = std::find_if(was.begin(), was.end(), is_only_in(now));
      place = static_cast<std::uint16_t>(old - was.begin());
    }
    if (!place) {
      place = static_cast<std::uint16_t>(both.size());
      both.push_back(thing);
    }
    ids.push_back(IdType{*place});
  }
  return ids;
}

class Joining {
 public:
  Joining(const Protocol& was, const Protocol& now) : now_(now) {
    sides_.both = was;
    offsets_.sources = count(was.sources);
    offsets_.thresholds = sides_.now_thresholds = count(was.thresholds);
    offsets_.doses = sides_.now_doses = count(was.doses);
    offsets_.watches = sides_.now_watches = count(was.watch);
    offsets_.actions = sides_.now_actions = count(was.actions);
    offsets_.steps = sides_.now_steps = count(was.steps);
    share_facts();
    share_marks();
    offsets_.timers = matched<TimerId>(sides_.both.timers, now.timers);
    offsets_.counters = matched<CounterId>(sides_.both.counters, now.counters);
    for (const Action& action : now.actions) {
      auto known = place_of(was.actions, action.name);
      if (!known) known = renamed_action(was, action);
      offsets_.deeds.push_back(
          ActionId{known.value_or(static_cast<std::uint16_t>(was.actions.size() + offsets_.deeds.size()))});
    }
    append();
  }

  SideBySide result() { return std::move(sides_); }

 private:
  template <class Thing>
  static std::uint16_t count(const std::vector<Thing>& things) {
    return static_cast<std::uint16_t>(things.size());
  }

  void share_facts() {
    for (const Fact& fact : now_.facts) {
      const std::optional<std::uint16_t> known = place_of(sides_.both.facts, fact.name);
      offsets_.options.emplace_back();
      if (!known || sides_.both.facts[*known].kind != fact.kind) {
        offsets_.facts.push_back(FactId{count(sides_.both.facts)});
        sides_.both.facts.push_back(fact);
        new_facts_.push_back(offsets_.facts.back());
        continue;
      }
      offsets_.facts.push_back(FactId{*known});
      std::vector<Option>& options = sides_.both.facts[*known].options;
      for (const Option& option : fact.options) {
        const std::optional<std::uint16_t> place = place_of(options, option.name);
        offsets_.options.back().push_back(place.value_or(count(options)));
        if (!place) options.push_back(option);
      }
    }
  }

  /// What the same step did under another name: it alone of its kind is gone there, and this one alone has come.
  std::optional<std::uint16_t> renamed_action(const Protocol& was, const Action& action) const {
    const std::string& step = now_[action.step].name;
    const auto alone = [&](const Protocol& of, const Protocol& other) -> std::optional<std::uint16_t> {
      std::optional<std::uint16_t> found;
      for (std::uint16_t i = 0; i < of.actions.size(); ++i) {
        const Action& each = of.actions[i];
        if (each.kind != action.kind || of[each.step].name != step || place_of(other.actions, each.name)) continue;
        if (found) return std::nullopt;
        found = i;
      }
      return found;
    };
    return alone(now_, was) ? alone(was, now_) : std::nullopt;
  }

  /// A mark of another name on the same thing, where it alone is gone and this one alone has come.
  std::optional<std::uint16_t> renamed_mark(const std::vector<Mark>& was, const Mark& mark) const {
    const auto alone = [](const std::vector<Mark>& of, const std::vector<Mark>& other) -> std::optional<std::uint16_t> {
      std::optional<std::uint16_t> found;
      for (std::uint16_t i = 0; i < of.size(); ++i) {
        if (place_of(other, of[i].name)) continue;
        if (found) return std::nullopt;
        found = i;
      }
      return found;
    };
    const auto gone = alone(was, now_.marks), come = alone(now_.marks, was);
    return gone && come && now_.marks[*come].name == mark.name ? gone : std::nullopt;
  }

  void share_marks() {
    const std::vector<Mark> was = sides_.both.marks;
    for (const Mark& mark : now_.marks) {
      std::optional<std::uint16_t> known = place_of(was, mark.name);
      if (!known) known = renamed_mark(was, mark);
      const bool same = known && sides_.both.marks[*known].fact == offsets_.facts[mark.fact.index];
      offsets_.marks.push_back(MarkId{same ? *known : count(sides_.both.marks)});
      if (same) continue;
      sides_.both.marks.push_back(mark);
      Mark& own = sides_.both.marks.back();
      own.fact = offsets_.facts[mark.fact.index];
      if (own.rise_over) own.rise_over->index = static_cast<std::uint16_t>(own.rise_over->index + offsets_.thresholds);
    }
  }

  void append() {
    const Moving move(offsets_);
    Protocol& both = sides_.both;
    for (const FactId fact : new_facts_) {
      move(both.facts[fact.index].question);
      move(both.facts[fact.index].help);
      for (Option& option : both.facts[fact.index].options) move(option.text);
    }
    both.sources.insert(both.sources.end(), now_.sources.begin(), now_.sources.end());
    append(both.thresholds, now_.thresholds, move);
    append(both.doses, now_.doses, move);
    append(both.watch, now_.watch, move);
    append(both.actions, now_.actions, move);
    append(both.steps, now_.steps, move);
    append(both.parts, now_.parts, move);
    sides_.now_start = now_.start;
    move(sides_.now_start);
    sides_.now_opening = now_.opening;
    move(sides_.now_opening);
  }

  template <class Thing>
  static void append(std::vector<Thing>& both, std::vector<Thing> now, const Moving& move) {
    for (Thing& thing : now) {
      move(thing);
      both.push_back(std::move(thing));
    }
  }

  const Protocol& now_;
  SideBySide sides_;
  Offsets offsets_;
  std::vector<FactId> new_facts_;
};

}  // namespace

SideBySide side_by_side(const Protocol& was, const Protocol& now) { return Joining(was, now).result(); }

}  // namespace rushlight
