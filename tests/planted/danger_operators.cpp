#include <algorithm>

#include "planted/operators.hpp"

// Slips around the danger signs.

namespace rushlight::planted {
namespace {

std::vector<Markup::Element> watches(const Markup& file) {
  std::vector<Markup::Element> found;
  for (const Markup::Element watch : file.all("watch")) {
    if (file.name(*file.parent(watch)) != "protocol") continue;
    for (const Markup::Element rule : file.within(watch, "rule")) found.push_back(rule);
  }
  return found;
}

const char* const kOrder[] = {"home", "clinic", "clinic-now", "emergency"};

std::size_t urgency_of(const Markup& file, Markup::Element step) {
  return static_cast<std::size_t>(std::find(std::begin(kOrder), std::end(kOrder), file.value(step, "urgency")) -
                                  std::begin(kOrder));
}

std::optional<Markup::Element> step_named(const Markup& file, const std::string& id) {
  for (const Markup::Element step : file.all("step")) {
    if (file.value(step, "id") == id) return step;
  }
  return std::nullopt;
}

/// The questions that an element reads.
std::vector<Markup::Element> questions_of(const Markup& file, const std::vector<std::string>& facts) {
  std::vector<Markup::Element> found;
  for (const char* kind : {"yes-no", "choice", "ordered-choice", "glucose", "ketones", "count", "time-since"}) {
    for (const Markup::Element question : file.all(kind)) {
      for (const std::string& fact : facts) {
        if (file.value(question, "id") == fact && file.name(*file.parent(question)) == "facts")
          found.push_back(question);
      }
    }
  }
  return found;
}

std::vector<std::string> facts_of(const Markup& file, Markup::Element rule) {
  std::vector<std::string> facts;
  for (const Markup::Element test : file.within(rule, "if")) facts.push_back(file.value(test, "fact"));
  return facts;
}

bool is_danger(const Markup& file, Markup::Element rule) {
  for (const std::string& fact : facts_of(file, rule)) {
    if (fact == "awake" || fact == "swallow" || fact == "seizure" || fact == "breathing-normally") return true;
  }
  return false;
}

std::vector<Fault> watch_removed_where(const Markup& file, bool told) {
  std::vector<Fault> faults;
  for (const Markup::Element rule : watches(file)) {
    if (file.has(rule, "told") != told) continue;
    const std::string id = file.value(rule, "id");
    Edits edits{file.without(rule)};
    // Whoever takes out the rule takes out its name as well.
    for (const Markup::Element step : file.all("step")) {
      std::vector<std::string> handled = words_in(file.value(step, "handles"));
      const std::size_t before = handled.size();
      handled.erase(std::remove(handled.begin(), handled.end(), id), handled.end());
      if (handled.size() == before) continue;
      edits.push_back(handled.empty() ? file.without(step, "handles") : file.with(step, "handles", list_of(handled)));
    }
    std::vector<Markup::Element> also = questions_of(file, facts_of(file, rule));
    for (const Markup::Element sign : file.all("sign")) {
      for (const std::string& fact : facts_of(file, rule)) {
        if (file.value(sign, "fact") == fact) also.push_back(sign);
      }
    }
    faults.push_back(Fault{std::move(edits), rule, "watch `" + id + "` left out", std::move(also)});
  }
  return faults;
}
std::vector<Fault> watch_removed(const Markup& file) { return watch_removed_where(file, false); }
std::vector<Fault> watch_for_news_removed(const Markup& file) { return watch_removed_where(file, true); }

std::vector<Fault> watch_in_part(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element rule : watches(file)) {
    for (const Markup::Element test : file.within(rule, "if")) {
      std::vector<std::string> words = words_in(file.value(test, "is"));
      if (words.size() < 2 || !is_danger(file, rule)) continue;
      words.pop_back();
      faults.push_back(Fault{{file.with(test, "is", list_of(words))},
                             rule,
                             "watch `" + file.value(rule, "id") + "` takes a part of it",
                             questions_of(file, facts_of(file, rule))});
    }
  }
  return faults;
}

std::vector<Fault> told_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element rule : watches(file)) {
    // A worry may last: whether it is called about once, or until it is taken back, is for the clinic to say.
    if (!file.has(rule, "told") || file.value(rule, "id") == "worry-said") continue;
    faults.push_back(
        Fault{{file.without(rule, "told")}, rule, "watch `" + file.value(rule, "id") + "` fires on old answers too"});
  }
  return faults;
}

/// Out of a step that does not end, which watches do not count in.
template <class Wanted>
std::vector<Fault> handles_removed_where(const Markup& file, const Wanted& wanted) {
  std::vector<Fault> faults;
  for (const Markup::Element step : file.all("step")) {
    if (file.has(step, "ends")) continue;
    for (const Markup::Element rule : watches(file)) {
      const std::string watch = file.value(rule, "id");
      std::vector<std::string> left = words_in(file.value(step, "handles"));
      if (std::find(left.begin(), left.end(), watch) == left.end() || !wanted(step, rule)) continue;
      left.erase(std::remove(left.begin(), left.end(), watch), left.end());
      faults.push_back(Fault{{left.empty() ? file.without(step, "handles") : file.with(step, "handles", list_of(left))},
                             step,
                             "`" + file.value(step, "id") + "` does not handle `" + watch + "`"});
    }
  }
  return faults;
}

/// A calmer step would come in the middle of this one, or the watch's own step would begin anew at once.
bool is_left_by(const Markup& file, Markup::Element step, Markup::Element rule) {
  const auto target = step_named(file, file.value(rule, "go"));
  if (!target) return false;
  if (*target == step) return true;
  if (file.has(rule, "told"))
    return file.value(step, "urgency") == "emergency" && urgency_of(file, *target) < urgency_of(file, step);
  return urgency_of(file, *target) < urgency_of(file, step);
}

std::vector<Fault> handles_removed(const Markup& file) {
  return handles_removed_where(
      file, [&](Markup::Element step, Markup::Element rule) { return is_left_by(file, step, rule); });
}

/// A danger sign, in an emergency that it leads on to.
std::vector<Fault> danger_not_handled(const Markup& file) {
  return handles_removed_where(file, [&](Markup::Element step, Markup::Element rule) {
    return is_danger(file, rule) && !is_left_by(file, step, rule);
  });
}

std::vector<Fault> news_not_handled(const Markup& file) {
  return handles_removed_where(file, [&](Markup::Element step, Markup::Element rule) {
    return !is_danger(file, rule) && !is_left_by(file, step, rule);
  });
}

/// By a step that is calmer than where the watch leads, or (`as_grave`) as grave.
std::vector<Fault> handles_added_where(const Markup& file, bool as_grave) {
  std::vector<Fault> faults;
  for (const Markup::Element step : file.all("step")) {
    const std::vector<std::string> handled = words_in(file.value(step, "handles"));
    for (const Markup::Element rule : watches(file)) {
      const std::string id = file.value(rule, "id");
      const auto target = step_named(file, file.value(rule, "go"));
      if (std::find(handled.begin(), handled.end(), id) != handled.end() || !target) continue;
      if ((urgency_of(file, step) >= urgency_of(file, *target)) != as_grave || (as_grave && is_danger(file, rule)))
        continue;
      std::vector<std::string> more = handled;
      more.push_back(id);
      faults.push_back(Fault{{file.with(step, "handles", list_of(more))},
                             step,
                             "`" + file.value(step, "id") + "` handles `" + id + "` too"});
    }
  }
  return faults;
}
std::vector<Fault> handles_added(const Markup& file) { return handles_added_where(file, false); }
std::vector<Fault> handles_added_as_grave(const Markup& file) { return handles_added_where(file, true); }

std::vector<Fault> sign_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element sign : file.all("sign")) {
    std::vector<Markup::Element> also = questions_of(file, {file.value(sign, "fact")});
    for (const Markup::Element rule : watches(file)) {
      const auto facts = facts_of(file, rule);
      if (std::find(facts.begin(), facts.end(), file.value(sign, "fact")) != facts.end()) also.push_back(rule);
    }
    faults.push_back(
        Fault{{file.without(sign)}, sign, "the sign `" + file.value(sign, "fact") + "` left out", std::move(also)});
  }
  return faults;
}

std::vector<Fault> opening_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element ask : file.all("ask")) {
    if (file.name(*file.parent(ask)) != "opening") continue;
    faults.push_back(Fault{{file.without(ask)},
                           *file.parent(ask),
                           "the opening does not ask `" + file.value(ask, "fact") + "`",
                           questions_of(file, {file.value(ask, "fact")})});
  }
  return faults;
}

/// What only watch rules read, no longer asked anywhere: each question of it goes at once.
std::vector<Fault> question_of_a_watch_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element rule : watches(file)) {
    for (const Markup::Element test : file.within(rule, "if")) {
      const std::string fact = file.value(test, "fact");
      Edits edits;
      std::optional<Markup::Element> first;
      bool read = false;
      for (const Markup::Element other : file.all("if"))
        read = read || (file.value(other, "fact") == fact && file.around(other, "step"));
      for (const char* name : {"ask", "sign"}) {
        for (const Markup::Element ask : file.all(name)) {
          if (file.value(ask, "fact") != fact) continue;
          edits.push_back(file.without(ask));
          if (!first) first = ask;
        }
      }
      if (read || !first) continue;
      faults.push_back(Fault{std::move(edits), rule, "`" + fact + "` can be told nowhere", questions_of(file, {fact})});
    }
  }
  return faults;
}

std::vector<Fault> mouth_in_danger(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element action : file.all("do")) {
    const Markup::Element step = *file.parent(action);
    bool in_danger = false;
    for (const std::string& watch : words_in(file.value(step, "handles")))
      in_danger = in_danger || watch == "will-not-wake" || watch == "cannot-swallow" || watch == "having-seizure";
    // Where the next look is at once, the reader refuses that wait first.
    const bool at_once = file.inner(step).find("lasts=\"at-once\"") != std::string::npos;
    if (file.value(action, "kind") != "position" || !in_danger || at_once) continue;
    const std::string outcomes =
        "<on outcome=\"part\" as=\"given\"/><on outcome=\"refused\" as=\"given\"/><on outcome=\"vomited\" "
        "as=\"given\"/>"
        "<on outcome=\"none-here\" as=\"given\"/><on outcome=\"wrong\" as=\"given\"/>";
    faults.push_back(
        Fault{{file.with(action, "kind", "by-mouth"), file.with_inner(action, file.inner(action) + outcomes)},
              action,
              "something by mouth in `" + file.value(step, "id") + "`"});
  }
  return faults;
}

}  // namespace

std::vector<Operator> danger_operators() {
  constexpr Owner kExample = Owner::example;
  return {
      {"watch-removed",
       "a watch rule is left out",
       {"watch-missing", "sign-unwatched", "step-unreachable", "watch-held-back"},
       watch_removed},
      {"watch-in-part", "a watch for a danger takes a part of the answers", {"watch-missing"}, watch_in_part},
      {"told-removed",
       "a watch for news fires on old answers",
       {"watch-untold", "watch-leads-back", "watch-calms", "watch-reads-number"},
       told_removed},
      {"handles-removed",
       "a step does not handle a watch that leads to a calmer one, or to itself",
       {"watch-not-handled", "watch-leads-back", "watch-calms"},
       handles_removed},
      {"danger-not-handled",
       "a step of the emergency does not handle its danger",
       {"watch-not-handled", "watch-leads-back", "watch-calms"},
       danger_not_handled,
       kExample},
      {"handles-added",
       "a step handles a watch and is calmer than where that leads",
       {"calmer-than-watch", "too-calm", "mouth-while-danger"},
       handles_added},
      {"sign-removed", "a sign is taken out of what can get worse", {"sign-missing", "watch-untold", "sign-elsewhere"}, sign_removed},
      {"opening-removed", "the opening asks less", {"opening-lacks"}, opening_removed},
      {"watched-and-never-asked",
       "what a watch reads can be told nowhere",
       {"sign-missing", "watch-untold"},
       question_of_a_watch_removed},
      {"mouth-in-danger", "something by mouth in a danger", {"mouth-while-danger"}, mouth_in_danger},
      {"watch-for-news-removed", "a watch for news is left out", {}, watch_for_news_removed, kExample},
      {"news-not-handled", "a step does not handle news, or a sign that is as grave", {}, news_not_handled, kExample},
      {"handled-as-grave",
       "a step handles a sign that leads to one no graver",
       {},
       handles_added_as_grave,
       Owner::choice},
  };
}

}  // namespace rushlight::planted
