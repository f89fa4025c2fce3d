#include "record/night_record.hpp"

#include <algorithm>

#include "episode/fold.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "record/passing_time.hpp"
#include "record/record_words.hpp"
#include "record/short_answer.hpp"
#include "record/source_list.hpp"
#include "record/timeline.hpp"

namespace rushlight {
namespace {

constexpr std::chrono::minutes kLate{5};  // after the alarm an answer is called late; common practice, no source

bool went_in(Outcome outcome) { return outcome == Outcome::given || outcome == Outcome::part; }

/// What went into the child, or was to; and what was done to the pump.
bool changes_the_child(ActionKind kind) {
  return kind == ActionKind::by_mouth || kind == ActionKind::glucagon || kind == ActionKind::insulin ||
         kind == ActionKind::fluid || kind == ActionKind::pump;
}

/// The questions are the advice: their answers stand in the record with what comes of them.
bool only_asks(const View& view) {
  const bool acts = std::any_of(view.actions.begin(), view.actions.end(), [](const ShownAction& action) {
    return action.kind != ActionKind::measure && action.kind != ActionKind::note && action.kind != ActionKind::watch;
  });
  return !view.ask.empty() && !acts && view.also.empty() && view.withheld.empty() && !view.call;
}

/// Something is to go into the child, and how that went is asked for.
bool wants_a_deed(const View& view) {
  return std::any_of(view.actions.begin(), view.actions.end(), [](const ShownAction& action) {
    const bool goes_in = action.kind == ActionKind::by_mouth || action.kind == ActionKind::glucagon ||
                         action.kind == ActionKind::insulin;
    return goes_in && action.dose && action.dose->amount && !action.outcome;
  });
}

std::string first_sentence(const std::string& text) { return text.substr(0, text.find(". ")); }

class Recording {
 public:
  Recording(const Protocol& protocol, const Child& child, Moment began, Language language)
      : protocol_(protocol),
        child_(child),
        language_(language),
        episode_(begun(protocol, child, began)),
        timeline_(language),
        calls_(child.contacts, language) {
    episode_.language = language;
    record_.language = language;
    record_.set = protocol.set;
    record_.protocol = protocol.name;
    record_.title = plain_words(protocol.title, language);
    record_.version = protocol.version;
    record_.child = child.name;
    const Age age = age_on(child.birth, local_day_of(began));
    record_.about = said(Quantity{Decimal::whole(age.completed_years()), Unit::year}, language);
    if (child.weight) record_.about += ", " + said(child.weight->quantity(), language);
    record_.began = record_.last = began;
    record_.approval = view_of(protocol, child, episode_, began).approval.text;
    calls_.follow(episode_.calls, CallLog::By::time, began);
    advise(began);
  }

  void add(const Event& event) {
    pass_time(event.at);
    const std::size_t given = episode_.given.size();
    by_ = CallLog::By::event;
    std::visit([&](const auto& what) { tell(what, event.at); }, event.what);
    episode_ = folded(protocol_, child_, std::move(episode_), event);
    episode_.language = language_;
    for (std::size_t at = given; at < episode_.given.size(); ++at) add_given(episode_.given[at]);
    calls_.follow(episode_.calls, by_, event.at);
    record_.last = event.at;
    advise(event.at);
  }

  NightRecord finished() {
    record_.ended = episode_.ended;
    record_.abandoned = episode_.abandoned;
    for (const ToldReading& told : episode_.readings) add_reading(told);
    const View view = view_of(protocol_, child_, episode_, record_.last);
    record_.stands = sentence(view.headline);
    if (view.wait && !episode_.ended)
      record_.stands +=
          " " + record_say(RecordWord::next_look, language_, view.wait->label, wall_clock(view.wait->until));
    if (view.drinks)
      record_.drinks = view.drinks->told ? record_say(RecordWord::of_goal, language_, said(view.drinks->drunk, language_),
                                                      said(view.drinks->goal, language_))
                                         : phrase(Phrase::phone_goal_alone, language_, said(view.drinks->goal, language_));
    // Where there is a goal it counts all of them.
    if (!view.drinks) record_.totals.insert(record_.totals.end(), fluids_.begin(), fluids_.end());
    for (RecordTotal& total : record_.totals) total.text = said(total.amount, language_);
    add_not_given();
    record_.lines = timeline_.finished();
    record_.calls = calls_.finished();
    record_.sources = sources_.finished();
    return std::move(record_);
  }

 private:
  Scene here() const { return scene_at(protocol_, child_, episode_, episode_.clock.last_wall + episode_.clock.lost); }
  std::string say(RecordWord word, const std::string& one = "", const std::string& two = "") const {
    return record_say(word, language_, one, two);
  }
  static std::string sentence(const std::string& text) {
    return text.empty() || text.back() == '.' || text.back() == '?' || text.back() == '!' ? text : text + ".";
  }

  /// What became due before the next event, each thing at its own time: alarms that nobody answered, calls that moved
  /// on.
  void pass_time(Moment until) {
    while (const std::optional<Moment> due = next_change(here(), until)) {
      const Instant entered = episode_.entered;
      const std::optional<Instant> alarm = episode_.wait_ends;
      episode_ = settled_at(protocol_, child_, std::move(episode_), *due);
      const bool overdue = episode_.entered != entered && episode_.cause.kind == Cause::Kind::overdue;
      if (overdue && alarm)
        timeline_.apart(*due, say(RecordWord::alarm_unanswered, wall_clock(wall(episode_.clock, *alarm))), here(), {});
      calls_.follow(episode_.calls, CallLog::By::time, *due);
      advise(*due);
    }
  }

  /// The first line of the screen and what stands with it, once for each visit to a step.
  void advise(Moment at) {
    const View view = view_of(protocol_, child_, episode_, at);
    const bool graver = view.urgency > record_.gravest;
    record_.gravest = worst(record_.gravest, view.urgency);
    std::string key = view.step + " " + std::to_string(episode_.entered.time_since_epoch().count());
    for (const std::string& also : view.also) key += also;
    for (const Withheld& withheld : view.withheld) key += withheld.reason;
    const std::string call = view.call ? view.call->text : "";
    const bool calls_anew = !call.empty() && call != called_;  // one that was answered is no news on the screen
    called_ = call;
    const bool only_calls = key == advised_;
    if (only_calls && !calls_anew) return;
    advised_ = std::move(key);
    const bool unanswered = episode_.cause.kind == Cause::Kind::overdue;
    const bool grave = view.urgency == Urgency::emergency;
    if (only_asks(view) && !graver && !unanswered) return;
    // A call that moved on changes no step: whom to call now is all that is new.
    if (only_calls) return timeline_.advice(at, {sentence(view.headline), "", false, grave});
    timeline_.advice(at, {advised_words(view), sources_.ground_of(view.why), wants_a_deed(view), grave});
  }

  std::string advised_words(const View& view) {
    std::string words = sentence(view.headline);
    if (!view.meanwhile.empty()) words += " " + sentence(view.meanwhile);
    for (const std::string& also : view.also) words += " " + sentence(also);
    for (const Withheld& withheld : view.withheld) {
      std::string& known = withheld_[withheld.what];
      const bool said = words.find(withheld.reason) != std::string::npos;
      const std::string reason = known == withheld.reason ? say(RecordWord::as_before) : withheld.reason;
      words += " " + sentence(said ? say(RecordWord::withheld_named, withheld.what)
                                   : say(RecordWord::withheld, withheld.what, reason));
      known = withheld.reason;
    }
    return words;
  }

  void tell(const Ticked&, Moment) {}
  void tell(const LanguageChanged&, Moment) {}
  void tell(const Remembered&, Moment) {}
  void tell(const AllDone&, Moment) {}  // each deed is told by itself
  void tell(const Done& done, Moment at) {
    for (const Deed& deed : done.deeds) {
      const Action& action = protocol_[deed.action];
      if (!is_call(action.kind)) continue;
      const bool made =
          deed.outcome == Outcome::given || deed.outcome == Outcome::reached || deed.outcome == Outcome::told;
      called(action.call->contact, made ? Outcome::reached : Outcome::no_answer, "", at);
    }
  }
  void tell(const Answered& answered, Moment at) {
    by_ = CallLog::By::answer;
    if (episode_.wait_passed && episode_.wait_ends && !episode_.ended) {
      const Moment asked = wall(episode_.clock, *episode_.wait_ends);
      if (at.utc - asked.utc >= kLate) timeline_.late(at, say(RecordWord::asked_at, wall_clock(asked)));
    }
    timeline_.answers(at, here(), answered.answers);
    keep_vomits(answered.answers, false);
  }
  void tell(const GotWorse& worse, Moment at) {
    const RecordWord lead = worse.answers.empty() ? RecordWord::worse_unnamed : RecordWord::worse;
    timeline_.apart(at, say(lead), here(), worse.answers);
    keep_vomits(worse.answers, false);
  }
  void tell(const Corrected& corrected, Moment at) {
    timeline_.apart(at, say(RecordWord::corrected), here(), corrected.answers);
    keep_vomits(corrected.answers, true);
  }
  void tell(const Called& told, Moment at) { called(told.contact, told.outcome, told.text, at); }
  void tell(const TakenOver& taken, Moment at) {
    timeline_.apart(at, say(RecordWord::taken_over, taken.by), here(), {});
  }
  void tell(const Abandoned& abandoned, Moment at) {
    timeline_.apart(at, say(RecordWord::left_off) + (abandoned.why.empty() ? "" : " " + abandoned.why), here(), {});
  }

  void called(Contact contact, Outcome outcome, const std::string& text, Moment at) {
    calls_.told(contact, outcome, text, at);
    constexpr RecordWord kWhom[] = {RecordWord::short_clinic, RecordWord::short_on_call, RecordWord::short_emergency};
    Timeline::ToldDeed call{say(kWhom[static_cast<std::size_t>(contact)]), std::nullopt,
                            said_outcome(outcome, language_) + (text.empty() ? "" : ": " + text)};
    call.is_call = text.empty();
    timeline_.deed(at, call);
  }

  void keep_vomits(const Answers& answers, bool corrected) {
    for (const auto& [fact, value] : answers) {
      const auto* count = std::get_if<Count>(&value);
      if (count == nullptr || protocol_[fact].name != "vomits") continue;
      if (corrected && !record_.vomits.empty()) record_.vomits.pop_back();
      record_.vomits.push_back(count->number);
    }
  }

  void add_given(const Given& given) {
    const Action& action = protocol_[given.action];
    const bool as_stated = given.outcome == Outcome::given;
    if (as_stated && !changes_the_child(action.kind)) return;
    const std::string what = action.dose ? plain_words(protocol_[*action.dose].label, language_)
                                         : first_sentence(filled(here(), action.text, language_, std::nullopt));
    // A deed without an amount of its own is as stated; of a part nobody knows how much.
    const std::optional<Quantity> amount = given.amount ? given.amount : as_stated ? given.stated : std::nullopt;
    const bool treats = went_in(given.outcome) && action.dose &&
                        (action.kind == ActionKind::glucagon ||
                         (action.kind == ActionKind::by_mouth && protocol_[*action.dose].unit == Unit::gram));
    const bool drinks = action.kind == ActionKind::fluid;
    const bool drank = drinks && as_stated && amount;  // what the amount was meant for stands in the advice
    timeline_.deed(wall(episode_.clock, given.when),
                   {drank ? say(RecordWord::drank) : what, amount,
                    as_stated ? "" : said_outcome(given.outcome, language_), treats, drinks});
    if (!went_in(given.outcome)) return;
    if (treats) ++record_.treatments;
    had_.push_back(action.kind);
    if (action.dose && amount) add_total(action.kind == ActionKind::fluid ? fluids_ : record_.totals, what, *amount);
  }

  static void add_total(std::vector<RecordTotal>& totals, const std::string& label, const Quantity& amount) {
    for (RecordTotal& total : totals) {
      if (total.label != label || total.amount.unit != amount.unit) continue;
      total.amount.value = total.amount.value + amount.value;
      ++total.times;
      return;
    }
    totals.push_back({label, amount, 1, ""});
  }

  void add_not_given() {
    constexpr std::pair<ActionKind, RecordWord> kAskedFor[] = {{ActionKind::by_mouth, RecordWord::sugar},
                                                               {ActionKind::insulin, RecordWord::insulin},
                                                               {ActionKind::glucagon, RecordWord::glucagon}};
    for (const auto& [kind, word] : kAskedFor) {
      if (std::find(had_.begin(), had_.end(), kind) != had_.end()) continue;
      record_.not_given += (record_.not_given.empty() ? "" : ", ") + say(word);
    }
  }

  void add_reading(const ToldReading& told) {
    const Fact& fact = protocol_[told.fact];
    RecordReading reading{wall(episode_.clock, told.when), RecordReading::Of::glucose, told.value, ""};
    if (const auto* glucose = std::get_if<Glucose>(&told.value)) {
      reading.text = said(*glucose, language_);
    } else if (const auto* ketones = std::get_if<KetoneReading>(&told.value)) {
      reading.of = RecordReading::Of::blood_ketones;
      reading.text = text_from_ketones(*ketones);
    } else if (const auto* chosen = std::get_if<Chosen>(&told.value)) {
      if (fact.name != "urine-ketones") return;
      reading.of = RecordReading::Of::urine_ketones;
      reading.option = fact.options[chosen->option].name;
      reading.text = plain_words(fact.options[chosen->option].text, language_);
    } else {
      return;  // nobody could tell
    }
    reading.by_sensor = reading.of == RecordReading::Of::glucose && told_as_sensor(told.when);
    record_.readings.push_back(std::move(reading));
  }

  /// The reading whose origin was asked is the last one before that answer.
  bool told_as_sensor(Instant when) const {
    const std::optional<FactId> fact = protocol_.fact_named("reading-from");
    if (!fact) return false;
    for (const Event& event : episode_.history) {
      const auto* answered = std::get_if<Answered>(&event.what);
      if (answered == nullptr || event.at.utc < when) continue;
      for (const auto& [id, value] : answered->answers) {
        if (id == *fact) {
          const auto* chosen = std::get_if<Chosen>(&value);
          return chosen != nullptr && protocol_[*fact].options[chosen->option].name == "sensor";
        }
        if (protocol_[id].kind == FactKind::glucose && event.at.utc > when) return false;  // another reading came first
      }
    }
    return false;
  }

  const Protocol& protocol_;
  const Child& child_;
  Language language_;
  Episode episode_;
  NightRecord record_{};
  Timeline timeline_;
  CallLog calls_;
  SourceList sources_;
  std::string advised_, called_;                 // what stood there last, and whom it called
  std::map<std::string, std::string> withheld_;  // the last reason, by dose
  std::vector<RecordTotal> fluids_;
  std::vector<ActionKind> had_;  // what went in
  CallLog::By by_ = CallLog::By::event;
};

}  // namespace

NightRecord record_of(const Protocol& protocol, const Child& child, Moment began, const std::vector<Event>& events,
                      Language language) {
  Recording recording(protocol, child, began, language);
  for (const Event& event : events) recording.add(event);
  return recording.finished();
}

}  // namespace rushlight
