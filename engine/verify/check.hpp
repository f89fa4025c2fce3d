#pragma once

#include <memory>
#include <variant>

#include "protocol/examples_of.hpp"
#include "protocol/linked.hpp"
#include "verify/shown.hpp"

namespace rushlight {

/// A protocol whose checks have passed. Faces take this type by signature, so an unchecked protocol cannot be shown.
/// Copies share one immutable protocol.
class CheckedProtocol {
 public:
  const Protocol& protocol() const { return *protocol_; }

 private:
  friend struct Checked check(Protocol protocol);
  friend struct Checked check_linked(const std::vector<CheckedProtocol>& set, std::string_view first,
                                     const ExamplesDraft* examples);
  explicit CheckedProtocol(std::shared_ptr<const Protocol> protocol) : protocol_(std::move(protocol)) {}
  std::shared_ptr<const Protocol> protocol_;
};

struct Checked {
  std::optional<CheckedProtocol> protocol;  // absent when a finding is an error
  std::vector<Finding> findings;
  std::vector<Shown> shown;  // when no finding is an error: what was looked at and holds, and what is not shown
};

/// What is checked: every rule table has a rule for "can't tell" and leaves no combination of its questions' values
/// uncovered; no rule is dead behind an earlier one, or silenced by two thresholds that changed places; every step is
/// reachable; no dead end; every loop passes a wait (or a question) and is bounded by a counter; every watch target handles
/// its watch, no handling step is calmer, and no watch waits for the clock alone. What no clinic can take away: the four danger
/// signs are watched, asked, and can be told at any time; what meets one is an emergency, calls for help, gives nothing by
/// mouth and is left for a calmer step only when the danger was answered anew; when nobody answers somebody is called; and
/// no insulin is given to a child who is low. Every dose table has a row for every
/// child, unknown weight included, no dead row and no least above its most; and no step gives something and measures without
/// a wait. Two rules or rows that both take the border between them and do not agree are a warning: the first one counts.
Checked check(Protocol protocol);

/// The checked protocols of a set as one that begins with `first` (protocol/linked.hpp): what each has passed alone holds
/// for its own steps; a visit counts there as one step that waits, a hand-over as an end. Visits are one deep by the way they
/// are walked, and a loop over a hand-over would begin the other protocol anew. The clinic's examples that begin with
/// `first` are walked, if there are any.
Checked check_linked(const std::vector<CheckedProtocol>& set, std::string_view first,
                     const ExamplesDraft* examples = nullptr);

}  // namespace rushlight
