"""A string as a digital waveguide: two polarisations as delay loops at 96 kHz.

Each loop has a fractional delay (Lagrange, six points), a one-pole loss filter and a cascade of
first-order allpasses for stiffness; a small rotation couples the two at the bridge. Tension modulation
shortens both delays with the energy in the loops. The loop variable is slope, so its mean square is
Σ n²A_n². Nothing about partials is put in: the truth is measured on the clean sound.

Julius O. Smith, Physical Audio Signal Processing (waveguide, loop filters, allpass dispersion), value and
method from memory.
"""
from dataclasses import replace

import numpy as np
from scipy.optimize import least_squares
from scipy.signal import fftconvolve, lfilter, resample_poly, sosfilt

from compass import CENTS, ratio
from sustain_pitch import measured_sustain_pitch

MAKE = "waveguide"
LOOP_HZ = 96000
POINTS = 6
HIGHEST_REST_HZ = 1500.0
WORST_MISFIT_CENTS = 0.15


def phase_delay(hz, pole, a, stages):
    """Samples of delay of loss filter and allpass cascade at frequency hz."""
    w = 2 * np.pi * hz / LOOP_HZ
    z1 = np.exp(-1j * w)
    loss = -np.angle((1 - pole) / (1 - pole * z1)) / w
    dispersion = -np.unwrap(np.angle((a + z1) / (1 + a * z1))) / w
    return loss + stages * dispersion


class WaveguideString:
    make = MAKE

    def __init__(self, plan, rng, body_seed=None):
        self.plan = plan
        plan.inharmonicity = self.feasible_inharmonicity(plan)
        self._design(plan)
        if plan.coherent_split:
            split = plan.split_cents
            mixing = 10 ** (plan.second_db / 20)
        else:
            split = rng.uniform(0.3, 1.2) * rng.choice([-1, 1])
            mixing = 10 ** (rng.uniform(-18, -5) / 20)
        self.delay = np.array([self.loop_samples, self.loop_samples / ratio(split)])
        self.second_level = mixing
        self.gain = 10 ** (-3 / (plan.rest_hz * plan.t60_s * np.array([0.85, rng.uniform(1.1, 2.0)])))
        self.coupling = rng.uniform(0.0002, 0.0015)
        body = np.random.default_rng(rng.integers(2**31) if body_seed is None else body_seed)
        t = np.arange(int(0.008 * LOOP_HZ)) / LOOP_HZ
        ring = body.normal(0, 1, len(t)) * np.exp(-t / 0.0012)
        ring = lfilter([1 - 0.75], [1, -0.75], ring)
        ring[0] += 1.5
        self.body = ring
        self.high_pass_hz = body.uniform(60, 140)
        self.phase_seed = rng.integers(2**31)

    @classmethod
    def feasible_inharmonicity(cls, plan):
        """The plan's own, or the greatest below it that the allpasses can imitate."""
        trial = cls.__new__(cls)
        trial._design(plan)
        while trial.misfit_cents > WORST_MISFIT_CENTS:
            plan = replace(plan, inharmonicity=0.8 * plan.inharmonicity)
            trial._design(plan)
        return plan.inharmonicity

    def _design(self, plan):
        """Allpass coefficient and stages so that partials lie near n·f0·√(1+B·n²) up to 6 kHz."""
        b, f0 = plan.inharmonicity, plan.rest_hz / np.sqrt(1 + plan.inharmonicity)
        self.pole = self._loss_pole(plan)
        n = np.arange(1, int(np.clip(6000 / plan.rest_hz, 3, 60)) + 1)
        hz = n * f0 * np.sqrt(1 + b * n**2)
        wanted = n * LOOP_HZ / hz
        best = None
        for stages in (2, 4, 8, 16, 32, 64, 128):

            def miss(p):
                have = p[0] + phase_delay(hz, self.pole, np.tanh(p[1]), stages)
                return (have - wanted) / wanted * CENTS / n**0.3

            fit = least_squares(miss, [wanted[0] * 0.8, -0.4])
            enough = fit.x[0] > max(POINTS + 6, 0.55 * wanted[0])
            if enough and (best is None or fit.cost < 0.9 * best[0]):
                best = (fit.cost, stages, np.tanh(fit.x[1]), fit.x[0])
        self.misfit_cents = float(np.sqrt(2 * best[0] / len(n)))
        _, self.stages, self.a, self.loop_samples = best

    @staticmethod
    def _loss_pole(plan):
        """Pole that makes a partial at 2 to 4 kHz decay as much faster than the first as in real strings."""
        high_hz = float(np.clip(4 * plan.rest_hz, 2000, 5000))
        sigma = 6.91 / plan.t60_s
        extra = sigma * (0.04 * (high_hz / plan.rest_hz - 1) + (high_hz / 5000) ** 1.6) / plan.rest_hz
        w = 2 * np.pi * high_hz / LOOP_HZ
        q = 2 * extra / w**2  # p/(1−p)²
        return float((2 * q + 1 - np.sqrt(4 * q + 1)) / (2 * q))

    def pluck(self, rng, rate_hz, seconds, level_db=0.0, released_s=None, damper_t60_s=None):
        return WaveguidePluck(self, rng, rate_hz, seconds, level_db, released_s, damper_t60_s)


class WaveguidePluck:
    make = MAKE

    def __init__(self, string, rng, rate_hz, seconds, level_db, released_s, damper_t60_s):
        self.string = string
        self.rate_hz = rate_hz
        loop = self._run(string, rng, seconds + 0.02, level_db, released_s, damper_t60_s)
        pole = np.exp(-2 * np.pi * string.high_pass_hz / LOOP_HZ)
        force = lfilter([1, -1], [1, -pole], loop)
        force = fftconvolve(force, string.body)[: len(force)]
        rise = int(0.0003 * LOOP_HZ)
        force[:rise] *= np.linspace(0, 1, rise)
        if rate_hz == LOOP_HZ:
            self.samples = force
        elif LOOP_HZ % rate_hz == 0:
            self.samples = resample_poly(force, 1, LOOP_HZ // rate_hz)
        else:
            self.samples = resample_poly(force, 147, 320)
        self.samples = self.samples[: int(seconds * rate_hz)]
        self._truth = None

    def _run(self, string, rng, seconds, level_db, released_s, damper_t60_s):
        plan = string.plan
        total = int(seconds * LOOP_HZ)
        extra = phase_delay(np.array([plan.rest_hz]), string.pole, string.a, string.stages)[0]
        period = int(round(string.loop_samples + extra))
        margin = period + POINTS + 4
        history = np.zeros((2, total + margin + 8))
        start = margin
        point = plan.pluck_point * np.exp(rng.normal(0, 0.01))
        # All of the string is in the delay at first; the filters are at rest.
        held = int(string.delay.min()) - 1
        shape = np.zeros(held)
        shape[: int(np.clip(round(point * period), 2, held - 2))] = 1.0
        shape -= shape.mean()
        width = max(3, int(LOOP_HZ / plan.plectrum_hz * 0.8))
        kernel = np.hanning(width + 2)[1:-1]
        shape = np.fft.irfft(np.fft.rfft(shape) * np.fft.rfft(kernel / kernel.sum(), held), held)
        gain = 10 ** (level_db / 20)
        shape = np.concatenate([np.zeros(period - held), shape])
        shape *= gain / np.sqrt(np.mean(shape**2))
        mix = string.second_level * np.exp(rng.normal(0, 0.15))
        history[0, start - period : start] = shape
        history[1, start - period : start] = shape * mix
        energy0 = np.mean(shape**2) * (1 + mix**2) / gain**2
        glide = ratio(plan.glide_cents) - 1
        shortest = string.delay.min() - 2 * glide * gain**2 * (string.delay.min() + extra)
        least = int(np.floor(shortest)) - POINTS // 2 - 2
        block = max(4, min(least, 4000))
        sections = self._loop_filter(string)
        state = np.zeros((len(sections), 2, 2))
        position = start
        out = np.zeros(total)
        old_scale = 1 / (1 + glide * gain**2)
        cos, sin = np.cos(string.coupling), np.sin(string.coupling)
        lagrange = self._lagrange_table()
        k = np.arange(block)
        running = string.gain[:, None].copy()
        damped = None
        if released_s is not None:
            damped = 10 ** (-3 / (plan.rest_hz * damper_t60_s))
        while position < start + total:
            count = min(block, start + total - position)
            recent = history[:, position - period : position]
            s = np.mean(recent[0] ** 2) + np.mean(recent[1] ** 2)
            new_scale = 1 / (1 + glide * s / energy0)
            scale = old_scale + (new_scale - old_scale) * (k[:count] + 1) / count
            old_scale = new_scale
            # The whole period scales with tension, the filters' part included.
            period_now = (string.delay + extra)[:, None] * scale[None] - extra
            read = position + k[None, :count] - period_now
            whole = np.floor(read).astype(int)
            part = np.round((read - whole) * 4096).astype(int)
            y = np.zeros((2, count))
            for j in range(POINTS):
                index = whole + j - (POINTS // 2 - 1)
                weight = lagrange[part, j]
                y[0] += weight[0] * history[0, index[0]]
                y[1] += weight[1] * history[1, index[1]]
            # Heard before the filters: the allpasses hold up to half a period of plain delay.
            out[position - start : position - start + count] = y[0] + 0.9 * y[1]
            y, state = sosfilt(sections, y, axis=1, zi=state)
            g = running
            if damped is not None:
                late = (position - start + k[:count]) / LOOP_HZ - released_s
                g = running * damped ** np.clip(late / 0.006, 0, 1)[None]
            y = y * g
            history[0, position : position + count] = cos * y[0] + sin * y[1]
            history[1, position : position + count] = cos * y[1] - sin * y[0]
            position += count
        return out

    @staticmethod
    def _loop_filter(string):
        """Second-order sections: the loss filter, then allpasses in pairs."""
        a = string.a
        loss = [[1 - string.pole, 0, 0, 1, -string.pole, 0]]
        return np.array(loss + [[a * a, 2 * a, 1, 1, 2 * a, a * a]] * (string.stages // 2))

    @staticmethod
    def _lagrange_table(size=4096):
        d = np.arange(size + 1)[:, None] / size + (POINTS // 2 - 1)
        table = np.ones((size + 1, POINTS))
        for j in range(POINTS):
            for m in range(POINTS):
                if m != j:
                    table[:, j : j + 1] *= (d - m) / (j - m)
        return table

    def _measure(self):
        if self._truth is None:
            plan = self.string.plan
            f0 = plan.rest_hz / np.sqrt(1 + plan.inharmonicity)
            self._truth = measured_sustain_pitch(self.samples, self.rate_hz, 0.0, f0, plan.inharmonicity)
        return self._truth

    def tracks(self):
        return self._measure()[1]

    inharmonicity = property(lambda self: self._measure()[0].inharmonicity)
