"""The print in all its forms: papers, layers, ways into the file, and tiles put back together.

Rendered by pypdfium2 at six pixels per mm, so that margins and cores of metric paper are whole pixels.
A layer is hidden by pypdf, which only changes the list of layers that are off.
"""

import io
import re

import numpy as np
import pypdf
import pypdfium2
from pypdf.generic import ArrayObject, ContentStream, NameObject
from scipy.ndimage import maximum_filter

import paper
from tally import Facts, Tally

PX = 6  # pixels per mm
POINT = 25.4 / 72  # mm
CUT_LINE = 0.5  # mm: how wide the print draws it
CUT = "Cut lines"
FRAMES = "Page joins and page names"
WORDS = "Words on the pieces"
LAYERS = [CUT, "Sewing lines and finished edges", "Fold, grain line and notches", WORDS, FRAMES]
ALONE = {"one page", "edge to edge, one page", "A0", "roll"}  # pages of the pattern alone, with squares of their own
INK = 0.3  # of full black
NEAR = 2  # pixels: a third of a millimetre


def checks(record, sheet, job):
    plain = job["file"](".pdf")
    yield from ways(plain, record)
    yield from layers(plain, record, sheet)
    forms = {p["title"]: Print(p) for p in job["prints"]}
    yield sizes(forms.values(), sheet)
    yield first_pages(forms.values())
    for form in forms.values():
        for index in (range(len(form.document)) if form.title in ALONE else [0]):
            if index == 0 or not form.reader.page_labels[index].startswith("start"):
                result = paper.squares(form.document[index])
                yield {**result, "name": f"{result['name']}: {form.title}, page {index + 1}"}
    yield from whatever_shows(plain, 0)
    yield from whatever_shows(forms["one page"].path, len(forms["one page"].document) - 1)
    yield from together(plain, forms["one page"].path, sheet, 10.0)
    yield from together(forms["edge to edge"].path, forms["edge to edge, one page"].path, sheet, 0.0)


class Print:
    def __init__(self, entry):
        self.title, self.paper = entry["title"], entry["paper"]
        self.path = entry["file"]
        self.document = pypdfium2.PdfDocument(self.path)
        self.reader = pypdf.PdfReader(self.path, strict=True)


def sizes(forms, sheet):
    tally = Tally("both readers see pages of the paper's size, whatever the paper", 0.01, "pt")
    for form in forms:
        for number, page in enumerate(form.reader.pages):
            theirs = form.document[number].get_size()
            ours = float(page.mediabox.width), float(page.mediabox.height)
            tally.add(max(abs(a - b) for a, b in zip(ours, theirs)), f"{form.title}, page {number + 1}: {ours} and {theirs}")
            label = form.reader.page_labels[number]
            if form.paper and not (label.startswith("start") and form.paper == "A0"):
                for a, b in zip(sorted(ours), paper.PAPERS[form.paper]):
                    tally.add(a - b / POINT, f"{form.title}, page {number + 1}: {a:.2f} pt")
    return tally.result()


def first_pages(forms):
    facts = Facts("one page says how to print, or none where the large page stands alone")
    for form in forms:
        starts = [label for label in form.reader.page_labels if label.startswith("start")]
        facts.add(starts == ([] if form.title in ALONE else ["start"]), f"{form.title}: {form.reader.page_labels}")
        facts.add(form.title not in ALONE or len(form.document) == 1, f"{form.title}: {len(form.document)} pages")
    return facts.result()


def whatever_shows(path, index):
    """Both readers see the same squares and sizes, with each layer hidden in turn."""
    drawn = Tally("the file draws both squares unscaled, as pypdf reads it", 0.01, "pt")
    found = rectangles(pypdf.PdfReader(path, strict=True).pages[index])
    for side in paper.SIDES:
        off = [max(abs(w - side / POINT), abs(h - side / POINT)) for w, h in found]
        drawn.add(min(off, default=float("inf")), f"page {index + 1}, {side} mm among {len(found)} rectangles")
    yield drawn.result()
    for name in LAYERS:
        document, reader = hidden(path, [name]), pypdf.PdfReader(path, strict=True)
        sizes = Tally(f"hiding “{name}” changes no page's size, page {index + 1} and the others", 0.01, "pt")
        for number, page in enumerate(reader.pages):
            ours, theirs = (page.mediabox.width, page.mediabox.height), document[number].get_size()
            sizes.add(max(abs(float(a) - b) for a, b in zip(ours, theirs)), f"page {number + 1}")
        yield sizes.result()
        result = paper.squares(document[index])
        yield {**result, "name": f"{result['name']}, without “{name}”: page {index + 1} of {len(document)}"}


def rectangles(page):
    """Width and height, in points, of every rectangle that a page draws itself; nothing on it is scaled."""
    operations = ContentStream(page.get_contents(), page.pdf).operations
    scales = [[float(v) for v in operands[:4]] for operands, operator in operations if operator == b"cm"]
    if any(scale != [1, 0, 0, 1] for scale in scales):
        raise ValueError(f"something is drawn by {scales}")
    return [tuple(float(v) for v in operands[2:4]) for operands, operator in operations if operator == b"re"]


def ways(path, record):
    reader = pypdf.PdfReader(path, strict=True)
    facts = Facts("bookmarks name every piece, and pages are called as their headlines say")
    marks = [m for m in reader.outline if not isinstance(m, list)]
    names = [p["name"] for p in record.on_paper()]
    outline = reader.trailer["/Root"]["/Outlines"]
    inside = sum(len(m) for m in reader.outline if isinstance(m, list))
    facts.add(outline["/Count"] == len(marks) + inside, f"{outline['/Count']} bookmarks open of {len(marks)} and {inside}")
    facts.add([m.title for m in marks[1:]] == names, f"bookmarks {[m.title for m in marks]}")
    for mark in marks[1:]:
        page = reader.pages[reader.get_destination_page_number(mark)].extract_text()
        facts.add(paper.squeezed(mark.title) in paper.squeezed(page), f"{mark.title} is not on the page of its bookmark")
    for label, page in zip(reader.page_labels, reader.pages):
        heads = paper.HEAD.findall(page.extract_text())
        facts.add(label.startswith("start") or [a + b for a, b, *_ in heads] == [label], f"{label}: {heads}")
    facts.add(reader.trailer["/Root"].get("/Lang") == "en", "no language")
    facts.add(bool(reader.metadata.title) and bool(reader.metadata.author), f"{reader.metadata}")
    yield facts.result()


def hidden(path, names):
    """The document with these layers off."""
    return pypdfium2.PdfDocument(hidden_bytes(path, names))


def hidden_bytes(path, names):
    writer = pypdf.PdfWriter(clone_from=path)
    optional = writer.root_object["/OCProperties"]
    off = [g for g in optional["/OCGs"] if g.get_object()["/Name"] in names]
    if len(off) != len(names):
        raise ValueError(f"layers {[g.get_object()['/Name'] for g in optional['/OCGs']]}, not {names}")
    optional["/D"][NameObject("/OFF")] = ArrayObject(off)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def tile_numbers(path):
    """Page index by (row, column) from the page labels."""
    found = {}
    for index, label in enumerate(pypdf.PdfReader(path).page_labels):
        name = re.fullmatch(r"([A-Z]+)([0-9]+)", label)
        if name:
            found[paper.cell(*name.groups())] = index
    return found


def ink(page):
    image = page.render(scale=PX * POINT, grayscale=True).to_numpy()
    return 1.0 - np.asarray(image, dtype=np.float32).reshape(image.shape[:2]) / 255.0


def core(page, edge):
    """Ink of a page without so many mm on every side."""
    # The renderer rounds a page up to whole pixels: what counts is the page's own size.
    width, height = (round((side * POINT - 2 * edge) * PX) for side in page.get_size())
    n = round(edge * PX)
    return ink(page)[n : n + height, n : n + width]


def layers(path, record, sheet):
    facts = Facts("hiding a layer takes away what that layer draws, and nothing else")
    tiles = tile_numbers(path).values()
    whole = pypdfium2.PdfDocument(path)
    together = {n: ink(whole[n]) for n in tiles}
    lines = 0.0
    edge = sheet.mm("print", "margin", 10.0) + 0.5 * sheet.mm("print", "overlap", 10.0)
    for name in LAYERS:
        without, alone = hidden(path, [name]), hidden(path, [n for n in LAYERS if n != name])
        gone = 0
        for n in tiles:
            rest, only = ink(without[n]), ink(alone[n])
            lost = together[n] - rest
            gone += int((lost > INK).sum())
            astray = (lost > INK) & (maximum_filter(only, 3) < INK)
            facts.add(not astray.any(), f"{name}, page {n + 1}: {int(astray.sum())} pixels go that are not its own")
            if name != FRAMES:
                # White patches under page names cover lines; nothing else covers anything.
                facts.add((lost > -0.05).all(), f"{name}, page {n + 1}: something comes to light")
            if name == CUT:
                lines += float(core(alone[n], edge).sum()) / PX**2
        facts.add(gone > 0, f"{name}: nothing goes")
    yield facts.result()
    yield cut_ink(lines, record)


def cut_ink(area, record):
    """Nothing but cut lines is left: their ink is their length by their width."""
    tally = Tally("with the cut lines alone on, ink is their length by their width", 1.5, "%")
    length = 0.0
    for piece in record.on_paper():
        length += piece["perimeter_mm"] / (2 if piece["on_fold"] else 1)
    tally.add(100 * (area / (length * CUT_LINE) - 1), f"{area:.1f} mm2 for {length:.1f} mm")
    return tally.result()


def apart_in(overlap):
    """Layers on which tiles differ: page names, and words, which keep clear of strips that two pages share."""
    return [FRAMES] if overlap == 0 else [FRAMES, WORDS]


def assembled(path, margin, overlap, slip=0):
    """All tiles side by side, core by core, without what is theirs alone."""
    document, numbers = hidden(path, apart_in(overlap)), tile_numbers(path)
    parts = {at: core(document[n], margin + 0.5 * overlap) for at, n in numbers.items()}
    height, width = (max(p.shape[k] for p in parts.values()) for k in (0, 1))
    rows, columns = (max(at[k] for at in parts) for k in (0, 1))
    whole = np.zeros((rows * height, columns * width), dtype=np.float32)
    for count, ((row, column), part) in enumerate(sorted(parts.items())):
        part = np.roll(part, slip if count == 0 else 0, axis=(0, 1))
        y, x = (row - 1) * height, (column - 1) * width
        whole[y : y + part.shape[0], x : x + part.shape[1]] = part
    return whole


def apart(a, b, edge=0.0):
    """Pixels inked in one image with no ink near them in the other, so many mm from their edges or more:
    where a page is cut off, a slanting line ends sooner in one reader than in the other."""
    shape = tuple(min(m, n) for m, n in zip(a.shape, b.shape))
    a, b = (i[: shape[0], : shape[1]] for i in (a, b))
    size = 2 * NEAR + 1
    strays = ((a > 0.5) & (maximum_filter(b, size) < INK)) | ((b > 0.5) & (maximum_filter(a, size) < INK))
    n = round(edge * PX)
    return int(strays[n : shape[0] - n, n : shape[1] - n].sum()), int((a > 0.5).sum())


def together(tiled, whole, sheet, overlap, slip=0):
    margin = sheet.mm("print", "margin", 10.0)
    tally = Tally(f"tiles put together are the one page, overlap {overlap:g}", 0, "pixels")
    document, numbers = hidden(whole, apart_in(overlap)), tile_numbers(whole)
    (number,) = numbers.values()
    one = core(document[number], margin + 0.5 * overlap)
    # What shows with every layer off is the test squares beside the pieces, which tiles do not have.
    squares = core(hidden(whole, LAYERS)[number], margin + 0.5 * overlap)
    one = np.where(squares > 0, np.clip(one - squares, 0, 1), one)
    many = assembled(tiled, margin, overlap, slip)
    if squares[many.shape[0] :].max(initial=0.0) > INK:
        # Where no room is left beside the pieces, the page is longer by them.
        many = np.pad(many, ((0, one.shape[0] - many.shape[0]), (0, 0)))
    strays, inked = apart(many, one)
    tally.add(max(abs(m - n) for m, n in zip(many.shape, one.shape)) > 0, f"sizes {many.shape} and {one.shape}")
    tally.add(strays if inked > 1000 else float("inf"), f"{inked} inked pixels")
    yield tally.result()
