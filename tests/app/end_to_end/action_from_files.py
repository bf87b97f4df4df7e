"""The tasks of action_faults.py without waiting: the same faulty registers are played into files, and the model of the
place Action hears them through the same engine as fast as it can. What the worksheet names is judged as there.

    python3 action_from_files.py ACTION_SOUND ACTION_HEARD [TASK]...
"""
import json
import os
import pathlib
import subprocess
import sys
import tempfile

import action_faults as faults
from first_octave import Failure, expect


class Bench:
    """A keyboard that is played into files, and the ear that hears them."""

    def __init__(self, sound, heard, folder):
        self.sound, self.heard, self.folder = sound, heard, folder
        self.files = 0

    def play(self, words):
        self.files += 1
        path = self.folder / f"{self.files}.wav"
        subprocess.run([self.sound, str(path), f"seed={faults.SEED}", *words], check=True)
        return str(path)

    def lines(self, task, *played):
        """What is said of the whole register, and the lines of the worksheet."""
        answer = subprocess.run([self.heard, task, *played], check=True, stdout=subprocess.PIPE, text=True,
                                env=dict(os.environ, QT_QPA_PLATFORM="offscreen"))
        lines = [json.loads(line) for line in answer.stdout.splitlines()]
        return lines[0]["whole"], lines[1:]


def evenness(bench):
    _, lines = bench.lines("evenness", "0", bench.play(faults.weak_words()))
    faults.judge("weak plectra", lines, set(faults.WEAK))


def dampers(bench):
    _, lines = bench.lines("dampers", "0", bench.play(faults.late_words()))
    faults.judge("dampers", lines, set(faults.LATE))


def repetition(bench):
    _, lines = bench.lines("repetition", "0", bench.play(faults.hanging_words()))
    faults.judge("repetition", lines, {faults.HANGS})


def stagger(bench):
    played = []
    for reg in range(faults.ROWS):
        played += [str(reg), bench.play(faults.alone_words(reg))]
    _, lines = bench.lines("stagger", *played, "0,1,2", bench.play(faults.slow_words()))
    faults.judge_stagger(lines)


TASKS = {"evenness": evenness, "dampers": dampers, "repetition": repetition, "stagger": stagger}


def main(sound, heard, *names):
    failed = 0
    for name in names or TASKS:
        with tempfile.TemporaryDirectory() as folder:
            try:
                TASKS[name](Bench(sound, heard, pathlib.Path(folder)))
            except Failure as failure:
                print(f"failed: {failure}", flush=True)
                failed += 1
    return 1 if failed else 0


if __name__ == "__main__":
    expect(len(sys.argv) >= 3, __doc__)
    sys.exit(main(*sys.argv[1:]))
