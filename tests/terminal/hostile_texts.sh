#!/bin/bash
# Texts of a child file that would steer a terminal: marks on the screen, and not one raw byte in what is sent.
. "$(dirname "$0")/screen.sh"
python=$(command -v python3) || exit 77
printf '%s' "$(sed 's|"Mara"|"Mara\\u001b[2J\\u001b]0;owned\\u0007\\u202eoops"|; s|555 0101|555\\u009b31m|' "$work/child.json")" >"$work/hostile.json"
for file in hostile.json child.json; do
  printf '1\n1\n52\n1\n2\n\nb\n' | script -qec "\"$program\" walk --protocols \"$source_dir/tests/episode\" --child \"$work/$file\" --journal \"$work/$file.db\"" /dev/null >"$work/sent" 2>&1
  "$python" - "$work/sent" <<'PY' || exit 1
import re, sys
sent = open(sys.argv[1], 'rb').read()
# What the walk itself sends to a live terminal, and nothing else.
own = re.compile(rb'\x1b(\[H|\[2J|\[1m|\[0m|7|\[1A|\[2;1H|\[K|8)')
rest = own.sub(b'', sent).replace(b'\r', b'').replace(b'\n', b'').replace(b'\a', b'')
bad = re.findall(rb'[\x00-\x1f\x7f]|\xc2[\x80-\x9f]|\xe2\x80[\xaa-\xae]|\xe2\x81[\xa6-\xa9]', rest)
title = b'\x1b]0;owned\x07' in sent
if bad or title or len(sent) < 500:
    print('raw bytes reached the terminal:', bad[:5], title, len(sent))
    sys.exit(1)
PY
done
