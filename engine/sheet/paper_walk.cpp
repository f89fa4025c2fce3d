#include "sheet/paper_walk.hpp"

#include "episode/value_from_text.hpp"
#include "episode/words.hpp"
#include "sheet/sheet_words.hpp"

namespace rushlight {
namespace {

constexpr Duration kToAnswer{1};
constexpr int kMostQuestions = 40;  // more without anything to do is a protocol that paper cannot hold

void replace_all(std::string& text, const std::string& what, const std::string& with) {
  for (std::size_t at = text.find(what); !what.empty() && at != std::string::npos;
       at = text.find(what, at + with.size()))
    text.replace(at, what.size(), with);
}

}  // namespace

std::string on_paper(std::string text, const View& view, Moment now) {
  if (view.wait) {
    const Duration left = view.wait->until.utc - now.utc;
    const Duration minutes = std::chrono::ceil<std::chrono::minutes>(left);
    replace_all(text, text_from_clock_time(clock_time_of(view.wait->until)),
                sheet_say(SheetWord::clock_blank, view.language, text_from_duration(minutes)));
  }
  return text;
}

PaperWalk::PaperWalk(const Protocol& protocol, const Child& child, Moment at)
    : protocol_(&protocol), child_(&child), now_(at), episode_(begun(protocol, child, at)) {}

void PaperWalk::happens(const decltype(Event::what)& what) {
  night_.push_back(Event{now_, what});
  episode_ = folded(*protocol_, *child_, std::move(episode_), night_.back());
}

void PaperWalk::answer(FactId fact, const Value& value) {
  now_.utc += kToAnswer;
  if (const auto* reading = std::get_if<Glucose>(&value)) reading_ = text_from_glucose(*reading);
  happens(Answered{{{fact, value}}});
}

bool PaperWalk::answer(std::string_view fact, std::string_view option) {
  const std::optional<FactId> id = protocol_->fact_named(fact);
  if (!id) return false;
  const auto value = value_from_text(std::string(option), (*protocol_)[*id], child_->unit);
  if (!std::holds_alternative<Value>(value)) return false;
  answer(*id, std::get<Value>(value));
  return true;
}

void PaperWalk::worse(FactId fact, std::uint16_t option) {
  now_.utc += kToAnswer;
  happens(GotWorse{{{fact, Chosen{option}}}});
}

void PaperWalk::outcome(ActionId action, Outcome outcome) {
  now_.utc += kToAnswer;
  happens(Done{{Deed{action, outcome, std::nullopt, std::nullopt}}});
}

void PaperWalk::all_done() {
  now_.utc += kToAnswer;
  happens(AllDone{});
}

void PaperWalk::called(Contact contact, Outcome outcome) {
  now_.utc += kToAnswer;
  happens(Called{contact, outcome, ""});
}

void PaperWalk::wait_over() {
  const View here = view();
  if (!here.wait) return;
  now_.utc = std::max(now_.utc, here.wait->until.utc);
  happens(Ticked{});
}

std::optional<FactId> PaperWalk::go_on(const std::set<std::string>& asked) {
  for (int turn = 0; turn < kMostQuestions; ++turn) {
    const View here = view();
    if (here.ended || here.call || here.waiting) return std::nullopt;
    for (const ShownQuestion& question : here.ask) {
      if (asked.count(question.name) != 0) return question.id;
    }
    for (const ShownAction& action : here.actions) {
      if (!action.outcome) return std::nullopt;
    }
    if (here.ask.empty()) return std::nullopt;
    answer(here.ask.front().id, CantTell{});
  }
  return std::nullopt;
}

void PaperWalk::leave_questions() {
  const View here = view();
  for (const ShownQuestion& question : here.ask) {
    if (view().step == here.step) answer(question.id, CantTell{});
  }
}

std::string PaperWalk::question(FactId fact) const {
  const Scene here = scene_at(*protocol_, *child_, episode_, now_.utc);
  return filled(here, (*protocol_)[fact].question, child_->language, std::nullopt);
}

View PaperWalk::view() const { return view_of(*protocol_, *child_, episode_, now_); }

bool PaperWalk::wait_hangs_on_the_clock() const {
  const std::optional<Wait>& wait = (*protocol_)[episode_.step].wait;
  if (!wait) return false;
  for (const Band& band : (*protocol_)[wait->lasts].bands) {
    if (band.clock_from || band.clock_up_to) return true;
  }
  return false;
}

Duration PaperWalk::wait() const {
  const std::optional<Wait>& wait = (*protocol_)[episode_.step].wait;
  if (!wait) return Duration{0};
  const Scene here = scene_at(*protocol_, *child_, episode_, now_.utc);
  const auto* lasts = std::get_if<Duration>(&value_in((*protocol_)[wait->lasts], here.context));
  return lasts != nullptr ? *lasts : Duration{0};
}

std::string PaperWalk::blanked(std::string text, const Text& written, const View& here) const {
  for (const Piece& piece : written.in(here.language)) {
    const auto* filler = std::get_if<Filler>(&piece);
    if (filler != nullptr && *filler == Filler::glucose && !reading_.empty()) replace_all(text, reading_, "____");
  }
  return on_paper(std::move(text), here, now_);
}

std::vector<SheetLine> PaperWalk::lines() const {
  const View here = view();
  std::vector<SheetLine> lines;
  for (const ShownAction& action : here.actions) {
    if (action.outcome || action.kind == ActionKind::insulin) continue;
    lines.push_back({blanked(action.text, (*protocol_)[action.id].text, here), action.kind, night_, false});
  }
  return lines;
}

SheetLine PaperWalk::headline() const {
  const View here = view();
  return {blanked(here.headline, (*protocol_)[episode_.step].headline, here), ActionKind::note, night_, true};
}

}  // namespace rushlight
