#include "tests/spin/promela.hpp"

#include <sstream>

#include "tests/spin/flow_writer.hpp"

namespace rushlight::tests {

int left_out(StepId step, std::size_t rule) { return step.index * 100 + static_cast<int>(rule) + 1; }

std::string entering(const Protocol& protocol, StepId step) { return "enters " + protocol[step].name; }

std::string moving(const Protocol& protocol, StepId step, Leading::By by, std::uint16_t index, Outcome outcome) {
  const std::string from = protocol[step].name + ", ";
  switch (by) {
    case Leading::By::rule:
      return from + "rule " + std::to_string(index + 1);
    case Leading::By::early:
      return from + "rule " + std::to_string(index + 1) + " during the wait";
    case Leading::By::outcome:
      return from + protocol.actions[index].name + " " + std::string(name_of(outcome));
    case Leading::By::overdue:
      return from + "nobody answers";
    case Leading::By::watch:
      return from + "watch " + protocol.watch[index].name;
    case Leading::By::back:
      break;
  }
  return from + "back";
}

Promela promela_of(const std::vector<Flow>& flows) {
  Promela promela;
  std::string flows_text;
  std::size_t events = 0;
  for (std::size_t i = 0; i < flows.size(); ++i) {
    FlowWriter writer(flows[i], i, events);
    flows_text += writer.text();
    promela.events.push_back(writer.events());
    events += writer.events().size();
  }
  std::ostringstream out;
  out << R"(c_decl {
static char seen[)"
      << events + 1 << R"(];
static int has_ended, has_left, has_gone_on, has_called;
static long last_call;
static int saw(int event) { seen[event] = 1; return 1; }
static int flow_ended(void) { has_ended = 1; return 1; }
static int flow_left(void) { has_left = 1; return 1; }
static int flow_went_on(void) { has_gone_on = 1; return 1; }
static int flow_called(int t) { if (!has_called || t > last_call) last_call = t; has_called = 1; return 1; }
static void report(void) {
  int i;
  for (i = 0; i < )"
      << events << R"(; ++i) if (seen[i]) printf("saw %d\n", i);
  if (has_ended) printf("ended\n");
  if (has_left) printf("left\n");
  if (has_gone_on) printf("went on\n");
  if (has_called) printf("called %ld\n", last_call);
}
static int asked_for(const char *what) { const char *how = getenv("FLOW_HOW"); return how && strstr(how, what) != 0; }
static int which(void) { const char *flow = getenv("FLOW"); return flow ? atoi(flow) : 0; }
}
bool late, timed, stopping, watching, waiting;
int horizon, chosen, without;
)" << flows_text
      << R"(init {
  atomic {
    c_code {
      atexit(report);
      now.late = asked_for("late");
      now.timed = asked_for("timed");
      now.stopping = asked_for("stopping");
      now.watching = asked_for("watching");
      now.waiting = asked_for("waiting");
      now.chosen = which();
      now.without = getenv("WITHOUT") ? atoi(getenv("WITHOUT")) : 0;
      now.horizon = getenv("HORIZON") ? atoi(getenv("HORIZON")) : 0;
    };
    if
)";
  for (std::size_t i = 0; i < flows.size(); ++i) out << "    :: (chosen == " << i << ") -> run flow" << i << "()\n";
  out << "    fi\n  }\n}\n";
  promela.text = out.str();
  return promela;
}

}  // namespace rushlight::tests
