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

/// The one thing of its kind that the others have not; none where there are several.
template <class Thing, class IsOfTheKind>
std::optional<std::uint16_t> alone_in(const std::vector<Thing>& things, const std::vector<Thing>& others,
                                      IsOfTheKind is_of_the_kind) {
  std::optional<std::uint16_t> found;
  for (std::uint16_t i = 0; i < things.size(); ++i) {
    if (!is_of_the_kind(things[i]) || place_of(others, things[i].name)) continue;
    if (found) return std::nullopt;
    found = i;
  }
  return found;
}

/// The older thing that stands for each of the newer. Those of one name are one. When one alone is left over on each
/// side, it has a new name.
template <class Thing>
std::vector<std::optional<std::uint16_t>> older_of(const std::vector<Thing>& was, const std::vector<Thing>& now) {
  const auto any = [](const Thing&) { return true; };
  const auto gone = alone_in(was, now, any), come = alone_in(now, was, any);
  std::vector<std::optional<std::uint16_t>> places;
  for (std::uint16_t i = 0; i < now.size(); ++i)
    places.push_back(gone && come == i ? gone : place_of(was, now[i].name));
  return places;
}

template <class IdType, class Thing>
std::vector<IdType> matched(std::vector<Thing>& both, const std::vector<Thing>& now) {
  const auto older = older_of(both, now);
  std::vector<IdType> ids;
  for (std::size_t i = 0; i < now.size(); ++i) {
    ids.push_back(IdType{older[i].value_or(static_cast<std::uint16_t>(both.size()))});
    if (!older[i]) both.push_back(now[i]);
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
    const auto alone = [&](const Protocol& of, const Protocol& other) {
      return alone_in(of.actions, other.actions,
                      [&](const Action& each) { return each.kind == action.kind && of[each.step].name == step; });
    };
    return alone(now_, was) ? alone(was, now_) : std::nullopt;
  }

  void share_marks() {
    const auto older = older_of(sides_.both.marks, now_.marks);
    for (std::size_t i = 0; i < now_.marks.size(); ++i) {
      const Mark& mark = now_.marks[i];
      const std::optional<std::uint16_t> known = older[i];
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
