"""Draws the pieces of seven invented bodies in every base on one sheet, from the records, and on another
the pairs on the body.

Usage: contact_sheet.py PROGRAM PIECES.png ON_BODY.png, with Python's matplotlib, numpy, scipy and
cairosvg. To be looked at as a cutter would who has to find the five worst lines; each drawing says its
least radius along the leg opening and the fall of its front leg, as tests/outside/lines.py measures them.
"""

import io
import subprocess
import sys
import tempfile
from pathlib import Path

import cairosvg
import matplotlib

matplotlib.use("Agg")
import matplotlib.pyplot as plt

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "outside"))
import lines
from record import Record
from sheet import BASES

# Invented, mm, waist at the navel: waist, hip, waist to hip, crotch length, its front part.
BODIES = {
    "small": (720, 900, 140, 580, 262),
    "medium": (860, 1020, 146, 620, 279),
    "large": (1040, 1150, 150, 670, 305),
    "waist-heavy": (1020, 1040, 140, 640, 300),
    "hip-heavy": (700, 955, 155, 620, 280),
    "short front": (740, 905, 130, 570, 240),
    "tall front": (1030, 1120, 160, 710, 340),
}
SHEET = """[sheet]
version = 1
name = "contact"
units = "mm"
[body]
waist_girth = {0}
waist_level = "navel"
hip_girth = {1}
waist_to_hip = {2}
crotch_length = {3}
crotch_length_front = {4}
[fabric]
stretch_across = 60
stretch_along = 40
[style]
base = "{5}"
[seams]
kind = "overlock"
[finish.top]
kind = "raw"
[finish.legs]
kind = "raw"
"""


def drafted(program, body, base):
    with tempfile.TemporaryDirectory() as folder:
        sheet = Path(folder) / "sheet.toml"
        sheet.write_text(SHEET.format(*body, base), encoding="utf-8")
        done = subprocess.run([program, "draft", sheet, "-o", folder], capture_output=True, check=False)
        if done.returncode != 0:
            return None
        on_body = str(Path(folder) / "contact-on-body.svg")
        picture = cairosvg.svg2png(url=on_body, output_width=600, background_color="white")
        return Record.read(Path(folder) / "contact.json"), plt.imread(io.BytesIO(picture))


def draw(axes, record, piece, move, turned=1):
    """A half piece; turned over in y for the back below its gusset."""
    for name, curve in record.loop(piece, "finished"):
        points = curve.samples(2.0)[0]
        thick = "leg" in name or "top" in name
        axes.plot(points[:, 0] + move[0], turned * points[:, 1] + move[1], "k", lw=1.6 if thick else 0.7)


def foot(record, piece):
    """How far down a half piece reaches at the centre."""
    return max(curve.end[1] for name, curve in record.loop(piece, "finished") if "gusset" in name)


def opening(axes, record):
    """Front, gusset and back joined at the gusset seams, and the back as it lies beside them."""
    length = max(c.end[1] for name, c in record.loop("gusset", "finished") if "back gusset" in name)
    draw(axes, record, "front", (0, -foot(record, "front")))
    draw(axes, record, "gusset", (0, 0))
    draw(axes, record, "back", (0, length + foot(record, "back")), -1)
    draw(axes, record, "back", (320, 0))
    axes.set_aspect("equal")
    axes.invert_yaxis()
    axes.axis("off")


def main(program, pieces, on_body):
    figure, rows = plt.subplots(len(BODIES), len(BASES), figsize=(36, 8.5 * len(BODIES)), squeeze=False)
    worn, pictures = plt.subplots(len(BODIES), len(BASES), figsize=(36, 3 * len(BODIES)), squeeze=False)
    for row, worn_row, (name, body) in zip(rows, pictures, BODIES.items()):
        for axes, picture, base in zip(row, worn_row, BASES):
            picture.axis("off")
            made = drafted(program, body, base)
            if made is None:
                axes.set_title(f"{name}, {base}: refused", fontsize=20)
                continue
            record, drawn = made
            opening(axes, record)
            seen = lines.measure(record)
            axes.set_title(f"{name}, {base}: R {seen.least_radius:.0f}, fall {seen.fall:.0f}", fontsize=20)
            picture.imshow(drawn)
            picture.set_title(f"{name}, {base}", fontsize=20)
    for drawn, out in ((figure, pieces), (worn, on_body)):
        drawn.tight_layout()
        drawn.savefig(out, dpi=32 if drawn is figure else 80)


if __name__ == "__main__":
    main(*sys.argv[1:4])
