"""Hours' worth of playing heard by the window as fast as it can, while every place is visited again and again, help and
dialogs come and go and the appearance changes: every pluck has its last word, memory stays small and grows by no more
than what a session keeps of its plucks.

    bash tests/support/with_display.sh python3 tests/soak/window.py QUILLBENCH QUILLBENCH_CLI [HOURS]

Each recording is of 20 minutes, a key every 1.5 s over the whole compass of the 8'; the next is handed over as a person
would, by opening it with the program that runs already.
"""
import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import time

MINUTES = 20
APART_S, HELD_S = 1.5, 1.3
LETTERS = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B"]
NOTES = [f"{letter}{octave}" for octave in (2, 3, 4, 5) for letter in LETTERS]
PLACES = ["ctrl+1", "ctrl+2", "ctrl+3", "ctrl+4", "ctrl+5", "ctrl+6", "ctrl+7"]
MOST_MB, GROWS_MB, GROWS_KB_A_PLUCK = 200.0, 10.0, 6.0


def simulate(cli, path, seed):
    rng = random.Random(seed)
    count = int(MINUTES * 60 / APART_S)
    play = ",".join(f"{rng.choice(NOTES)}:8@{1 + i * APART_S:g}+{HELD_S:g}" for i in range(count))
    detune = ",".join(f"8:{note}={rng.uniform(-15, 15):+.2f}" for note in NOTES)
    subprocess.run([cli, "simulate", "--instrument", "double-8-8-4", "--temperament", "vallotti", "--a4", "415", "--play",
                    play, "--detune", detune, "--noise-db", "45", "--seed", str(seed), str(path)], check=True,
                   stderr=subprocess.DEVNULL)
    return count


class Soak:
    def __init__(self, program, folder, first):
        self.program, self.folder = program, folder
        self.readings = folder / "readings.jsonl"
        self.read_up_to, self.words, self.ended, self.gaps = 0, 0, 0, 0
        self.environment = dict(os.environ, HOME=str(folder), XDG_RUNTIME_DIR=str(folder), LC_ALL="C.UTF-8")
        self.process = subprocess.Popen(
            [program, "--settings-dir", str(folder / "settings"), "--instrument", "double-8-8-4", "--choir", "8",
             "--temperament", "vallotti", "--a4", "415", "--hurry", "--source", str(first), "--record-readings",
             str(self.readings)], env=self.environment)
        self.window = subprocess.run(
            ["xdotool", "search", "--sync", "--onlyvisible", "--pid", str(self.process.pid)], check=True,
            stdout=subprocess.PIPE, text=True).stdout.split()[-1]
        self.memory = []

    def note_memory(self):
        status = pathlib.Path(f"/proc/{self.process.pid}/status").read_text().splitlines()
        self.memory.append(next(int(line.split()[1]) / 1024 for line in status if line.startswith("VmRSS")))

    def read(self):
        if not self.readings.exists():
            return
        with self.readings.open("rb") as file:
            file.seek(self.read_up_to)
            whole, found, _ = file.read().rpartition(b"\n")
        self.read_up_to += len(whole) + len(found)
        for line in filter(None, whole.split(b"\n")):
            entry = json.loads(line)
            self.words += entry["kind"] == "reading"
            self.gaps += entry["kind"] == "gap"
            self.ended += entry["kind"] == "source" and entry["phase"] == "ended"

    def keys(self, *names):
        for name in names:
            subprocess.run(["xdotool", "windowfocus", self.window, "key", "--clearmodifiers", name], check=True)
            time.sleep(1.0)
            self.note_memory()

    def walk_until_ended(self, recordings):
        """Goes through the places until so many recordings have been heard."""
        at = 0
        while self.ended < recordings:
            self.keys(PLACES[at % len(PLACES)])
            if at % 7 == 2:
                self.keys("F1", "Escape", "F4", "F3")
            if at % 7 == 5:
                self.keys("Return", "space", "space", "Return")
            at += 1
            self.read()
            if self.process.poll() is not None:
                raise RuntimeError("the window ended")

    def open(self, recording):
        subprocess.run([self.program, "--settings-dir", str(self.folder / "settings"), str(recording)], check=True,
                       env=self.environment)


def main():
    program, cli = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:3])
    rounds = int(float(sys.argv[3]) * 60 / MINUTES) if len(sys.argv) > 3 else 4 * 60 // MINUTES
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        recordings = [folder / f"playing-{seed}.flac" for seed in (1, 2, 3)]
        counts = [simulate(cli, one, seed) for seed, one in enumerate(recordings, 1)]
        soak = Soak(program, folder, recordings[0])
        began, played, after_first = time.monotonic(), 0, 0.0
        try:
            for turn in range(rounds):
                if turn > 0:
                    soak.open(recordings[turn % 3])
                soak.walk_until_ended(turn + 1)
                played += counts[turn % 3]
                after_first = after_first or soak.memory[-1]
                print(f"{(turn + 1) * MINUTES / 60:.1f} h heard in {(time.monotonic() - began) / 60:.1f} min: {played} keys, "
                      f"{soak.words} last words, {soak.gaps} gaps, {soak.memory[-1]:.1f} MB now, "
                      f"{max(soak.memory):.1f} MB at most", flush=True)
        finally:
            soak.process.terminate()
            soak.process.wait()
        good = soak.gaps == 0 and soak.words >= 0.99 * played and max(soak.memory) < MOST_MB and (
            soak.memory[-1] < after_first + GROWS_MB + GROWS_KB_A_PLUCK * played / 1024)
        sys.exit(0 if good else 1)


main()
