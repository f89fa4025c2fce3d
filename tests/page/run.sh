#!/bin/sh
# run.sh BUILD TREE [PART-OF-A-NAME]: installs what drives the browser from npm into BUILD (never into the tree), then walks
# the page. 77: there is no browser here. With RUSHLIGHT_PICTURES=FOLDER it leaves a picture of every screen there.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
build=$1 tree=$2 only=${3:-}
: "${RUSHLIGHT_CHROMIUM:=/usr/bin/chromium}"
[ -x "$RUSHLIGHT_CHROMIUM" ] || { echo "chromium is not installed: the page was not walked"; exit 77; }
folder=$build/npm-page
. "$here/../npm-library"
npm_library "$here" "$folder"
ran=$build/ran/page_in_a_browser.xml
[ -z "$only" ] || ran=/dev/null
RUSHLIGHT_PROGRAM=$build/rushlight RUSHLIGHT_SOURCE=$tree RUSHLIGHT_CHROMIUM=$RUSHLIGHT_CHROMIUM \
  RUSHLIGHT_JOURNALS=$build/tests/print_journals RUSHLIGHT_RAN=$ran \
  exec node "$folder/all.mjs" "$only"
