"""The tasks of action_faults.py without waiting: faulty registers are played into files, an octave and a half of them
(all 41 keys with FULL in the environment), and the model of the place Action hears them through the same engine as fast
as it can. What the worksheet names is judged as there.

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


if "FULL" not in os.environ:
    faults.FIRST_KEY, faults.LAST_KEY = 16, 33
    faults.KEYS = faults.LAST_KEY - faults.FIRST_KEY + 1
    faults.WEAK = {18: 0.30, 28: 0.28}
    faults.LATE, faults.EARLY, faults.PARTIAL = {22: 0.35}, {29: 0.3}, {25: 1.0}
    faults.HANGS = faults.LAST_KEY
    faults.STRAY = {(0, 26): -0.75, (2, 18): 1.4, (1, 22): 1.7}


# A slow press is half a second's work, so that fewer keys are pressed slowly; where the room is at fault more are asked.
KEYS = {"stagger": (17, 28), "travel": (17, 28), "spot": (12, 45)}
ALONE = ["plucks=1", "held=0.75", "apart=1.0"]
SLOW = ["plucks=3", "held=0.9", "apart=2.3", "speed=0.1"]


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
    _, lines = bench.lines("dampers", "0", bench.play(faults.damper_words()))
    faults.judge_dampers(lines)


def repetition(bench):
    _, lines = bench.lines("repetition", "0", bench.play(faults.hanging_words()))
    faults.judge("repetition", lines, {faults.HANGS})


def stagger(bench):
    played = []
    for reg in range(faults.ROWS):
        played += [str(reg), bench.play(faults.alone_words(reg))]
    _, lines = bench.lines("stagger", *played, "0,1,2", bench.play(faults.slow_words()))
    faults.judge_stagger(lines)


def travel(bench):
    """A register that travels too far on plucks early at every key: one thing to do, not as many as there are keys."""
    early = [f"stray:1:{key}:-0.6" for key in range(faults.FIRST_KEY, faults.LAST_KEY + 1)]
    played = []
    for reg in range(faults.ROWS):
        played += [str(reg), bench.play(faults.everywhere(f"registers={reg}", *ALONE, *early))]
    whole, lines = bench.lines("stagger", *played, "0,1,2",
                               bench.play(faults.everywhere("registers=0,1,2", *SLOW, *early)))
    print(f"travel: {whole}")
    faults.judge("travel", lines, set())
    expect("back 8′ close to front 8′ over the whole keyboard" in whole, "travel: the register is not named")
    places = [whole.find(word) for word in ("weather", "register travels", "keyboard's height")]
    expect(0 <= places[0] < places[1] < places[2], "travel: weather, register and keyboard are not named in this order")


def spot(bench):
    """The room swallows partials of a key, and of its octaves, where the microphone stands; another key's plectrum is
    weak: half a metre away the plectrum still is."""
    weak, swallowed = 28, {22, 34}
    words = ["registers=0", "plucks=2", "held=0.75", "apart=0.95", f"weak:0:{weak}:0.28"]
    here = bench.play(faults.everywhere(*words, "spot=22"))
    there = bench.play(faults.everywhere(*words))
    _, lines = bench.lines("evenness", "0", here)
    before = {line["key"] for line in lines}
    print(f"spot, before: {before}")
    expect(weak in before and before & swallowed, f"spot: plectrum and room are not heard at first: {before}")
    expect(before <= {weak} | swallowed, f"spot: named without cause {before}")
    _, lines = bench.lines("evenness", "0", here, "moved:0", there)
    for line in lines:
        print(f"spot, after, key {line['key']}: {line['what']}", flush=True)
        real = "Heard again with the microphone elsewhere" in line["what"]
        leave = "leave" in line["what"].lower()
        expect(real and not leave if line["key"] == weak else line["key"] in swallowed and leave,
               f"spot: plectrum and room are not told apart: {line}")
    expect(weak in {line["key"] for line in lines}, "spot: the weak plectrum is not confirmed")


TASKS = {"evenness": evenness, "dampers": dampers, "repetition": repetition, "stagger": stagger, "travel": travel,
         "spot": spot}


def main(sound, heard, *names):
    failed = 0
    for name in names or TASKS:
        if "FULL" not in os.environ and name in KEYS:
            faults.FIRST_KEY, faults.LAST_KEY = KEYS[name]
            faults.KEYS = faults.LAST_KEY - faults.FIRST_KEY + 1
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
