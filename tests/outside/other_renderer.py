"""The print as hayro draws it, a renderer in Rust, against pypdf and pypdfium2: page sizes, test
squares and ink, with every layer shown and with each of them hidden."""

import subprocess
import tempfile
from pathlib import Path

import numpy as np
import pypdf
import pypdfium2

from paper import SIDES
from prints import LAYERS, POINT, PX, apart, hidden_bytes, ink
from tally import Facts, Tally


def checks(record, sheet, job):
    forms = {p["title"]: Path(p["file"]) for p in job["prints"]}
    sizes = Tally("three readers see pages of one size", 0.01, "pt")
    squares = Tally("both test squares measure true as hayro draws them, with each layer hidden", 1.0 / PX)
    facts = Facts("hayro and pypdfium2 put ink in the same places, with each layer hidden")
    # The large page takes long to draw: once is enough.
    for path, hidden in ((job["file"](".pdf"), [[], *([name] for name in LAYERS)]), (forms["one page"], [[]])):
        reader = pypdf.PdfReader(path, strict=True)
        drawn = [0, len(reader.pages) - 1]
        for off in hidden:
            data = hidden_bytes(path, off)
            theirs, pictures = rendered(job["renderer"], data, drawn)
            document = pypdfium2.PdfDocument(data)
            for n, page in enumerate(reader.pages):
                ours = float(page.mediabox.width), float(page.mediabox.height)
                for other in (theirs[n], document[n].get_size()):
                    sizes.add(max(abs(a - b) for a, b in zip(ours, other)), f"page {n + 1}: {ours} and {other}")
            for n in drawn:
                where = f"page {n + 1} of {path.name}, hidden: {off}"
                if n == 0 or path == forms["one page"]:
                    measure(pictures[n], squares, where)
                strays, inked = apart(pictures[n], ink(document[n]))
                facts.add(strays == 0 and inked > 1000, f"{where}: {strays} strays of {inked} pixels")
    yield from (sizes.result(), squares.result(), facts.result())


def rendered(renderer, data, pages, scale=PX * POINT):
    """Sizes of all pages in points, and these of them as ink."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "print.pdf"
        path.write_bytes(data)
        command = [renderer, str(path), folder, str(scale), *map(str, pages)]
        said = subprocess.run(command, check=True, capture_output=True, text=True).stdout
        sizes = [tuple(float(v) for v in line.split()) for line in said.splitlines()]
        return sizes, {n: picture(Path(folder) / f"{n}.pgm") for n in pages}


def picture(path):
    """A grey picture (PGM, binary) as ink."""
    kind, size, most, grey = path.read_bytes().split(b"\n", 3)
    if (kind, most) != (b"P5", b"255"):
        raise ValueError(f"{path.name} is no grey picture")
    width, height = map(int, size.split())
    return 1.0 - np.frombuffer(grey, dtype=np.uint8).reshape(height, width).astype(np.float32) / 255.0


def measure(image, tally, where):
    for side in SIDES:
        for way, dark in (("high", image > 0.3), ("wide", image.T > 0.3)):
            found = strokes(dark, side * PX)
            gaps = [(b[1] - a[1]) / PX for a in found for b in found if b[1] > a[1] and abs(a[0] - b[0]) <= 1]
            best = min(gaps, key=lambda g: abs(g - side), default=float("nan"))
            tally.add(best - side, f"{side} mm {way}, {where}: {best:.2f}")


def strokes(dark, length):
    """Left end and row of every level stroke of about this length, pixels."""
    edges = np.diff(np.pad(dark, ((0, 0), (1, 1))).astype(np.int8), axis=1)
    starts, ends = np.argwhere(edges == 1), np.argwhere(edges == -1)
    return [(a[1], a[0]) for a, b in zip(starts, ends) if abs(b[1] - a[1] - length) <= 2]
