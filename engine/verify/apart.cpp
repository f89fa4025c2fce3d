#include "verify/apart.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <tuple>

#include "verify/dangers.hpp"
#include "verify/set_properties.hpp"

namespace rushlight {

namespace {

/// As a comparable word: blanks by their names, since their places differ from file to file.
std::string read_aloud(const Protocol& protocol, const Text& text) {
  std::string all;
  for (const Template& line : text.line) {
    for (const Piece& piece : line) {
      if (const auto* words = std::get_if<std::string>(&piece)) all += *words;
      if (const auto* limit = std::get_if<ThresholdId>(&piece)) all += "{" + protocol[*limit].name + "}";
      if (const auto* dose = std::get_if<DoseId>(&piece)) all += "{" + protocol[*dose].name + "}";
      if (const auto* filler = std::get_if<Filler>(&piece))
        all += "{" + std::to_string(static_cast<int>(*filler)) + "}";
    }
    all += "\n";
  }
  return all;
}

std::string value_of(const Threshold& threshold) {
  std::string all;
  for (const Band& band : threshold.bands) {
    if (!all.empty()) all += "; ";
    all += text_from_limit(band.value, GlucoseUnit::mg_per_dl);
    if (threshold.kind == ThresholdKind::glucose) all += ", " + text_from_limit(band.value, GlucoseUnit::mmol_per_l);
  }
  return all;
}

struct Said {
  const Protocol* protocol;
  Where where;
  std::string value;  // what is compared
};

/// One finding for each that says otherwise than most, or than the first where none are most.
template <class Tell>
void tell_apart(const std::vector<Said>& all, Tell tell) {
  std::map<std::string, int> times;
  for (const Said& said : all) ++times[said.value];
  if (times.size() < 2) return;
  const Said* usual = &all.front();
  for (const Said& said : all) {
    if (times[said.value] > times[usual->value]) usual = &said;
  }
  for (const Said& said : all) {
    if (said.value != usual->value) tell(said, *usual);
  }
}

class Apart {
 public:
  explicit Apart(const std::vector<const Protocol*>& protocols) : protocols_(protocols) {}

  std::vector<Finding> look() {
    look_at_sets();
    look_at_numbers();
    look_at_questions();
    look_at_signs();
    look_at_watches();
    watches_of_one_name_fire_alike(protocols_, findings_);
    answers_keep_their_texts(protocols_, findings_);
    same_words_are_shown_alike(protocols_, findings_);
    same_words_have_the_same_blanks(protocols_, findings_);
    same_cases_go_to_the_same_protocol(protocols_, findings_);
    cannot_tell_goes_with_the_same_answer(protocols_, findings_);
    sort_findings(findings_);
    return std::move(findings_);
  }

 private:
  void warn(const Where& where, Kind kind, const Where& because, std::string text) {
    findings_.push_back(Finding{Severity::warning, where, std::move(kind), Because{std::move(text), because}});
  }

  void look_at_sets() {
    std::vector<Said> all;
    for (const Protocol* protocol : protocols_) all.push_back({protocol, protocol->where, protocol->set});
    tell_apart(all, [&](const Said& here, const Said& there) {
      warn(here.where, SetsMixed{here.value, there.value, there.protocol->name}, there.where, "the other one");
    });
  }

  // What a reading is judged by. How long a file waits or how often it tries is its own; where one name means two
  // things, their labels say so.
  void look_at_numbers() {
    std::map<std::pair<std::string, std::string>, std::vector<Said>> named;
    for (const Protocol* protocol : protocols_) {
      for (const Threshold& threshold : protocol->thresholds) {
        if (threshold.kind != ThresholdKind::glucose && threshold.kind != ThresholdKind::ketones) continue;
        named[{threshold.name, read_aloud(*protocol, threshold.label)}].push_back(
            {protocol, threshold.where, value_of(threshold)});
      }
    }
    for (const auto& [name, all] : named) {
      tell_apart(all, [&, &id = name.first](const Said& here, const Said& there) {
        warn(here.where, ApartInSet{"number", id, here.value, there.value, there.protocol->name}, there.where,
             "the other one");
      });
    }
  }

  // The danger signs, and what is counted; others each protocol may ask in its own way.
  static bool means_one_thing(const Fact& fact) {
    return fact.kind == FactKind::count || std::any_of(std::begin(kDangers), std::end(kDangers),
                                                       [&](const Danger& danger) { return danger.fact == fact.name; });
  }

  void look_at_questions() {
    std::map<std::string, std::vector<Said>> named;
    for (const Protocol* protocol : protocols_) {
      for (const Fact& fact : protocol->facts) {
        if (fact.from_child || !means_one_thing(fact)) continue;
        // With other answers it is another question.
        std::string name = fact.name, words = read_aloud(*protocol, fact.question);
        for (const Option& option : fact.options) {
          name += " " + option.name;
          words += read_aloud(*protocol, option.text);
        }
        named[name].push_back({protocol, fact.where, std::move(words)});
      }
    }
    for (const auto& [name, all] : named) {
      tell_apart(all, [&, &id = name](const Said& here, const Said& there) {
        warn(here.where, ApartInSet{"question", id.substr(0, id.find(' ')), "", "", there.protocol->name}, there.where,
             "the other one");
      });
    }
  }

  // Only where the news leads to a call at once: what a protocol does not look out for is no sign of it.
  static bool looks_out_for(const Protocol& protocol, const Fact& fact, const std::string& answer) {
    return std::any_of(protocol.watch.begin(), protocol.watch.end(), [&](const Watch& watch) {
      if (protocol[watch.go].urgency < Urgency::clinic_now) return false;
      return std::any_of(watch.when.begin(), watch.when.end(), [&](const Condition& condition) {
        const auto* test = std::get_if<Is>(&condition.test);
        if (test == nullptr || protocol[test->fact].name != fact.name) return false;
        const std::vector<Option>& options = protocol[test->fact].options;
        for (std::size_t i = 0; i < options.size(); ++i) {
          if (options[i].name == answer && (test->options >> i & 1U) != 0) return true;
        }
        return false;
      });
    });
  }

  static bool has_sign(const Protocol& protocol, const std::string& fact, const std::string& answer) {
    return std::any_of(protocol.worse.begin(), protocol.worse.end(), [&](const Sign& sign) {
      return protocol[sign.fact].name == fact && protocol[sign.fact].options[sign.option].name == answer;
    });
  }

  void look_at_signs() {
    for (const Protocol* here : protocols_) {
      for (const Protocol* there : protocols_) {
        for (const Sign& sign : there->worse) {
          const Fact& fact = (*there)[sign.fact];
          const std::string& answer = fact.options[sign.option].name;
          const bool lacks = here != there && !here->worse.empty() && !has_sign(*here, fact.name, answer) &&
                             looks_out_for(*here, fact, answer);
          const bool told = std::any_of(findings_.begin(), findings_.end(), [&](const Finding& finding) {
            const auto* kind = finding.kind.as<SignElsewhere>();
            return kind != nullptr && finding.where.file == here->where.file && kind->fact == fact.name &&
                   kind->answer == answer;
          });
          if (lacks && !told)
            warn(here->worse.front().where, SignElsewhere{fact.name, answer, there->name}, sign.where,
                 "the sign there");
        }
      }
    }
  }

  /// A question, and what of it is looked out for, in words that mean the same in each file: `clinic-said` and "come",
  /// `glucose` and "below".
  struct LookedOutFor {
    std::string question, answer;
    bool is_option;
    friend bool operator<(const LookedOutFor& a, const LookedOutFor& b) {
      return std::tie(a.question, a.answer, a.is_option) < std::tie(b.question, b.answer, b.is_option);
    }
  };
  using Watched = std::map<LookedOutFor, const Watch*>;

  static Watched watched_in(const Protocol& protocol) {
    Watched found;
    for (const Watch& watch : protocol.watch) {
      for (const Condition& condition : watch.when) {
        if (const auto* test = std::get_if<Is>(&condition.test)) {
          const Fact& fact = protocol[test->fact];
          for (std::size_t i = 0; i < fact.options.size() && !fact.from_child; ++i) {
            if ((test->options >> i & 1U) != 0) found.try_emplace({fact.name, fact.options[i].name, true}, &watch);
          }
        } else if (const auto* compares = std::get_if<Compares>(&condition.test)) {
          const bool low = compares->comparison == Comparison::below || compares->comparison == Comparison::at_most;
          found.try_emplace({protocol[compares->fact].name, low ? "below" : "above", false}, &watch);
        }
      }
    }
    return found;
  }

  // "Something was given" is looked out for where another answer to the same question is.
  static bool is_watched(const Watched& here, const LookedOutFor& what) {
    return std::any_of(here.begin(), here.end(), [&](const auto& each) {
      return each.first.question == what.question && (what.is_option || each.first.answer == what.answer);
    });
  }

  static bool can_be_told(const Protocol& protocol, const LookedOutFor& what) {
    const auto fact = protocol.fact_named(what.question);
    if (!fact || !what.is_option) return fact.has_value();
    const std::vector<Option>& options = protocol[*fact].options;
    return std::any_of(options.begin(), options.end(), [&](const Option& each) { return each.name == what.answer; });
  }

  // One file alone may leave something out on purpose; what all the others look out for was lost.
  void look_at_watches() {
    if (protocols_.size() < 3) return;
    std::vector<Watched> all;
    for (const Protocol* each : protocols_) all.push_back(watched_in(*each));
    for (std::size_t here = 0; here < protocols_.size(); ++here) {
      if (protocols_[here]->watch.empty()) continue;
      std::string others;
      for (std::size_t other = 0; other < protocols_.size(); ++other) {
        if (other != here) others += (others.empty() ? "`" : " and `") + protocols_[other]->name + "`";
      }
      std::set<const Watch*> told;
      for (const auto& [what, watch] : all[here == 0 ? 1 : 0]) {
        bool everywhere_else = true;
        for (std::size_t other = 0; other < protocols_.size(); ++other)
          everywhere_else = everywhere_else && (other == here || all[other].count(what) > 0);
        const bool lost = everywhere_else && !is_watched(all[here], what) && can_be_told(*protocols_[here], what);
        if (lost && told.insert(watch).second)
          warn(protocols_[here]->watch.front().where, WatchElsewhere{watch->name, others}, watch->where,
               "the rule there");
      }
    }
  }

  const std::vector<const Protocol*>& protocols_;
  std::vector<Finding> findings_;
};

}  // namespace

std::vector<Finding> apart_in_set(const std::vector<const Protocol*>& protocols) { return Apart(protocols).look(); }

}  // namespace rushlight
