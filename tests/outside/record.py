"""A record, with its paths as curves. Numbers of the record are only ever the thing examined."""

import json

import numpy as np

from curves import Curve, parse

ROWS = ("cut", "sewing", "finished")
# The record has six decimals, so ends that meet can be a millionth apart in each coordinate.
ROUNDING = 2e-6


class Record:
    def __init__(self, data):
        self.data = data
        self.pieces = {p["name"]: p for p in data["pieces"]}

    def on_paper(self, pieces=None):
        """The pieces that a print shows: a lining is cut by the outline of its gusset."""
        pieces = self.data["pieces"] if pieces is None else pieces
        outlines = {p["name"]: [e["d"] for e in p["cut"]] for p in pieces}
        alike = outlines.get("gusset lining") == outlines.get("gusset")
        return [p for p in pieces if p["name"] != "gusset lining" or not alike]

    @classmethod
    def read(cls, path):
        with open(path, encoding="utf-8") as f:
            return cls(json.load(f))

    def loop(self, piece, row):
        """[(edge name, curve)] of an outline."""
        return [(e["edge"], parse(e["d"])) for e in self.pieces[piece][row]]

    def edge(self, ref, row):
        """The curve of an edge reference."""
        curve = dict(self.loop(ref["piece"], row))[ref["edge"]]
        if ref["mirrored"]:
            curve = curve.mirrored()
        return curve.reversed() if ref["reverse"] else curve

    def half_leg_names(self):
        """Opening by (piece, edge), from the openings' own paths."""
        return {(r["piece"], r["edge"]): o["name"] for o in self.data["openings"] for r in o["path"]}

    def seam_edges(self):
        """Seam by (piece, edge)."""
        return {(s[side]["piece"], s[side]["edge"]): s["name"] for s in self.data["seams"] for side in "ab"}


def is_fold(piece, curve):
    """The closing edge of a half piece, on x = 0."""
    return piece["on_fold"] and all(np.abs(s.p[:, 0]).max() <= ROUNDING for s in curve.segments)


def unfolded(piece, loop):
    """The whole outline as one list of curves."""
    if not piece["on_fold"]:
        return [c for _, c in loop]
    half = [c for _, c in loop if not is_fold(piece, c)]
    return half + [c.mirrored().reversed() for c in reversed(half)]


def polygon_points(curves, step):
    """One ring of points through a list of curves, without repeated joints."""
    parts = [c.samples(step)[0][:-1] for c in curves]
    return np.concatenate(parts)


def whole(curves):
    """Joined to one curve."""
    return Curve([s for c in curves for s in c.segments])
