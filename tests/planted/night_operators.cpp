#include <algorithm>

#include "planted/operators.hpp"

// Slips in how a night goes on: waits, rounds, questions, calls, visits.

namespace rushlight::planted {
namespace {

std::string step_of(const Markup& file, Markup::Element element) {
  const auto step = file.around(element, "step");
  return step ? " of `" + file.value(*step, "id") + "`" : "";
}

/// One fault for each element of this name that has the attribute.
template <class Make>
std::vector<Fault> each_with(const Markup& file, const std::string& element, const std::string& attribute,
                             const Make& make) {
  std::vector<Fault> faults;
  for (const Markup::Element one : file.all(element)) {
    if (file.has(one, attribute)) make(one, faults);
  }
  return faults;
}

std::vector<Fault> attribute_removed(const Markup& file, const std::string& element, const std::string& attribute) {
  return each_with(file, element, attribute, [&](Markup::Element one, std::vector<Fault>& faults) {
    faults.push_back(Fault{{file.without(one, attribute)},
                           one,
                           "the `" + element + "`" + step_of(file, one) + " without `" + attribute + "`"});
  });
}

/// Where something has to work first, or the screen names the time; or (`others`) elsewhere.
std::vector<Fault> wait_removed_where(const Markup& file, bool others) {
  std::vector<Fault> faults;
  for (const Markup::Element wait : file.all("wait")) {
    const Markup::Element step = *file.parent(wait);
    const std::string inner = file.inner(step);
    bool needed = inner.find("{again}") != std::string::npos || inner.find("{until}") != std::string::npos;
    for (const Markup::Element action : file.within(step, "do"))
      needed = needed || (file.has(action, "dose") && file.value(action, "kind") != "fluid");
    for (const Markup::Element rule : file.within(step, "rule")) needed = needed || file.has(rule, "early");
    if (needed == others) continue;
    faults.push_back(Fault{{file.without(wait)}, step, "the wait" + step_of(file, wait) + " left out"});
  }
  return faults;
}
std::vector<Fault> wait_removed(const Markup& file) { return wait_removed_where(file, false); }
std::vector<Fault> other_wait_removed(const Markup& file) { return wait_removed_where(file, true); }

std::vector<Fault> overdue_removed(const Markup& file) { return attribute_removed(file, "wait", "overdue"); }
std::vector<Fault> late_way_removed(const Markup& file) { return attribute_removed(file, "wait", "go"); }

/// Where a counter is counted in one place only, or (`several`) in others too.
std::vector<Fault> counts_removed_where(const Markup& file, bool several) {
  return each_with(file, "step", "counts", [&](Markup::Element one, std::vector<Fault>& faults) {
    const std::string counter = file.value(one, "counts");
    std::size_t places = 0;
    for (const char* element : {"step", "do"}) {
      for (const Markup::Element other : file.all(element)) places += file.value(other, "counts") == counter ? 1U : 0U;
    }
    std::vector<Markup::Element> readers;  // the rules that wait for it
    for (const Markup::Element test : file.all("if")) {
      if (file.value(test, "counter") == counter && file.name(*file.parent(test)) == "rule")
        readers.push_back(*file.parent(test));
    }
    if ((places > 1) != several || readers.empty()) return;
    faults.push_back(Fault{
        {file.without(one, "counts")}, one, "`" + file.value(one, "id") + "` does not count", std::move(readers)});
  });
}
std::vector<Fault> counts_removed(const Markup& file) { return counts_removed_where(file, false); }
std::vector<Fault> counts_removed_here(const Markup& file) { return counts_removed_where(file, true); }

/// A reading, in a step without a wait that does nothing first, and that what leads to it has just asked.
std::vector<Fault> reading_asked_again(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element ask : file.all("ask")) {
    const Markup::Element step = *file.parent(ask);
    const std::string fact = file.value(ask, "fact");
    if (file.name(step) != "step" || !file.has(ask, "fresh") || (fact != "glucose" && fact != "ketones")) continue;
    bool acts = !file.within(step, "wait").empty(), asked_before = false;
    for (const Markup::Element action : file.within(step, "do")) {
      const std::string kind = file.value(action, "kind");
      acts = acts || kind == "measure" || kind == "by-mouth" || kind == "glucagon";
    }
    for (const Markup::Element rule : file.all("rule")) {
      const auto from = file.around(rule, "step");
      if (!from || *from == step || file.value(rule, "go") != file.value(step, "id")) continue;
      for (const Markup::Element other : file.within(*from, "ask"))
        asked_before = asked_before || file.value(other, "fact") == fact;
    }
    if (!acts && asked_before)
      faults.push_back(
          Fault{{file.without(ask, "fresh")}, ask, "`" + file.value(step, "id") + "` asks `" + fact + "` again"});
  }
  return faults;
}

std::vector<Fault> fresh_of_a_choice_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (Fault& fault : attribute_removed(file, "ask", "fresh")) {
    const std::string fact = file.value(fault.at, "fact");
    if (fact != "glucose" && fact != "ketones") faults.push_back(std::move(fault));
  }
  return faults;
}
std::vector<Fault> resets_removed(const Markup& file) { return attribute_removed(file, "rule", "resets"); }
std::vector<Fault> early_removed(const Markup& file) { return attribute_removed(file, "rule", "early"); }
std::vector<Fault> ends_removed(const Markup& file) { return attribute_removed(file, "step", "ends"); }

std::vector<Fault> late_and_calm(const Markup& file) {
  std::vector<Fault> faults;
  std::string calm;
  for (const Markup::Element step : file.all("step")) {
    if (calm.empty() && file.value(step, "urgency") == "home" && file.has(step, "ends")) calm = file.value(step, "id");
  }
  for (const Markup::Element wait : file.all("wait"))
    faults.push_back(Fault{{file.with(wait, "go", calm)},
                           wait,
                           "nobody answers after the wait" + step_of(file, wait) + ": `" + calm + "`"});
  return faults;
}

bool is_read_in(const Markup& file, Markup::Element step, const std::string& fact) {
  for (const Markup::Element test : file.within(step, "if")) {
    if (file.value(test, "fact") == fact && file.name(*file.parent(test)) == "rule") return true;
  }
  return false;
}

std::vector<Fault> ask_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element ask : file.all("ask")) {
    const Markup::Element step = *file.parent(ask);
    const std::string fact = file.value(ask, "fact");
    if (file.name(step) != "step" || !is_read_in(file, step, fact)) continue;
    faults.push_back(
        Fault{{file.without(ask)}, step, "the question `" + fact + "`" + step_of(file, ask) + " left out"});
  }
  return faults;
}

std::vector<Fault> outcome_removed(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element on : file.all("on")) {
    const Markup::Element action = *file.parent(on);
    const std::string kind = file.value(action, "kind");
    if (kind.rfind("call-", 0) == 0) continue;  // need none
    faults.push_back(Fault{
        {file.without(on)}, action, "`" + file.value(action, "id") + "` without `" + file.value(on, "outcome") + "`"});
  }
  return faults;
}

std::vector<Fault> refused_as_given(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element on : file.all("on")) {
    const Markup::Element action = *file.parent(on);
    const std::string kind = file.value(action, "kind"), outcome = file.value(on, "outcome");
    const bool needed = (kind == "by-mouth" || kind == "glucagon" || kind == "insulin") && file.has(action, "dose");
    const std::string urgency = file.value(*file.parent(action), "urgency");
    if (!needed || !file.has(on, "go") || outcome == "part" || urgency == "clinic-now" || urgency == "emergency")
      continue;
    faults.push_back(Fault{{file.without(on, "go"), file.with(on, "as", "given")},
                           on,
                           "`" + file.value(action, "id") + "` " + outcome + " counts as given"});
  }
  return faults;
}

/// The only call of a step that waits for help, or (`others`) any other.
std::vector<Fault> call_removed_where(const Markup& file, bool others) {
  std::vector<Fault> faults;
  const auto is_call = [&](Markup::Element action) { return file.value(action, "kind").rfind("call-", 0) == 0; };
  for (const Markup::Element action : file.all("do")) {
    if (!is_call(action)) continue;
    const Markup::Element step = *file.parent(action);
    const std::string urgency = file.value(step, "urgency");
    std::size_t calls = 0;
    for (const Markup::Element other : file.within(step, "do")) calls += is_call(other) ? 1U : 0U;
    const bool waits_for_help =
        !file.within(step, "wait").empty() && (urgency == "clinic-now" || urgency == "emergency");
    if ((calls == 1 && waits_for_help) == others) continue;
    faults.push_back(Fault{{file.without(action)},
                           step,
                           "the call `" + file.value(action, "id") + "`" + step_of(file, action) + " left out"});
  }
  return faults;
}
std::vector<Fault> call_removed(const Markup& file) { return call_removed_where(file, false); }
std::vector<Fault> other_call_removed(const Markup& file) { return call_removed_where(file, true); }

std::vector<Fault> urgency_lowered(const Markup& file) {
  std::vector<Fault> faults;
  const std::vector<std::string> order{"home", "clinic", "clinic-now", "emergency"};
  for (const Markup::Element step : file.all("step")) {
    const auto now = std::find(order.begin(), order.end(), file.value(step, "urgency"));
    if (now == order.begin() || now == order.end()) continue;
    const std::string calmer = *std::prev(now);
    faults.push_back(
        Fault{{file.with(step, "urgency", calmer)}, step, "`" + file.value(step, "id") + "` is " + calmer});
  }
  return faults;
}

std::vector<Fault> back_elsewhere(const Markup& file) {
  std::vector<Fault> faults;
  const std::vector<Markup::Element> steps = file.all("step");
  for (const Markup::Element rule : file.all("rule")) {
    if (!file.has(rule, "visit")) continue;
    const Markup::Element here = *file.around(rule, "step");
    faults.push_back(Fault{{file.with(rule, "go", file.value(here, "id"))},
                           rule,
                           "the visit" + step_of(file, rule) + " comes back to where it began"});
    faults.push_back(
        Fault{{file.without(rule, "go")}, rule, "the visit" + step_of(file, rule) + " comes back to nowhere"});
  }
  return faults;
}

std::vector<Fault> to_itself(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element rule : file.all("rule")) {
    const auto step = file.around(rule, "step");
    if (!step || !file.has(rule, "go") || file.has(rule, "visit") || file.value(rule, "go") == file.value(*step, "id"))
      continue;
    faults.push_back(
        Fault{{file.with(rule, "go", file.value(*step, "id"))}, rule, "a rule" + step_of(file, rule) + " goes round"});
  }
  return faults;
}

std::vector<Fault> to_the_end(const Markup& file) {
  std::vector<Fault> faults;
  std::string calm;
  for (const Markup::Element step : file.all("step")) {
    if (calm.empty() && file.value(step, "urgency") == "home" && file.has(step, "ends")) calm = file.value(step, "id");
  }
  for (const Markup::Element rule : file.all("rule")) {
    const auto step = file.around(rule, "step");
    if (!step || !file.has(rule, "go") || file.has(rule, "visit") || file.value(rule, "go") == calm) continue;
    faults.push_back(
        Fault{{file.with(rule, "go", calm)}, rule, "a rule" + step_of(file, rule) + " goes to `" + calm + "`"});
  }
  return faults;
}

std::vector<Fault> reminder_removed(const Markup& file) {
  return each_with(file, "do", "starts", [&](Markup::Element one, std::vector<Fault>& faults) {
    faults.push_back(Fault{{file.without(one, "starts"), file.without(one, "lasts")},
                           one,
                           "`" + file.value(one, "id") + "` starts no reminder"});
  });
}

std::vector<Fault> records_removed(const Markup& file) {
  return each_with(file, "do", "records", [&](Markup::Element one, std::vector<Fault>& faults) {
    if (!file.has(one, "starts")) return;
    faults.push_back(Fault{{file.without(one, "records"), file.without(one, "as")},
                           one,
                           "`" + file.value(one, "id") + "` records nothing"});
  });
}

}  // namespace

std::vector<Operator> night_operators() {
  constexpr Owner kExample = Owner::example;
  return {
      {"wait-removed",
       "a wait is left out",
       {"loop-without-wait", "asks-at-once", "until-without-wait", "early-rule-untold", "step-unreachable",
        "asked-twice"},
       wait_removed},
      {"overdue-removed", "a wait does not say when an answer is late", {"missing-attribute"}, overdue_removed},
      {"late-way-removed",
       "a wait does not say where it goes on when nobody answers",
       {"missing-attribute"},
       late_way_removed},
      {"late-and-calm", "nobody answers, and the night ends", {"late-and-calm"}, late_and_calm},
      {"counts-removed",
       "nothing counts a counter any more",
       {"loop-without-limit", "never-counted"},
       counts_removed},
      {"reading-asked-again", "a reading that was just taken is asked again", {"asked-twice"}, reading_asked_again},
      {"ends-removed", "an end is no end", {"dead-end"}, ends_removed},
      {"ask-removed", "a question that a rule reads is left out", {"fact-not-asked"}, ask_removed},
      {"outcome-removed", "an outcome is left out", {"missing-outcome"}, outcome_removed},
      {"refused-as-given", "what did not go in counts as given", {"not-given"}, refused_as_given},
      {"urgency-lowered",
       "a step is one urgency calmer",
       {"too-calm", "calmer-than-watch", "emergency-left", "late-and-calm", "calmer-than-call", "watch-calms",
        "mouth-while-danger"},
       urgency_lowered,
       kExample},
      {"visit-comes-back-elsewhere",
       "a visit to another protocol comes back to the wrong step",
       {"missing-attribute", "loop-without-limit", "loop-without-wait", "step-unreachable"},
       back_elsewhere},
      {"goes-round",
       "a rule leads back to its own step",
       {"loop-without-wait", "loop-without-limit", "step-unreachable"},
       to_itself},
      {"goes-to-the-end", "a rule leads to the calm end", {}, to_the_end, kExample},
      {"reminder-removed", "a paused pump starts no timer", {"pump-forgotten"}, reminder_removed},
      {"pause-not-recorded", "a paused pump is not remembered", {"pump-forgotten"}, records_removed},
      {"counts-removed-here", "one of several steps no longer counts", {}, counts_removed_here, kExample},
      {"resets-removed", "a counter is not set back", {}, resets_removed, kExample},
      {"early-removed", "a rule no longer looks during the wait", {}, early_removed, kExample},
      {"call-removed", "the only call of a step that waits for help is left out", {}, call_removed, kExample},
      {"other-wait-removed", "a wait is left out where nothing has to work first", {}, other_wait_removed, kExample},
      {"other-call-removed", "a call is left out where another was made", {}, other_call_removed, kExample},
      {"asked-again", "a choice is asked again where it was still fresh", {}, fresh_of_a_choice_removed, Owner::choice},
  };
}

}  // namespace rushlight::planted
