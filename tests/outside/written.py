"""What is written on a print: in the sheet's unit alone, on the page, and clear of every line.

Text and its boxes by pypdfium2; ink by pypdfium2 with layers hidden by pypdf.
"""

import re

import numpy as np
import pypdf
import pypdfium2
from scipy.ndimage import maximum_filter

from prints import CUT, FRAMES, INK, LAYERS, POINT, PX, hidden, ink
from tally import Facts, Tally

WORDS = "Words on the pieces"
# Both test squares are on every print, whatever the sheet speaks.
SQUARES = re.compile(r"\b50 mm\b|\b2 in\b")
LENGTH = re.compile(r"[0-9] ?(cm|mm|in)\b")


def checks(record, sheet, job):
    # A print that holds variants shows none of their layers alone; they have checks of their own.
    paths = {"print": job["file"](".pdf")} | {p["title"]: p["file"] for p in job.get("prints", [])}
    pages = Pages()
    for title, path in paths.items():
        pages.read(title, path, sheet.data["sheet"].get("units", "cm"), sheet.mm("print", "margin", 10.0))
    yield from pages.results()
    if not record.data.get("alternatives"):
        yield clear(paths["print"])
        yield headers(paths["print"])


class Pages:
    """What every page of prints says, and where."""

    def __init__(self, where=""):
        self.units = Facts(f"{where}every page speaks the sheet's unit alone")
        self.inside = Tally(f"{where}no letter of the first page, and of no page's name, stands in the margin", 0.01)

    def read(self, title, path, unit, margin):
        document, labels = pypdfium2.PdfDocument(path), pypdf.PdfReader(path).page_labels
        for number, page in enumerate(document):
            words = page.get_textpage()
            text = SQUARES.sub("", words.get_text_bounded())
            found = set(LENGTH.findall(text))
            is_first = labels[number].startswith("start")
            self.units.add(found <= {unit} and (found or not is_first), f"{title}, page {number + 1}: {found}")
            width, height = (v * POINT for v in page.get_size())
            for x0, y0, x1, y1 in letters(page, words) if is_first else named(page):
                out = max(margin - x0, x1 - (width - margin), margin - y0, y1 - (height - margin), 0.0)
                self.inside.add(out, f"{title}, page {number + 1}, at {x0:.1f}, {y0:.1f} mm")

    def results(self):
        return [self.units.result(), self.inside.result()]


def letters(page, words):
    """Boxes of all letters, mm from the top left."""
    top = page.get_height()
    for i in range(words.count_chars()):
        x0, y0, x1, y1 = words.get_charbox(i)
        if x1 > x0:
            yield x0 * POINT, (top - y1) * POINT, x1 * POINT, (top - y0) * POINT


def tiles(path):
    labels = pypdf.PdfReader(path).page_labels
    return [n for n, label in enumerate(labels) if not label.startswith("start")]


def clear(path):
    """Where words are inked, nothing else of a piece is."""
    facts = Facts("no word on a piece touches a line")
    words = hidden(path, [n for n in LAYERS if n != WORDS])
    lines = hidden(path, [WORDS, FRAMES])
    for n in tiles(path):
        text, drawn = ink(words[n]) > INK, ink(lines[n]) > INK
        both = maximum_filter(text, 3) & drawn
        facts.add(not both.any(), f"page {n + 1}: {int(both.sum())} pixels")
    return facts.result()


def headers(path):
    """Under the name of a page nothing of a piece shows."""
    facts = Facts("no page name touches a line")
    document, frames = pypdfium2.PdfDocument(path), hidden(path, [n for n in LAYERS if n != FRAMES])
    for n in tiles(path):
        whole, alone = ink(document[n]), ink(frames[n])
        for x0, y0, x1, y1 in named(document[n]):
            at = np.s_[max(int(y0 * PX) - 1, 0) : int(y1 * PX) + 2, max(int(x0 * PX) - 1, 0) : int(x1 * PX) + 2]
            facts.add(np.abs(whole[at] - alone[at]).max() < INK, f"page {n + 1}")
    return facts.result()


def named(page):
    """Boxes, mm from the top left, of the letters of page names and of what they join."""
    words, top = page.get_textpage(), page.get_height()
    text = words.get_text_range()
    for found in re.finditer(r"[A-Z]+[0-9]+ [^\r\n]*page [0-9]+ of [0-9]+|joins [A-Z]+[0-9]+", text):
        search = words.search(found.group(0))
        while (at := search.get_next()) is not None:
            for i in range(at[0], at[0] + at[1]):
                x0, y0, x1, y1 = words.get_charbox(i)
                if x1 > x0:
                    yield x0 * POINT, (top - y1) * POINT, x1 * POINT, (top - y0) * POINT
