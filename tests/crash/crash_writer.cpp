// crash_writer FILE: goes on with the open episode of "Wren" in the journal FILE, or begins one, and appends numbered
// events until somebody ends it. Each number is printed once its event is acknowledged. Exit 1 when a save or the
// opening fails.

#include <unistd.h>

#include <iostream>

#include "journal/journal.hpp"

using namespace rushlight;

namespace {

int failed(const std::string& what) {
  std::cerr << what << '\n';
  return 1;
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2) return failed("crash_writer FILE");
  auto opened = Journal::open(arguments[1]);
  if (!opened.value) return failed(sentence(opened.findings[0].kind));
  Journal& journal = *opened.value;
  const Moment now = *moment_from_text("2026-03-01T02:10:00-05:00");
  auto claimed = journal.claim("Wren", this_walker(now, "crash_writer"));
  if (std::holds_alternative<HeldBy>(claimed)) return failed("held by a living walk");
  if (auto* refused = std::get_if<SaveFailed>(&claimed)) return failed("claim: " + refused->detail);
  const Claim claim = std::get<Claimed>(claimed).claim;

  auto open = journal.open_episode_of("Wren");
  if (!open.value) return failed(sentence(open.findings[0].kind));
  EpisodeNumber episode{0};
  std::int64_t seq = 0;
  if (*open.value) {
    episode = (**open.value).number;
    seq = (**open.value).events;
  } else {
    auto begun = journal.begin_episode(claim, {"Wren", now, "reference", "low", "1", std::string(20000, 'p'), "{}"});
    if (auto* refused = std::get_if<SaveFailed>(&begun)) return failed("begin: " + refused->detail);
    episode = std::get<EpisodeNumber>(begun);
  }
  for (;; ++seq) {
    if (auto refused = journal.append(claim, episode, seq, "event " + std::to_string(seq)))
      return failed("append: " + refused->detail);
    const std::string number = std::to_string(seq) + "\n";
    if (write(STDOUT_FILENO, number.data(), number.size()) < 0) return 1;
  }
}
