#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstdlib>

#include "bench/rule_set.hpp"
#include "episode/scene.hpp"

namespace rushlight::bench {
namespace {

constexpr std::size_t kNights = 16384;  // more than a branch predictor learns by heart

/// Everything made once, and every way of choosing checked against the others before any is timed.
struct Bench {
  Protocol protocol = rule_set();
  Child child = timing_child();
  std::vector<PlainFacts> plain = random_nights(kNights);
  std::vector<Episode> episodes;
  std::vector<Scene> scenes;

  Bench() {
    for (const PlainFacts& facts : plain) episodes.push_back(episode_of(protocol, child, facts));
    for (const Episode& episode : episodes) scenes.push_back(scene_at(protocol, child, episode, episode.began.utc));
    for (std::size_t i = 0; i < kNights; ++i) {
      const Chosen3 hand = by_hand(plain[i]);
      require_same(i, "the rules by hand on the engine's own facts", by_hand(episodes[i]), hand);
      require_same(i, "first_match", by_engine(scenes[i]), hand);
    }
  }

  static void require_same(std::size_t night, const char* who, const Chosen3& chosen, const Chosen3& hand) {
    for (std::size_t table = 0; table < kTables; ++table) {
      if (chosen[table] == hand[table]) continue;
      std::fprintf(stderr, "night %zu, table %zu: %s: rule %u; the rules by hand: %u\n", night, table, who,
                   unsigned{chosen[table]}, unsigned{hand[table]});
      std::exit(1);
    }
  }

  Chosen3 by_engine(const Scene& scene) const {
    Chosen3 chosen{};
    for (std::size_t table = 0; table < kTables; ++table) {
      chosen[table] = first_match(scene, protocol.steps[table]).value_or(kNoRule);
    }
    return chosen;
  }
};

const Bench& bench() {
  static const Bench made;
  return made;
}

template <class Choose>
void time_choice(benchmark::State& state, Choose choose) {
  bench();
  std::size_t night = 0;
  for (auto _ : state) {
    benchmark::DoNotOptimize(choose(night));
    night = (night + 1) % kNights;
  }
  state.counters["choices/s"] =
      benchmark::Counter(static_cast<double>(state.iterations()) * kTables, benchmark::Counter::kIsRate);
  state.counters["sets/s"] = benchmark::Counter(static_cast<double>(state.iterations()), benchmark::Counter::kIsRate);
}

void rules_by_hand(benchmark::State& state) {
  time_choice(state, [](std::size_t night) { return by_hand(bench().plain[night]); });
}
BENCHMARK(rules_by_hand);

void rules_by_hand_on_known_facts(benchmark::State& state) {
  time_choice(state, [](std::size_t night) { return by_hand(bench().episodes[night]); });
}
BENCHMARK(rules_by_hand_on_known_facts);

void rules_by_first_match(benchmark::State& state) {
  time_choice(state, [](std::size_t night) { return bench().by_engine(bench().scenes[night]); });
}
BENCHMARK(rules_by_first_match);

}  // namespace
}  // namespace rushlight::bench
