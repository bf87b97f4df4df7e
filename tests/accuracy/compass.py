"""Random but plausible strings over the compass: stiffness, decay, pluck point, glide.

Ranges follow measured notes of an Italian 8' (B from 8e-6 in the tenor to 4e-4 at the top, fundamentals
of the bass weaker than partials 2 to 8, glide at the pluck 0.3 to 5 cents, partials split by 0.3 to
2 cents) and computed French-type stringing; decay times 12 s at 40 Hz to 0.8 s at 2.8 kHz, common
practice, no source.
"""
from dataclasses import dataclass

import numpy as np

CENTS = 1200.0 / np.log(2.0)
LOWEST_HZ = 20.6
HIGHEST_HZ = 2800.0


def ratio(cents):
    return np.exp(np.asarray(cents) / CENTS)


@dataclass
class StringPlan:
    """What a generator is asked to make."""

    rest_hz: float  # f0·√(1+B) of the string at rest
    inharmonicity: float
    t60_s: float  # of the first partial
    pluck_point: float  # fraction of the length
    glide_cents: float  # how much sharper it starts than it rests
    split_cents: float  # typical splitting of a partial by its two polarisations
    second_db: float  # level of the second polarisation against the first
    plectrum_hz: float  # corner of the plectrum's smoothing
    coherent_split: bool = False  # a strong false beat: every partial split by the same amount


def log_interpolated(hz, points):
    return float(np.exp(np.interp(np.log(hz), np.log([p[0] for p in points]), np.log([p[1] for p in points]))))


ITALIAN = [(20, 3e-5), (46, 1.4e-5), (70, 1.2e-5), (104, 1.45e-5), (207, 4.3e-5), (415, 1.3e-4), (930, 4e-4), (2800, 1.1e-3)]
FRENCH = [(20, 6e-5), (44, 4.4e-5), (65, 1.9e-5), (131, 9.1e-6), (262, 2.1e-5), (523, 5.7e-5), (1046, 1.7e-4), (2800, 6e-4)]


@dataclass
class Stringing:
    """How one instrument is strung: its strings are alike in stiffness, instruments are not."""

    line: list
    factor: float


def draw_stringing(rng):
    return Stringing(ITALIAN if rng.random() < 0.5 else FRENCH, float(np.exp(rng.normal(0, 0.22))))


def draw_plan(rng, rest_hz, false_beat=False, stringing=None):
    stringing = stringing or draw_stringing(rng)
    b = log_interpolated(rest_hz, stringing.line) * stringing.factor * np.exp(rng.normal(0, 0.1))
    t60 = log_interpolated(rest_hz, [(20, 14), (40, 12), (1400, 1.6), (2800, 0.9)]) * np.exp(rng.normal(0, 0.25))
    point = log_interpolated(rest_hz, [(20, 0.09), (80, 0.13), (350, 0.22), (1400, 0.38), (2800, 0.42)])
    point = float(np.clip(point * np.exp(rng.normal(0, 0.2)), 0.05, 0.48))
    glide = float(np.clip(1.0 * np.exp(rng.normal(0, 0.75)), 0.3, 5.0))
    if false_beat:
        split = float(min(rng.uniform(0.7, 3.5), 2.5 / rest_hz * CENTS)) * rng.choice([-1, 1])
        second = rng.uniform(-8, -2)
    else:
        split = rng.uniform(0.3, 2.0)
        second = rng.uniform(-22, -6)
    return StringPlan(rest_hz, b, t60, point, glide, split, second, rng.uniform(3000, 9000), false_beat)
