"""The SVG as a foreign renderer (resvg) sees it: page and outlines at true size."""

import io
import re
from xml.etree import ElementTree

import numpy as np
import resvg_py
from PIL import Image

from record import polygon_points
from tally import Facts, Tally

# Four pixels to the millimetre.
PER_MM = 4
DPI = 25.4 * PER_MM


def checks(record, sheet, job):
    text = job["file"](".svg").read_text(encoding="utf-8")
    page = Tally("the SVG's page as rendered is as large as it says", 1.0 / PER_MM)
    wide, high = (float(re.search(rf' {key}="([\d.]+)mm"', text).group(1)) for key in ("width", "height"))
    size = picture(text).size
    page.add(size[0] / PER_MM - wide, f"width {size[0]} px")
    page.add(size[1] / PER_MM - high, f"height {size[1]} px")
    yield page.result()

    yield described(text, sheet)
    outline = Tally("outlines in the SVG as rendered are as large as the record says", 2.0 / PER_MM)
    for name, found in outlines(text, record).items():
        points = polygon_points([c for _, c in record.loop(name, "cut")], 0.2)
        for axis, want in enumerate(points.max(axis=0) - points.min(axis=0)):
            outline.add(found[axis] - want, f"{name}, {'width' if axis == 0 else 'height'} {want:.2f}")
    yield outline.result()
    yield cut_outlines(record, job["file"]("-cut.svg").read_text(encoding="utf-8"))


def cut_outlines(record, text):
    """Whole pieces, as resvg draws them."""
    size = Tally("outlines for home cutters as rendered are as large as the record says", 2.0 / PER_MM)
    head = re.search(r"<svg [^>]*>", text).group(0)
    for name, piece in record.pieces.items():
        points = polygon_points([c for _, c in record.loop(name, "cut")], 0.2)
        wide, high = points.max(axis=0) - points.min(axis=0)
        wide = 2 * points[:, 0].max() if piece["on_fold"] else wide
        path = re.search(rf'<path [^>]*id="{name.replace(" ", "-")}-outline"[^>]*>', text).group(0)
        found = filled(head, path)
        size.add(found[0] - wide, f"{name}, width {wide:.2f}")
        size.add(found[1] - high, f"{name}, height {high:.2f}")
    return size.result()


def described(text, sheet):
    """Read as RDF by Python's own XML reader; terms of Dublin Core (ISO 15836)."""
    facts = Facts("the SVG says what it is and who made it")
    space = {"svg": "http://www.w3.org/2000/svg", "dc": "http://purl.org/dc/elements/1.1/"}
    terms = lambda name: [e.text for e in ElementTree.fromstring(text.encode()).findall(f"svg:metadata//dc:{name}", space)]
    facts.add(terms("title") == [sheet.name], f"title {terms('title')}")
    facts.add(terms("creator") == ["quarterpin"], f"creator {terms('creator')}")
    date = sheet.get("sheet", "date")
    facts.add(terms("date") == ([] if date is None else [str(date)]), f"date {terms('date')} for {date}")
    return facts.result()


def outlines(text, record):
    """Width and height of every piece's cut line, mm, in its picture."""
    head = re.search(r"<svg [^>]*>", text).group(0)
    found = {}
    for name in record.pieces:
        ident = name.replace(" ", "-")
        path = re.search(rf'<path [^>]*id="{ident}-cut-outline"[^>]*>', text).group(0)
        found[name] = filled(head, path)
    return found


def filled(head, path):
    """Width and height of an outline, mm, in its picture."""
    # Filled, not drawn round: a line's mitre stands out beyond a sharp corner.
    path = re.sub(r' stroke="[^"]*"', "", path).replace('fill="none"', 'fill="#000000"')
    ink = np.array(picture(f"{head}{path}</svg>"))[:, :, 3] > 127
    marked = [np.flatnonzero(ink.any(axis=axis)) for axis in (0, 1)]
    return tuple((m[-1] - m[0] + 1) / PER_MM for m in marked)


def picture(text):
    return Image.open(io.BytesIO(bytes(resvg_py.svg_to_bytes(svg_string=text, dpi=DPI, skip_system_fonts=True))))
