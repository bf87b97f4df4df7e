"""Single strings: the set, its truth and its scores."""
from dataclasses import dataclass

import numpy as np

import room
from compass import CENTS, HIGHEST_HZ, LOWEST_HZ, draw_plan, ratio
from modal_string import ModalString
from sampled_string import SampledString
from sustain_pitch import sustain_pitch
from waveguide_string import HIGHEST_REST_HZ, WaveguideString

KIND = "measure"
WINDOWS_S = [0.3, 0.5, 1.0, 2.0]
COUNT = 79
SOUNDING_S = 2.9
GROSS_CENTS = 3.0

NORMAL = [
    "plain", "hum", "rumble", "knock", "false beat", "reverberation", "neighbour", "also 4'",
    "clipping", "automatic gain", "far off", "jack noise", "plain", "reverberation", "neighbour", "low SNR",
]  # fmt: skip
HARD = ["noise", "loud hum", "noise", "false beat", "loud hum", "reverberation", "neighbour", "also 4'", "knock", "clipping", "automatic gain", "jack noise", "rumble"]  # fmt: skip


@dataclass
class Case:
    """One line of the batch: files {name: (samples, rate)}, what is asked, what is true."""

    id: str
    files: dict
    request: dict
    truth: dict


def pick_make(rng, index, recordings, rest_hz):
    """Generators in turn, each only where it can work."""
    wish = ["modal", "waveguide", "modal", "sampled", "waveguide", "modal", "sampled"][index % 7]
    if wish == "sampled" and (recordings is None or recordings.near(rest_hz, rng) is None):
        wish = "waveguide" if index % 2 else "modal"
    if wish == "waveguide" and rest_hz > HIGHEST_REST_HZ:
        wish = "modal"
    return wish


def make_string(make, rng, rest_hz, recordings, false_beat=False, body_seed=None, simple=False):
    if make == "sampled":
        return SampledString(recordings.near(rest_hz, rng), rest_hz)
    plan = draw_plan(rng, rest_hz, false_beat)
    if simple:
        plan.glide_cents = min(plan.glide_cents, 0.3)
        plan.coherent_split, plan.second_db = True, -90.0
    return (ModalString if make == "modal" else WaveguideString)(plan, rng, body_seed)


def truth_of(pluck):
    """(sustain pitch in Hz, its own standard error in cents, comb) of one clean pluck."""
    fit = sustain_pitch(pluck.tracks(), pluck.inharmonicity)
    if pluck.make == "sampled":
        return pluck.truth_hz, pluck.truth_u_cents, fit
    return fit.hz, 0.0, fit


def conditions_of(rng, hardness, index):
    if hardness in ("simple", "twin"):
        return [hardness]
    if hardness == "normal":
        return [NORMAL[index % len(NORMAL)]]
    first = HARD[index % len(HARD)]
    second = HARD[rng.integers(len(HARD))]
    return [first] if second == first else [first, second]


def build(seed, hardness, recordings, index, count):
    """Case `index` of `count`; the same seed gives the same set, spread evenly over the compass."""
    places = np.random.default_rng([seed, 1]).permutation(count)
    rng = np.random.default_rng([seed, {"normal": 2, "hard": 3, "simple": 4, "twin": 5}[hardness], index])
    rest_hz = LOWEST_HZ * (HIGHEST_HZ / LOWEST_HZ) ** ((places[index] + rng.random()) / count)
    return build_one(rng, f"{hardness}-{seed}-{index:03d}", index, rest_hz, hardness, recordings)


def build_one(rng, name, index, rest_hz, hardness, recordings):
    conditions = conditions_of(rng, hardness, index)
    make = pick_make(rng, index, recordings, rest_hz)
    if make == "sampled" and ("false beat" in conditions or hardness in ("simple", "twin")):
        make = "modal"
    rate_hz = int(rng.choice([44100, 48000, 48000, 96000]))
    string = make_string(make, rng, rest_hz, recordings, "false beat" in conditions, simple=hardness == "simple")
    pluck = string.pluck(rng, rate_hz, SOUNDING_S)
    truth_hz, truth_u, fit = truth_of(pluck)
    lead_s = rng.uniform(0.25, 0.7)
    total = int((lead_s + SOUNDING_S + 0.1) * rate_hz)
    x = np.zeros(total)
    lead = getattr(pluck, "pluck_lead", 0.0)
    pluck_s = room.place(x, pluck.samples, lead_s - lead, rate_hz) + lead
    level = room.loudness(x, rate_hz, pluck_s)
    request = {"id": name, "target_hz": 0.0, "window": WINDOWS_S}

    far = 50.0 if "far off" in conditions else 25.0
    offset = rng.uniform(-far, far) if far < 50 else rng.choice([-1, 1]) * rng.uniform(38, 50)
    target_hz = truth_hz * ratio(-offset)

    burst_db = rng.uniform(-14, -4) if "jack noise" in conditions else rng.uniform(-40, -18)
    if make != "sampled" and hardness != "simple":
        burst, before = room.jack_noise(rng, rate_hz)
        room.place(x, burst, pluck_s - before / rate_hz, rate_hz, np.abs(pluck.samples).max() * 10 ** (burst_db / 20))
    if "also 4'" in conditions:
        other = make_string("modal", rng, min(rest_hz * 2 * ratio(rng.uniform(-6, 6)), 5000), None)
        gap = rng.uniform(-0.04, 0.04)
        sound = other.pluck(rng, rate_hz, SOUNDING_S - 0.1)
        gain = level / room.loudness(sound.samples, rate_hz, 0) * 10 ** (rng.uniform(-8, 0) / 20)
        room.place(x, sound.samples, pluck_s + gap, rate_hz, gain)
        request["also"] = "4"
    if "twin" in conditions:
        add_twin(rng, x, string, pluck, rate_hz, pluck_s)
    if "neighbour" in conditions:
        interval = rng.choice([-7, -5, -4, -3, -2, -1, 1, 2, 3, 4, 5, 7]) * 100 + rng.uniform(-20, 20)
        other = make_string("modal", rng, rest_hz * ratio(interval), None)
        sound = other.pluck(rng, rate_hz, total / rate_hz + 0.6).samples[int(0.5 * rate_hz) :]
        gain = level / room.loudness(sound, rate_hz, lead_s) * 10 ** (rng.uniform(-24, -10) / 20)
        room.place(x, sound, 0, rate_hz, gain)
    if "reverberation" in conditions:
        t60_s, direct_db = (rng.uniform(0.3, 1.4), rng.uniform(0, 12)) if hardness == "normal" else (rng.uniform(0.5, 1.8), rng.uniform(-3, 6))
        x = room.reverberate(x, room.impulse_response(rng, rate_hz, t60_s, direct_db))
    level = room.loudness(x, rate_hz, pluck_s)
    x, snr_db = add_noises(rng, x, rate_hz, level, conditions, hardness, pluck_s)
    if "automatic gain" in conditions:
        x = room.automatic_gain(x, rate_hz, rng)
    if "clipping" in conditions:
        ceiling = np.abs(x).max() * rng.uniform(0.25, 0.6)
        x = np.clip(x, -ceiling, ceiling)
    x = x / np.abs(x).max() * rng.uniform(0.2, 0.9)

    request["target_hz"] = float(target_hz)
    truth = {
        "id": name, "make": make, "condition": " + ".join(conditions), "pitch_hz": float(truth_hz),
        "truth_u_cents": float(truth_u), "pluck_s": float(pluck_s), "f0_hz": float(fit.f0_hz),
        "inharmonicity": float(fit.inharmonicity), "snr_db": float(snr_db), "offset_cents": float(offset), "rate_hz": rate_hz,
    }  # fmt: skip
    request["file"] = name + ".wav"
    return Case(name, {request["file"]: (x, rate_hz)}, request, truth)


def add_twin(rng, x, string, pluck, rate_hz, pluck_s):
    """The second 8' of the key, its damper lifted by a jack whose register is off: it takes up the sound over
    0.1 to 0.4 s, 12 to 30 dB softer, some cents off."""
    other = make_string("modal", rng, string.plan.rest_hz * ratio(rng.uniform(1, 9) * rng.choice([-1, 1])), None)
    sound = other.pluck(rng, rate_hz, SOUNDING_S, -20.0).samples
    sound *= 1 - np.exp(-np.arange(len(sound)) / rate_hz / rng.uniform(0.05, 0.2))
    gain = room.loudness(pluck.samples, rate_hz, 0) / room.loudness(sound, rate_hz, 0) * 10 ** (rng.uniform(-30, -12) / 20)
    room.place(x, sound, pluck_s, rate_hz, gain)


def add_noises(rng, x, rate_hz, level, conditions, hardness, pluck_s):
    """Broadband noise always; what the condition asks besides. Levels against the note's first second."""
    if hardness == "simple":
        snr_db = 20.0
    elif hardness in ("normal", "twin"):
        snr_db = rng.uniform(10, 15) if "low SNR" in conditions else rng.uniform(15, 40)
    else:
        snr_db = rng.uniform(-4, 6) if "noise" in conditions else rng.uniform(3, 20)
    slope = 0.0 if hardness == "simple" else rng.uniform(0, 1)
    x = x + room.coloured_noise(rng, len(x), slope) * level * 10 ** (-snr_db / 20)
    if "hum" in conditions:
        x = x + room.hum(rng, len(x), rate_hz, rng.choice([50, 60])) * level * 10 ** (rng.uniform(-24, -4) / 20)
    if "loud hum" in conditions:
        x = x + room.hum(rng, len(x), rate_hz, rng.choice([50, 60])) * level * 10 ** (rng.uniform(-6, 8) / 20)
    if "rumble" in conditions:
        x = x + room.rumble(rng, len(x), rate_hz) * level * 10 ** (rng.uniform(-10, 6) / 20)
    if "knock" in conditions:
        for _ in range(rng.integers(1, 4)):
            room.place(x, room.knock(rng, rate_hz), pluck_s + rng.uniform(0.1, 2.0), rate_hz, level * rng.uniform(0.5, 3))
    return x, snr_db


def real_notes(recordings):
    """The recorded notes as they are; the truth is the list's, with its own standard error."""
    for note in recordings.notes:
        name = "real-" + note.name.rsplit(".", 1)[0]
        x, rate_hz, pluck_s, _ = note.decoded()
        quiet = np.random.default_rng(1).normal(size=int(0.3 * rate_hz)) * 1e-4
        request = {"id": name, "file": name + ".wav", "target_hz": float(note.hz * ratio(7.0)), "window": [0.5, 1.0, 2.0]}
        truth = {
            "id": name, "make": "real", "condition": "as recorded", "pitch_hz": note.hz, "truth_u_cents": note.u_cents,
            "pluck_s": pluck_s + 0.3, "f0_hz": note.hz, "inharmonicity": note.inharmonicity, "snr_db": 45.0,
            "offset_cents": -7.0, "rate_hz": rate_hz,
        }  # fmt: skip
        yield Case(name, {request["file"]: (np.concatenate([quiet, x]) * 0.9, rate_hz)}, request, truth)


def score_row(truth, answer):
    """One line of the table of results."""
    row = {
        "id": truth["id"], "make": truth["make"], "condition": truth["condition"], "window_s": answer.get("window_s"),
        "hz": truth["pitch_hz"], "truth_u_cents": truth["truth_u_cents"], "snr_db": truth["snr_db"],
        "status": answer.get("status"), "error_cents": None, "u_cents": None, "pluck_error_ms": None,
        "warnings": ";".join(answer.get("warnings") or []),
    }  # fmt: skip
    if answer.get("pitch_hz"):
        row["error_cents"] = CENTS * np.log(answer["pitch_hz"] / truth["pitch_hz"])
        row["u_cents"] = CENTS * answer.get("pitch_hz_u", float("nan")) / answer["pitch_hz"]
    if answer.get("pluck_s") is not None:
        row["pluck_error_ms"] = (answer["pluck_s"] - truth["pluck_s"]) * 1000
    return row


TABLE_HEAD = ["", "n", "none", "weak", "median", "95 %", "bias", "in ±2u", "u med", ">3 c", ">3 c ok"]
REAL_HEAD = ["", "n", "none", "weak", "median", "90 %", "bias", "in ±2u", "u med", ">3 c", ">3 c ok"]


def summary(rows, name, quantile=0.95):
    answered = [r for r in rows if r["error_cents"] is not None]
    cells = [name, len(rows), len(rows) - len(answered), sum(r["status"] == "weak" for r in answered)]
    if not answered:
        return cells + [""] * 7
    e = np.array([r["error_cents"] for r in answered])
    u = np.array([r["u_cents"] for r in answered])
    truth_u = np.array([r["truth_u_cents"] for r in answered])
    inside = np.mean(np.abs(e) <= 2 * np.hypot(u, truth_u))
    gross = np.abs(e) > GROSS_CENTS
    sure = np.array([r["status"] == "ok" for r in answered])
    return cells + [
        f"{np.median(np.abs(e)):.3f}", f"{np.quantile(np.abs(e), quantile):.2f}", f"{np.median(e):+.3f}",
        f"{100 * inside:.0f} %", f"{np.median(u):.3f}", int(gross.sum()), int((gross & sure).sum()),
    ]  # fmt: skip


def octave_name(hz):
    low = 20 * 2 ** int(np.log2(hz / 20))
    return f"{low}–{2 * low} Hz"


def report(rows, out, real=False):
    """Tables: by window; at 0.5 and 1 s by generator, octave and condition; the worst cases."""
    quantile = 0.9 if real else 0.95
    head = REAL_HEAD if real else TABLE_HEAD
    windows = sorted({r["window_s"] for r in rows})
    if real:
        for name, low in (("below 300 Hz", True), ("above 300 Hz", False)):
            part = [r for r in rows if (r["hz"] < 300) == low]
            out.table(name, head, [summary([r for r in part if r["window_s"] == w], f"{w:g} s", quantile) for w in windows])
    else:
        out.table("by window", head, [summary([r for r in rows if r["window_s"] == w], f"{w:g} s") for w in windows])
        for w in (0.5, 1.0):
            part = [r for r in rows if r["window_s"] == w]
            for field, title in (("make", "generator"), ("octave", "octave"), ("condition", "condition")):
                key = (lambda r: octave_name(r["hz"])) if field == "octave" else (lambda r: r[field])
                names = sorted({key(r) for r in part}, key=lambda v: int(v.split("–")[0]) if field == "octave" else v)
                if field == "condition":
                    names = sorted({c for r in part for c in r["condition"].split(" + ")})
                    groups = [(c, [r for r in part if c in r["condition"].split(" + ")]) for c in names]
                else:
                    groups = [(c, [r for r in part if key(r) == c]) for c in names]
                out.table(f"by {title}, {w:g} s", head, [summary(g, c) for c, g in groups])
    worst = sorted((r for r in rows if r["error_cents"] is not None), key=lambda r: -abs(r["error_cents"]))[:16]
    out.table(
        "worst",
        ["id", "window", "error", "u", "status", "Hz", "generator", "condition", "pluck ms", "warnings"],
        [
            [r["id"], f"{r['window_s']:g}", f"{r['error_cents']:+.2f}", f"{r['u_cents']:.2f}", r["status"], f"{r['hz']:.1f}", r["make"],
             r["condition"], "" if r["pluck_error_ms"] is None else f"{r['pluck_error_ms']:+.1f}", r["warnings"]]
            for r in worst
        ],
    )  # fmt: skip
    silent = [r["id"] + f"@{r['window_s']:g}" for r in rows if r["error_cents"] is None]
    if silent:
        out.line("no answer: " + " ".join(silent))
