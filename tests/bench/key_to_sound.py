"""How long it takes from a key to the sound, at Practise: the window under Xvfb, a sound server without hardware, keys
pressed as a person's would arrive. Prints every trial, then the median and the worst of each kind of key:

    F5       plays the question (the first time, and again)
    Space    plucks both strings again while they sound (with the 10 ms of the virtual hand's touch)
    Return   goes on to the next question and plays it

The time runs from the moment a key is handed to the X server until the first frame that is not silence (of Space: a
jump of the level) has arrived here from the loudspeaker's monitor. It therefore contains the recording's own delay, which
is printed as the sound server states it and is not subtracted. A real loudspeaker adds its converter's millisecond or two.

Run inside tests/support/virtual_microphone.sh and with_display.sh:
    bash tests/support/virtual_microphone.sh run bash tests/support/with_display.sh \\
        python3 tests/bench/key_to_sound.py build/release/bin/quillbench [TRIALS]
"""
import os
import re
import statistics
import subprocess
import sys
import tempfile
import threading
import time

import numpy as np

RATE = 48000
SILENCE = 1e-6
QUIET_FOR_S = 0.25
LONGEST_S = 2.0


class Monitor:
    """What leaves the loudspeaker, with the instant at which each frame arrived here."""

    def __init__(self):
        self.process = subprocess.Popen(
            ["parec", "--device=vspk.monitor", "--latency-msec=2", "--format=float32le", f"--rate={RATE}", "--channels=1"],
            stdout=subprocess.PIPE, bufsize=0)
        self.pieces = []
        threading.Thread(target=self.listen, daemon=True).start()

    def listen(self):
        left = b""
        while data := self.process.stdout.read(4096):
            at = time.monotonic()
            data = left + data
            whole = len(data) // 4 * 4
            left = data[whole:]
            self.pieces.append((at, np.frombuffer(data[:whole], dtype="<f4")))

    def quiet_since(self, seconds):
        now = time.monotonic()
        recent = [piece for at, piece in self.pieces[-400:] if at > now - seconds]
        return recent and all(np.abs(piece).max(initial=0.0) < SILENCE for piece in recent)

    def wait_for_quiet(self):
        until = time.monotonic() + 20.0
        while not self.quiet_since(QUIET_FOR_S):
            if time.monotonic() > until:
                raise RuntimeError("the loudspeaker does not fall silent")
            time.sleep(0.02)

    def onset_after(self, began, louder_than):
        """When the first frame louder than that arrived; None within LONGEST_S."""
        first = len(self.pieces)
        while first > 0 and self.pieces[first - 1][0] >= began:
            first -= 1
        while time.monotonic() < began + LONGEST_S:
            while first < len(self.pieces):
                at, piece = self.pieces[first]
                first += 1
                loud = np.nonzero(np.abs(piece) > louder_than)[0]
                if at >= began and len(loud) > 0:
                    # The end of a piece arrives now; what is before it was there earlier by its length.
                    return at - (len(piece) - loud[0]) / RATE
            time.sleep(0.002)
        return None

    def loudest(self, seconds):
        now = time.monotonic()
        return max(float(np.abs(piece).max(initial=0.0)) for at, piece in self.pieces[-400:] if at > now - seconds)

    def stated_delay(self):
        """What the sound server says that this recording lags behind the loudspeaker."""
        told = subprocess.run(["pactl", "list", "source-outputs"], stdout=subprocess.PIPE, text=True,
                              env=dict(os.environ, LC_ALL="C")).stdout
        mine = [part for part in told.split("Source Output #") if f'application.process.id = "{self.process.pid}"' in part]
        return sum(float(usec) * 1e-6 for usec in re.findall(r"Latency: ([0-9.]+) usec", mine[0])) if mine else None


class Window:
    def __init__(self, program, folder):
        environment = dict(os.environ, HOME=folder, XDG_CONFIG_HOME=folder + "/config", XDG_DATA_HOME=folder + "/data",
                           LC_ALL="C.UTF-8")
        self.process = subprocess.Popen(
            [program, "--settings-dir", folder + "/settings", "--instrument", "double-8-8-4", "--choir", "8",
             "--temperament", "vallotti", "--source", "virtual"], env=environment, stderr=subprocess.DEVNULL)
        found = subprocess.run(["xdotool", "search", "--sync", "--onlyvisible", "--pid", str(self.process.pid)],
                               check=True, stdout=subprocess.PIPE, text=True, timeout=30)
        time.sleep(2.0)
        subprocess.run(["xdotool", "windowfocus", "--sync", found.stdout.split()[-1]], check=True)
        # One xdotool for all keys: starting a process is no part of a key's way.
        self.keys = subprocess.Popen(["xdotool", "-"], stdin=subprocess.PIPE, text=True, bufsize=1)

    def key(self, name):
        at = time.monotonic()
        self.keys.stdin.write(f"key --delay 0 {name}\n")
        return at

    def end(self):
        self.keys.stdin.close()
        self.keys.wait()
        self.process.terminate()
        self.process.wait(timeout=20)


def trials_of(window, monitor, name, count, before):
    taken = []
    for _ in range(count):
        louder_than = before()
        at = window.key(name)
        onset = monitor.onset_after(at, louder_than)
        if onset is None:
            print(f"{name}: no sound within {LONGEST_S} s")
            continue
        taken.append(onset - at)
    return taken


def told(name, taken):
    if taken:
        print(f"{name}: median {1e3 * statistics.median(taken):.1f} ms, worst {1e3 * max(taken):.1f} ms of {len(taken)}"
              f" ({' '.join(f'{1e3 * t:.0f}' for t in taken)})", flush=True)


def main():
    program = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 12
    monitor = Monitor()
    time.sleep(1.0)
    with tempfile.TemporaryDirectory() as folder:
        stated = []
        for _ in range(count):
            time.sleep(0.05)
            stated.append(monitor.stated_delay())
        told("the recording's own delay", [delay for delay in stated if delay is not None])
        window = Window(program, folder)
        try:
            window.key("ctrl+6")
            time.sleep(2.0)
            def quiet():
                monitor.wait_for_quiet()
                return SILENCE
            told("F5", trials_of(window, monitor, "F5", count, quiet))

            def ringing():
                time.sleep(1.5)
                return 1.3 * monitor.loudest(0.2)

            def answered():
                # Which way: W answers, in a while it is uncovered, Return goes on.
                window.key("w")
                time.sleep(3.0)
                return ringing()
            window.key("alt+y")
            time.sleep(0.5)
            window.key("Return")
            told("Return", trials_of(window, monitor, "Return", count, answered))
            told("Space", trials_of(window, monitor, "space", count, ringing))
        finally:
            window.end()
            monitor.process.terminate()
            monitor.process.wait()


if __name__ == "__main__":
    main()
