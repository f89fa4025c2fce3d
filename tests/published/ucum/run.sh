#!/bin/sh
# run.sh PRINT_UNITS FOLDER: installs the library from npm into FOLDER (never into the tree) and lets it judge.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
print_units=$1 folder=$2
mkdir -p "$folder"
if ! cmp -s "$here/package-lock.json" "$folder/package-lock.json" || [ ! -d "$folder/node_modules" ]; then
  cp "$here/package.json" "$here/package-lock.json" "$folder/"
  (cd "$folder" && npm ci --no-audit --no-fund --loglevel=error)
fi
cp "$here/check.mjs" "$folder/"
"$print_units" | node "$folder/check.mjs"
