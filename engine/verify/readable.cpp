#include <algorithm>

#include "verify/law_properties.hpp"
#include "verify/reading.hpp"

namespace rushlight {

namespace {

// The formulas were made for passages of a hundred words (Flesch 1948), and one short line says little: "Emergency.
// Call 911." is of grade 16. So what stands on one screen is read as one passage when it comes to this many words, a
// text alone when it does, and all that is shorter together. Common practice, no source.
constexpr int kFewestWordsOfAScreen = 30;
constexpr int kFewestWordsOfAText = 20;

class Reading {
 public:
  Reading(Checking& checking, const ReadingLaw& law)
      : checking_(checking), law_(law), questions_(checking.protocol.facts.size()) {}

  void look() {
    const Protocol& protocol = checking_.protocol;
    for (const Step& step : protocol.steps) look_at(step);
    for (const Fact& fact : protocol.facts) {
      if (!fact.from_child) one(fact.question, fact.where, "question `" + fact.name + "` is");
      if (fact.help) one(*fact.help, fact.where, "help of `" + fact.name + "` is");
    }
    for (const Sign& sign : protocol.worse) rest_ = rest_ + one(sign.text, sign.where, "sign is");
    for (const Watch& watch : protocol.watch) {
      if (watch.also) rest_ = rest_ + one(*watch.also, watch.where, "text of watch `" + watch.name + "` is");
    }
    for (const Text& caution : protocol.cautions) rest_ = rest_ + one(caution, protocol.where, "caution is");
    if (rest_.words >= kFewestWordsOfAScreen) judge(rest_, protocol.where, "short texts, read together, are");
  }

 private:
  bool is_spoken() const {
    const auto& languages = checking_.protocol.languages;
    return std::find(languages.begin(), languages.end(), law_.language) != languages.end();
  }

  void look_at(const Step& step) {
    const Protocol& protocol = checking_.protocol;
    Passage screen = one(step.headline, step.where, "headline of step `" + step.name + "` is");
    for (const ActionId id : step.actions) {
      const Action& action = protocol[id];
      screen = screen + one(action.text, action.where, "text of `" + action.name + "` is");
    }
    for (const Ask& ask : step.asks) {
      std::optional<Passage>& question = questions_[ask.fact.index];
      if (!question) question = question_of(protocol[ask.fact]);
      screen = screen + *question;
    }
    if (screen.words >= kFewestWordsOfAScreen) {
      judge(screen, step.where, "texts of step `" + step.name + "` are");
    } else {
      rest_ = rest_ + screen;
    }
  }

  Passage question_of(const Fact& fact) const {
    const Passage question = passage_of(fact.question.in(law_.language), law_.language);
    return fact.help ? question + passage_of(fact.help->in(law_.language), law_.language) : question;
  }

  Passage one(const Text& text, const Where& where, const std::string& what) {
    const Passage passage = passage_of(text.in(law_.language), law_.language);
    if (passage.words < kFewestWordsOfAText) return passage;
    judge(passage, where, what);
    return Passage{};  // and is no part of another one
  }

  void judge(const Passage& passage, const Where& where, const std::string& what) {
    if (!is_spoken()) return;
    const bool english = law_.language == Language::en;
    const Decimal measured = english ? english_grade(passage) : spanish_ease(passage);
    if (english ? measured <= law_.limit : measured >= law_.limit) return;
    constexpr Decimal kTenth = Decimal::of_micros(100'000);
    const auto shown = [&](Decimal value) {
      return text_from_decimal(rounded(value, english ? RoundDirection::up : RoundDirection::down, kTenth));
    };
    checking_.findings.push_back(
        Finding{Severity::warning, where,
                HardToRead{what, english ? "en" : "es", shown(measured), text_from_decimal(law_.limit),
                           passage.longest_word, passage.longest_sentence},
                Because{"the clinic's own limit", law_.where}});
  }

  Checking& checking_;
  const ReadingLaw& law_;
  std::vector<std::optional<Passage>> questions_;  // with their help, by fact: most are asked in several steps
  Passage rest_;
};

}  // namespace

void texts_can_be_read(Checking& checking, const ReadingLaw& law) { Reading(checking, law).look(); }

}  // namespace rushlight
