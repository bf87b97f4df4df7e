"""The scripted walk: the window under Xvfb at every place, with something to be seen there, light and dark, in English and
German, in several sizes and scales, with high contrast and from right to left. Takes pictures and lays them together
on sheets, to be looked at one by one; nothing is judged here.

    python3 tests/walk/walk.py build/release/bin/quillbench FOLDER [RUN ...]

RUN is a part of a run's name, such as de-1280 or x2; without any all are made, about a minute and a half each.
Needs Xvfb, xdotool and ImageMagick. No sound device is needed: the virtual instrument goes by the clock.
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile
import time

PLACES = ["instrument", "temperament", "tune", "recheck", "action", "practise", "logbook"]
PAPER, NIGHT, CONTRAST = "F3", "F4", "shift+F2"
OCTAVE = "zsxdcvgbhnjm"

# Language, width and height of the screen, scale, more options.
RUNS = {
    **{f"{language}-{width}x{height}-x{scale}": (language, width, height, scale, [])
       for language in ("en", "de")
       for width, height, scale in ((1280, 800, 1), (1024, 600, 1), (1920, 1080, 1), (2560, 1600, 2), (1920, 1080, 2),
                                    (2880, 1800, 3))},
    "de-1280x800-contrast": ("de", 1280, 800, 1, ["contrast"]),
    "en-1280x800-reverse": ("en", 1280, 800, 1, ["-reverse"]),
}

# Runs with a first look of every choir, which takes two minutes more.
LOOKED_AT_FIRST = ["en-1280x800-x1", "de-1024x600-x1", "de-1280x800-contrast", "en-1280x800-reverse"]


class Screen:
    def __init__(self, width, height):
        read, write = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", f"{width}x{height}x24", "-nolisten", "tcp", "-dpi", "96"],
            pass_fds=[write], stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as said:
            self.display = f":{said.readline().strip()}"

    def end(self):
        self.server.terminate()
        self.server.wait()


class Walk:
    def __init__(self, program, settings, pictures, run):
        self.language, self.width, self.height, scale, more = RUNS[run]
        self.pictures, self.run, self.more = pictures, run, more
        self.screen = Screen(self.width, self.height)
        self.environment = dict(os.environ, DISPLAY=self.screen.display, QT_QPA_PLATFORM="xcb", LC_ALL="C.UTF-8",
                                QT_SCALE_FACTOR=str(scale), XDG_RUNTIME_DIR=str(settings.parent))
        self.process = subprocess.Popen(
            [program, "--settings-dir", str(settings), "--language", self.language, "--source", "virtual", "--instrument",
             "double-8-8-4", "--choir", "8", "--temperament", "vallotti", *[one for one in more if one.startswith("-")]],
            env=self.environment)
        self.window = self.windows("--sync")[-1]
        self.do("xdotool", "windowmove", self.window, "0", "0", "windowsize", self.window, str(self.width),
                str(self.height), "windowfocus", self.window)
        time.sleep(2.0)

    def do(self, *command):
        return subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True, env=self.environment,
                              timeout=60).stdout

    def windows(self, *how):
        return self.do("xdotool", "search", *how, "--onlyvisible", "--pid", str(self.process.pid)).split()

    def key(self, *keys, pause=0.25):
        for key in keys:
            self.do("xdotool", "key", key)
            time.sleep(pause)

    def hold(self, key, seconds, pause=0.2):
        self.do("xdotool", "keydown", key)
        time.sleep(seconds)
        self.do("xdotool", "keyup", key)
        time.sleep(pause)

    def take(self, name):
        for theme, key in (("light", PAPER), ("dark", NIGHT)):
            self.key(key, pause=0.6)
            self.do("import", "-window", "root", str(self.pictures / f"{self.run}-{theme}-{name}.png"))

    def end(self):
        self.process.terminate()
        self.process.wait()
        self.screen.end()

    def go(self, place):
        self.key(f"ctrl+{PLACES.index(place) + 1}", pause=0.8)

    def places(self):
        if "contrast" in self.more:
            self.key(CONTRAST)
        self.go("tune")
        for key in "zx":
            self.hold(key, 2.2)
        self.take("3-tune")
        self.key("F1", pause=0.8)
        self.take("3-tune-help")
        self.key("Escape")
        self.whole()
        self.go("instrument")
        self.take("1-instrument")
        self.go("temperament")
        self.take("2-temperament")
        self.key("Home", pause=0.8)
        self.take("2-temperament-change-over")
        self.go("recheck")
        self.key(*["space"] * 16, pause=1.1)
        self.take("4-recheck")
        self.go("action")
        self.key("F6")
        for key in OCTAVE[:8]:
            for _ in range(3):
                self.hold(key, 0.45, pause=0.3)
        self.take("5-action")
        self.go("practise")
        self.key("Return", pause=1.0)
        self.key(*["space"] * 6, pause=0.4)
        self.take("6-practise-asked")
        self.key("Return", pause=0.8)
        self.take("6-practise-shown")
        self.go("logbook")
        time.sleep(1.0)
        self.key("End", pause=0.8)
        self.take("7-logbook")

    def whole(self):
        """The whole instrument, with its options; then the octave again."""
        self.key("alt+u" if self.language == "de" else "alt+p", "End", pause=0.8)
        for key in "zx":
            self.hold(key, 1.5)
        self.take("3-tune-whole")
        self.key("F1", pause=0.8)
        self.take("3-tune-whole-help")
        self.key("Escape")
        self.in_dialog("options", "ctrl+F9")
        self.key("alt+u" if self.language == "de" else "alt+p", "Home", "Escape", pause=0.8)

    def first_look(self):
        """As whole(), without sentinels, until the panel asks at which pitch to go on."""
        self.go("tune")
        self.key("ctrl+F6", "alt+u" if self.language == "de" else "alt+p", "End", "Escape", pause=0.8)
        for _ in range(36):
            self.key("Return", pause=3.0)
        self.take("9-first-look")

    def in_dialog(self, name, key):
        # Dialogs take the keys of the window: the theme is chosen before each.
        for theme, colours in (("light", PAPER), ("dark", NIGHT)):
            self.key(colours, key)
            until = time.monotonic() + 5.0
            while self.windows() == [self.window] and time.monotonic() < until:
                time.sleep(0.1)
            time.sleep(0.5)
            self.do("import", "-window", "root", str(self.pictures / f"{self.run}-{theme}-8-{name}.png"))
            self.key("Escape", pause=0.5)
            self.do("xdotool", "windowfocus", self.window)  # no window manager gives it back

    def dialogs(self):
        self.go("tune")
        for name, key in (("questions", "ctrl+b"), ("keys", "shift+F1"), ("preferences", "ctrl+comma"),
                          ("clock", "ctrl+k"), ("remark", "ctrl+r"), ("hear-pitch", "ctrl+h")):
            self.in_dialog(name, key)


def play_before(program, settings, pictures):
    """An octave is kept as it is, so that recheck and logbook have something to tell."""
    walk = Walk(program, settings, pictures, "en-1280x800-x1")
    for key in OCTAVE:
        walk.hold(key, 1.8)
        walk.key("space")
    walk.end()


def lay_together(pictures, run):
    for theme in ("light", "dark"):
        files = sorted(pictures.glob(f"{run}-{theme}-*.png"))
        for first in range(0, len(files), 4):
            sheet = pictures / "sheets" / f"{run}-{theme}-{first // 4 + 1}.png"
            subprocess.run(["montage", *files[first:first + 4], "-tile", "2x2", "-geometry", "1000x640>+4+4",
                            "-background", "grey", str(sheet)], check=True)


def main():
    program, pictures = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2])
    (pictures / "sheets").mkdir(parents=True, exist_ok=True)
    wanted = [run for run in RUNS if not sys.argv[3:] or any(part in run for part in sys.argv[3:])]
    with tempfile.TemporaryDirectory() as name:
        played = pathlib.Path(name) / "played"
        play_before(program, played, pictures)
        for run in wanted:
            settings = pathlib.Path(name) / run
            shutil.copytree(played, settings)
            walk = Walk(program, settings, pictures, run)
            try:
                walk.places()
                walk.dialogs()
                if run in LOOKED_AT_FIRST:
                    walk.first_look()
            finally:
                walk.end()
            lay_together(pictures, run)
            print(run, flush=True)


if __name__ == "__main__":
    main()
