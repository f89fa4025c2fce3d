#include "cli/cut_off.hpp"

#include <poll.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <iostream>

#include "cli/refusals.hpp"

namespace rushlight {
namespace {

bool reader_is_gone() {
  pollfd output{STDOUT_FILENO, POLLOUT, 0};
  return ::poll(&output, 1, 0) == 1 && (output.revents & (POLLERR | POLLHUP)) != 0;
}

}  // namespace

int tell_cut_off(std::ostream& err, int error) {
  const bool full = error == ENOSPC || error == EDQUOT;
  const std::string reason = full         ? "no space is left on the disk"
                             : error == 0 ? "not all of it was taken"
                                          : std::strerror(error);
  const std::string again = "give the command again: what stands there now is cut off";
  return tell_no_use(err, whole_error("standard output", NotWritten{reason, full ? "make room, and " + again : again}));
}

int status_when_printed(int status, std::ostream& err) {
  errno = 0;
  std::cout.flush();
  const bool flushed = std::fflush(stdout) == 0;
  if (std::cout && flushed && std::ferror(stdout) == 0) return status;
  int error = errno;
  if (reader_is_gone()) return status;
  // What failed long ago has left no reason. It is asked for once more: behind what is cut off a line feed does no
  // harm.
  if (error == 0 && ::write(STDOUT_FILENO, "\n", 1) < 0) error = errno;
  return tell_cut_off(err, error);
}

}  // namespace rushlight
