"""Widths of allowances and folded ends, measured square to the lines (numpy, scipy brentq)."""

import numpy as np

import finishes
from record import is_fold
from tally import Tally

# The design: 0.02 mm at points at least twice the allowance from an edge's end, both ways;
# a folded end lies on the seam's line within 0.05 mm. A gusset seam, which is sewn before an edge is
# finished, goes straight on as widely as its allowance is, and ends square where its stitches do.
WIDTH, FOLDED = 0.02, 0.05
POINTS = 15
# How far a leg's fold is led on along its curvature over a seam, rad; then it runs straight.
MOST_TURN = 0.3


def expected(record, sheet):
    """(cut distance, folded in?) by (piece, edge), from the sheet and the table of finishes."""
    opening, seam = record.half_leg_names(), record.seam_edges()
    result = {}
    for name, piece in record.pieces.items():
        for e in piece["finished"]:
            # The gusset's second layer is cut as the first is.
            key = (name.replace("gusset lining", "gusset"), e["edge"])
            if name.endswith("band"):
                result[name, e["edge"]] = (sheet.mm("seams", "side", default_allowance(sheet)), False)
            elif key in opening:
                cut, _, folded = finishes.of(record, sheet, opening[key])
                result[name, e["edge"]] = (cut, folded and cut > 0)
            elif key in seam:
                which = "side" if "side" in seam[key] else "gusset"
                result[name, e["edge"]] = (sheet.mm("seams", which, default_allowance(sheet)), False)
    return result


def default_allowance(sheet):
    """Knit seams 7 mm (overlocked or zigzagged, common practice), woven 10."""
    return 10.0 if sheet.get("fabric", "kind") == "woven" else 7.0


def checks(record, sheet, job):
    outward = Tally("allowances, finished edge to cut line", WIDTH)
    inward = Tally("allowances, cut line to finished edge", WIDTH)
    folded = Tally("folded ends lie on the seam's cut line", FOLDED)
    straight = Tally("ends of gusset seams go straight on, and are square", WIDTH)
    wanted, seams = expected(record, sheet), record.seam_edges()
    for name, piece in record.pieces.items():
        finished = [(e, c) for e, c in record.loop(name, "finished") if not is_fold(piece, c)]
        cut = dict(record.loop(name, "cut"))
        for i, (edge, net) in enumerate(finished):
            distance, _ = wanted[name, edge]
            near = neighbours(piece, finished, i)
            # A neighbour that is cut inside the finished edge takes the end of this one with it.
            margin = 2 * abs(distance) + max(0.0, *(-wanted[name, other][0] for other, _ in near))
            widths(f"{name} {edge}", net, cut[edge], distance, margin, outward)
            backward(f"{name} {edge}", cut[edge], net, distance, margin, inward)
            for other, fold in near:
                where, depth = f"{name}: {edge} at {other}", wanted[name, other][0]
                is_gusset_seam = "gusset" in seams.get((name.replace("gusset lining", "gusset"), edge), "")
                if is_gusset_seam and "leg" in other:
                    straight_end(where, cut[edge], net, fold, (distance, depth), straight)
                elif wanted[name, other][1] and not wanted[name, edge][1]:
                    fold_end(where, cut[edge], fold, depth, folded)
    yield from (t.result() for t in (outward, inward, straight))
    if any(f for _, f in wanted.values()):
        yield folded.result()


def neighbours(piece, edges, i):
    n = len(edges)
    around = [i - 1, i + 1]
    if piece["on_fold"]:
        return [edges[k] for k in around if 0 <= k < n]
    return [edges[k % n] for k in around]


def widths(where, net, cut, distance, margin, tally):
    length = net.length()
    if length <= 2 * margin:
        return
    for along in np.linspace(margin, length - margin, POINTS):
        point, direction = net.place(along)
        measure(f"{where}, {along:.1f} mm along", cut, point, direction, distance, 1, tally)


def backward(where, cut, net, distance, margin, tally):
    """From points of the cut line whose foot is as far from the finished edge's ends."""
    for along in np.linspace(0.0, cut.length(), 3 * POINTS):
        point, direction = cut.place(along)
        foot, _ = net.nearest(point)
        if min(np.hypot(*(foot - net.start)), np.hypot(*(foot - net.end))) > max(margin, 0.5):
            measure(f"{where}, {along:.1f} mm along the cut", net, point, direction, distance, -1, tally)


def measure(where, line, point, direction, distance, sign, tally):
    found = line.crossings_with_normal(point, direction)
    measured = sign * min(found, key=abs) if found else float("nan")
    tally.add(measured - distance, f"{where}: {measured:.4f} for {distance:g}")


def fold_end(where, seam_cut, fold, depth, tally):
    """Mirrors the part of a seam's cut line beyond the fold in the fold; it has to lie on the rest."""
    points, _ = seam_cut.samples(0.25)
    corner = fold.start if near(fold.start, points) < near(fold.end, points) else fold.end
    # A leg opening runs on over its seams with one curvature; a top edge runs straight on.
    long_fold = fold.carried_on(60.0, MOST_TURN) if "leg" in where else fold.extended(60.0)
    own = points[np.hypot(*(points - corner).T) < 2 * depth + 20]
    signed = np.array([beyond(long_fold, p) for p in own])
    out = own[signed > 0.02]
    inside = own[signed <= 0.02]
    if len(out) == 0 or len(inside) == 0:
        tally.add(float("nan"), f"{where}: no part beyond the fold")
        return
    # The whole allowance has to be covered, not just a bit of it.
    tally.add(max(0.0, depth - signed.max() - 0.01), f"{where}: reaches {signed.max():.3f} of {depth:g}")
    for p in out[:: max(len(out) // POINTS, 1)]:
        foot, _ = long_fold.nearest(p)
        image = 2 * foot - p
        tally.add(distance_to(inside, image), f"{where}, {np.hypot(*(p - foot)):.2f} mm beyond the fold")


def straight_end(where, seam_cut, net, fold, allowance_and_depth, tally):
    """The seam's cut line beyond the edge: on the tangent of the seam's end, its allowance away, and from
    there square to the seam itself, where the edge's cut line ends."""
    allowance, depth = allowance_and_depth
    at_start = min(np.hypot(*(net.start - p)) for p in (fold.start, fold.end)) < 1e-3
    corner, on = (net.start, -net.start_direction()) if at_start else (net.end, net.end_direction())
    # Outward of a clockwise outline is to the left of its walk, y down.
    out = np.array([-on[1], on[0]]) if at_start else np.array([on[1], -on[0]])
    end, square = (seam_cut.start, seam_cut.segments[0]) if at_start else (seam_cut.end, seam_cut.segments[-1])
    foot = square.at(1.0) if at_start else square.at(0.0)
    # The finished edge itself runs on over its seam as the leg opening bends.
    reached = beyond(fold.carried_on(60.0, MOST_TURN), end)
    tally.add(reached - depth, f"{where}: ends {reached:.3f} of {depth:g} beyond the finished edge")
    tally.add((end - corner) @ out, f"{where}: its end beside the stitches")
    tally.add((end - foot) @ on, f"{where}: its end out of square")
    points, _ = seam_cut.samples(0.25)
    for p in points:
        along = (p - corner) @ on
        if 0.0 < along < (foot - corner) @ on - 1e-3:
            tally.add((p - corner) @ out - allowance, f"{where}, {along:.2f} mm beyond the seam's end")


def near(p, points):
    return np.hypot(*(points - p).T).min()


def beyond(fold, p):
    """Signed distance outward of a clockwise outline."""
    foot, d = fold.nearest(p)
    return float((p - foot) @ np.array([d[1], -d[0]]))


def distance_to(line, p):
    """From a point to a polyline through points that follow each other."""
    a, b = line[:-1], line[1:]
    ab = b - a
    keep = (ab**2).sum(axis=1) < 1.0
    a, ab = a[keep], ab[keep]
    t = np.clip(((p - a) * ab).sum(axis=1) / (ab**2).sum(axis=1), 0, 1)
    return float(np.hypot(*(a + t[:, None] * ab - p).T).min())
