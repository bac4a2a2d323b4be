"""The work card, as readers of PDF see it: one sheet of paper, few words, inside its margins, and every
elastic at true size, its marks where the record has them.

Rulers are measured at 600 dpi as pypdfium2 and hayro draw them: lines and points are found in the
pictures, nothing is taken from the file's own numbers.
"""

import re

import numpy as np
import pypdfium2
from pypdfium2 import raw

from other_renderer import rendered
from tally import Facts, Tally

DPI = 600
PX = DPI / 25.4  # pixels per mm
PAPERS = {"A4": (210.0, 297.0), "Letter": (215.9, 279.4)}
WORDS = 450
MARGIN = 10.0  # mm: what home printers leave white
SMALLEST = 9.0  # points
TOUCH = 0.05  # mm
CLEAR = 200 / 72  # pixels per point, to look for words on lines
ROWS = {"cm": 180.0, "mm": 180.0, "in": 177.8}  # mm: how long a full row is
INK = 0.5  # of full black
LENGTH = re.compile(r"[0-9] ?(cm|mm|in)\b")


def checks(record, sheet, job):
    path = job["file"]("-card.pdf")
    document = pypdfium2.PdfDocument(path)
    pages = Pages()
    # Words are taken off it to see the lines alone.
    pages.read("the card", pypdfium2.PdfDocument(path), sheet.get("print", "paper", "A4"), record_units(sheet))
    yield from pages.results()
    yield same_as_text(document, job["file"]("-card.md"))
    wanted = expected(record)
    pdfium = 1.0 - document[0].render(scale=DPI / 72, grayscale=True).to_numpy().squeeze() / 255.0
    _, pictures = rendered(job["renderer"], path.read_bytes(), [0], DPI / 72)
    for name, picture in (("pypdfium2", pdfium), ("hayro", pictures[0])):
        yield from rulers(picture, wanted, ROWS[record_units(sheet)], name)


def record_units(sheet):
    return sheet.data["sheet"].get("units", "cm")


class Pages:
    """What the sides of cards hold, and where."""

    def __init__(self, where=""):
        self.sizes = Tally(f"{where}the card is one sheet of A4 or Letter, both sides at most", 0.01)
        self.inside = Facts(f"{where}no letter of the card lies outside its margins, or is smaller than nine points")
        self.few = Facts(f"{where}a side of the card has at most {WORDS} words")
        self.units = Facts(f"{where}the card speaks the sheet's unit alone")
        self.clear = Facts(f"{where}no word of the card stands on a line or on another word")

    def read(self, title, document, paper, unit):
        width, height = PAPERS["Letter" if paper in ("Letter", "Legal", "Tabloid") else "A4"]
        self.sizes.add(0 if 1 <= len(document) <= 2 else float("inf"), f"{title}: {len(document)} pages")
        for number, page in enumerate(document):
            side = f"{title}, page {number + 1}"
            for mm, pt in zip((width, height), page.get_size()):
                self.sizes.add(mm - pt * 25.4 / 72, f"{side}: {pt:.2f} pt")
            text = page.get_textpage()
            said = text.get_text_range()
            words = [w for w in said.split() if re.search(r"[^\W\d_]", w)]
            self.few.add(0 < len(words) <= WORDS, f"{side}: {len(words)} words")
            found = set(LENGTH.findall(said))
            self.units.add(found <= {unit}, f"{side}: {found}")
            boxes = []
            for i in range(text.count_chars()):
                if not text.get_text_range(i, 1).strip():
                    continue
                box = [v * 25.4 / 72 for v in text.get_charbox(i)]
                boxes.append(box)
                where = f"{side}, {text.get_text_range(i, 1)!r} at {box[0]:.1f}, {box[1]:.1f}"
                least = min(box[0], box[1], width - box[2], height - box[3])
                self.inside.add(least >= MARGIN, where)
                size = raw.FPDFText_GetFontSize(text.raw, i)
                self.inside.add(size >= SMALLEST, f"{where}: {size:.1f} pt")
            self.clear.add(not (over := on_others(boxes)), f"{side}: letters on letters at {over[:2]}")
            text.close()
            self.clear.add(not (on := on_lines(page)), f"{side}: letters on lines at {on[:2]}")

    def results(self):
        return [t.result() for t in (self.sizes, self.inside, self.few, self.units, self.clear)]


def on_others(boxes):
    """Where boxes of letters, but for neighbours in a line, share more than a hair: mm."""
    left, low, right, high = np.array(boxes).T
    wide = np.minimum(right[:, None], right) - np.maximum(left[:, None], left)
    tall = np.minimum(high[:, None], high) - np.maximum(low[:, None], low)
    shared = np.triu((wide > TOUCH) & (tall > TOUCH), 2)
    return [(round(float(left[i]), 1), round(float(low[i]), 1)) for i, _ in np.argwhere(shared)]


def on_lines(page):
    """Where words and what else is drawn on a page are inked both, mm from the bottom left. The page is spoiled."""
    both = page.render(scale=CLEAR, grayscale=True).to_numpy().squeeze()
    for thing in list(page.get_objects(filter=[raw.FPDF_PAGEOBJ_TEXT], max_depth=1)):
        page.remove_obj(thing)
    page.gen_content()
    lines = page.render(scale=CLEAR, grayscale=True).to_numpy().squeeze()
    # Where a word darkens a line's pixel, or paints it over, it touches it.
    at = np.argwhere((lines < 128) & (np.abs(both.astype(int) - lines) > 24) | (lines < 250) & (both.astype(int) - lines < -128))
    return [(round(float(x) / CLEAR * 25.4 / 72, 1), round(page.get_height() * 25.4 / 72 - float(y) / CLEAR * 25.4 / 72, 1)) for y, x in at]


def same_as_text(document, path):
    """Every line of the order of work stands in both files."""
    facts = Facts("the card and its text tell the same work")
    squeezed = re.sub(r"\s", "", "".join(page.get_textpage().get_text_range() for page in document))
    text = path.read_text(encoding="utf-8").replace("\\", "")
    facts.add(text.startswith("<!-- quarterpin sheet "), "the mark")
    for line in re.findall(r"^(\d+\. .*)$", text, re.M):
        number, said = line.split(". ", 1)
        for part in said.split(" – "):
            facts.add(re.sub(r"\s", "", part) in squeezed, f"line {number}: {part}")
    return facts.result()


def expected(record):
    """Cut length and marks of every strip, legs that are alike as one: mm."""
    found = []
    worked = {step["step"] for step in record.data["order_of_work"]}
    for opening in record.data["openings"]:
        elastic = opening["elastic"]
        if elastic is None or elastic["in_hand"] is not None:
            continue
        is_marked = f"{opening['name']} elastic marked" in worked
        marks = sorted(at for mark in elastic["marks"] for at in mark["from_cut_end"]) if is_marked else []
        strip = (elastic["cut_length"], marks, elastic["name"])
        if not (opening["name"] == "right leg" and found and found[-1] == ("left leg", strip)):
            found.append((opening["name"], strip))
    return [strip for _, strip in found]


class Row:
    """A ruler in a picture: a level line from x0 to x1 (pixels) at y, with ticks under it."""

    def __init__(self, ink, y, x0, x1):
        self.y, self.x0, self.x1 = y, x0, x1
        left, right = x0 - round(0.3 * PX), x1 + round(0.3 * PX) + 1
        self.left = left
        at = lambda mm: ink[y + round(mm * PX), left:right]
        self.ticks = [left + m for m, _ in runs(at(2.0))]
        # A bar where the elastic is cut goes up higher than a mark's point.
        self.bars = [left + m for m, wide in runs(at(-2.6)) if wide < 0.7 * PX and self.is_ink(ink, left + m)]
        points = [(left + m, wide) for m, wide in runs(at(-0.9)) if wide > 0.6 * PX]
        self.points = [x for x, _ in points if not any(abs(x - bar) < 0.4 * PX for bar in self.bars)]

    def is_ruler(self, unit):
        """Ticks from its first end on, a unit from one to the next; the bar at a cut end is none."""
        ticks = [x for x in self.ticks if not self.is_cut_off(x)]
        gaps = [b - a for a, b in zip(ticks, ticks[1:])]
        starts = bool(ticks) and abs(ticks[0] - self.x0) < 0.4 * PX
        return starts and all(abs(gap - unit * PX) < 0.3 * PX for gap in gaps)

    def is_cut_off(self, x):
        return any(abs(x - bar) < 0.3 * PX and bar > self.x0 + PX for bar in self.bars)

    def is_ink(self, ink, x):
        """All the way up from the line."""
        return bool((ink[self.y - round(2.6 * PX) : self.y, round(x)] > INK).all())


def runs(line):
    """Middle and width of every run of ink, in pixels."""
    dark = np.concatenate([[False], line > INK, [False]])
    edges = np.flatnonzero(dark[1:] != dark[:-1])
    return [(0.5 * (a + b - 1), b - a) for a, b in zip(edges[::2], edges[1::2])]


def rows_of(ink, unit):
    """Rulers from the top down: level lines with ticks."""
    found = []
    for y in np.flatnonzero((ink > INK).sum(axis=1) > 3.0 * PX):
        if found and y - found[-1].y < 3.0 * PX:
            continue
        for middle, wide in runs(ink[y]):
            if wide < 2.5 * PX:
                continue
            row = Row(ink, y, round(middle - wide / 2), round(middle + wide / 2))
            if row.is_ruler(unit):
                found.append(row)
                break
    return found


def rulers(ink, wanted, full, reader):
    lengths = Tally(f"elastics on the card are as long as in the record, as {reader} draws them at {DPI} dpi", 0.1)
    places = Tally(f"marks on the card lie where the record has them, as {reader} draws them at {DPI} dpi", 0.1)
    units = Tally(f"rulers of the card are true to size, as {reader} draws them at {DPI} dpi", 0.1)
    drawn = strips(rows_of(ink, 25.4 if full < 179 else 10.0))
    ruled = [strip for strip in wanted if strip[1]]
    plain = [strip for strip in wanted if not strip[1]]
    facts = Facts(f"every elastic that is marked has its ruler on the card, as {reader} draws it")
    facts.add(len(ruled) <= len(drawn) <= len(ruled) + len(plain), f"{len(drawn)} rulers of {len(wanted)}")
    left = list(wanted)
    for strip in drawn:
        length, marks, ticks = measured(strip, full)
        of = min(left, key=lambda w: abs(w[0] - length) + 10 * abs(len(w[1]) - len(marks)))
        left.remove(of)
        lengths.add(length - of[0], f"{of[2]}: {length:.2f} mm")
        for a, b in zip(marks, of[1]) if len(marks) == len(of[1]) else [(float("inf"), 0.0)]:
            places.add(a - b, f"{of[2]}: {a:.2f} mm, not {b:.2f}")
        for along, unit in ticks:
            units.add(along - unit, f"{of[2]}: a tick at {along:.2f} mm")
    results = [facts.result()]
    if wanted and drawn:
        results += [lengths.result(), units.result()] + ([places.result()] if ruled else [])
    return results


def strips(rows):
    """Rows from a cut end to the other."""
    found = []
    for row in rows:
        starts = any(abs(bar - row.x0) < 0.5 * PX for bar in row.bars)
        if starts:
            found.append([])
        if found:
            found[-1].append(row)
    # Lines of the figure are none.
    return [strip for strip in found if any(bar > strip[-1].x0 + PX for bar in strip[-1].bars)]


def measured(strip, full):
    """Length, marks, and whole units with what they stand for: mm from the first cut end."""
    marks, ticks, before = [], [], 0.0
    unit = 25.4 if full < 179 else 10.0
    for number, row in enumerate(strip):
        # The line of the ruler ends in the middle of its outer ticks.
        origin = row.ticks[0]
        for tick in row.ticks:
            along = before + (tick - origin) / PX
            ticks.append((along, unit * round(along / unit)))
        for point in row.points:
            along = before + (point - origin) / PX
            if not marks or along - marks[-1] > 0.2:
                marks.append(along)
        end = max(row.bars) if number == len(strip) - 1 and row.bars else row.x1
        length = before + (end - origin) / PX
        before += full
    # The bar itself is no whole unit.
    whole = [(a, u) for a, u in ticks if abs(a - length) > 0.4]
    return length, marks, whole
