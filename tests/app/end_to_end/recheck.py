"""A recheck through the real thing: an octave of the virtual instrument's 4′ is played into a microphone without hardware and
left as it is; then it has drifted, all strings by about the same and one much further, and is played upwards, a second a
note. The window has to recognise every string, to say how far the whole drifted, and to name the one string that is
worth the hammer.

Run inside tests/support/virtual_microphone.sh and with_display.sh:
    python3 recheck.py QUILLBENCH QUILLBENCH_CLI VIRTUAL_MICROPHONE.SH
"""
import json
import pathlib
import random
import subprocess
import sys
import tempfile
import threading
import time

from first_octave import NOTES, Failure, Window, expect

CHOIR = "4"  # a recheck begins with the 4′
FIRST_S = 1.0
WHOLE_CENTS = -4.0
CULPRIT, CULPRIT_CENTS = "F#3", -17.0
LOOKS = 3  # a string that stands out is played up to three times
PLACE_KEY = "ctrl+4"


def play(cli, microphone, path, detune, apart_s, held_s, during=None):
    notes = ",".join(f"{note}:{CHOIR}@{FIRST_S + i * apart_s:g}+{held_s:g}" for i, note in enumerate(NOTES))
    subprocess.run(
        [cli, "simulate", "--instrument", "double-8-8-4", "--temperament", "vallotti", "--a4", "415", "--play", notes,
         "--detune", ",".join(f"{CHOIR}:{note}={by:+.2f}" for note, by in detune.items()), "--noise-db", "45", "--seed", "5",
         str(path)], check=True, stderr=subprocess.DEVNULL)
    player = threading.Thread(target=subprocess.run, args=(["bash", microphone, "play", str(path)],))
    player.start()
    if during:
        during()
    player.join()


def keep_each(window):
    """Accepts every string as soon as its reading is finished."""
    def kept():
        return [l["note"] for l in window.lines() if l["kind"] == "step" and l["state"] in ("kept", "settled")]
    for count in range(1, len(NOTES) + 1):
        window.wait(f"reading {count}", lambda _: len(window.heard()) >= count, 30)
        window.key("space")
        window.wait(f"string {count} kept", lambda _: len(kept()) >= count, 5)
    expect(sorted(set(kept())) == sorted(NOTES), f"kept: {kept()}")


def rechecks(window):
    return [l for l in window.lines() if l["kind"] == "recheck"]


def run(program, cli, microphone, folder):
    rng = random.Random(7)
    left = {note: rng.uniform(-0.5, 0.5) for note in NOTES}
    drifted = {note: left[note] + WHOLE_CENTS + rng.uniform(-0.4, 0.4) for note in NOTES}
    drifted[CULPRIT] = left[CULPRIT] + CULPRIT_CENTS
    window = Window(program, folder, CHOIR)
    try:
        window.wait("sound", window.phase_after(0, "running"), 30)
        play(cli, microphone, folder / "left.wav", left, 3.1, 2.7, lambda: keep_each(window))
        window.wait("the logbook", lambda lines: lines[-1]["kind"] == "kept" or any(
            l["kind"] == "kept" for l in lines[-4:]), 10)
        window.key(PLACE_KEY)
        time.sleep(1.0)  # the place reads how the strings were left; nobody plays at once
        began = len(window.heard())
        for look in range(LOOKS):
            play(cli, microphone, folder / f"drifted{look}.wav", drifted, 1.0, 0.8)
        window.wait("all strings heard again",
                    lambda _: rechecks(window) and rechecks(window)[-1]["heard"] == len(NOTES), 15)
        last = rechecks(window)[-1]
        print(f"{len(window.heard()) - began} plucks heard; whole {last['whole_cents']:+.2f} cents, worth the hammer: "
              f"{last['short_list']}, with the pitch moved by {last['moved_cents']:+.1f} cents: {last['with_pitch_moved']}")
        if any(l["kind"] == "gap" for l in window.lines()):
            print("gaps while capturing")
            return 2
        expect(abs(last["whole_cents"] - WHOLE_CENTS) < 1.5, f"the whole drifted by {last['whole_cents']:+.2f} cents")
        expect(last["short_list"][0] == CULPRIT, f"worth the hammer: {last['short_list']}, not {CULPRIT} first")
        expect(last["with_pitch_moved"] == [CULPRIT], f"with the pitch moved: {last['with_pitch_moved']}")
        expect(abs(last["moved_cents"] - WHOLE_CENTS) < 3.0, f"the pitch moved by {last['moved_cents']:+.1f} cents")
        window.end()
    finally:
        if window.process.poll() is None:
            window.process.kill()
    shown = subprocess.run([cli, "log", "list", "--json", "--logbook", str(folder / "settings" / "logbook.sqlite")],
                           check=True, stdout=subprocess.PIPE, text=True).stdout
    expect("recheck" in shown, f"no recheck in the logbook: {shown}")
    return 0


def main():
    for attempt in (1, 2):  # a counted gap reruns it once
        with tempfile.TemporaryDirectory() as name:
            try:
                result = run(sys.argv[1], sys.argv[2], sys.argv[3], pathlib.Path(name))
            except (Failure, subprocess.SubprocessError) as failure:
                print(f"failed: {failure}")
                return 1
        if result != 2:
            return result
    return 1


if __name__ == "__main__":
    sys.exit(main())
