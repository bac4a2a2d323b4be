"""What trials teach, against a Bayesian reference: the model as it is stated, worked out on a fine grid
by scipy from its own distributions, with none of the program's numbers but the sheet's.

The model: a person's comfortable reduction c of the legs is believed, before any trial, level between 0
and 10 % and falling off (common practice: legs are put on at 0 to 10 %, ready-made ones at 10 to 20 %).
The half-width of her band of comfort is uniform between 1.5 and 4.5 points; 15 % of verdicts are one of
the two others. Settings under another elastic share one shift, uniform within 4 points.

The interval told is the central 80 %: where verdicts do not contradict each other, given that none of them is
mistaken; where they do, with the mistakes of the model; stretched to hold the proposal. A verdict is refuted,
and left out of that, where more others go against it, two at least, than against any other one.
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


def likelihood(setting, verdict, wrong=WRONG):
    off = setting - C
    right = BAND.sf(np.abs(off))
    meant = {"right": right, "loose": (off < 0) * (1 - right), "tight": (off > 0) * (1 - right)}[verdict]
    return (1 - wrong) * meant + wrong / 2 * (1 - meant)


def posterior(told, wrong=WRONG):
    """`told` are settings, verdicts, and whether they are of another elastic."""
    belief = PRIOR.copy()
    others = np.ones_like(C)
    for setting, verdict, other in told:
        if other:
            others *= likelihood(setting, verdict, wrong)
        else:
            belief *= likelihood(setting, verdict, wrong)
    if any(other for _, _, other in told):
        belief *= uniform_filter1d(others, round(2 * DOUBT / STEP) + 1, mode="nearest")
    mass = trapezoid(belief, C)
    return belief / mass if mass > 1e-12 else None


def allows(setting, verdict, doubt):
    """Where c can be if a verdict is right, whatever the band and the shift."""
    narrow, wide = BAND.support()
    low, high = {"right": (setting - wide, setting + wide), "loose": (setting + narrow, np.inf), "tight": (-np.inf, setting - narrow)}[verdict]
    return low - doubt, high + doubt


def contradict(one, other):
    doubts = [0.0 if one[2] == other[2] else DOUBT * told[2] for told in (one, other)]
    (a, b), (c, d) = allows(*one[:2], doubts[0]), allows(*other[:2], doubts[1])
    return max(a, c) >= min(b, d)


def weighed(told):
    """The verdicts that nothing refutes, and whether some of them still contradict each other."""
    left = set(range(len(told)))
    while True:
        pairs = [(i, j) for i in left for j in left if i < j and contradict(told[i], told[j])]
        votes = sorted((sum(n in p for p in pairs), n) for n in {n for p in pairs for n in p})
        if not votes or votes[-1][0] < 2 or (len(votes) > 1 and votes[-2][0] == votes[-1][0]):
            return [told[n] for n in sorted(left)], bool(pairs)
        left.discard(votes[-1][1])


def interval(told):
    standing, contradicting = weighed(told)
    at_their_word = None if contradicting else posterior(standing, wrong=0.0)
    belief = posterior(told) if at_their_word is None else at_their_word
    proposal = quantile(posterior(told), 0.5)
    return min(quantile(belief, 0.1), proposal), max(quantile(belief, 0.9), proposal), contradicting


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
    said = json.loads(run.stdout)
    return next(n for n in said["next"] if n["edge"] == "legs"), said["conflicts"]


def checks(record, sheet, job):
    rng = random.Random(20261126)
    source = Path(job["sheet"]).read_text(encoding="utf-8")
    # So that no check holds a proposal back.
    source = source.replace("stretch = 100", "stretch = 400")
    off, worse, moved, open_pairs, n, wearable, told_so = [0.0], [0.0], 0, 0, 60, True, True
    with tempfile.TemporaryDirectory() as folder:
        for i in range(n):
            told = history(rng)
            blocks = "".join(block(rng.choice(["legs", "left leg", "right leg"]), *t) for t in told)
            legs, conflicts = answer(job, folder, source + "\n" + blocks)
            belief = posterior(told)
            low, high, contradicting = interval(told)
            wanted = [low, quantile(belief, 0.5), high]
            open_pairs += contradicting
            got = [legs["low"], legs["estimate"], legs["high"]]
            # No elastic is put on longer than its edge.
            off += [abs(g - max(w, 0.0)) for g, w in zip(got, wanted)]
            moved += abs(wanted[1] - 5.0) > 1.0
            retested = any(c.get("retest") for c in conflicts)
            told_so &= contradicting == retested
            if i % 5 == 0 and not legs["converged"] and not retested:
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
        "name": "verdicts that contradict each other are told, and sewn again until one of them is refuted",
        "ok": bool(told_so and 0 < open_pairs < n),
        "detail": f"{open_pairs} of {n} histories",
    }
    yield {
        "name": "no pair of wearable settings, three percent apart, teaches more than the one to try next, wearable too",
        "ok": bool(wearable and max(worse) <= 0.01 and len(worse) > 3),
        "detail": f"at most {100 * max(worse):.2f} % more variance left than after the best of them, {len(worse) - 1} pairs",
    }
