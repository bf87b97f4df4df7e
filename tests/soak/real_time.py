"""Minutes of playing at real speed into the window: no reading is lost, memory stays flat, the time that capture counts
is the time of the clock on the wall.

    bash tests/support/virtual_microphone.sh run bash tests/support/with_display.sh \\
        python3 tests/soak/real_time.py QUILLBENCH QUILLBENCH_CLI tests/support/virtual_microphone.sh [MINUTES]
"""
import datetime
import pathlib
import subprocess
import sys
import tempfile
import threading
import time

import numpy

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "app" / "end_to_end"))
from first_octave import APART_S, NOTES, Failure, Window, cents, expect, simulate  # noqa: E402


def resident_megabytes(process):
    for line in pathlib.Path(f"/proc/{process.pid}/status").read_text().splitlines():
        if line.startswith("VmRSS"):
            return int(line.split()[1]) / 1024
    raise Failure("the window is gone")


def watch(window, memory, done):
    """Memory every ten seconds."""
    while not done.is_set():
        memory.append(resident_megabytes(window.process))
        done.wait(10)


def run(program, cli, microphone, minutes, folder):
    notes = (NOTES + NOTES[-2:0:-1]) * (int(minutes * 60 / APART_S) // (2 * len(NOTES) - 2) + 1)
    notes = notes[:int(minutes * 60 / APART_S)]
    sound = folder / "playing.wav"
    truth = simulate(cli, sound, notes, {note: 3.0 for note in NOTES}, 7)
    window = Window(program, folder)
    memory, done = [], threading.Event()
    try:
        window.wait("sound", window.phase_after(0, "running"), 30)
        watcher = threading.Thread(target=watch, args=(window, memory, done))
        watcher.start()
        subprocess.run(["bash", microphone, "play", str(sound)], check=True)
        time.sleep(3.0)
        done.set()
        watcher.join()
        heard, gaps = window.heard(), sum(l["kind"] == "gap" for l in window.lines())
        window.end()
    finally:
        done.set()
        if window.process.poll() is None:
            window.process.kill()
            window.process.wait()
    print(f"{len(truth)} plucks, {len(heard)} readings, {gaps} gaps")
    expect([h["note"] for h in heard] == [t["note"] for t in truth], "a reading was lost or is of another key")
    errors = sorted(abs(cents(h["pitch_hz"], t["sustain_hz"])) for h, t in zip(heard, truth))
    print(f"error: median {errors[len(errors) // 2]:.3f}, 95 % {errors[int(0.95 * len(errors))]:.3f} cent")
    at = [datetime.datetime.fromisoformat(h["time"].replace("Z", "+00:00")).timestamp() for h in heard]
    slope = numpy.polyfit([h["pluck_s"] for h in heard], numpy.array(at) - at[0], 1)[0]
    print(f"capture against the clock on the wall: {1e6 * (slope - 1):+.1f} ppm")
    early, late = memory[min(3, len(memory) - 1)], memory[-1]
    print(f"memory: {early:.1f} MB after half a minute, {late:.1f} MB at the end, {max(memory):.1f} MB at most")
    expect(gaps == 0, "sound was lost")
    expect(late < early + 10.0, "memory grew")
    expect(abs(slope - 1) < 2e-4, "capture does not keep the time of the clock on the wall")


def main():
    program, cli, microphone = sys.argv[1:4]
    minutes = float(sys.argv[4]) if len(sys.argv) > 4 else 20.0
    with tempfile.TemporaryDirectory() as name:
        try:
            run(program, cli, microphone, minutes, pathlib.Path(name))
        except Failure as failure:
            print(f"failed: {failure}")
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
