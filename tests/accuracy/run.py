#!/usr/bin/python3
"""Accuracy of the program through its command line, on sounds that its code never saw.

    run.py singles --set normal --seed 7 --cli PATH

See README.md beside this file.
"""
import argparse
import functools
import json
import multiprocessing
import os
import sys
import tempfile
import time

import damping
import pairs
import plucks
import program
import sampled_string
import singles
import tables
from wav_files import write_wav

JOBS = {
    "singles": (singles, ["normal", "hard", "twin", "simple", "real"]),
    "pairs": (pairs, ["normal", "hard", "kept"]),
    "plucks": (plucks, ["normal", "hard"]),
    "damping": (damping, ["normal", "hard", "real"]),
}


def arguments():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("job", choices=list(JOBS))
    parser.add_argument("--set", dest="hardness", default="normal", help="normal or hard; singles also twin, simple and real, pairs also kept, damping also real")
    parser.add_argument("--seed", type=int, nargs="+", default=[7], help="one set for each seed; the tables pool them")
    parser.add_argument("--count", type=int, help="cases in a set (default: the set's own)")
    parser.add_argument("--cli", help="the program to measure; without it the sets are only rendered")
    parser.add_argument("--out", help="folder that keeps sounds, LIST.json, truth.json and rows.csv, and from which they are used again")
    parser.add_argument("--recordings", default=os.environ.get("QUILLBENCH_RECORDINGS"), help="folder of real notes with sustain.tsv")
    parser.add_argument("--jobs", type=int, default=1, help="processes that render")
    return parser.parse_args()


def find_recordings(folder):
    if folder and os.path.exists(os.path.join(folder, "sustain.tsv")):
        return sampled_string.Recordings(folder)
    return None


def write_case(folder, case):
    for name, (samples, rate_hz) in case.files.items():
        write_wav(os.path.join(folder, name), samples, rate_hz)
    return case.request, case.truth


def render_index(job, seed, hardness, recordings, count, folder, index):
    return write_case(folder, JOBS[job][0].build(seed, hardness, recordings, index, count))


def render(module, args, seed, recordings, folder):
    """Sounds, LIST.json and truth.json in `folder`."""
    began = time.monotonic()
    if args.hardness == "real":
        if recordings is None:
            raise SystemExit("the set of real notes needs --recordings")
        written = [write_case(folder, case) for case in module.real_notes(recordings)]
    else:
        count = args.count or module.COUNT
        one = functools.partial(render_index, args.job, seed, args.hardness, recordings, count, folder)
        if args.jobs > 1:
            with multiprocessing.get_context("fork").Pool(args.jobs) as pool:
                written = pool.map(one, range(count), chunksize=1)
        else:
            written = [one(index) for index in range(count)]
    for name, part in (("truth.json", 1), ("LIST.json", 0)):
        with open(os.path.join(folder, name), "w") as file:
            json.dump([w[part] for w in written], file, indent=1)
    print(f"rendered {len(written)} cases in {time.monotonic() - began:.0f} s: {folder}")


def measure(module, args, folder):
    """The rows of one set, as the program answers it."""
    with open(os.path.join(folder, "LIST.json")) as file:
        requests = json.load(file)
    with open(os.path.join(folder, "truth.json")) as file:
        truths = {t["id"]: t for t in json.load(file)}
    expected = sum(len(r["window"]) if isinstance(r.get("window"), list) else 1 for r in requests)
    answers, wall, cpu = program.run_batch(args.cli, module.KIND, os.path.join(folder, "LIST.json"), expected)
    rows = [module.score_row(truths[a["id"]], a) for a in answers]
    print(f"{len(rows)} lines in {wall:.1f} s ({cpu:.1f} s of processor time)")
    tables.write_csv(os.path.join(folder, "rows.csv"), rows)
    return rows


def main():
    args = arguments()
    module, sets = JOBS[args.job]
    if args.hardness not in sets:
        raise SystemExit(f"{args.job} has the sets {', '.join(sets)}, not {args.hardness}")
    base = args.out or tempfile.mkdtemp(prefix="accuracy-")
    recordings = find_recordings(args.recordings)
    if recordings is None:
        print("no folder of real notes (--recordings or QUILLBENCH_RECORDINGS): the sampled generator is left out")
    rows = []
    for seed in args.seed if args.hardness != "real" else [0]:
        name = f"{args.job}-{args.hardness}" + (f"-{seed}" if args.hardness != "real" else "")
        if recordings is None and args.job in ("singles", "pairs"):
            name += "-without-real-strings"
        folder = os.path.join(base, name)
        os.makedirs(folder, exist_ok=True)
        print(f"== {name}")
        if not os.path.exists(os.path.join(folder, "LIST.json")):
            render(module, args, seed, recordings, folder)
        if args.cli:
            rows += measure(module, args, folder)
    if rows:
        module.report(rows, tables, *([True] if args.hardness == "real" else []))
        print(f"\nrows of each set: {base}/*/rows.csv")


if __name__ == "__main__":
    sys.exit(main())
