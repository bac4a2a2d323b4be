"""Are the lines ones that a cutter would draw? Measured on the record's finished edges.

A leg opening is one curve on the body: its edges on front, gusset and back, joined in the plane at
the gusset seams. A rigid motion changes no curvature, so each edge is measured where it lies. The
curvature of a cubic is the textbook's, (x'y'' - y'x'')/|v|^3; limits are the design's.
"""

from dataclasses import dataclass, field

import numpy as np

from tally import Tally

# Samples on each cubic.
SAMPLES = 64
# 1/mm: flatter than a radius of a hundred metres is straight.
STRAIGHT = 1e-5
# 1/mm: nobody sees a kink between two lines flatter than these, at a gusset seam and at the side.
FLAT_AT_GUSSET = 1 / 1000
FLAT_AT_SIDE = 1 / 400

LEAST_RADIUS = 20.0
MOST_JUMP = 1.3
MOST_SIDE_JUMP = 3.0
MOST_DIP = 1.0
MOST_RISE = 3.0


def curvatures(curve):
    """Signed curvature along a curve, 1/mm; a left turn as seen (y down) is positive."""
    t = np.linspace(0.0, 1.0, SAMPLES + 1)[:, None]
    found = []
    for s in curve.segments:
        a, b, c, d = s.p
        v = 3 * ((1 - t) ** 2 * (b - a) + 2 * t * (1 - t) * (c - b) + t * t * (d - c))
        w = 6 * ((1 - t) * (c - 2 * b + a) + t * (d - 2 * c + b))
        speed = np.maximum(np.hypot(v[:, 0], v[:, 1]), 1e-9)
        found.append((v[:, 1] * w[:, 0] - v[:, 0] * w[:, 1]) / speed**3)
    return np.concatenate(found)


def jump(a, b, flat):
    """How many times the curvature changes where two lines meet; infinite where it turns over."""
    if max(abs(a), abs(b)) <= flat:
        return 1.0
    if a * b < 0 and min(abs(a), abs(b)) > flat:
        return float("inf")
    low, high = sorted((max(abs(a), flat), max(abs(b), flat)))
    return high / low


def inflections(k):
    signs = np.sign(k[np.abs(k) > STRAIGHT])
    return int((signs[1:] != signs[:-1]).sum())


def dip(curve):
    """How far a line goes back on itself in height: the lesser of its two ways, 0 where it is one sweep."""
    y = curve.samples(1.0)[0][:, 1]
    down = (y - np.minimum.accumulate(y)).max()
    up = (np.maximum.accumulate(y) - y).max()
    return float(min(down, up))


@dataclass
class Lines:
    """What there is to see on the lines of one leg opening, and of the top edge."""

    radius: dict = field(default_factory=dict)
    front_jump: float = 1.0
    back_jump: float = 1.0
    side_jump: float = 1.0
    inflections: dict = field(default_factory=dict)
    dips: dict = field(default_factory=dict)
    rise: float = 0.0
    fall: float = 0.0

    @property
    def least_radius(self):
        return min(self.radius.values())


def edges(record, opening):
    """The parts of an opening in order, from side seam to side seam: [(piece, curve)]."""
    walk = next(o for o in record.data["openings"] if o["name"] == opening)
    parts = {ref["piece"]: record.edge(ref, "finished") for ref in walk["path"]}
    front = parts["front"] if parts["front"].start[1] < parts["front"].end[1] else parts["front"].reversed()
    back = parts["back"] if parts["back"].start[1] > parts["back"].end[1] else parts["back"].reversed()
    gusset = parts["gusset"] if parts["gusset"].start[1] < parts["gusset"].end[1] else parts["gusset"].reversed()
    return [("front", front), ("gusset", gusset), ("back", back)]


def measure(record, opening="left leg"):
    parts = edges(record, opening)
    k = {name: curvatures(curve) for name, curve in parts}
    hollow = np.sign(k["front"].sum())
    k = {name: hollow * bends for name, bends in k.items()}
    lines = Lines(
        radius={name: float(1 / max(np.abs(bends).max(), 1e-9)) for name, bends in k.items()},
        front_jump=jump(k["front"][-1], k["gusset"][0], FLAT_AT_GUSSET),
        back_jump=jump(k["gusset"][-1], k["back"][0], FLAT_AT_GUSSET),
        side_jump=jump(k["back"][-1], k["front"][0], FLAT_AT_SIDE),
        inflections={name: inflections(bends) for name, bends in k.items()},
    )
    lines.inflections["whole"] = inflections(np.concatenate(list(k.values())))
    front = parts[0][1]
    lines.fall = float(front.end[1] - front.start[1])
    lines.rise = float(front.start[1] - front.samples(1.0)[0][:, 1].min())
    for piece in ("front", "back"):
        top = next(c for name, c in record.loop(piece, "finished") if name.endswith("top"))
        lines.dips[piece] = dip(top)
    return lines


def checks(record, sheet, job):
    for opening in ("left leg", "right leg"):
        lines = measure(record, opening)
        for name, value, limit in (
            ("curvature at the front gusset seam", lines.front_jump, MOST_JUMP),
            ("curvature at the back gusset seam", lines.back_jump, MOST_JUMP),
            ("curvature at the side seam", lines.side_jump, MOST_SIDE_JUMP),
            ("front rises above the foot, mm", lines.rise, MOST_RISE),
            ("inflections in front", lines.inflections["front"], 0),
            ("inflections in all", lines.inflections["whole"], 2),
            ("sharper than the least radius, 1/mm", 1 / lines.least_radius, 1 / LEAST_RADIUS),
        ):
            tally = Tally(f"{opening}: {name}", limit)
            tally.add(value, f"{value:.3f}")
            yield tally.result()
    for piece, value in lines.dips.items():
        tally = Tally(f"the top edge of the {piece} is one sweep", MOST_DIP)
        tally.add(value, f"{value:.3f} mm")
        yield tally.result()
