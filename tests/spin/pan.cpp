#include "tests/spin/pan.hpp"

#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <cstdio>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace rushlight::tests {

namespace {

struct Ran {
  std::string said;
  int status;
};

Ran ran(const std::string& command) {
  FILE* pipe = popen((command + " 2>&1").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("no shell");
  Ran result{"", 0};
  char part[4096];
  for (std::size_t read = 0; (read = fread(part, 1, sizeof part, pipe)) > 0;) result.said.append(part, read);
  const int status = pclose(pipe);
  result.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return result;
}

std::string last_lines(const std::string& text) { return text.size() > 2000 ? text.substr(text.size() - 2000) : text; }

/// Processor time of everything that was run and has ended.
double seconds_of_children() {
  struct rusage used {};
  getrusage(RUSAGE_CHILDREN, &used);
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + static_cast<double>(time.tv_usec) / 1e6;
  };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

// The number before or behind words of SPIN's report.
double number_in(const std::string& line) {
  std::istringstream words(line);
  double number = 0;
  words >> number;
  return number;
}

}  // namespace

Pan::Pan(const Promela& promela, const std::string& compiled_with) : events_(promela.events) {
  std::string name = (std::filesystem::temp_directory_path() / "rushlight-spin-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for SPIN");
  folder_ = name;
  std::ofstream(folder_ / "model.pml") << promela.text;
  const double begin = seconds_of_children();
  const Ran made = ran("cd " + name + " && spin -a model.pml && gcc -w " + compiled_with + " -o pan pan.c");
  seconds_to_make_ = seconds_of_children() - begin;
  if (made.status != 0) {
    std::filesystem::remove_all(folder_);
    throw std::runtime_error("SPIN made no verifier:\n" + last_lines(made.said));
  }
}

Pan::~Pan() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
}

PanReport Pan::walked(std::size_t flow, const PanWalk& walk) const {
  const double begin = seconds_of_children();
  const Ran done = ran("cd " + folder_.string() + " && FLOW=" + std::to_string(flow) + " FLOW_HOW='" + walk.how +
                       "' HORIZON=" + std::to_string(walk.horizon) + " WITHOUT=" + std::to_string(walk.without) +
                       " ./pan -E " + (walk.rounds ? "-a " : "") + walk.options);
  PanReport report;
  report.seconds = seconds_of_children() - begin;
  std::istringstream lines(done.said);
  bool complete = false;
  for (std::string line; std::getline(lines, line);) {
    const auto begins = [&](const char* words) { return line.rfind(words, 0) == 0; };
    const auto says = [&](const char* words) { return line.find(words) != std::string::npos; };
    if (begins("saw ")) {
      auto event = static_cast<std::size_t>(number_in(line.substr(4)));
      for (std::size_t before = 0; before < flow; ++before) event -= events_[before].size();
      report.events.insert(events_.at(flow).at(event));
    }
    if (line == "ended") report.ended = true;
    if (line == "left") report.left = true;
    if (line == "went on") report.went_on = true;
    if (begins("called ")) report.last_call = static_cast<std::int64_t>(number_in(line.substr(7)));
    if (says("acceptance cycle")) report.round = true;
    if (says("states, stored")) report.states = number_in(line);
    if (says("total actual memory usage")) report.megabytes = number_in(line);
    if (says("errors: ")) complete = true;
    if (says("max search depth too small") || says("out of memory") || says("aborting"))
      throw std::runtime_error("SPIN did not come to its end:\n" + last_lines(done.said));
    if (says("errors: ") && !says("errors: 0") && !report.round)
      throw std::runtime_error("SPIN found what nobody asked for:\n" + last_lines(done.said));
  }
  if (done.status != 0 || !complete) throw std::runtime_error("SPIN failed:\n" + last_lines(done.said));
  return report;
}

}  // namespace rushlight::tests
