#!/bin/bash
# A pipe: every screen once, no escape character, an end of input that says how to go on; a dumb terminal likewise.
. "$(dirname "$0")/screen.sh"
walk=("$program" walk --protocols "$source_dir/tests/episode" --child "$work/child.json" --journal "$journal")
printf '1\n1\n52\n\n' | "${walk[@]}" >"$work/out" 2>&1
status=$?
[ $status = 0 ] || { echo "exit $status"; cat "$work/out"; exit 1; }
for words in "TREAT HERE" "Try to wake Mara." "7 g of sugar now" "Time left 15:00" "Stopped. Nothing is lost."; do
  grep -qF -- "$words" "$work/out" || { echo "MISSING: $words"; cat "$work/out"; exit 1; }
done
if LC_ALL=C grep -q $'[\x01-\x08\x0b-\x1f\x7f]' "$work/out"; then echo "control characters in a pipe"; exit 1; fi
: | "${walk[@]}" >"$work/out" 2>&1 || { echo "exit $? on an empty input"; exit 1; }
grep -qF "Going on from 02:10" "$work/out" || { echo "did not resume"; cat "$work/out"; exit 1; }
mkfifo "$work/silent"
exec 9<>"$work/silent"  # an input that neither says anything nor ends
"${walk[@]}" <&9 >"$work/killed" 2>&1 &
walker=$!
until grep -qsF "Going on from 02:10" "$work/killed"; do  # a file of its own: that of before says so already
  kill -0 "$walker" || { echo "ended by itself"; cat "$work/killed"; exit 1; }
  sleep 0.1
done
kill -TERM "$walker"
wait "$walker"
grep -qF "Stopped. Nothing is lost." "$work/killed" || { echo "SIGTERM leaves without a word"; cat "$work/killed"; exit 1; }
TERM=dumb; starts_small
sees "Going on from 02:10"
sees "Time left"
