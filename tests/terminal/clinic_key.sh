#!/bin/bash
# The clinic's key on a terminal: the passphrase is asked twice and never shown, two that differ make no key, Ctrl-C leaves a
# terminal that shows what is typed, and a set is approved by the word and the passphrase.
. "$(dirname "$0")/screen.sh"
unset RUSHLIGHT_CLOCK
RUSHLIGHT_CLOCK=
export XDG_CONFIG_HOME=$work/settings
key=$work/settings/rushlight/clinic.secret-key

name=differ; starts key new
sees "four words or more (it is not shown):"
types "four words of a nurse"
sees "The same again:"
types "five words of a nurse"
sees "the two are not the same"
sees "EXIT=1"
never_sees "words of a nurse"
[ ! -e "$key" ] || { echo "a key was made"; exit 1; }

name=broken; starts key new
sees "it is not shown"
tmux_here send-keys -t "$name" -l "half a pass"
presses C-c
sees "EXIT=1"
never_sees "half a pass"
tmux_here send-keys -t "$name" -l "shown again"
sees "shown again"
[ ! -e "$key" ] || { echo "a key was made"; exit 1; }

name=made; starts key new
sees "it is not shown"
types "four words of a nurse"
sees "The same again:"
types "four words of a nurse"
sees "fingerprint"
sees "EXIT=0"
never_sees "words of a nurse"
[ "$(stat -c %a "$key")" = 600 ] || { echo "others may read the key"; exit 1; }

"$program" key show --out "$work/clinic.key" >/dev/null || exit 1
name=trust; starts key trust "$work/clinic.key"
sees "Is it the same? y or n:"
types n
sees "Nothing was changed."
sees "EXIT=1"
name=trust2; starts key trust "$work/clinic.key"
sees "Is it the same? y or n:"
types y
sees "Its name here: clinic"

"$program" new-set mine --from reference --out "$work/mine" >/dev/null || exit 1
until=$(date -d '+300 days' +%F)
name=no; starts approve "$work/mine" --as "Ana Rill" --role consultant --until "$until"
sees "type the word approve:"
types yes
sees "Nothing was signed."
"$program" approval "$work/mine" >/dev/null && { echo "it was signed"; exit 1; }
name=wrong; starts approve "$work/mine" --as "Ana Rill" --role consultant --until "$until"
sees "type the word approve:"
types approve
sees "Passphrase of the clinic's key (it is not shown):"
types "four words of a thief"
sees "the passphrase does not open this key"
never_sees "words of a thief"
name=signed; starts approve "$work/mine" --as "Ana Rill" --role consultant --until "$until"
sees "type the word approve:"
types approve
sees "Passphrase of the clinic's key (it is not shown):"
types "four words of a nurse"
sees "Approved by Ana Rill (consultant)"
sees "EXIT=0"
never_sees "words of a nurse"
"$program" approval "$work/mine" || exit 1
