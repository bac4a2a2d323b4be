"""How outlines are written: head to tail, closed, clockwise as seen, M L C only; area and length."""

import numpy as np

from curves import Malformed
from record import ROUNDING, ROWS, is_fold, polygon_points
from tally import Facts, Tally


def checks(record, sheet, job):
    written = Facts("paths are absolute M, L and C")
    joined = Tally("outlines run head to tail and close", ROUNDING)
    clockwise = Facts("outlines run clockwise as seen, from the centre")
    for name, piece in record.pieces.items():
        for row in ROWS:
            where = f"{name} {row}"
            try:
                loop = record.loop(name, row)
                written.add(len(loop) > 2, where)
            except Malformed as bad:
                written.add(False, f"{where}: {bad}")
                continue
            for (_, a), (edge, b) in zip(loop, loop[1:] + loop[:1]):
                joined.add(np.abs(a.end - b.start).max(), f"{where}, start of {edge}")
            ring = polygon_points([c for _, c in loop], 5.0)
            # Shoelace; with y down a positive sum is clockwise as seen.
            x, y = ring.T
            clockwise.add(np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y) > 0, where)
            clockwise.add(abs(loop[0][1].start[0]) <= ROUNDING, f"{where} starts at {loop[0][1].start}")
            clockwise.add(len({e for e, _ in loop}) == len(loop), f"{where}: an edge twice")
    yield from (t.result() for t in (written, joined, clockwise))
    yield from extents(record)


def green(segment):
    """Half the integral of x dy - y dx along a cubic: degree 5, so Gauss-Legendre with 3 points or more is exact."""
    nodes, weights = np.polynomial.legendre.leggauss(4)
    t = 0.5 * (nodes + 1)
    p, d = segment.at(t), segment.slope(t)
    return 0.25 * float(weights @ (p[:, 0] * d[:, 1] - p[:, 1] * d[:, 0]))


def extents(record):
    # Six decimals along a metre of outline leave at most 1e-3 mm2 and 1e-5 mm.
    area = Tally("area inside each cut line (Green's theorem)", 0.01, "mm2")
    perimeter = Tally("perimeter of each cut line (integrated)", 0.001)
    for name, piece in record.pieces.items():
        loop = record.loop(name, "cut")
        times = 2 if piece["on_fold"] else 1
        area.add(times * sum(green(s) for _, c in loop for s in c.segments) - piece["area_mm2"], name)
        seen = [c for _, c in loop if not is_fold(piece, c)]
        perimeter.add(times * sum(c.length() for c in seen) - piece["perimeter_mm"], name)
    yield from (t.result() for t in (area, perimeter))
