"""A key let go: when the damper takes hold and how soon the string stops, dry and in a room."""
import os

import numpy as np

import room
from compass import draw_plan, log_interpolated
from modal_string import ModalString
from singles import Case
from waveguide_string import HIGHEST_REST_HZ, WaveguideString

KIND = "damping"
COUNT = 60
LOWEST_HZ = 43.0
HIGHEST_HZ = 1400.0
STOP_DB = 40.0


def build(seed, hardness, recordings, index, count):
    """Case `index` of `count`, spread evenly over the compass."""
    places = np.random.default_rng([seed, 31]).permutation(count)
    rng = np.random.default_rng([seed, {"normal": 32, "hard": 33}[hardness], index])
    hz = LOWEST_HZ * (HIGHEST_HZ / LOWEST_HZ) ** ((places[index] + rng.random()) / count)
    return build_one(rng, f"damping-{hardness}-{seed}-{index:03d}", index, hz, hardness)


def level_db(x, rate_hz, hz):
    """Smoothed level over time: Hann window of 30 ms or three periods."""
    width = int(max(0.03, 3 / hz) * rate_hz)
    window = np.hanning(width + 2)[1:-1]
    power = np.fft.irfft(np.fft.rfft(x**2, 2 * len(x)) * np.fft.rfft(window / window.sum(), 2 * len(x)))
    return 10 * np.log10(np.maximum(power[width // 2 : width // 2 + len(x)], 1e-14))


def fall(x, rate_hz, hz, release_s):
    """(stop time, decay time) of the noiseless sound: 40 dB below the level at release; the slope from −5 to −25 dB by backward integration."""
    level = level_db(x, rate_hz, hz)
    at = int(release_s * rate_hz)
    before = level[at - int(0.08 * rate_hz) : at - int(0.02 * rate_hz)].mean()
    above = np.nonzero(level[at:] > before - STOP_DB)[0]
    stop_s = (above[-1] + 1) / rate_hz
    energy = np.cumsum(x[at + int(0.006 * rate_hz) :][::-1] ** 2)[::-1]
    curve = 10 * np.log10(energy / energy[0] + 1e-14)
    start, end = np.argmax(curve < -5), np.argmax(curve < -25)
    slope = np.polyfit(np.arange(start, end) / rate_hz, curve[start:end], 1)[0]
    return stop_s, -60 / slope


def build_one(rng, name, index, hz, hardness):
    make = "waveguide" if index % 2 and hz <= HIGHEST_REST_HZ else "modal"
    hard = hardness == "hard"
    plan = draw_plan(rng, hz)
    string = (WaveguideString if make == "waveguide" else ModalString)(plan, rng)
    rate_hz = int(rng.choice([44100, 48000]))
    held_s = rng.uniform(0.5, 1.5)
    damper_t60 = log_interpolated(hz, [(40, 0.5), (300, 0.22), (1400, 0.12)]) * np.exp(rng.normal(0, 0.45))
    lead_s = rng.uniform(0.25, 0.5)
    after_s = 0.5 + 1.2 * damper_t60
    pluck = string.pluck(rng, rate_hz, held_s + after_s, 0.0, held_s, damper_t60)
    x = np.zeros(int((lead_s + held_s + after_s) * rate_hz))
    pluck_s = room.place(x, pluck.samples, lead_s, rate_hz)
    release_s = pluck_s + held_s
    in_room = bool(index % 4 >= 2)
    noises = np.zeros(len(x))
    peak = np.abs(x).max()
    burst, before = room.jack_noise(rng, rate_hz)
    room.place(noises, burst, pluck_s - before / rate_hz, rate_hz, peak * 10 ** (rng.uniform(-34, -16) / 20))
    # Plectrum passing the string just before the damper, jack reaching its rest just after.
    touch, _ = room.jack_noise(rng, rate_hz)
    low, high = (-30, -14) if hard else (-46, -28)
    room.place(noises, touch, release_s - rng.uniform(0.02, 0.06), rate_hz, peak * 10 ** (rng.uniform(low, high) / 20))
    room.place(noises, room.knock(rng, rate_hz), release_s + rng.uniform(0.005, 0.04), rate_hz, peak * 10 ** (rng.uniform(low, high) / 20))
    if in_room:
        t60_s, direct_db = (rng.uniform(0.4, 1.0), rng.uniform(-2, 6)) if hard else (rng.uniform(0.2, 0.6), rng.uniform(2, 10))
        response = room.impulse_response(rng, rate_hz, t60_s, direct_db)
        x, noises = room.reverberate(x, response), room.reverberate(noises, response)
    stop_s, t60_after = fall(x, rate_hz, hz, release_s)
    level = np.sqrt(np.mean(x[int((release_s - 0.1) * rate_hz) : int(release_s * rate_hz)] ** 2))
    snr_db = rng.uniform(15, 28) if hard else rng.uniform(28, 45)
    x = x + noises + room.coloured_noise(rng, len(x), rng.uniform(0, 1)) * level * 10 ** (-snr_db / 20)
    x = x / np.abs(x).max() * rng.uniform(0.3, 0.9)
    request = {"id": name, "file": name + ".wav", "target_hz": float(hz)}
    truth = {
        "id": name, "make": make, "condition": "room" if in_room else "dry", "hz": float(hz), "release_s": float(release_s),
        "t60_after_s": float(t60_after), "damper_t60_s": float(damper_t60), "stop_s": float(stop_s), "snr_db": float(snr_db), "rate_hz": rate_hz,
    }  # fmt: skip
    return Case(name, {request["file"]: (x, rate_hz)}, request, truth)


def real_notes(recordings):
    """Recorded releases; nothing is known of them but that stop times must be sane."""
    for path, hz in recordings.releases():
        name = "real-" + os.path.basename(path).rsplit(".", 1)[0]
        x, rate_hz = recordings.decode(path)
        request = {"id": name, "file": name + ".wav", "target_hz": hz}
        truth = {"id": name, "make": "real", "condition": "as recorded", "hz": hz, "release_s": None, "t60_after_s": None, "stop_s": None, "snr_db": None}
        yield Case(name, {request["file"]: (x * 0.9, rate_hz)}, request, truth)


def score_row(truth, answer):
    row = {k: truth[k] for k in ("id", "make", "condition", "hz", "snr_db")}
    row["status"] = answer.get("status")
    for field in ("release_s", "t60_after_s", "stop_s"):
        row["true_" + field] = truth[field]
        row[field] = answer.get(field)
        row[field + "_u"] = answer.get(field + "_u")
    return row


HEAD = ["", "n", "none", "release median ms", "95 %", "in ±2u", "stop median ms", "stop median %", "t60 median %", "in ±2u"]


def summary(rows, name):
    answered = [r for r in rows if r["release_s"] is not None and r["true_release_s"] is not None]
    cells = [name, len(rows), len(rows) - len(answered)]
    if not answered:
        return cells + [""] * 7

    def errors(field):
        pairs = [(r[field], r["true_" + field], r[field + "_u"]) for r in answered if r[field] is not None]
        read, true, u = (np.array([p[k] if p[k] is not None else np.nan for p in pairs], float) for k in range(3))
        return read - true, true, u

    release, _, release_u = errors("release_s")
    stop, true_stop, _ = errors("stop_s")
    t60, true_t60, t60_u = errors("t60_after_s")
    share = lambda e, u: f"{100 * np.mean(np.abs(e) <= 2 * u):.0f} %"
    return cells + [
        f"{1000 * np.median(np.abs(release)):.1f}", f"{1000 * np.quantile(np.abs(release), 0.95):.0f}", share(release, release_u),
        f"{1000 * np.median(np.abs(stop)):.0f}", f"{100 * np.median(np.abs(stop) / true_stop):.0f}", f"{100 * np.median(np.abs(t60) / true_t60):.0f}", share(t60, t60_u),
    ]  # fmt: skip


def report(rows, out, real=False):
    if real:
        show = lambda v: "-" if v is None else f"{v:.3f}"
        out.table("recorded releases (stop times must be sane: 0.02 to 3 s)", ["id", "status", "release s", "t60 s", "stop s"],
                  [[r["id"], r["status"], show(r["release_s"]), show(r["t60_after_s"]), show(r["stop_s"])] for r in rows])  # fmt: skip
        sane = [r for r in rows if r["stop_s"] is not None and 0.02 <= r["stop_s"] <= 3.0]
        out.line(f"sane: {len(sane)} of {len(rows)}")
        return
    register = lambda r: "below 120 Hz" if r["hz"] < 120 else "120–400 Hz" if r["hz"] < 400 else "above 400 Hz"
    out.table("releases", HEAD, [summary(rows, "all")])
    for title, key in (("room", lambda r: r["condition"]), ("generator", lambda r: r["make"]), ("register", register)):
        out.table(f"by {title}", HEAD, [summary([r for r in rows if key(r) == k], k) for k in sorted({key(r) for r in rows})])
    worst = sorted((r for r in rows if r["release_s"] is not None), key=lambda r: -abs(r["release_s"] - r["true_release_s"]))[:12]
    out.table("worst", ["id", "Hz", "release", "read", "t60", "read", "stop", "read", "generator", "condition"],
              [[r["id"], f"{r['hz']:.0f}", f"{r['true_release_s']:.3f}", f"{r['release_s']:.3f}", f"{r['true_t60_after_s']:.3f}", f"{r['t60_after_s'] or 0:.3f}",
                f"{r['true_stop_s']:.3f}", f"{r['stop_s'] or 0:.3f}", r["make"], r["condition"]] for r in worst])  # fmt: skip
