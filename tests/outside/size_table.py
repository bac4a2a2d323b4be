"""Checks what `sizes` wrote: every garment as any other, how lengths grow, and the nested print.

Usage: size_table.py JOB.json
JOB.json: {"title", "tables": [{"title", "folder", "sizes": [{"folder", "sheet", "checked"}, ...]}, ...], "renderer"}.
Every line is {"job", "name", "ok", "detail"}. A layer is hidden by pypdf, which only changes the list of
layers that are off; pypdfium2 and hayro render.
"""

import csv
import json
import sys
from pathlib import Path

import pypdf
import pypdfium2

import check
from other_renderer import rendered
from prints import CUT, LAYERS, PX, apart, core, hidden, hidden_bytes, ink, tile_numbers
from record import Record
from sheet import Sheet
from tally import Facts, Tally

SEWING = LAYERS[1]
CUT_LINE = 0.4  # mm: how wide the print draws the line of a size
# How the lines of sizes are dashed: `SIZES` in export/src/pdf/style.rs.
DASHES = [[], [6, 2], [1.5, 1.2], [9, 1.5, 1.5, 1.5], [3, 3], [12, 2, 0.6, 2], [0.6, 1.4], [14, 4],
          [5, 1.2, 0.6, 1.2, 0.6, 1.2], [2.5, 1, 2.5, 4], [10, 1.5, 3, 1.5, 3, 1.5], [4, 1, 0.6, 1]]
EDGE = 15.0  # mm: margin and half the overlap


def read(path):
    return json.loads(Path(path).read_text(encoding="utf-8"))


def garments(table):
    """The properties that hold for every sheet, on every size: measured on the record's own paths."""
    for size in table["sizes"]:
        if size["checked"]:
            record, sheet = Record.read(check.one_file(size["folder"], ".json")), Sheet(size["sheet"])
            for module in check.ON_RECORD:
                for result in check.run(module, record, sheet, size):
                    yield {**result, "name": f"{Path(size['folder']).name}: {result['name']}"}


def chart(folder, record):
    """The lengths that are told are those of the garments, in the record and in both tables."""
    made = [s["folder"] for s in record["sizes"] if s["status"] == "done"]
    theirs = [Record.read(folder / f / f"{f}.json").data for f in made]
    tally = Tally("lengths by size are those of the garments", 2e-6, "mm")
    lists = {"edge": "openings", "seam": "seams"}
    for line in record["lengths"]:
        for garment, mm in zip(theirs, line["by_size"]):
            if line["kind"] in lists:
                (own,) = [o for o in garment[lists[line["kind"]]] if o["name"] == line["name"]]
                tally.add(mm - own["finished" if "finished" in own else "length_a"], line["name"])
            elif line["kind"] == "elastic to cut":
                (own,) = [o for o in garment["openings"] if o["name"] == line["name"]]
                tally.add(mm - own["elastic"]["cut_length"], line["name"])
    yield tally.result()
    steps = Tally("growth is from each size to the next", 2e-6, "mm")
    for line in record["lengths"]:
        for a, b, step in zip(line["by_size"], line["by_size"][1:], line["growth"]):
            steps.add(b - a - step, line["name"])
    yield steps.result()
    facts = Facts("the tables hold the same numbers as the record, and no formula")
    for name, key in (("sizes.csv", "by_size"), ("growth.csv", "growth")):
        with open(folder / name, encoding="utf-8-sig", newline="") as f:
            head, *rows = csv.reader(f)
        facts.add(len(rows) == len(record["lengths"]), f"{name}: {len(rows)} rows")
        for row, line in zip(rows, record["lengths"]):
            numbers = [float(cell) * 10 for cell in row[2:-1]]
            off = max(abs(a - b) for a, b in zip(numbers, line[key], strict=True))
            facts.add(row[:2] == [line["kind"], line["name"]] and off < 0.006, f"{name}: {row[:3]}")
            facts.add(not any(cell.startswith(("=", "+", "@")) for cell in row), f"{name}: {row}")
    yield facts.result()


def grows(record):
    """Where the table's girths only grow, so does everything else."""
    facts = Facts("every length grows where the table's does")
    (hip,) = [line for line in record["lengths"] if line["name"] == "hip girth"]
    facts.add(len(hip["growth"]) >= 7 and min(hip["growth"]) > 0, f"hip girth {hip['growth']}")
    for line in record["lengths"]:
        facts.add(min(line["growth"]) > -0.01, f"{line['kind']} {line['name']}: {line['growth']}")
        facts.add(set(line["grows"]) == {"even"}, f"{line['kind']} {line['name']}: {line['grows']}")
    yield facts.result()


def layers(path, names):
    facts = Facts("every size is a layer, all of them shown, sewing lines hidden at first")
    optional = pypdf.PdfReader(path, strict=True).trailer["/Root"]["/OCProperties"]
    named = lambda groups: [g.get_object()["/Name"] for g in groups]
    sizes = [f"Size {name}" for name in names]
    facts.add(named(optional["/OCGs"])[: len(LAYERS) + len(names)] == LAYERS + sizes, f"{named(optional['/OCGs'])}")
    facts.add(named(optional["/D"]["/OFF"]) == [SEWING], f"off: {named(optional['/D']['/OFF'])}")
    text = pypdf.PdfReader(path).pages[0].extract_text()
    missing = [name for name in names if f"size {name}" not in text]
    facts.add(not missing, f"the key on the first page lacks {missing}")
    yield facts.result()


def alone(path, folder, record, names, renderer):
    """Every size by itself: nothing but its own cut lines, dashed as it is, and both renderers agree."""
    tally = Tally("each size alone shows the cut lines of its pieces and no others", 5.0, "%")
    facts = Facts("hayro and pypdfium2 put the ink of each size alone in the same places")
    made = [s["folder"] for s in record["sizes"] if s["status"] == "done"]
    tiles = list(tile_numbers(path).values())
    kinds = [name for name in LAYERS if name != CUT]
    for number, (name, own) in enumerate(zip(names, made)):
        off = [f"Size {other}" for other in names if other != name] + kinds
        document = hidden(path, off)
        pages = {n: core(document[n], EDGE) for n in tiles}
        pieces = Record.read(folder / own / f"{own}.json").on_paper()
        length = sum(p["perimeter_mm"] / (2 if p["on_fold"] else 1) for p in pieces)
        dashes = DASHES[number]
        share = sum(dashes[::2]) / sum(dashes) if dashes else 1.0
        area = sum(float(page.sum()) for page in pages.values()) / PX**2
        tally.add(100 * (area / (length * CUT_LINE * share) - 1), f"size {name}: {area:.1f} mm2 for {length:.1f} mm")
        # One page is enough for the slower one: that with the most ink.
        most = max(pages, key=lambda n: pages[n].sum())
        data = hidden_bytes(path, off)
        _, pictures = rendered(renderer, data, [most])
        strays, inked = apart(pictures[most], ink(pypdfium2.PdfDocument(data)[most]), EDGE)
        facts.add(strays == 0 and inked > 1000, f"size {name}, page {most + 1}: {strays} strays of {inked} pixels")
    yield tally.result()
    yield facts.result()


def results(table, renderer):
    folder = Path(table["folder"])
    record = read(folder / "sizes.json")
    names = record["made"]
    yield from garments(table)
    yield from chart(folder, record)
    yield from grows(record)
    yield from layers(folder / "nested.pdf", names)
    yield from alone(folder / "nested.pdf", folder, record, names, renderer)


def main(path):
    job = read(path)
    for table in job["tables"]:
        for result in results(table, job["renderer"]):
            line = {**result, "job": job["title"], "name": f"{table['title']}: {result['name']}"}
            print(json.dumps(line, ensure_ascii=False), flush=True)


if __name__ == "__main__":
    main(sys.argv[1])
