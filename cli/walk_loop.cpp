#include "cli/walk_loop.hpp"

#include <algorithm>

#include "cli/asked_below.hpp"
#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "cli/screen_text.hpp"
#include "cli/signals.hpp"
#include "measure/written.hpp"
#include "wire/line_from_event.hpp"

namespace rushlight {
namespace {

using std::chrono::milliseconds;
using std::chrono::seconds;

constexpr milliseconds kBounce{600};       // nobody reads a screen faster: a second Enter was meant for the one before
constexpr milliseconds kTimeToRead{1500};  // what was typed while the screen changed was meant for the one before
constexpr seconds kBetweenRetries{5};

constexpr int kSignalStatus = 128;  // as shells count: Ctrl-C is 130

}  // namespace

WalkLoop::WalkLoop(Walked walked, Terminal& terminal, Keyboard& keyboard, const Clock& clock, WalkStore& store,
                   PaperClock* paper)
    : walked_(std::move(walked)),
      terminal_(terminal),
      keyboard_(keyboard),
      clock_(clock),
      store_(store),
      paper_(paper),
      now_(clock.now()),
      settled_(walked_.episode),
      view_(),
      said_(walked_.said) {}

Situation WalkLoop::situation() const {
  Situation here{walked_.protocol.protocol(), walked_.child, settled_, view_, now_};
  here.first = first_;
  here.saving = store_.is_saving();
  here.practice = clock_.practice();
  here.paper = paper_ != nullptr && paper_->is_paper();
  return here;
}

int WalkLoop::run() {
  terminal_.ring();  // the alarm is tried aloud; the first screen says so
  while (true) {
    if (const int number = signal_to_leave()) return leave(kSignalStatus + number);
    look();
    const Typed typed = keyboard_.wait(kBetweenLooks);
    if (signal_to_leave() != 0) continue;
    if (typed.kind == Typed::Kind::end) return leave(0);
    if (typed.kind == Typed::Kind::nothing) continue;
    if (const std::optional<int> status = take(typed.text)) return *status;
  }
}

void WalkLoop::look() {
  now_ = clock_.now();
  const Protocol& protocol = walked_.protocol.protocol();
  settled_ = settled_at(protocol, walked_.child, walked_.episode, now_);
  view_ = view_of(protocol, walked_.child, settled_, now_);
  if (!store_.is_saving() && ticks() - retried_at_ > kBetweenRetries) {
    store_.retry();
    retried_at_ = ticks();
  }
  const Situation here = situation();
  dialog_ = still_meant(here, std::move(dialog_));
  const Noticed noticed = noticed_in(view_, now_.utc);
  const bool moved = noticed_ && !(*noticed_ == noticed);
  if (moved && !by_key_) said_.clear();

  const Screen screen = screen_of(here, dialog_, said_);
  const bool anew = take_redraw_request() || by_key_ || !shown_;
  if (anew || !shown_->says_the_same_as(screen)) {
    by_time_ = moved && !by_key_;
    draw(screen, anew ? Prompt::anew : prompt_);
  } else {
    if (screen.live != shown_live_) terminal_.rewrite_above_prompt(screen.live);
    if (screen.when != shown_when_) rewrite_time(screen);
  }
  shown_when_ = screen.when;
  shown_live_ = screen.live;
  sound(noticed);
  by_key_ = false;
}

void WalkLoop::rewrite_time(const Screen& screen) {
  const int width = terminal_.size().columns - 1;
  const bool second_row = columns_of(screen.urgency) <= width;  // on the narrowest screens the urgency takes two
  if (second_row)
    terminal_.rewrite_second(who_line(screen, width));
  else
    draw(screen, prompt_);
}

void WalkLoop::draw(const Screen& screen, Prompt prompt) {
  const auto pages = pages_of(screen, terminal_.size(), view_.language);
  pages_ = pages.size();
  if (!by_key_ || page_ >= pages_) page_ = 0;
  if (terminal_.is_live() && prompt == Prompt::stays) {
    terminal_.show_above_prompt(pages[page_]);
  } else if (terminal_.is_live()) {
    terminal_.show(pages[page_], "> ");
  } else {
    for (const auto& page : pages_of(screen, {1000, terminal_.size().columns}, view_.language))
      terminal_.show(page, "> ");
    pages_ = 1;
  }
  shown_ = screen;
  drawn_at_ = ticks();
}

void WalkLoop::sound(const Noticed& noticed) {
  const bool moved = noticed_ && !(*noticed_ == noticed);
  noticed_ = noticed;
  if (by_key_) return;
  const Situation here = situation();
  if (bell_.rings({moved, time_is_up(here), somebody_is_asked(here)}, ticks(), now_.utc)) terminal_.ring();
}

std::optional<int> WalkLoop::take(const std::string& line) {
  prompt_ = Prompt::anew;  // the line's own Enter has left it
  look();                  // what passed while the line was typed is shown before the line means anything
  prompt_ = Prompt::stays;
  const auto since_drawn = ticks() - drawn_at_;
  const bool blank = trimmed(line).empty();
  const bool bounced = terminal_.is_terminal() && blank && !by_time_ && !first_ && since_drawn < kBounce;
  const bool unread = terminal_.is_terminal() && by_time_ && since_drawn < kTimeToRead;
  bell_.hear_key(ticks(), now_.utc);
  by_key_ = true;
  if (bounced) return std::nullopt;
  if (unread) {
    said_ =
        blank ? say(kJustChanged, view_.language) : say(kJustChangedTyped, view_.language, std::string(trimmed(line)));
    by_time_ = false;
    return std::nullopt;
  }
  if (blank && page_ + 1 < pages_) {
    ++page_;
    return std::nullopt;
  }
  page_ = 0;
  if (paper_ == nullptr || !paper_->is_paper()) return carry_out(turn_after(situation(), dialog_, line));
  const PaperClock::Taken taken = paper_->take(line, view_.language);
  said_ = taken.refusal;
  const bool only_a_time = trimmed(taken.rest).empty() && !blank;
  if (only_a_time) return std::nullopt;
  look();  // what passed by the time on the paper
  return carry_out(turn_after(situation(), dialog_, taken.rest));
}

std::optional<int> WalkLoop::carry_out(const Turn& turn) {
  if (turn.command == Command::stop || turn.command == Command::close) return leave(0);
  if (turn.command == Command::beep) terminal_.ring();
  if (turn.what) {
    write_down(*turn.what);
    if (store_.was_taken_over()) return was_taken_over();
    first_ = false;
  }
  dialog_ = turn.next;
  said_ = turn.said;
  return std::nullopt;
}

// Kept first, believed after: what the screen shows has been acknowledged, or the screen says that it is not saved.
void WalkLoop::write_down(const What& what) {
  const Event event{now_, what};
  store_.save(line_from_event(event, walked_.protocol.protocol()));
  if (store_.was_taken_over()) return;
  walked_.episode = folded(walked_.protocol.protocol(), walked_.child, std::move(walked_.episode), event);
}

std::optional<int> WalkLoop::was_taken_over() {
  store_.forget_last();
  const Language language = view_.language;
  terminal_.leave_prompt();
  terminal_.print(say(kWasTakenOver, language, view_.child));
  if (!agreed_to(terminal_, keyboard_, language, say(kTakeBack, language))) return 0;

  store_.take_over(view_.child);
  const auto kept = store_.unfinished(view_.child);
  const Protocol& protocol = walked_.protocol.protocol();
  if (kept.value && *kept.value) {
    const Unfinished& unfinished = **kept.value;
    auto episode =
        episode_from_lines(protocol, walked_.child, unfinished.record.start.began, unfinished.lines, "journal");
    if (episode.value) walked_.episode = std::move(*episode.value);
    store_.go_on_with(unfinished);
  }
  write_down(TakenOver{""});
  dialog_ = OnStep{};
  said_.clear();
  by_key_ = true;
  return std::nullopt;
}

int WalkLoop::leave(int status) {
  const Language language = view_.language;
  const bool ended = walked_.episode.ended;
  if (ended) store_.close(clock_.now());
  const bool saved = store_.is_saving();
  store_.let_go();
  terminal_.leave_prompt();
  if (!ended && view_.wait) terminal_.print(say(kNoAlarmNow, language, clock_text(view_.wait->until)));
  const Both& last_word = ended ? kClosed : saved ? kStopped : kStoppedUnsaved;
  terminal_.print(say(last_word, language, walked_.how_to_go_on));
  return ended && status == 0 ? 0 : status;
}

}  // namespace rushlight
