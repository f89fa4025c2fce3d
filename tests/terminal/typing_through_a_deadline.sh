#!/bin/bash
# The wait ends while an answer is half typed: the question comes up above it, and the half stays where it is.
. "$(dirname "$0")/screen.sh"
starts_small
sees "Try to wake"; types 1
sees "Has anyone"; types 1; leaves "Has anyone"
sees "Measure the glucose."; types 52
sees "7 g of sugar now"; types ""
sees "Time left"
presses -l "8"; sees "> 8"
time_is 02:26
sees "Time is up"
sees "> 8"
[ "$(shown | grep -c '^> ')" = 1 ] || { echo "NOT ONE PROMPT"; shown; exit 1; }
# Entered before anybody could read the new screen: named, and not taken.
presses Enter
sees "\"8\" is not taken yet"
sees "Time is up"
reads
types 88
sees "You said: 88 mg/dL"
