"""The lay in other forms: more pairs, another gap, another width, and the file to cut by laid by it."""

import json
import subprocess
import tempfile
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
from shapely import STRtree, affinity, linestrings, points
from shapely.geometry import Polygon

import drawings
from cutter_files import flat, ring
from lay import lacks, on_cloth, placed
from record import Record
from tally import Facts, Tally

# Flags, the gap, and the kerf, of the forms that the demo sheets are laid in as well.
FORMS = [
    (["--pairs", "2", "--gap", "8"], 8.0, 0.0),
    (["--pairs", "3", "--lay", "--cut-width", "900"], 5.0, 0.0),
    (["--pairs", "2", "--lay", "--cut-width", "900", "--gap", "0", "--kerf", "0.15"], 0.0, 0.15),
    (["--pairs", "2", "--lay", "--cut-width", "900", "--gap", "1", "--kerf", "3"], 1.0, 3.0),
    (["--pairs", "2", "--lay", "--cut-width", "900", "--gap", "3", "--kerf", "1", "--curves", "arcs"], 3.0, 1.0),
]
# Chords and arcs of the file stray so far from what was laid, either of two lines, mm.
STRAY = 0.05


def checks(record, sheet, job):
    # The demo sheets alone have other forms.
    for flags, gap, kerf in FORMS if job["variants"] else []:
        with tempfile.TemporaryDirectory() as folder:
            yield from form(sheet, job, folder, flags, (gap, kerf))


def form(sheet, job, folder, flags, distances):
    gap, kerf = distances
    subprocess.run([job["program"], "draft", job["sheet"], "-o", folder, *flags], check=True, capture_output=True)
    path = next(Path(folder).glob("*.json"))
    record = Record(json.loads(path.read_text(encoding="utf-8")))
    width = float(flags[flags.index("--cut-width") + 1]) if "--cut-width" in flags else sheet.mm("fabric", "width")
    title = " ".join(flags)
    yield from on_cloth(record, sheet, job, title, gap, width, kerf)
    if "--lay" in flags:
        svg = [Polygon(ring(e.get("d"))) for e in cut_paths(path.with_name(path.stem + "-cut.svg"))]
        dxf = drawings.read(path.with_name(path.stem + "-cut.dxf"))
        lines = [Polygon(flat(e)) for e in dxf.modelspace() if e.dxf.layer == "CUT"]
        yield from cut_apart(svg, f"{title}, SVG", gap, width)
        yield from cut_apart(lines, f"{title}, DXF", gap, width)
        if not kerf:
            yield cutter_file(record, svg, title)


def cut_apart(shapes, title, gap, width):
    """What the tool runs along: inside the width, a gap apart, and never one line over another."""
    near = Tally(f"lay, {title}: what two outlines to cut lack of the gap", 2 * STRAY)
    beyond = Tally(f"lay, {title}: what outlines to cut reach beyond the width", STRAY, "mm")
    crossing = Facts(f"lay, {title}: no outline to cut crosses another")
    for i, one in enumerate(shapes):
        beyond.add(max(0.0, -one.bounds[0], one.bounds[2] - width), f"outline {i}")
        for j, other in enumerate(shapes[:i]):
            near.add(lacks(one, other, gap), f"{i} and {j}")
            crossing.add(not one.intersects(other), f"{i} and {j}")
    crossing.add(len(shapes) > 0, "no outlines")
    yield from (t.result() for t in (near, beyond, crossing))


def cut_paths(path):
    root = ElementTree.parse(path).getroot()
    return [e for e in root.iter("{http://www.w3.org/2000/svg}path") if e.get("data-line") == "cut"]


def cutter_file(record, drawn, title):
    """The outlines in the file to cut by lie as the record says; all of it may be moved."""
    same = Tally(f"lay, {title}: outlines to cut lie as in the record", 0.05, "mm")
    laid = placed(record, record.data["lays"][0])
    same.add(float("inf") if len(drawn) != len(laid) else 0.0, "their number")
    corner = lambda shapes: np.min([s.bounds[:2] for s in shapes], axis=0)
    shift = corner(laid) - corner(drawn)
    for shape in drawn:
        moved = affinity.translate(shape, *shift)
        same.add(nearest(moved, laid), "an outline")
    return same.result()


def nearest(shape, others):
    """The least distance from a corner of either to the other's outline, of one of the others; two boxes differ by
    no more than their shapes do."""
    boxes = sorted((max(abs(a - b) for a, b in zip(shape.bounds, other.bounds)), i) for i, other in enumerate(others))
    least = float("inf")
    for at_least, i in boxes:
        if at_least >= least:
            break
        least = min(least, max(farthest(shape, others[i]), farthest(others[i], shape)))
    return least


def farthest(shape, other):
    """Of the corners of an outline, from another one: by a tree of its sides."""
    corners = np.asarray(other.exterior.coords)
    sides = STRtree(linestrings(np.stack([corners[:-1], corners[1:]], axis=1)))
    _, apart = sides.query_nearest(points(shape.exterior.coords), return_distance=True, all_matches=False)
    return float(apart.max())
