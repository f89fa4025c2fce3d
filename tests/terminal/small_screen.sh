#!/bin/bash
# 40 columns and 12 rows: every screen begins with the urgency and ends with the prompt; nothing runs out of the window.
. "$(dirname "$0")/screen.sh"
size="-x 40 -y 12"
starts_small
fits() {
  for _ in $(seq 20); do
    [ "$(shown | head -1)" = "$1" ] && shown | grep -q '^> *$' && return
    sleep 0.1
  done
  echo "does not begin with $1, or no prompt in sight"; shown; exit 1
}
sees "Try to wake"; fits "TREAT HERE"
sees "Page 1 of"
types ""
sees "Page 2 of"; fits "TREAT HERE"
types 1
sees "Has anyone"; fits "TREAT HERE"; types 1
sees "Measure the"; fits "TREAT HERE"; types 52
sees "7 g of sugar now"; fits "TREAT HERE"
for _ in 1 2 3 4; do shown | grep -qF "Enter: next" || break; types ""; sleep 0.3; done
types ""
sees "Time left"; fits "TREAT HERE"
tmux_here resize-window -t "$name" -x 80 -y 24
sees "The alarm rings here. Keep this screen open."; fits "TREAT HERE"
types w
sees "What got worse?"; fits "TREAT HERE"
