#include "cli/walk_terminal.hpp"

#include <unistd.h>

#include <algorithm>
#include <iostream>
#include <sstream>

#include "cli/asked_below.hpp"
#include "cli/cut_off.hpp"
#include "cli/first_aid_card.hpp"
#include "cli/keys.hpp"
#include "cli/print_findings.hpp"
#include "cli/resumed.hpp"
#include "cli/say.hpp"
#include "cli/signals.hpp"
#include "cli/walk_loop.hpp"
#include "episode/phrases.hpp"
#include "episode/words.hpp"
#include "measure/written.hpp"
#include "wire/line_from_event.hpp"

namespace rushlight {
namespace {

using std::chrono::hours;

constexpr int kPatience = 500;     // milliseconds for another program's write: an instruction waits no longer
constexpr hours kStillTonight{4};  // an open episode with nothing said for longer is asked about
constexpr hours kStillReading{1};  // a last screen may have been lost to a closed window

bool only_unreadable(const std::vector<Finding>& findings) {
  return std::all_of(findings.begin(), findings.end(), [](const Finding& finding) {
    return finding.severity == Severity::warning || finding.kind.is<NotReadable>();
  });
}

/// Everything before the first screen: the journal, who else walks, and what is unfinished.
class Opening {
 public:
  Opening(const WalkInTerminal& walk, Terminal& terminal, Keyboard& keyboard, const Clock& clock, PaperClock* paper)
      : walk_(walk), terminal_(terminal), keyboard_(keyboard), clock_(clock), paper_(paper), language_(walk.language) {}

  int run() {
    if (!open_journal() || !claim()) return status_;
    Walked walked{walk_.protocol.checked, walk_.child, {}, walk_.how_to_go_on, ""};
    if (!find_unfinished(walked)) return status_;
    if (!going_on_) {
      if (!choose(walked)) return status_;
      begin(walked);
    }
    if (took_over_) write_down(walked, TakenOver{walker().who});
    const Language wanted = going_on_ && !walk_.language_chosen ? walked.episode.language : walk_.language;
    if (wanted != walked.episode.language) write_down(walked, LanguageChanged{wanted});
    return WalkLoop(std::move(walked), terminal_, keyboard_, clock_, store_, paper_).run();
  }

 private:
  Walker walker() const {
    const char* terminal = ttyname(STDIN_FILENO);
    return this_walker(clock_.now(), terminal == nullptr ? "" : terminal);
  }

  bool open_journal() {
    if (walk_.journal.empty()) return true;
    Journal::Options options;
    options.patience = kPatience;
    Read<Journal> opened = Journal::open(walk_.journal, options);
    if (opened.value) {
      store_ = WalkStore(std::move(*opened.value), walker());
      return true;
    }
    // A disk that cannot be read never holds up a walk: the screen says that nothing is saved. But a journal that was
    // written and is not understood may hold what was given an hour ago, and that has to be said first.
    return only_unreadable(opened.findings) || go_on_unsaved(opened.findings, say(kJournalRefused, language_));
  }

  // Nothing has scrolled away on 24 rows: what is wrong, the card, and the one question.
  bool go_on_unsaved(const std::vector<Finding>& findings, const std::string& what_it_means) {
    for (const std::string& line : what_is_wrong(findings, language_)) terminal_.print(line);
    terminal_.print(what_it_means);
    print_lines(first_aid_card(language_));
    terminal_.print(other_language_line(language_, walk_.how_to_go_on));
    store_ = WalkStore();
    status_ = exit_status_of(findings);
    return terminal_.is_terminal() && says_yes(say(kGoOnUnsaved, language_));
  }

  bool claim() {
    const std::optional<Walker> held = store_.claim(walk_.child.name);
    if (!held) return true;
    terminal_.print(say(kHeldTitle, language_, walk_.child.name));
    terminal_.print(say(kHeldSince, language_, clock_text(held->since)));
    if (terminal_.is_terminal() && says_yes(say(kHeldAsk, language_))) {
      store_.take_over(walk_.child.name);
      took_over_ = true;
      return true;
    }
    terminal_.print(say(kHeldLeft, language_, walk_.how_to_go_on));
    status_ = 1;
    return false;
  }

  bool find_unfinished(Walked& walked) {
    auto found = store_.unfinished(walk_.child.name);
    const std::string refused = say(kEpisodeRefused, language_, walk_.child.name);
    if (!found.value) return go_on_unsaved(found.findings, refused);
    if (!*found.value) return true;
    const Unfinished& unfinished = **found.value;
    auto resumed = resumed_from(unfinished.record, unfinished.lines);
    if (const auto* findings = std::get_if<std::vector<Finding>>(&resumed)) return go_on_unsaved(*findings, refused);
    Resumed& earlier = std::get<Resumed>(resumed);
    const Walked earlier_walk{earlier.protocol.checked, earlier.child, earlier.episode, "", ""};
    if (!is_to_go_on(earlier_walk)) return true;
    walked.protocol = earlier.protocol.checked;
    walked.child = std::move(earlier.child);
    walked.episode = std::move(earlier.episode);
    if (paper_ != nullptr) paper_->not_before(Moment{walked.episode.clock.last_wall, walked.episode.clock.offset});
    walked.said = where_it_stands(walked);
    store_.go_on_with(unfinished);
    going_on_ = true;
    return true;
  }

  bool is_to_go_on(const Walked& walked) {
    const Episode& episode = walked.episode;
    const Duration silent = clock_.now().utc - episode.clock.last_wall;
    if (episode.ended) return silent < kStillReading;
    if (silent < kStillTonight || !terminal_.is_terminal()) return true;
    // What stood on the screen when somebody was last there, and not what the hours without anybody have made of it.
    const Moment last{episode.clock.last_wall, episode.clock.offset};
    const View view = view_of(walked.protocol.protocol(), walked.child, episode, last);
    terminal_.print(say(kStaleTitle, language_, walk_.child.name,
                        text_from_day(local_day_of(episode.began)) + " " + clock_text(episode.began)));
    terminal_.print(
        say(kStaleWas, language_, clock_text(last), shown_as(view.urgency, language_) + ". " + view.headline));
    terminal_.print(say(kStaleOld, language_));
    terminal_.print(say(kStaleNew, language_));
    while (true) {
      const std::optional<std::string> typed = line_asked_for(terminal_, keyboard_, say(kTellChoice, language_));
      if (!typed) return true;
      const std::optional<int> number = number_from_text(*typed);
      if (number == 1 || number == 2) return number == 1;
    }
  }

  std::string where_it_stands(const Walked& walked) const {
    const Language language = walk_.language_chosen ? walk_.language : walked.episode.language;
    const View view = view_of(walked.protocol.protocol(), walked.child, walked.episode, clock_.now());
    std::string said = say(kGoingOn, language, clock_text(walked.episode.began));
    if (view.wait) said += " " + say(kDueAt, language, view.wait->label, clock_text(view.wait->until));
    return said;
  }

  // A low is what a night is most often about: Enter alone begins it.
  bool choose(Walked& walked) {
    if (walk_.others.empty() || !terminal_.is_terminal()) return true;
    const Language language = walk_.language;
    const std::size_t most = walk_.others.size() + 1;
    terminal_.print(say(kWhatIsIt, language));
    for (std::size_t place = 0; place < most; ++place) {
      const LoadedProtocol& offered = place == 0 ? walk_.protocol : walk_.others[place - 1];
      terminal_.print(std::to_string(place + 1) + ". " + plain_words(offered.checked.protocol().title, language));
    }
    while (true) {
      const std::optional<std::string> typed = line_asked_for(terminal_, keyboard_, say(kFirstByEnter, language));
      if (!typed) return false;
      const std::optional<int> number = trimmed(*typed).empty() ? std::optional<int>(1) : number_from_text(*typed);
      const std::size_t place = number ? static_cast<std::size_t>(*number) : 0;
      if (place == 0 || place > most) continue;
      if (place > 1) chosen_ = walk_.others[place - 2];
      walked.protocol = chosen_.checked;
      return true;
    }
  }

  void begin(Walked& walked) {
    const Protocol& protocol = walked.protocol.protocol();
    const Moment now = clock_.now();
    walked.episode = begun(protocol, walked.child, now);
    store_.begin(EpisodeStart{walked.child.name, now, protocol.set, protocol.name, protocol.version, chosen_.bytes,
                              walk_.child_bytes});
    if (reads_the_past(protocol))
      write_down(walked, Remembered{store_.past(walked.child.name, walked.child.unit, now)});
  }

  void write_down(Walked& walked, const What& what) {
    const Event event{clock_.now(), what};
    store_.save(line_from_event(event, walked.protocol.protocol()));
    walked.episode = folded(walked.protocol.protocol(), walked.child, std::move(walked.episode), event);
  }

  bool says_yes(const std::string& sentence) { return agreed_to(terminal_, keyboard_, language_, sentence); }

  void print_lines(const std::string& text) {
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) terminal_.print(line);
  }

  const WalkInTerminal& walk_;
  LoadedProtocol chosen_ = walk_.protocol;  // for a new episode
  Terminal& terminal_;
  Keyboard& keyboard_;
  const Clock& clock_;
  PaperClock* paper_;  // the same clock, while a night on paper is entered
  Language language_;
  WalkStore store_;
  bool going_on_ = false, took_over_ = false;
  int status_ = 0;
};

}  // namespace

int walk_in_terminal(const WalkInTerminal& walk) {
  note_signals();
  const bool both_ends = isatty(STDIN_FILENO) == 1 && isatty(STDOUT_FILENO) == 1;
  Terminal terminal(STDOUT_FILENO, both_ends, walk.plain);
  Keyboard keyboard(STDIN_FILENO);
  const ClockChoice choice = clock_from_environment();
  if (!choice.clock) {
    terminal.print(choice.refusal);
    return 2;
  }
  std::optional<PaperClock> paper;
  if (!walk.from.empty())
    paper.emplace(*choice.clock, clock_time_from_text(walk.from).value_or(ClockTime::of_minutes(0)));
  const int status = paper ? Opening(walk, terminal, keyboard, *paper, &*paper).run()
                           : Opening(walk, terminal, keyboard, *choice.clock, nullptr).run();
  return terminal.failed_with() == 0 ? status : tell_cut_off(std::cerr, terminal.failed_with());
}

}  // namespace rushlight
