#!/bin/sh
# measure.sh BUILD TREE: prints the sizes of the page, and how soon its first question stands there with the processor slowed
# six times. Printed, not judged: the machine may be busy. Needs what run.sh has installed.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
cp "$here"/*.mjs "$1/npm-page/"
RUSHLIGHT_PROGRAM=$1/rushlight RUSHLIGHT_SOURCE=$2 exec node "$1/npm-page/measure.mjs"
