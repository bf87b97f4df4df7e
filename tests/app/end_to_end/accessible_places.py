"""What a screen reader is told: the window under Xvfb with its accessibility on, its tree read through AT-SPI at each of
the seven places, which are gone to by keyboard. Everything that takes the focus has a name and a role that says what it
is, no two of a place are told alike, every painted view says in words what it shows, and what Tune asks for is announced
when it changes.

Run inside with_display.sh: python3 accessible_places.py QUILLBENCH
A session bus of its own, with AT-SPI's bus on it, is started around it and ended with it.
"""
import os
import pathlib
import shutil
import signal
import subprocess
import sys
import tempfile
import time

SKIPPED = 77
INSIDE = "QUILLBENCH_PRIVATE_BUS"

PLACES = ["Instrument", "Temperament", "Tune", "Recheck", "Action", "Practise", "Logbook"]
# The painted views of each place, by what they are called.
PAINTED = {
    "Instrument": ["Strings over the compass"],
    "Temperament": ["Circle of fifths", "Thirds"],
    "Tune": ["The two wires", "The keyboard with its choirs", "Level of the sound", "Pin of the virtual string"],
    "Recheck": ["How the strings moved, over the keyboard"],
    "Action": ["Map over the keyboard"],
    "Practise": ["Where your ear stands"],
    "Logbook": [],
}
# Roles that say nothing of what a thing is (Qt's for a widget without one is "filler").
NO_ROLES = {"filler", "unknown", "invalid", "redundant object", "extended", ""}
# Told one by one inside a list, a table or a menu, which is what has the focus.
PARTS = {"list item", "table cell", "table row", "table column header", "table row header", "tree item", "menu item",
         "check menu item", "radio menu item", "column header", "row header"}
IMAGES = {"image", "canvas", "chart", "drawing area", "icon"}


class Failure(Exception):
    pass


def expect(condition, text):
    if not condition:
        raise Failure(text)


class Thing:
    """One showing object of the tree."""

    def __init__(self, accessible, inside):
        self.accessible = accessible
        self.role = accessible.get_role_name()
        self.name = accessible.get_name() or ""
        self.description = accessible.get_description() or ""
        self.inside = inside
        states = accessible.get_state_set()
        self.focusable = states.contains(Atspi.StateType.FOCUSABLE)
        self.focused = states.contains(Atspi.StateType.FOCUSED)

    def __str__(self):
        return f"{self.role} “{self.name}” ({self.description[:60]}) in {' / '.join(self.inside[-3:])}"


def showing(accessible, inside=()):
    """Everything that shows, from the top down."""
    for i in range(accessible.get_child_count()):
        child = accessible.get_child_at_index(i)
        if child is None or not child.get_state_set().contains(Atspi.StateType.SHOWING):
            continue
        thing = Thing(child, inside)
        yield thing
        if thing.role in ("table", "tree table", "tree", "list", "combo box", "menu bar"):
            continue  # their parts are told from what they show
        yield from showing(child, (*inside, thing.name or thing.role))


class Window:
    def __init__(self, program, folder):
        environment = dict(os.environ, HOME=str(folder), XDG_CONFIG_HOME=str(folder / "config"),
                           XDG_DATA_HOME=str(folder / "data"), LC_ALL="C.UTF-8",
                           XDG_RUNTIME_DIR=str(folder), QT_LINUX_ACCESSIBILITY_ALWAYS_ON="1")
        self.process = subprocess.Popen(
            [program, "--settings-dir", str(folder / "settings"), "--instrument", "double-8-8-4", "--choir", "8",
             "--temperament", "vallotti", "--a4", "415", "--source", "virtual"], env=environment)
        self.frame = None

    def wait(self, what, condition, seconds=20):
        """What the condition gave when it gave something."""
        until = time.monotonic() + seconds
        while True:
            iterate()
            try:
                found = condition()
            except GLib.Error:  # the tree changes while it is read
                found = None
            if found:
                return found
            expect(self.process.poll() is None, f"the window ended while waiting for {what}")
            expect(time.monotonic() < until, f"no {what} within {seconds} s")
            time.sleep(0.05)

    def find_frame(self):
        desktop = Atspi.get_desktop(0)
        for i in range(desktop.get_child_count()):
            application = desktop.get_child_at_index(i)
            if application and application.get_process_id() == self.process.pid:
                for j in range(application.get_child_count()):
                    frame = application.get_child_at_index(j)
                    if frame and frame.get_role_name() == "frame":
                        return frame
        return None

    def begin(self):
        self.frame = self.wait("window on the accessibility bus", self.find_frame)

    def key(self, *names):
        found = subprocess.run(["xdotool", "search", "--sync", "--onlyvisible", "--pid", str(self.process.pid)],
                               check=True, stdout=subprocess.PIPE, text=True, timeout=20)
        subprocess.run(["xdotool", "windowfocus", "--sync", found.stdout.split()[-1], "key", *names], check=True)

    def things(self):
        return list(showing(self.frame))

    def go_to(self, place):
        self.key(f"ctrl+{PLACES.index(place) + 1}")
        marks = PAINTED[place]
        if marks:
            self.wait(f"the place {place}",
                      lambda: {thing.name for thing in self.things()} >= set(marks))
        else:
            self.wait(f"the place {place}", lambda: any(place in thing.inside for thing in self.things()))

    def end(self):
        self.process.send_signal(signal.SIGTERM)
        expect(self.process.wait(timeout=10) == 0, "the window did not end cleanly")


def iterate():
    context = GLib.MainContext.default()
    while context.iteration(False):
        pass


def faults_of(place, things):
    """What a person who cannot see the place would miss."""
    faults = []
    told = {}
    for thing in things:
        empty_line = thing.role == "label" and not thing.name  # nothing to say at present
        if not thing.focusable or thing.role in PARTS or empty_line:
            continue
        if not thing.name.strip():
            faults.append(f"no name: {thing}")
        if thing.role in NO_ROLES:
            faults.append(f"no telling role: {thing}")
        key = (thing.role, thing.name, thing.description)
        if key in told:
            faults.append(f"told like another: {thing}; the other in {' / '.join(told[key].inside[-3:])}")
        told[key] = thing
    for name in PAINTED[place]:
        views = [thing for thing in things if thing.name == name and thing.role in IMAGES]
        if len(views) != 1:
            faults.append(f"{len(views)} pictures are called “{name}”")
        for view in views:
            if not view.description.strip():
                faults.append(f"a painted view does not say what it shows: {view}")
    return faults


def named(things, name):
    return next((thing for thing in things if thing.name == name), None)


class Announcements:
    """What comes as an announcement: something told as a notification shows, or its words change."""

    def __init__(self):
        self.heard = []
        self.listener = Atspi.EventListener.new(self.take)
        for kind in ("object:state-changed:showing", "object:property-change:accessible-name",
                     "object:property-change:accessible-description"):
            self.listener.register(kind)

    def take(self, event):
        try:
            if event.source.get_role_name() in ("notification", "alert"):
                self.heard.append((event.type, event.source.get_name()))
        except GLib.Error:
            pass


def check_announcing(window):
    """A key is played: the wires say otherwise in words, and the new sentence is announced as it stands there."""
    announcements = Announcements()
    window.go_to("Tune")
    before = named(window.things(), "The two wires").description
    said = next((thing for thing in window.things() if thing.description == "What to do now"), None)
    expect(said is not None, "the sentence of Tune is not told")
    expect(said.role in ("notification", "alert"), f"what to do is not told as an announcement: {said}")
    sentence = said.name
    window.wait("sound", lambda: named(window.things(), "Level of the sound"))
    window.key("Return")  # plucks the key that is asked for
    window.wait("the wires to say otherwise",
                lambda: named(window.things(), "The two wires").description != before, 15)
    window.wait("an announcement", lambda: any(
        kind.startswith("object:state-changed:showing") and words and words != sentence
        for kind, words in announcements.heard), 15)
    now = next(thing for thing in window.things() if thing.description == "What to do now").name
    expect(any(words == now for _, words in announcements.heard), f"announced {announcements.heard}, it says “{now}”")
    print(f"announced: {announcements.heard[-1][1]}")


def run(program, folder):
    window = Window(program, folder)
    faults = []
    try:
        window.begin()
        for place in PLACES:
            window.go_to(place)
            time.sleep(0.3)  # what is filled in a moment later is read too
            things = window.things()
            focusable = [thing for thing in things if thing.focusable]
            print(f"{place}: {len(things)} things show, {len(focusable)} of them take the focus")
            if "-v" in sys.argv:
                for thing in things:
                    print(f"    {'*' if thing.focusable else ' '} {thing}")
            expect(len(focusable) >= 6, f"{place}: its tree is nearly empty")
            faults += [f"{place}: {fault}" for fault in faults_of(place, things)]
        for fault in faults:
            print(fault)
        check_announcing(window)
        window.end()
        expect(not faults, f"{len(faults)} faults")
    finally:
        if window.process.poll() is None:
            window.process.kill()
            window.process.wait()


def main():
    if INSIDE not in os.environ:
        for tool in ("dbus-run-session", "xdotool"):
            if shutil.which(tool) is None:
                print(f"skipped: {tool} is not installed")
                return SKIPPED
        # The system's own Python has the bindings.
        os.environ[INSIDE] = "1"
        os.execvp("dbus-run-session", ["dbus-run-session", "--", "/usr/bin/python3", *sys.argv])
    with tempfile.TemporaryDirectory() as name:
        try:
            run(sys.argv[1], pathlib.Path(name))
        except Failure as failure:
            print(f"failed: {failure}")
            return 1
    return 0


if __name__ == "__main__":
    if INSIDE in os.environ:
        try:
            import gi
            gi.require_version("Atspi", "2.0")
            from gi.repository import Atspi, GLib
        except (ImportError, ValueError):
            print("skipped: the bindings of AT-SPI are not installed (packages python3-gi, gir1.2-atspi-2.0)")
            sys.exit(SKIPPED)
    sys.exit(main())
