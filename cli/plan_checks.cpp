#include "cli/plan_checks.hpp"

#include <algorithm>

#include "cli/plain_text.hpp"
#include "cli/say.hpp"
#include "episode/fold.hpp"
#include "episode/view.hpp"

namespace rushlight {
namespace {

constexpr Duration kAhead = std::chrono::hours{24};
constexpr std::size_t kMostChecks = 12;
constexpr int kMostTurns = 30;  // between two waits

constexpr Both kIfTheSame{"If the answers stay the same: {1}", "Si las respuestas siguen igual: {1}"};
constexpr Both kGoBack{"Open Rushlight and go on. This alarm replaces no screen.",
                       "Abra Rushlight y siga. Esta alarma no reemplaza la pantalla."};

/// The same answers as last time, the actions done, until the next wait. False when it comes to a call or an end.
bool goes_on_the_same(const Protocol& protocol, const Child& child, Episode& episode, Moment now) {
  for (int turn = 0; turn < kMostTurns; ++turn) {
    const View view = view_of(protocol, child, episode, now);
    if (view.ended || view.call) return false;
    if (view.waiting && view.wait && view.wait->started) return true;
    if (view.ask.empty()) {
      episode = folded(protocol, child, std::move(episode), Event{now, AllDone{}});
      const View after = view_of(protocol, child, episode, now);
      if (after.step == view.step && !(after.waiting && after.wait && after.wait->started)) return false;
      continue;
    }
    const FactId asked = view.ask.front().id;
    const auto& known = episode.facts[asked.index];
    const Value value = known ? known->value : Value{CantTell{}};
    episode = folded(protocol, child, std::move(episode), Event{now, Answered{{{asked, value}}}});
  }
  return false;
}

std::string in_utc(Instant instant) {
  std::string text = text_from_moment(Moment{instant, std::chrono::minutes{0}});  // 2026-03-01T07:10:00Z or +00:00
  text = text.substr(0, 19);
  text.erase(std::remove_if(text.begin(), text.end(), [](char each) { return each == '-' || each == ':'; }),
             text.end());
  return text + "Z";
}

std::string escaped_for_ical(const std::string& text) {
  std::string escaped;
  for (const char letter : cleaned(text)) {
    if (letter == '\\' || letter == ';' || letter == ',') escaped += '\\';
    escaped += letter;
  }
  return escaped;
}

/// A line no longer than 75 octets; what is longer goes on behind a blank, never inside a letter.
void ical_line(std::string& file, const std::string& line) {
  constexpr std::size_t kMostOctets = 75;
  std::size_t used = 0;
  for (std::size_t at = 0; at < line.size();) {
    std::size_t size = 1;
    while (at + size < line.size() && (static_cast<unsigned char>(line[at + size]) & 0xC0U) == 0x80U) ++size;
    if (used + size > kMostOctets) {
      file += "\r\n ";
      used = 1;
    }
    file += line.substr(at, size);
    used += size;
    at += size;
  }
  file += "\r\n";
}

}  // namespace

std::vector<PlannedCheck> coming_checks(const Protocol& protocol, const Child& child, const Episode& episode,
                                        Moment now) {
  std::vector<PlannedCheck> checks;
  const View view = view_of(protocol, child, episode, now);
  for (const ShownTimer& timer : view.timers) {
    if (timer.until.utc > now.utc) checks.push_back({timer.until, timer.label, view.headline, false});
  }
  Episode ahead = settled_at(protocol, child, episode, now);
  Moment at = now;
  while (checks.size() < kMostChecks) {
    const View here = view_of(protocol, child, ahead, at);
    if (!here.waiting || !here.wait || here.wait->until.utc - now.utc > kAhead || here.call) break;
    if (at.utc > now.utc) checks.push_back({here.wait->until, here.wait->label, here.headline, true});
    if (here.wait->until.utc <= at.utc) break;
    at = here.wait->until;
    if (!goes_on_the_same(protocol, child, ahead, at)) break;
  }
  std::stable_sort(checks.begin(), checks.end(),
                   [](const PlannedCheck& a, const PlannedCheck& b) { return a.at.utc < b.at.utc; });
  return checks;
}

std::string ical_from_checks(const std::vector<PlannedCheck>& checks, const std::string& child, Moment now,
                             Language language) {
  std::string file;
  for (const char* line :
       {"BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Rushlight//Rushlight 0.1.0//EN", "CALSCALE:GREGORIAN"})
    ical_line(file, line);
  int number = 0;
  for (const PlannedCheck& check : checks) {
    const std::string title = check.expected ? say(kIfTheSame, language, check.what) : check.what;
    const std::string summary = escaped_for_ical(title + ", " + child);
    ical_line(file, "BEGIN:VEVENT");
    ical_line(file, "UID:" + in_utc(now.utc) + "-" + std::to_string(++number) + "@rushlight.invalid");
    ical_line(file, "DTSTAMP:" + in_utc(now.utc));
    ical_line(file, "DTSTART:" + in_utc(check.at.utc));
    ical_line(file, "DURATION:PT5M");
    ical_line(file, "SUMMARY:" + summary);
    ical_line(file, "DESCRIPTION:" + escaped_for_ical(check.headline + " " + say(kGoBack, language)));
    for (const char* action : {"DISPLAY", "AUDIO"}) {
      ical_line(file, "BEGIN:VALARM");
      ical_line(file, std::string("ACTION:") + action);
      ical_line(file, "TRIGGER:PT0S");
      if (std::string(action) == "DISPLAY") ical_line(file, "DESCRIPTION:" + summary);
      ical_line(file, "REPEAT:3");
      ical_line(file, "DURATION:PT3M");
      ical_line(file, "END:VALARM");
    }
    ical_line(file, "END:VEVENT");
  }
  ical_line(file, "END:VCALENDAR");
  return file;
}

}  // namespace rushlight
