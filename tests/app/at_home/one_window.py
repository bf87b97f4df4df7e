"""The window as a desktop starts it: the second start hands its files to the first, whatever became of an earlier one;
nothing is written but in the platform's places. Offscreen, without sound hardware.

    python3 one_window.py QUILLBENCH QUILLBENCH_CLI
"""

import json
import os
import pathlib
import signal
import subprocess
import sys
import tempfile
import time

PROGRAM, COMMAND_LINE = sys.argv[1:3]
PATIENCE_S = 120  # for slow machines; what is waited for comes within a second


def wait_until(what, name):
    end = time.monotonic() + PATIENCE_S
    while not what():
        assert time.monotonic() < end, f"{name}: not within {PATIENCE_S} s"
        time.sleep(0.05)


class Desktop:
    """A person's session: an empty home and a private folder for sockets."""

    def __init__(self, folder, **platform):
        self.folder = pathlib.Path(folder)
        self.home = self.folder / "home"
        self.runtime = self.folder / "run"
        self.home.mkdir()
        self.runtime.mkdir(mode=0o700)
        kept = {name: os.environ[name] for name in ("PATH", "LD_LIBRARY_PATH") if name in os.environ}
        self.environment = {
            **kept, "HOME": str(self.home), "XDG_RUNTIME_DIR": str(self.runtime),
            "QT_QPA_PLATFORM": "offscreen", "LC_ALL": "C.UTF-8", **platform}

    def start(self, *arguments, where=None):
        return subprocess.Popen([PROGRAM, *arguments], env=self.environment, cwd=where or self.folder,
                                stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)

    def socket(self):
        """What tells one socket from another in its place; nothing where there is none. The number of the file alone
        does not: a file system may give the number of a removed file to the next."""
        return [(path.stat().st_ino, path.stat().st_ctime_ns) for path in self.runtime.glob("*.socket")]

    def first(self, *arguments):
        """A window that answers."""
        stale = self.socket()
        window = self.start(*arguments)
        wait_until(lambda: self.socket() not in ([], stale) or window.poll() is not None, "the first window")
        assert window.poll() is None, window.stderr.read()
        return window

    def again(self, *arguments, where=None):
        """A start that ends by itself: its exit code and what it said."""
        second = self.start(*arguments, where=where)
        said = second.communicate(timeout=PATIENCE_S)[1]
        return second.returncode, said

    def written(self):
        return sorted(str(path.relative_to(self.home)) for path in self.home.rglob("*") if path.is_file())


def end(window):
    window.send_signal(signal.SIGTERM)
    window.communicate(timeout=PATIENCE_S)
    assert window.returncode == 0, window.returncode


def lines_of(file):
    return [json.loads(line) for line in file.read_text().splitlines(keepends=True) if line.endswith("\n")] \
        if file.exists() else []


def files_are_handed_over(desktop):
    subprocess.run([COMMAND_LINE, "simulate", "--instrument", "double-8-8-4", "--play", "A3:8@0.5+2.5",
                    "note.wav"], check=True, cwd=desktop.folder, env=desktop.environment)
    readings = desktop.folder / "readings.jsonl"
    window = desktop.first("--record-readings", str(readings))
    # Named from another folder than the window was started in.
    (desktop.folder / "there").mkdir()
    assert desktop.again("../note.wav", where=desktop.folder / "there") == (0, "")
    wait_until(lambda: any(line["kind"] == "reading" and line["note"] == "A3" for line in lines_of(readings)),
               "the first window listens to what the second was given")
    assert window.poll() is None
    # Without a file it only comes forward.
    assert desktop.again() == (0, "")
    assert window.poll() is None
    # What one window cannot follow is refused in a line.
    code, said = desktop.again("--a4", "392")
    assert code == 2 and said.count("\n") == 1 and "--a4" in said, (code, said)
    return window


def folders_have_their_own(desktop):
    picture = desktop.folder / "picture.png"
    code, said = desktop.again("--settings-dir", str(desktop.folder / "apart"), "--screenshot-after", "0.5",
                               str(picture))
    assert code == 0 and picture.stat().st_size > 0, said


def a_killed_window_is_no_hindrance(desktop, window):
    window.kill()
    window.communicate()
    assert desktop.socket(), "nothing stale was left: this proves nothing"
    window = desktop.first()
    assert desktop.again() == (0, "")
    assert window.poll() is None
    end(window)
    assert not desktop.socket()


def main():
    with tempfile.TemporaryDirectory() as folder:
        desktop = Desktop(folder)
        window = files_are_handed_over(desktop)
        folders_have_their_own(desktop)
        a_killed_window_is_no_hindrance(desktop, window)
        places = (".config/Quillbench/", ".local/share/quillbench/", ".cache/", ".config/pulse/")
        astray = [path for path in desktop.written() if not path.startswith(places)]
        assert not astray, astray
        assert ".local/share/quillbench/logbook.sqlite" in desktop.written(), desktop.written()
        assert ".config/Quillbench/quillbench.ini" in desktop.written(), desktop.written()
    with tempfile.TemporaryDirectory() as folder:
        outside = pathlib.Path(folder) / "platform"
        desktop = Desktop(folder, **{f"XDG_{kind}_HOME": str(outside / kind.lower())
                                     for kind in ("CONFIG", "DATA", "CACHE", "STATE")})
        end(desktop.first())
        assert not desktop.written(), desktop.written()
        assert (outside / "data/quillbench/logbook.sqlite").is_file()
        assert (outside / "config/Quillbench/quillbench.ini").is_file()
    print("one window, the platform's places")


main()
