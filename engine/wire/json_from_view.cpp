#include "wire/json_from_view.hpp"

#include "protocol/words.hpp"
#include "wire/json_writer.hpp"

namespace rushlight {
namespace {

class ViewWriter {
 public:
  std::string written(const View& view, std::optional<bool> saved) {
    out_.begin_object();
    out_.key("protocol").text(view.protocol).key("step").text(view.step);
    out_.key("urgency").text(name_of(view.urgency)).key("headline").text(view.headline);
    write_beside(view);
    write_questions(view);
    write_actions(view);
    write_times(view);
    write_calls(view);
    write_grounds(view);
    write_rest(view);
    if (saved) out_.key("saved").boolean(*saved);
    out_.end_object();
    return out_.json();
  }

 private:
  void write_beside(const View& view) {
    out_.key("also").begin_list();
    for (const std::string& text : view.also) out_.text(text);
    out_.end_list();
    out_.key("meanwhile");
    if (view.meanwhile.empty()) {
      out_.null();
    } else {
      out_.text(view.meanwhile);
    }
  }

  void write_questions(const View& view) {
    out_.key("ask").begin_list();
    for (const ShownQuestion& question : view.ask) out_.text(question.name);
    out_.end_list();
    out_.key("asked_since");
    if (view.asked_since) {
      out_.text(text_from_moment(*view.asked_since));
    } else {
      out_.null();
    }
    out_.key("questions").begin_list();
    for (const ShownQuestion& question : view.ask) {
      out_.begin_object().key("id").text(question.name);
      out_.key("kind").text(words::kFactKinds[static_cast<std::size_t>(question.kind)]);
      out_.key("text").text(question.text);
      if (!question.help.empty()) out_.key("help").text(question.help);
      out_.key("choices").begin_list();
      for (const auto& choice : question.choices) {
        out_.begin_object().key("id").text(choice.name).key("text").text(choice.text).end_object();
      }
      out_.end_list().end_object();
    }
    out_.end_list();
  }

  void write_actions(const View& view) {
    out_.key("do").begin_list();
    for (const ShownAction& action : view.actions) {
      out_.begin_object()
          .key("id")
          .text(action.name)
          .key("kind")
          .text(name_of(action.kind))
          .key("text")
          .text(action.text);
      if (action.dose) write_dose(*action.dose);
      if (action.contact) out_.key("contact").text(name_of(*action.contact));
      if (action.outcome) out_.key("outcome").text(name_of(*action.outcome));
      out_.end_object();
    }
    out_.end_list();
  }

  void write_dose(const DoseResult& dose) {
    out_.key("amount");
    if (!dose.amount) {
      out_.null();
      return;
    }
    out_.begin_object().key("value").number(dose.amount->value).key("unit").text(ucum(dose.amount->unit));
    if (!dose.share.empty()) out_.key("share").text(dose.share);
    out_.key("working").text(dose.working).end_object();
  }

  void write_timer(const ShownTimer& timer) {
    out_.begin_object().key("id").text(timer.name).key("until").text(text_from_moment(timer.until));
    out_.key("label").text(timer.label).end_object();
  }

  void write_times(const View& view) {
    out_.key("wait");
    if (view.wait) {
      write_timer(*view.wait);
    } else {
      out_.null();
    }
    out_.key("waiting").boolean(view.waiting);
    out_.key("early").begin_list();
    for (const ShownEarly& early : view.early) {
      out_.begin_object().key("fact").text(early.name).key("value").text(early.choice);
      out_.key("text").text(early.text).end_object();
    }
    out_.end_list();
    out_.key("timers").begin_list();
    for (const ShownTimer& timer : view.timers) write_timer(timer);
    out_.end_list();
  }

  void write_call(const ShownCall& call) {
    out_.begin_object().key("contact").text(name_of(call.contact)).key("who").text(call.who);
    out_.key("number").text(call.number).key("text").text(call.text);
    if (call.answer_by) out_.key("answer_by").text(text_from_moment(*call.answer_by));
    out_.end_object();
  }

  void write_calls(const View& view) {
    out_.key("open_calls").begin_list();
    for (const ShownCall& call : view.open_calls) write_call(call);
    out_.end_list();
    out_.key("call");
    if (view.call) {
      write_call(*view.call);
    } else {
      out_.null();
    }
  }

  void write_grounds(const View& view) {
    out_.key("withheld").begin_list();
    for (const Withheld& one : view.withheld) {
      out_.begin_object().key("what").text(one.what).key("reason").text(one.reason).end_object();
    }
    out_.end_list();
    out_.key("caution").begin_list();
    for (const std::string& caution : view.caution) out_.text(caution);
    out_.end_list();
    write_approval(view.approval);
    out_.key("why").begin_list();
    for (const Why& why : view.why) {
      out_.begin_object().key("rule").text(why.rule);
      if (!why.threshold.empty()) {
        out_.key("threshold").text(why.threshold).key("label").text(why.label).key("value").text(why.value);
      }
      out_.key("source").text(why.source).end_object();
    }
    out_.end_list();
  }

  void write_approval(const ShownApproval& shown) {
    out_.key("approval").begin_object().key("state").text(id_of(shown.state));
    if (shown.approval) {
      out_.key("by").text(shown.approval->by).key("role").text(shown.approval->role);
      out_.key("on").text(text_from_day(shown.approval->on)).key("until").text(text_from_day(shown.approval->until));
    }
    out_.key("text").text(shown.text).end_object();
  }

  void write_rest(const View& view) {
    out_.key("given").begin_list();
    for (const GivenLine& line : view.given) {
      out_.begin_object().key("action").text(line.name).key("outcome").text(name_of(line.outcome));
      out_.key("when").text(text_from_moment(line.when)).key("text").text(line.text).end_object();
    }
    out_.end_list();
    out_.key("drinks");
    if (view.drinks) {
      out_.begin_object().key("drunk");
      if (view.drinks->told) {
        out_.text(text_from_quantity(view.drinks->drunk));
      } else {
        out_.null();
      }
      out_.key("goal").text(text_from_quantity(view.drinks->goal));
      out_.key("since").text(text_from_moment(view.drinks->since)).end_object();
    } else {
      out_.null();
    }
    out_.key("say").begin_list();
    for (const std::string& line : view.say) out_.text(line);
    out_.end_list();
    out_.key("told");
    if (view.told.empty()) {
      out_.null();
    } else {
      out_.text(view.told);
    }
    out_.key("ended").boolean(view.ended);
    out_.key("set").text(view.set).key("child").text(view.child);
    out_.key("language").text(words::kLanguages[static_cast<std::size_t>(view.language)]);
  }

  JsonWriter out_;
};

}  // namespace

std::string json_from_view(const View& view, std::optional<bool> saved) { return ViewWriter().written(view, saved); }

}  // namespace rushlight
