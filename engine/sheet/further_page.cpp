#include "sheet/further_page.hpp"

#include <algorithm>
#include <map>

#include "episode/words.hpp"
#include "sheet/sheet_words.hpp"
#include "verify/answering.hpp"

namespace rushlight {
namespace {

constexpr int kMostSteps = 60;  // of one way; a protocol calls or waits long before

/// The answer of a child in whom nothing is wrong.
Value calm_answer(const Protocol& protocol, const Fact& fact, const std::vector<Value>& values) {
  const auto option = [&](std::string_view name) -> std::optional<Value> {
    for (std::size_t at = 0; at < fact.options.size(); ++at) {
      if (fact.options[at].name == name) return Chosen{static_cast<std::uint16_t>(at)};
    }
    return std::nullopt;
  };
  if (fact.kind == FactKind::time_since) return NotLately{};
  if (fact.kind != FactKind::choice || fact.options.empty()) return values.front();  // the least
  const bool yes_is_well =
      fact.name == "awake" || fact.name == "swallow" || fact.name == "breathing-normally" || fact.name == "drinking";
  if (const auto told = option(yes_is_well ? "yes" : "no")) return *told;
  // The first one that no sign of something worse names.
  for (std::size_t at = 0; at < fact.options.size(); ++at) {
    const bool is_sign = std::any_of(protocol.worse.begin(), protocol.worse.end(), [&](const Sign& sign) {
      return &protocol[sign.fact] == &fact && sign.option == at;
    });
    if (!is_sign) return Chosen{static_cast<std::uint16_t>(at)};
  }
  return Chosen{0};
}

class Further {
 public:
  Further(const Protocol& protocol, const Child& child, Moment at)
      : protocol_(protocol), child_(child), start_(protocol, child, at) {
    const Context context{age_on(child.birth, local_day_of(at)), child.weight, clock_time_of(at)};
    for (std::size_t place = kChildFacts; place < protocol.facts.size(); ++place) {
      const FactId id{static_cast<std::uint16_t>(place)};
      std::vector<Value> values = values_to_tell(protocol, id, context, child.unit);
      if (values.empty()) continue;
      if (protocol[id].kind == FactKind::glucose) {
        calm_.emplace(id.index, not_low(values));
      } else {
        calm_.emplace(id.index, calm_answer(protocol, protocol[id], values));
      }
      values_.emplace(id.index, std::move(values));
    }
  }

  SheetPage page() {
    SheetPage page;
    page.title =
        sheet_say(SheetWord::title, child_.language, plain_words(protocol_.title, child_.language), child_.name);
    SheetBox signs{};
    signs.part = SheetPart::trouble;
    signs.title = sheet_say(SheetWord::signs_title, child_.language);
    signs.help = sheet_say(SheetWord::no_insulin, child_.language);
    signs.urgency = Urgency::emergency;
    for (const auto& [sign, text] : signs_of(protocol_, child_, begun(protocol_, child_, start_.now()))) {
      const PaperWalk walk = gravest_with(sign);
      signs.ways.push_back({text, calls(walk), 0, walk.view().urgency, {}});
    }
    page.boxes.push_back(std::move(signs));
    // Each question is a box of its own, so that no box is longer than a page.
    for (const auto& [place, values] : values_) {
      SheetBox box{};
      box.part = SheetPart::trouble;
      box.title = start_.question(FactId{place});
      add_answers(box, FactId{place}, values);
      if (!box.ways.empty()) page.boxes.push_back(std::move(box));
    }
    return page;
  }

 private:
  static Value not_low(const std::vector<Value>& values) {
    // Of the borders somewhere in the middle: neither the lows nor the highs.
    return values[values.size() / 2];
  }

  std::vector<SheetLine> calls(const PaperWalk& walk) const {
    std::vector<SheetLine> lines;
    for (SheetLine& line : walk.lines()) {
      if (is_call(line.kind)) lines.push_back(std::move(line));
    }
    if (!lines.empty()) return lines;
    const View here = walk.view();
    // The walk says "the clinic too", beside what it shows; on paper there is nothing beside.
    if (here.call && here.call->contact == Contact::clinic)
      return {{sheet_say(here.urgency > Urgency::clinic ? SheetWord::call_clinic : SheetWord::call_clinic_in_hours,
                         child_.language, number_of(child_.contacts, Contact::clinic, child_.language)),
               ActionKind::call_clinic, walk.night(), false}};
    if (here.call) return {{here.call->text, ActionKind::call_clinic, walk.night(), true}};
    return {{sheet_say(SheetWord::call_clinic, child_.language,
                       number_of(child_.contacts, Contact::clinic, child_.language)),
             ActionKind::call_clinic, walk.night(), false}};
  }

  /// The sign told at the beginning, and at every later step of a child in whom nothing is wrong: paper does not know
  /// when it is seen, so the gravest counts.
  PaperWalk gravest_with(const Sign& sign) const {
    const auto option = static_cast<std::uint16_t>(sign.option);
    PaperWalk gravest = start_;
    gravest.worse(sign.fact, option);
    gravest = gone_on(std::move(gravest), sign.fact, Chosen{option});
    PaperWalk calm = start_;
    for (int step = 0; step < kMostSteps; ++step) {
      PaperWalk told = calm;
      told.worse(sign.fact, option);
      if (told.view().urgency > gravest.view().urgency) gravest = std::move(told);
      const View here = calm.view();
      if (here.call || here.ended || here.waiting) break;
      if (here.ask.empty()) {
        calm.all_done();
        if (calm.view().step == here.step) break;
        continue;
      }
      const FactId asked = here.ask.front().id;
      const auto answer = calm_.find(asked.index);
      calm.answer(asked, answer != calm_.end() ? answer->second : Value{CantTell{}});
    }
    return gravest;
  }

  /// As far as it goes with one thing wrong: to a call, or to where the child can wait.
  PaperWalk walked_with(FactId wrong, const Value& value) const { return gone_on(start_, wrong, value); }

  PaperWalk gone_on(PaperWalk walk, FactId wrong, const Value& value) const {
    for (int step = 0; step < kMostSteps; ++step) {
      const View here = walk.view();
      if (here.call || here.ended || (here.waiting && here.wait && here.ask.empty() && step > 0)) break;
      if (here.ask.empty()) {
        walk.all_done();
        if (walk.view().step == here.step) break;
        continue;
      }
      const FactId asked = here.ask.front().id;
      const auto calm = calm_.find(asked.index);
      walk.answer(asked, asked == wrong ? value : calm != calm_.end() ? calm->second : Value{CantTell{}});
    }
    return walk;
  }

  std::string words_of(FactId id, const Value& value) const {
    const Fact& fact = protocol_[id];
    const auto* chosen = std::get_if<Chosen>(&value);
    if (std::holds_alternative<CantTell>(value)) return sheet_say(SheetWord::cannot_tell, child_.language);
    if (chosen != nullptr && fact.yes_no)
      return sheet_say(fact.options[chosen->option].name == "yes" ? SheetWord::yes : SheetWord::no, child_.language);
    if (chosen != nullptr) return plain_words(fact.options[chosen->option].text, child_.language);
    if (const auto* count = std::get_if<Count>(&value)) return std::to_string(count->number);
    if (const auto* ketones = std::get_if<KetoneReading>(&value)) return text_from_ketones(*ketones);
    if (const auto* glucose = std::get_if<Glucose>(&value)) return text_from_glucose(*glucose);
    return "";
  }

  void add_answers(SheetBox& box, FactId id, const std::vector<Value>& values) const {
    const Fact& fact = protocol_[id];
    if (fact.kind == FactKind::time_since || (fact.kind == FactKind::choice && is_sign(id))) return;
    const bool numbers =
        fact.kind == FactKind::count || fact.kind == FactKind::ketones || fact.kind == FactKind::glucose;
    std::string last;  // what the way before says
    for (const Value& value : values) {
      const PaperWalk walk = walked_with(id, value);
      const View here = walk.view();
      std::string asked;
      if (here.call || here.urgency > Urgency::clinic) {
        std::vector<SheetLine> lines = calls(walk);
        for (const SheetLine& line : lines) asked += line.text;
        const bool unknown = std::holds_alternative<CantTell>(value);
        if (unknown && asked == last) {
          box.ways.back().when += sheet_say(SheetWord::or_cannot_tell, child_.language);
        } else if (!numbers || asked != last) {
          std::string words = words_of(id, value);
          if (numbers && !unknown) words = sheet_say(SheetWord::from_on, child_.language, words);
          if (!words.empty()) box.ways.push_back({words, std::move(lines), 0, here.urgency, {}});
        }
      }
      last = asked;
    }
    // The gravest number first: a finger stops at the first line that is true. "Can't tell" stays last.
    const auto told = std::find_if(box.ways.begin(), box.ways.end(), [&](const SheetWay& way) {
      return way.when == sheet_say(SheetWord::cannot_tell, child_.language);
    });
    if (numbers) std::reverse(box.ways.begin(), told);
  }

  bool is_sign(FactId id) const {
    return std::any_of(protocol_.worse.begin(), protocol_.worse.end(),
                       [&](const Sign& sign) { return sign.fact == id; });
  }

  const Protocol& protocol_;
  const Child& child_;
  PaperWalk start_;
  std::map<std::uint16_t, Value> calm_;
  std::map<std::uint16_t, std::vector<Value>> values_;
};

}  // namespace

SheetPage further_page(const Protocol& protocol, const Child& child, Moment at) {
  return Further(protocol, child, at).page();
}

}  // namespace rushlight
