"""The PDF: page boxes and text by pypdf (strict), ink by pypdfium2 at 600 dpi."""

import re

import numpy as np
import pypdf
import pypdfium2

from tally import Facts, Tally

DPI = 600
PX = DPI / 25.4  # pixels per mm
POINT = 25.4 / 72  # mm
# ISO 216 for A sizes; the others are inch sizes: 8.5 x 11, 8.5 x 14, 11 x 17 in.
PAPERS = {
    "A4": (210.0, 297.0),
    "A3": (297.0, 420.0),
    "A0": (841.0, 1189.0),
    "Letter": (215.9, 279.4),
    "Legal": (215.9, 355.6),
    "Tabloid": (279.4, 431.8),
}
SIDES = (50.0, 50.8)
GOES_ON = 1.0  # mm: as far as a line moves up or down over that way
ASIDE = 6  # pixels, a quarter of a millimetre: a line that is measured goes on to both sides
FOUND = 0.1  # mm, the design's word for squares and for points on neighbouring tiles


def checks(record, sheet, job):
    path = job["file"](".pdf")
    reader = pypdf.PdfReader(path, strict=True)
    yield boxes(reader, sheet)
    yield catalog(reader)
    document = pypdfium2.PdfDocument(path)
    yield text(document[0], sheet)
    yield squares(document[0])
    yield from tiles(document, reader, sheet)


def boxes(reader, sheet):
    width, height = PAPERS[sheet.get("print", "paper", "A4")]
    tally = Tally("page boxes are those of the paper", 0.01, "pt")
    for number, page in enumerate(reader.pages, 1):
        found = sorted((float(page.mediabox.width), float(page.mediabox.height)))
        for a, b in zip(found, (width / POINT, height / POINT)):
            tally.add(a - b, f"page {number}: {a:.3f} for {b:.3f}")
        crop = sorted((float(page.cropbox.width), float(page.cropbox.height)))
        tally.add(max(abs(a - b) for a, b in zip(found, crop)), f"page {number}: crop box")
        # A page in another user unit would print at another size (ISO 32000-1, table 30).
        tally.add(float(page.get("/UserUnit", 1)) - 1, f"page {number}: user unit")
    return tally.result()


def catalog(reader):
    facts = Facts("the print dialogue is asked for no scaling")
    # ISO 32000-1, table 150.
    preferences = reader.trailer["/Root"].get("/ViewerPreferences", {}).get_object()
    facts.add(preferences.get("/PrintScaling") == "/None", f"ViewerPreferences is {preferences}")
    return facts.result()


def squeezed(words):
    return re.sub(r"\s+", "", words)


def text(page, sheet):
    # pypdfium2 puts what reads from the right back into the order in which it is read.
    facts = Facts("the sheet's name can be read on the first page, letter by letter")
    found = squeezed(page.get_textpage().get_text_range())
    facts.add(squeezed(sheet.name) in found, f"{sheet.name!r} is not in {found[:120]!r}")
    return facts.result()


# Of a grey from 0 to 255.
DARKNESS = 1.0 - np.arange(256, dtype=np.float32) / 255.0


def ink(page, scale=1.0, crop=(0, 0, 0, 0)):
    """Darkness from 0 to 1, row by row from the top; `crop` in points, from left, bottom, right and top."""
    image = page.render(scale=scale * DPI / 72, grayscale=True, crop=crop).to_numpy()
    return DARKNESS[image.reshape(image.shape[:2])]


def runs(dark):
    """[start, end) of every run of true values."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], dark.astype(np.int8), [0]))))
    return list(zip(edges[::2], edges[1::2]))


def strokes(darkness, low, high):
    """Level strokes of a length between two numbers of pixels: (left, right, middle row)."""
    dark = darkness > 0.5
    rows = {}
    for y in np.flatnonzero(dark.sum(axis=1) >= low):
        for a, b in runs(dark[y]):
            if low <= b - a <= high:
                rows.setdefault((round(a / 6), round(b / 6)), []).append((a, b, y))
    found = []
    for members in rows.values():
        ys = np.array([y for _, _, y in members])
        for group in np.split(np.array(members), np.flatnonzero(np.diff(ys) > 1) + 1):
            a, b = int(group[:, 0].min()), int(group[:, 1].max())
            top, bottom = max(group[0, 2] - 3, 0), group[-1, 2] + 4
            weight = darkness[top:bottom, a + 40 : b - 40].mean(axis=1)
            found.append((a, b, float((weight * np.arange(top, bottom)).sum() / weight.sum())))
    return found


def round_words(page):
    """What to leave out of a page, in points, so that what is left shows the squares, found by their words."""
    words = page.get_textpage()
    search, boxes = words.search("measure before cutting"), []
    while (found := search.get_next()) is not None:
        boxes += [words.get_charbox(i) for i in range(found[0], found[0] + found[1])]
    if not boxes:
        raise ValueError("no square says that it is to be measured")
    far = 36 / POINT  # from the words in the middle of a square to beyond its sides
    left, bottom, right, top = (f(b[k] for b in boxes) for k, f in enumerate((min, min, max, max)))
    width, height = page.get_size()
    return tuple(max(v, 0) for v in (left - far, bottom - far, width - right - far, height - top - far))


def squares(page, scale=1.0):
    """Both test squares, measured between the middles of their lines, both ways."""
    darkness = ink(page, scale, round_words(page))
    tally = Tally("both test squares measure true at 600 dpi", FOUND)
    for side in SIDES:
        low, high = int((side - 0.35) * PX), int((side + 1.2) * PX)
        for way, image in (("high", darkness), ("wide", darkness.T)):
            found = strokes(image, low, high)
            gaps = [
                (q[2] - p[2]) / PX
                for p in found
                for q in found
                if q[2] > p[2] and abs(p[0] - q[0]) < 8 and abs(p[1] - q[1]) < 8
            ]
            measured = min(gaps, key=lambda g: abs(g - side), default=float("nan"))
            tally.add(measured - side, f"the square of {side} mm, {way}: {measured:.3f}")
    return tally.result()


HEAD = re.compile(r"([A-Z]+)([0-9]+) [^\n]*page ([0-9]+) of ([0-9]+)")
JOINS = re.compile(r"joins ([A-Z]+)([0-9]+)")


def cell(letters, digits):
    row = 0
    for letter in letters:
        row = 26 * row + ord(letter) - 64
    return row, int(digits)


def cells(reader, facts):
    """Page index by (row, column), from what is printed on each page."""
    found, joined = {}, {}
    for index, page in enumerate(reader.pages):
        words = page.extract_text()
        heads = HEAD.findall(words)
        # The cover, and notes that run on over more pages, come before all of the pattern.
        if not found and not heads:
            continue
        facts.add(len(heads) == 1, f"page {index + 1} has {len(heads)} names")
        for letters, digits, number, of in heads:
            facts.add((int(number), int(of)) == (index + 1, len(reader.pages)), f"page {index + 1} is called {number} of {of}")
            found[cell(letters, digits)] = index
            joined[cell(letters, digits)] = {cell(*name) for name in JOINS.findall(words)}
    facts.add(bool(found), "no page of the pattern has a name")
    for (row, column), names in joined.items():
        around = {(row, column - 1), (row, column + 1), (row - 1, column), (row + 1, column)}
        facts.add(names == around & set(found), f"row {row} column {column} says it joins {sorted(names)}")
    return found


def tiles(document, reader, sheet, slip=0):
    """`slip` pixels are what a page is moved by, to see whether that is noticed."""
    margin, overlap = sheet.mm("print", "margin", 10.0), sheet.mm("print", "overlap", 10.0)
    tally = Tally("the same points lie on neighbouring pages", FOUND)
    named = Facts("every page says which it is and what it joins")
    found = cells(reader, named)
    if len(reader.pages) > 1:
        yield named.result()
    pages, neighbours = {}, 0
    for (row, column), index in sorted(found.items()):
        for other, across in (((row, column + 1), True), ((row + 1, column), False)):
            if other in found:
                neighbours += 1
                for n in (index, found[other]):
                    if n not in pages:
                        pages[n] = Page(document[n])
                where = f"{index + 1} and {found[other] + 1}"
                compare(pages[index], pages[found[other]].moved(slip), across, margin, overlap, where, tally)
    if neighbours:
        yield tally.result()


class Page:
    """Ink of a page and where its letters are, in mm from the top left."""

    def __init__(self, page):
        self.ink = ink(page)
        self.height, self.width = (n / PX for n in self.ink.shape)
        words, top = page.get_textpage(), page.get_height()
        boxes = [words.get_charbox(i) for i in range(words.count_chars())]
        self.letters = [(x0 * POINT, (top - y1) * POINT, x1 * POINT, (top - y0) * POINT) for x0, y0, x1, y1 in boxes if x1 > x0]

    def moved(self, pixels):
        if pixels == 0:
            return self
        other = object.__new__(Page)
        other.ink, other.height, other.width = np.roll(self.ink, pixels, axis=(0, 1)), self.height, self.width
        other.letters = self.letters
        return other

    def turned(self):
        """Rows for columns."""
        other = object.__new__(Page)
        other.ink, other.height, other.width = self.ink.T, self.width, self.height
        other.letters = [(y0, x0, y1, x1) for x0, y0, x1, y1 in self.letters]
        return other

    def column(self, x):
        """Ink down a column; between two columns of pixels, as a steep line moves five times as far down
        as it is off across."""
        left, share = int(x * PX), x * PX % 1.0
        return (1 - share) * self.ink[:, left] + share * self.ink[:, left + 1]

    def points(self, x, edge):
        """Where lines cross a column, mm from the top: darkness-weighted middles of thin runs.

        Not in the strips at both ends, where this page may join others than its neighbour does.
        """
        column, left = self.column(x), int(x * PX)
        beside = [np.flatnonzero(self.ink[:, left + aside] > 0.3) / PX for aside in (-ASIDE, ASIDE)]
        result = []
        for a, b in runs(column > 0.3):
            if 0.08 < (b - a) / PX < 1.5 and edge < a / PX and b / PX < self.height - edge:
                span = column[max(a - 2, 0) : b + 2]
                y = (span * np.arange(max(a - 2, 0), b + 2)).sum() / span.sum() / PX
                # A line that is measured goes on to both sides.
                if all(np.any(np.abs(rows - y) < GOES_ON) for rows in beside):
                    result.append((float(y), (b - a) / PX))
        return result

    def lettered(self, x, y):
        """Is there writing, or its white patch, at this place?"""
        return any(x0 - 3 < x < x1 + 3 and y0 - 3 < y < y1 + 3 for x0, y0, x1, y1 in self.letters)


def compare(near, far, across, margin, overlap, where, tally):
    """Points on columns of the shared strip; the strip is an overlap wide, inside the margin."""
    if not across:
        near, far = near.turned(), far.turned()
    step = near.width - 2 * margin - overlap
    edge = margin + overlap + 1
    for share in (0.20, 0.26, 0.32, 0.68, 0.74, 0.80):
        x = margin + share * overlap
        here, there = near.column(x + step), far.column(x)
        for y, _ in near.points(x + step, edge):
            if near.lettered(x + step, y) or far.lettered(x, y):
                continue
            tally.add(shift(here, there, y), f"pages {where}, {share:.2f} of the strip, {y:.2f} mm")


AROUND, FURTHEST = round(2 * PX), round(1 * PX)


def shift(here, there, y):
    """How far the ink round a place is moved between two columns, mm: the least difference in squares,
    between pixels by a parabola. Not a number where the other column has no such ink."""
    middle = round(y * PX)
    low, high = middle - AROUND, middle + AROUND
    if low - FURTHEST < 0 or high + FURTHEST > min(len(here), len(there)):
        return float("nan")
    window = here[low:high]
    offsets = range(-FURTHEST, FURTHEST + 1)
    costs = np.array([((there[low + k : high + k] - window) ** 2).sum() for k in offsets])
    best = int(costs.argmin())
    if costs[best] > 0.2 * (window**2).sum() or not 0 < best < len(costs) - 1:
        return float("nan")
    before, least, after = costs[best - 1 : best + 2]
    bend = before - 2 * least + after
    return (best - FURTHEST + (0.5 * (before - after) / bend if bend > 0 else 0.0)) / PX
