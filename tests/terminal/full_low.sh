#!/bin/bash
# A full low of the reference set with two treatments, from the first question to the end, on a clock that is moved.
. "$(dirname "$0")/screen.sh"
starts walk --demo-child --journal "$journal"
sees "What is it about?"
sees "1. Low glucose"
types ""
sees "Try to wake Mika (practice). What happens?"
sees_first "TREAT HERE"
sees "Mika (practice), 02:10, practice clock"
sees "That beep was the alarm."
sees "No clinic has approved it for care."
types 1
sees "Has anyone already given something for this low?"; types 1
sees "Type the number on the meter."; types 52
sees "52 mg/dL is very low."; types 1
sees "Give 7 g of sugar now"
types ""
sees "Time left 15:00, until 02:25."
sees "Set a second alarm on another clock."
never_sees "Give 7 g of sugar now"
time_is 02:24; sees "Time left 1:00"
time_is 02:26; sees "Time is up. Check now."
reads; types 61
sees "Give 7 g of sugar now"
types ""
sees "until 02:41."
time_is 02:41; sees "Time is up. Check now."
reads; types 84
sees "84 mg/dL."; types 1
sees "meal"; types n
sees "snack"; types ""
sees "How long since the last rapid-acting insulin?"
types 2; sees "2 minutes or hours? Type 2 min or 2 h."
types no
sees "sport"; types n
sees "1. Set a second alarm"; types ""; sees "Keep this screen open."
presses -l "118"; sees "> 118"
time_is 04:41; presses Enter        # sent in the moment the screen changes: not taken, and nothing is lost
sees "The screen just changed. \"118\" is not taken yet. Read it, then answer again."
types 118
sees "Enter: close."
types ""
sees "This episode has ended."
sees "EXIT=0"
