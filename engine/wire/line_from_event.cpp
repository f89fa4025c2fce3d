#include "wire/line_from_event.hpp"

#include "protocol/words.hpp"
#include "wire/history_from_json.hpp"
#include "wire/json_writer.hpp"
#include "wire/value_from_json.hpp"

namespace rushlight {
namespace {

class EventWriter {
 public:
  EventWriter(JsonWriter& out, const Protocol& protocol) : out_(out), protocol_(protocol) {}

  void operator()(const Ticked&) { out_.key("tick").boolean(true); }
  void operator()(const Answered& said) { answers("answer", said.answers); }
  void operator()(const GotWorse& said) { answers("worse", said.answers); }
  void operator()(const Corrected& said) { answers("correct", said.answers); }
  void operator()(const AllDone&) { out_.key("done").boolean(true); }

  void operator()(const Done& done) {
    out_.key("done");
    if (done.deeds.size() == 1) {
      deed(done.deeds.front());
      return;
    }
    out_.begin_list();
    for (const Deed& one : done.deeds) deed(one);
    out_.end_list();
  }

  void operator()(const Called& called) {
    out_.key("call").begin_object();
    out_.key("contact").text(name_of(called.contact)).key("outcome").text(name_of(called.outcome));
    if (called.outcome == Outcome::told) out_.key("text").text(called.text);
    out_.end_object();
  }

  void operator()(const LanguageChanged& changed) {
    out_.key("language").text(words::kLanguages[static_cast<std::size_t>(changed.language)]);
  }
  void operator()(const TakenOver& taken) { out_.key("takeover").begin_object().key("by").text(taken.by).end_object(); }
  void operator()(const Remembered& told) {
    out_.key("past").begin_object().key("readings").begin_list();
    for (const History::Reading& reading : told.past.readings) {
      out_.begin_object().key("at").text(text_from_moment(reading.when));
      out_.key("glucose").text(text_from_history(reading.value)).end_object();
    }
    out_.end_list().key("treated").begin_list();
    for (const Moment& when : told.past.treatments) out_.text(text_from_moment(when));
    out_.end_list();
    if (told.past.last_insulin) out_.key("insulin").text(text_from_moment(*told.past.last_insulin));
    out_.end_object();
  }
  void operator()(const Abandoned& left) {
    out_.key("abandon").begin_object();
    if (!left.why.empty()) out_.key("why").text(left.why);
    out_.end_object();
  }

 private:
  void answers(std::string_view word, const Answers& answers) {
    out_.key(word).begin_object();
    for (const auto& [id, value] : answers) out_.key(protocol_[id].name).text(text_from_value(value, protocol_[id]));
    out_.end_object();
  }

  void deed(const Deed& one) {
    out_.begin_object();
    out_.key("action").text(protocol_[one.action].name).key("outcome").text(name_of(one.outcome));
    if (one.amount) out_.key("amount").text(text_from_quantity(*one.amount));
    if (one.when) out_.key("when").text(text_from_moment(*one.when));
    out_.end_object();
  }

  JsonWriter& out_;
  const Protocol& protocol_;
};

}  // namespace

std::string line_from_event(const Event& event, const Protocol& protocol) {
  JsonWriter out;
  out.begin_object().key("at").text(text_from_moment(event.at));
  EventWriter writer(out, protocol);
  std::visit(writer, event.what);
  out.end_object();
  return out.json();
}

}  // namespace rushlight
