#!/bin/sh
# run.sh RUSHLIGHT FOLDER: installs the libraries from npm into FOLDER (never into the tree) and lets them judge.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
rushlight=$1 folder=$2
mkdir -p "$folder"
if ! cmp -s "$here/package-lock.json" "$folder/package-lock.json" || [ ! -d "$folder/node_modules" ]; then
  cp "$here/package.json" "$here/package-lock.json" "$folder/"
  (cd "$folder" && npm ci --no-audit --no-fund --loglevel=error)
fi
cp "$here/check.mjs" "$folder/"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
tree=$(cd "$here/../../.." && pwd)
cp "$tree/protocols/demo-child.json" "$work/child.json"
"$rushlight" walk --json --child "$work/child.json" --journal "$work/journal" <"$here/night.jsonl" >"$work/views"
! grep -q '"error"' "$work/views"
"$rushlight" record --fhir --child "$work/child.json" --journal "$work/journal" --out "$work/bundle.json"
node "$folder/check.mjs" "$work/bundle.json"
