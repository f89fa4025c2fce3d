#!/bin/sh
# run.sh RUSHLIGHT FOLDER: lets libraries from npm, kept in FOLDER, judge.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
rushlight=$1 folder=$2
. "$here/../../npm-library"
npm_library "$here" "$folder"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
tree=$(cd "$here/../../.." && pwd)
cp "$tree/protocols/demo-child.json" "$work/child.json"
"$rushlight" walk --json --child "$work/child.json" --journal "$work/journal" <"$here/night.jsonl" >"$work/views"
! grep -q '"error"' "$work/views"
"$rushlight" record --fhir --child "$work/child.json" --journal "$work/journal" --out "$work/bundle.json"
node "$folder/check.mjs" "$work/bundle.json"
