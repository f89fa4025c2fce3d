#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <fstream>

#include "tests/spin/planted_flows.hpp"
#include "tests/spin/verdicts.hpp"

// night_proofs: how the proof about all nights grows with the yes-no answers that the rules read, and what SPIN needs
// for the same verdicts about the same protocols. Each round of a night asks 6, 12 or 18 questions one after the other
// and then reads all of them, the last first; the first yes decides how long the wait is, and after two rounds the
// clinic is called. Ours runs in a process of its own, so that its memory is its own.

namespace rushlight::bench {
namespace {

using namespace rushlight::tests;

constexpr int kRounds = 2;

struct Cost {
  double seconds, megabytes;
};

struct Verdicts {
  std::set<std::string> events;
  NightVerdict night;
};

/// Processor time of the proofs, and the memory of a process that makes nothing but them.
Cost cost_of_proofs(const Flow& flow) {
  int ends[2];
  if (pipe(ends) != 0) std::exit(1);
  const pid_t child = fork();
  if (child < 0) std::exit(1);
  if (child == 0) {
    const std::clock_t begin = std::clock();
    proven_events(flow, Promptness::at_once);
    proven_verdict(flow, Promptness::at_once);
    const double seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
    const bool written = write(ends[1], &seconds, sizeof seconds) == static_cast<ssize_t>(sizeof seconds);
    _exit(written ? 0 : 1);
  }
  close(ends[1]);
  Cost cost{0, 0};
  const bool told = read(ends[0], &cost.seconds, sizeof cost.seconds) == static_cast<ssize_t>(sizeof cost.seconds);
  close(ends[0]);
  int status = 0;
  struct rusage used {};
  if (wait4(child, &status, 0, &used) != child || status != 0 || !told) std::exit(1);
  cost.megabytes = static_cast<double>(used.ru_maxrss) / 1024;
  return cost;
}

void side_by_side(std::size_t answers) {
  const Flow flow = carrying_flow(answers, kRounds);
  const Cost ours = cost_of_proofs(flow);
  const auto events = proven_events(flow, Promptness::at_once);
  const NightVerdict night = proven_verdict(flow, Promptness::at_once);

  const Pan pan(promela_of({flow}), "-O0 -DSAFETY -DNOREDUCE");
  // A hash table that is about as large as the states are many: 2^w places of 8 bytes.
  const std::string options = "-m10000 -w" + std::to_string(answers <= 6 ? 14 : answers <= 12 ? 18 : 24);
  const PanReport once = pan.walked(0, {"watching waiting", 0, false, options});
  const PanReport timed = pan.walked(0, {"timed stopping watching waiting", 24 * 3600, false, options});
  if (!events || once.events != *events || !timed.last_call || timed.ended || timed.left || timed.went_on ||
      night != NightVerdict{WorstTime::Verdict::within, Duration{*timed.last_call}}) {
    std::fprintf(stderr, "%zu answers: the verdicts are not those of SPIN\n", answers);
    std::exit(1);
  }
  const double seconds = once.seconds + timed.seconds;
  std::printf(
      "  %2zu answers, call after %lld min at most: %.4f s, %.0f MB; SPIN %.2f s and %.1f s to make it, %.2f million "
      "states in %.0f MB (%.0f times as long, %.1f times the memory)\n",
      answers, static_cast<long long>(night.most.count() / 60), ours.seconds, ours.megabytes, seconds,
      pan.seconds_to_make(), (once.states + timed.states) / 1e6, timed.megabytes, seconds / ours.seconds,
      timed.megabytes / ours.megabytes);
  std::fflush(stdout);
}

/// SPIN keeps some 3.2 GB of states with 18 answers; a machine without that room would end the process.
bool has_room_for_spin(std::size_t answers) {
  constexpr double kGigabytes = 5;
  std::ifstream memory("/proc/meminfo");
  std::string name;
  for (double kilobytes = 0; memory >> name >> kilobytes; memory.ignore(64, '\n')) {
    if (name == "MemAvailable:") return answers < 18 || kilobytes > kGigabytes * 1024 * 1024;
  }
  return true;
}

void ours_alone(std::size_t answers) {
  const Cost ours = cost_of_proofs(carrying_flow(answers, kRounds));
  std::printf("  %2zu answers: %.4f s, %.0f MB; not enough memory is free for SPIN here\n", answers, ours.seconds,
              ours.megabytes);
}

}  // namespace
}  // namespace rushlight::bench

int main() {
  std::printf("proofs about all nights, with SPIN beside them (target with 18 answers: 1 s and 100 MB):\n");
  using namespace rushlight::bench;
  for (const std::size_t answers : {6U, 12U, 18U}) has_room_for_spin(answers) ? side_by_side(answers) : ours_alone(answers);
  return 0;
}
