"""One key going down slowly: two or three registers pluck one after another.

Every key comes with one solo of each choir: the same strings, the same room and gain, another pluck.
"""
import numpy as np

import room
from compass import draw_plan, draw_stringing, ratio
from modal_string import ModalString
from singles import Case
from waveguide_string import HIGHEST_REST_HZ, WaveguideString

KIND = "plucks"
COUNT = 60
HIT_S = 0.003
LOWEST_HZ = 43.0
HIGHEST_HZ = 1300.0
RING_S = 1.3
SOLO_S = 1.4
DISPOSITIONS = [["8", "8b"], ["8", "4"], ["8", "8b", "4"], ["8", "8b", "4"]]


def build(seed, hardness, recordings, index, count):
    """Case `index` of `count`, spread evenly over the compass."""
    places = np.random.default_rng([seed, 21]).permutation(count)
    rng = np.random.default_rng([seed, {"normal": 22, "hard": 23}[hardness], index])
    key_hz = LOWEST_HZ * (HIGHEST_HZ / LOWEST_HZ) ** ((places[index] + rng.random()) / count)
    return build_one(rng, f"plucks-{hardness}-{seed}-{index:03d}", index, key_hz, hardness)


def strings_of_key(rng, make, key_hz, choirs):
    stringing = draw_stringing(rng)
    bodies = {"8": rng.integers(2**31), "4": rng.integers(2**31)}
    point = None
    strings = {}
    for choir in choirs:
        hz = key_hz * (2 if choir == "4" else 1) * ratio(rng.uniform(-2.5, 2.5))
        plan = draw_plan(rng, hz, False, stringing)
        if choir == "8b":
            plan.pluck_point = float(np.clip(point * rng.choice([0.7, 1.4]), 0.05, 0.48))
        point = plan.pluck_point
        wave = make == "waveguide" and hz <= HIGHEST_REST_HZ
        strings[choir] = (WaveguideString if wave else ModalString)(plan, rng, bodies[choir[0]])
    return strings


def build_one(rng, name, index, key_hz, hardness):
    make = ["modal", "waveguide"][index % 2]
    hard = hardness == "hard"
    choirs = DISPOSITIONS[rng.integers(len(DISPOSITIONS))]
    strings = strings_of_key(rng, make, key_hz, choirs)
    rate_hz = int(rng.choice([44100, 48000]))
    scatter_db = 3.5 if hard else 1.8
    level_db = {choir: rng.uniform(-4, 2) * (1.5 if hard else 1) for choir in choirs}
    balance = {}
    for choir in choirs:
        balance[choir] = 1 / room.loudness(strings[choir].pluck(rng, rate_hz, 0.4).samples, rate_hz, 0)

    def add(x, choir, at_s):
        sound = strings[choir].pluck(rng, rate_hz, min(len(x) / rate_hz - at_s, 2.0), rng.normal(0, scatter_db))
        gain = balance[choir] * 10 ** (level_db[choir] / 20)
        when = room.place(x, sound.samples, at_s, rate_hz, gain)
        burst, before = room.jack_noise(rng, rate_hz)
        snap_db = rng.uniform(-24, -6) if hard else rng.uniform(-34, -14)
        room.place(x, burst, when - before / rate_hz, rate_hz, gain * np.abs(sound.samples).max() * 10 ** (snap_db / 20))
        return when

    order = list(rng.permutation(choirs))
    missing = rng.random() < 0.1
    if missing:
        order = order[:-1]
    first_s = rng.uniform(0.35, 0.6)
    gaps = np.exp(rng.uniform(np.log(0.005), np.log(0.15), len(order) - 1))
    times = first_s + np.concatenate([[0], np.cumsum(gaps)])
    files = {}
    x = np.zeros(int((times[-1] + RING_S) * rate_hz))
    plucked = [{"choir": str(choir), "time_s": float(add(x, choir, t))} for choir, t in zip(order, times)]
    files[name + ".wav"] = x
    solos = {}
    for choir in choirs:
        solo = np.zeros(int(SOLO_S * rate_hz))
        add(solo, choir, rng.uniform(0.25, 0.4))
        solos[choir] = f"{name}-solo-{choir}.wav"
        files[solos[choir]] = solo

    reverberant = rng.random() < (0.4 if hard else 0.25)
    if reverberant:
        t60_s, direct_db = (rng.uniform(0.4, 1.2), rng.uniform(-1, 7)) if hard else (rng.uniform(0.2, 0.6), rng.uniform(3, 12))
        response = room.impulse_response(rng, rate_hz, t60_s, direct_db)
        files = {f: room.reverberate(x, response) for f, x in files.items()}
    snr_db = rng.uniform(12, 30) if hard else rng.uniform(25, 42)
    level = room.loudness(files[name + ".wav"], rate_hz, first_s) * 10 ** (-snr_db / 20)
    slope = rng.uniform(0, 1)
    files = {f: x + room.coloured_noise(rng, len(x), slope) * level for f, x in files.items()}
    gain = rng.uniform(0.3, 0.9) / max(np.abs(x).max() for x in files.values())
    request = {
        "id": name, "file": name + ".wav", "target_hz": float(key_hz * ratio(rng.uniform(-5, 5))), "choirs": choirs, "solos": solos,
    }  # fmt: skip
    truth = {
        "id": name, "make": make, "condition": ("reverberation" if reverberant else "dry") + (", one register silent" if missing else ""),
        "key_hz": float(key_hz), "choirs": choirs, "plucks": plucked, "snr_db": float(snr_db), "rate_hz": rate_hz,
    }  # fmt: skip
    return Case(name, {f: (x * gain, rate_hz) for f, x in files.items()}, request, truth)


def matched(true_times, read_times):
    """Pairs (true index, read index) within HIT_S, nearest first, each used once."""
    near = sorted((abs(t - r), i, j) for i, t in enumerate(true_times) for j, r in enumerate(read_times) if abs(t - r) <= HIT_S)
    pairs = []
    for _, i, j in near:
        if all(i != a and j != b for a, b in pairs):
            pairs.append((i, j))
    return sorted(pairs)


def score_row(truth, answer):
    true = truth["plucks"]
    read = sorted(answer.get("plucks") or [], key=lambda p: p["time_s"])
    pairs = matched([p["time_s"] for p in true], [p["time_s"] for p in read])
    errors = [1000 * (read[j]["time_s"] - true[i]["time_s"]) for i, j in pairs]
    gaps = np.diff([p["time_s"] for p in true])
    return {
        "id": truth["id"], "make": truth["make"], "condition": truth["condition"], "key_hz": truth["key_hz"], "snr_db": truth["snr_db"],
        "status": answer.get("status"), "true": len(true), "read": len(read), "hits": len(pairs), "count_right": len(true) == len(read),
        "order_right": [p["choir"] for p in true] == [p.get("choir") for p in read], "median_error_ms": float(np.median(np.abs(errors))) if errors else None,
        "least_gap_ms": float(1000 * gaps.min()) if len(gaps) else None, "said": " ".join(f"{p.get('choir')}@{p['time_s']:.4f}" for p in read),
        "truth": " ".join(f"{p['choir']}@{p['time_s']:.4f}" for p in true), "warnings": ";".join(answer.get("warnings") or []),
    }  # fmt: skip


HEAD = ["", "keys", "hit", "false", "count right", "order right", "median ms"]


def summary(rows, name):
    true, hits, read = (sum(r[k] for r in rows) for k in ("true", "hits", "read"))
    errors = [r["median_error_ms"] for r in rows if r["median_error_ms"] is not None]
    return [
        name, len(rows), f"{100 * hits / true:.1f} %", read - hits, f"{100 * np.mean([r['count_right'] for r in rows]):.0f} %",
        f"{100 * np.mean([r['order_right'] for r in rows]):.0f} %", f"{np.median(errors):.2f}" if errors else "",
    ]  # fmt: skip


def report(rows, out):
    out.table(f"plucks (hit: within {1000 * HIT_S:g} ms)", HEAD, [summary(rows, "all")])
    register = lambda r: "below 120 Hz" if r["key_hz"] < 120 else "120–400 Hz" if r["key_hz"] < 400 else "above 400 Hz"
    gap = lambda r: "single" if r["least_gap_ms"] is None else "gap < 12 ms" if r["least_gap_ms"] < 12 else "gap 12–40 ms" if r["least_gap_ms"] < 40 else "gap > 40 ms"
    for title, key in (("generator", lambda r: r["make"]), ("condition", lambda r: r["condition"]), ("key", register), ("closest gap", gap), ("plucks", lambda r: str(r["true"]))):
        out.table(f"by {title}", HEAD, [summary([r for r in rows if key(r) == k], k) for k in sorted({key(r) for r in rows})])
    bad = [r for r in rows if not r["order_right"] or r["hits"] < r["true"]]
    out.table("not right", ["id", "key Hz", "truth", "said", "generator", "condition", "warnings"],
              [[r["id"], f"{r['key_hz']:.1f}", r["truth"], r["said"], r["make"], r["condition"], r["warnings"]] for r in bad])  # fmt: skip
