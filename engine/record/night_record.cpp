#include "record/night_record.hpp"

#include "episode/fold.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "record/record_words.hpp"

namespace rushlight {
namespace {

bool went_in(Outcome outcome) { return outcome == Outcome::given || outcome == Outcome::part; }

class Recording {
 public:
  Recording(const Protocol& protocol, const Child& child, Moment began, Language language)
      : protocol_(protocol), child_(child), language_(language), episode_(begun(protocol, child, began)) {
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
    const View first = view_of(protocol, child, episode_, began);
    record_.approval = first.approval.text;
    advise(began);
  }

  void add(const Event& event) {
    // What became due before, when it became due.
    const Episode settled = settled_at(protocol_, child_, episode_, event.at);
    if (!(settled.step == episode_.step) || settled.entered != episode_.entered) {
      const Moment when = wall(settled.clock, settled.entered);
      episode_ = settled;
      advise(when);
    }
    const std::size_t given = episode_.given.size();
    std::visit([&](const auto& what) { tell(what, event.at); }, event.what);
    const Language language = language_;
    episode_ = folded(protocol_, child_, std::move(episode_), event);
    episode_.language = language;
    for (std::size_t at = given; at < episode_.given.size(); ++at) add_given(episode_.given[at]);
    record_.last = event.at;
    advise(event.at);
  }

  NightRecord finished() {
    record_.ended = episode_.ended;
    record_.abandoned = episode_.abandoned;
    for (RecordTotal& total : record_.totals) total.text = said(total.amount, language_);
    for (const ToldReading& told : episode_.readings) add_reading(told);
    for (const OpenCall& call : episode_.calls)
      record_.open_calls.push_back(call_words(child_.contacts, call, language_));
    return std::move(record_);
  }

 private:
  void line(Moment at, RecordLine::Kind kind, std::string text) {
    record_.lines.push_back({at, kind, std::move(text), "", Urgency::home, false});
  }

  /// The first line of the screen, when it is another one than before.
  void advise(Moment at) {
    const View view = view_of(protocol_, child_, episode_, at);
    record_.gravest = worst(record_.gravest, view.urgency);
    if (view.headline == advised_) return;
    advised_ = view.headline;
    RecordLine advice{at, RecordLine::Kind::advised, view.headline, "", view.urgency, false};
    if (!view.why.empty()) {
      const Why& why = view.why.front();
      advice.ground = record_say(RecordWord::by_rule, language_, why.rule);
      if (!why.value.empty()) advice.ground += ", " + why.label + " " + why.value;
      advice.ground += ", " + why.source;
    }
    record_.lines.push_back(std::move(advice));
  }

  std::string answer_text(FactId id, const Value& value) const {
    const Fact& fact = protocol_[id];
    if (std::holds_alternative<CantTell>(value)) return record_say(RecordWord::cannot_tell, language_);
    if (const auto* chosen = std::get_if<Chosen>(&value)) {
      if (chosen->option >= fact.options.size()) return "";
      const Option& option = fact.options[chosen->option];
      if (fact.yes_no) return phrase(option.name == "yes" ? Phrase::yes : Phrase::no, language_);
      return plain_words(option.text, language_);
    }
    if (const auto* count = std::get_if<Count>(&value)) return std::to_string(count->number);
    if (const auto* glucose = std::get_if<Glucose>(&value)) return said(*glucose, language_);
    if (const auto* ketones = std::get_if<KetoneReading>(&value)) return text_from_ketones(*ketones);
    if (const auto* ago = std::get_if<Ago>(&value)) return text_from_duration(ago->time);
    return phrase(Phrase::no, language_);
  }

  std::string answers_text(const Answers& answers) const {
    const Scene here = scene_at(protocol_, child_, episode_, episode_.clock.last_wall + episode_.clock.lost);
    std::string text;
    for (const auto& [fact, value] : answers) {
      if (fact.index < kChildFacts) continue;
      text += (text.empty() ? "" : " ") + filled(here, protocol_[fact].question, language_, std::nullopt) + " " +
              answer_text(fact, value) + ".";
    }
    return text;
  }

  void tell(const Ticked&, Moment) {}
  void tell(const LanguageChanged&, Moment) {}
  void tell(const Remembered&, Moment) {}
  void tell(const AllDone&, Moment) {}  // each deed has a line of its own
  void tell(const Done&, Moment) {}     // so has each of these
  void tell(const Answered& answered, Moment at) {
    const std::string text = answers_text(answered.answers);
    if (!text.empty()) line(at, RecordLine::Kind::told, text);
  }
  void tell(const GotWorse& worse, Moment at) {
    line(at, RecordLine::Kind::told, record_say(RecordWord::worse, language_, answers_text(worse.answers)));
  }
  void tell(const Corrected& corrected, Moment at) {
    line(at, RecordLine::Kind::told, record_say(RecordWord::corrected, language_, answers_text(corrected.answers)));
  }
  void tell(const Called& called, Moment at) {
    std::string text = who(called.contact, language_) + ", " + number_of(child_.contacts, called.contact, language_) +
                       ": " + said_outcome(called.outcome, language_);
    if (!called.text.empty()) text += ": " + called.text;
    line(at, RecordLine::Kind::called, text);
  }
  void tell(const TakenOver& taken, Moment at) {
    line(at, RecordLine::Kind::told, record_say(RecordWord::taken_over, language_, taken.by));
  }
  void tell(const Abandoned& abandoned, Moment at) {
    line(at, RecordLine::Kind::told,
         record_say(RecordWord::left_off, language_) + (abandoned.why.empty() ? "" : " " + abandoned.why));
  }

  /// What went into the child, or was to; and what was done to the pump.
  static bool changes_the_child(ActionKind kind) {
    return kind == ActionKind::by_mouth || kind == ActionKind::glucagon || kind == ActionKind::insulin ||
           kind == ActionKind::fluid || kind == ActionKind::pump;
  }

  void add_given(const Given& given) {
    const Action& action = protocol_[given.action];
    if (!changes_the_child(action.kind)) return;
    std::string what =
        action.dose ? plain_words(protocol_[*action.dose].label, language_) : plain_words(action.text, language_);
    // A deed without an amount of its own is as stated; of a part nobody knows how much.
    const std::optional<Quantity> amount = given.amount                      ? given.amount
                                           : given.outcome == Outcome::given ? given.stated
                                                                             : std::nullopt;
    if (amount) what += " " + said(*amount, language_);
    line(wall(episode_.clock, given.when), RecordLine::Kind::done,
         what + ": " + said_outcome(given.outcome, language_));
    if (!went_in(given.outcome) || !action.dose) return;
    const bool treats = action.kind == ActionKind::glucagon ||
                        (action.kind == ActionKind::by_mouth && protocol_[*action.dose].unit == Unit::gram);
    if (treats) {
      ++record_.treatments;
      record_.lines.back().treats_low = true;
    }
    if (amount) add_total(plain_words(protocol_[*action.dose].label, language_), *amount);
  }

  void add_total(const std::string& label, const Quantity& amount) {
    for (RecordTotal& total : record_.totals) {
      if (total.label != label || total.amount.unit != amount.unit) continue;
      total.amount.value = total.amount.value + amount.value;
      ++total.times;
      return;
    }
    record_.totals.push_back({label, amount, 1, ""});
  }

  void add_reading(const ToldReading& told) {
    const Fact& fact = protocol_[told.fact];
    RecordReading reading{wall(episode_.clock, told.when), RecordReading::Of::glucose, told.value,
                          answer_text(told.fact, told.value)};
    if (std::holds_alternative<KetoneReading>(told.value)) {
      reading.of = RecordReading::Of::blood_ketones;
    } else if (const auto* chosen = std::get_if<Chosen>(&told.value)) {
      if (fact.name != "urine-ketones") return;
      reading.of = RecordReading::Of::urine_ketones;
      reading.option = fact.options[chosen->option].name;
    } else if (!std::holds_alternative<Glucose>(told.value)) {
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
  std::string advised_;
};

}  // namespace

NightRecord record_of(const Protocol& protocol, const Child& child, Moment began, const std::vector<Event>& events,
                      Language language) {
  Recording recording(protocol, child, began, language);
  for (const Event& event : events) recording.add(event);
  return recording.finished();
}

}  // namespace rushlight
