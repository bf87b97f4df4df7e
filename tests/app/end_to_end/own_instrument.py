"""Practise on the learner's own instrument, through the real thing: the window under Xvfb asks for a fifth, a recording
of the virtual instrument out of tune by a known amount is played into a microphone without hardware, the learner's
judgement goes in by keys, and the program uncovers. What it measured must be what the truth file says, and the
judgement must be called what it was: a count that was right, then a direction that was wrong.

Run inside tests/support/virtual_microphone.sh and with_display.sh:
    python3 own_instrument.py QUILLBENCH QUILLBENCH_CLI VIRTUAL_MICROPHONE.SH
"""
import json
import subprocess
import sys
import time

from first_octave import Failure, Window, exit_code, expect

ALONE_S = 0.4   # when the lower string is plucked
BOTH_S = 2.2    # when the upper one joins it
HELD_S = 4.5
SOUNDS_S = BOTH_S + HELD_S
OUT_OF_TUNE_CENTS = -9.0
# Many strings of the virtual instrument beat by themselves, as real ones do, and what the analysis is not sure of then is
# not judged. The strings of these fifths beat little.
LOWER_KEYS = {"C3", "Eb3", "G3"}
DEVIATIONS = 3.0
ROUNDING_HZ = 0.01


def interval(cli, path, lower, upper):
    """The lower string alone, then both; what is true of the pair: beats a second, + = wide."""
    choir, key = upper.split(":")
    play = ",".join(f"{string.split(':')[1]}:{string.split(':')[0]}@{at:g}+{SOUNDS_S - at:g}"
                    for string, at in ((lower, ALONE_S), (upper, BOTH_S)))
    subprocess.run(
        [cli, "simulate", "--instrument", "double-8-8-4", "--temperament", "vallotti", "--a4", "415", "--play", play,
         "--detune", f"{choir}:{key}={OUT_OF_TUNE_CENTS:+.2f}", "--noise-db", "45", "--seed", "3", str(path)],
        check=True, stderr=subprocess.DEVNULL)
    pairs = json.loads(path.with_suffix(".truth.json").read_text())["pairs"]
    expect(len(pairs) == 1, f"pairs in the truth file: {pairs}")
    return pairs[0]["beat_hz"] * {"wide": 1.0, "narrow": -1.0}[pairs[0]["direction"]]


def exercises(cli, folder):
    answer = subprocess.run([cli, "log", "show", "--practise", "--json", "--logbook",
                             str(folder / "settings" / "logbook.sqlite")], stdout=subprocess.PIPE, text=True)
    return json.loads(answer.stdout)["exercises"] if answer.returncode in (0, 4) and answer.stdout else []


def practise_lines(window):
    return [line for line in window.lines() if line["kind"] == "practise"]


def at_phase(phase):
    return lambda lines: any(line["kind"] == "practise" and line["phase"] == phase for line in lines)


def tap(window, per_second, until):
    """Evenly, as a metronome would."""
    found = subprocess.run(["xdotool", "search", "--onlyvisible", "--pid", str(window.process.pid)], check=True,
                           stdout=subprocess.PIPE, text=True)
    subprocess.run(["xdotool", "windowfocus", "--sync", found.stdout.split()[-1]], check=True)
    keys = subprocess.Popen(["xdotool", "-"], stdin=subprocess.PIPE, text=True, bufsize=1)
    at = time.monotonic()
    taps = 0
    while at < until:
        time.sleep(max(0.0, at - time.monotonic()))
        keys.stdin.write("key --delay 0 space\n")
        at += 1.0 / per_second
        taps += 1
    keys.stdin.close()
    keys.wait()
    return taps


def ask(window, *keys):
    """What stands as the newest question after these keys."""
    before = len(practise_lines(window))
    for key in keys:
        window.key(key)
    window.wait("a question", lambda lines: len(practise_lines(window)) > before, 10)
    time.sleep(0.3)
    return practise_lines(window)[-1]


def ask_among_these(window, *keys):
    question = ask(window, *keys)
    for _ in range(40):
        if question["phase"] == "asked" and question["lower"].split(":")[1] in LOWER_KEYS:
            return question
        # The virtual instrument and back: another question.
        ask(window, "F8")
        question = ask(window, "F8")
    raise Failure(f"none of the fifths wanted was asked for: {question}")


def judge(window, cli, microphone, folder, question, work):
    """Return begins, the strings sound, the learner judges, the program uncovers; the truth and the logbook's row."""
    expect(question["phase"] == "asked", f"no question stands: {question}")
    sound = folder / f"interval{question['line']}.wav"
    beat = interval(cli, sound, question["lower"], question["upper"]) * question["multiple"]
    print(f"{question['lower']} with {question['upper']}: true {beat:+.3f} a second where the ear is sent")
    count = len(window.lines())
    kept = len(exercises(cli, folder))
    window.key("Return")
    window.wait("the beginning", lambda lines: at_phase("listening")(lines[count:]), 5)
    player = subprocess.Popen(["bash", microphone, "play", str(sound)])
    try:
        work(beat, time.monotonic() + SOUNDS_S - 0.5)
        window.wait("the uncovering", lambda lines: at_phase("uncovered")(lines[count:]), 15)
    finally:
        player.wait()
    until = time.monotonic() + 5
    while len(exercises(cli, folder)) == kept and time.monotonic() < until:
        time.sleep(0.1)
    rows = exercises(cli, folder)
    expect(len(rows) == kept + 1, f"{len(rows)} exercises in the logbook, {kept + 1} were done")
    row = rows[-1]
    print(f"  measured {row['beat_hz']:+.3f} ± {row['beat_hz_u']:.3f}: {row['exercise']} {row['answer']}")
    expect(row["source"] == "own" and row["interval"] == "fifth" and row["note"] == question["lower"].split(":")[1],
           f"the logbook tells of something else: {row}")
    off = abs(row["beat_hz"] - beat)
    expect(off <= DEVIATIONS * row["beat_hz_u"] + ROUNDING_HZ, f"measured {off:.3f} a second beside the truth: {row}")
    return row


def run(program, cli, microphone, folder):
    window = Window(program, folder)
    try:
        window.wait("sound", window.phase_after(0, "running"), 30)
        window.key("ctrl+6")
        window.wait("the place Practise", at_phase("asked"), 10)
        ask(window, "alt+i", "f")  # the fifth,
        ask(window, "alt+r", "t")  # in the tenor
        question = ask_among_these(window, "F8")

        def count(beat, until):
            taps = tap(window, abs(beat), until)
            print(f"  {taps} taps")
            window.key("Return")

        counted = judge(window, cli, microphone, folder, question, count)
        expect(counted["exercise"] == "count" and counted["answer"] == "right", f"a right count is called {counted}")

        def say_wrongly(beat, _until):
            window.key("n" if beat > 0.0 else "w")

        said = judge(window, cli, microphone, folder, ask_among_these(window, "alt+y"), say_wrongly)
        expect(said["exercise"] == "which-way" and said["answer"] == "wrong", f"a wrong direction is called {said}")
        window.end()
    except Failure as failure:
        gaps = sum(line["kind"] == "gap" for line in window.lines())
        if not gaps:
            raise
        print(f"failed: {failure}; {gaps} gaps while capturing")
        return 2
    finally:
        if window.process.poll() is None:
            window.process.kill()
            window.process.wait()
    return 0


if __name__ == "__main__":
    sys.exit(exit_code(run))
