#pragma once

#include <fstream>
#include <iterator>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>

#include "episode/view.hpp"
#include "finding/finding.hpp"
#include "protocol/resolve.hpp"
#include "read/protocol_from_xml.hpp"
#include "verify/check.hpp"

namespace rushlight::test {

inline std::string text_of_file(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  if (!file) throw std::runtime_error("cannot open " + path);
  return {std::istreambuf_iterator<char>(file), {}};
}

/// A protocol through every stage; throws with all findings when one refuses it.
inline CheckedProtocol checked_text(const std::string& text, const std::string& path) {
  Read<Draft> draft = protocol_from_xml(text, path);
  std::vector<Finding> findings = draft.findings;
  if (draft.value && !has_error(findings)) {
    Read<Protocol> protocol = resolve(*draft.value);
    findings.insert(findings.end(), protocol.findings.begin(), protocol.findings.end());
    if (protocol.value) {
      Checked result = check(std::move(*protocol.value));
      if (result.protocol) return *result.protocol;
      findings.insert(findings.end(), result.findings.begin(), result.findings.end());
    }
  }
  std::ostringstream all;
  for (const Finding& finding : findings) all << text_from_finding(finding, std::nullopt) << "\n";
  throw std::runtime_error(all.str());
}

/// Read and proved once a run: hundreds of nights walk the same few files.
inline CheckedProtocol checked(const std::string& path) {
  static std::map<std::string, CheckedProtocol> known;
  const auto found = known.find(path);
  if (found != known.end()) return found->second;
  return known.emplace(path, checked_text(text_of_file(path), path)).first->second;
}

/// What a clock on the wall shows: "02:10".
inline std::string clock(const Moment& moment) { return text_from_clock_time(clock_time_of(moment)); }

inline const CheckedProtocol& small_low() {
  static const CheckedProtocol protocol = checked(RUSHLIGHT_SOURCE_DIR "/tests/episode/small_low.xml");
  return protocol;
}

/// Mara, an invented child of six and 21 kg on injections, with juice in the cupboard.
inline Child mara() {
  Child child{};
  child.name = "Mara";
  child.birth = *day_from_text("2020-01-15");
  child.weight = BodyWeight{Decimal::whole(21), kKilogram};
  child.weighed = *day_from_text("2026-02-10");
  child.unit = GlucoseUnit::mg_per_dl;
  child.delivery = Delivery::injections;
  child.strips = Strips::blood;
  child.rescue.push_back({RescueKind::nasal, *day_from_text("2027-06-30"), "kitchen drawer"});
  child.foods.push_back({FoodKind::juice,
                         {"apple juice", "zumo de manzana"},
                         Unit::millilitre,
                         Decimal::of_micros(9'600'000),
                         "sugars table",
                         ChildFood::Measure{{"tablespoons", "cucharadas"}, Decimal::whole(15)}});
  child.language = Language::en;
  return child;
}

/// A night told in order: each line is one event; `view` is what a face would show.
class Night {
 public:
  explicit Night(Child child = mara(), const CheckedProtocol& protocol = small_low(), const char* begin = "02:10:00")
      : protocol_(protocol), child_(std::move(child)), now_(moment(begin)) {
    episode_ = begun(protocol_.protocol(), child_, now_);
  }

  Night& at(const std::string& clock) {
    now_ = moment(clock);
    return *this;
  }
  Night& answer(const std::string& fact, const std::string& value) { return happens(Answered{{pair(fact, value)}}); }
  Night& worse(const std::string& fact, const std::string& value) { return happens(GotWorse{{pair(fact, value)}}); }
  Night& correct(const std::string& fact, const std::string& value) { return happens(Corrected{{pair(fact, value)}}); }
  Night& done() { return happens(AllDone{}); }
  Night& done(const std::string& action, Outcome outcome, std::optional<Moment> when = std::nullopt) {
    return happens(Done{{Deed{action_id(action), outcome, std::nullopt, when}}});
  }
  Night& call(Contact contact, Outcome outcome, const std::string& text = "") { return happens(Called{contact, outcome, text}); }
  Night& tick() { return happens(Ticked{}); }
  Night& happens(std::variant<Ticked, Answered, GotWorse, Corrected, Done, AllDone, Called, LanguageChanged, TakenOver,
                              Abandoned>
                     what) {
    episode_ = folded(protocol_.protocol(), child_, std::move(episode_), Event{now_, std::move(what)});
    return *this;
  }

  View view() const { return view_of(protocol_.protocol(), child_, episode_, now_); }
  View view_at(const std::string& clock) const { return view_of(protocol_.protocol(), child_, episode_, moment(clock)); }
  const Episode& episode() const { return episode_; }
  const Protocol& protocol() const { return protocol_.protocol(); }
  const Child& child() const { return child_; }

  /// "02:10" or "02:10:30" on the night of 1 March 2026, five hours behind UTC; or a full RFC 3339 moment.
  static Moment moment(const std::string& clock) {
    std::string full = clock;
    if (clock.size() == 5) full = clock + ":00";
    if (full.size() == 8) full = "2026-03-01T" + full + "-05:00";
    const std::optional<Moment> read = moment_from_text(full);
    if (!read) throw std::runtime_error("no moment: " + clock);
    return *read;
  }

 private:
  ActionId action_id(const std::string& name) const {
    const auto id = protocol_.protocol().action_named(name);
    if (!id) throw std::runtime_error("no action: " + name);
    return *id;
  }
  std::pair<FactId, Value> pair(const std::string& name, const std::string& text) const {
    const auto id = protocol_.protocol().fact_named(name);
    if (!id) throw std::runtime_error("no fact: " + name);
    if (text == "unknown") return {*id, CantTell{}};
    const Fact& fact = protocol_.protocol()[*id];
    if (fact.kind == FactKind::glucose) return {*id, std::get<Glucose>(glucose_from_text(text, child_.unit))};
    for (std::size_t place = 0; place < fact.options.size(); ++place) {
      if (fact.options[place].name == text) return {*id, Chosen{static_cast<std::uint16_t>(place)}};
    }
    throw std::runtime_error("no value: " + text);
  }

  CheckedProtocol protocol_;
  Child child_;
  Episode episode_;
  Moment now_;
};

}  // namespace rushlight::test
