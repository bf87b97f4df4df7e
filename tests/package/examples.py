"""Every example that --help ends with does what it says: it is typed as it stands, in the order of the manual.

    python3 examples.py QUILLBENCH_CLI [--all]      with --all also those that take minutes
"""

import json
import os
import pathlib
import subprocess
import sys
import tempfile

PROGRAM = pathlib.Path(sys.argv[1]).resolve()
SLOW = {"quillbench-cli demo --whole --mishaps"}
# Only the window begins sessions and exercises; what is said where there are none.
NONE_YET = {"quillbench-cli log show": (2, "holds no session yet"),
            "quillbench-cli log show --practise": (4, "nothing was practised yet")}
# What the person of the examples has beside the recordings that earlier examples make.
OF_THEIR_OWN = {"front.wav": "C4:8b@0.5", "back.wav": "C4:8@0.5"}


def examples(text):
    _, _, listed = text.partition("Examples:\n")
    return [line.strip() for line in listed.splitlines() if line.strip().startswith("quillbench-cli ")]


def commands(environment, path=()):
    text = subprocess.run([PROGRAM, *path, "--help"], check=True, stdout=subprocess.PIPE, text=True,
                          env=environment).stdout
    _, _, listed = text.partition("\nSubcommands:\n")
    children = [line.split()[0] for line in listed.splitlines() if line.startswith("  ") and line[2].isalpha()]
    yield path, examples(text), bool(children)
    for child in children:
        yield from commands(environment, (*path, child))


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        environment = {**os.environ, "HOME": name, "XDG_DATA_HOME": name,
                       "PATH": f"{PROGRAM.parent}:{os.environ['PATH']}"}
        for file, play in OF_THEIR_OWN.items():
            subprocess.run([PROGRAM, "simulate", "--instrument", "double-8-8-4", "--play", play, "--length", "3",
                            file], check=True, cwd=folder, env=environment)
        (folder / "list.json").write_text(json.dumps([{"id": 1, "file": "note.wav", "note": "A3"}]))
        count = 0
        of_log = []
        for path, listed, is_group in commands(environment):
            assert listed or is_group or path == (), f"{path}: --help ends without an example"
            for example in listed:
                assert example.startswith(" ".join(("quillbench-cli", *path))), (path, example)
                if example in SLOW and "--all" not in sys.argv:
                    continue
                # The logbook is first written, then read.
                if path[:1] == ("log",):
                    of_log.append(example)
                    continue
                run(example, folder, environment)
                count += 1
        first = ("remark", "climate", "replaced", "export", "import", "backup")
        of_log.sort(key=lambda line: first.index(line.split()[2]) if line.split()[2] in first else len(first))
        for example in of_log:
            run(example, folder, environment)
            count += 1
    assert count > 25, count
    print(f"{count} examples do what they say")


def run(example, folder, environment):
    done = subprocess.run(example, shell=True, cwd=folder, env=environment, stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE, text=True)
    if example in NONE_YET:
        code, words = NONE_YET[example]
        assert done.returncode == code and words in done.stderr, done
        return
    assert done.returncode == 0, (example, done.returncode, done.stderr)


main()
