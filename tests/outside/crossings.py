"""Crossing angles from the tangents of the finished edges (plane geometry, numpy)."""

import numpy as np

from tally import Facts, Tally

# The design: recomputed to 0.01 degree; what must hold, number 2: 180 +- 0.5.
SAME, STRAIGHT = 0.01, 0.5


def checks(record, sheet, job):
    same = Tally("crossing angles equal the tangents'", SAME, "degrees")
    straight = Tally("every crossing adds up to 180 degrees", STRAIGHT, "degrees")
    listed = Facts("every crossing is listed")
    seams = {s["name"]: s for s in record.data["seams"]}
    seen = {}
    for crossing in record.data["crossings"]:
        seam, total = seams[crossing["seam"]], 0.0
        for side in "ab":
            ref = crossing[side]
            edges = {seam[s]["edge"] for s in "ab" if seam[s]["piece"] == ref["piece"]}
            total += interior(record.loop(ref["piece"], "finished"), ref["edge"], edges)
        where = f"{crossing['opening']}, {crossing['seam']}"
        same.add(total - crossing["angle"], where)
        straight.add(total - 180.0, where)
        seen.setdefault(crossing["opening"], set()).add(crossing["seam"])
    # The top crosses both side seams; a leg its side seam and both gusset seams.
    for opening, number in (("top edge", 2), ("left leg", 3), ("right leg", 3)):
        listed.add(len(seen.get(opening, ())) == number, f"{opening}: {seen.get(opening)}")
    yield from (t.result() for t in (same, straight, listed))
    yield folds(record)


def interior(loop, edge, seam_edges):
    """The interior angle between an edge and the neighbouring seam, degrees.

    Clockwise as seen with y down: turning clockwise is positive there, and the interior angle is
    what the turn leaves of 180 degrees.
    """
    names = [name for name, _ in loop]
    i = names.index(edge)
    before, after = (i - 1) % len(loop), (i + 1) % len(loop)
    found = []
    if names[before] in seam_edges:
        found.append(180.0 - turn(loop[before][1].end_direction(), loop[i][1].start_direction()))
    if names[after] in seam_edges:
        found.append(180.0 - turn(loop[i][1].end_direction(), loop[after][1].start_direction()))
    return found[0] if len(found) == 1 else float("nan")


def turn(a, b):
    return np.degrees(np.arctan2(a[0] * b[1] - a[1] * b[0], a @ b))


def folds(record):
    """The top edge meets the centre square: its tangent is level at x = 0."""
    square = Tally("the top edge meets the centre square", STRAIGHT, "degrees")
    for ref in record.data["openings"][0]["path"]:
        curve = record.edge({**ref, "reverse": False, "mirrored": False}, "finished")
        for point, direction in ((curve.start, curve.start_direction()), (curve.end, curve.end_direction())):
            if abs(point[0]) < 1e-5:
                square.add(np.degrees(np.arcsin(abs(direction[1]))), f"{ref['piece']} {ref['edge']}")
    return square.result()
