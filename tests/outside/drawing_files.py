"""The DXF files, read and audited by ezdxf; areas by shapely."""

import json
import subprocess
import tempfile
from pathlib import Path

import ezdxf
from ezdxf import bbox, units
from shapely.geometry import Polygon

import drawings
from record import polygon_points
from tally import Facts, Tally

# The design: area and perimeter within 0.05 % of the record's.
SHARE = 0.05
CUT_LAYER = "CUT"
# ASTM D6673 (withdrawn 2019, still exchanged): layer 1 is the piece boundary.
BOUNDARY_LAYER = "1"
OUTLINES = "LWPOLYLINE POLYLINE"


def checks(record, sheet, job):
    cut = job["file"]("-cut.dxf")
    yield from cut_outlines(record, drawings.read(cut))
    pieces = job["file"]("-pieces.dxf")
    yield from blocks(record, drawings.read(pieces))
    yield from headers([cut, pieces], "headers")
    yield trusted(record, [cut, pieces])
    # An audit mends what it finds: nothing is read of a drawing after it.
    yield audit("the file to cut by", cut)
    yield audit("the file to exchange", pieces)
    # That hangs on the program and not on the sheet: the demo sheets tell it.
    if job["variants"]:
        yield spaces(job, pieces)


def audit(title, path):
    facts = Facts(f"{title} audits at 0 errors and 0 fixes")
    auditor = drawings.read(path).audit()
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


# Three numbers of six decimals: the extent, where a block is inserted, and the place in it, mm.
ROUNDED = 3 * 0.5e-6


def headers(paths, title):
    """A reader that trusts headers scales by their unit and places by their extents."""
    said = Facts(f"{title} say millimetres in every version ($INSUNITS 4, $MEASUREMENT 1: DXF reference)")
    holds = Tally(f"extents in {title} hold every line, and end at lines or text", 1.0)
    for path in paths:
        doc = drawings.read(path)
        header = doc.header
        where = f"{path.parent.name}/{path.name}, {doc.acad_release}"
        said.add(doc.units == units.MM and header.get("$MEASUREMENT") == 1, f"{where}: unit {doc.units}")
        lines = bbox.extents(e for e in doc.modelspace() if e.dxftype() != "TEXT")
        everything = bbox.extents(doc.modelspace())
        low, high = header["$EXTMIN"], header["$EXTMAX"]
        for axis in (0, 1):
            beyond = max(low[axis] - lines.extmin[axis], lines.extmax[axis] - high[axis], 0.0)
            holds.add(beyond / ROUNDED, f"{where}: outside")
            # How wide letters are is the reader's own affair.
            if axis == 1:
                holds.add(low[axis] - everything.extmin[axis], f"{where}: foot")
                holds.add(high[axis] - everything.extmax[axis], f"{where}: head")
    yield from (said.result(), holds.result())


def trusted(record, paths):
    size = Tally("pieces have their size to a reader that trusts the unit", 0.05)
    for path in paths:
        doc = drawings.read(path)
        factor = units.conversion_factor(doc.units, units.MM)
        for piece, found in zip(record.pieces.values(), sizes_of(doc), strict=True):
            want = record_size(record, piece, whole=path is paths[0])
            for axis in (0, 1):
                size.add(found[axis] * factor - want[axis], f"{piece['name']} in {path.name}")
    return size.result()


def sizes_of(doc):
    """Width and height of every piece's outline, in the file's own units."""
    cut = [e for e in doc.modelspace() if e.dxf.layer == CUT_LAYER]
    named = [b for b in doc.blocks if not b.name.startswith("*")]
    bounds = [e for b in named for e in b if e.dxf.layer == BOUNDARY_LAYER and e.dxftype() in OUTLINES.split()]
    for entity in cut or bounds:
        low_x, low_y, high_x, high_y = ring(entity).bounds
        yield high_x - low_x, high_y - low_y


def record_size(record, piece, whole):
    points = polygon_points([c for _, c in record.loop(piece["name"], "cut")], 0.2)
    low, high = points.min(axis=0), points.max(axis=0)
    width = 2 * high[0] if whole and piece["on_fold"] else high[0] - low[0]
    return width, high[1] - low[1]


def spaces(job, path):
    """Another program writes the file again, with blocks of its own for the spaces: they are no pieces."""
    facts = Facts("a file to exchange that ezdxf has written again has nothing against it but its version")
    with tempfile.TemporaryDirectory() as folder:
        for version in ("R12", "R2000", "R2010"):
            doc = ezdxf.readfile(path)
            doc.dxfversion = version
            again = Path(folder) / f"{version}.dxf"
            doc.saveas(again)
            run = subprocess.run([job["program"], "inspect", "--json", str(again)], capture_output=True, text=True)
            codes = [c["code"] for c in json.loads(run.stdout)["checks"]]
            facts.add(codes == ([] if version == "R12" else ["dxf-version"]), f"{version}: {codes}")
    return facts.result()
