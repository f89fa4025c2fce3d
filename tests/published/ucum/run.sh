#!/bin/sh
# run.sh PRINT_UNITS FOLDER: lets a library from npm, kept in FOLDER, judge.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
print_units=$1 folder=$2
. "$here/../../npm-library"
npm_library "$here" "$folder"
"$print_units" | node "$folder/check.mjs"
