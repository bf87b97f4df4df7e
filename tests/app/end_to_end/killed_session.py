"""The window is killed five times in the middle of a session at the virtual instrument. Each time it is started again it
goes on where it was: no string whose keeping was acknowledged is lost, and at the end the command line finds them all.

Run inside with_display.sh: python3 killed_session.py QUILLBENCH QUILLBENCH_CLI
"""
import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import time

KILLS = 5
STRINGS_EACH = 2


class Failure(Exception):
    pass


def expect(condition, text):
    if not condition:
        raise Failure(text)


class Window:
    """The program, and what it writes about what it hears and keeps."""

    def __init__(self, program, folder, run):
        self.readings = folder / f"readings{run}.jsonl"
        environment = dict(os.environ, HOME=str(folder), XDG_CONFIG_HOME=str(folder / "config"),
                           XDG_DATA_HOME=str(folder / "data"), LC_ALL="C.UTF-8")
        self.process = subprocess.Popen(
            [program, "--settings-dir", str(folder / "settings"), "--instrument", "double-8-8-4", "--choir", "8",
             "--temperament", "vallotti", "--a4", "415", "--source", "virtual", "--record-readings",
             str(self.readings)], env=environment, stderr=subprocess.DEVNULL)

    def lines(self):
        if not self.readings.exists():
            return []
        whole = self.readings.read_text().rsplit("\n", 1)[0]
        return [json.loads(line) for line in whole.split("\n") if line]

    def wait(self, what, condition, seconds=60):
        began = time.monotonic()
        while not condition(self.lines()):
            expect(self.process.poll() is None, f"the window ended while waiting for {what}")
            expect(time.monotonic() - began < seconds, f"no {what} within {seconds} s; last: {self.lines()[-3:]}")
            time.sleep(0.02)

    def key(self, name):
        # "sync": the window may begin to sound a moment before it is shown.
        found = subprocess.run(["xdotool", "search", "--sync", "--onlyvisible", "--pid", str(self.process.pid)],
                               check=True, stdout=subprocess.PIPE, text=True, timeout=20)
        # Nobody manages windows here: the keys go where the focus is put.
        subprocess.run(["xdotool", "windowfocus", "--sync", found.stdout.split()[-1], "key", name], check=True)

    def heard_since(self, count):
        return any(l["kind"] == "reading" and l["status"] == "ok" for l in self.lines()[count:])

    def keep_one(self):
        """Plucks the string asked for and accepts it as it is; the kept notes so far."""
        count = len(self.lines())
        # A key that comes before the window has taken the focus is lost: then it is played again, as a person would.
        for _ in range(6):
            self.key("Return")
            until = time.monotonic() + 10
            while time.monotonic() < until and not self.heard_since(count):
                time.sleep(0.02)
            if self.heard_since(count):
                break
        expect(self.heard_since(count), f"no reading after six plucks; last: {self.lines()[-3:]}")
        count = len(self.lines())
        self.key("space")
        self.wait("a kept step", lambda lines: any(l["kind"] == "step" and l["state"] == "kept" for l in lines[count:]))

    def acknowledged(self):
        """Notes of the steps that were kept before the logbook last said that nothing is left to keep."""
        lines = self.lines()
        last = max((i for i, l in enumerate(lines) if l["kind"] == "kept"), default=-1)
        return {l["note"] for l in lines[:max(last, 0)] if l["kind"] == "step" and l["state"] == "kept"}

    def kill(self):
        self.process.kill()
        self.process.wait()


def run(program, cli, folder):
    rng = random.Random(5)
    sure = set()
    for kill in range(KILLS + 1):
        window = Window(program, folder, kill)
        try:
            window.wait("sound", lambda lines: any(l["kind"] == "source" and l["phase"] == "running" for l in lines))
            if kill > 0:
                window.wait("taking up", lambda lines: any(l["kind"] == "taken-up" for l in lines))
                taken = [l for l in window.lines() if l["kind"] == "taken-up"]
                expect(len(taken) == 1, f"start {kill}: the session was not taken up")
                expect(taken[0]["done"] >= len(sure), f"start {kill}: {taken[0]['done']} strings, {len(sure)} were kept")
                print(f"start {kill}: taken up with {taken[0]['done']} strings, {len(sure)} acknowledged")
            if kill == KILLS:
                break
            for _ in range(STRINGS_EACH):
                window.keep_one()
            time.sleep(rng.uniform(0.0, 0.4))  # the moment of the kill: any will do
            before = window.acknowledged()
        finally:
            window.kill()
        sure |= before
        answer = subprocess.run([cli, "log", "show", "--json", "--logbook", str(folder / "settings" / "logbook.sqlite")],
                                check=True, stdout=subprocess.PIPE, text=True)
        shown = json.loads(answer.stdout)
        kept = {reading["note"] for reading in shown["readings"]}
        expect(sure <= kept, f"kill {kill}: {sorted(sure - kept)} are lost")
        expect(shown["session"] == 1, f"kill {kill}: another session was begun")
    expect(len(sure) >= KILLS, f"only {len(sure)} strings were ever acknowledged")


def main():
    with tempfile.TemporaryDirectory() as name:
        try:
            run(sys.argv[1], sys.argv[2], pathlib.Path(name))
        except (Failure, subprocess.SubprocessError) as failure:
            print(f"failed: {failure}")
            return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
