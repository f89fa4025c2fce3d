#include <algorithm>

#include "planted/operators.hpp"

// Slips that the other places of a set give away: the same thing stands otherwise there.

namespace rushlight::planted {
namespace {

/// Every watch for news, and every one for a sign, may be held back; those for the dangers are another slip.
std::vector<Fault> watch_for_some_children(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element rule : file.all("rule")) {
    if (file.name(*file.parent(rule)) != "watch") continue;
    const std::vector<Markup::Element> tests = file.within(rule, "if");
    const bool reads_child = std::any_of(tests.begin(), tests.end(), [&](Markup::Element test) {
      return file.value(test, "fact") == "strips" || file.value(test, "fact") == "delivery";
    });
    if (tests.empty() || reads_child) continue;
    faults.push_back(Fault{{file.with_inner(rule, R"(<if fact="delivery" is="pump"/>)" + file.inner(rule))},
                           rule,
                           "watch `" + file.value(rule, "id") + "` for pumps alone"});
  }
  return faults;
}

std::vector<Fault> answers_exchanged(const Markup& file) {
  std::vector<Fault> faults;
  for (const char* kind : {"choice", "ordered-choice"}) {
    for (const Markup::Element question : file.all(kind)) {
      const std::vector<Markup::Element> answers = file.within(question, "option");
      for (std::size_t i = 0; i + 1 < answers.size(); ++i) {
        faults.push_back(Fault{{file.with_inner(answers[i], file.inner(answers[i + 1])),
                                file.with_inner(answers[i + 1], file.inner(answers[i]))},
                               answers[i],
                               "the texts of `" + file.value(answers[i], "id") + "` and `" +
                                   file.value(answers[i + 1], "id") + "` of `" + file.value(question, "id") +
                                   "` exchanged"});
      }
    }
  }
  return faults;
}

std::vector<Fault> pump_for_injections(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element action : file.all("do")) {
    if (file.value(action, "kind") != "pump") continue;
    for (const Markup::Element test : file.within(action, "if")) {
      if (file.value(test, "fact") == "delivery")
        faults.push_back(
            Fault{{file.with(test, "is", "injections")}, action, "`" + file.value(action, "id") + "` for injections"});
    }
  }
  return faults;
}

std::vector<Fault> low_is_high_in_one_language(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element text : file.all("en")) {
    const Markup::Element owner = *file.parent(text);
    if (file.name(owner) == "note" || file.name(owner) == "title") continue;
    std::string inner = file.inner(text);
    const std::size_t at = inner.find("Low");
    const std::vector<Markup::Element> spanish = file.within(owner, "es");
    if (at != 0 || inner.find("igh") != std::string::npos || spanish.empty()) continue;
    if (file.inner(spanish.front()).find("baja") == std::string::npos &&
        file.inner(spanish.front()).find("Baja") == std::string::npos)
      continue;
    inner.replace(at, 3, "High");
    if (inner.find(" low") != std::string::npos) continue;
    faults.push_back(Fault{{file.with_inner(text, inner)}, owner, "`low` is `high` in `en`"});
  }
  return faults;
}

std::vector<Fault> other_protocol(const Markup& file) {
  std::vector<Fault> faults;
  for (const char* way : {"visit", "hand-over"}) {
    for (const Markup::Element rule : file.all("rule")) {
      if (!file.has(rule, way)) continue;
      const std::string own = file.file().substr(0, file.file().find('.'));
      std::string other = file.value(rule, way) == "low" ? "ketones" : "low";
      if (other == own) other = "illness";
      faults.push_back(Fault{{file.with(rule, way, other)},
                             rule,
                             "`" + file.value(*file.around(rule, "step"), "id") + "` goes to `" + other + "`"});
    }
  }
  return faults;
}

/// A step that all others come to by waits that nobody answered.
std::vector<Fault> rule_leads_to_silence(const Markup& file) {
  std::vector<Fault> faults;
  for (const Markup::Element rule : file.all("rule")) {
    const auto step = file.around(rule, "step");
    if (!step || !file.has(rule, "go") || file.value(*step, "id") == "nobody-checked" || file.has(rule, "visit"))
      continue;
    faults.push_back(Fault{{file.with(rule, "go", "nobody-checked")},
                           rule,
                           "a rule of `" + file.value(*step, "id") + "` goes to `nobody-checked`"});
  }
  return faults;
}

}  // namespace

std::vector<Operator> set_operators() {
  return {
      {"watch-for-some", "a watch looks out for some children only", {"watch-held-back"}, watch_for_some_children},
      {"pump-for-injections",
       "a pump is to be paused or started by a child on injections",
       {"pump-unworn"},
       pump_for_injections},
      {"low-is-high", "one language says low and the other high", {"languages-apart"}, low_is_high_in_one_language},
      {"rule-to-silence", "a rule leads to the step for a check that is late", {"odd-way"}, rule_leads_to_silence},
      {"answers-exchanged", "the texts of two answers are exchanged", {}, answers_exchanged, Owner::example},
      {"other-protocol", "a rule goes to another protocol", {}, other_protocol, Owner::example},
  };
}

}  // namespace rushlight::planted
