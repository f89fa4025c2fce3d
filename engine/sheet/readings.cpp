#include "sheet/readings.hpp"

#include <algorithm>

#include "sheet/sheet_words.hpp"
#include "verify/answering.hpp"

namespace rushlight {
namespace {

constexpr int kMostPricks = 4;
using Looks = SheetSight::Looks;

bool gives_or_calls(const View& view) {
  for (const ShownAction& action : view.actions) {
    if (action.kind != ActionKind::measure && action.kind != ActionKind::position && action.kind != ActionKind::note)
      return true;
  }
  return view.call.has_value() || view.ended;
}

}  // namespace

bool is_asked(const View& view, std::string_view fact) {
  return std::any_of(view.ask.begin(), view.ask.end(), [&](const ShownQuestion& each) { return each.name == fact; });
}

std::optional<FactId> glucose_asked_in(const View& view) {
  for (const ShownQuestion& question : view.ask) {
    if (question.kind == FactKind::glucose) return question.id;
  }
  return std::nullopt;
}

Landing landing_after(PaperWalk walk, const Value& reading, Looks looks,
                      const std::optional<Value>& by_another_prick) {
  std::vector<SheetLine> before;
  bool told = false;
  for (int turn = 0; turn < kMostPricks * 2; ++turn) {
    const View here = walk.view();
    if (told && (gives_or_calls(here) || here.waiting)) break;
    if (const auto asked = glucose_asked_in(here)) {
      if (told) before.push_back(walk.headline());
      walk.answer(*asked, told && by_another_prick ? *by_another_prick : reading);
      told = true;
    } else if (is_asked(here, "symptoms") && looks != Looks::any) {
      walk.answer("symptoms", looks == Looks::well ? "no" : "unknown");
    } else if (is_asked(here, "awake")) {
      walk.answer("awake", "yes");
    } else if (is_asked(here, "meal-soon") || here.ask.empty()) {
      break;
    } else {
      walk.go_on({"symptoms", "awake", "meal-soon", "glucose"});
      const View after = walk.view();
      if (after.step == here.step && after.ask.size() == here.ask.size()) break;
    }
  }
  const std::string step = walk.view().step;
  return {std::move(walk), step, std::move(before)};
}

std::vector<ReadingGroup> groups_of(const PaperWalk& walk, const Protocol& protocol, const Child& child) {
  std::vector<ReadingGroup> groups;
  const std::optional<FactId> fact = protocol.fact_named("glucose");
  if (!fact) return groups;
  const Context context{age_on(child.birth, local_day_of(walk.now())), child.weight, clock_time_of(walk.now())};
  const std::vector<Value> values = values_to_tell(protocol, *fact, context, child.unit);
  // What a meter's last digit stands for.
  const Decimal grain = Decimal::of_micros(child.unit == GlucoseUnit::mg_per_dl ? 1'000'000 : 100'000);
  const auto same = [](const ReadingGroup& group, const Landing& landing) {
    return group.landing.step == landing.step && group.landing.before.size() == landing.before.size();
  };
  for (const Looks looks : {Looks::well, Looks::unwell}) {
    bool open = false;
    for (const Value& value : values) {
      Landing landing = landing_after(walk, value, looks);
      const auto* reading = std::get_if<Glucose>(&value);
      SheetSight sight;
      sight.looks = looks;
      sight.no_reading = reading == nullptr;
      if (open && reading != nullptr && same(groups.back(), landing)) {
        groups.back().sight.to = *reading;
        continue;
      }
      if (reading != nullptr) {
        if (open) {
          const Glucose& last = *groups.back().sight.to;
          sight.from = Glucose::reading(*last.number() + grain, child.unit);  // the first group begins with LO
          groups.back().sight.below = sight.from;
        }
        sight.to = *reading;
      }
      open = reading != nullptr;
      groups.push_back({sight, std::move(landing), value});
    }
  }
  // The last group of readings goes on to HI.
  for (ReadingGroup& group : groups) {
    const auto last = [&] {
      for (auto each = values.rbegin(); each != values.rend(); ++each) {
        if (const auto* reading = std::get_if<Glucose>(&*each)) return std::optional<Glucose>{*reading};
      }
      return std::optional<Glucose>{};
    }();
    if (group.sight.to == last) group.sight.to.reset();
  }
  return groups;
}

namespace {

/// A reading without its unit, which stands once above all of them.
std::string bare(const Glucose& reading) {
  return reading.number() ? text_from_decimal(*reading.number()) : text_from_glucose(reading);
}

}  // namespace

std::string text_from_sight(const SheetSight& sight, Language language) {
  std::string text;
  if (sight.no_reading) {
    text = sheet_say(SheetWord::no_reading, language);
  } else if (!sight.from && sight.to) {
    text = sheet_say(SheetWord::below_or_lo, language, bare(sight.below.value_or(*sight.to)));
  } else if (sight.from && sight.to) {
    text = sight.from == sight.to ? bare(*sight.to)
                                  : sheet_say(SheetWord::from_to, language, bare(*sight.from), bare(*sight.to));
  } else if (sight.from) {
    text = sheet_say(SheetWord::or_more, language, bare(*sight.from));
  } else {
    text = sheet_say(SheetWord::or_less, language);
  }
  if (sight.looks == Looks::any) return text;
  return text + ", " +
         sheet_say(sight.looks == Looks::well ? SheetWord::looks_well : SheetWord::looks_unwell, language);
}

}  // namespace rushlight
