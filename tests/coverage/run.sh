#!/usr/bin/env bash
# Which lines of core and audio the tests of core and audio run: bash tests/coverage/run.sh. Needs gcovr; by hand.
# Tests of the command line are left out, and what they alone run. Works in build/coverage; prints a table of files and
# the lines that nothing ran (lines.txt there).
set -euo pipefail
cd "$(dirname "$0")/../.."
build=build/coverage
cmake --preset release -B "$build" -DQUILLBENCH_BUILD_TESTS=ON \
    -DCMAKE_CXX_FLAGS_RELEASE="-O1 -DNDEBUG --coverage -fprofile-update=atomic -Wno-error" >/dev/null
ninja -C "$build" tests/core/all tests/audio/all
find "$build" -name '*.gcda' -delete
for rooms in core audio; do
    QT_QPA_PLATFORM=offscreen ctest --test-dir "$build/tests/$rooms" -j2 --output-on-failure -E "^cli"
done
gcovr --root . --object-directory "$build" --filter core/ --filter audio/ --exclude-throw-branches \
    --gcov-ignore-parse-errors --txt "$build/lines.txt" --print-summary
cat "$build/lines.txt"
