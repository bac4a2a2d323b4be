"""Pieces on beds of a width and a length: every outline whole on one bed, apart from the others, and as it is
without beds but for a quarter turn. Flattened by ezdxf, measured by shapely."""

import subprocess
import tempfile
from pathlib import Path

from shapely import affinity
from shapely.geometry import Polygon

import drawings
from cutter_files import flat, ring
from lay_forms import cut_paths
from tally import Facts, Tally

# Between two beds, and between two pieces on one, mm.
BETWEEN, APART = 20.0, 10.0
# Chords stray from the curve by this, mm.
STRAY = 0.05
# What is turned, and how long the bed is beside its longest piece, mm.
FORMS = [([], 0.0), (["--pairs", "2"], 35.0), (["--halves", "--quarter-turns"], 0.0), (["--quarter-turns", "--pairs", "3"], 60.0)]


def checks(record, sheet, job):
    # The demo sheets alone have other forms.
    for flags, more in FORMS if job["variants"] else []:
        title = " ".join(["beds", *flags])
        plain = drafted(job, [f for f in flags if f != "--quarter-turns"])["DXF"]
        side = max(max(p.bounds[2] - p.bounds[0], p.bounds[3] - p.bounds[1]) for p in plain) + more
        bed = (round(side) + 1.0, round(side) + 1.0)
        own = drafted(job, [*flags, "--cut-width", str(bed[0]), "--cut-length", str(bed[1])])
        for kind, found in own.items():
            yield from lie(found, bed, f"{title}, {kind}")
            yield same(found, plain, "--quarter-turns" in flags, f"{title}, {kind}")


def drafted(job, flags):
    """The outlines to cut of both files, y up or down as each has it."""
    with tempfile.TemporaryDirectory() as folder:
        subprocess.run([job["program"], "draft", job["sheet"], "-o", folder, *flags], check=True, capture_output=True)
        dxf = next(Path(folder).glob("*-cut.dxf"))
        lines = [Polygon(flat(e)) for e in drawings.read(dxf).modelspace() if e.dxf.layer == "CUT"]
        return {"DXF": lines, "SVG": [Polygon(ring(e.get("d"))) for e in cut_paths(dxf.with_suffix(".svg"))]}


def lie(found, bed, title):
    """Whole on one bed each; beds lie one above the other, none of them empty."""
    beyond = Tally(f"{title}: what outlines reach beyond their bed", STRAY)
    near = Tally(f"{title}: what two boxes on one bed lack of {APART:g} mm", 2 * STRAY)
    beds = Facts(f"{title}: every bed has something on it")
    pitch = bed[1] + BETWEEN
    which = [round((p.centroid.y - bed[1] / 2) / pitch) for p in found]
    for i, (p, n) in enumerate(zip(found, which)):
        x0, y0, x1, y1 = p.bounds
        beyond.add(max(0.0, -x0, x1 - bed[0], n * pitch - y0, y1 - n * pitch - bed[1]), f"outline {i}")
        for j, (q, m) in enumerate(zip(found[:i], which)):
            if m == n:
                a, b = p.bounds, q.bounds
                apart = max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])
                near.add(max(0.0, APART - apart), f"{i} and {j}")
    for n in range(max(which) + 1):
        beds.add(n in which, f"bed {n + 1}")
    return [beyond.result(), beds.result()] + ([near.result()] if near.count else [])


def same(found, plain, may_turn, title):
    """Each outline once, turned by a quarter at most; SVG looks down, so that it is mirrored first."""
    off = Tally(f"{title}: outlines as without beds", 4 * STRAY)
    down = title.endswith("SVG")
    shapes = [at_origin(affinity.scale(p, 1, -1) if down else p) for p in found]
    wanted = [at_origin(p) for p in plain]
    off.add(float("inf") if len(shapes) != len(wanted) else 0.0, "their number")
    for i, shape in enumerate(shapes):
        ways = [shape] + [at_origin(affinity.rotate(shape, by)) for by in (90, -90) if may_turn]
        least, k = min((way.hausdorff_distance(w), k) for way in ways for k, w in enumerate(wanted))
        off.add(least, f"outline {i}")
        wanted.pop(k)
    return off.result()


def at_origin(shape):
    return affinity.translate(shape, -shape.bounds[0], -shape.bounds[1])
