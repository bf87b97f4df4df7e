"""The whole job from nothing, under Xvfb and by keyboard: first start in an empty home, three questions, an instrument of
one's own, a temperament of one's own, some strings tuned on the virtual instrument, a recheck weeks later, plucks
measured, and the four papers printed as PDF. What has to be there afterwards is asserted; what it looked like is kept as
pictures, to be looked at one by one.

    python3 tests/walk/from_nothing.py build/release/bin/quillbench FOLDER [owner|technician|student ...]

The owner takes her time, in English; the technician is quick, in German, in the dark, at 200 %; the student only
practises. Without names all three come, about four, two and one minute. Needs Xvfb, xdotool, ImageMagick, poppler's
pdftoppm, and AT-SPI with its Python bindings, by which the words of the window are read.
"""
import os
import pathlib
import re
import sqlite3
import subprocess
import sys
import tempfile
import time

from walk import NIGHT, OCTAVE, PAPER, Screen

INSIDE = "QUILLBENCH_PRIVATE_BUS"
COARSE, FINE = 3.0, 0.3  # cents of a step of the virtual pin

# Language, width and height of the screen, scale.
PEOPLE = {"owner": ("en", 1280, 800, 1), "technician": ("de", 2560, 1600, 2), "student": ("en", 1280, 800, 1)}


class Stumble(Exception):
    pass


def expect(condition, text):
    if not condition:
        raise Stumble(text)


class Desk:
    """One person's screen, home and window."""

    def __init__(self, program, home, pictures, person):
        self.language, width, height, scale = PEOPLE[person]
        self.home, self.pictures, self.person, self.taken = home, pictures, person, 0
        self.screen = Screen(width, height)
        self.environment = {key: value for key, value in os.environ.items() if not key.startswith("XDG_")}
        self.environment.update(HOME=str(home), DISPLAY=self.screen.display, QT_QPA_PLATFORM="xcb",
                                QT_SCALE_FACTOR=str(scale), XDG_RUNTIME_DIR=str(home),
                                QT_LINUX_ACCESSIBILITY_ALWAYS_ON="1",
                                LC_ALL="de_DE.UTF-8" if self.language == "de" else "C.UTF-8")
        began = time.monotonic()
        self.process = subprocess.Popen([program, "--language", self.language] if self.language == "de" else [program],
                                        env=self.environment, cwd=home)
        self.main = self.wait("window", lambda: self.widest())
        print(f"{person}: seen after {time.monotonic() - began:.1f} s", flush=True)
        self.do("xdotool", "windowmove", self.main, "0", "0", "windowsize", self.main, str(width), str(height))

    def do(self, *command):
        return subprocess.run(command, check=True, stdout=subprocess.PIPE, text=True, env=self.environment,
                              timeout=60).stdout

    def windows(self):
        found = subprocess.run(["xdotool", "search", "--onlyvisible", "--pid", str(self.process.pid)], text=True,
                               stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=self.environment, check=False)
        return found.stdout.split()

    def widest(self):
        sizes = {}
        for window in self.windows():
            shape = self.do("xdotool", "getwindowgeometry", "--shell", window)
            sizes[window] = int(re.search(r"WIDTH=(\d+)", shape).group(1))
        best = max(sizes, key=sizes.get, default=None)
        return best if best and sizes[best] > 900 else None

    def wait(self, what, condition, seconds=15.0):
        until = time.monotonic() + seconds
        while not (found := condition()):
            expect(self.process.poll() is None, f"the window ended while waiting for {what}")
            expect(time.monotonic() < until, f"no {what} within {seconds:g} s")
            time.sleep(0.1)
        return found

    def focus(self, window):
        self.do("xdotool", "windowfocus", window)  # no window manager does it
        time.sleep(0.3)

    def dialog(self):
        """The keys go to the dialog that is open."""
        others = self.wait("dialog", lambda: [one for one in self.windows() if one != self.main])
        time.sleep(0.5)
        self.focus(others[-1])

    def back(self):
        self.wait("end of the dialog", lambda: self.windows() == [self.main])
        self.focus(self.main)

    def key(self, *keys, pause=0.3):
        for key in keys:
            self.do("xdotool", "key", "--clearmodifiers", key)
            time.sleep(pause)

    def say(self, text):
        self.do("xdotool", "type", "--delay", "25", text)
        time.sleep(0.2)

    def hold(self, key, seconds):
        self.do("xdotool", "keydown", key)
        time.sleep(seconds)
        self.do("xdotool", "keyup", key)
        time.sleep(0.25)

    def look(self, name):
        self.taken += 1
        file = self.pictures / f"{self.person}-{self.taken:02d}-{name}.png"
        self.do("import", "-window", "root", str(file))

    def end(self):
        if self.process.poll() is None:
            self.key("ctrl+q")
            self.process.wait(timeout=10)
        expect(self.process.returncode == 0, f"the window ended with {self.process.returncode}")

    def clear(self):
        if self.process.poll() is None:
            self.process.kill()
            self.process.wait()
        self.screen.end()

    # What a screen reader is told.

    def things(self):
        def below(accessible):
            for i in range(accessible.get_child_count()):
                child = accessible.get_child_at_index(i)
                if child is not None and child.get_state_set().contains(Atspi.StateType.SHOWING):
                    yield child
                    yield from below(child)
        desktop = Atspi.get_desktop(0)
        for i in range(desktop.get_child_count()):
            application = desktop.get_child_at_index(i)
            if application and application.get_process_id() == self.process.pid:
                yield from below(application)

    def read(self, pick):
        """The first showing thing that is picked; the tree may change while it is read."""
        for _ in range(20):
            context = GLib.MainContext.default()
            while context.iteration(False):
                pass
            try:
                return next((one for one in self.things() if pick(one)), None)
            except GLib.Error:
                time.sleep(0.1)
        return None

    def to(self, *names, role=None):
        """The keyboard goes to the control of that name, in whichever language."""
        found = self.wait(" or ".join(names), lambda: self.read(
            lambda one: one.get_name().partition(":")[0] in names and
            one.get_state_set().contains(Atspi.StateType.FOCUSABLE) and role in (None, one.get_role_name())))
        Atspi.Component.grab_focus(found)
        time.sleep(0.3)

    def press(self, *names):
        self.to(*names)
        self.key("space", pause=0.6)

    def show_sheet(self, *names):
        found = self.wait(" or ".join(names), lambda: self.read(
            lambda one: one.get_name() in names and one.get_role_name() == "page tab"))
        Atspi.Action.do_action(found, 0)
        time.sleep(0.5)

    def words(self, *names):
        found = self.read(lambda one: one.get_name() in names)
        return found.get_description() if found else ""

    def sentence(self):
        asked = ("What to do now", "Was jetzt zu tun ist")
        found = self.read(lambda one: one.get_description() in asked)
        return found.get_name() if found else ""


def answer_questions(desk, down=0):
    desk.dialog()
    desk.look("question-1")
    desk.key(*["Down"] * down)
    desk.key("Return", pause=0.8)
    desk.look("question-2")
    desk.key("Return", pause=0.8)
    desk.look("question-3")
    desk.key("Return", pause=0.8)
    desk.back()


def save_as(desk, name, picture):
    desk.key("ctrl+s", pause=0.5)
    desk.dialog()
    if name:
        desk.key("ctrl+a")
        desk.say(name)
    desk.look(picture)
    desk.key("Return", pause=0.6)
    desk.back()


def enter_instrument(desk, name):
    """The nearest example becomes one's own: words, standard, compass, three lengths that were measured."""
    desk.key("ctrl+1", pause=0.8)
    desk.to("Name")
    desk.key("ctrl+a")
    desk.say(name)
    desk.key("Tab", "ctrl+a")
    desk.say("A. Maker (invented)")
    desk.key("Tab", "ctrl+a")
    desk.say("Front room")
    desk.key("Tab")
    desk.look("instrument-named")
    desk.to("Highest key", "Höchste Taste")
    desk.key("Up", pause=0.6)
    desk.show_sheet("Strings", "Saiten")
    desk.to("Strings", "Saiten", role="table")
    desk.key("ctrl+Home")
    row_of_lengths(desk)
    desk.look("instrument-strings")
    desk.key("ctrl+z", "ctrl+y", pause=0.5)
    save_as(desk, None, "instrument-save")
    files = list(desk.home.glob("*.quillbench"))
    expect(len(files) == 1, f"saved instruments: {files}")
    desk.look("instrument-saved")
    desk.press("Tune this", "Dieses stimmen")
    desk.look("tune-own-instrument")
    return files[0]


def row_of_lengths(desk):
    """The lowest string and the one an octave above are measured, those between filled in."""
    desk.key("Right", "Right", "Right", "Right", pause=0.1)
    desk.say("1260")
    desk.key("Return", pause=0.5)
    desk.key(*["Down"] * 12, pause=0.05)
    desk.say("1120")
    desk.key("Return", pause=0.5)
    desk.key(*["shift+Up"] * 12, pause=0.05)
    desk.press("Lengths between", "Längen dazwischen")


def make_temperament(desk, name):
    desk.key("ctrl+2", pause=0.8)
    desk.to("Circle of fifths", "Quintenzirkel")
    desk.key("Right", "Right", "Up", pause=0.4)  # one fifth by a twelfth of the comma, another takes what is left
    desk.look("temperament-open")
    desk.key("Right", pause=0.4)
    desk.press("Take what is left", "Rest übernehmen")
    desk.to("Name")
    desk.key("ctrl+a")
    desk.say(name)
    desk.key("Tab", pause=0.4)
    desk.look("temperament-made")
    save_as(desk, name.replace(" ", "-"), "temperament-save")
    expect(len(list(desk.home.glob("*.quillbench"))) == 2, "the temperament was not saved")
    desk.press("Tune with this", "Damit stimmen")
    desk.look("tune-own-temperament")


def deviation(desk):
    """In cents, as the wires say in words; 0 where they are tied, none where nothing was heard."""
    words = desk.words("The two wires", "Die zwei Drähte")
    number = re.search(r": ([+\-\u2212]?\d+[.,]?\d*) Cent|: ([+\-\u2212]?\d+[.,]?\d*) cents", words)
    if number:
        return float((number.group(1) or number.group(2)).replace("\u2212", "-").replace(",", "."))
    return None if ":" in words else 0.0


def turn(desk, cents):
    way = "Up" if cents > 0 else "Down"
    coarse, fine = divmod(abs(cents), COARSE)
    desk.key(*[f"shift+{way}"] * int(coarse), *[way] * round(fine / FINE), pause=0.06)


def tune_string(desk, key, plucks=12):
    """As the sentence leads: down first, a little above, into the target, brisk plucks with the hand off the hammer."""
    desk.hold(key, 1.5)
    if (first := deviation(desk)) is None:
        desk.hold(key, 1.8)
        first = deviation(desk)
    expect(first is not None, f"nothing was heard of {key}: {desk.sentence()}")
    began = desk.sentence()
    if first < -1.0:
        turn(desk, -3.0)
        desk.hold(key, 1.5)
    for _ in range(plucks):
        off = deviation(desk)
        wires = desk.words("The two wires", "Die zwei Drähte")
        if off is None or ":" not in wires:
            break
        if abs(off) > 0.4:
            turn(desk, -off)
        desk.hold(key, 1.4)
    print(f"  {key}: {first:+.1f} cents; {began} … {desk.sentence()}", flush=True)


def tune_some(desk, keys):
    for number, key in enumerate(keys):
        tune_string(desk, key)
        if number in (0, 2):
            desk.look(f"tune-string-{number + 1}")
    desk.look("tune-done")


def recheck(desk, seconds):
    desk.key("ctrl+4", pause=1.0)
    desk.look("recheck-entered")
    desk.to("Choir", "Chor")
    desk.key("Home", pause=0.6)
    desk.press("Three weeks on", "3 Wochen")
    desk.press("Play it for me", "Vorspielen")
    time.sleep(seconds)
    desk.look("recheck-played")


def action(desk, keys):
    desk.key("ctrl+5", pause=0.8)
    desk.look("action-entered")
    desk.key("ctrl+f", pause=1.5)
    desk.key("F6")
    for key in keys:
        for _ in range(3):
            desk.hold(key, 0.7)
    time.sleep(0.5)
    desk.look("action-measured")


def paper(desk, place, what, before=()):
    """Ctrl+P and Return in the desktop's own dialog, which writes a PDF where no printer is."""
    had = set(desk.home.rglob("*.pdf"))
    desk.key(f"ctrl+{place}", pause=1.2)
    desk.key(*before, pause=0.8)
    desk.key("ctrl+p", pause=0.5)
    desk.dialog()
    desk.look(f"print-{what}")
    desk.key("Return", pause=1.0)
    desk.back()
    fresh = desk.wait(f"{what} as PDF", lambda: set(desk.home.rglob("*.pdf")) - had)
    file = fresh.pop()
    subprocess.run(["pdftoppm", "-r", "70", "-png", str(file), str(desk.pictures / f"{desk.person}-paper-{what}")],
                   check=True)
    desk.look(f"printed-{what}")
    print(f"  {what}: {file.relative_to(desk.home)}", flush=True)


def print_all(desk):
    paper(desk, 1, "strings")
    paper(desk, 2, "card")
    paper(desk, 5, "worksheet")
    paper(desk, 7, "report", before=("End",))


def kept(desk):
    file = next(desk.home.rglob("logbook.sqlite"))
    with sqlite3.connect(f"file:{file}?mode=ro", uri=True) as logbook:
        return {table: logbook.execute(f"SELECT count(*) FROM {table}").fetchone()[0]
                for table in ("session", "reading", "practise")}


def owner(desk):
    answer_questions(desk, down=4)
    desk.key(PAPER)
    desk.look("first-sight")
    enter_instrument(desk, "Our spinet")
    make_temperament(desk, "Front room")
    tune_some(desk, OCTAVE)
    recheck(desk, 72)
    action(desk, OCTAVE)
    print_all(desk)
    rows = kept(desk)
    expect(rows["session"] >= 2 and rows["reading"] > 20, f"the logbook holds {rows}")


def technician(desk):
    answer_questions(desk)
    desk.key(NIGHT)
    desk.look("first-sight")
    enter_instrument(desk, "Cembalo im Pfarrsaal")
    make_temperament(desk, "Hausstimmung")
    tune_some(desk, OCTAVE[:3])
    recheck(desk, 12)
    action(desk, OCTAVE[:3])
    print_all(desk)
    rows = kept(desk)
    expect(rows["session"] >= 2 and rows["reading"] > 3, f"the logbook holds {rows}")


def student(desk):
    desk.dialog()
    desk.look("question-1")
    desk.key("Return", "Return", "Return", pause=0.8)
    desk.back()
    desk.key("ctrl+6", pause=1.0)
    desk.look("practise-entered")
    for question in range(3):
        desk.key("Return", pause=1.2)
        desk.key(*["space"] * 5, pause=0.93)  # the first questions beat about once a second
        desk.look(f"practise-{question + 1}-tapped")
        desk.key("Return", pause=1.0)
        desk.look(f"practise-{question + 1}-shown")
    desk.key("F9", pause=1.0)
    desk.look("practise-plan")
    desk.key("F1", pause=0.8)
    desk.look("practise-help")
    desk.key("Escape")
    desk.key("ctrl+7", pause=1.5)
    desk.look("practise-logbook")
    expect(kept(desk)["practise"] >= 2, f"the logbook holds {kept(desk)}")


def run(program, person, pictures):
    with tempfile.TemporaryDirectory() as name:
        home = pathlib.Path(name) / "home"
        home.mkdir(mode=0o700)
        desk = Desk(program, home, pictures, person)
        try:
            {"owner": owner, "technician": technician, "student": student}[person](desk)
            desk.end()
        except (Stumble, subprocess.SubprocessError) as stumble:
            desk.look("stumbled")
            print(f"{person}: {stumble}", flush=True)
            return False
        finally:
            desk.clear()
    print(f"{person}: done", flush=True)
    return True


def main():
    if INSIDE not in os.environ:
        os.environ[INSIDE] = "1"
        os.execvp("dbus-run-session", ["dbus-run-session", "--", "/usr/bin/python3", *sys.argv])
    program, pictures = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2])
    pictures.mkdir(parents=True, exist_ok=True)
    people = sys.argv[3:] or list(PEOPLE)
    return 0 if all([run(program, person, pictures) for person in people]) else 1


if __name__ == "__main__":
    if INSIDE in os.environ:
        import gi
        gi.require_version("Atspi", "2.0")
        from gi.repository import Atspi, GLib
    sys.exit(main())
