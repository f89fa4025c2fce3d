#!/bin/bash
# Will not wake at the first question: the emergency is the first thing on the screen, and stays when nobody answers.
. "$(dirname "$0")/screen.sh"
starts_small
sees "Try to wake Mara."
types 3
sees_first "EMERGENCY"
sees "Call 555 0999 now."
sees "2. Turn Mara on the side."
types ""
sees "How did the call go?"
types 2
sees_first "EMERGENCY"
types c
sees "How did the call go?"
types 1
sees_first "EMERGENCY"
sees "Marked: Someone answered"; never_sees "How did the call go?"
