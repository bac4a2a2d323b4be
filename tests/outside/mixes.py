"""Thirty drafts of all finishes, read page by page: print and card speak the sheet's unit, keep to their
margins and are short, and every number on the card is one of the record's.

With `QUARTERPIN_EVERY_MIX=1` also the cards of all mixes, every finish on every opening, in both papers: half an
hour. Text and its boxes by pypdfium2.
"""

import itertools
import json
import math
import os
import re
import shutil
import subprocess
import tempfile
from fractions import Fraction
from pathlib import Path

import pypdfium2

import card
import written
from tally import Facts

FINISHES = ["trim", "turned", "encased", "lapped", "binding", "tunnel", "hem", "band", "raw"]
ELASTICS = {"trim": "narrow", "turned": "picot", "encased": "narrow", "lapped": "lace", "binding": "fold", "tunnel": "narrow"}
BASES = ["brief", "full brief", "hipster", "high leg", "small brief", "tanga"]
# Waist, hip, waist to hip, crotch length, its front part: invented, mm.
BODIES = [(740, 980, 200, 700, 320), (860, 1060, 210, 760, 345), (660, 900, 190, 660, 300), (1000, 1180, 210, 820, 370)]
# Name, width, picot, stretch.
STOCK = [("narrow", 8, 0, 110), ("picot", 12, 2, 100), ("lace", 15, 0, 90), ("fold", 16, 0, 100)]
UNITS = {"cm": 10.0, "in": 25.4, "mm": 1.0}  # mm
COUNT = 30


def checks(record, sheet, job):
    yield from some(job)
    if os.environ.get("QUARTERPIN_EVERY_MIX") == "1":
        yield from every(job)


def some(job):
    pages = written.Pages(f"in {COUNT} drafts of all finishes ")
    cards = card.Pages(f"in {COUNT} drafts of all finishes ")
    numbers = Facts(f"every number on the card is in the record, in {COUNT} drafts of all finishes")
    with tempfile.TemporaryDirectory() as folder:
        for i in range(COUNT):
            units, paper = list(UNITS)[i % 3], ["A4", "Letter"][i % 2]
            done, file = drafted(job, folder, text(i, units, paper, mix(i)))
            numbers.add(done.returncode == 0, f"draft {i}: {done.stdout[-300:]}{done.stderr}")
            pages.read(f"draft {i}", file(".pdf"), units, 10.0)
            cards.read(f"draft {i}", pypdfium2.PdfDocument(file("-card.pdf")), paper, units)
            compare(f"draft {i}", *read(file), units, numbers)
    yield from pages.results()
    yield from cards.results()
    yield numbers.result()


def every(job):
    """All mixes, drawn by chance as to body, base and unit, but the same every time."""
    cards = card.Pages("with every finish on every opening ")
    numbers = Facts("every number on the card is in the record, with every finish on every opening")
    short = 0
    with tempfile.TemporaryDirectory() as folder:
        for i, (mix, paper) in enumerate(itertools.product(itertools.product(FINISHES, repeat=3), ["A4", "Letter"])):
            seed = i * 7919 + 13
            units = list(UNITS)[seed // 11 % 3]
            where = f"{', '.join(mix)} on {paper}, seed {seed}"
            done, file = drafted(job, folder, text(seed, units, paper, mix))
            # Two deep finishes on a side seam a hand's breadth long leave nothing of it, which is told.
            is_short = done.returncode == 1 and SHORT in done.stderr
            short += is_short
            numbers.add(done.returncode == 0 or is_short, f"{where}: {done.stdout[-300:]}{done.stderr}")
            if not file:
                continue
            cards.read(where, pypdfium2.PdfDocument(file("-card.pdf").read_bytes()), paper, units)
            compare(where, *read(file), units, numbers)
    # These bodies and bases are the same every time, and so are the mixes that leave nothing.
    numbers.add(short == 22, f"{short} mixes leave nothing of a side seam, not 22")
    yield from cards.results()
    yield numbers.result()


# How such a mix is refused.
SHORT = "error[shape.side_seam_short]"


def drafted(job, folder, text):
    """What the program said, and where its files are; those of one before are gone."""
    path, out = Path(folder) / "sheet.toml", Path(folder) / "out"
    shutil.rmtree(out, ignore_errors=True)
    path.write_text(text, encoding="utf-8")
    done = subprocess.run([job["program"], "draft", path, "-o", out], capture_output=True, text=True)
    found = next(out.glob("*.json"), None)
    return done, found and (lambda suffix: found.with_name(found.stem + suffix))


def mix(i):
    """Finishes of the three openings; on every third pair the legs differ."""
    left = FINISHES[(2 * i + 3) % 9]
    return FINISHES[i % 9], left, FINISHES[(5 * i + 1) % 9] if i % 3 == 0 else left


def text(i, units, paper, mix):
    mm = lambda value: f"{value / UNITS[units]:.2f}"
    top, left, right = mix
    waist, hip, drop, crotch, front = BODIES[i % 4]

    def finish(kind):
        lines = [f'kind = "{kind}"']
        if kind in ELASTICS:
            lines += [f'elastic = "{ELASTICS[kind]}"', f"reduction = {0 if i % 4 == 3 and kind != 'tunnel' else 6 + i % 5}"]
        if kind in ELASTICS and kind != "tunnel" and i % 3:
            lines += [f'put_on = "{["", "round", "flat"][i % 3]}"']
        return "\n".join(lines)

    stock = "".join(f"[elastic.{n}]\nwidth = {mm(w)}\npicot = {mm(p)}\nstretch = {s}\n" for n, w, p, s in STOCK)
    return (
        f'[sheet]\nversion = 1\nname = "{top}, {left}, {right}"\nunits = "{units}"\n'
        f'[body]\nwaist_level = "natural"\nwaist_girth = {mm(waist)}\nhip_girth = {mm(hip)}\nwaist_to_hip = {mm(drop)}\n'
        f"crotch_length = {mm(crotch)}\ncrotch_length_front = {mm(front)}\n"
        f'[fabric]\nkind = "knit"\nstretch_across = 60\nstretch_along = 40\nwidth = {mm(1500)}\n[style]\nbase = "{BASES[i % 6]}"\n'
        f'[gusset]\nlayers = {1 if i % 4 == 0 else 2}\nlining = "{["tacked", "enclosed"][i % 5 > 0]}"\n'
        f'[seams]\nkind = "{["overlock", "zigzag"][i // 3 % 2]}"\n[finish.top]\n{finish(top)}\n'
        f'[finish.left_leg]\n{finish(left)}\n[finish.right_leg]\n{finish(right)}\n{stock}[print]\npaper = "{paper}"\n'
    )


# A whole number, one with decimals, or inches with a fraction; and what it counts.
NUMBER = re.compile(r"(?<![\w.])(\d+ \d+/\d+|\d+/\d+|\d+\.\d+|\d+)(?![\w/])( ?(?:cm|mm|in\b|%))?")


def read(file):
    """The card's text, and the record."""
    return file("-card.md").read_text(encoding="utf-8"), json.loads(file(".json").read_text(encoding="utf-8"))


def compare(where, told, record, units, facts):
    """Every number of a card's text: as the record writes it in its own words, or the value of one of its numbers
    to the last digit that is shown."""
    said, values = in_record(record)
    body = told.split("## What goes onto each edge", 1)[1]
    # Lines of the work have numbers of their own, which lines refer to.
    lines = set(re.findall(r"^(\d+)\. ", body, re.M))
    body = re.sub(r"^\d+\. ", "", body, flags=re.M)
    marks = {m["label"] for o in record["openings"] for s in (o["elastic"], o["band"]) if s for m in s["marks"]}
    # A lay may not be found where a piece is wider than the cloth: then nothing is said of cloth.
    lays = record.get("lays", [])
    values |= {lay["width_mm"] for lay in lays}
    bought = [sold(lay["length_mm"], units) for lay in lays]
    facts.add(all(f" {amount} of " in body for amount in bought), f"{where}: {bought} of cloth")
    for amount in bought:
        body = body.replace(f" {amount} of ", " ", 1)
    for number, unit in NUMBER.findall(body):
        is_known = f"{number}{unit}" in said or number in (lines | marks if not unit else ())
        shown = value(number)
        if unit.strip() == "%":
            is_known |= near(values, shown, 0.05)
        else:
            size, step = UNITS[units], 1 / 32 if "/" in number or units == "in" else 0.5 * 10 ** -len(number.partition(".")[2])
            is_known |= near(values, shown * size, step * size) or near(values, shown, 1e-9)
        facts.add(is_known, f"{where}: {number}{unit}")


def sold(mm, units):
    """What shops sell, tenths of a metre or eighths of a yard, as it is read on a price tag."""
    if units != "in":
        return f"{math.ceil(mm / 100 - 1e-8) / 10:.1f} m"
    whole, rest = divmod(Fraction(math.ceil(mm / 114.3 - 1e-8), 8), 1)
    return " ".join(str(part) for part in (whole, rest) if part or not (whole or rest)) + " yd"


def value(number):
    return float(sum(Fraction(part) for part in number.split()))


def near(values, wanted, by):
    return any(abs(v - wanted) <= by + 1e-6 for v in values)


def in_record(record):
    """Numbers in the words of the record's work, and its values, but for places on the pieces."""
    said, values = set(), set()

    def walk(part):
        if isinstance(part, dict):
            any(walk(v) for v in part.values())
        elif isinstance(part, list):
            any(walk(v) for v in part)
        elif isinstance(part, str):
            said.update(n + u for n, u in NUMBER.findall(part))
        elif isinstance(part, (int, float)) and not isinstance(part, bool) and math.isfinite(part):
            values.add(float(part))

    for key in ("openings", "elastics", "order_of_work", "used", "shopping"):
        walk(record[key])
    walk([piece["quantity"] for piece in record["pieces"]])
    return said, values
