"""What trials teach, against a Bayesian reference: the model as it is stated, worked out on a fine grid
by scipy from its own distributions, with none of the program's numbers but the sheet's.

The model: a person's comfortable reduction c of the legs is believed, before any trial, level between 0
and 10 % and falling off (common practice: legs are put on at 0 to 10 %, ready-made ones at 10 to 20 %).
The half-width of her band of comfort is uniform between 1.5 and 4.5 points; 15 % of verdicts are one of
the two others. Settings under another elastic share one shift, uniform within 4 points.
"""

import json
import random
import subprocess
import tempfile
from pathlib import Path

import numpy as np
from scipy.integrate import cumulative_trapezoid, trapezoid
from scipy.ndimage import uniform_filter1d
from scipy.stats import uniform

STEP = 0.01
C = np.arange(-10.0, 40.0 + STEP / 2, STEP)
BAND = uniform(1.5, 3.0)
WRONG, DOUBT = 0.15, 4.0
HALF_BAND, WEARABLE = 3.0, 0.5
PRIOR = np.interp(C, [-10, 0, 10, 25, 40], [0.02, 1, 1, 0.5, 0.05])
VERDICTS = ["loose", "right", "tight"]


def likelihood(setting, verdict):
    off = setting - C
    right = BAND.sf(np.abs(off))
    meant = {"right": right, "loose": (off < 0) * (1 - right), "tight": (off > 0) * (1 - right)}[verdict]
    return (1 - WRONG) * meant + WRONG / 2 * (1 - meant)


def posterior(own, others):
    """`own` are settings under today's elastic, `others` under another one."""
    belief = PRIOR.copy()
    for setting, verdict in own:
        belief *= likelihood(setting, verdict)
    if others:
        of_others = np.prod([likelihood(*told) for told in others], axis=0)
        belief *= uniform_filter1d(of_others, round(2 * DOUBT / STEP) + 1, mode="nearest")
    return belief / trapezoid(belief, C)


def chance(belief, setting):
    """That a setting is comfortable: within a band of the usual width."""
    return trapezoid(np.where(np.abs(C - setting) <= HALF_BAND, belief, 0.0), C)


def quantile(belief, share):
    return np.interp(share, cumulative_trapezoid(belief, C, initial=0), C)


def expected_variance(belief, pair):
    """Of c, after both verdicts on a pair of settings, over all nine answers."""
    of = [[likelihood(setting, verdict) for verdict in VERDICTS] for setting in pair]
    total = 0.0
    for first in of[0]:
        for second in of[1]:
            both = belief * first * second
            mass = trapezoid(both, C)
            mean = trapezoid(both * C, C) / mass
            total += trapezoid(both * (C - mean) ** 2, C)
    return total


def history(rng):
    """Verdicts of a wearer with a hidden c, some under another elastic, some mistaken."""
    hidden, told = rng.uniform(0, 25), []
    for _ in range(rng.randint(1, 8)):
        setting = rng.randint(0, 25)
        meant = "right" if abs(setting - hidden) <= 3 else "loose" if setting < hidden else "tight"
        verdict = rng.choice(VERDICTS) if rng.random() < 0.2 else meant
        told.append((setting, verdict, rng.random() < 0.3))
    return told


def block(edge, setting, verdict, other):
    elastic = '\nelastic = "one that is gone"' if other else ""
    return f'\n[[trial]]\nedge = "{edge}"{elastic}\nreduction = {setting}\nverdict = "{verdict}"\n'


def answer(job, folder, text):
    sheet = Path(folder) / "tried.toml"
    sheet.write_text(text, encoding="utf-8")
    run = subprocess.run([job["program"], "trial", sheet, "--json"], capture_output=True, text=True, check=True)
    assert sheet.read_text(encoding="utf-8") == text, "asking changed the sheet"
    return next(n for n in json.loads(run.stdout)["next"] if n["edge"] == "legs")


def checks(record, sheet, job):
    rng = random.Random(20261126)
    source = Path(job["sheet"]).read_text(encoding="utf-8")
    # So that no check holds a proposal back.
    source = source.replace("stretch = 100", "stretch = 400")
    off, worse, moved, n, wearable = [0.0], [0.0], 0, 60, True
    with tempfile.TemporaryDirectory() as folder:
        for i in range(n):
            told = history(rng)
            blocks = "".join(block(rng.choice(["legs", "left leg", "right leg"]), *t) for t in told)
            legs = answer(job, folder, source + "\n" + blocks)
            own = [(s, v) for s, v, other in told if not other]
            belief = posterior(own, [(s, v) for s, v, other in told if other])
            wanted = [quantile(belief, share) for share in (0.05, 0.5, 0.95)]
            got = [legs["low"], legs["proposal"], legs["high"]]
            # No elastic is put on longer than its edge.
            off += [abs(g - max(w, 0.0)) for g, w in zip(got, wanted)]
            moved += abs(wanted[1] - 5.0) > 1.0
            if i % 10 == 0 and not legs["converged"]:
                comfort = [chance(belief, setting) for setting in range(0, 31)]
                # Clear of the bound, where two grids may differ.
                worn = [s for s in range(0, 31, 3) if comfort[s] >= (WEARABLE + 0.02) * max(comfort)]
                best = min((expected_variance(belief, (a, b)) for a in worn for b in worn if a <= b), default=np.inf)
                pair = legs["try_left"], legs["try_right"]
                wearable &= all(chance(belief, s) >= (WEARABLE - 0.02) * max(comfort) for s in pair)
                tried = expected_variance(belief, (legs["try_left"], legs["try_right"]))
                worse.append(tried / best - 1)
    yield {
        "name": "after trials, proposals and intervals are those of a Bayesian reference, within 0.5 points",
        "ok": bool(max(off) <= 0.5 and moved > n / 3),
        "detail": f"at most {max(off):.3f} points off in {n} histories, {moved} of them away from the start",
    }
    yield {
        "name": "no pair of wearable settings, three percent apart, teaches more than the one to try next, wearable too",
        "ok": bool(wearable and max(worse) <= 0.01 and len(worse) > 3),
        "detail": f"at most {100 * max(worse):.2f} % more variance left than after the best of them, {len(worse) - 1} pairs",
    }
