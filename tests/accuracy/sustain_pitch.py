"""The sustain pitch by its definition, measured on a clean string heard alone.

Definition (the program's command-line contract): f0·√(1+B) of the stiff comb n·f0·√(1+B·n²), fitted,
weighted by certainty, to each partial's mean frequency: the least-squares slope of its phase from
0.10 s after the pluck to 2.5 s or until that partial has fallen 40 dB.

A string is described by `PartialTracks`: one complex amplitude per partial and instant. A generator
that knows its partials hands them over exactly; otherwise `heterodyne_tracks` measures them.
"""
from dataclasses import dataclass

import numpy as np

START_S = 0.10
END_S = 2.5
TRACKED_S = 2.7  # a later string's window ends later on this one's time
FALL_DB = 40.0
# Certainty of one partial's mean frequency: a noise floor this far below the strongest partial (real notes
# have 40 to 60 dB) and a scatter of partials by their two polarisations. Of the weights tried, these come
# closest to the published sustain pitches of 23 real notes (median 0.07 cent, see README.md).
NOTIONAL_NOISE_DB = -50.0
SCATTER_CENTS = 0.05
SCATTER_HZ = 0.05
HIGHEST_HZ = 6000.0
MOST_PARTIALS = 40
CENTS = 1200.0 / np.log(2.0)


@dataclass
class PartialTracks:
    """z[i, j]: complex amplitude of partial n[j] at t[i] seconds after the pluck, relative to reference_hz[j]."""

    n: np.ndarray
    reference_hz: np.ndarray
    t: np.ndarray
    z: np.ndarray


@dataclass
class MeanFrequencies:
    n: np.ndarray
    hz: np.ndarray
    sd_hz: np.ndarray
    level_db: np.ndarray


@dataclass
class SustainPitch:
    hz: float
    u_cents: float  # standard error of the comb fit, from the scatter of the partials about it
    f0_hz: float
    inharmonicity: float
    partials: MeanFrequencies


def comb_hz(n, f0_hz, inharmonicity):
    return n * f0_hz * np.sqrt(1 + inharmonicity * n**2)


def heterodyne_tracks(samples, rate_hz, pluck_s, f0_hz, inharmonicity, periods=4.0):
    """Measure the partials of a clean string: Hann frames of `periods` periods (at least 20 ms)."""
    n = np.arange(1, MOST_PARTIALS + 1)
    hz = comb_hz(n, f0_hz, inharmonicity)
    n, hz = n[hz < min(HIGHEST_HZ, 0.45 * rate_hz)], hz[hz < min(HIGHEST_HZ, 0.45 * rate_hz)]
    length = int(max(periods / f0_hz, 0.02) * rate_hz)
    hop = max(1, length // 4)
    window = np.hanning(length + 2)[1:-1]
    window = 2 * window / window.sum()
    first = max(0, int((pluck_s + START_S) * rate_hz) - length // 2)
    last = min(len(samples), int((pluck_s + TRACKED_S) * rate_hz) + length // 2) - length
    starts = np.arange(first, last, hop)
    frames = np.lib.stride_tricks.sliding_window_view(samples, length)[starts]
    k = np.arange(length) - (length - 1) / 2
    z = frames @ (window[:, None] * np.exp(-2j * np.pi * k[:, None] / rate_hz * hz[None]))
    t = (starts + (length - 1) / 2) / rate_hz - pluck_s
    return PartialTracks(n, hz, t, z * np.exp(-2j * np.pi * t[:, None] * hz[None]))


def smoothed(power, t):
    """Power over the next 0.1 s, so that the trough of a beat is not taken for the end."""
    width = max(1, int(round(0.1 / (t[1] - t[0]))))
    padded = np.pad(power, (0, width - 1), mode="edge")
    return np.convolve(padded, np.ones(width) / width, "valid")


def phase_slope_hz(t, z):
    """Least-squares slope of the phase of z in Hz, and Σ(t−mean)² in s²."""
    centred = t - t.mean()
    spread = centred @ centred
    return centred @ np.unwrap(np.angle(z)) / spread / (2 * np.pi), spread


def sounding_count(power, t, least):
    """How many samples until the partial has fallen FALL_DB or below `least`."""
    envelope = smoothed(power, t)
    fallen = np.nonzero(envelope < max(envelope[0] * 10 ** (-FALL_DB / 10), least))[0]
    return fallen[0] if len(fallen) else len(t)


def mean_frequencies(tracks, start_s=START_S, end_s=END_S):
    """Least-squares slope of each partial's phase, and how certain it is."""
    inside = (tracks.t >= start_s - 1e-9) & (tracks.t <= end_s + 1e-9)
    t, z = tracks.t[inside], tracks.z[inside]
    power = np.abs(z) ** 2
    loudest = power[: max(1, len(t) // 4)].mean(0).max()
    noise = loudest * 10 ** (NOTIONAL_NOISE_DB / 10)
    kept, hz, sd, level = [], [], [], []
    for j in range(len(tracks.n)):
        count = sounding_count(power[:, j], t, noise)
        if count < 5 or t[count - 1] - t[0] < 0.1:
            continue
        slope, spread = phase_slope_hz(t[:count], z[:count, j])
        mean_power = 1 / np.mean(1 / np.maximum(power[:count, j], noise))
        variance = noise / mean_power / 2 / spread / (2 * np.pi) ** 2
        hz_j = tracks.reference_hz[j] + slope
        kept.append(tracks.n[j])
        hz.append(hz_j)
        sd.append(np.sqrt(variance + SCATTER_HZ**2 + (hz_j * SCATTER_CENTS / CENTS) ** 2))
        level.append(10 * np.log10(power[: max(1, count // 4), j].mean() / loudest))
    return MeanFrequencies(np.array(kept, float), np.array(hz), np.array(sd), np.array(level))


def fit_stiff_comb(n, hz, sd_hz, inharmonicity_guess, steps=20):
    """Weighted Gauss-Newton fit of f0 and ln B, Tukey weights beyond four times the spread.

    Returns f0, B, standard error of f0·√(1+B) in cents.
    """
    b = max(inharmonicity_guess, 1e-7)
    f0 = np.median(hz / (n * np.sqrt(1 + b * n**2)))
    prior_sd = 1.0  # ln B; keeps two-partial strings determined
    for step in range(steps):
        root = np.sqrt(1 + b * n**2)
        residual = (hz - n * f0 * root) / sd_hz
        jac = np.stack([n * root, n * f0 * 0.5 * n**2 / root * b], 1) / sd_hz[:, None]
        spread = max(1.0, 1.4826 * np.median(np.abs(residual)))
        u = np.abs(residual) / (4 * spread)
        w = 1 / (1 + u) if step < 3 else np.where(u < 1, (1 - u**2) ** 2, 0.0)
        normal = jac.T @ (w[:, None] * jac) + np.diag([0, 1 / prior_sd**2])
        gradient = jac.T @ (w * residual) + np.array([0, -np.log(b / inharmonicity_guess) / prior_sd**2])
        df, dlnb = np.linalg.solve(normal, gradient)
        f0, b = f0 + df, b * np.exp(np.clip(dlnb, -0.7, 0.7))
    effective = max(1.0, w.sum() - 2)
    scale = np.sqrt((w * residual**2).sum() / effective)
    root = np.sqrt(1 + b)
    gradient = np.array([root, 0.5 * f0 / root * b])
    se = np.sqrt(gradient @ np.linalg.inv(normal) @ gradient) * scale
    return f0, b, se / (f0 * root) * CENTS


def sustain_pitch(tracks, inharmonicity_guess):
    means = mean_frequencies(tracks)
    f0, b, se = fit_stiff_comb(means.n, means.hz, means.sd_hz, inharmonicity_guess)
    return SustainPitch(f0 * np.sqrt(1 + b), se, f0, b, means)


def measured_sustain_pitch(samples, rate_hz, pluck_s, f0_hz, inharmonicity, passes=2):
    """Sustain pitch of a clean recording of one string, by heterodyning at the comb fitted before."""
    for _ in range(passes):
        tracks = heterodyne_tracks(samples, rate_hz, pluck_s, f0_hz, inharmonicity)
        result = sustain_pitch(tracks, inharmonicity)
        f0_hz, inharmonicity = result.f0_hz, result.inharmonicity
    return result, tracks
