"""Outlines as polygons: shapely (GEOS, OGC Simple Features)."""

from shapely.geometry import LinearRing, Polygon

from record import ROWS, polygon_points, unfolded
from tally import Facts, Tally

STEP = 0.5


def checks(record, sheet, job):
    simple = Facts("outlines are simple")
    inside = Tally("the cut line encloses the sewing line", 0.0, "mm outside")
    for name, piece in record.pieces.items():
        shapes = {}
        for row in ROWS:
            ring = polygon_points(unfolded(piece, record.loop(name, row)), STEP)
            simple.add(LinearRing(ring).is_simple, f"{name} {row}")
            shapes[row] = Polygon(ring)
            simple.add(shapes[row].is_valid, f"{name} {row}")
        # Chords of half a millimetre stray from a curve of 20 mm radius by 0.002 mm.
        outer = shapes["cut"].buffer(0.005)
        sound = shapes["sewing"].is_valid and outer.is_valid
        inside.add(shapes["sewing"].difference(outer).length if sound else float("inf"), name)
    yield from (t.result() for t in (simple, inside))
