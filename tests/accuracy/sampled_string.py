"""Real notes, moved to other pitches by exact resampling (at most three semitones).

The recordings are not part of the project: their folder is named on the command line, and without it
this generator is left out. Truth: the sustain pitch listed with the recordings, scaled, plus what the
window 0.10 to 2.5 s means on the stretched time axis (measured the same way before and after); its
standard error stays that of the list.
"""
import csv
import os

import numpy as np

from compass import CENTS
from sustain_pitch import measured_sustain_pitch
from wav_files import read_with_sox, stretch

MAKE = "sampled"
MOST_CENTS = 300.0


class Recordings:
    """The listed notes that are there, decoded once."""

    def __init__(self, folder):
        self.folder = folder
        self.notes = []
        with open(os.path.join(folder, "sustain.tsv")) as table:
            for row in csv.DictReader(table, delimiter="\t"):
                path = os.path.join(folder, row["file"].rsplit(".", 1)[0] + ".flac")
                if os.path.exists(path):
                    self.notes.append(RealNote(path, row))

    def releases(self):
        """(path, nominal pitch in Hz) of the recorded key releases."""
        with open(os.path.join(self.folder, "measurements.tsv")) as table:
            for row in csv.DictReader(table, delimiter="\t"):
                path = os.path.join(self.folder, row["file"].rsplit(".", 1)[0] + ".flac")
                if "-rel" in row["file"] and os.path.exists(path):
                    yield path, float(row["f1_Hz"])

    @staticmethod
    def decode(path):
        return read_with_sox(path)

    def near(self, rest_hz, rng):
        """A note within MOST_CENTS of rest_hz, or None."""
        near = [note for note in self.notes if abs(CENTS * np.log(note.hz / rest_hz)) <= MOST_CENTS]
        return near[rng.integers(len(near))] if near else None


class RealNote:
    def __init__(self, path, row):
        self.name = os.path.basename(path)
        self.path = path
        self.hz = float(row["f1_Hz"])
        self.u_cents = float(row["f1_se_cents"])
        self.inharmonicity = float(row["B"])
        self._decoded = None

    def decoded(self):
        """(samples, rate, pluck instant, this module's own measure of the sustain pitch)."""
        if self._decoded is None:
            x, rate = read_with_sox(self.path)
            loud = np.abs(x)
            pluck = np.argmax(loud > 0.1 * loud.max()) / rate
            f0 = self.hz / np.sqrt(1 + self.inharmonicity)
            own, _ = measured_sustain_pitch(x, rate, pluck, f0, self.inharmonicity)
            self._decoded = (x, rate, pluck, own.hz)
        return self._decoded


class SampledString:
    make = MAKE

    def __init__(self, note, rest_hz):
        self.note = note
        self.ratio = rest_hz / note.hz

    def pluck(self, rng, rate_hz, seconds, level_db=0.0):
        return SampledPluck(self, rng, rate_hz, seconds, level_db)


class SampledPluck:
    make = MAKE

    def __init__(self, string, rng, rate_hz, seconds, level_db):
        self.string = string
        self.rate_hz = rate_hz
        x, rate, pluck, own_hz = string.note.decoded()
        x = np.concatenate([np.zeros(200), x, np.zeros(200)])
        moved = stretch(x, string.ratio * rate / rate_hz)
        start = (200 + pluck * rate - 24) / (string.ratio * rate / rate_hz)
        begin = int(round(start))
        moved = moved[max(0, begin - int(0.003 * rate_hz)):]
        self.pluck_lead = min(begin, int(0.003 * rate_hz)) / rate_hz
        end = len(moved) - int(0.002 * rate_hz)
        moved = moved[: min(end, int(seconds * rate_hz))]
        fade = int(0.02 * rate_hz)
        moved[-fade:] *= np.linspace(1, 0, fade)
        self.samples = moved * 10 ** (level_db / 20)
        f0 = string.note.hz * string.ratio / np.sqrt(1 + string.note.inharmonicity)
        clean = self.samples[: len(self.samples) - fade]
        self.own, self._tracks = measured_sustain_pitch(clean, rate_hz, self.pluck_lead, f0, string.note.inharmonicity)
        self.inharmonicity = self.own.inharmonicity
        self.truth_hz = string.note.hz * string.ratio * (self.own.hz / (own_hz * string.ratio))
        # Half of what the stretched window changes counts as doubt: it is mostly a partial that drops out.
        moved_cents = CENTS * np.log(self.own.hz / (own_hz * string.ratio))
        self.truth_u_cents = float(np.hypot(string.note.u_cents, moved_cents / 2))

    def tracks(self):
        return self._tracks
