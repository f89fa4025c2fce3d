#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "protocol/side_by_side.hpp"
#include "verify/cases.hpp"

namespace rushlight {

/// Some cases by the unit of the glucose, for which they may lie otherwise.
struct Whom {
  std::vector<Cases> regions;       // in mg/dL
  std::vector<Cases> regions_mmol;  // in mmol/L; empty when the first list says it all
};

/// How much is lost by what is calmer or less: how urgent it was, and the heaviest thing that is done no more. The
/// greater, the worse.
struct Loss {
  int urgency = 0;
  std::uint32_t left_out = 0;
  friend auto operator<=>(const Loss&, const Loss&) = default;
};

/// One difference between two versions of a protocol, as the person who is cared for meets it.
struct Difference {
  enum class Kind : std::uint8_t {
    leads,     // the same answers come to another step
    urgency,   // the same step has another urgency
    action,    // something to do is new, gone, or done otherwise
    order,     // the same things to do, in another order
    wait,      // another time
    call,      // a call on the way to the same step, or another time until one moves on
    dose,      // another amount
    count,     // something else is counted, set back or marked
    question,  // something else is asked, or an answer counts for another time
    put_in,    // a step more, or less, on the way
    words,     // other words, in one language: whether they mean the same nobody but a reader can say
    number,    // a threshold, whatever it is for
    other,     // another part of the file
  } kind;
  /// How it turns out for the child. `calmer`: a lower urgency. `less`: the same urgency, and less is done or it is
  /// done later. Calmer and less are what a clinic must want before it signs. `words`: only a reader can say, so they
  /// stand before what asks for less care.
  enum class Turn : std::uint8_t { calmer, less, words, graver, otherwise } turn;
  /// Where it shows: "after" `treat`, "told at any time in" `rest`; the step may be empty: "at the start".
  struct Place {
    std::string occasion;
    std::string step;  // its id in the older version, or in the newer where that has none
    friend bool operator==(const Place&, const Place&) = default;
  };
  std::vector<Place> at;
  /// Whom it concerns, exactly, by the unit of the glucose. One list where the unit makes no difference. An empty
  /// region is everybody. `too_many`: there are more than can be said, and the one region holds all of them and more.
  std::vector<Cases> regions;       // in mg/dL
  std::vector<Cases> regions_mmol;  // in mmol/L; empty when the first list says it all
  bool too_many = false;
  /// The less, the sooner a night comes there: first how many steps are on the way, then the simplest that can happen.
  using Soon = std::pair<int, int>;
  Soon soon{};  // where it is soonest
  /// Told in brief: of all its places the one that a night comes to soonest, and one plain region of its cases there.
  struct Soonest {
    Place at;
    Whom who;
  };
  std::optional<Soonest> soonest;
  bool is_told = false;              // in brief: it is among the worst; of the others nobody is told whom they concern
  std::optional<Language> language;  // of words: `was` and `now` are in it
  std::string was, now;
  int falls = 0;  // calmer by how many urgencies; one more where no rule is left
  Loss loss{};
  std::string left_out;  // what the newer says no more, where both do the same for the rest
  /// Told by place: what it leads to now; `now` is empty then.
  struct Outcome {
    int falls;
    Loss loss;
    std::string words;
    friend bool operator==(const Outcome&, const Outcome&) = default;
  };
  std::vector<Outcome> outcomes;
};

struct Differences {
  SideBySide sides;                          // for the names in regions
  std::vector<Difference> changes;           // the worst first; of equals what a night comes to sooner
  std::vector<Difference> first_answers;     // of those, again: where the first answers of a night lead
  std::size_t steps = 0, steps_changed = 0;  // pairs of steps that both versions come to together
  std::size_t ways = 0, ways_changed = 0;    // what can happen in them, with what it leads to
  bool gave_up = false;                      // the search was too large: there may be more
  bool by_place = false;  // what stood in one place before is one difference, whatever it leads to now
  bool in_brief = false;  // one difference for each `was` and `now`; only of the worst a case is told
  Whom common;            // in brief: what all of them have in common
};

/// Of more than a person reads at once: `every_place` tells whom each place concerns, whatever it leads to now;
/// `worst_first` tells the worst in brief.
enum class Detail : std::uint8_t { every_case, every_place, worst_first };
/// So many pairs of `was` and `now`, in so many places in which not everybody is concerned, are told case by case.
inline constexpr std::size_t kMostInFull = 8, kMostCasesInFull = 16;

/// What changes in decisions, not in text. Exact in both glucose units: of each way on, the regions of children,
/// readings and answers that come to something else; nothing is sampled. Of an amount that hangs on several numbers the
/// regions hold everybody who may be concerned. Ids of steps and actions, sources and comments make no difference. Each
/// protocol by itself: where it visits another the visit is told, not what happens there. In brief the worst are told,
/// each with one plain case, and the rest is there to be counted.
Differences compare(const Protocol& was, const Protocol& now, Detail detail = Detail::every_case);

}  // namespace rushlight
