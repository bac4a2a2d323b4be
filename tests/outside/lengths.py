"""Lengths along curves: scipy.integrate.quad over the record's own paths."""

from tally import Tally

# The design: 0.001 mm between the integral and the record; what must hold, number 1.
SAME, FINISHED, SEWN = 0.001, 0.01, 0.05


def checks(record, sheet, job):
    yield from seams(record)
    yield from openings(record)


def seams(record):
    same = Tally("seam lengths equal their integrals", SAME)
    finished = Tally("both sides of every seam, finished edges", FINISHED)
    sewn = Tally("both sides of every seam, sewing lines", SEWN)
    for seam in record.data["seams"]:
        f = {s: record.edge(seam[s], "finished").length() for s in "ab"}
        w = {s: record.edge(seam[s], "sewing").length() for s in "ab"}
        for s in "ab":
            same.add(f[s] - seam[f"length_{s}"], f"{seam['name']} length_{s}")
            same.add(w[s] - seam[f"sewn_{s}"], f"{seam['name']} sewn_{s}")
        same.add(f["a"] - f["b"] - seam["difference"], f"{seam['name']} difference")
        finished.add(f["a"] - f["b"], seam["name"])
        sewn.add(w["a"] - w["b"], seam["name"])
    yield from (t.result() for t in (same, finished, sewn))


def openings(record):
    same = Tally("section and opening lengths equal their integrals", SAME)
    chained = Tally("each opening's edges meet on the finished line", 0.001)
    for opening in record.data["openings"]:
        total = dict.fromkeys(("finished", "sewing", "cut"), 0.0)
        for ref, section in zip(opening["path"], opening["sections"], strict=True):
            for row in total:
                length = record.edge(ref, row).length()
                total[row] += length
                same.add(length - section[row], f"{opening['name']} {section['name']} {row}")
        for row, length in total.items():
            same.add(length - opening[row], f"{opening['name']} {row}, whole ring")
        chain(record, opening, chained)
    yield from (t.result() for t in (same, chained))


def chain(record, opening, tally):
    """Consecutive edges on one piece meet; from piece to piece they meet at a seam's end.

    Pieces lie apart, so what can be compared is the distance from the seam's other end: both
    sides of a seam are equally long, and an opening's edge ends at an end of it.
    """
    ends = [record.edge(ref, "finished") for ref in opening["path"]]
    seam_ends = {}
    for seam in record.data["seams"]:
        for side in "ab":
            c = record.edge(seam[side], "finished")
            seam_ends.setdefault(seam[side]["piece"], []).extend([c.start, c.end])
    for i, ref in enumerate(opening["path"]):
        here, after = ends[i], opening["path"][(i + 1) % len(ends)]
        following = ends[(i + 1) % len(ends)]
        if ref["piece"] == after["piece"]:
            tally.add(abs(here.end - following.start).max(), f"{opening['name']}: {ref['edge']} to {after['edge']}")
        else:
            for piece, p in ((ref["piece"], here.end), (after["piece"], following.start)):
                tally.add(min(abs(p - q).max() for q in seam_ends[piece]), f"{opening['name']}: seam end on {piece}")
