#include "journal/walker.hpp"

#include <signal.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <iterator>

namespace rushlight {

namespace {

std::string contents(const std::string& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

// Field 22 of the process's line, after a name in parentheses that may itself hold spaces and parentheses; empty for a
// process that has ended and only waits to be collected, and where the system tells nothing.
std::string start_tick(std::int64_t pid) {
  const std::string line = contents("/proc/" + std::to_string(pid) + "/stat");
  const auto name_end = line.rfind(')');
  if (name_end == std::string::npos || name_end + 2 >= line.size()) return {};
  const char state = line[name_end + 2];
  if (state == 'Z' || state == 'X') return {};
  auto at = name_end + 1;
  for (int field = 3; field <= 22; ++field) {
    at = line.find(' ', at);
    if (at == std::string::npos) return {};
    ++at;
  }
  const auto fieldstart = at;
  return line.substr(fieldstart, line.find(' ', fieldstart) - fieldstart);
}

std::string birth(std::int64_t pid) {
  const std::string tick = start_tick(pid);
  if (tick.empty()) return {};
  std::string boot = contents("/proc/sys/kernel/random/boot_id");
  while (!boot.empty() && boot.back() == '\n') boot.pop_back();
  return boot + " " + tick;
}

}  // namespace

Walker this_walker(const Moment& since, const std::string& who) {
  const std::int64_t pid = getpid();
  return {pid, birth(pid), since, who};
}

bool is_alive(const Walker& walker) {
  if (walker.pid <= 0) return false;
  if (kill(static_cast<pid_t>(walker.pid), 0) != 0 && errno == ESRCH) return false;
  if (walker.born.empty()) return true;      // it could not be told when it was written
  if (birth(getpid()).empty()) return true;  // it cannot be told here
  return birth(walker.pid) == walker.born;
}

}  // namespace rushlight
