"""Everything that happens to a sound device, again and again: killed, frozen, suspended, renamed, back with another
rate, with two channels, not there at the start. After each the window has to say so, recover by itself and read a note
that is played; its thread may never be busy with anything for longer than 100 ms.

    bash tests/support/virtual_microphone.sh run bash tests/support/with_display.sh \\
        python3 tests/soak/devices.py QUILLBENCH QUILLBENCH_CLI tests/support/virtual_microphone.sh [TIMES] [SEED]
"""
import os
import pathlib
import random
import re
import subprocess
import sys
import tempfile
import time

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "app" / "end_to_end"))
from first_octave import Failure, Window, expect, simulate  # noqa: E402

SAID_WITHIN_S = 2.0
BACK_WITHIN_S = 20.0
AWAY_S = 3.0
STARTED = "not there at the start"
TROUBLES = ["killed", "frozen", "suspended", "renamed", "another rate", "two channels", STARTED]


class Server:
    """The private sound server, and how it comes back."""

    def __init__(self, script):
        self.script, self.folder = script, pathlib.Path(os.environ["VIRTUAL_MICROPHONE_DIR"])
        self.setup = (self.folder / "server.pa").read_text()
        self.names = (self.folder / "asound.conf").read_text()

    def command(self, *words):
        subprocess.run(["bash", self.script, *words], check=True)

    def come_back(self, rate=48000, channels=1):
        text = re.sub(r"rate=\d+ channels=1 channel_map=mono",
                      f"rate={rate} channels={channels}" + (" channel_map=mono" if channels == 1 else ""), self.setup)
        (self.folder / "server.pa").write_text(text)
        self.command("start")

    def rename(self, away):
        text = re.sub(r"\b(pcm|ctl)\.vmic\b", r"\1.othermic", self.names) if away else self.names
        (self.folder / "asound.conf").write_text(text)


class Bench:
    def __init__(self, program, server, folder):
        self.program, self.server, self.folder, self.starts = program, server, folder, 0
        self.busiest, self.late, self.shown = [], 0, 0
        self.open()

    def open(self):
        self.starts += 1
        folder = self.folder / str(self.starts)
        folder.mkdir()
        self.window = Window(self.program, folder)

    def close(self):
        self.window.end()
        frames = next(l for l in reversed(self.window.lines()) if l["kind"] == "frames")
        self.busiest.append(frames["busiest_ms"])
        self.late += frames["late"]
        self.shown += frames["shown"]

    def said(self):
        """Seconds until trouble is said; what was said before does not count."""
        return self.window.wait("word of the trouble", lambda lines: any(
            l["kind"] == "source" and l["phase"] in ("lost", "silent", "recovering", "failed")
            for l in lines[self.count:]), 10)

    def trouble(self, kind):
        self.count = len(self.window.lines())
        if kind == STARTED:
            self.close()
            self.server.command("kill")
            self.open()
            self.count = 0
            said = self.said()
            self.server.come_back()
            return said
        act = {"frozen": "freeze", "suspended": "suspend"}.get(kind, "kill")
        if kind == "renamed":
            self.server.rename(True)
        self.server.command(act)
        said = self.said()
        if kind == "renamed":
            self.server.come_back()  # without the device that was asked for
            time.sleep(AWAY_S)
            self.server.rename(False)
            return said
        time.sleep(AWAY_S)
        if act == "kill":
            self.server.come_back(rate=44100 if kind == "another rate" else 48000,
                                  channels=2 if kind == "two channels" else 1)
        else:
            self.server.command("thaw" if act == "freeze" else "resume")
        return said

    def back(self, note):
        seconds = self.window.wait("sound again", lambda lines: [
            l["phase"] for l in lines if l["kind"] == "source"][-1] == "running", BACK_WITHIN_S)
        before = len(self.window.heard())
        self.server.command("play", str(note))
        self.window.wait("a reading", lambda _: len(self.window.heard()) > before, 10)
        return seconds


def run(program, cli, script, times, seed, folder):
    rng = random.Random(seed)
    note = folder / "note.wav"
    simulate(cli, note, ["A3"], {"A3": 3.0}, 5)
    server = Server(script)
    bench = Bench(program, server, folder)
    bench.window.wait("sound", bench.window.phase_after(0, "running"), 30)
    said = {kind: [] for kind in TROUBLES}
    back = {kind: [] for kind in TROUBLES}
    for i in range(times):
        kind = TROUBLES[i] if i < len(TROUBLES) else rng.choice(TROUBLES)
        try:
            said[kind].append(bench.trouble(kind))
            back[kind].append(bench.back(note))
        except Failure as failure:
            raise Failure(f"{i + 1}, {kind}: {failure}") from failure
        print(f"{i + 1:3} {kind:22} said after {said[kind][-1]:.2f} s, back after {back[kind][-1]:.2f} s", flush=True)
    bench.close()
    for kind in TROUBLES:
        if said[kind]:
            print(f"{kind:22} {len(said[kind]):3} times, said within {max(said[kind]):.2f} s, "
                  f"back within {max(back[kind]):.2f} s")
    print(f"{bench.shown} frames, {bench.late} late; busiest {max(bench.busiest)} ms")
    late = {kind: max(each) for kind, each in said.items() if each and kind != STARTED and max(each) > SAID_WITHIN_S}
    expect(not late, f"said too late: {late}")
    expect(max(bench.busiest) <= 100, f"the window's thread was once busy for {max(bench.busiest)} ms")


def main():
    program, cli, script = sys.argv[1:4]
    times = int(sys.argv[4]) if len(sys.argv) > 4 else 100
    seed = int(sys.argv[5]) if len(sys.argv) > 5 else 1
    with tempfile.TemporaryDirectory() as name:
        try:
            run(program, cli, script, times, seed, pathlib.Path(name))
        except Failure as failure:
            print(f"failed: {failure}")
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
