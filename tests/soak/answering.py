"""How long a window takes to answer: _NET_WM_PING of the Extended Window Manager Hints (freedesktop.org), which the
thread that draws answers between two pieces of its work."""
import ctypes
import threading
import time

CLIENT_MESSAGE = 33
SUBSTRUCTURE_NOTIFY = 1 << 19


class ClientMessage(ctypes.Structure):
    _fields_ = [("type", ctypes.c_int), ("serial", ctypes.c_ulong), ("send_event", ctypes.c_int),
                ("display", ctypes.c_void_p), ("window", ctypes.c_ulong), ("message_type", ctypes.c_ulong),
                ("format", ctypes.c_int), ("data", ctypes.c_long * 5)]


class Event(ctypes.Union):
    _fields_ = [("message", ClientMessage), ("padding", ctypes.c_long * 24)]


class Answering(threading.Thread):
    """Asks a window every `every` seconds; `slowest` and `delays` are in seconds. A question that has no answer yet
    counts with the time it has waited."""

    def __init__(self, window, every=0.05):
        super().__init__(daemon=True)
        self.window, self.every = window, every
        self.delays, self.done = [], False
        x = ctypes.CDLL("libX11.so.6")
        x.XOpenDisplay.restype = x.XDefaultRootWindow.restype = x.XInternAtom.restype = ctypes.c_void_p
        x.XOpenDisplay.argtypes = [ctypes.c_char_p]
        x.XDefaultRootWindow.argtypes = x.XPending.argtypes = x.XFlush.argtypes = [ctypes.c_void_p]
        x.XInternAtom.argtypes = [ctypes.c_void_p, ctypes.c_char_p, ctypes.c_int]
        x.XSelectInput.argtypes = [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_long]
        x.XSendEvent.argtypes = [ctypes.c_void_p, ctypes.c_ulong, ctypes.c_int, ctypes.c_long, ctypes.c_void_p]
        x.XNextEvent.argtypes = [ctypes.c_void_p, ctypes.c_void_p]
        self.x, self.display = x, x.XOpenDisplay(None)
        if not self.display:
            raise RuntimeError("no display to ask on; run inside tests/support/with_display.sh")
        self.root = x.XDefaultRootWindow(self.display)
        self.protocols = x.XInternAtom(self.display, b"WM_PROTOCOLS", 0)
        self.ping = x.XInternAtom(self.display, b"_NET_WM_PING", 0)
        x.XSelectInput(self.display, self.root, SUBSTRUCTURE_NOTIFY)

    @property
    def slowest(self):
        return max(self.delays, default=0.0)

    def ask(self, number):
        event = Event()
        event.message.type, event.message.window, event.message.format = CLIENT_MESSAGE, self.window, 32
        event.message.message_type = self.protocols
        event.message.data[0], event.message.data[1], event.message.data[2] = self.ping, number, self.window
        self.x.XSendEvent(self.display, self.window, 0, 0, ctypes.byref(event))
        self.x.XFlush(self.display)

    def answered(self, number):
        event = Event()
        while self.x.XPending(self.display):
            self.x.XNextEvent(self.display, ctypes.byref(event))
            if event.message.type == CLIENT_MESSAGE and event.message.data[0] == self.ping \
                    and event.message.data[1] == number:
                return True
        return False

    def run(self):
        number = 0
        while not self.done:
            number += 1
            asked = time.monotonic()
            self.ask(number)
            while not self.answered(number) and not self.done:
                time.sleep(0.001)
            self.delays.append(time.monotonic() - asked)
            time.sleep(self.every)
