"""The lay: whole outlines of the record, turned and moved as it says, held against shapely (GEOS).

The outlines are unfolded and flattened here; the program's own polygons are never looked at.
"""

from shapely import affinity, dwithin, prepare
from shapely.geometry import Polygon, box

from record import polygon_points, unfolded
from tally import Facts, Tally

STEP = 1.0
# Chords of a millimetre stray from a curve of 20 mm radius by 0.006 mm; both outlines do.
CHORDS = 0.015
# No corner is mitred by more than this many times half a kerf.
MITRE = 4.2


def checks(record, sheet, job):
    yield from on_cloth(record, sheet, job, "1 pair", 5.0, sheet.mm("fabric", "width"))


def on_cloth(record, sheet, job, title, gap, width, kerf=0.0):
    """Nothing to check where the sheet does not say how wide the cloth is, and then no lay either.

    A tool takes half a kerf off all round each piece, so that they lie a kerf further apart.
    """
    lays = record.data.get("lays", [])
    facts = Facts(f"lay, {title}: every piece is there, along the grain, turned only where it may be")
    if width is None:
        facts.add(not lays, "a lay without a width of cloth")
        yield facts.result()
        return
    near = Tally(f"lay, {title}: what a pair of pieces lacks of the gap", CHORDS)
    beyond = Tally(f"lay, {title}: what lies beyond the cloth", 2e-6, "mm")
    used = Tally(f"lay, {title}: length and use are those of the outlines", 0.01, "mm or %")
    facts.add(len(lays) == len({p["material"] for p in record.pieces.values()}), f"{len(lays)} lays")
    for lay in lays:
        counts(facts, record, lay, sheet.get("fabric", "nap", False))
        shapes = placed(record, lay)
        for i, one in enumerate(shapes):
            for j, other in enumerate(shapes[:i]):
                near.add(lacks(one, other, gap + kerf) + one.intersection(other).area, f"{i} and {j}")
        edges = [s.bounds for s in shapes]
        low = min(min(b[0], b[1]) for b in edges)
        high = max(max(b[2] - lay["width_mm"], b[3] - lay["length_mm"]) for b in edges)
        # The points are on the curves, so that chords lie inside.
        beyond.add(max(0.0, kerf / 2 - low if kerf else -low, high + kerf / 2), "the edges of the cloth")
        beyond.add(lay["width_mm"] - width, "the width of the cloth")
        # With a kerf there is half of it below, and more at corners.
        over = lay["length_mm"] - max(b[3] for b in edges)
        used.add(over if not kerf else max(0.0, kerf / 2 - over, over - MITRE * kerf / 2), "length")
        used.add(100 * sum(s.area for s in shapes) / box(0, 0, lay["width_mm"], lay["length_mm"]).area - lay["use_percent"], "use")
    yield from (t.result() for t in (facts, near, beyond, used))


def lacks(one, other, gap):
    """What two shapes lack of a gap, mm. Those that lie further apart are told at once, the others are measured."""
    prepare(one)
    return max(0.0, gap - one.distance(other)) if dwithin(one, other, gap) else 0.0


def counts(facts, record, lay, nap):
    names = [p["piece"] for p in lay["placed"]]
    for name, piece in record.pieces.items():
        wanted = piece["quantity"] * lay["pairs"] if piece["material"] == lay["cloth"] else 0
        facts.add(names.count(name) == wanted, f"{names.count(name)} of {name}, not {wanted}")
    facts.add(all(p["turn"] in ([0] if nap else [0, 180]) for p in lay["placed"]), "a piece is turned off the grain")


def placed(record, lay):
    """The whole outlines on the cloth: turned about their origins, then moved."""
    whole = {n: Polygon(polygon_points(unfolded(p, record.loop(n, "cut")), STEP)) for n, p in record.pieces.items()}
    turned = ((p, affinity.rotate(whole[p["piece"]], p["turn"], origin=(0, 0))) for p in lay["placed"])
    return [affinity.translate(shape, p["x"], p["y"]) for p, shape in turned]
