#!/usr/bin/env bash
# A screen without a screen: with_display.sh COMMAND... runs COMMAND under a private Xvfb, 1280×800 pixels at 96 dpi.
# The exit code is COMMAND's, or 77 where Xvfb is not installed. Only what was started here is ended, by its id.
set -u
command -v Xvfb > /dev/null || { echo "skipped: Xvfb is not installed" >&2; exit 77; }
folder=$(mktemp -d)
exec 9> "$folder/display"
Xvfb -displayfd 9 -screen 0 1280x800x24 -nolisten tcp -noreset -dpi 96 < /dev/null > "$folder/xvfb.log" 2>&1 &
server=$!
for _ in $(seq 200); do
    [ -s "$folder/display" ] && break
    kill -0 "$server" 2>/dev/null || { cat "$folder/xvfb.log" >&2; exit 1; }
    sleep 0.05
done
DISPLAY=:$(cat "$folder/display") QT_QPA_PLATFORM=xcb "$@" 9>&-
code=$?
kill "$server" 2>/dev/null
wait "$server" 2>/dev/null
rm -rf "$folder"
exit "$code"
