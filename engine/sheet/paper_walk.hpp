#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "episode/fold.hpp"
#include "sheet/sheet.hpp"

namespace rushlight {

/// A text as paper can hold it: the clock time at which the wait ends becomes a blank to write in, with how long it is
/// until then; the reading becomes a blank.
std::string on_paper(std::string text, const View& view, Moment now);

/// The engine, asked what it says after certain answers. What the paper does not ask is answered "can't tell", so that
/// the protocol's own careful way is taken. A copy goes on by itself.
class PaperWalk {
 public:
  PaperWalk(const Protocol& protocol, const Child& child, Moment at);

  bool asks(std::string_view fact) const { return protocol_->fact_named(fact).has_value(); }
  /// False when the protocol has no such question or answer. "unknown" is one of every question.
  bool answer(std::string_view fact, std::string_view option);
  void answer(FactId fact, const Value& value);
  void worse(FactId fact, std::uint16_t option);
  void outcome(ActionId action, Outcome outcome);
  void all_done();
  void called(Contact contact, Outcome outcome);
  /// To the end of the step's wait, if there is one.
  void wait_over();

  /// Goes through what only asks, until there is something to do, somebody to call, a question among `asked`, or the
  /// end. Gives the question it stopped at.
  std::optional<FactId> go_on(const std::set<std::string>& asked);

  /// Answers what is asked now with "can't tell", whatever is still to do, until the step is another.
  void leave_questions();

  /// The question as a person is asked it here.
  std::string question(FactId fact) const;

  View view() const;
  Moment now() const { return now_; }
  const std::vector<Event>& night() const { return night_; }
  /// The clock decides how long the wait of this step is: paper cannot say.
  bool wait_hangs_on_the_clock() const;
  Duration wait() const;

  /// What the view says to do that has no outcome yet. Insulin is never among it.
  std::vector<SheetLine> lines() const;
  SheetLine headline() const;

 private:
  void happens(const decltype(Event::what)& what);
  std::string blanked(std::string text, const Text& written, const View& here) const;

  const Protocol* protocol_;
  const Child* child_;
  Moment now_;
  Episode episode_;
  std::vector<Event> night_;
  std::string reading_;  // the last one, as a text shows it
};

}  // namespace rushlight
