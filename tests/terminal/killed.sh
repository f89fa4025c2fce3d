#!/bin/bash
# kill -9 at five places of one night; each time the walk comes back at the same step with the same deadline.
. "$(dirname "$0")/screen.sh"
killed_and_back() {
  local pid; pid=$(process_of_walk)
  [ -n "$pid" ] || { echo "no process to kill"; shown; exit 1; }
  kill -9 "$pid"
  sees "EXIT=137"
  tmux_here kill-session -t "$name"
  time_is "$1"
  starts_small
  sees "Going on from 02:10. Nothing is lost."
}
starts_small
sees "Try to wake"; types 1
sees "Has anyone"; killed_and_back 02:11
sees "Has anyone"; types 1; leaves "Has anyone"
sees "Measure the glucose."; killed_and_back 02:12
sees "Measure the glucose."; types 52
sees "7 g of sugar now"; killed_and_back 02:13
sees "7 g of sugar now"; types ""
sees "until 02:28."; killed_and_back 02:20
sees "Next: Check the glucose at 02:28."
sees "until 02:28."
killed_and_back 02:30      # the machine was off when the time was up
sees "Time is up. Check now."
types 84
sees "The glucose is up."
presses C-c
sees "Stopped. Nothing is lost. To go on: rushlight walk"
sees "EXIT=130"
