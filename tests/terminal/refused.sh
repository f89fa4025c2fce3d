#!/bin/bash
# What cannot be walked: on 24 rows the reason, the first-aid card and the way on stand together, and Enter leaves nothing.
. "$(dirname "$0")/screen.sh"
printf '{"name": "Mara", "language": "es", "wieght": "21 kg"}' >"$work/bad.json"
name=bad; starts walk --child "$work/bad.json"
sees "EXIT=1"
sees "4 errores en total. Para verlos: rushlight check"
sees "PRIMEROS AUXILIOS"
sees "In English: rushlight walk --child"
never_sees "FIRST AID"

printf 'a shopping list' >"$journal"; chmod 600 "$journal"
before=$(sha256sum <"$journal")
name=foreign; starts walk --protocols "$source_dir/tests/episode" --child "$work/child.json" --journal "$journal"
sees "this file is not a Rushlight journal"
sees "Nothing can be saved in this file. It stays exactly as it is."
sees "FIRST AID"
sees "step by step without saving, type y."
types ""; sees "Type y for yes or n for no."
types y; sees "What is it about?"; types ""
sees_first "TREAT HERE"
sees "NOT BEING SAVED."
types q; sees "This was not saved."
[ "$(sha256sum <"$journal")" = "$before" ] || { echo "the foreign file was changed"; exit 1; }
