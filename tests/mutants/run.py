#!/usr/bin/env python3
"""Breaks core on purpose, one place at a time (mutants.tsv), and looks whether a test notices.

Works on a copy of what git knows, in build/mutants; builds and runs one test program for each. Ends with 1 where one
went unnoticed. `run.py 3 7` takes those two only.
"""
import pathlib
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
COPY = ROOT / "build" / "mutants"
BUILD = COPY / "build" / "release"


def mutants():
    lines = (pathlib.Path(__file__).parent / "mutants.tsv").read_text(encoding="utf-8").splitlines()
    return [tuple(line.split("\t")) for line in lines if line and not line.startswith("#")]


def copy_sources():
    listed = subprocess.run(["git", "ls-files"], cwd=ROOT, check=True, capture_output=True, text=True)
    for name in listed.stdout.splitlines():
        source, target = ROOT / name, COPY / name
        if target.exists() and target.read_bytes() == source.read_bytes():
            continue
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source, target)
    subprocess.run(["cmake", "--preset", "release", "-DCMAKE_UNITY_BUILD=OFF", "-DCMAKE_CXX_FLAGS_RELEASE=-O1 -DNDEBUG"],
                   cwd=COPY, check=True, stdout=subprocess.DEVNULL)


def passes(program):
    """Whether the test program builds and all its cases pass; None where it does not build."""
    if subprocess.run(["ninja", "-C", str(BUILD), "-j2", program], capture_output=True).returncode != 0:
        return None
    try:
        return subprocess.run([str(BUILD / "bin" / program), "-a"], capture_output=True,
                              timeout=600).returncode == 0
    except subprocess.TimeoutExpired:
        return False


def main():
    chosen = {int(each) for each in sys.argv[1:]}
    copy_sources()
    unnoticed = []
    for number, (name, text, instead, program) in enumerate(mutants(), 1):
        if chosen and number not in chosen:
            continue
        file = COPY / name
        whole = file.read_text(encoding="utf-8")
        if whole.count(text) != 1:
            sys.exit(f"{number}: {name} has {whole.count(text)} times: {text}")
        file.write_text(whole.replace(text, instead), encoding="utf-8")
        try:
            passed = passes(program)
        finally:
            file.write_text(whole, encoding="utf-8")
        verdict = {True: "UNNOTICED", False: "noticed", None: "DOES NOT BUILD"}[passed]
        print(f"{number:3} {verdict}  {name}: {text} -> {instead}", flush=True)
        if passed is not False:
            unnoticed.append(number)
    print(f"{len(unnoticed)} unnoticed")
    return 1 if unnoticed else 0


sys.exit(main())
