#include "cli/walk_json.hpp"

#include <istream>
#include <ostream>

#include "cli/clock.hpp"
#include "cli/event_lines.hpp"
#include "cli/first_aid_card.hpp"
#include "cli/misplaced_deed.hpp"
#include "cli/print_findings.hpp"
#include "cli/resumed.hpp"
#include "cli/walk_store.hpp"
#include "episode/fold.hpp"
#include "episode/view.hpp"
#include "wire/event_from_line.hpp"
#include "wire/json_from_finding.hpp"
#include "wire/json_from_view.hpp"
#include "wire/json_tree.hpp"
#include "wire/line_from_event.hpp"

namespace rushlight {
namespace {

class JsonWalk {
 public:
  JsonWalk(const WalkJson& walk, WalkStore store)
      : walk_(walk), protocol_(walk.protocol), child_(walk.child), store_(std::move(store)) {}

  /// Before the first line: who else walks this child, and what is unfinished. Findings when the walk cannot begin.
  std::vector<Finding> open() {
    if (walk_.take_over) {
      store_.take_over(child_.name);
    } else if (const auto holder = store_.claim(child_.name)) {
      const WrongUse held{"another walk of this child has been going on since " + text_from_moment(holder->since),
                          "end that one, or start with --take-over"};
      return {Finding{Severity::error, Where{walk_.journal, 0, 0, 0}, held, {}}};
    }
    auto found = store_.unfinished(child_.name);
    if (!found.value) return found.findings;
    if (!*found.value) return {};
    auto resumed = resumed_from((*found.value)->record, (*found.value)->lines);
    if (auto* findings = std::get_if<std::vector<Finding>>(&resumed)) return *findings;
    auto& earlier = std::get<Resumed>(resumed);
    if (earlier.episode.ended) return {};  // it came to its end and was not closed: the next event begins a new one
    protocol_ = std::move(earlier.protocol);
    child_ = std::move(earlier.child);
    episode_ = std::move(earlier.episode);
    store_.go_on_with(**found.value);
    return {};
  }

  /// The line that answers an input line.
  std::string answer(const std::string& line, std::uint32_t number) {
    auto read = event_from_line(line, protocol(), child_, "input", number);
    if (auto* findings = std::get_if<std::vector<Finding>>(&read)) return refused(*findings);
    const Event& event = std::get<Event>(read);
    if (!started_) start(event.at);
    const Where place{"input", number, 1, 1};
    if (const auto misplaced = misplaced_deed(protocol(), child_, *episode_, event, place))
      return refused({*misplaced});
    Episode after = folded(protocol(), child_, *episode_, event);
    const std::optional<bool> saved = save(event);
    if (store_.was_taken_over()) {
      const WrongUse use{"somebody else has taken over this child", "follow the other walk"};
      return refused({Finding{Severity::error, place, use, {}}});
    }
    last_ = event.at;
    episode_ = std::move(after);
    return json_from_view(view_of(protocol(), child_, *episode_, event.at), saved);
  }

  int finish() {
    if (episode_ && episode_->ended && last_) store_.close(*last_);
    store_.let_go();
    return any_refused_ ? 1 : 0;
  }

 private:
  const Protocol& protocol() const { return protocol_.checked.protocol(); }

  std::string refused(const std::vector<Finding>& findings) {
    any_refused_ = true;
    return json_from_refusal(findings);
  }

  // Durable before anybody sees what follows from it. Nothing without a journal.
  std::optional<bool> save(const Event& event) {
    if (walk_.journal.empty()) return std::nullopt;
    const bool kept = store_.save(line_from_event(event, protocol()));
    if (store_.was_taken_over()) store_.forget_last();
    return kept;
  }

  // With the first event: time begins.
  void start(const Moment& at) {
    started_ = true;
    if (!episode_) {
      episode_ = begun(protocol(), child_, at);
      store_.begin(EpisodeStart{child_.name, at, protocol().set, protocol().name, protocol().version, protocol_.bytes,
                                walk_.child_bytes});
      if (reads_the_past(protocol())) tell(Event{at, Remembered{store_.past(child_.name, child_.unit, at)}});
    }
    if (walk_.language && *walk_.language != episode_->language) {
      tell(Event{at, LanguageChanged{*walk_.language}});
    }
  }

  void tell(const Event& event) {
    episode_ = folded(protocol(), child_, std::move(*episode_), event);
    save(event);
  }

  const WalkJson& walk_;
  LoadedProtocol protocol_;
  Child child_;
  WalkStore store_;
  std::optional<Episode> episode_;
  std::optional<Moment> last_;
  bool started_ = false;
  bool any_refused_ = false;
};

int refuse(std::ostream& out, std::ostream& err, const WalkJson& walk, const std::vector<Finding>& findings) {
  out << json_from_refusal(findings) << '\n';
  const Language language = walk.language.value_or(walk.child.language);
  err << cannot_begin(what_is_wrong(findings, language), language);
  return exit_status_of(findings);
}

}  // namespace

int walk_json(std::istream& in, std::ostream& out, std::ostream& err, const WalkJson& walk) {
  WalkStore store;
  if (!walk.journal.empty()) {
    Read<Journal> journal = Journal::open(walk.journal);
    if (!journal.value) return refuse(out, err, walk, journal.findings);
    store = WalkStore(std::move(*journal.value), this_walker(RealClock().now(), "walk --json"));
  }
  JsonWalk session(walk, std::move(store));
  if (const auto findings = session.open(); !findings.empty()) return refuse(out, err, walk, findings);
  EventLines lines(in, kEventLimits.bytes);
  while (const auto line = lines.next()) out << session.answer(*line, lines.number()) << '\n' << std::flush;
  return session.finish();
}

}  // namespace rushlight
