"""The draft against the sheet: what the design says must hold, numbers 3 and 4, and the gusset.

Expected values are worked out from the sheet and the design's formulas alone (sheet.py);
measured ones from the record's finished edges, brought back to the washed garment.
"""

from scipy.optimize import brentq

from record import unfolded, whole
from tally import Tally

LIMIT = 0.01


def washed(sheet, curve):
    across, along = sheet.shrink
    return curve.mapped(lambda p: p * (1 - across, 1 - along))


def centre_length(sheet, record, piece):
    """Between the two places where a finished outline crosses x = 0."""
    ys = []
    outline = washed(sheet, whole(unfolded(record.pieces[piece], record.loop(piece, "finished"))))
    for s in outline.segments:
        a, b = s.p[0, 0], s.p[3, 0]
        if abs(a) < 1e-5:
            ys.append(s.p[0, 1])
        elif abs(b) >= 1e-5 and a * b < 0:
            t = brentq(lambda t: s.at(t)[0], 0.0, 1.0, xtol=1e-14)
            ys.append(float(s.at(t)[1]))
    return max(ys) - min(ys)


def checks(record, sheet, job):
    centres = Tally("centre lengths follow from the sheet", LIMIT)
    front_drop, side_drop, back_drop = sheet.drops()
    along = 1 + sheet.ease[1]
    length, forward = sheet.gusset_length, sheet.forward
    front = (sheet.crotch_front - front_drop) * along - forward * length
    back = (sheet.crotch - sheet.crotch_front - back_drop) * along - (1 - forward) * length
    for piece, wanted in (("front", front), ("back", back), ("gusset", length)):
        found = centre_length(sheet, record, piece)
        centres.add(found - wanted, f"{piece}: {found:.3f} for {wanted:.3f}")
    yield centres.result()

    rings = Tally("girths follow from the sheet", LIMIT)
    top = sum(washed(sheet, record.edge(r, "finished")).length() for r in record.data["openings"][0]["path"])
    rings.add(top - sheet.top_ring(), f"top edge: {top:.3f} for {sheet.top_ring():.3f}")
    side, foot = side_seams(record, sheet)
    wanted = sheet.girth(side_drop + side) * (1 + sheet.ease[0])
    rings.add(foot - wanted, f"foot of the side seams: {foot:.3f} for {wanted:.3f}")
    yield rings.result()


def side_seams(record, sheet):
    """The side seam's length, washed, and the whole width round the feet of both."""
    feet, length = 0.0, None
    for seam in record.data["seams"]:
        if "side" not in seam["name"]:
            continue
        for side in "ab":
            curve = washed(sheet, record.edge(seam[side], "finished"))
            foot = max(curve.start, curve.end, key=lambda p: p[1])
            feet += abs(foot[0])
            # The design adds shrinkage to lengths along the body.
            length = record.edge(seam[side], "finished").length() * (1 - sheet.shrink[1])
    return length, feet
