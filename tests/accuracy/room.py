"""What a room and a microphone add to a clean string."""
import numpy as np
from scipy.signal import fftconvolve, lfilter


def loudness(samples, rate_hz, start_s):
    """RMS of the first second from start_s."""
    part = samples[int(start_s * rate_hz) : int((start_s + 1.0) * rate_hz)]
    return float(np.sqrt(np.mean(part**2)))


def coloured_noise(rng, count, slope):
    """Unit-RMS noise with power ∝ 1/f^slope above 20 Hz (0 white, 1 pink)."""
    size = 1 << int(np.ceil(np.log2(count)))
    spectrum = np.fft.rfft(rng.normal(size=size))
    f = np.maximum(np.arange(len(spectrum)) / size * 48000, 20)
    x = np.fft.irfft(spectrum / f ** (slope / 2), size)[:count]
    return x / np.sqrt(np.mean(x**2))


def hum(rng, count, rate_hz, mains_hz):
    """Unit-RMS mains hum with harmonics; the mains is off by up to 0.1 %."""
    t = np.arange(count) / rate_hz
    f = mains_hz * (1 + rng.uniform(-0.001, 0.001))
    x = np.zeros(count)
    for k in range(1, 13):
        level = rng.uniform(-3, 0) if k <= 2 else -6 * np.log2(k) + rng.normal(0, 5)
        x += 10 ** (level / 20) * np.cos(2 * np.pi * (k * f * t + rng.random()))
    return x / np.sqrt(np.mean(x**2))


def rumble(rng, count, rate_hz):
    """Unit-RMS noise below about 40 Hz: traffic, air conditioning."""
    pole = np.exp(-2 * np.pi * rng.uniform(15, 40) / rate_hz)
    x = lfilter([1 - pole], [1, -pole], lfilter([1 - pole], [1, -pole], rng.normal(size=count)))
    return x / np.sqrt(np.mean(x**2))


def knock(rng, rate_hz):
    """A short wooden blow of unit peak."""
    t = np.arange(int(0.25 * rate_hz)) / rate_hz
    x = np.zeros(len(t))
    for _ in range(5):
        x += rng.uniform(0.3, 1) * np.exp(-t / rng.uniform(0.01, 0.05)) * np.sin(2 * np.pi * rng.uniform(60, 900) * t)
    x += 0.3 * rng.normal(size=len(t)) * np.exp(-t / 0.004)
    return x / np.abs(x).max()


def jack_noise(rng, rate_hz):
    """Plectrum and jack: unit-peak burst, the pluck 10 to 30 ms after its beginning."""
    before = int(rng.uniform(0.01, 0.03) * rate_hz)
    t = np.arange(int(0.06 * rate_hz)) / rate_hz
    touch = rng.normal(size=len(t)) * np.exp(-t / 0.003) * 0.2
    snap = rng.normal(size=len(t)) * np.exp(-t / rng.uniform(0.002, 0.008))
    x = np.zeros(before + len(t))
    x[: len(t)] += touch
    x[before:] += snap
    pole = np.exp(-2 * np.pi * rng.uniform(1500, 5000) / rate_hz)
    x = lfilter([1 - pole], [1, -pole], x)
    return x / np.abs(x).max(), before


def impulse_response(rng, rate_hz, t60_s, direct_db):
    """Direct sound and an exponentially fading diffuse tail; direct_db: direct over tail energy."""
    count = int(min(1.2 * t60_s, 2.0) * rate_hz)
    t = np.arange(count) / rate_hz
    tail = rng.normal(size=count) * np.exp(-6.91 * t / t60_s)
    pole = np.exp(-2 * np.pi * rng.uniform(2500, 7000) / rate_hz)
    tail = lfilter([1 - pole], [1, -pole], tail)
    tail[: int(rng.uniform(0.002, 0.012) * rate_hz)] = 0
    tail *= 10 ** (-direct_db / 20) / np.sqrt(np.sum(tail**2))
    tail[0] = 1.0
    return tail


def reverberate(samples, response):
    return fftconvolve(samples, response)[: len(samples)]


def automatic_gain(samples, rate_hz, rng):
    """A recorder's level control: quick down, slow up, at most 24 dB."""
    step = int(0.005 * rate_hz)
    count = len(samples) // step
    level = np.sqrt(np.mean(samples[: count * step].reshape(count, step) ** 2, 1)) + 1e-9
    release = rng.uniform(0.3, 1.5)
    target = level.max() * rng.uniform(0.3, 0.8)
    gain_db, track = 0.0, np.zeros(count)
    for i in range(count):
        wish = np.clip(20 * np.log10(target / level[i]), -12, 12)
        speed = 0.005 / (0.02 if wish < gain_db else release)
        gain_db += (wish - gain_db) * min(1, speed)
        track[i] = gain_db
    db = np.interp(np.arange(len(samples)), (np.arange(count) + 0.5) * step, track)
    return samples * 10 ** (db / 20)


def place(target, samples, at_s, rate_hz, gain=1.0):
    """Add `samples` into `target` from at_s on (rounded to a sample); returns the exact instant used."""
    start = int(round(at_s * rate_hz))
    end = min(len(target), start + len(samples))
    skip = max(0, -start)
    target[max(0, start) : end] += gain * samples[skip : end - start]
    return start / rate_hz
