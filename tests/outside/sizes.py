"""Pieces in the picture and in the print: two renderers, one size."""

import numpy as np
from scipy.ndimage import find_objects, label

import picture
from prints import CUT, CUT_LINE, LAYERS, PX, hidden, ink, tile_numbers
from tally import Tally


SQUARE = 52.0  # mm: the larger one is 2 in


def checks(record, sheet, job):
    tally = Tally("pieces in the SVG by resvg and in the PDF by pypdfium2 have one size", 2.0 / picture.PER_MM)
    text = job["file"](".svg").read_text(encoding="utf-8")
    # On paper a piece may lie turned.
    outlines = picture.outlines(text, record)
    drawn = sorted(tuple(sorted(outlines[p["name"]])) for p in record.on_paper())
    page = next(p["file"] for p in job["prints"] if p["title"] == "one page")
    printed = sorted(tuple(sorted(size)) for size in cut_lines(page))
    tally.add(float(len(drawn) != len(printed)), f"{len(drawn)} outlines in the SVG, {len(printed)} in the PDF")
    for (a, b), (c, d) in zip(drawn, printed):
        tally.add(max(abs(a - c), abs(b - d)), f"{a:.2f} × {b:.2f} mm and {c:.2f} × {d:.2f} mm")
    yield tally.result()


def cut_lines(path):
    """Width and height of every outline on the one page, mm; cut lines hang together."""
    (number,) = tile_numbers(path).values()
    image = ink(hidden(path, [n for n in LAYERS if n != CUT])[number]) > 0.5
    parts, _ = label(image, structure=np.ones((3, 3)))
    for rows, columns in find_objects(parts):
        size = tuple((s.stop - s.start) / PX - CUT_LINE for s in (columns, rows))
        # Test squares and their words always show; every piece is longer.
        if max(size) > SQUARE:
            yield size
