#!/usr/bin/python3
"""Checks of the bench itself: its truths by two ways, its resampling, its scoring.

Ends with 77 (skipped) where numpy or scipy is not installed, 1 where a check fails.
"""
import sys

try:
    import numpy as np
    import scipy  # noqa: F401
except ImportError:
    print("numpy or scipy is not installed: skipped")
    sys.exit(77)

import pairs
import plucks
import singles
from compass import CENTS, draw_plan
from modal_string import ModalString
from sustain_pitch import measured_sustain_pitch, sustain_pitch
from waveguide_string import WaveguideString
from wav_files import stretch

FAILURES = []


def check(name, value, limit):
    good = abs(value) <= limit
    print(f"{'ok  ' if good else 'FAIL'} {name}: {value:+.4f} (limit {limit:g})")
    if not good:
        FAILURES.append(name)


def modal_truth_is_what_its_sound_says():
    for hz in (31.0, 110.0, 440.0, 1500.0):
        rng = np.random.default_rng([3, int(hz)])
        plan = draw_plan(rng, hz)
        pluck = ModalString(plan, rng).pluck(rng, 48000, 2.9)
        exact = sustain_pitch(pluck.tracks(), plan.inharmonicity).hz
        f0 = plan.rest_hz / np.sqrt(1 + plan.inharmonicity)
        heard = measured_sustain_pitch(pluck.samples, 48000, 0.0, f0, plan.inharmonicity)[0].hz
        check(f"modal string at {hz:g} Hz, measured against known, cents", CENTS * np.log(heard / exact), 0.05)


def glide_sharpens_by_what_was_asked():
    """With no second polarisation and a slow decay the beginning is the asked glide above the rest."""
    rng = np.random.default_rng(5)
    plan = draw_plan(rng, 220.0)
    plan.glide_cents, plan.second_db, plan.t60_s = 3.0, -90.0, 60.0
    tracks = ModalString(plan, rng).pluck(rng, 48000, 2.9).tracks()
    early = tracks.t < 0.02
    hz = tracks.reference_hz[0] + np.polyfit(tracks.t[early], np.unwrap(np.angle(tracks.z[early, 0])), 1)[0] / (2 * np.pi)
    check("glide at the pluck, cents off", CENTS * np.log(hz / plan.rest_hz) - 3.0, 0.1)


def waveguide_is_a_stiff_string():
    for hz in (55.0, 330.0, 1200.0):
        rng = np.random.default_rng([4, int(hz)])
        string = WaveguideString(draw_plan(rng, hz), rng)
        check(f"waveguide at {hz:g} Hz, design against the stiff comb, cents", string.misfit_cents, 0.15)
        pluck = string.pluck(rng, 48000, 2.9)
        fit = sustain_pitch(pluck.tracks(), pluck.inharmonicity)
        check(f"waveguide at {hz:g} Hz, sustain against rest, cents", CENTS * np.log(fit.hz / hz), 3.0)


def resampling_is_exact():
    t = np.arange(48000) / 48000
    ratio = 2 ** (137.0 / 1200)
    moved = stretch(np.sin(2 * np.pi * 1000 * t), ratio)
    phase = np.unwrap(np.angle(np.exp(-2j * np.pi * 1000 * ratio * np.arange(len(moved)) / 48000) * analytic(moved)))
    slope_hz = np.polyfit(np.arange(len(moved))[200:-200] / 48000, phase[200:-200], 1)[0] / (2 * np.pi)
    check("resampled sine, cents off", CENTS * slope_hz / (1000 * ratio), 0.001)


def analytic(x):
    from scipy.signal import hilbert

    return hilbert(x)


def scoring_tells_right_from_wrong():
    truth = {"id": "a", "make": "m", "condition": "c", "pitch_hz": 100.0, "truth_u_cents": 0.0, "snr_db": 1, "pluck_s": 0.5}
    row = singles.score_row(truth, {"pitch_hz": 100.0 * 2 ** (5 / 1200), "pitch_hz_u": 0.01, "window_s": 1.0, "status": "ok"})
    check("five cents sharp is read as five cents", row["error_cents"] - 5, 1e-6)
    truth = {"id": "a", "make": "m", "condition": "c", "interval": "fifth", "beat_hz": -0.8, "comb_beat_hz": -0.8, "lower_hz": 1, "coincident_hz": 3, "snr_db": 1}
    row = pairs.score_row(truth, {"beat_hz": 0.8, "beat_hz_u": 0.01, "direction": "wide", "window_s": 2.0})
    check("a narrow fifth called wide is wrong", float(row["direction_right"]), 0)
    check("its rate is right", row["error_hz"], 1e-9)
    check("one pluck heard twice hits once", len(plucks.matched([0.5, 0.6], [0.5005, 0.501])) - 1, 0)


def main():
    for test in (modal_truth_is_what_its_sound_says, glide_sharpens_by_what_was_asked, waveguide_is_a_stiff_string, resampling_is_exact, scoring_tells_right_from_wrong):
        test()
    print(f"{len(FAILURES)} failed")
    return 1 if FAILURES else 0


if __name__ == "__main__":
    sys.exit(main())
