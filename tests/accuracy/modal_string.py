"""A stiff string as a sum of decaying partials, each of two polarisations.

Partial n of one polarisation is c·exp(−σt)·exp(j2π f_n·(t + g∫S)), S the energy of the string's motion,
Σ n²A_n² over displacement amplitudes, normalised to 1 at the pluck: tension modulation. The partials are
known exactly, so the truth needs no measurement of sound.
"""
import numpy as np

from compass import CENTS, ratio
from sustain_pitch import HIGHEST_HZ, MOST_PARTIALS, TRACKED_S, PartialTracks

MAKE = "modal"


class ModalString:
    """One string: what is fixed about it. `pluck` makes one sound of it."""

    make = MAKE

    def __init__(self, plan, rng, body_seed=None):
        self.plan = plan
        most = int(np.clip(9000 / plan.rest_hz, 3, 110))
        n = np.arange(1, most + 1, dtype=float)
        self.n = n
        b = plan.inharmonicity
        f0 = plan.rest_hz / np.sqrt(1 + b)
        self.hz = n * f0 * np.sqrt(1 + b * n**2)
        if plan.coherent_split:
            split = plan.split_cents * np.ones(most) + rng.normal(0, 0.1, most)
            second_db = plan.second_db + rng.normal(0, 2, most)
        else:
            split = plan.split_cents * rng.uniform(0.3, 1.3, most) * rng.choice([-1, 1], most)
            second_db = plan.second_db + rng.normal(0, 6, most)
        self.second_hz = self.hz * ratio(split)
        self.second = 10 ** (np.minimum(second_db, 0.0) / 20)
        sigma = 6.91 / plan.t60_s * (1 + 0.04 * (n - 1) + (self.hz / 5000) ** 1.6)
        self.sigma = sigma * np.exp(rng.normal(0, 0.3, most)) * 1.15
        self.second_sigma = self.sigma * rng.uniform(0.35, 0.95)
        body = np.random.default_rng(rng.integers(2**31) if body_seed is None else body_seed)
        knots = np.exp(np.linspace(np.log(20), np.log(12000), 60))
        response = np.interp(np.log(self.hz), np.log(knots), body.normal(0, 5, 60))
        weak_bass = -10 * np.log10(1 + (body.uniform(60, 150) / self.hz) ** 3)
        self.body = 10 ** ((response + weak_bass) / 20)
        self.phase = rng.normal(0, 0.7, most)

    def shape(self, point):
        """Displacement amplitudes of a string plucked at `point` by a plectrum of finite width."""
        return np.sin(self.n * np.pi * point) / self.n**2 * np.exp(-(self.hz / self.plan.plectrum_hz) ** 1.0)

    def pluck(self, rng, rate_hz, seconds, level_db=0.0, released_s=None, damper_t60_s=None):
        return ModalPluck(self, rng, rate_hz, seconds, level_db, released_s, damper_t60_s)


class ModalPluck:
    make = MAKE

    def __init__(self, string, rng, rate_hz, seconds, level_db, released_s, damper_t60_s):
        self.string = string
        self.seconds = seconds
        plan = string.plan
        displacement = string.shape(plan.pluck_point * np.exp(rng.normal(0, 0.01)))
        polar = np.exp(rng.normal(0, 0.15))
        gain = 10 ** (level_db / 20)
        radiated = gain * displacement * string.n * string.body
        turn = np.exp(1j * (string.phase - np.pi / 2))
        first = radiated * turn
        second = radiated * string.second * polar * turn * np.exp(1j * rng.normal(0, 0.8, len(string.n)))
        self.amplitude = np.concatenate([first, second])
        self.hz = np.concatenate([string.hz, string.second_hz])
        self.sigma = np.concatenate([string.sigma, string.second_sigma])
        energy = (string.n * displacement) ** 2
        self.energy = np.concatenate([energy, energy * (string.second * polar) ** 2])
        # Energy of motion goes with the square of the amplitude of the pluck, and so does the glide.
        self.glide = (ratio(plan.glide_cents) - 1) * gain**2
        self.damper = (released_s, damper_t60_s)
        self.samples = self._render(rate_hz)
        self.rate_hz = rate_hz

    def _lost(self, t):
        """Extra decay exponent of a damper, growing over 6 ms from the moment it takes hold."""
        released_s, t60_s = self.damper
        if released_s is None:
            return np.zeros(len(t)), np.zeros(len(t))
        late = np.maximum(0, t - released_s)
        grip = 0.006
        held = np.where(late < grip, late**2 / (2 * grip), late - grip / 2)
        return 6.91 / t60_s * held, late

    def _warp(self, t):
        """∫S dt and S at instants t (uniform, starting at 0)."""
        decay = np.exp(-2 * self.sigma[None] * t[:, None]) * np.exp(-2 * self._lost(t)[0])[:, None]
        s = decay @ self.energy / self.energy.sum()
        integral = np.concatenate([[0], np.cumsum((s[1:] + s[:-1]) / 2 * np.diff(t))])
        return integral, s

    def envelopes(self, t):
        """Complex amplitude of each line (first polarisation, then second) at instants t."""
        grid = np.linspace(0, max(t[-1], 1e-3), 3000)
        integral = np.interp(t, grid, self._warp(grid)[0])
        warped = t + self.glide * integral
        exponent = -self.sigma[None] * t[:, None] - self._lost(t)[0][:, None]
        return self.amplitude * np.exp(exponent), warped

    def _render(self, rate_hz):
        """Blocks of 32 samples: exact at their middle, second-order in the glide inside."""
        block = 32
        usable = self.hz < 0.45 * rate_hz
        count = int(self.seconds * rate_hz) // block + 1
        middle = (np.arange(count) * block + block / 2) / rate_hz
        envelope, warped = self.envelopes(middle)
        hz = self.hz[usable]
        z = envelope[:, usable] * np.exp(2j * np.pi * hz[None] * warped[:, None])
        grid = np.linspace(0, self.seconds, 3000)
        epsilon = self.glide * np.interp(middle, grid, self._warp(grid)[1])
        k = (np.arange(block) - block / 2) / rate_hz
        w = np.exp(2j * np.pi * hz[:, None] * k[None] - self.sigma[usable][:, None] * k[None])
        x = np.zeros((count, block))
        for order in range(3):
            factor = 1.0 if order == 0 else 1.0 / order
            if order:
                w = w * (2j * np.pi * hz[:, None] * k[None]) * factor
            x += epsilon[:, None] ** order * (z.real @ w.real - z.imag @ w.imag)
        x = x.reshape(-1)[: int(self.seconds * rate_hz)]
        rise = int(0.0006 * rate_hz)
        x[:rise] *= 0.5 - 0.5 * np.cos(np.pi * np.arange(rise) / rise)
        return x

    def tracks(self, step_s=0.004):
        m = len(self.string.n)
        t = np.arange(0, min(TRACKED_S, self.seconds) + step_s / 2, step_s)
        envelope, warped = self.envelopes(t)
        wanted = (self.string.hz < HIGHEST_HZ) & (self.string.n <= MOST_PARTIALS)
        reference = self.string.hz
        z = envelope * np.exp(2j * np.pi * (self.hz[None] * warped[:, None] - np.tile(reference, 2)[None] * t[:, None]))
        z = z[:, :m] + z[:, m:]
        return PartialTracks(self.string.n[wanted], reference[wanted], t, z[:, wanted])

    inharmonicity = property(lambda self: self.string.plan.inharmonicity)
