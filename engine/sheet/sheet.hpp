#pragma once

#include <string>
#include <vector>

#include "episode/event.hpp"
#include "episode/view.hpp"
#include "protocol/child.hpp"

namespace rushlight {

/// One thing to do, as the walk says it. The night holds the answers after which it does, so that it can be asked
/// again. Clock times and readings that paper cannot know are blanks.
struct SheetLine {
  std::string text;
  ActionKind kind = ActionKind::note;
  std::vector<Event> night;
  bool is_headline = false;  // not an action: the first line of the screen
};

/// What a person sees who follows a way: the reading (from and to are taken in), and how the child looks.
struct SheetSight {
  std::optional<Glucose> from, to;  // both empty: any reading
  std::optional<Glucose> below;     // the reading that comes next above `to`
  bool no_reading = false;
  enum class Looks : std::uint8_t { any, well, unwell } looks = Looks::any;  // unwell: or nobody can tell
};

/// A branch: what is seen, what to do then, and the box to go on with.
struct SheetWay {
  std::string when;
  std::vector<SheetLine> lines;
  int go = 0;                         // number of a box; 0: nothing to go to
  Urgency urgency = Urgency::home;    // of the walk, after these answers
  std::optional<SheetSight> sight{};  // of a way that begins with a reading
  bool under = false;                 // what follows upon the way before it
  bool forbids = false;               // the medicine of its box: is printed before it
};

enum class SheetPart : std::uint8_t {
  look,  // awake, and able to swallow?
  emergency,
  waiting,  // until help comes
  measure,
  give,
  again,    // the rechecks, with room to write
  eat,      // not low now
  later,    // when to look again tonight
  trouble,  // what can go wrong with the sugar
  signs,    // what is not, or not only, a low
};

struct SheetBox {
  SheetPart part;
  int number;
  std::string title;
  std::string help;
  Urgency urgency = Urgency::home;
  std::vector<SheetLine> lines;
  std::vector<SheetLine> trained;  // of the emergency: what somebody does who was trained to give the rescue medicine,
  std::vector<SheetLine> untrained;  // and everybody else, or without the medicine
  std::vector<SheetWay> ways;
  int rounds = 0;    // of `again`
  Duration wait{0};  // before it
};

struct SheetContact {
  std::string who, number;  // an empty number is to be written in by hand
};

/// One page of steps.
struct SheetPage {
  std::string title;
  std::vector<SheetBox> boxes;
};

/// A child's steps on paper, of one protocol set, as of one day. Every face prints it and adds nothing that is
/// clinical.
struct Sheet {
  Language language;
  std::string child;   // name, as the child file has it
  std::string about;   // age and weight
  Day printed;
  std::optional<Day> valid_until;  // the last day; empty when today is past it already
  std::string validity;            // that, and why, as a sentence
  SheetPage low;
  std::string continued;               // its title on a second page, with the name as the steps say it
  std::vector<SheetPage> further;      // only those asked for
  std::vector<SheetContact> contacts;  // in the order in which to call; the emergency number first
  std::string address;
  std::vector<std::string> nobody_answers;  // whom to call when nobody answers, and then again
  std::vector<std::string> say;             // on the telephone, in this order
  std::vector<std::string> any_time;        // danger signs: box 2, whatever one is doing
  std::vector<SheetLine> anything_else;     // call
  std::string approval;
  bool approved = false;
  std::vector<std::string> cautions;
};

}  // namespace rushlight
