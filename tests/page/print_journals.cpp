// print_journals COUNT: journals drawn by lot over the shipped sets, and what the engine of this machine makes of them,
// from the XML files and not from the page's model. A line for each:
// {"set":...,"protocol":...,"child":0,"lines":[...],"sum":SHA-256 of the views}. print_journals COUNT PLACE: the views
// of that one journal, a line each.
#include <iostream>
#include <string>

#include "cli/child_file.hpp"
#include "cli/misplaced_deed.hpp"
#include "cli/protocol_set.hpp"
#include "episode/fold.hpp"
#include "naive_walk/generate.hpp"
#include "seal/sum.hpp"
#include "wire/event_from_line.hpp"
#include "wire/json_from_finding.hpp"
#include "wire/json_from_view.hpp"
#include "wire/json_writer.hpp"
#include "wire/line_from_event.hpp"

namespace {

using namespace rushlight;

struct Journal {
  std::vector<std::string> lines;
  std::string views;
};

/// Most of the lines are told as they are; some with a letter changed, as a damaged journal has them. The year stays: a
/// clock that leaps over two thousand years passes every deadline in between, one by one, and that takes minutes.
std::string line_of(naive::Dice& dice, const Event& event, const Protocol& protocol) {
  std::string line = line_from_event(event, protocol);
  const std::size_t behind_the_year = line.find('-');
  if (dice.chance(3)) line[behind_the_year + dice.below(line.size() - behind_the_year)] = "x0\"}-"[dice.below(5)];
  return line;
}

Journal drawn(naive::Dice& dice, const Protocol& protocol, const Child& child) {
  Journal journal;
  const Moment begin = naive::evening_from(dice);
  Episode episode = begun(protocol, child, begin);
  bool is_begun = false;
  Moment at = begin;
  for (int left = dice.between(4, 24); left > 0; --left) {
    const std::vector<FactId> asked =
        open_questions(protocol, child, episode, episode.clock.last_wall + episode.clock.lost);
    const Event event = naive::next_event(dice, protocol, episode, asked, at, std::chrono::minutes{5});
    at = event.at;
    journal.lines.push_back(line_of(dice, event, protocol));
    auto read = event_from_line(journal.lines.back(), protocol, child, "input", 1);
    if (const auto* findings = std::get_if<std::vector<Finding>>(&read)) {
      journal.views += json_from_refusal(*findings) + "\n";
      continue;
    }
    const Event& told = std::get<Event>(read);
    if (!is_begun) {
      episode = begun(protocol, child, told.at);
      if (reads_the_past(protocol)) episode = folded(protocol, child, std::move(episode), Event{told.at, Remembered{}});
      is_begun = true;
    }
    if (const auto misplaced = misplaced_deed(protocol, child, episode, told, Where{"input", 1, 1, 1})) {
      journal.views += json_from_refusal({*misplaced}) + "\n";
      continue;
    }
    episode = folded(protocol, child, std::move(episode), told);
    journal.views += json_from_view(view_of(protocol, child, episode, told.at)) + "\n";
  }
  return journal;
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) return 2;
  const auto number = [&](int at) {
    return static_cast<int>(std::get<Decimal>(decimal_from_text(words[at])).micros() / Decimal::kMicrosPerOne);
  };
  const int wanted = number(1);
  const int shown = count > 2 ? number(2) : -1;
  const ChildFile child = demo_child(kDemoDay);
  const char* sets[] = {"reference", "harbour-lane"};
  const ProtocolSet read[] = {embedded_set(sets[0]), embedded_set(sets[1])};
  for (int place = 0; place < wanted; ++place) {
    if (shown >= 0 && place != shown) continue;
    naive::Dice dice(static_cast<std::uint64_t>(place) + 1);
    const ProtocolSet& set = read[place % 2];
    const Protocol& protocol = dice.one_of(set.protocols).checked.protocol();
    const Journal journal = drawn(dice, protocol, *child.child);
    if (shown >= 0) {
      std::cout << journal.views;
      continue;
    }
    JsonWriter json;
    json.begin_object().key("set").text(sets[place % 2]).key("protocol").text(protocol.name).key("lines").begin_list();
    for (const std::string& line : journal.lines) json.text(line);
    std::cout << json.end_list().key("sum").text(sha256_of(journal.views)).end_object().json() << '\n';
  }
}
