"""WAV in and out, other formats through SoX, exact resampling."""
import subprocess

import numpy as np
from scipy.io import wavfile


def write_wav(path, samples, rate_hz, bits=16):
    """Mono file; `bits` is 16 (PCM) or 32 (float). Full scale is 1."""
    if bits == 32:
        wavfile.write(path, int(rate_hz), samples.astype(np.float32))
        return
    wavfile.write(path, int(rate_hz), np.round(np.clip(samples, -1, 32767 / 32768) * 32768).astype(np.int16))


def read_with_sox(path):
    """Any format SoX can read, as (samples in ±1, rate in Hz), first channel."""
    rate_hz = int(subprocess.run(["sox", "--i", "-r", path], check=True, capture_output=True, text=True).stdout)
    raw = subprocess.run(
        ["sox", path, "-t", "f64", "-L", "-c", "1", "-"], check=True, capture_output=True
    ).stdout
    return np.frombuffer(raw, "<f8").copy(), rate_hz


def stretch(samples, ratio, taps=48, table=2048):
    """Read `samples` at `ratio` samples a step: every frequency becomes `ratio` times as high.

    Windowed-sinc interpolation (Kaiser 9), the cut-off lowered when frequencies go up, so that the
    ratio is exact to double precision.
    """
    count = int((len(samples) - taps) / ratio)
    position = np.arange(count) * ratio + taps / 2
    cut = min(1.0, 1.0 / ratio) * 0.97
    k = np.arange(-taps // 2 + 1, taps // 2 + 1)
    fraction = np.arange(table + 1) / table
    d = k[None] - fraction[:, None]
    kernel = cut * np.sinc(cut * d) * np.i0(9 * np.sqrt(np.maximum(0, 1 - (d / (taps / 2)) ** 2))) / np.i0(9)
    whole = np.floor(position).astype(int)
    where = (position - whole) * table
    row = np.floor(where).astype(int)
    part = where - row
    out = np.zeros(count)
    for j, offset in enumerate(k):
        out += (kernel[row, j] * (1 - part) + kernel[row + 1, j] * part) * samples[whole + offset]
    return out
