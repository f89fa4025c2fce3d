#include "verify/file_changes.hpp"

#include <algorithm>
#include <set>

#include "episode/phrases.hpp"
#include "finding/quoted.hpp"
#include "protocol/words.hpp"
#include "verify/in_words.hpp"
#include "verify/other_words.hpp"
#include "verify/readers.hpp"
#include "verify/step_changes.hpp"

namespace rushlight {
namespace {

using Kind = Difference::Kind;
using Turn = Difference::Turn;

template <class Thing>
const Thing* named(const std::vector<Thing>& things, const std::string& name) {
  const auto found = std::find_if(things.begin(), things.end(), [&](const Thing& thing) { return thing.name == name; });
  return found == things.end() ? nullptr : &*found;
}

class OfFile {
 public:
  OfFile(const SideBySide& sides, const Protocol& was, const Protocol& now, const InStep& in_step)
      : sides_(sides), was_(was), now_(now), in_step_(in_step) {}

  std::vector<Difference> found() {
    compare_numbers();
    compare_questions();
    compare_texts();
    compare_marks();
    compare_doses_words();
    compare_settings();
    compare_steps();
    return std::move(found_);
  }

 private:
  void add(Kind kind, Turn turn, const std::string& at, std::string was, std::string now,
           std::optional<Language> language = std::nullopt) {
    if (was == now) return;
    Difference difference{};
    difference.language = language;
    difference.kind = kind;
    difference.turn = turn;
    difference.at = {{at, ""}};
    difference.regions = {Cases{GlucoseUnit::mg_per_dl, {}}};
    difference.was = std::move(was);
    difference.now = std::move(now);
    found_.push_back(std::move(difference));
  }

  // The words; where they are the same, the numbers in them.
  void add_words(const std::string& at, const Text& was, const Text& now) {
    std::vector<OtherWords> other = other_words(was_, was, now_, now);
    if (other.empty()) add(Kind::words, Turn::words, at, as_written(was_, was), as_written(now_, now));
    for (OtherWords& words : other)
      add(Kind::words, Turn::words, at, std::move(words.was), std::move(words.now), words.language);
  }

  static std::string rise(const Protocol& protocol, const Mark& mark) {
    return mark.rise_over ? "a rise counts above " + value_words(protocol, *mark.rise_over) : "every rise counts";
  }
  // What counts as a rise leads to a call or to none, in every rule that reads the mark.
  void compare_marks() {
    for (const Mark& mark : was_.marks) {
      const Mark* other = named(now_.marks, mark.name);
      if (other == nullptr || rise(was_, mark) == rise(now_, *other)) continue;
      const auto over = [](const Protocol& protocol, const Mark& of) -> std::optional<BloodKetones> {
        if (!of.rise_over) return std::nullopt;
        const auto* ketones = std::get_if<BloodKetones>(&protocol[*of.rise_over].bands.front().value);
        return ketones != nullptr ? std::optional(*ketones) : std::nullopt;
      };
      const auto before = over(was_, mark), after = over(now_, *other);
      const bool later = after && (!before || before->in(kMillimolePerLitre) < after->in(kMillimolePerLitre));
      // What is decided by it comes to less: told by the gravest.
      const auto number = static_cast<std::uint16_t>(&mark - was_.marks.data());
      const std::optional<Reader> reader = gravest_reader(was_, MarkId{number});
      const std::string decides = reader ? "; that " + rushlight::words_of(was_, *reader) : "";
      const bool grave = later && reader && was_[reader->to].urgency >= Urgency::clinic_now;
      add(Kind::other,
          grave   ? Turn::calmer
          : later ? Turn::less
                  : Turn::otherwise,
          "mark " + quoted(mark.name), rise(was_, mark) + decides, rise(now_, *other));
      if (grave) found_.back().falls = 1;
      if (later && reader) found_.back().loss.urgency = static_cast<int>(was_[reader->to].urgency);
    }
  }

  void compare_numbers() {
    const Protocol& both = sides_.both;
    for (std::uint16_t i = 0; i < was_.thresholds.size(); ++i) {
      for (std::uint16_t j = sides_.now_thresholds; j < both.thresholds.size(); ++j) {
        const ThresholdId one{i}, other{j};
        if (both[one].name != both[other].name || same_value(both, one, other)) continue;
        add(Kind::number, Turn::otherwise, "number " + quoted(both[one].name) + label_of(both[other]),
            value_words(both, one), value_words(both, other));
      }
    }
    for (const Threshold& threshold : was_.thresholds) {
      const Threshold* other = named(now_.thresholds, threshold.name);
      if (other != nullptr)
        add_words("what the number " + quoted(threshold.name) + " is called", threshold.label, other->label);
    }
  }
  std::string label_of(const Threshold& threshold) const {
    const std::string label = as_written(sides_.both, threshold.label);
    return label.empty() ? "" : " (" + label + ")";
  }

  // In every language: a change in one alone is one. For lists, in which each part is told beside the others.
  std::string words_of(const Protocol& protocol, const Text& text) const {
    std::string words;
    for (const Language language : protocol.languages) {
      Text one;
      one.line[0] = text.line[static_cast<std::size_t>(language)];
      words += (words.empty() ? "" : " / ") + as_written(protocol, one);
    }
    return words;
  }

  /// An answer of the other version that reads the same and that this one has not.
  const Option* renamed(const Fact& fact, const Option& option, const Fact& other) const {
    const auto same = std::find_if(other.options.begin(), other.options.end(), [&](const Option& each) {
      return named(fact.options, each.name) == nullptr && same_line(option.text, each.text);
    });
    return same == other.options.end() ? nullptr : &*same;
  }
  bool same_line(const Text& one, const Text& another) const { return other_words(was_, one, now_, another).empty(); }

  void compare_questions() {
    for (const Fact& fact : was_.facts) {
      const Fact* other = named(now_.facts, fact.name);
      if (other == nullptr || fact.from_child) continue;
      const std::string at = "question " + quoted(fact.name);
      add_words(at, fact.question, other->question);
      add_words(at, fact.help.value_or(Text{}), other->help.value_or(Text{}));
      for (const Option& option : fact.options) {
        const Option* same = named(other->options, option.name);
        if (same == nullptr) same = renamed(fact, option, *other);
        add_words(at + ", answer " + quoted(option.name), option.text, same != nullptr ? same->text : Text{});
      }
      for (const Option& option : other->options) {
        if (named(fact.options, option.name) != nullptr || renamed(*other, option, fact) != nullptr) continue;
        add(Kind::other, Turn::otherwise, at, "",
            "a new answer " + quoted(option.name) + ": " + words_of(now_, option.text));
      }
      const auto answers = [](const Fact& of, const Fact& also_in) {
        std::vector<std::string> names;
        for (const Option& option : of.options) {
          if (named(also_in.options, option.name) != nullptr) names.push_back(quoted(option.name));
        }
        return joined(names);
      };
      add(Kind::other, Turn::otherwise, at, "answers in the order: " + answers(fact, *other),
          "answers in the order: " + answers(*other, fact));
    }
  }

  std::string opening(const Protocol& protocol) const {
    std::vector<std::string> names;
    for (const Ask& ask : protocol.opening) names.push_back(protocol[ask.fact].name);
    return names.empty() ? "asks nothing" : "asks " + quoted_list(names);
  }
  std::string food(const Protocol& protocol, const Food& food) const {
    return words_of(protocol, food.name) + " " + value_words(protocol, food.carbohydrate) + ", in steps of " +
           value_words(protocol, food.step) + (food.when.empty() ? "" : ", for " + in_words(protocol, food.when));
  }
  void compare_foods() { compare_lists("foods", was_.foods, now_.foods, &OfFile::food); }
  std::string sign(const Protocol& protocol, const Sign& sign) const {
    return protocol[sign.fact].name + ": " + protocol[sign.fact].options[sign.option].name + " (" +
           words_of(protocol, sign.text) + ")";
  }

  /// Of a list what is only in one, beside what stands in its place in the other; the same in another order is told.
  template <class Thing>
  void compare_lists(const std::string& at, const std::vector<Thing>& was, const std::vector<Thing>& now,
                     std::string (OfFile::*words)(const Protocol&, const Thing&) const) {
    std::vector<std::string> before, after;
    for (const Thing& each : was) before.push_back((this->*words)(was_, each));
    for (const Thing& each : now) after.push_back((this->*words)(now_, each));
    const auto only_in = [](const std::vector<std::string>& one, const std::vector<std::string>& other) {
      std::vector<std::string> only;
      for (const std::string& each : one) {
        if (std::find(other.begin(), other.end(), each) == other.end()) only.push_back(each);
      }
      return only;
    };
    const std::vector<std::string> gone = only_in(before, after), come = only_in(after, before);
    for (std::size_t i = 0; i < std::max(gone.size(), come.size()); ++i)
      add(Kind::other, i < come.size() ? Turn::otherwise : Turn::less, at, i < gone.size() ? gone[i] : "",
          i < come.size() ? come[i] : "");
    if (gone.empty() && come.empty() && before != after)
      add(Kind::other, Turn::otherwise, at, "in the order: " + joined(before), "in the order: " + joined(after));
  }
  static std::string joined(const std::vector<std::string>& all) {
    std::string text;
    for (const std::string& each : all) text += (text.empty() ? "" : "; ") + each;
    return text;
  }

  void compare_cautions() {
    const Text none;
    for (std::size_t i = 0; i < std::max(was_.cautions.size(), now_.cautions.size()); ++i)
      add_words("caution " + std::to_string(i + 1), i < was_.cautions.size() ? was_.cautions[i] : none,
                i < now_.cautions.size() ? now_.cautions[i] : none);
  }

  // What stands beside an amount, and in its place.
  void compare_doses_words() {
    for (const Dose& dose : was_.doses) {
      const Dose* other = named(now_.doses, dose.name);
      if (other != nullptr) add_words("what " + quoted(dose.name) + " is called", dose.label, other->label);
      if (other == nullptr || dose.rows.size() != other->rows.size()) continue;
      for (std::size_t i = 0; i < dose.rows.size(); ++i) {
        const DoseRow &was = dose.rows[i], &now = other->rows[i];
        if (was.cell.index() != now.cell.index()) continue;
        if (const auto* withheld = std::get_if<DoseRow::Withheld>(&was.cell))
          add_words("why there is no " + quoted(dose.name), withheld->reason,
                    std::get<DoseRow::Withheld>(now.cell).reason);
        if (const auto* fixed = std::get_if<DoseRow::Fixed>(&was.cell))
          add_words("how much that is of what is at hand, of " + quoted(dose.name), fixed->share.value_or(Text{}),
                    std::get<DoseRow::Fixed>(now.cell).share.value_or(Text{}));
      }
    }
  }
  std::string time(const Protocol& protocol, const std::optional<ThresholdId>& id) const {
    return id ? value_words(protocol, *id) : "not looked at";
  }

  void compare_texts() {
    add_words("title", was_.title, now_.title);
    compare_cautions();
    for (const Watch& watch : was_.watch) {
      const Watch* other = named(now_.watch, watch.name);
      if (other == nullptr) continue;
      add_words("watch " + quoted(watch.name), watch.also.value_or(Text{}), other->also.value_or(Text{}));
    }
    compare_lists("what `something got worse` lists", was_.worse, now_.worse, &OfFile::sign);
    const bool asks_all = std::all_of(was_.opening.begin(), was_.opening.end(), [&](const Ask& ask) {
      return std::any_of(now_.opening.begin(), now_.opening.end(),
                         [&](const Ask& other) { return now_[other.fact].name == was_[ask.fact].name; });
    });
    add(Kind::other, asks_all ? Turn::otherwise : Turn::less, "opening", opening(was_), opening(now_));
    compare_foods();
    for (const Timer& timer : was_.timers) {
      const Timer* other = named(now_.timers, timer.name);
      if (other != nullptr) add_words("what the timer " + quoted(timer.name) + " is called", timer.label, other->label);
    }
    compare_danger_names();
  }

  // In a visit a rule of the visited protocol stands for one of the same name: so names count, whatever the rules say.
  void compare_danger_names() {
    const auto tell = [&](const Protocol& one, const Protocol& other, bool gone) {
      for (const Watch& watch : one.watch) {
        if (named(other.watch, watch.name) != nullptr) continue;
        const std::string words = "a rule of this name: in a visit it takes the place of the other protocol's";
        add(Kind::other, Turn::otherwise, "watch " + quoted(watch.name), gone ? words : "", gone ? "" : words);
      }
    };
    tell(was_, now_, true);
    tell(now_, was_, false);
  }

  void compare_settings() {
    add(Kind::other, Turn::otherwise, "age of the weight", time(was_, was_.weight_fresh),
        time(now_, now_.weight_fresh));
    if (was_.parts.empty() || now_.parts.empty()) return;
    const Part &a = was_.parts.front(), &b = now_.parts.front();
    const auto insulin = [](const Part& part) { return part.insulin_doses ? "insulin doses on" : "insulin doses off"; };
    add(Kind::other, a.insulin_doses ? Turn::less : Turn::graver, "insulin", insulin(a), insulin(b));
    add(Kind::other, Turn::otherwise, "age of the total daily dose", time(was_, a.daily_dose_fresh),
        time(now_, b.daily_dose_fresh));
    const auto past = [&](const Protocol& protocol, const Part& part) {
      if (!part.past) return std::string("not looked at");
      return "low " + value_words(protocol, part.past->low) + ", high " + value_words(protocol, part.past->high) +
             ", the same hour within " + value_words(protocol, part.past->near);
    };
    add(Kind::other, Turn::otherwise, "history", past(was_, a), past(now_, b));
    const auto goal = [](const Protocol& protocol, const Part& part) {
      return part.hourly_fluid ? "by " + quoted(protocol[*part.hourly_fluid].name) : std::string("none");
    };
    add(Kind::other, Turn::otherwise, "how much to drink in an hour", goal(was_, a), goal(now_, b));
    compare_insulin_limits();
  }

  /// The greater of the number, the less insulin.
  void compare_insulin_limit(const Dose& dose, const std::string& what, ThresholdId was, ThresholdId now) {
    const Limit &before = was_[was].bands.front().value, &after = now_[now].bands.front().value;
    const std::int64_t a = number_of(before, GlucoseUnit::mg_per_dl), b = number_of(after, GlucoseUnit::mg_per_dl);
    add(Kind::dose,
        a < b   ? Turn::less
        : a > b ? Turn::graver
                : Turn::otherwise,
        "insulin dose " + quoted(dose.name), what + value_words(was_, was), what + value_words(now_, now));
  }
  void compare_insulin_limits() {
    for (const Dose& dose : was_.doses) {
      const Dose* other = named(now_.doses, dose.name);
      if (other == nullptr || !dose.insulin || !other->insulin) continue;
      compare_insulin_limit(dose, "none within ", dose.insulin->no_stacking, other->insulin->no_stacking);
      compare_insulin_limit(dose, "none below a glucose of ", dose.insulin->floor, other->insulin->floor);
      add(Kind::dose, Turn::otherwise, "insulin dose " + quoted(dose.name),
          "on a reading up to " + value_words(was_, dose.insulin->fresh) + " old",
          "on a reading up to " + value_words(now_, other->insulin->fresh) + " old");
    }
  }

  std::string step_words(const Step& step) const {
    std::string words =
        quoted(step.name) + ", " + shown_as(step.urgency, Language::en) + ": " + as_written(sides_.both, step.headline);
    for (const ActionId action : step.actions) words += " / " + as_written(sides_.both, sides_.both[action].text);
    if (step.wait) words += " / wait " + value_words(sides_.both, step.wait->lasts);
    if (step.ends) words += " / the walk ends here";
    return words;
  }

  void compare_steps() {
    std::set<std::uint16_t> together;
    for (const InStepPair& pair : in_step_.pairs) {
      together.insert(pair.steps.was.index);
      together.insert(pair.steps.now.index);
    }
    for (std::uint16_t i = 0; i < sides_.both.steps.size(); ++i) {
      const Step& step = sides_.both.steps[i];
      const bool now = sides_.is_now(StepId{i});
      const std::vector<Step>& others = now ? was_.steps : now_.steps;
      const bool shows = !step.actions.empty() || !step.asks.empty() || step.wait || step.ends;
      if (!shows || together.count(i) > 0 || named(others, step.name) != nullptr) continue;
      add(Kind::other, Turn::otherwise, now ? "a new step" : "a step is gone", now ? "" : step_words(step),
          now ? step_words(step) : "");
    }
  }

  const SideBySide& sides_;
  const Protocol &was_, &now_;
  const InStep& in_step_;
  std::vector<Difference> found_;
};

}  // namespace

std::vector<Difference> file_changes(const SideBySide& sides, const Protocol& was, const Protocol& now,
                                     const InStep& in_step) {
  return OfFile(sides, was, now, in_step).found();
}

}  // namespace rushlight
