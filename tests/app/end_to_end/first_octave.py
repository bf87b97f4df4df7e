"""The first octave through the real thing: a recording of the virtual instrument, every key out of tune by a known
amount, is played into a microphone without hardware; the window hears it through PortAudio. It has to recognise all
13 keys and read the sustain pitches of the truth file; so has the command line on what the window recorded. Then the
sound server dies and comes back, and the session goes on.

Run inside tests/support/virtual_microphone.sh and with_display.sh:
    python3 first_octave.py QUILLBENCH QUILLBENCH_CLI VIRTUAL_MICROPHONE.SH
"""
import json
import math
import os
import pathlib
import random
import signal
import subprocess
import sys
import tempfile
import time

NOTES = ["C3", "C#3", "D3", "Eb3", "E3", "F3", "F#3", "G3", "G#3", "A3", "Bb3", "B3", "C4"]
APART_S = 3.1
HELD_S = 2.7
FIRST_S = 1.0
LARGEST_ERROR_CENTS = 0.3
SAID_WITHIN_S = 2.0


def cents(hz, of_hz):
    return 1200.0 * math.log2(hz / of_hz)


class Failure(Exception):
    pass


def expect(condition, text):
    if not condition:
        raise Failure(text)


def simulate(cli, path, notes, detune, seed):
    """Plays the notes into a file; returns what is true of each pluck, in order."""
    play = ",".join(f"{note}:8@{FIRST_S + i * APART_S:g}+{HELD_S:g}" for i, note in enumerate(notes))
    out_of_tune = ",".join(f"8:{note}={by:+.2f}" for note, by in detune.items())
    subprocess.run(
        [cli, "simulate", "--instrument", "double-8-8-4", "--temperament", "vallotti", "--a4", "415", "--play", play,
         "--detune", out_of_tune, "--noise-db", "45", "--seed", str(seed), str(path)], check=True, stderr=subprocess.DEVNULL)
    return json.loads(path.with_suffix(".truth.json").read_text())["plucks"]


class Window:
    """The program, and what it writes about what it hears."""

    def __init__(self, program, folder, choir="8"):
        self.readings = folder / "readings.jsonl"
        environment = dict(os.environ, HOME=str(folder), XDG_CONFIG_HOME=str(folder / "config"),
                           XDG_DATA_HOME=str(folder / "data"), XDG_RUNTIME_DIR=str(folder), LC_ALL="C.UTF-8")
        self.process = subprocess.Popen(
            [program, "--settings-dir", str(folder / "settings"), "--instrument", "double-8-8-4", "--choir", choir,
             "--temperament", "vallotti", "--a4", "415", "--source", "microphone", "--device", "vmic",
             "--record-readings", str(self.readings)], env=environment)

    def lines(self):
        if not self.readings.exists():
            return []
        whole = self.readings.read_text().rsplit("\n", 1)[0]
        return [json.loads(line) for line in whole.split("\n") if line]

    def wait(self, what, condition, seconds):
        """Seconds until the lines fulfil the condition."""
        began = time.monotonic()
        while True:
            if condition(self.lines()):
                return time.monotonic() - began
            expect(self.process.poll() is None, f"the window ended while waiting for {what}")
            expect(time.monotonic() - began < seconds, f"no {what} within {seconds} s; last lines: {self.lines()[-3:]}")
            time.sleep(0.05)

    def phase_after(self, count, phase):
        return lambda lines: any(l["kind"] == "source" and l["phase"] == phase for l in lines[count:])

    def heard(self):
        return [l for l in self.lines() if l["kind"] == "reading" and l["status"] != "nothing"]

    def key(self, name):
        found = subprocess.run(["xdotool", "search", "--onlyvisible", "--pid", str(self.process.pid)], check=True,
                               stdout=subprocess.PIPE, text=True)
        # Nobody manages windows here: the keys go where the focus is put.
        subprocess.run(["xdotool", "windowfocus", "--sync", found.stdout.split()[-1], "key", name], check=True)

    def end(self):
        self.process.send_signal(signal.SIGTERM)
        expect(self.process.wait(timeout=10) == 0, "the window did not end cleanly")


def compare(name, heard, truth):
    expect([h["note"] for h in heard] == [t["note"] for t in truth],
           f"{name}: keys {[h['note'] for h in heard]} instead of {[t['note'] for t in truth]}")
    errors = [cents(h["pitch_hz"], t["sustain_hz"]) for h, t in zip(heard, truth)]
    for h, t, error in zip(heard, truth, errors):
        print(f"{name} {h['note']:4} read {h['pitch_hz']:9.4f} Hz true {t['sustain_hz']:9.4f} Hz {error:+.3f} cent")
    for h, error in zip(heard, errors):
        expect(abs(error) < LARGEST_ERROR_CENTS,
               f"{name}: {h['note']} is {error:+.3f} cents off and says {h['deviation_cents_u']:.3f}")


def first_pluck_in(cli, recording):
    answer = subprocess.run([cli, "measure", str(recording), "--note", NOTES[0], "--temperament", "vallotti", "--json"],
                            check=True, stdout=subprocess.PIPE, text=True)
    return json.loads(answer.stdout.splitlines()[0])["pluck_s"]


def run(program, cli, microphone, folder):
    rng = random.Random(20)
    detune = {note: rng.choice([-1, 1]) * rng.uniform(2, 25) for note in NOTES}
    octave, again = folder / "octave.wav", folder / "again.wav"
    truth = simulate(cli, octave, NOTES, detune, 5)
    truth_again = simulate(cli, again, ["A3", "D3"], {"A3": 3.0, "D3": -4.0}, 5)

    window = Window(program, folder)
    try:
        window.wait("sound", window.phase_after(0, "running"), 30)
        window.key("F9")
        subprocess.run(["bash", microphone, "play", str(octave)], check=True)
        window.wait("thirteen readings", lambda _: len(window.heard()) >= len(NOTES), 10)
        window.key("F9")
        gaps = sum(l["kind"] == "gap" for l in window.lines())
        if gaps:
            print(f"{gaps} gaps while capturing")
            return 2
        compare("window", window.heard(), truth)

        recordings = list(folder.rglob("*.flac"))
        expect(len(recordings) == 1, f"recordings kept: {recordings}")
        began = window.heard()[0]["pluck_s"] - first_pluck_in(cli, recordings[0])
        rows = [{"id": t["note"], "file": str(recordings[0]), "note": t["note"], "temperament": "vallotti",
                 "from": max(0.0, h["pluck_s"] - began - 0.3)} for t, h in zip(truth, window.heard())]
        (folder / "list.json").write_text(json.dumps(rows))
        answer = subprocess.run([cli, "measure", "--batch", str(folder / "list.json"), "--json"], check=True,
                                stdout=subprocess.PIPE, text=True)
        compare("recording", [json.loads(line) for line in answer.stdout.splitlines()], truth)

        count = len(window.lines())
        subprocess.run(["bash", microphone, "kill"], check=True)
        said = window.wait("word of the loss", lambda lines: any(
            l["kind"] == "source" and l["phase"] in ("lost", "silent", "recovering") for l in lines[count:]), 10)
        print(f"loss said after {said:.2f} s")
        expect(said <= SAID_WITHIN_S, f"the loss was said only after {said:.1f} s")
        count = len(window.lines())
        subprocess.run(["bash", microphone, "start"], check=True)
        back = window.wait("sound again", window.phase_after(count, "running"), 20)
        print(f"back after {back:.2f} s")
        before = len(window.heard())
        subprocess.run(["bash", microphone, "play", str(again)], check=True)
        window.wait("two more readings", lambda _: len(window.heard()) >= before + 2, 10)
        compare("after the loss", window.heard()[before:before + 2], truth_again)
        window.end()
    finally:
        if window.process.poll() is None:
            window.process.kill()
            window.process.wait()
    return 0


def exit_code(run):
    """Of run(program, cli, microphone, folder) with the arguments of this program. 2 means that sound was lost while
    capturing: that is the machine's, not ours, and it runs once more."""
    program, cli, microphone = sys.argv[1:4]
    for _ in range(2):
        with tempfile.TemporaryDirectory() as name:
            try:
                code = run(program, cli, microphone, pathlib.Path(name))
            except (Failure, subprocess.SubprocessError) as failure:
                print(f"failed: {failure}")
                return 1
        if code != 2:
            return code
    print("sound was lost twice while capturing")
    return 1


if __name__ == "__main__":
    sys.exit(exit_code(run))
