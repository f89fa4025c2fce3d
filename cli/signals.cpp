#include "cli/signals.hpp"

#include <csignal>
#include <initializer_list>

namespace rushlight {
namespace {

volatile std::sig_atomic_t leave = 0;
volatile std::sig_atomic_t redraw = 0;

void on_leave(int number) { leave = number; }
void on_redraw(int) { redraw = 1; }

void note(int number, void (*handler)(int)) {
  struct sigaction action {};
  action.sa_handler = handler;
  sigemptyset(&action.sa_mask);
  sigaction(number, &action, nullptr);  // without SA_RESTART: a poll that waits for a key returns at once
}

}  // namespace

void note_signals() {
  for (const int number : {SIGINT, SIGTERM, SIGHUP}) note(number, on_leave);
  for (const int number : {SIGWINCH, SIGCONT}) note(number, on_redraw);
  note(SIGPIPE, SIG_IGN);
}

int signal_to_leave() { return leave; }

bool take_redraw_request() {
  const bool wanted = redraw != 0;
  redraw = 0;
  return wanted;
}

}  // namespace rushlight
