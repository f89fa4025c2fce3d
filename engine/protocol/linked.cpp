#include "protocol/linked.hpp"

#include <algorithm>

#include "protocol/words.hpp"

namespace rushlight {
namespace {

const Protocol* named(const std::vector<const Protocol*>& set, std::string_view name) {
  const auto found = std::find_if(set.begin(), set.end(), [&](const Protocol* each) { return each->name == name; });
  return found == set.end() ? nullptr : *found;
}

std::vector<std::string> names_of(const std::vector<const Protocol*>& set) {
  std::vector<std::string> names;
  for (const Protocol* protocol : set) names.push_back(protocol->name);
  return names;
}

/// Where the things of one file lie in the whole.
struct Offsets {
  std::vector<FactId> facts;
  std::vector<TimerId> timers;
  std::uint16_t sources, thresholds, doses, counters, marks, watches, actions, steps;
};

template <class IdType>
IdType moved(IdType id, std::uint16_t by) {
  return IdType{static_cast<std::uint16_t>(id.index + by)};
}

/// Gives every id of one file its place in the whole.
class Moving {
 public:
  explicit Moving(const Offsets& offsets) : by_(offsets) {}

  void operator()(SourceId& id) const { id = moved(id, by_.sources); }
  void operator()(ThresholdId& id) const { id = moved(id, by_.thresholds); }
  void operator()(FactId& id) const { id = by_.facts[id.index]; }
  void operator()(DoseId& id) const { id = moved(id, by_.doses); }
  void operator()(TimerId& id) const { id = by_.timers[id.index]; }
  void operator()(CounterId& id) const { id = moved(id, by_.counters); }
  void operator()(MarkId& id) const { id = moved(id, by_.marks); }
  void operator()(WatchId& id) const { id = moved(id, by_.watches); }
  void operator()(ActionId& id) const { id = moved(id, by_.actions); }
  void operator()(StepId& id) const { id = moved(id, by_.steps); }

  template <class Thing>
  void operator()(std::optional<Thing>& thing) const {
    if (thing) (*this)(*thing);
  }
  template <class Thing>
  void operator()(std::vector<Thing>& things) const {
    for (Thing& thing : things) (*this)(thing);
  }

  void operator()(Text& text) const {
    for (Template& line : text.line) {
      for (Piece& piece : line) {
        if (auto* threshold = std::get_if<ThresholdId>(&piece)) (*this)(*threshold);
        if (auto* dose = std::get_if<DoseId>(&piece)) (*this)(*dose);
      }
    }
  }
  void operator()(Condition& condition) const {
    std::visit([this](auto& test) { test_moved(test); }, condition.test);
  }
  void operator()(Threshold& threshold) const { all(threshold.label, threshold.note, threshold.source); }
  void operator()(Food& food) const { all(food.name, food.carbohydrate, food.step, food.when, food.source); }
  void operator()(DoseRow& row) const {
    std::visit([this](auto& cell) { cell_moved(cell); }, row.cell);
    all(row.least, row.most, row.most_percent, row.when, row.source);
  }
  void operator()(InsulinLimits& limits) const { all(limits.no_stacking, limits.floor, limits.fresh); }
  void operator()(Dose& dose) const { all(dose.label, dose.to, dose.insulin, dose.rows); }
  void operator()(Timer& timer) const { all(timer.label); }
  void operator()(Counter&) const {}
  void operator()(Mark& mark) const { all(mark.fact); }
  void operator()(Ask& ask) const { all(ask.fact, ask.fresh); }
  void operator()(Sign& sign) const { all(sign.fact, sign.text); }
  void operator()(Watch& watch) const { all(watch.when, watch.go, watch.source, watch.also); }
  void operator()(OutcomeRule& rule) const { all(rule.go); }
  void operator()(Action& action) const {
    all(action.step, action.text, action.when, action.dose, action.counts, action.stops, action.source);
    for (std::optional<OutcomeRule>& rule : action.on) (*this)(rule);
    if (action.records) all(action.records->fact);
    if (action.starts) all(action.starts->timer, action.starts->lasts);
    if (action.call) all(action.call->answer_within);
  }
  void operator()(Wait& wait) const {
    all(wait.timer, wait.lasts, wait.after, wait.start_within, wait.overdue, wait.go);
  }
  void operator()(Rule& rule) const { all(rule.when, rule.go, rule.resets, rule.source, rule.sets); }
  void operator()(Step& step) const {
    all(step.headline, step.actions, step.asks, step.wait, step.rules, step.handles, step.counts, step.source);
  }
  void operator()(PastLimits& past) const { all(past.low, past.high, past.near); }
  void operator()(Part& part) const {
    all(part.start, part.opening, part.daily_dose_fresh, part.past, part.hourly_fluid);
    part.first_step = static_cast<std::uint16_t>(part.first_step + by_.steps);
    part.first_watch = static_cast<std::uint16_t>(part.first_watch + by_.watches);
  }

 private:
  template <class... Things>
  void all(Things&... things) const {
    ((*this)(things), ...);
  }

  void test_moved(Compares& test) const { all(test.fact, test.limit); }
  void test_moved(Is& test) const { all(test.fact); }
  void test_moved(CountedAtLeast& test) const { all(test.counter, test.limit); }
  void test_moved(WasGiven& test) const { all(test.action); }
  void test_moved(WithinClock& test) const { all(test.from, test.up_to); }
  void test_moved(HasChanged& test) const { all(test.mark); }

  void cell_moved(DoseRow::Fixed& cell) const { all(cell.amount, cell.share); }
  void cell_moved(DoseRow::PerKilogram& cell) const { all(cell.amount, cell.over, cell.plus); }
  void cell_moved(DoseRow::PerYear& cell) const { all(cell.amount); }
  void cell_moved(DoseRow::OfDailyDose& cell) const { all(cell.percent); }
  void cell_moved(DoseRow::Correction& cell) const { all(cell.target, cell.times); }
  void cell_moved(DoseRow::OfDose& cell) const { all(cell.dose, cell.divided_by, cell.times); }
  void cell_moved(DoseRow::LargerOf& cell) const { all(cell.one, cell.other); }
  void cell_moved(DoseRow::Withheld& cell) const { all(cell.reason); }

  const Offsets& by_;
};

bool same_question(const Fact& one, const Fact& other) {
  return one.kind == other.kind && one.options.size() == other.options.size() &&
         std::equal(one.options.begin(), one.options.end(), other.options.begin(),
                    [](const Option& a, const Option& b) { return a.name == b.name; });
}

class Linking {
 public:
  Linking(const std::vector<const Protocol*>& set, const Protocol& first) : set_(set) {
    whole_ = Protocol{};
    take_in(first);
    for (std::size_t next = 0; next < taken_.size(); ++next) follow(*taken_[next]);
    if (has_error(findings_)) return;
    whole_.set = first.set, whole_.name = first.name, whole_.version = first.version;
    whole_.languages = first.languages;
    whole_.title = first.title;
    whole_.where = first.where;
    whole_.start = first.start;  // the first one's steps lie where they lay
    whole_.weight_fresh = first.weight_fresh;
    whole_.opening = whole_.parts.front().opening;
    name_first_steps();
  }

  Read<Protocol> result() {
    sort_findings(findings_);
    if (has_error(findings_)) return {std::nullopt, std::move(findings_)};
    return {std::move(whole_), std::move(findings_)};
  }

 private:
  void follow(const Protocol& protocol) {
    for (const Step& step : protocol.steps) {
      for (const Rule& rule : step.rules) {
        for (const std::string* name : {&rule.visits, &rule.hands_over_to}) {
          if (!name->empty()) follow(*name, rule.where);
        }
      }
    }
  }

  void follow(const std::string& name, const Where& where) {
    const Protocol* next = named(set_, name);
    if (next == nullptr) {
      findings_.push_back(Finding{Severity::error, where, UnknownId{name, "protocol of the set", names_of(set_)}, {}});
      return;
    }
    const bool already = std::find(taken_.begin(), taken_.end(), next) != taken_.end();
    if (!already) take_in(*next);
  }

  void take_in(const Protocol& part) {
    taken_.push_back(&part);
    const auto count = [](const auto& things) { return static_cast<std::uint16_t>(things.size()); };
    Offsets offsets{{},
                    {},
                    count(whole_.sources),
                    count(whole_.thresholds),
                    count(whole_.doses),
                    count(whole_.counters),
                    count(whole_.marks),
                    count(whole_.watch),
                    count(whole_.actions),
                    count(whole_.steps)};
    for (const Fact& fact : part.facts) offsets.facts.push_back(shared_fact(fact));
    for (const Timer& timer : part.timers) offsets.timers.push_back(shared_timer(timer));
    refuse_shared_actions(part);
    refuse_other_languages(part);
    const Moving move(offsets);
    for (FactId& fact : new_facts_) {
      move(whole_.facts[fact.index].question);
      move_help(whole_.facts[fact.index], move);
    }
    new_facts_.clear();
    for (const Text& caution : part.cautions) {
      if (taken_.size() == 1) whole_.cautions.push_back(caution);
    }
    whole_.sources.insert(whole_.sources.end(), part.sources.begin(), part.sources.end());
    append(whole_.thresholds, part.thresholds, move);
    append(whole_.foods, taken_.size() == 1 || whole_.foods.empty() ? part.foods : std::vector<Food>{}, move);
    append(whole_.doses, part.doses, move);
    append(whole_.counters, part.counters, move);
    append(whole_.marks, part.marks, move);
    append(whole_.watch, part.watch, move);
    append(whole_.actions, part.actions, move);
    append(whole_.steps, part.steps, move);
    append(whole_.parts, part.parts, move);
    add_signs(part, move);
  }

  template <class Thing>
  static void append(std::vector<Thing>& whole, std::vector<Thing> part, const Moving& move) {
    for (Thing& thing : part) {
      move(thing);
      whole.push_back(std::move(thing));
    }
  }

  static void move_help(Fact& fact, const Moving& move) {
    move(fact.help);
    for (Option& option : fact.options) move(option.text);
  }

  FactId shared_fact(const Fact& fact) {
    if (const std::optional<FactId> known = whole_.fact_named(fact.name)) {
      if (!same_question(whole_[*known], fact)) {
        findings_.push_back(Finding{Severity::error, fact.where, RepeatedId{fact.name, "fact"},
                                    Because{"another file of the set asks it with other answers",
                                            whole_[*known].where}});
      }
      return *known;
    }
    const FactId id{static_cast<std::uint16_t>(whole_.facts.size())};
    whole_.facts.push_back(fact);
    new_facts_.push_back(id);
    return id;
  }

  TimerId shared_timer(const Timer& timer) {
    for (std::uint16_t place = 0; place < whole_.timers.size(); ++place) {
      if (whole_.timers[place].name == timer.name) return TimerId{place};
    }
    whole_.timers.push_back(timer);
    return TimerId{static_cast<std::uint16_t>(whole_.timers.size() - 1)};
  }

  // A deed is written down by the action's name alone.
  void refuse_shared_actions(const Protocol& part) {
    for (const Action& action : part.actions) {
      const std::optional<ActionId> known = whole_.action_named(action.name);
      if (!known) continue;
      findings_.push_back(Finding{Severity::error, action.where, RepeatedId{action.name, "action"},
                                  Because{"another file of the set has it", whole_[*known].where}});
    }
  }

  // A caregiver who began in one language goes on in it.
  void refuse_other_languages(const Protocol& part) {
    const Protocol& first = *taken_.front();
    for (const Language language : first.languages) {
      if (std::find(part.languages.begin(), part.languages.end(), language) != part.languages.end()) continue;
      const std::string name(words::kLanguages[static_cast<std::size_t>(language)]);
      findings_.push_back(Finding{Severity::error, part.where, LanguageLacking{part.name, name, first.name},
                                  Because{"`" + first.name + "`", first.where}});
    }
  }

  void add_signs(const Protocol& part, const Moving& move) {
    for (Sign sign : part.worse) {
      move(sign);
      const bool known = std::any_of(whole_.worse.begin(), whole_.worse.end(), [&](const Sign& each) {
        return each.fact == sign.fact && each.option == sign.option;
      });
      if (!known) whole_.worse.push_back(std::move(sign));
    }
  }

  void name_first_steps() {
    for (Step& step : whole_.steps) {
      for (Rule& rule : step.rules) {
        const std::string& name = rule.visits.empty() ? rule.hands_over_to : rule.visits;
        for (const Part& part : whole_.parts) {
          if (part.name == name) rule.enters = part.start;
        }
      }
    }
  }

  const std::vector<const Protocol*>& set_;
  std::vector<const Protocol*> taken_;
  std::vector<FactId> new_facts_;
  Protocol whole_;
  std::vector<Finding> findings_;
};

}  // namespace

Read<Protocol> linked(const std::vector<const Protocol*>& set, std::string_view first) {
  const Protocol* protocol = named(set, first);
  if (protocol == nullptr) {
    return {std::nullopt, {Finding{Severity::error, Where{}, UnknownId{std::string(first), "protocol", names_of(set)}, {}}}};
  }
  return Linking(set, *protocol).result();
}

}  // namespace rushlight
