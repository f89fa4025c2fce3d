#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "finding/quoted.hpp"
#include "verify/in_words.hpp"
#include "verify/set_properties.hpp"

namespace rushlight {

namespace {

std::string said_in_all(const Protocol& protocol, const Text& text) {
  std::string all;
  for (const Template& line : text.line) all += text_by_names(protocol, line) + "\n";
  return all;
}

constexpr int kEnoughTwins = 3;

/// A thing of which others say the same, and what it does otherwise.
struct Twin {
  const Protocol* protocol;
  const Action* action;
  std::string value;
};

/// The one among several that all agree; none where two differ.
const Twin* odd_among(const std::vector<Twin>& twins) {
  const Twin* odd = nullptr;
  std::map<std::string, int> times;
  for (const Twin& twin : twins) ++times[twin.value];
  if (times.size() != 2 || static_cast<int>(twins.size()) <= kEnoughTwins) return nullptr;
  for (const Twin& twin : twins) {
    if (times[twin.value] == 1) odd = &twin;
  }
  return odd;
}

bool takes(const Conditions& conditions, FactId fact, std::uint64_t option) {
  return std::all_of(conditions.begin(), conditions.end(), [&](const Condition& each) {
    const auto* is = std::get_if<Is>(&each.test);
    return is == nullptr || !(is->fact == fact) || (is->options & option) != 0;
  });
}

/// Whether only children on injections are shown it.
bool is_for_injections_alone(const Protocol& protocol, const Action& action) {
  const FactId delivery = fact_id(ChildFact::delivery);
  const std::vector<Option>& options = protocol[delivery].options;
  bool injections = false, pumps = false;
  for (std::size_t i = 0; i < options.size(); ++i) {
    if (takes(action.when, delivery, std::uint64_t{1} << i))
      (options[i].name == "injections" ? injections : pumps) = true;
  }
  return injections && !pumps;
}

bool names_a_pump(const Protocol& protocol, const Action& action) {
  const std::string said = said_in_all(protocol, action.text);
  return action.kind == ActionKind::pump || said.find("pump") != std::string::npos ||
         said.find("bomba") != std::string::npos;
}

/// A sentence with its blanks left open: who says it, and what stands in them.
struct SaidWith {
  const Protocol* protocol;
  Where where;
  std::string blanks;
};

using Sentences = std::map<std::string, std::vector<SaidWith>>;

void add_sentences(const Protocol& protocol, const Text& text, const Where& where, Sentences& all) {
  const std::string said = text_by_names(protocol, text.line[0]);
  std::string words, blanks;
  int letters = 0;
  for (std::size_t at = 0; at < said.size(); ++at) {
    if (said[at] == '{') {
      const std::size_t end = std::min(said.find('}', at), said.size() - 1);
      blanks += said.substr(at, end + 1 - at);
      words += "{}";
      at = end;
      continue;
    }
    words += said[at];
    letters += said[at] == ' ' ? 1 : 0;
    const bool ends = (said[at] == '.' || said[at] == '!' || said[at] == '?' || said[at] == ';') &&
                      (at + 1 == said.size() || said[at + 1] == ' ');
    if (!ends && at + 1 < said.size()) continue;
    constexpr int kFewWords = 3;
    if (!blanks.empty() && letters >= kFewWords) all[words].push_back({&protocol, where, blanks});
    words.clear();
    blanks.clear();
    letters = 0;
    if (at + 1 < said.size()) ++at;
  }
}

/// The blank that stands in one and not in the other.
std::string blank_beyond(const std::string& all, const std::string& others) {
  std::size_t from = 0;
  while (from < all.size()) {
    const std::size_t end = all.find('}', from) + 1;
    std::string blank = all.substr(from, end - from);
    if (others.find(blank) == std::string::npos) return blank;
    from = end;
  }
  return all.substr(0, all.find('}') + 1);
}

}  // namespace

void same_words_are_shown_alike(const Protocols& protocols, std::vector<Finding>& findings) {
  std::map<std::string, std::vector<Twin>> said;
  for (const Protocol* protocol : protocols) {
    for (const Action& action : protocol->actions) {
      if (names_a_pump(*protocol, action) && is_for_injections_alone(*protocol, action)) {
        warn_of(findings, action.where, PumpUnworn{action.name});
        continue;
      }
      const std::string words = std::string(name_of(action.kind)) + "\n" + said_in_all(*protocol, action.text);
      said[words].push_back({protocol, &action, in_one_order(*protocol, action.when)});
    }
  }
  for (const auto& [words, twins] : said) {
    const Twin* odd = odd_among(twins);
    if (odd == nullptr) continue;
    const Twin& other = odd == &twins.front() ? twins.back() : twins.front();
    warn_of(findings, odd->action->where,
            ShownOtherwise{odd->action->name, odd->value, other.value, static_cast<int>(twins.size()) - 1},
            Because{"one of them", other.action->where});
  }
}

void same_words_have_the_same_blanks(const Protocols& protocols, std::vector<Finding>& findings) {
  Sentences all;
  for (const Protocol* protocol : protocols) {
    for (const Step& step : protocol->steps) add_sentences(*protocol, step.headline, step.where, all);
    for (const Action& action : protocol->actions) add_sentences(*protocol, action.text, action.where, all);
    for (const Watch& watch : protocol->watch) {
      if (watch.also) add_sentences(*protocol, *watch.also, watch.where, all);
    }
  }
  for (const auto& [words, told] : all) {
    std::map<std::string, int> times;
    for (const SaidWith& each : told) ++times[each.blanks];
    if (times.size() != 2 || told.size() < kEnoughTwins) continue;
    const auto odd =
        std::find_if(told.begin(), told.end(), [&](const SaidWith& each) { return times[each.blanks] == 1; });
    if (odd == told.end()) continue;
    const SaidWith& other = odd == told.begin() ? told.back() : told.front();
    warn_of(findings, odd->where,
            OtherBlank{blank_beyond(odd->blanks, other.blanks), blank_beyond(other.blanks, odd->blanks),
                       static_cast<int>(told.size()) - 1},
            Because{"one of them", other.where});
  }
}

namespace {

struct LedToProtocol {
  const Rule* rule;
  const Step* step;
  std::string to;
};

std::string led_to(const Rule& rule) { return rule.visits.empty() ? rule.hands_over_to : rule.visits; }

/// The kinds of numbers that a protocol is chosen by.
std::vector<std::string> judged_in(const Protocol& protocol, const Rule& rule) {
  std::vector<std::string> all;
  for (const Condition& condition : rule.when) {
    const auto* test = std::get_if<Compares>(&condition.test);
    if (test == nullptr) continue;
    const FactKind kind = protocol[test->fact].kind;
    if (kind == FactKind::glucose || kind == FactKind::ketones) all.push_back(in_words(protocol, condition));
  }
  return all;
}

/// The one that leads elsewhere than at least so many others, which agree.
void tell_the_odd_one(const std::vector<LedToProtocol>& rules, const std::string& when, std::set<const Rule*>& told,
                      std::vector<Finding>& findings) {
  std::map<std::string, int> times;
  for (const LedToProtocol& each : rules) ++times[each.to];
  if (times.size() != 2 || static_cast<int>(rules.size()) <= kEnoughTwins) return;
  const LedToProtocol *odd = nullptr, *other = nullptr;
  for (const LedToProtocol& each : rules) (times[each.to] == 1 ? odd : other) = &each;
  if (odd == nullptr || other == nullptr || !told.insert(odd->rule).second) return;
  warn_of(findings, odd->rule->where,
          OtherProtocol{odd->step->name, odd->to, when, other->to, static_cast<int>(rules.size()) - 1},
          Because{"one of them", other->rule->where});
}

}  // namespace

void same_cases_go_to_the_same_protocol(const Protocols& protocols, std::vector<Finding>& findings) {
  std::map<std::string, std::vector<LedToProtocol>> judged;
  std::set<const Rule*> told;
  for (const Protocol* protocol : protocols) {
    std::vector<LedToProtocol> from_here;
    for (const Step& step : protocol->steps) {
      for (const Rule& rule : step.rules) {
        if (led_to(rule).empty()) continue;
        from_here.push_back({&rule, &step, led_to(rule)});
        for (std::string& words : judged_in(*protocol, rule)) judged[std::move(words)].push_back(from_here.back());
      }
    }
    tell_the_odd_one(from_here, "", told, findings);
  }
  for (const auto& [words, rules] : judged) tell_the_odd_one(rules, words, told, findings);
}

void watches_of_one_name_fire_alike(const Protocols& protocols, std::vector<Finding>& findings) {
  for (const Protocol* here : protocols) {
    for (const Watch& watch : here->watch) {
      for (const Protocol* there : protocols) {
        const auto other = std::find_if(there->watch.begin(), there->watch.end(),
                                        [&](const Watch& each) { return each.name == watch.name; });
        if (here == there || other == there->watch.end() || other->when.size() >= watch.when.size()) continue;
        std::set<std::string> asked;
        for (const Condition& each : other->when) asked.insert(in_words(*there, each));
        const Condition* beside = nullptr;
        std::size_t shared = 0;
        for (const Condition& each : watch.when) {
          if (asked.count(in_words(*here, each)) > 0)
            ++shared;
          else
            beside = &each;
        }
        const auto* is = beside == nullptr ? nullptr : std::get_if<Is>(&beside->test);
        // How far the night has come, and what the child file says, is looked at elsewhere.
        if (shared != other->when.size() || is == nullptr || (*here)[is->fact].from_child) continue;
        const bool said = std::any_of(findings.begin(), findings.end(),
                                      [&](const Finding& each) { return each.where == beside->where; });
        if (!said)
          warn_of(findings, beside->where,
                  WatchHeldBack{watch.name, in_one_order(*there, other->when), in_words(*here, *beside)},
                  Because{"the rule in " + quoted(there->name), other->where});
      }
    }
  }
}

}  // namespace rushlight
