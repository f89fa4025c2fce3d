#!/bin/bash
# "Something got worse" during the wait, with a half-typed word before it.
. "$(dirname "$0")/screen.sh"
starts_small
sees "Try to wake"; types 1
sees "Has anyone"; types 1; leaves "Has anyone"
sees "Measure the glucose."; types 52
sees "7 g of sugar now"; types ""
sees "Time left"
sees "Set a second alarm on another clock."
presses -l "zz"; sees "> zz"
time_is 02:10:30; sees "Time left 14:30"; sees "> zz"   # the countdown moves above a half-typed answer
time_is 02:12; sees "Mara, 02:12"
presses BSpace BSpace
types w
sees "What got worse?"
sees "1. Will not wake up"
sees "4. Something else"
sees "Time left"
types 2
sees_first "EMERGENCY"
