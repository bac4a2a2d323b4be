"""Random numeric sheets over every key's whole range: what is accepted has to be possible.

    python tests/extra/random_sheets.py PROGRAM [COUNT] [SEED]

Needs numpy and shapely (the environment of the outside checks has both). Draws sheets around
published women (ANSUR II, Gordon et al. 2014: hip 102.1 ± 7.6 cm, waist at the navel 86.1 ± 10.0,
crotch length by regression), sets keys at random over their whole range, drafts each, and looks at
the record alone:

- every notch lies on the cut line, and a slit 3 mm into the piece lies in cloth;
- the notch of a side seam is as far from either end of what is sewn, and as far on the front as on
  the back; a notch of any seam lies between the ends of the seam as sewn;
- every length, section, mark is positive, marks are numbered in their order round the edge, and
  wherever the stretch changes there is one, on the elastic and (seams apart) as a notch;
- what runs in a tunnel has one stretch all round, and its gap two notches that far apart;
- cut, sewing and finished outlines are simple, and finished edges of two openings do not cross;
- the sewing line lies inside the cut line, and each finished edge on the side of both that its
  finish wants, by the table of finishes that the outside checks have.

Prints a count of what was accepted, refused (by code) and broken; exit code 1 where something broke.
"""

import collections
import concurrent.futures
import json
import pathlib
import random
import re
import subprocess
import sys
import tempfile

import numpy as np
import shapely

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parent.parent / "outside"))
import finishes  # noqa: E402
from record import Record, polygon_points, unfolded  # noqa: E402
from sheet import BASES, Sheet  # noqa: E402

FINISHES = ["trim", "turned", "encased", "lapped", "binding", "tunnel", "hem", "band", "raw"]
# mm: what six decimals and a sampled outline can be off by.
NEAR, STEP = 1e-3, 0.5


def maybe(rng, chance, make):
    return make() if rng.random() < chance else None


def table(name, values):
    lines = [f"{k} = {v}" for k, v in values.items() if v is not None]
    return f"[{name}]\n" + "\n".join(lines) + "\n\n" if lines else ""


def quoted(word):
    return f'"{word}"'


def finish(rng, name, legs):
    kind = rng.choice(FINISHES)
    values = {"kind": quoted(kind)}
    if kind in ("trim", "turned", "encased", "lapped", "binding", "tunnel"):
        values["elastic"] = quoted(rng.choice(["a", "b", "c"]))
    if kind not in ("hem", "raw"):
        how = rng.random()
        if how < 0.5:
            values["reduction"] = round(rng.uniform(-20, 60) if how < 0.1 else rng.uniform(0, 25), 1)
        elif how < 0.75:
            values["length"] = round(rng.uniform(200, 1200), 1)
        values["marks"] = maybe(rng, 0.6, lambda: quoted(rng.choice(["halves", "quarters", "eighths"])))
        # In a tunnel an elastic runs freely; now and then it is asked for all the same, to be refused.
        parted = kind != "tunnel" or rng.random() < 0.02
        values["spread"] = maybe(rng, 0.3 * parted, lambda: quoted(rng.choice(["even", "equal"])))
        parts = ["front", "back", "gusset"] if legs else ["front", "back"]
        if values["spread"] != quoted("equal") and rng.random() < 0.3 * parted:
            some = rng.sample(parts, rng.randint(1, len(parts) - 1))
            values["sections"] = "{ " + ", ".join(f"{p} = {rng.uniform(-20, 60):.1f}" for p in some) + " }"
    values["put_on"] = maybe(rng, 0.4, lambda: quoted(rng.choice(["flat", "round"])))
    own = {"trim": ["bite"], "lapped": ["lap"], "tunnel": ["room", "catch", "turn"], "hem": ["depth"], "band": ["width"]}
    for key in own.get(kind, []):
        high = {"bite": 8, "lap": 6, "room": 10, "catch": 8, "turn": 15, "depth": 40, "width": 80}[key]
        low = {"depth": 4, "width": 6}.get(key, 1)
        values[key] = maybe(rng, 0.4, lambda: round(rng.uniform(low, high), 1))
    return table(f"finish.{name}", values)


def random_sheet(rng):
    hip = min(max(rng.gauss(1021, 90), 780), 1400)
    level = rng.choice(["natural", "midway", "navel"])
    higher = {"natural": 50, "midway": 25, "navel": 0}[level]
    crotch = 52 + 0.307 * hip + 0.157 * rng.gauss(1630, 70) + rng.gauss(0, 31) + 2 * higher
    wild = rng.random() < 0.5
    text = table("sheet", {"version": 1, "name": quoted("random"), "units": quoted("mm")})
    text += table("body", {
        "waist_girth": round(max(rng.gauss(0.84, 0.06) * hip - 2 * higher, 500), 1),
        "waist_level": quoted(level),
        "hip_girth": round(hip, 1),
        "waist_to_hip": round(min(max(rng.gauss(146, 25), 60), 230) + higher, 1),
        "crotch_length": round(crotch, 1),
        "crotch_length_front": round(crotch * min(max(rng.gauss(0.449, 0.033), 0.33), 0.58), 1),
        "thigh_girth": maybe(rng, 0.5, lambda: round(0.691 * hip - 89 + rng.gauss(0, 19), 1)),
        "elastic_top": round(rng.uniform(0.6, 1.0) * hip, 1),
    })
    text += table("fabric", {
        "kind": maybe(rng, 0.15, lambda: quoted("woven")),
        "stretch_across": round(rng.uniform(0, 120), 1),
        "stretch_along": round(rng.uniform(0, 100), 1),
        "ease_across": maybe(rng, 0.3, lambda: round(rng.uniform(-25, 15), 1)),
        "ease_along": maybe(rng, 0.2, lambda: round(rng.uniform(-8, 6), 1)),
        "shrink_across": maybe(rng, 0.2, lambda: round(rng.uniform(0, 12), 1)),
        "shrink_along": maybe(rng, 0.2, lambda: round(rng.uniform(0, 12), 1)),
    })
    chance = 0.3 if wild else 0.0
    text += table("style", {
        "base": quoted(rng.choice(list(BASES))),
        "top_drop_front": maybe(rng, chance, lambda: round(rng.uniform(-40, 160), 1)),
        "top_drop_side": maybe(rng, chance, lambda: round(rng.uniform(-40, 160), 1)),
        "top_drop_back": maybe(rng, chance, lambda: round(rng.uniform(-40, 160), 1)),
        "side_seam": maybe(rng, chance, lambda: round(rng.uniform(10, 240), 1)),
        "front_scoop": maybe(rng, chance, lambda: round(rng.random(), 2)),
        "back_cover": maybe(rng, chance, lambda: round(rng.random(), 2)),
        "back_share": maybe(rng, chance, lambda: round(rng.uniform(0.4, 0.6), 3)),
    })
    text += table("gusset", {
        "length": maybe(rng, chance, lambda: round(rng.uniform(90, 200), 1)),
        "width": maybe(rng, chance, lambda: round(rng.uniform(30, 90), 1)),
        "front_width": maybe(rng, chance, lambda: round(rng.uniform(40, 120), 1)),
        "back_width": maybe(rng, chance, lambda: round(rng.uniform(50, 180), 1)),
        "forward": maybe(rng, chance, lambda: round(rng.uniform(0.2, 0.6), 3)),
        "layers": rng.choice([1, 2]),
        "lining": maybe(rng, 0.4, lambda: quoted(rng.choice(["enclosed", "tacked"]))),
    })
    text += table("seams", {
        "kind": quoted(rng.choice(["overlock", "zigzag", "lockstitch"])),
        "side": round(rng.uniform(4, 20) if rng.random() < 0.2 else 7.0, 1),
        "gusset": maybe(rng, 0.2, lambda: round(rng.uniform(4, 15), 1)),
    })
    text += finish(rng, "top", False) + finish(rng, "legs", True)
    if rng.random() < 0.2:
        text += finish(rng, "right_leg", True)
    for name in "abc":
        width = round(rng.choice([6, 8, 10, 12, 16, 20, 25, 40]) * rng.uniform(0.9, 1.1), 1)
        text += table(f"elastic.{name}", {
            "width": width,
            "picot": maybe(rng, 0.4, lambda w=width: round(rng.uniform(0, 0.3) * w, 1)),
            "stretch": maybe(rng, 0.7, lambda: round(rng.uniform(30, 200), 0)),
            "growth": maybe(rng, 0.3, lambda: round(rng.uniform(0, 10), 1)),
        })
    return text


def ring(record, name, row):
    curves = unfolded(record.pieces[name], record.loop(name, row))
    return shapely.Polygon(polygon_points(curves, STEP))


def broken(record, sheet):
    """What of a record cannot be."""
    for name, piece in record.pieces.items():
        shapes = {row: ring(record, name, row) for row in ("cut", "sewing", "finished")}
        for row, shape in shapes.items():
            if not shape.is_valid:
                yield f"{name}: the {row} outline crosses itself"
        if all(s.is_valid for s in shapes.values()):
            out = shapes["sewing"].difference(shapes["cut"].buffer(0.05)).area
            if out > 1.0:
                yield f"{name}: {out:.1f} mm² of the sewing outline lie outside the cut line"
            yield from nested(record, sheet, name, shapes)
        line, cloth = shapes["cut"].exterior, shapes["cut"].buffer(0.05)
        for notch in piece["notches"]:
            at, inward = np.array(notch["at"]), np.array(notch["inward"])
            off = line.distance(shapely.Point(at))
            if off > 0.06:
                yield f"{name}: the notch {notch['id']} is {off:.1f} mm off the cut line"
            elif shapes["cut"].is_valid and not cloth.contains(shapely.LineString([at, at + 3 * inward])):
                yield f"{name}: the notch {notch['id']} does not lie in cloth"
    yield from crossing(record)
    yield from seam_notches(record)
    for opening in record.data["openings"]:
        yield from lengths(opening)
        yield from changes(record, opening)
        yield from gap(record, opening)


def points(curve):
    return curve.samples(STEP)[0]


def nested(record, sheet, name, shapes):
    """Each finished edge of an opening on its side of cut line and stitches."""
    names = record.half_leg_names()
    for edge, curve in record.loop(name, "finished"):
        opening = names.get((name, edge))
        if opening is None:
            continue
        cut, sewing, _ = finishes.of(record, sheet, opening)
        # The ends lie on the seam, which no finish moves.
        inner = shapely.MultiPoint(points(curve)[1:-1])
        for row, distance in (("cut", cut), ("sewing", sewing or 0.0)):
            if distance > 0.5 and not inner.within(shapes[row].buffer(0.15)):
                yield f"{name}: the finished {edge} leaves the {row} line, which lies beyond it"
            if distance < -0.5 and inner.intersects(shapes[row].buffer(-0.15)):
                yield f"{name}: the finished {edge} lies inside the {row} line, which falls short of it"


def crossing(record):
    """Finished edges of two openings on one piece have nothing in common."""
    names = record.half_leg_names()
    for name in record.pieces:
        lines = collections.defaultdict(list)
        for edge, curve in record.loop(name, "finished"):
            if (name, edge) in names:
                lines["top" if names[name, edge] == "top edge" else edge].append(shapely.LineString(points(curve)))
        ways = [shapely.MultiLineString(group) for group in lines.values()]
        for i, one_way in enumerate(ways):
            if any(one_way.intersects(other) for other in ways[i + 1:]):
                yield f"{name}: finished edges of two openings cross"


def along(curve, at):
    """How far along a curve a point near it is, mm."""
    return shapely.LineString(points(curve)).project(shapely.Point(at))


def seam_notches(record):
    """Notches of seams against what is cut and sewn."""
    seams = record.seam_edges()
    told = collections.defaultdict(dict)
    for name, piece in record.pieces.items():
        finished, sewing = dict(record.loop(name, "finished")), dict(record.loop(name, "sewing"))
        for notch in piece["notches"]:
            seam = seams.get((name, notch["edge"]))
            if seam is None:
                continue
            where, sewn = points(finished[notch["edge"]]), points(sewing[notch["edge"]])
            # A seam is worn as far as the finished edges: to an end that its stitches pass, else to theirs.
            line, net = shapely.LineString(sewn), finished[notch["edge"]]
            ends = sorted(
                at if line.distance(shapely.Point(end)) < 0.05 else along(net, last)
                for end, last, at in ((where[0], sewn[0], 0.0), (where[-1], sewn[-1], net.length()))
            )
            place = notch["along"]
            if not ends[0] - 0.05 <= place <= ends[1] + 0.05:
                yield f"{name}: the notch {notch['id']} lies outside what is sewn"
            if "side" in seam and abs((place - ends[0]) - (ends[1] - place)) > 0.15:
                yield f"{name}: the notch {notch['id']} is off the middle of what is sewn"
            # From the end at the top.
            down = place if where[0][1] < where[-1][1] else finished[notch["edge"]].length() - place
            if "side" in seam:
                told[seam, notch["edge"]][name] = down
    for (seam, _), places in told.items():
        if len(places) == 2 and abs(np.subtract(*places.values())) > 0.02:
            yield f"{seam}: its notches are not alike: {places}"


def lengths(opening):
    name = opening["name"]
    for section in opening["sections"]:
        for key in ("finished", "sewing", "cut", "elastic_length"):
            if section[key] is not None and not section[key] > 0:
                yield f"{name}: {key} of {section['name']} is {section[key]} mm"
    sewn = opening["elastic"] or opening["band"]
    if not sewn:
        return
    if not (sewn.get("finished_length", sewn.get("length")) > 0 and sewn["cut_length"] > 0):
        yield f"{name}: what is sewn on has no length"
    for key in ("along_elastic", "along_edge"):
        places = [m[key] for m in sewn["marks"]]
        if any(b <= a for a, b in zip(places, places[1:])) or any(p < -NEAR for p in places):
            yield f"{name}: marks are out of order: {places}"
    if [m["label"] for m in sewn["marks"]] != [str(k + 1) for k in range(len(sewn["marks"]))]:
        yield f"{name}: marks are not numbered in order"


def changes(record, opening):
    """A mark wherever the stretch changes; one stretch where an elastic runs freely."""
    sewn = opening["elastic"] or opening["band"]
    if not sewn:
        return
    name, sections = opening["name"], opening["sections"]
    marked = {mark["place"] for mark in sewn["marks"]}
    places = {name for piece in record.pieces.values() for name in (n["id"] for n in piece["notches"])}
    for before, after in zip(sections[-1:] + sections, sections):
        if abs(before["reduction"] - after["reduction"]) < 1e-3:
            continue
        if opening["finish"] == "tunnel":
            yield f"{name}: what runs in a tunnel has two stretches"
        if after["from"] not in marked:
            yield f"{name}: no mark where the stretch changes, at the {after['from']}"
        is_centre = after["from"].startswith("centre")
        if is_centre and not any(place.endswith(after["from"]) for place in places):
            yield f"{name}: no notch where the stretch changes, at the {after['from']}"


def gap(record, opening):
    """The gap of a tunnel has two notches in the back, that far apart along the finished edge."""
    if opening["finish"] != "tunnel":
        if opening["gap"] is not None:
            yield f"{opening['name']}: a gap where nothing is threaded"
        return
    back = record.pieces["back"]
    edges = {ref["edge"] for ref in opening["path"] if ref["piece"] == "back"}
    ends = [n for n in back["notches"] if "threading gap" in n["id"] and n["edge"] in edges]
    finished = dict(record.loop("back", "finished"))
    if opening["name"] == "top edge":
        # Round the centre back: each notch as far from it as the other.
        parts = [min(n["along"], finished[n["edge"]].length() - n["along"]) for n in ends]
        parts = parts * 2 if back["on_fold"] else parts
        apart = sum(parts) if len(parts) == 2 else -1.0
    else:
        places = [n["along"] for n in ends]
        apart = max(places) - min(places) if len(places) == 2 else -1.0
    if abs(apart - opening["gap"]["length"]) > 0.01:
        yield f"{opening['name']}: the gap's notches are {apart:.1f} mm apart"


def one(program, text):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "sheet.toml"
        path.write_text(text, encoding="utf-8")
        run = subprocess.run([program, "draft", path, "-o", f"{folder}/out"], capture_output=True, text=True)
        if run.returncode not in (0, 1, 2):
            return "crashed", [f"exit {run.returncode}: {run.stderr[-300:]}"]
        found = list(pathlib.Path(folder, "out").glob("*.json")) if run.returncode == 0 else []
        if not found:
            code = re.search(r"error\[([\w.]+)\]", run.stderr + run.stdout)
            return f"{run.returncode}: {code[1] if code else run.stderr.splitlines()[0]}", []
        with open(found[0], encoding="utf-8") as file:
            return "accepted", list(broken(Record(json.load(file)), Sheet(path)))


def main():
    program = sys.argv[1]
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 1000
    rng = random.Random(int(sys.argv[3]) if len(sys.argv) > 3 else 1)
    sheets = [random_sheet(rng) for _ in range(count)]
    outcomes, wrong, kinds = collections.Counter(), [], collections.Counter()
    with concurrent.futures.ProcessPoolExecutor() as pool:
        results = pool.map(one, [program] * count, sheets, chunksize=16)
        for i, (outcome, found) in enumerate(results):
            outcomes[outcome] += 1
            if found:
                wrong.append((i, found))
                kinds.update({re.sub(r"[-\d.,\[\] ]+", " ", f) for f in found})
    for outcome, n in outcomes.most_common():
        print(f"{n:6} {outcome}")
    print(f"{len(wrong)} broken of {outcomes['accepted']} accepted")
    for kind, n in kinds.most_common(20):
        print(f"{n:6} {kind}")
    for i, found in wrong[:10]:
        print(f"sheet {i}: {'; '.join(found[:3])}")
    if wrong:
        pathlib.Path("random-sheet-broken.toml").write_text(sheets[wrong[0][0]], encoding="utf-8")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
