"""The form to measure by: its rulers at 600 dpi in two renderers, its words, and its parts."""

import re
import subprocess
import tempfile
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2

import parts
from other_renderer import rendered
from tally import Facts, Tally

DPI = 600
MM = DPI / 25.4  # pixels
POINT = 25.4 / 72
# What is drawn: so many units from number to number, and so many parts of each.
RULERS = {"cm": (10.0, 17, 10), "mm": (10.0, 17, 10), "in": (25.4, 7, 8)}
SIZES = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}


def checks(record, sheet, job):
    pdfium = Tally("both rulers of the form measure true at 600 dpi in pypdfium2", 0.1)
    hayro = Tally("both rulers of the form measure true at 600 dpi in hayro", 0.1)
    sizes = Tally("pages of the form are those of the paper", 0.01, "pt")
    words = Facts("the form speaks one unit, has two pages, and is replaced only where it is ours")
    with tempfile.TemporaryDirectory() as folder:
        for units in RULERS:
            for paper, size in SIZES.items():
                path = Path(folder) / f"{units}-{paper}.pdf"
                done = make(job, path, units, paper)
                words.add(done.returncode == 0, done.stderr)
                document, reader = pypdfium2.PdfDocument(path), pypdf.PdfReader(path, strict=True)
                words.add(len(document) == 2, f"{len(document)} pages")
                for page in reader.pages:
                    for a, b in zip((page.mediabox.width, page.mediabox.height), size):
                        sizes.add(float(a) - b / POINT, f"{units}, {paper}")
                text = "".join(page.get_textpage().get_text_bounded() for page in document)
                others = {"cm": "mm|in|inches", "mm": "cm|in|inches", "in": "cm|mm"}[units]
                alien = re.findall(rf"[0-9] ?({others})\b", text)
                words.add(not alien, f"{units}: {alien}")
                names = [k.replace("_", " ") for k in sheet.data["body"] if k not in ("waist_level", "child")]
                words.add(all(n in text for n in names), f"{units}: one of {names} is missing")
                image = document[0].render(scale=DPI / 72, grayscale=True).to_numpy()
                measure(1.0 - np.asarray(image, dtype=np.float32).reshape(image.shape[:2]) / 255.0, units, pdfium, f"{units}, {paper}")
                _, pictures = rendered(job["renderer"], path.read_bytes(), [0], DPI / 72)
                measure(pictures[0], units, hayro, f"{units}, {paper}")
                if paper == "a4":
                    yield parts.parts(f"form in {units}", reader, sheet)
        path = Path(folder) / "mine.pdf"
        path.write_bytes(b"%PDF-1.7 mine")
        words.add(make(job, path, "cm", "a4").returncode == 2 and path.read_bytes() == b"%PDF-1.7 mine", "mine is gone")
        words.add(make(job, path, "cm", "a4", "--force").returncode == 0, "--force does not")
        words.add(make(job, path, "in", "a4").returncode == 0, "our own is not replaced")
    yield from (pdfium.result(), hayro.result(), sizes.result(), words.result())


def make(job, path, units, paper, *more):
    command = [job["program"], "form", "--units", units, "--paper", paper, "-o", str(path), *more]
    return subprocess.run(command, capture_output=True, text=True)


def measure(image, units, tally, where):
    """Every long level line of the right length is a ruler: its ticks, up and at each height."""
    unit, count, parts_of = RULERS[units]
    found = 0
    for row in base_lines(image > 0.3, unit * count):
        # The numbers' ticks alone are this high; all of them are at the lower height.
        for height, step in ((4.3, unit), (1.2, unit / parts_of)):
            ticks = middles(image[round(row - height * MM)])
            wanted = int(round(unit * count / step)) + 1
            tally.add(0.0 if len(ticks) == wanted else float("inf"), f"{where}: {len(ticks)} ticks, not {wanted}")
            if len(ticks) == wanted:
                for i, at in enumerate(ticks):
                    tally.add((at - ticks[0]) / MM - i * step, f"{where}: tick {i} of {step:.3f} mm")
        found += 1
    tally.add(0.0 if found == 2 else float("inf"), f"{where}: {found} rulers")


def base_lines(dark, length):
    """Rows, one for each level line as long as a ruler, within a millimetre."""
    rows = []
    for y in np.flatnonzero(dark.sum(axis=1) > 0.9 * length * MM):
        edges = np.diff(np.pad(dark[y].astype(np.int8), 1))
        runs = np.flatnonzero(edges == -1) - np.flatnonzero(edges == 1)
        if np.any(np.abs(runs - length * MM) < MM) and (not rows or y - rows[-1] > MM):
            rows.append(int(y))
    return rows


def middles(row):
    """Middles of the dark runs of a row, weighed by their ink, pixels."""
    edges = np.diff(np.pad((row > 0.2).astype(np.int8), 1))
    found = []
    for a, b in zip(np.flatnonzero(edges == 1), np.flatnonzero(edges == -1)):
        span = np.arange(max(a - 2, 0), min(b + 2, len(row)))
        found.append(float((row[span] * span).sum() / row[span].sum()))
    return found
