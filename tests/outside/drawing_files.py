"""The DXF files, read and audited by ezdxf; areas by shapely."""

from shapely.geometry import Polygon

import ezdxf

from tally import Facts, Tally

# The design: area and perimeter within 0.05 % of the record's.
SHARE = 0.05
CUT_LAYER = "CUT"
# ASTM D6673 (withdrawn 2019, still exchanged): layer 1 is the piece boundary.
BOUNDARY_LAYER = "1"
OUTLINES = "LWPOLYLINE POLYLINE"


def checks(record, sheet, job):
    cut = job["file"]("-cut.dxf")
    yield audit("the file to cut by", cut)
    yield from cut_outlines(record, ezdxf.readfile(cut))
    pieces = job["file"]("-pieces.dxf")
    yield audit("the file to exchange", pieces)
    yield from blocks(record, ezdxf.readfile(pieces))


def audit(title, path):
    facts = Facts(f"{title} audits at 0 errors and 0 fixes")
    auditor = ezdxf.readfile(path).audit()
    facts.add(not auditor.errors, f"{len(auditor.errors)} errors: {[e.message for e in auditor.errors[:3]]}")
    facts.add(not auditor.fixes, f"{len(auditor.fixes)} fixes: {[e.message for e in auditor.fixes[:3]]}")
    return facts.result()


def ring(entity):
    """The corners of a closed polyline of straight pieces."""
    if entity.dxftype() == "LWPOLYLINE":
        points = list(entity.get_points("xyb"))
    else:
        points = [(v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices]
    if any(b for _, _, b in points):
        raise ValueError("an outline has arcs; it is agreed to be straight pieces")
    return Polygon([(x, y) for x, y, _ in points])


def closed(entity):
    return entity.closed if entity.dxftype() == "LWPOLYLINE" else entity.is_closed


def cut_outlines(record, doc):
    layer = Facts("one closed outline per piece on the cut layer, in millimetres")
    # $INSUNITS 4 is the millimetre (DXF reference).
    layer.add(doc.header.get("$INSUNITS") == 4, f"$INSUNITS is {doc.header.get('$INSUNITS')}")
    entities = [e for e in doc.modelspace() if e.dxf.layer == CUT_LAYER]
    layer.add(len(entities) == len(record.pieces), f"{len(entities)} entities for {len(record.pieces)} pieces")
    layer.add(all(e.dxftype() in OUTLINES and closed(e) for e in entities), "something else than a closed polyline")
    yield layer.result()
    rings = [ring(e) for e in entities]
    yield from sizes(record, list(zip(record.pieces.values(), rings)), "the file to cut by")
    apart = Facts("pieces lie apart in the file to cut by")
    for i, a in enumerate(rings):
        apart.add(a.is_valid, f"piece {i} is not simple")
        for b in rings[:i]:
            apart.add(a.disjoint(b), f"piece {i} touches another")
    yield apart.result()


def sizes(record, pairs, title):
    """The pieces come in the record's order."""
    area = Tally(f"areas in {title}", SHARE, "%")
    perimeter = Tally(f"perimeters in {title}", SHARE, "%")
    for piece, polygon in pairs:
        area.add(100 * (polygon.area / piece["area_mm2"] - 1), piece["name"])
        perimeter.add(100 * (polygon.exterior.length / piece["perimeter_mm"] - 1), piece["name"])
    yield from (t.result() for t in (area, perimeter))


def blocks(record, doc):
    found = Facts("one block per piece in the file to exchange, one boundary each")
    pairs = []
    # Names that begin with * are the format's own (model and paper space).
    named = [b for b in doc.blocks if not b.name.startswith("*")]
    found.add(len(named) == len(record.pieces), f"blocks {[b.name for b in named]}")
    for block, piece in zip(named, record.pieces.values()):
        boundaries = [e for e in block if e.dxf.layer == BOUNDARY_LAYER and e.dxftype() in OUTLINES.split()]
        found.add(len(boundaries) == 1 and closed(boundaries[0]), f"{block.name}: {len(boundaries)} boundaries")
        if boundaries:
            pairs.append((piece, ring(boundaries[0])))
    yield found.result()
    yield from boundary_sizes(pairs)


def boundary_sizes(pairs):
    """A half piece is given as its half, with a mirror line: half the area."""
    area = Tally("areas in the file to exchange", SHARE, "%")
    for piece, polygon in pairs:
        halves = 2 if piece["on_fold"] else 1
        area.add(100 * (halves * polygon.area / piece["area_mm2"] - 1), piece["name"])
    yield area.result()
