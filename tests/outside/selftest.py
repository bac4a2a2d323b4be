"""Shows that the checks can fail: a sound record is harmed, and the check that guards it has to say so.

Each harm is small: a tenth of a millimetre, two tenths of a percent, a tenth of a degree.
"""

import copy
import re

import numpy as np
import pypdf
import pypdfium2

import cutter_files
import drawing_files
import drawings
import mixes
import paper
import prints
from record import Record
from tally import Facts


def numbers(d, change):
    """The path's text with every point through a change."""
    values = iter(re.findall(r"-?\d+\.?\d*", d))
    points = iter([change(i, np.array([float(x), float(y)])) for i, (x, y) in enumerate(zip(values, values))])
    words, skip = [], False
    for word in d.split():
        if word in "MLC":
            words.append(word)
        elif not skip:
            x, y = next(points)
            words += [f"{x:.6f}", f"{y:.6f}"]
            skip = True
        else:
            skip = False
    return " ".join(words)


def move_handle(data):
    """One control point of the front's leg edge, by 0.1 mm."""
    for e in data["pieces"][0]["finished"]:
        if e["edge"].endswith("leg"):
            e["d"] = numbers(e["d"], lambda i, p: p + (0.0, 0.1 if i == 1 else 0.0))


def turn_top(data):
    """The last handle of the front's top edge, so that the crossing bends by about a degree."""
    for e in data["pieces"][0]["finished"]:
        if e["edge"].endswith("top"):
            e["d"] = numbers(e["d"], lambda i, p: p + (0.0, 0.7 if i == 2 else 0.0))


def scaled(row):
    def harm(data):
        for e in data["pieces"][0][row]:
            e["d"] = numbers(e["d"], lambda _, p: 1.002 * p)

    return harm


def longer_seam(data):
    """A finished side seam of the back, 0.1 mm longer."""
    back = data["pieces"][1]
    edge = next(e for e in back["finished"] if e["edge"].endswith("side"))
    last = len(re.findall(r"-?\d+\.?\d*", edge["d"])) // 2 - 1
    edge["d"] = numbers(edge["d"], lambda i, p: p + (0.0, 0.1 if i == last else 0.0))


def open_outline(data):
    """The cut line's first point lifted by 0.1 mm: it does not close."""
    e = data["pieces"][0]["cut"][0]
    e["d"] = numbers(e["d"], lambda i, p: p + (0.0, 0.1 if i == 0 else 0.0))


def shifted_cut(data):
    """The cut line of the front's leg, 0.1 mm along both axes."""
    for e in data["pieces"][0]["cut"]:
        if e["edge"].endswith("leg"):
            e["d"] = numbers(e["d"], lambda _, p: p + 0.1)


def backwards(data):
    """The gusset's outline, mirrored: it runs anticlockwise."""
    for e in data["pieces"][2]["cut"]:
        e["d"] = numbers(e["d"], lambda _, p: p * (-1.0, 1.0))


def looped(data):
    """One handle pair of the gusset's sewing line thrown far over to the other side."""
    edges = data["pieces"][2]["sewing"]
    e = next(e for e in edges if e["edge"].endswith("leg"))
    e["d"] = numbers(e["d"], lambda i, p: p * (-4.0, 1.0) if i in (1, 2) else p)


def outside_sewing(data):
    """The sewing line of the gusset, 20 mm off: it leaves the cut line."""
    for e in data["pieces"][2]["sewing"]:
        e["d"] = numbers(e["d"], lambda _, p: p + (20.0, 0.0))


def wrong_area(data):
    data["pieces"][0]["area_mm2"] += 0.1


def wrong_perimeter(data):
    data["pieces"][0]["perimeter_mm"] += 0.01


def wrong_length(data):
    data["openings"][1]["sections"][0]["cut"] += 0.002


def wrong_angle(data):
    data["crossings"][0]["angle"] += 0.02


def relative(data):
    e = data["pieces"][0]["cut"][0]
    e["d"] = e["d"].replace("C", "c", 1).replace("L", "l", 1)


def square_end(data):
    """The folded end of the front's side seam cut straight on instead of mirrored."""
    for e in data["pieces"][0]["cut"]:
        if e["edge"].endswith("side"):
            e["d"] = numbers(e["d"], lambda i, p: p + (1.0 if i == 0 else 0.0, 0.0))


def bent_end(data):
    """The end of the front's gusset seam bent by a millimetre."""
    for e in data["pieces"][0]["cut"]:
        if "gusset" in e["edge"]:
            e["d"] = numbers(e["d"], lambda i, p: p + (0.0, 1.0 if i == 0 else 0.0))


def laid_over(data):
    """The back laid where the front is."""
    front, back = data["lays"][0]["placed"][:2]
    back.update(x=front["x"], y=front["y"], turn=front["turn"])


def laid_off(data):
    data["lays"][0]["placed"][0]["x"] = -1000.0


def laid_askew(data):
    data["lays"][0]["placed"][0]["turn"] = 90


def laid_short(data):
    data["lays"][0]["length_mm"] -= 0.1


# (what is harmed, how, the check that has to fail)
HARMS = [
    ("a leg's handle moved 0.1 mm", move_handle, "section and opening lengths equal their integrals"),
    ("a section's length wrong by 0.002 mm", wrong_length, "section and opening lengths equal their integrals"),
    ("a finished outline 0.2 % larger", scaled("finished"), "seam lengths equal their integrals"),
    ("a finished outline 0.2 % larger", scaled("finished"), "centre lengths follow from the sheet"),
    ("a finished outline 0.2 % larger", scaled("finished"), "girths follow from the sheet"),
    ("a finished outline 0.2 % larger", scaled("finished"), "allowances, finished edge to cut line"),
    ("a sewing outline 0.2 % larger", scaled("sewing"), "both sides of every seam, sewing lines"),
    ("a seam 0.1 mm longer on one side", longer_seam, "both sides of every seam, finished edges"),
    ("a top edge bent at its end", turn_top, "every crossing adds up to 180 degrees"),
    ("an angle wrong by 0.02 degrees", wrong_angle, "crossing angles equal the tangents'"),
    ("a cut line 0.2 % larger", scaled("cut"), "area inside each cut line (Green's theorem)"),
    ("a cut line 0.2 % larger", scaled("cut"), "perimeter of each cut line (integrated)"),
    ("an area wrong by 0.1 mm2", wrong_area, "area inside each cut line (Green's theorem)"),
    ("a perimeter wrong by 0.01 mm", wrong_perimeter, "perimeter of each cut line (integrated)"),
    ("an outline left open by 0.1 mm", open_outline, "outlines run head to tail and close"),
    ("an outline mirrored", backwards, "outlines run clockwise as seen, from the centre"),
    ("a relative command", relative, "paths are absolute M, L and C"),
    ("a sewing line that crosses itself", looped, "outlines are simple"),
    ("a sewing line out of the cut line", outside_sewing, "the cut line encloses the sewing line"),
    ("a leg's cut line shifted by 0.1 mm", shifted_cut, "allowances, cut line to finished edge"),
    ("two pieces laid over each other", laid_over, "lay, 1 pair: what a pair of pieces lacks of the gap"),
    ("a piece laid off the cloth", laid_off, "lay, 1 pair: what lies beyond the cloth"),
    ("a lay 0.1 mm too short", laid_short, "lay, 1 pair: length and use are those of the outlines"),
    ("a piece off the grain", laid_askew, "lay, 1 pair: every piece is there, along the grain, turned only where it may be"),
    ("a folded end 1 mm off", square_end, "folded ends lie on the seam's cut line"),
    ("a gusset seam's end 1 mm off", bent_end, "ends of gusset seams go straight on, and are square"),
]


def results(record, sheet, job, modules, run):
    keepers = {r["name"]: m for m in modules for r in run(m, record, sheet, job)}
    for what, harm, guard in HARMS:
        harmed = Record(copy.deepcopy(record.data))
        harm(harmed.data)
        changed = harmed.data != record.data
        # Only the module of the guarding check has to look.
        found = list(run(keepers[guard], harmed, sheet, job)) if guard in keepers else []
        guards = [r for r in found if r["name"] == guard]
        failed = bool(guards) and not all(r["ok"] for r in guards)
        detail = guards[0]["detail"] if guards else f"there is no check of that name; failing: {[r['name'] for r in found if not r['ok']]}"
        yield {"name": f"harmed: {what} is noticed by: {guard}", "ok": changed and failed, "detail": detail}


def file_results(record, sheet, job):
    """The same for what is measured on the other files."""
    document = pypdfium2.PdfDocument(job["file"](".pdf"))
    reader = pypdf.PdfReader(job["file"](".pdf"))
    larger = Record(copy.deepcopy(record.data))
    for piece in larger.data["pieces"]:
        piece["area_mm2"] *= 1.002
        piece["perimeter_mm"] *= 1.001
    doc = drawings.read(job["file"]("-cut.dxf"))
    harmed = [
        ("a print 0.5 % too large", [paper.squares(document[0], 1.005)]),
        ("a page slipped by 0.13 mm", list(paper.tiles(document, reader, sheet, 3))[-1:]),
        ("a cutter file moved off its curve by 0.06 mm", list(harmed_fidelity(record, job))),
        ("a cutter file with the names of two edges swapped", list(harmed_names(record, job))),
        ("a card that cuts every elastic 3 mm longer", [harmed_card(record, job)]),
        ("a record 0.1 % larger than the file to cut by", list(drawing_files.cut_outlines(larger, doc))[1:3]),
    ]
    one = next((p["file"] for p in job.get("prints", []) if p["title"] == "one page"), None)
    if one:
        tiled = job["file"](".pdf")
        harmed.append(("a tile slipped by half a millimetre", list(prints.together(tiled, one, sheet, 10.0, slip=3))))
        harmed.append(("a record with cut lines 2 % longer", [prints.cut_ink(cut_ink_of(tiled, sheet), longer(record))]))
    for what, found in harmed:
        ok = bool(found) and not any(r["ok"] for r in found)
        guards = ", ".join(r["name"] for r in found)
        yield {"name": f"harmed: {what} is noticed by: {guards}", "ok": ok, "detail": "; ".join(r["detail"] for r in found)}


def harmed_card(record, job):
    """Lengths in the column of what is cut."""
    facts = Facts("every number on the card is in the record")
    longer = lambda found: f"{float(found.group(1)) + 0.3:.1f} cm |"
    told = re.sub(r"(\d+\.\d) cm \|", longer, job["file"]("-card.md").read_text(encoding="utf-8"))
    mixes.compare("harmed", told, record.data, "cm", facts)
    return facts.result()


def cut_ink_of(path, sheet):
    """Ink of the cut lines alone, mm2."""
    alone = prints.hidden(path, [n for n in prints.LAYERS if n != prints.CUT])
    edge = sheet.mm("print", "margin", 10.0) + 0.5 * sheet.mm("print", "overlap", 10.0)
    pages = prints.tile_numbers(path).values()
    return sum(float(prints.core(alone[n], edge).sum()) for n in pages) / prints.PX**2


def longer(record):
    harmed = Record(copy.deepcopy(record.data))
    for piece in harmed.data["pieces"]:
        piece["perimeter_mm"] *= 1.02
    return harmed


def harmed_names(record, job):
    """The first two edges of the front go by each other's names."""
    harmed = Record(copy.deepcopy(record.data))
    first, second = harmed.data["pieces"][0]["cut"][:2]
    first["edge"], second["edge"] = second["edge"], first["edge"]
    yield from (r for r in cutter_files.names(harmed, job["variants"]) if r["name"].startswith("outlines"))


def harmed_fidelity(record, job):
    """Every handle of the front's cut line pulled out, so that its curves stray a little."""
    harmed = Record(copy.deepcopy(record.data))
    for e in harmed.data["pieces"][0]["cut"]:
        if " C " in e["d"]:
            last = len(re.findall(r"-?\d+\.?\d*", e["d"])) // 2 - 1
            e["d"] = numbers(e["d"], lambda i, p: p + (0.0, 0.08 if 0 < i < last else 0.0))
    yield from cutter_files.fidelity(harmed, job["variants"])
