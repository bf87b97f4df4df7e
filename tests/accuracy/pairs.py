"""Two strings together: the set, its truth and its scores.

Each file holds the lower string alone, then both. The truth is the difference of the two lowest coincident
partials' mean frequencies over 0.10 to 2.5 s after the later pluck, both from the clean single strings, up
to where the weaker has fallen 40 dB.
"""
import numpy as np

import room
from compass import CENTS, draw_plan, draw_stringing, ratio
from modal_string import ModalString
from sampled_string import SampledString
from singles import Case
from sustain_pitch import END_S, NOTIONAL_NOISE_DB, START_S, comb_hz, phase_slope_hz, sounding_count, sustain_pitch
from waveguide_string import HIGHEST_REST_HZ, WaveguideString

KIND = "beats"
WINDOWS_S = [1.0, 2.0]
STILL_HZ = 0.05
WIDEST_CENTS = 35.0
ALONE_S = 2.2
KEPT_U_CENTS = 1.0  # a reading of the lower string twenty minutes old is up to 1.5 cents off
TOGETHER_S = 2.9

# name: (partial of the lower, partial of the upper, highest lower string, how many in a set)
INTERVALS = {
    "unison": (1, 1, 1100, 22), "octave": (2, 1, 750, 12), "fifth": (3, 2, 560, 8), "fourth": (4, 3, 480, 6),
    "major-third": (5, 4, 420, 4), "minor-third": (6, 5, 360, 2), "minor-sixth": (8, 5, 300, 2), "major-sixth": (5, 3, 420, 3),
    "minor-tenth": (12, 5, 200, 1), "tenth": (5, 2, 330, 2), "twelfth": (3, 1, 500, 2), "fifteenth": (4, 1, 380, 2),
}  # fmt: skip
LOWEST_HZ = 42.0
ORDER = [name for name, facts in INTERVALS.items() for _ in range(facts[3])]
COUNT = len(ORDER)

NORMAL = ["plain", "reverberation", "plain", "apart", "plain", "plain", "low SNR"]
HARD = ["noise", "unequal", "false beat", "reverberation", "apart"]


def build(seed, hardness, recordings, index, count):
    """Case `index` of `count`: every set has the same share of intervals, each spread over its compass."""
    shuffle = np.random.default_rng([seed, 11])
    order = shuffle.permutation(COUNT)
    places = shuffle.permutation(COUNT)
    rng = np.random.default_rng([seed, {"normal": 12, "hard": 13, "kept": 12}[hardness], index])
    interval = ORDER[order[index % COUNT]]
    place = (places[index % COUNT] + rng.random()) / COUNT
    lower_hz = LOWEST_HZ * (INTERVALS[interval][2] / LOWEST_HZ) ** place
    name = f"pair-{hardness}-{seed}-{index:03d}"
    case = build_one(rng, name, index, interval, lower_hz, hardness, recordings, False)
    attempt = 1
    while case is None:
        only_modal = attempt >= 3  # a real string or a waveguide may not sound the lowest pair at all
        near_hz = lower_hz * ratio(rng.uniform(-100, 0))
        case = build_one(rng, name, index, interval, near_hz, hardness, recordings, only_modal)
        attempt += 1
    return case


def wanted_beat(rng, index, coincident_hz):
    """Signed, log-uniform from 0.05 to 12 Hz within WIDEST_CENTS; one in twelve still."""
    if index % 12 == 5:
        return rng.uniform(-STILL_HZ, STILL_HZ)
    widest = min(12.0, coincident_hz * (ratio(WIDEST_CENTS) - 1))
    return float(np.exp(rng.uniform(np.log(0.05), np.log(widest))) * rng.choice([-1, 1]))


def string_for(make, rng, hz, partial, partial_hz, recordings, false_beat, stringing):
    """A string near hz whose rest partial `partial` lies at partial_hz."""
    if make == "sampled":
        note = recordings.near(hz, rng)
        stretch = np.sqrt((1 + note.inharmonicity * partial**2) / (1 + note.inharmonicity))
        return SampledString(note, partial_hz / partial / stretch)
    plan = draw_plan(rng, hz, false_beat, stringing)
    if make == "waveguide":
        plan.rest_hz = hz
        plan.inharmonicity = WaveguideString.feasible_inharmonicity(plan)
    plan.rest_hz = partial_hz / partial / np.sqrt((1 + plan.inharmonicity * partial**2) / (1 + plan.inharmonicity))
    return (ModalString if make == "modal" else WaveguideString)(plan, rng)


def usable(make, hz, recordings, rng):
    if make == "sampled":
        return recordings is not None and recordings.near(hz, rng) is not None
    return make == "modal" or hz <= HIGHEST_REST_HZ


def common_beat(lower, upper, n, m, lower_from_s, upper_from_s):
    """Signed beat of partial m of `upper` against n of `lower`; *_from_s: the later pluck on each one's own time."""
    slopes = []
    tracks = [(lower.tracks(), n, lower_from_s), (upper.tracks(), m, upper_from_s)]
    end = END_S
    cut = []
    for track, partial, begin in tracks:
        j = np.nonzero(track.n == partial)[0]
        if len(j) == 0:
            return None
        t = track.t - begin
        inside = (t >= START_S) & (t <= END_S)
        power = np.abs(track.z[inside]) ** 2
        loudest = power[: max(1, len(power) // 4)].mean(0).max()
        own = power[:, j[0]]
        if own[: max(1, len(own) // 8)].mean() < loudest * 1e-4:
            return None  # a partial that the pluck point leaves out: the lowest pair does not sound
        count = sounding_count(own, t[inside], loudest * 10 ** (NOTIONAL_NOISE_DB / 10))
        end = min(end, t[inside][count - 1])
        cut.append((t, track.z[:, j[0]], track.reference_hz[j[0]]))
    if end < START_S + 0.3:
        return None
    for t, z, reference in cut:
        inside = (t >= START_S) & (t <= end)
        slopes.append(phase_slope_hz(t[inside], z[inside])[0] + reference)
    return slopes[1] - slopes[0], slopes[0]


def build_one(rng, name, index, interval, lower_hz, hardness, recordings, only_modal):
    n, m, _, _ = INTERVALS[interval]
    if hardness != "hard":
        conditions = [NORMAL[index % len(NORMAL)]]
    else:
        conditions = sorted({HARD[index % len(HARD)], HARD[rng.integers(len(HARD))], HARD[rng.integers(len(HARD))]})
    false_beat = "false beat" in conditions
    upper_hz = lower_hz * n / m
    makes = [["modal", "modal"], ["waveguide", "waveguide"], ["sampled", "sampled"], ["modal", "waveguide"]][index % 4]
    makes = [
        make if usable(make, hz, recordings, rng) and not only_modal and not (make == "sampled" and false_beat) else "modal"
        for make, hz in zip(makes, (lower_hz, upper_hz))
    ]
    rate_hz = int(rng.choice([44100, 48000]))
    stringing = draw_stringing(rng)
    lower = string_for(makes[0], rng, lower_hz, 1, lower_hz, recordings, false_beat, stringing)
    b = lower.note.inharmonicity if makes[0] == "sampled" else lower.plan.inharmonicity
    coincident_hz = n * lower_hz * np.sqrt((1 + b * n * n) / (1 + b))
    beat_hz = wanted_beat(rng, index, coincident_hz)
    upper = string_for(makes[1], rng, upper_hz, m, coincident_hz + beat_hz, recordings, false_beat, stringing)

    apart = rng.uniform(0.04, 0.15) if "apart" in conditions else rng.uniform(0, 0.03)
    lower_first = rng.random() < 0.5
    unequal = rng.uniform(6, 12) if "unequal" in conditions else rng.uniform(0, 5)
    alone = lower.pluck(rng, rate_hz, ALONE_S + 0.4, rng.uniform(-2, 1))
    low = lower.pluck(rng, rate_hz, TOGETHER_S, 0)
    high = upper.pluck(rng, rate_hz, TOGETHER_S, 0)
    found = common_beat(low, high, n, m, 0 if not lower_first else apart, apart if not lower_first else 0)
    if found is None:
        return None
    truth_beat, lower_partial_hz = found

    alone_s = rng.uniform(0.3, 0.5)
    pair_s = alone_s + ALONE_S + rng.uniform(0.4, 0.6)
    x = np.zeros(int((pair_s + apart + TOGETHER_S + 0.1) * rate_hz))
    low_level, high_level = (room.loudness(p.samples, rate_hz, 0) for p in (low, high))
    balance = 10 ** (unequal * rng.choice([-1, 1]) / 20) * low_level / high_level
    fade = np.ones(len(alone.samples))
    damp = np.arange(len(fade)) / rate_hz - ALONE_S
    fade[damp > 0] = np.exp(-damp[damp > 0] / 0.03)
    room.place(x, alone.samples * fade, alone_s, rate_hz)
    lead = [getattr(p, "pluck_lead", 0.0) for p in (low, high)]
    plucked = [pair_s + (0 if lower_first else apart), pair_s + (apart if lower_first else 0)]
    for sound, gain, at, before in ((low, 1.0, plucked[0], lead[0]), (high, balance, plucked[1], lead[1])):
        room.place(x, sound.samples, at - before, rate_hz, gain)
        burst, ahead = room.jack_noise(rng, rate_hz)
        room.place(x, burst, at - ahead / rate_hz, rate_hz, np.abs(low.samples).max() * 10 ** (rng.uniform(-40, -20) / 20))
    if "reverberation" in conditions:
        t60_s, direct_db = (rng.uniform(0.3, 1.2), rng.uniform(2, 12)) if hardness != "hard" else (rng.uniform(0.5, 1.6), rng.uniform(-2, 6))
        x = room.reverberate(x, room.impulse_response(rng, rate_hz, t60_s, direct_db))
    level = room.loudness(x, rate_hz, pair_s)
    snr_db = rng.uniform(20, 40)
    if hardness == "hard":
        snr_db = rng.uniform(0, 10) if "noise" in conditions else rng.uniform(10, 30)
    elif "low SNR" in conditions:
        snr_db = rng.uniform(12, 20)
    x = x + room.coloured_noise(rng, len(x), rng.uniform(0, 1)) * level * 10 ** (-snr_db / 20)
    x = x / np.abs(x).max() * rng.uniform(0.3, 0.9)

    low_fit, high_fit = (sustain_pitch(p.tracks(), p.inharmonicity) for p in (low, high))
    lower_target = lower_hz * ratio(rng.uniform(-12, 12))
    file = name + ".wav"
    request = {
        "id": name, "file": file, "interval": interval, "lower_hz": float(lower_target),
        "upper_hz": float(lower_target * n / m * ratio(rng.uniform(-6, 6))), "alone": file, "alone_from": round(alone_s - 0.1, 3),
        "alone_to": round(alone_s + ALONE_S + 0.1, 3), "from": round(pair_s - 0.15, 3), "window": WINDOWS_S,
    }  # fmt: skip
    if hardness == "kept":
        for key in ("alone", "alone_from", "alone_to"):
            del request[key]
        kept = CENTS * np.log(low_fit.hz / lower_target) + rng.normal(0, KEPT_U_CENTS)
        request.update(lower_cents=float(kept), lower_u=KEPT_U_CENTS)
    if interval == "unison":
        request.update(lower_choir="8", upper_choir="8b")
    elif interval == "octave" and index % 2:
        request.update(lower_choir="8", upper_choir="4")
    truth = {
        "id": name, "make": "+".join(sorted(set(makes))), "condition": " + ".join(conditions), "interval": interval,
        "beat_hz": float(truth_beat), "width_cents": float(CENTS * np.log(1 + truth_beat / lower_partial_hz)),
        "comb_beat_hz": float(comb_hz(m, high_fit.f0_hz, high_fit.inharmonicity) - comb_hz(n, low_fit.f0_hz, low_fit.inharmonicity)),
        "coincident_hz": float(lower_partial_hz), "lower_hz": float(low_fit.hz),
        "alone_pluck_s": alone_s, "first_pluck_s": pair_s, "later_pluck_s": max(plucked), "snr_db": float(snr_db),
        "unequal_db": float(20 * np.log10(balance * high_level / low_level)), "rate_hz": rate_hz,
    }  # fmt: skip
    return Case(name, {file: (x, rate_hz)}, request, truth)


def score_row(truth, answer):
    row = {
        "id": truth["id"], "make": truth["make"], "condition": truth["condition"], "interval": truth["interval"],
        "window_s": answer.get("window_s"), "lower_hz": truth["lower_hz"], "coincident_hz": truth["coincident_hz"],
        "beat_hz": truth["beat_hz"], "comb_beat_hz": truth["comb_beat_hz"], "status": answer.get("status"), "read_hz": answer.get("beat_hz"), "error_hz": None, "u_hz": None,
        "direction": answer.get("direction"), "direction_right": None, "snr_db": truth["snr_db"], "warnings": ";".join(answer.get("warnings") or []),
    }  # fmt: skip
    if answer.get("beat_hz") is not None:
        row["error_hz"] = answer["beat_hz"] - abs(truth["beat_hz"])
        row["u_hz"] = answer.get("beat_hz_u", float("nan"))
    if abs(truth["beat_hz"]) >= STILL_HZ:
        row["direction_right"] = answer.get("direction") == ("wide" if truth["beat_hz"] > 0 else "narrow")
    return row


HEAD = ["", "n", "none", "weak", "median", "95 %", "bias", "gross", "direction", "in ±2u", "u med"]


def is_gross(row):
    """More than 0.3 Hz, or more than 30 % of a beat of at least 0.2 Hz."""
    error, beat = abs(row["error_hz"]), abs(row["beat_hz"])
    return error > 0.3 or (beat >= 0.2 and error > 0.3 * beat)


def summary(rows, name):
    answered = [r for r in rows if r["error_hz"] is not None]
    cells = [name, len(rows), len(rows) - len(answered), sum(r["status"] == "weak" for r in answered)]
    told = [r["direction_right"] for r in rows if r["direction_right"] is not None]
    direction = f"{100 * np.mean(told):.0f} %" if told else ""
    if not answered:
        return cells + ["", "", "", "", direction, "", ""]
    e = np.array([r["error_hz"] for r in answered])
    u = np.array([r["u_hz"] for r in answered], float)
    return cells + [
        f"{np.median(np.abs(e)):.3f}", f"{np.quantile(np.abs(e), 0.95):.3f}", f"{np.median(e):+.3f}",
        sum(is_gross(r) for r in answered), direction, f"{100 * np.mean(np.abs(e) <= 2 * u):.0f} %", f"{np.median(u):.3f}",
    ]  # fmt: skip


def report(rows, out):
    windows = sorted({r["window_s"] for r in rows})
    out.table("by window (errors in Hz)", HEAD, [summary([r for r in rows if r["window_s"] == w], f"{w:g} s") for w in windows])
    part = [r for r in rows if r["window_s"] == windows[-1]]
    apart = np.abs([r["comb_beat_hz"] - r["beat_hz"] for r in part])
    out.line(f"(what the two combs say differs from the pair itself by {np.median(apart):.3f} Hz median, {np.quantile(apart, 0.95):.3f} Hz 95 %)")
    grouping = [
        ("interval", lambda r: [r["interval"]], list(INTERVALS)),
        ("generator", lambda r: [r["make"]], None),
        ("condition", lambda r: r["condition"].split(" + "), None),
        ("coincident partials", lambda r: ["below 300 Hz" if r["coincident_hz"] < 300 else "above 300 Hz"], None),
        ("beat", lambda r: [next(t for t, top in BEAT_BANDS if abs(r["beat_hz"]) < top)], [t for t, _ in BEAT_BANDS]),
    ]  # fmt: skip
    for title, key, names in grouping:
        present = {k for r in part for k in key(r)}
        names = [k for k in names if k in present] if names else sorted(present)
        out.table(f"by {title}, {windows[-1]:g} s", HEAD, [summary([r for r in part if k in key(r)], k) for k in names])
    worst = sorted((r for r in part if r["error_hz"] is not None), key=lambda r: -abs(r["error_hz"]))[:12]
    wrong = [r for r in part if r["direction_right"] is False and r not in worst]
    out.table(
        "worst, then other wrong directions",
        ["id", "interval", "lower Hz", "beat", "read", "u", "direction", "status", "generator", "condition", "warnings"],
        [
            [r["id"], r["interval"], f"{r['lower_hz']:.1f}", f"{r['beat_hz']:+.3f}", "-" if r["read_hz"] is None else f"{r['read_hz']:.3f}",
             "-" if r["u_hz"] is None else f"{r['u_hz']:.3f}", r["direction"], r["status"], r["make"], r["condition"], r["warnings"]]
            for r in worst + wrong
        ],
    )  # fmt: skip
    silent = [f"{r['id']}@{r['window_s']:g}" for r in rows if r["error_hz"] is None]
    if silent:
        out.line("no answer: " + " ".join(silent))


BEAT_BANDS = [("still, < 0.05 Hz", 0.05), ("0.05–0.2 Hz", 0.2), ("0.2–1 Hz", 1.0), ("1–4 Hz", 4.0), ("4–12 Hz", 1e9)]
