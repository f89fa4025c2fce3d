# For the scripts beside it: a terminal of fixed size with the program in it, on a socket of its own.
# Usage:  . "$(dirname "$0")/screen.sh"   with the path of the program as $1.
set -u
command -v tmux >/dev/null || { echo "tmux is not installed"; exit 77; }
program=$1
source_dir=$(cd "$(dirname "${BASH_SOURCE[0]}")/../.." && pwd)
work=$(mktemp -d)
export LC_ALL=C.UTF-8 TERM=xterm XDG_DATA_HOME=$work/data HOME=$work
journal=$work/journal.db
tmux_here() { tmux -L "walk$$" -f /dev/null "$@"; }
trap 'tmux_here kill-server 2>/dev/null; sleep 0.3; rm -rf "$work"' EXIT

# time_is HH:MM[:SS]: what the clock of every window shows from now on.
time_is() {
  local clock=$1; [ ${#clock} = 5 ] && clock=$clock:00
  printf '2026-03-01T%s-05:00\n' "$clock" >"$work/clock.new" && mv "$work/clock.new" "$work/clock"
}
time_is 02:10
export RUSHLIGHT_CLOCK=@$work/clock
size="-x 80 -y 24"
name=one

# starts ARGUMENT...: the walk in a window of its own.
starts() {
  local quoted=
  for word in "$program" "$@"; do quoted="$quoted $(printf %q "$word")"; done
  # shellcheck disable=SC2086
  tmux_here new-session -d $size -s "$name" \
    "RUSHLIGHT_CLOCK='$RUSHLIGHT_CLOCK' $quoted; echo \"EXIT=\$?\"; exec sleep 300" || exit 1
}
# The small protocol of the tests, with a child of the tests.
starts_small() { starts walk --protocol low --protocols "$source_dir/tests/episode" --child "$work/child.json" --journal "$journal" "$@"; }

shown() { tmux_here capture-pane -pJ -t "$name"; }
sees() {
  for _ in $(seq 100); do shown | grep -qF -- "$1" && return; sleep 0.1; done
  echo "MISSING: $1"; shown; exit 1
}
# Two screens may share a line: what stood on the one before has to be gone first.
leaves() {
  for _ in $(seq 100); do shown | grep -qF -- "$1" || return 0; sleep 0.1; done
  echo "STILL THERE: $1"; shown; exit 1
}
sees_first() {
  for _ in $(seq 100); do [ "$(shown | head -1)" = "$1" ] && return; sleep 0.1; done
  echo "NOT THE FIRST LINE: $1"; shown; exit 1
}
never_sees() {
  if shown | grep -qF -- "$1"; then echo "MUST NOT BE THERE: $1"; shown; exit 1; fi
}
# A screen that the time changed is read before anything is typed; what was typed meanwhile is not taken.
reads() { sleep 1.7; }
# types TEXT: and Enter, not before a person could have read the screen (the walk ignores an Enter that bounced).
types() {
  sleep 0.8
  [ -z "$1" ] || tmux_here send-keys -t "$name" -l -- "$1"
  tmux_here send-keys -t "$name" Enter
}
presses() { tmux_here send-keys -t "$name" "$@"; }
process_of_walk() { pgrep -P "$(tmux_here list-panes -t "$name" -F '#{pane_pid}')" -f -- "$program" | head -1; }

cat >"$work/child.json" <<'JSON'
{"name": "Mara", "birth": "2020-01-15", "weight": "21 kg", "weighed": "2026-02-10", "unit": "mg/dL",
 "delivery": "injections", "strips": "blood",
 "rescue": [{"kind": "nasal", "expires": "2035-06-30", "place": "kitchen drawer"}],
 "foods": [{"kind": "juice", "name": {"en": "apple juice", "es": "jugo de manzana"}, "unit": "mL",
            "carbohydrate": "9.6 g/(100.mL)", "source": "label"}],
 "contacts": {"on_call": "555 0101", "emergency": "555 0999"}, "language": "en"}
JSON
