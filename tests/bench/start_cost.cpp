// start_cost WHAT TARGET PROGRAM WORD...: what a command costs: the middle wall time of 41 runs that get no input (the
// end of it comes at once), and the largest memory that any of them held.
#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <string>
#include <vector>

namespace {

struct Cost {
  double milliseconds;
  double processor_milliseconds;
  double megabytes;
};

double milliseconds_of(const timeval& time) {
  return static_cast<double>(time.tv_sec) * 1000 + static_cast<double>(time.tv_usec) / 1000;
}

double middle_of(std::vector<double> numbers) {
  std::sort(numbers.begin(), numbers.end());
  return numbers[numbers.size() / 2];
}

Cost cost_of_one_start(char** words) {
  const auto begin = std::chrono::steady_clock::now();
  const pid_t child = ::fork();
  if (child == 0) {
    const int nothing = ::open("/dev/null", O_RDWR);
    ::dup2(nothing, 0);
    ::dup2(nothing, 1);
    ::dup2(nothing, 2);
    ::execv(words[0], words);
    ::_exit(127);
  }
  int status = 0;
  rusage used{};
  ::wait4(child, &status, 0, &used);
  const std::chrono::duration<double, std::milli> taken = std::chrono::steady_clock::now() - begin;
  if (!WIFEXITED(status) || WEXITSTATUS(status) == 127) return {-1, -1, -1};
  return {taken.count(), milliseconds_of(used.ru_utime) + milliseconds_of(used.ru_stime),
          static_cast<double>(used.ru_maxrss) / 1024};
}

}  // namespace

int main(int count, char** arguments) {
  if (count < 4) return 2;
  constexpr int kRuns = 41;
  std::vector<double> times, processor_times;
  double most_memory = 0;
  for (int run = 0; run < kRuns; ++run) {
    const Cost cost = cost_of_one_start(arguments + 3);
    if (cost.milliseconds < 0) return 1;
    times.push_back(cost.milliseconds);
    processor_times.push_back(cost.processor_milliseconds);
    most_memory = std::max(most_memory, cost.megabytes);
  }
  std::printf("%s: %.1f ms, %.1f ms of them on the processor (middle of %d; target %s ms); ", arguments[1],
              middle_of(times), middle_of(processor_times), kRuns, arguments[2]);
  std::printf("memory %.1f MB at most\n", most_memory);
  return 0;
}
