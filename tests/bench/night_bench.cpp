#include <benchmark/benchmark.h>

#include <cstdio>
#include <cstdlib>

#include "cli/embedded.hpp"
#include "cli/protocol_set.hpp"
#include "episode/view.hpp"
#include "wire/child_from_json.hpp"
#include "wire/event_from_line.hpp"

namespace rushlight::bench {
namespace {

std::string_view embedded(std::string_view path) {
  for (const EmbeddedFile& file : embedded_files()) {
    if (file.path == path) return file.bytes;
  }
  return {};
}

template <class Value>
Value required(std::optional<Value> value, const char* what) {
  if (value) return *std::move(value);
  std::fprintf(stderr, "%s cannot be read\n", what);
  std::exit(1);
}

/// The shipped low, the demo child, and a reading that leads from the measuring step to the treatment.
struct Night {
  ProtocolSet set = embedded_set("reference");
  const Protocol& protocol = set.find("low")->checked.protocol();
  Child child = required(child_from_json(embedded("demo-child.json"), "demo-child.json", *day_from_text("2026-03-01")).value,
                         "the demo child");
  Episode before = begun(protocol, child, *moment_from_text("2026-03-01T02:10:00-05:00"));
  Event reading = event(R"({"at":"2026-03-01T02:11:00-05:00","answer":{"glucose":"52 mg/dL"}})");

  Night() {
    before = folded(protocol, child, before,
                    event(R"({"at":"2026-03-01T02:10:30-05:00","answer":{"awake":"yes","swallow":"yes","seizure":"no"}})"));
  }

  Event event(const char* line) const {
    const auto read = event_from_line(line, protocol, child);
    return required(std::holds_alternative<Event>(read) ? std::optional<Event>(std::get<Event>(read)) : std::nullopt, line);
  }
};

const Night& night() {
  static const Night made;
  return made;
}

void event_folded_and_viewed(benchmark::State& state) {
  const Night& low = night();
  for (auto _ : state) {
    const Episode after = folded(low.protocol, low.child, low.before, low.reading);
    benchmark::DoNotOptimize(view_of(low.protocol, low.child, after, low.reading.at));
  }
}
BENCHMARK(event_folded_and_viewed);

void event_folded(benchmark::State& state) {
  const Night& low = night();
  for (auto _ : state) benchmark::DoNotOptimize(folded(low.protocol, low.child, low.before, low.reading));
}
BENCHMARK(event_folded);

void view_alone(benchmark::State& state) {
  const Night& low = night();
  const Episode after = folded(low.protocol, low.child, low.before, low.reading);
  for (auto _ : state) benchmark::DoNotOptimize(view_of(low.protocol, low.child, after, low.reading.at));
}
BENCHMARK(view_alone);

void protocol_read_and_checked(benchmark::State& state) {
  for (auto _ : state) benchmark::DoNotOptimize(embedded_set("reference"));
}
BENCHMARK(protocol_read_and_checked);

}  // namespace
}  // namespace rushlight::bench
