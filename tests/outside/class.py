"""Checks what `class` wrote: the record, the summary, the shopping list, the print.

Usage: class.py JOB.json
JOB.json: {"title", "folder", "small", "spoiled": [{"row", "column", "text", "status"}, ...],
"prices": {"cloth": of a metre, elastic: of a metre}}, prices of the small class.
Every line is {"job", "name", "ok", "detail"}.
"""

import json
import math
import sys
from collections import defaultdict
from pathlib import Path

import pandas
import pypdf
from shapely import affinity
from shapely.geometry import Polygon

from lay import CHORDS, STEP as FINE
from record import Record, polygon_points, unfolded

# What is bought on top, common practice; see `engine/src/shopping.rs`.
WASTE, SAMPLE, STEP = 0.05, 150.0, 100.0
# ISO 4915: times the length sewn, from memory of published tables; 15 % over.
THREAD = {"301": 2.5, "304": 7.0, "321": 7.0, "514": 20.0}
OVER = 1.15


def read(path):
    return json.loads(Path(path).read_text(encoding="utf-8"))


def records(folder, people):
    """The record of everybody who is done, as her folder has it."""
    return [read(folder / p["folder"] / f"{p['folder']}.json") for p in people if p["status"] == "done"]


def people(job, folder, record):
    spoiled = {s["row"]: s for s in job["spoiled"]}
    by_row = {p["row"]: p for p in record["people"]}
    yield "everybody is told of", len(by_row) == 260 and set(by_row) == set(range(2, 262)), f"{len(by_row)} people"
    others = [p for row, p in by_row.items() if row not in spoiled]
    bad = [(p["row"], p["reasons"]) for p in others if p["status"] != "done"]
    yield "a bad row stops nobody else", not bad, f"{len(others)} others; not done: {bad}"
    wrong = []
    for row, spoil in spoiled.items():
        person, letter = by_row[row], "ABCDEFGHI"[spoil["column"]]
        texts = [r["text"] for r in person["reasons"]]
        told = [t for t in texts if f"row {row}, column {letter} (" in t and ";" in t]
        quoted = not spoil["text"] or any(f"“{spoil['text']}”" in t for t in told)
        if person["status"] != spoil["status"] or not told or not quoted:
            wrong.append((spoil, person["status"], texts))
    yield "spoiled rows say row, column, text and remedy", not wrong, f"{len(spoiled)} rows; {wrong[:3]}"
    left = [p["folder"] for p in record["people"] if p["status"] != "done" and (folder / p["folder"]).exists()]
    yield "nothing is written for those", not left, f"{left}"


def summary(folder, record):
    table = pandas.read_csv(folder / "summary.csv", encoding="utf-8-sig", dtype={"name": str}, keep_default_na=True)
    names = [p["name"] or None for p in record["people"]]
    read_names = [None if pandas.isna(n) else n for n in table["name"]]
    yield "the summary has everybody's name", read_names == names, f"{len(table)} rows"
    numbers = [c for c in table.columns if "(cm)" in c or c in ("row", "pages")]
    kinds = {c: str(table[c].dtype) for c in numbers}
    yield "its numbers are numbers", len(numbers) >= 6 and all(pandas.api.types.is_numeric_dtype(table[c]) for c in numbers), f"{kinds}"
    raw = pandas.read_csv(folder / "summary.csv", encoding="utf-8-sig", dtype=str, keep_default_na=False)
    cells = [str(c) for column in raw.columns for c in [column, *raw[column]]]
    formulas = [c for c in cells if c.strip(" ")[:1] in ("=", "+", "-", "@", "\t", "\r")]
    yield "no cell is a formula", len(cells) > 2000 and not formulas, f"{len(cells)} cells; {formulas[:3]}"
    done = {p["row"]: p for p in record["people"] if p["status"] == "done"}
    worst = 0.0
    for _, line in table[table["status"] == "done"].iterrows():
        garment = read(folder / line["folder"] / f"{line['folder']}.json")
        for opening in garment["openings"]:
            worst = max(worst, abs(10 * line[f"{opening['name']} (cm)"] - opening["finished"]))
    yield "its lengths are those of the records", len(done) > 200 and worst < 0.006, f"{worst:.4f} mm"


def shopping(folder, record):
    pairs = records(folder, record["people"])
    cut, hand, of, sewn = defaultdict(float), defaultdict(float), defaultdict(set), defaultdict(float)
    for i, pair in enumerate(pairs):
        for opening in pair["openings"]:
            if elastic := opening["elastic"]:
                cut[elastic["name"]] += elastic["cut_length"]
                of[elastic["name"]].add(i)
                # What is laid on flat is cut from what is in hand.
                if elastic["in_hand"] is not None:
                    hand[elastic["name"]] += elastic["in_hand"] - elastic["cut_length"]
        for step in pair["order_of_work"]:
            if step["stitch"] and step["length"]:
                sewn[step["stitch"]] += step["length"]
    worst, said = 0.0, {e["name"]: e for e in record["shopping"]["elastic"]}
    for name, length in cut.items():
        needed = length + hand[name] + WASTE * length + SAMPLE * len(of[name])
        worst = max(worst, abs(said[name]["length_mm"] - STEP * math.ceil(needed / STEP)), abs(said[name]["cut_mm"] - length))
    yield "elastic adds up", set(said) == set(cut) and len(cut) >= 2 and worst < 0.01, f"{worst:.5f} mm over {len(pairs)} pairs"
    threads = {t["stitch"]: t["length_mm"] for t in record["shopping"]["thread"]}
    off = {s: abs(threads.get(s, 0.0) / (length * THREAD[s] * OVER) - 1.0) for s, length in sewn.items()}
    yield "thread adds up", set(threads) == set(sewn) and max(off.values()) < 1e-6, f"{off}"
    cloths = record["shopping"]["cloth"]
    area = sum(p["area_mm2"] * p["quantity"] for pair in pairs for p in pair["pieces"])
    laid = sum(c["width_mm"] * c["length_mm"] for c in cloths)
    yield "the cloth holds all pieces and is not wasted", area < laid < 2.5 * area, f"{100 * area / laid:.1f} % used"


def costs(job, folder, record):
    """A price is of a metre, of what is bought, to a hundredth; what has none costs nothing that is told."""
    bought = {e["name"]: e for e in record["shopping"]["elastic"]} | {"cloth": record["shopping"]["cloth"][0]}
    wrong = []
    for name, buy in bought.items():
        price = job["prices"].get(name)
        cost = None if price is None else round(buy["length_mm"] / 1000 * price + 1e-9, 2)
        if buy["price"] != price or (buy["cost"] is None) != (cost is None) or abs((buy["cost"] or 0) - (cost or 0)) > 1e-6:
            wrong.append((name, buy["price"], buy["cost"], cost))
    told = [name for name, buy in bought.items() if buy["cost"]]
    yield "costs are lengths times prices", not wrong and sorted(told) == sorted(job["prices"]), f"{told}; {wrong}"


def together(folder, record):
    """The pieces of everybody on one cloth, by the outlines of their own records, held against shapely (GEOS)."""
    garments = {p["folder"]: Record.read(folder / p["folder"] / f"{p['folder']}.json") for p in record["people"]}
    wanted = sorted((f, n) for f, g in garments.items() for n, p in g.pieces.items() for _ in range(p["quantity"]))
    laid = sorted((p["folder"], p["piece"]) for lay in record["lays"] for p in lay["placed"])
    yield "every piece of everybody is laid once", laid == wanted and len(laid) > 12, f"{len(laid)} pieces"
    lack, beyond, off = 0.0, 0.0, 0.0
    for lay in record["lays"]:
        shapes = [on_cloth(garments[p["folder"]], p) for p in lay["placed"]]
        for i, one in enumerate(shapes):
            for other in shapes[:i]:
                lack = max(lack, lay["gap_mm"] - one.distance(other), one.intersection(other).area)
        bounds = [s.bounds for s in shapes]
        beyond = max(beyond, *(max(-b[0], -b[1], b[2] - lay["width_mm"], b[3] - lay["length_mm"]) for b in bounds))
        off = max(off, abs(max(b[3] for b in bounds) - lay["length_mm"]))
    yield "nobody's piece lies on another's, and the gap is kept", lack < CHORDS, f"lacks {lack:.5f} mm"
    turned = {p["turn"] for lay in record["lays"] for p in lay["placed"]}
    on_it = beyond < 2e-6 and off < 0.01 and turned <= {0, 180}
    yield "all lie on the cloth, along its grain", on_it, f"{beyond:.7f} mm beyond, length {off:.5f} mm off, turned {turned}"


def on_cloth(garment, placed):
    piece = garment.pieces[placed["piece"]]
    whole = Polygon(polygon_points(unfolded(piece, garment.loop(placed["piece"], "cut")), FINE))
    return affinity.translate(affinity.rotate(whole, placed["turn"], origin=(0, 0)), placed["x"], placed["y"])


def prints(folder, record):
    count = lambda path: len(pypdf.PdfReader(path).pages)
    done = [p for p in record["people"] if p["status"] == "done"]
    wrong = []
    for person in done:
        files = sorted((folder / person["folder"]).glob("*.pdf"))
        if sum(map(count, files)) != person["pages"]:
            wrong.append(person["folder"])
    yield "pages are counted", not wrong and record["pages"] == sum(p["pages"] for p in done), f"{record['pages']} pages; {wrong}"


def bound(folder, record):
    """The small class is one print: the list, every card in order, then every pattern."""
    whole = pypdf.PdfReader(folder / "class.pdf")
    done = [p for p in record["people"] if p["status"] == "done"]
    parts = [folder / p["folder"] / f"{p['folder']}{ending}" for ending in ("-card.pdf", ".pdf") for p in done]
    own = [page for part in parts for page in pypdf.PdfReader(part).pages]
    first = len(whole.pages) - len(own)
    yield "one print holds the list, cards and patterns", len(done) == 4 and first in (2, 3), f"{first} pages of list, {len(own)} of theirs"
    differ = []
    for i, page in enumerate(own):
        there = whole.pages[first + i]
        if there.mediabox != page.mediabox or there.extract_text() != page.extract_text():
            differ.append(i)
    yield "its pages are those of the files", not differ, f"{differ}"
    titles = [item.title for item in whole.outline if not isinstance(item, list)]
    yield "everybody has a bookmark", len(titles) == 1 + len(parts) and all(any(p["name"] in t for t in titles) for p in done), f"{titles}"
    text = "\n".join(page.extract_text() for page in whole.pages[:first])
    missing = [p["name"] for p in done if p["name"] not in text]
    yield "the list names everybody and what to buy", not missing and "To buy" in text and "soft 8" in text, f"{missing}"


def main(path):
    job = read(path)
    for folder, checks in ((Path(job["folder"]), [lambda f, r: people(job, f, r), summary, shopping, prints]), (Path(job["small"]), [bound, shopping, lambda f, r: costs(job, f, r), together])):
        record = read(folder / "class.json")
        for check in checks:
            for name, ok, detail in check(folder, record):
                line = {"job": job["title"], "name": f"{folder.name}: {name}", "ok": bool(ok), "detail": detail}
                print(json.dumps(line, ensure_ascii=False), flush=True)


if __name__ == "__main__":
    main(sys.argv[1])
