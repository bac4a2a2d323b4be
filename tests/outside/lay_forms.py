"""The lay in other forms: more pairs, another gap, another width, and the file to cut by laid by it."""

import json
import subprocess
import tempfile
from pathlib import Path
from xml.etree import ElementTree

import numpy as np
from shapely import affinity
from shapely.geometry import Polygon

from cutter_files import ring
from lay import on_cloth, placed
from record import Record
from tally import Tally

# Flags, and the gap, of the forms that the demo sheets are laid in as well.
FORMS = [
    (["--pairs", "2", "--gap", "8"], 8.0),
    (["--pairs", "3", "--lay", "--cut-width", "900"], 5.0),
]


def checks(record, sheet, job):
    # The demo sheets alone have other forms.
    for flags, gap in FORMS if job["variants"] else []:
        with tempfile.TemporaryDirectory() as folder:
            yield from form(sheet, job, folder, flags, gap)


def form(sheet, job, folder, flags, gap):
    subprocess.run([job["program"], "draft", job["sheet"], "-o", folder, *flags], check=True, capture_output=True)
    path = next(Path(folder).glob("*.json"))
    record = Record(json.loads(path.read_text(encoding="utf-8")))
    width = float(flags[flags.index("--cut-width") + 1]) if "--cut-width" in flags else sheet.mm("fabric", "width")
    title = " ".join(flags)
    yield from on_cloth(record, sheet, job, title, gap, width)
    if "--lay" in flags:
        yield cutter_file(record, path.with_name(path.stem + "-cut.svg"), title)


def cutter_file(record, path, title):
    """The outlines in the file to cut by lie as the record says; all of it may be moved."""
    same = Tally(f"lay, {title}: outlines to cut lie as in the record", 0.05, "mm")
    root = ElementTree.parse(path).getroot()
    paths = [e for e in root.iter("{http://www.w3.org/2000/svg}path") if e.get("data-line") == "cut"]
    drawn = [Polygon(ring(e.get("d"))) for e in paths]
    laid = placed(record, record.data["lays"][0])
    same.add(float("inf") if len(drawn) != len(laid) else 0.0, "their number")
    corner = lambda shapes: np.min([s.bounds[:2] for s in shapes], axis=0)
    shift = corner(laid) - corner(drawn)
    for shape in drawn:
        moved = affinity.translate(shape, *shift)
        same.add(nearest(moved, laid), "an outline")
    return same.result()


def nearest(shape, others):
    """The least Hausdorff distance to one of the others; two boxes differ by no more than their shapes do."""
    boxes = sorted((max(abs(a - b) for a, b in zip(shape.bounds, other.bounds)), i) for i, other in enumerate(others))
    least = float("inf")
    for at_least, i in boxes:
        if at_least >= least:
            break
        least = min(least, shape.hausdorff_distance(others[i]))
    return least
