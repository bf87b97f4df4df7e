#!/usr/bin/env bash
# The subcommands on small files under Valgrind's memcheck: no wrong access, no unset value, nothing lost for good.
#     bash tests/memcheck/command_line.sh build/release/bin/quillbench-cli
set -euo pipefail
cli=$(realpath "$1")
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"

play() { # FILE PLUCKS SECONDS
    "$cli" simulate --instrument single-8-8 --rate 16000 --noise-db 45 --seed 3 --play "$2" --length "$3" "$1"
}
play one.wav "A3:8@0.3+1.2" 1.6
play two.wav "A3:8@0.3+1.5,A3:8b@0.33" 1.8
play solo8.wav "A3:8@0.3+0.8" 1.2
play solo8b.wav "A3:8b@0.3+0.8" 1.2
printf '[{"id":"a","file":"one.wav","note":"A3","window":[0.3,1]},{"id":"b","file":"none.wav"}]' >list.json

checked=0
check() { # EXIT CODES that are right, then the arguments
    local right=$1 code=0
    shift
    valgrind --quiet --error-exitcode=99 --leak-check=full --errors-for-leak-kinds=definite \
        "$cli" "$@" >out 2>err || code=$?
    case " $right " in
    *" $code "*) checked=$((checked + 1)) ;;
    *)
        echo "exit $code from: $*"
        cat err
        exit 1
        ;;
    esac
}
check 0 measure one.wav --note A3 --json
check 0 measure one.wav --json --explain --plot one.svg
check 3 measure --batch list.json --json
check 4 measure one.wav --note C6 --json
check 3 measure list.json --note A3
check 2 measure one.wav --note X9
check "0 4" beats two.wav --lower A3 --upper A3 --upper-choir 8b --alone solo8.wav --json
check "0 4" plucks two.wav --note A3 --choirs 8,8b --solo 8=solo8.wav --solo 8b=solo8b.wav --json
check "0 4" damping one.wav --note A3 --json
check 0 temperament --json
check 0 temperament vallotti --json
check 2 temperament no-such-thing
check 0 bearings vallotti --json
check 0 string --hz 415 --length-mm 300 --diameter-mm 0.24 --material iron --json
check 0 log remark "pin loose" --instrument spinet --logbook l.sqlite
check 0 log list --json --logbook l.sqlite
check 2 log show --json --logbook l.sqlite
check 0 log export --json --out all.jsonl --logbook l.sqlite
check 0 log export --csv tables --logbook l.sqlite
check 0 log import all.jsonl --logbook new.sqlite
check 0 log import tables --logbook new.sqlite
check 0 log verify --logbook l.sqlite
check 0 log backup b.sqlite --logbook l.sqlite
check 0 log restore b.sqlite --logbook l.sqlite
echo "$checked runs, nothing found"
