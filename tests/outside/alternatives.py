"""Variants in one print: each on a layer of its own, one shown at a time, and trials line by line.

A layer is hidden by pypdf, which only changes the list of layers that are off; pypdfium2 renders.
"""

import pypdf
import pypdfium2

from prints import CUT, CUT_LINE, INK, LAYERS, PX, core, hidden, ink, tile_numbers
from tally import Facts, Tally

OWN = "As the sheet says"


def checks(record, sheet, job):
    path = job["file"](".pdf")
    others = record.data["alternatives"]
    ways = [OWN, *(f"Alternative: {a['name']}" for a in others)]
    yield listed(path, ways)
    edge = sheet.mm("print", "margin", 10.0) + 0.5 * sheet.mm("print", "overlap", 10.0)
    kinds = [n for n in LAYERS if n != CUT]
    for way, pieces in zip(ways, [record.data["pieces"], *(a["pieces"] for a in others)]):
        off = [w for w in ways if w != way] + kinds
        yield cut_ink(path, edge, off, record.on_paper(pieces), f"“{way}” alone shows the cut lines of its pieces and no others")
    yield trials(path, sheet)


def listed(path, ways):
    facts = Facts("ways to finish are layers of one group, and the sheet's own shows by itself")
    optional = pypdf.PdfReader(path, strict=True).trailer["/Root"]["/OCProperties"]
    names = lambda groups: [g.get_object()["/Name"] for g in groups]
    all_names, shown = names(optional["/OCGs"]), optional["/D"]
    facts.add(all_names[: len(LAYERS) + len(ways)] == LAYERS + ways, f"layers {all_names}")
    facts.add(names(shown["/OFF"]) == ways[1:], f"off by itself: {names(shown['/OFF'])}")
    facts.add([names(g) for g in shown["/RBGroups"]] == [ways], "not one group of which one shows")
    # As a reader opens it, and with the others switched off by hand: the same ink.
    tiles = tile_numbers(path).values()
    opened, by_hand = pypdfium2.PdfDocument(path), hidden(path, ways[1:])
    for n in tiles:
        facts.add((ink(opened[n]) == ink(by_hand[n])).all(), f"page {n + 1} opens with something else")
    return facts.result()


def cut_ink(path, edge, off, pieces, name):
    """Nothing but these cut lines is left: their ink is their length by their width."""
    tally = Tally(name, 1.5, "%")
    document = hidden(path, off)
    area = sum(float(core(document[n], edge).sum()) / PX**2 for n in tile_numbers(path).values())
    length = sum(p["perimeter_mm"] / (2 if p["on_fold"] else 1) for p in pieces)
    tally.add(100 * (area / (length * CUT_LINE) - 1), f"{area:.1f} mm2 for {length:.1f} mm")
    return tally.result()


def trials(path, sheet):
    facts = Facts("each trial is a line of the notes that can be hidden by itself")
    optional = pypdf.PdfReader(path).trailer["/Root"]["/OCProperties"]
    lines = [g.get_object()["/Name"] for g in optional["/OCGs"] if g.get_object()["/Name"].startswith("Trials")]
    facts.add(len(lines) == len(sheet.data["trial"]) > 0, f"{lines} for {len(sheet.data['trial'])} trials")
    whole = pypdfium2.PdfDocument(path)
    lost = []
    for line in lines:
        rest = hidden(path, [line, *(g for g in shut(optional))])
        changed = [(ink(whole[n]) - ink(rest[n]) > INK) for n in range(len(whole))]
        pages = [n for n, c in enumerate(changed) if c.any()]
        facts.add(len(pages) == 1, f"{line}: pages {pages}")
        for n in pages:
            rows = changed[n].any(axis=1).nonzero()[0]
            # One or two lines of small type, no more.
            facts.add(rows[-1] - rows[0] < 9 * PX, f"{line}: {(rows[-1] - rows[0]) / PX:.1f} mm high")
            lost.append((n, int(rows[0])))
    facts.add(len(set(lost)) == len(lines), f"lines in one place: {lost}")
    return facts.result()


def shut(optional):
    return [g.get_object()["/Name"] for g in optional["/D"]["/OFF"]]
