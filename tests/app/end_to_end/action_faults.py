"""Action through the real thing: registers of the virtual instrument with weak plectra, bad dampers, jacks that stray
and one that hangs are played, key after key, into a microphone without hardware; the window hears them through
PortAudio, at the place Action, task by task. The worksheet that it keeps must name each of them, and of the ordinary
keys at most two in a hundred.

Run inside tests/support/virtual_microphone.sh and with_display.sh:
    python3 action_faults.py QUILLBENCH QUILLBENCH_CLI VIRTUAL_MICROPHONE.SH ACTION_SOUND [TASK]...
"""
import json
import subprocess
import sys
import time

from first_octave import Failure, Window, exit_code, expect

FIRST_KEY, LAST_KEY = 10, 50
KEYS = LAST_KEY - FIRST_KEY + 1
SEED = "11"
FALSE_PART = 0.02
WEAK = {17: 0.30, 28: 0.28, 41: 0.30}
LATE = {22: 0.35, 36: 0.40}
EARLY = {29: 0.25, 45: 0.3}  # of the damper's grip, with the key down
PARTIAL = {40: 1.0}
# By choir and course, in millimetres of key travel: rows pluck 0.8 mm apart, the 4' first, then back and front 8'.
STRAY = {(0, 26): -0.75, (2, 18): 1.4, (1, 40): 1.7}
HANGS = LAST_KEY  # the last to be played: it rings on, as nobody here pushes the jack down
ROWS = 3


def on_sheet(folder, about):
    """Lines of one task on the worksheet."""
    found = list(folder.rglob("worksheets/double-8-8-4.json"))
    lines = json.loads(found[0].read_text())["lines"] if found else []
    return [line for line in lines if line["id"].startswith(about)]


def play(microphone, tool, folder, words):
    sound = folder / "played.wav"
    subprocess.run([tool, str(sound), f"seed={SEED}", *words], check=True)
    subprocess.run(["bash", microphone, "play", str(sound)], check=True)
    time.sleep(2.0)


def settled_sheet(folder, about, faulty):
    """Lines of one task once the faulty keys are on it, or when waiting is no use any more; a machine that is busy
    hears what was played some time after."""
    for _ in range(40):
        if faulty <= {line["key"] for line in on_sheet(folder, about)}:
            break
        time.sleep(1.0)
    time.sleep(5.0)
    return on_sheet(folder, about)


def judge(what, lines, faulty):
    named = {line["key"] for line in lines}
    wrong = named - faulty
    ordinary = KEYS - len(faulty)
    for line in lines:
        print(f"{what}, key {line['key']}: {line['what']}")
    print(f"{what}: named {sorted(named)}, faulty {sorted(faulty)}, {len(wrong)} of {ordinary} ordinary keys named",
          flush=True)
    expect(faulty <= named, f"{what}: not found {sorted(faulty - named)}")
    expect(len(wrong) <= FALSE_PART * ordinary, f"{what}: named without cause {sorted(wrong)}")


def draw(window, before, after):
    """Registers by their keys: those that change."""
    for reg in sorted(before ^ after):
        window.key(f"alt+{reg + 1}")
        time.sleep(0.3)


def everywhere(*words):
    return [f"first={FIRST_KEY}", f"last={LAST_KEY}", *words]


def weak_words():
    return everywhere("registers=0", "plucks=2", "held=0.75", "apart=0.95",
                      *(f"weak:0:{key}:{part}" for key, part in WEAK.items()))


def damper_words():
    kinds = {"late": LATE, "early": EARLY, "partial": PARTIAL}
    return everywhere("registers=0", "plucks=2", "held=0.3", "apart=1.6",
                      *(f"{kind}:0:{key}:{by}" for kind, keys in kinds.items() for key, by in keys.items()))


def judge_dampers(lines):
    judge("dampers", lines, LATE.keys() | EARLY.keys() | PARTIAL.keys())
    for words, keys in (("later than its neighbours", LATE), ("damped early", EARLY), ("sounds on under", PARTIAL)):
        for key in keys:
            said = [line["what"] for line in lines if line["key"] == key]
            expect(any(words in what for what in said), f"damper of key {key}: not '{words}' but {said}")


def hanging_words():
    return everywhere("registers=0", "plucks=10", "held=0.12", "apart=0.24", "pause=2.9", f"hangs:0:{HANGS}:0")


def stray_words():
    return [f"stray:{choir}:{course}:{by}" for (choir, course), by in STRAY.items()]


def alone_words(reg):
    return everywhere(f"registers={reg}", "plucks=1", "held=0.75", "apart=1.0", *stray_words())


def slow_words():
    return everywhere("registers=0,1,2", "plucks=3", "held=0.9", "apart=2.3", "speed=0.1", *stray_words())


def judge_stagger(lines):
    judge("stagger", lines, {course for _, course in STRAY})
    said = {line["key"]: line["what"] for line in lines}
    back, front, four = (next(course for choir, course in STRAY if choir == row) for row in range(ROWS))
    expect("wrong way round" in said[four], f"key {four} plucks in the wrong order, but: {said[four]}")
    expect("too late" in said[front], f"the last pluck of key {front} comes too late, but: {said[front]}")
    expect("back 8" in said[back] and "stop at resistance" in said[back],
           f"key {back}: no jack and no caution: {said[back]}")


def weak_plectra(window, folder, sounds):
    window.key("F6")
    time.sleep(0.5)
    sounds(weak_words())
    judge("weak plectra", settled_sheet(folder, "voice-", set(WEAK)), set(WEAK))


def bad_dampers(window, folder, sounds):
    window.key("F7")
    time.sleep(0.5)
    sounds(damper_words())
    judge_dampers(settled_sheet(folder, "damper-", LATE.keys() | EARLY.keys() | PARTIAL.keys()))


def hanging_jack(window, folder, sounds):
    window.key("shift+F7")
    time.sleep(0.5)
    sounds(hanging_words())
    judge("repetition", settled_sheet(folder, "repeat-", {HANGS}), {HANGS})


def stray_jacks(window, folder, sounds):
    window.key("F5")
    window.key("alt+9")
    time.sleep(0.5)
    drawn = {0}
    for reg in range(ROWS):
        draw(window, drawn, {reg})
        drawn = {reg}
        sounds(alone_words(reg))
    draw(window, drawn, set(range(ROWS)))
    sounds(slow_words())
    time.sleep(20.0)
    judge_stagger(settled_sheet(folder, "stagger-", {course for _, course in STRAY}))


def lost(window):
    return sum(line["kind"] == "gap" for line in window.lines())


TASKS = {"evenness": weak_plectra, "dampers": bad_dampers, "repetition": hanging_jack, "stagger": stray_jacks}


def run(program, _cli, microphone, folder):
    tool = sys.argv[4]
    window = Window(program, folder)
    try:
        window.wait("sound", window.phase_after(0, "running"), 30)
        window.key("ctrl+5")
        time.sleep(1.5)
        try:
            for name in sys.argv[5:] or TASKS:
                TASKS[name](window, folder, lambda words: play(microphone, tool, folder, words))
        except Failure:
            if lost(window):
                return 2
            raise
        gaps = lost(window)
        window.end()
        return 2 if gaps else 0
    finally:
        if window.process.poll() is None:
            window.process.kill()
            window.process.wait()


if __name__ == "__main__":
    sys.exit(exit_code(run))
