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
# One for each piece of a garment that has them all, told apart by what of red, green and blue is in them.
COLOURS = ["#000", "#f00", "#0f0", "#00f", "#ff0", "#f0f", "#0ff", "#fff"]


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
    for name, found in filled(text, {name: f"{ident(name)}-outline" for name in record.pieces}).items():
        points = polygon_points([c for _, c in record.loop(name, "cut")], 0.2)
        wide, high = points.max(axis=0) - points.min(axis=0)
        wide = 2 * points[:, 0].max() if record.pieces[name]["on_fold"] else wide
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


def ident(name):
    return name.replace(" ", "-")


def outlines(text, record):
    """Width and height of every piece's cut line, mm, in its picture."""
    return filled(text, {name: f"{ident(name)}-cut-outline" for name in record.pieces})


def filled(text, paths):
    """Width and height of outlines, mm, in a picture of them alone, each filled in its own colour."""
    if len(paths) > len(COLOURS):
        raise ValueError(f"{len(paths)} outlines for {len(COLOURS)} colours")
    head, drawn = re.search(r"<svg [^>]*>", text).group(0), ""
    for colour, path in zip(COLOURS, paths.values()):
        path = re.search(rf'<path [^>]*id="{path}"[^>]*>', text).group(0)
        # Filled, not drawn round: a line's mitre stands out beyond a sharp corner.
        drawn += re.sub(r' stroke="[^"]*"', "", path).replace('fill="none"', f'fill="{colour}"')
    seen = np.array(picture(f"{head}{drawn}</svg>").convert("RGBA"))
    # A number for each of the eight colours, by the channels that are bright; 8 and more where nothing is drawn.
    red, green, blue, drawn = (seen[:, :, channel] > 127 for channel in range(4))
    colours = red * np.uint8(4) + green * np.uint8(2) + blue + ~drawn * np.uint8(8)
    found = {}
    for colour, name in zip(COLOURS, paths):
        own = colours == sum(bit for bit, digit in zip((4, 2, 1), colour[1:]) if digit == "f")
        marked = [np.flatnonzero(own.any(axis=axis)) for axis in (0, 1)]
        found[name] = tuple((m[-1] - m[0] + 1) / PER_MM for m in marked)
    return found


def picture(text):
    return Image.open(io.BytesIO(bytes(resvg_py.svg_to_bytes(svg_string=text, dpi=DPI, skip_system_fonts=True))))
