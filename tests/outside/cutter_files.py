"""Every form of the files for cutters and plotters, against the record's own curves.

DXF is read by ezdxf and flattened by it; distances are shapely's; HP-GL is read by the few lines
below. The file's outlines lie elsewhere than the record's: their first points tell by how much.
"""

import re
from xml.etree import ElementTree

import ezdxf.path
import numpy as np
import shapely
from shapely.geometry import LineString, Polygon

import drawings
from curves import parse
from drawing_files import audit, headers
from record import polygon_points, unfolded
from tally import Facts, Tally

# What the program says on its own: chords and arcs within 0.05 mm, splines exactly.
TOLERANCE = {"polylines": 0.05, "arcs": 0.05, "splines": 0.001}
# HP-GL's unit, mm.
UNIT = 0.025
# Steps along curves, and ezdxf's own flattening, mm: far below what is measured.
STEP, FLAT = 0.2, 1e-4
# The engine's offsets are within this of the true parallel curve, mm.
OFFSET = 5e-4


def checks(record, sheet, job):
    forms = job.get("variants") or []
    if not forms:
        return
    yield from fidelity(record, forms)
    yield from counts(forms)
    yield from kerfs(record, sheet, forms)
    yield from vees(record, forms)
    yield from layouts(record, forms)
    yield from plots(record, forms)
    yield from planes(forms)
    yield from names(record, forms)
    yield from exchanged(record, forms)
    yield from home_cutters(record, forms)
    yield from pictures(record, job)
    yield from headers([find(form, "-cut.dxf") for form in forms], "headers of every form")
    # An audit mends what it finds: nothing is read of a drawing after it.
    yield from audits(forms)


def find(form, suffix):
    from check import one_file

    return one_file(form["folder"], suffix)


def title(form):
    return " ".join(str(form[k]) for k in ("version", "curves", "extent", "kerf", "notches", "pairs"))


def audits(forms):
    facts = Facts("every form of the file to cut by audits at 0 errors and 0 fixes")
    for form in forms:
        result = audit(title(form), find(form, "-cut.dxf"))
        facts.add(result["ok"], f"{title(form)}: {result['detail']}")
    yield facts.result()


def outlines(form):
    doc = drawings.read(find(form, "-cut.dxf"))
    return [e for e in doc.modelspace() if e.dxf.layer == "CUT"]


def flat(entity):
    """The corners of an outline as ezdxf sees it, closed."""
    points = [(p.x, p.y) for p in ezdxf.path.make_path(entity).flattening(FLAT, segments=16)]
    if np.hypot(*np.subtract(points[0], points[-1])) > 1e-9:
        points.append(points[0])
    return np.array(points)


def wanted(record, piece, extent):
    """The record's cut line, finely sampled, y up, closed."""
    loop = record.loop(piece["name"], "cut")
    curves = [c for _, c in loop] if extent == "half" else unfolded(piece, loop)
    points = polygon_points(curves, STEP) * (1, -1)
    return np.concatenate([points, points[:1]])


def plain(forms):
    return [f for f in forms if not f["kerf"] and f["notches"] == "marks" and not f["pairs"]]


def aligned(record, form):
    """(piece, the file's outline moved to the record's place, the record's)."""
    for piece, entity in zip(record.pieces.values(), outlines(form), strict=True):
        own, curve = flat(entity), wanted(record, piece, form["extent"])
        # A V may take the first point away, but none that the box rests on.
        vees = form["notches"] == "vees"
        shift = curve.min(axis=0) - own.min(axis=0) if vees else curve[0] - own[0]
        yield piece, own + shift, curve


def dense(points):
    """Also places between far points."""
    return np.array(shapely.segmentize(LineString(points), 0.2).coords)


def strays(points, line):
    """How far the points are from the line, at most."""
    tree = shapely.STRtree(shapely.linestrings(np.stack([line[:-1], line[1:]], axis=1)))
    _, distance = tree.query_nearest(shapely.points(points), return_distance=True, all_matches=False)
    return distance.max()


def apart(a, b):
    """Hausdorff distance, both ways, at many more places than there are corners."""
    return max(strays(dense(a), b), strays(dense(b), a))


def fidelity(record, forms):
    for curves, limit in TOLERANCE.items():
        tally = Tally(f"{curves} keep to the engine's curve, both ways", limit)
        for form in plain(forms):
            if form["curves"] == curves:
                for piece, own, curve in aligned(record, form):
                    tally.add(apart(own, curve), f"{piece['name']}, {form['version']} {form['extent']}")
        yield tally.result()


def named(entity):
    """[(edge, where it starts)] and the piece and line, from the extended data."""
    tags = entity.get_xdata("QUARTERPIN")
    words = [t.value.split("=", 1) for t in tags if t.code == 1000]
    places = [np.array([t.value[0], t.value[1]]) for t in tags if t.code == 1011]
    said = {key: value for key, value in words if key != "edge"}
    edges = [value for key, value in words if key == "edge"]
    return said, list(zip(edges, places, strict=True))


def turn(points):
    """Twice the area inside, positive where it lies to the left."""
    x, y = np.array(points).T
    return float((x * np.roll(y, -1) - y * np.roll(x, -1)).sum())


def edge_lengths(entity, edges):
    """How long each named edge of a closed outline is, as ezdxf sees it, and how far its start is off."""
    points = flat(entity)
    # ezdxf turns the course of some splines round; names follow the file's own.
    if turn(points) * turn([place for _, place in edges]) < 0:
        points = points[::-1]
    along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    starts, off = [], []
    for _, place in edges:
        distance = np.hypot(*(points[:-1] - place).T)
        starts.append(along[distance.argmin()])
        off.append(distance.min())
    ends = starts[1:] + [along[-1] + starts[0]]
    return [end - start for start, end in zip(starts, ends)], max(off)


def compare_names(record, entities, limits, where):
    """Names of half pieces are the record's; limits are those of lengths, places and names."""
    length, place, name = limits
    for piece, entity in zip(record.pieces.values(), entities, strict=True):
        said, edges = named(entity)
        loop = record.loop(piece["name"], "cut")
        name.add(said == {"piece": piece["name"], "line": "cut"}, f"{where}: {said}")
        name.add([e for e, _ in edges] == [e for e, _ in loop], f"{where}, {piece['name']}: {edges}")
        found, off = edge_lengths(entity, edges)
        place.add(off, f"{where}, {piece['name']}")
        for (edge, curve), own in zip(loop, found, strict=True):
            length.add(own - curve.length(), f"{where}, {piece['name']}, {edge}")


def names(record, forms):
    """Lengths by the names in the file, as another program finds them."""
    for curves, limit in (("polylines", 0.05), ("arcs", 0.05), ("splines", 0.001)):
        length = Tally(f"named edges of {curves} have their length", limit)
        place = Tally(f"names of edges stand at vertices of {curves}", 1e-6)
        name = Facts(f"outlines in {curves} name the record's edges, in order")
        for form in plain(forms):
            if form["curves"] == curves and form["extent"] == "half":
                compare_names(record, outlines(form), (length, place, name), form["version"])
        yield from (t.result() for t in (length, place, name))


def boundaries(doc):
    blocks = [b for b in doc.blocks if not b.name.startswith("*")]
    return [next(e for e in b if e.dxftype() == "POLYLINE" and e.dxf.layer == "1") for b in blocks]


def exchanged(record, forms):
    """Names, and slits and Vs as they were asked for."""
    length = Tally("named edges of the file to exchange have their length", 0.05)
    place = Tally("names of edges stand at vertices of the file to exchange", 1e-6)
    name = Facts("boundaries of the file to exchange name the record's edges, in order")
    notch = Facts("notches of the file to exchange are slits without a width, or Vs with one")
    for form in forms:
        path = find(form, "-pieces.dxf")
        doc = drawings.read(path)
        points = [e for b in doc.blocks for e in b if e.dxftype() == "POINT" and e.dxf.layer == "4"]
        for e in points:
            width = e.dxf.get("thickness", 0.0)
            # A V is as wide as deep, or narrower beside a corner.
            right = 0 < width <= e.dxf.location.z + 1e-6 if form["notches"] == "vees" else width == 0
            notch.add(right, f"{title(form)}: {width} wide, {e.dxf.location.z} deep")
        if form["notches"] == "vees" and not form["kerf"]:
            yield audit("the file to exchange with Vs", path)
        if form is forms[0]:
            compare_names(record, boundaries(doc), (length, place, name), "to exchange")
    yield from (t.result() for t in (length, place, name, notch))


def parts(entity):
    if entity.dxftype() == "SPLINE":
        return (len(entity.control_points) - 1) // 3
    return len(entity) if entity.dxftype() == "LWPOLYLINE" else len(entity.vertices)


def counts(forms):
    facts = Facts("arcs need less than half as many parts as chords")
    for version in ("R12", "R2000"):
        counted = {
            f["curves"]: sum(map(parts, outlines(f)))
            for f in plain(forms)
            if f["version"] == version and f["extent"] == "full"
        }
        facts.add(2 * counted["arcs"] < counted["polylines"], f"{version}: {counted}")
    yield facts.result()


def kerfs(record, sheet, forms):
    distance = Tally("outlines are grown by half the kerf, corners mitred (shapely's buffer)", 2 * OFFSET)
    area = Tally("areas grow by length times half the kerf and the corners' part", 1.0, "of what the offset may do")
    slits = Tally("slits start half a kerf outside and are as deep as the notch", OFFSET)
    for form in forms:
        if not form["kerf"] or form["notches"] != "slits":
            continue
        d = form["kerf"] / 2
        shifts = {}
        for piece, entity in zip(record.pieces.values(), outlines(form), strict=True):
            true = Polygon(wanted(record, piece, "full"))
            own = flat(entity)
            grown = true.buffer(d, join_style="mitre", mitre_limit=5)
            shift = np.subtract(grown.bounds[:2], own.min(axis=0))
            shifts[piece["name"]] = shift
            moved = own + shift
            where = f"{piece['name']}, kerf {form['kerf']}"
            distance.add(apart(moved, np.array(grown.exterior.coords)), where)
            change = Polygon(moved).area - true.area
            closed_form = true.exterior.length * d + corners(true) * d * d
            area.add((change - closed_form) / (true.exterior.length * 2 * OFFSET), f"{where}: {change:.3f}")
        for piece, off in slit_errors(record, sheet, form, shifts, d):
            slits.add(off, f"{piece}, kerf {form['kerf']}")
    yield from (t.result() for t in (distance, area, slits))


def corners(polygon):
    """The sum of tan(turn / 2): what a mitred outline gains at its corners, per square millimetre."""
    points = np.array(polygon.exterior.coords)[:-1]
    steps = np.roll(points, -1, axis=0) - points
    before = np.roll(steps, 1, axis=0)
    turn = np.arctan2(
        before[:, 0] * steps[:, 1] - before[:, 1] * steps[:, 0], (before * steps).sum(axis=1)
    )
    if not polygon.exterior.is_ccw:
        turn = -turn
    return float(np.tan(turn / 2).sum())


def slit_errors(record, sheet, form, shifts, d):
    """Every slit lies on its notch's own line: half a kerf outside, and as deep as its neighbours."""
    doc = drawings.read(find(form, "-cut.dxf"))
    lines = [e for e in doc.modelspace() if e.dxf.layer == "SLIT"]
    whole = [
        np.array([[e.dxf.start.x, e.dxf.start.y], [e.dxf.end.x, e.dxf.end.y]]) for e in lines
    ]
    for name, piece in record.pieces.items():
        for notch in piece["notches"]:
            at, inward = np.array(notch["at"]) * (1, -1), np.array(notch["inward"]) * (1, -1)
            start = at - inward * d - shifts[name]
            near = min(whole, key=lambda w: np.hypot(*(w[0] - start)))
            yield f"{notch['id']} start", np.hypot(*(near[0] - start))
            # The beam takes half a kerf more at its end, so the line is as long as the slit deep.
            along = near[1] - near[0]
            yield f"{notch['id']} course", along[0] * inward[1] - along[1] * inward[0]
            yield f"{notch['id']} depth", np.hypot(*along) - depth(record, sheet, name, notch)


def depth(record, sheet, piece, notch):
    """4 mm, but no more than 0.6 of the way to the stitches, and no less than 1 mm.

    At a seam that is the allowance (the sheet's, or by its kind), else what lies between the lines.
    """
    seam = next((s for s in ("gusset", "side") if s in notch["edge"]), None)
    kinds = {"overlock": 7.0, "zigzag": 7.0, "lockstitch": 10.0}
    if seam:
        room = sheet.mm("seams", seam, kinds[sheet.get("seams", "kind")])
    else:
        line = dict(record.loop(piece, "sewing"))[notch["edge"]]
        room = LineString(line.samples(STEP)[0]).distance(shapely.Point(notch["at"]))
    return max(min(4.0, 0.6 * room), 1.0)


def vees(record, forms):
    found = Tally("every V takes half of mouth times depth from its piece", 0.1, "mm²")
    shape = Facts("outlines with Vs are simple and lie inside the plain ones")
    for form in forms:
        if form["notches"] != "vees" or form["kerf"]:
            continue
        marks = [
            e for e in drawings.read(find(form, "-cut.dxf")).modelspace() if e.dxf.layer == "NOTCH"
        ]
        shape.add(not marks, f"{len(marks)} notches have no room for a V")
        for piece, own, curve in aligned(record, form):
            cut, true = Polygon(own), Polygon(curve)
            shape.add(cut.is_valid, f"{piece['name']} crosses itself")
            shape.add(cut.difference(true.buffer(0.002)).area < 1e-3, f"{piece['name']} stands out")
            for part in parts_of(true.buffer(-0.002).difference(cut)):
                if part.area > 0.1:
                    width, height = mouth_and_depth(part, true)
                    found.add(part.area - 0.5 * width * height, f"{piece['name']}: {part.area:.2f}")
    yield shape.result()
    yield found.result()


def parts_of(shape):
    return list(getattr(shape, "geoms", [shape]))


def mouth_and_depth(part, true):
    """A V is as wide as deep: both follow from its farthest point inside."""
    depth = max(true.exterior.distance(shapely.Point(p)) for p in part.exterior.coords)
    return depth, depth


def layouts(record, forms):
    facts = Facts("pairs come by quantity, apart and on the sheet")
    for form in forms:
        if not form["pairs"]:
            continue
        rings = [Polygon(flat(e)) for e in outlines(form)]
        count = form["pairs"] * sum(p["quantity"] for p in record.pieces.values())
        facts.add(len(rings) == count, f"{len(rings)} outlines for {count}")
        for i, a in enumerate(rings):
            facts.add(a.bounds[0] >= -1e-6 and a.bounds[2] <= form["width"] + 1e-6, f"outline {i} leaves the sheet")
            for b in rings[:i]:
                facts.add(a.distance(b) >= 5, f"{a.distance(b):.2f} mm between two outlines")
    yield facts.result()


def pens(path):
    """HP-GL: {pen: [lines of points in mm]}; only what the file may hold is understood."""
    text = path.read_bytes().decode("ascii")
    text = re.sub(r"LB[^\x03]*\x03", "", text)
    lines, pen, here = {}, 0, None
    for word in filter(None, (w.strip() for w in text.split(";"))):
        name, rest = word[:2], word[2:]
        numbers = [float(n) for n in rest.split(",") if n]
        points = [(x * UNIT, y * UNIT) for x, y in zip(numbers[::2], numbers[1::2], strict=True)] if name != "SP" else []
        if name in ("IN", "SI"):
            continue
        if name == "SP":
            pen = int(rest)
        elif name == "PU":
            here = points[-1] if points else here
        elif name == "PD":
            line = lines.setdefault(pen, [])
            if line and line[-1][-1] == here:
                line[-1].extend(points)
            else:
                line.append([here, *points])
            here = points[-1]
        else:
            raise ValueError(f"{word!r} is no instruction of ours")
    return lines


def plots(record, forms):
    near = Tally("plotter outlines keep to the engine's curve, both ways", 0.05)
    corner = Tally("corners of plotter outlines are exact to half a unit", UNIT / 2 + 1e-5)
    for form in plain(forms):
        if form["curves"] != "polylines":
            continue
        drawn = [np.array(line) for line in pens(find(form, ".plt"))[1]]
        entities = [flat(entity) for entity in outlines(form)]
        # More words stand beneath a plot than beneath the DXF, so that all of it is moved by one shift.
        rough = entities[0][0] - drawn[0][0]
        off, named = [], []
        for piece, own, entity in zip(record.pieces.values(), drawn, entities, strict=True):
            curve = wanted(record, piece, form["extent"])
            assert np.array_equal(own[0], own[-1]), "a plotter outline is open"
            # The file to cut by has its place to the nanometre.
            moved = own + rough + (curve[0] - entity[0])
            near.add(apart(moved, curve), piece["name"])
            for name, edge in record.loop(piece["name"], "cut"):
                p = edge.start * (1, -1)
                if form["extent"] == "half" or abs(edge.start[0]) > 1e-6:
                    off.append(moved[np.abs(moved - p).max(axis=1).argmin()] - p)
                    named.append(f"{piece['name']}, {name}")
        # Of all shifts the middle one: where rounding allows none, a corner is off by more than half a unit.
        shift = (np.min(off, axis=0) + np.max(off, axis=0)) / 2
        for residual, name in zip(off, named, strict=True):
            corner.add(np.abs(residual - shift).max(), name)
    yield near.result()
    yield corner.result()


# What README says of the pens, and which layers of the DXF hold the same lines.
PENS = {1: ["CUT"], 2: ["SLIT"], 3: ["SEWING"], 4: ["SECOND_ROW"], 5: ["FINISHED", "FOLD"], 6: ["NOTCH"], 7: ["GRAIN", "STRETCH"]}


def planes(forms):
    """The whole plot laid on the DXF by one shift: every line of every pen, copies, slits and kerf included."""
    same = Facts("the plot has the lines of the DXF, pen by pen")
    ends = Tally("ends of all lines of the plot lie where the DXF has them, to half a unit", UNIT / 2 + 1e-5)
    # Both are chords of one curve, within their tolerance of it.
    lines = Tally("all lines of the plot lie on those of the DXF, both ways", 2 * TOLERANCE["polylines"])
    for form in forms:
        drawn, cut = pens(find(form, ".plt")), drawings.read(find(form, "-cut.dxf"))
        pairs, rough = [], None
        for pen, layers in PENS.items():
            own = [np.array(line) for line in drawn.pop(pen, [])]
            others = [line_of(e) for e in cut.modelspace() if e.dxf.layer in layers and e.dxftype() != "TEXT"]
            same.add(len(own) == len(others), f"{title(form)}: pen {pen} draws {len(own)} lines, not {len(others)}")
            # Outlines come first, and in the order of the pieces.
            rough = own[0][0] - others[0][0] if rough is None else rough
            pairs += [(pen, a, b) for a, b in matched(own, others, rough)]
        same.add(not drawn, f"{title(form)}: pens {list(drawn)}")
        off = np.array([end for _, a, b in pairs for end in (a[0] - b[0], a[-1] - b[-1])])
        # Of all shifts the middle one, as above.
        shift = (off.min(axis=0) + off.max(axis=0)) / 2
        for pen, a, b in pairs:
            for end in (0, -1):
                ends.add(np.abs(a[end] - shift - b[end]).max(), f"{title(form)}, pen {pen}, {b[end].round(2)}")
            lines.add(apart(a - shift, b), f"{title(form)}, pen {pen}, from {b[0].round(2)}")
    yield from (t.result() for t in (same, ends, lines))


def matched(own, others, shift):
    """Each line with that of the others whose ends are nearest, turned round where those are nearer so."""
    left = [way for line in others for way in (line, line[::-1])]
    for line in own if others else []:
        far = [np.abs(line[0] - shift - b[0]).sum() + np.abs(line[-1] - shift - b[-1]).sum() for b in left]
        nearest = int(np.argmin(far))
        yield line, left[nearest]
        del left[nearest // 2 * 2 : nearest // 2 * 2 + 2]
        if not left:
            return


def line_of(entity):
    """The corners of a line as ezdxf sees it, closed where it is."""
    return np.array([(p.x, p.y) for p in ezdxf.path.make_path(entity).flattening(FLAT, segments=16)])


def home_cutters(record, forms):
    """The SVG for home cutters: the record's outlines, and with a kerf those of the DXF as ezdxf reads it."""
    exact = Tally("the SVG for home cutters has the record's outlines, both ways", 0.001)
    grown = Tally("the SVG for home cutters has the outlines of the DXF, both ways", 0.002)
    page = Facts("outlines for home cutters lie on a page of the width asked for")
    kinds = Facts("the SVG for home cutters has its lines in groups, each of one colour; outlines are closed")
    for form in forms:
        text = find(form, "-cut.svg").read_text(encoding="utf-8")
        rings = [ring(d) for d in re.findall(r'<path d="([^"]*)"[^>]*id="[^"]*-outline"', text)]
        entities = outlines(form)
        grouped(text, form, len(entities), kinds)
        page.add(len(rings) == len(entities), f"{title(form)}: {len(rings)} outlines")
        size = [float(re.search(rf' {key}="([\d.]+)mm"', text).group(1)) for key in ("width", "height")]
        corners = np.concatenate(rings)
        page.add(form["width"] in (0, size[0]), f"{title(form)}: {size[0]} mm wide")
        page.add(bool((corners > -1e-3).all() and (corners < np.add(size, 1e-3)).all()), f"{title(form)}: on the page")
        for i, own in enumerate(ring * (1, -1) for ring in rings):
            own = np.concatenate([own, own[:1]])
            if form["curves"] == "splines":
                other = flat(entities[i])
                grown.add(apart(own + (other[0] - own[0]), other), f"{title(form)}, outline {i + 1}")
            if form in plain(forms):
                curve = wanted(record, list(record.pieces.values())[i], form["extent"])
                exact.add(apart(own + (curve[0] - own[0]), curve), f"{title(form)}, outline {i + 1}")
    yield from (t.result() for t in (exact, grown, page, kinds))


# What README says of the groups.
COLOURS = {"marks": "#0000ff", "slits": "#ff8000", "cut": "#ff0000"}


def grouped(text, form, count, facts):
    """Read as XML by Python's own reader."""
    svg = "{http://www.w3.org/2000/svg}"
    found = {g.get("id"): g.findall(f"{svg}path") for g in ElementTree.fromstring(text.encode()).findall(f"{svg}g")}
    want = {"marks": ["marks", "cut"], "slits": ["slits", "cut"], "vees": ["cut"]}[form["notches"]]
    facts.add(list(found) == want, f"{title(form)}: groups {list(found)}")
    for name, paths in found.items():
        facts.add({p.get("stroke") for p in paths} == {COLOURS[name]}, f"{title(form)}: colours of {name}")
    ends = [p.get("d").endswith(" Z") and p.get("d").count("M") == 1 for p in found.get("cut", [])]
    facts.add(len(ends) == count and all(ends), f"{title(form)}: {ends}")


def ring(d):
    """The points of a closed path of an SVG."""
    return parse(spaced(d)).samples(STEP)[0][:-1]


def spaced(d):
    return d.replace("Z", "").replace("M", "M ").replace("L", " L ").replace("C", " C ")


def pictures(record, job):
    """The SVG's outlines and edges, by their ids, against the record."""
    text = job["file"](".svg").read_text(encoding="utf-8")
    length = Tally("lengths of the SVG's lines, by their ids", 0.002)
    named = Facts("the SVG names every edge of its cut and sewing lines")
    for name, piece in record.pieces.items():
        ident = name.replace(" ", "-")
        d = re.search(rf'<path [^>]*id="{ident}-cut-outline"[^>]*>', text).group(0)
        own = parse(re.search(r' d="([^"]*)"', d).group(1).replace("Z", "").replace("M", "M ").replace("L", " L ").replace("C", " C "))
        length.add(own.length() - sum(c.length() for _, c in record.loop(name, "cut")), f"{name}, cut")
        edges = [e.rsplit(" ", 2)[0].strip() for e in re.search(r'data-edges="([^"]*)"', d).group(1).split(";")]
        named.add(edges == [e for e, _ in record.loop(name, "cut")], f"{name}: {edges}")
        for edge, curve in record.loop(name, "sewing"):
            found = re.search(rf'<path [^>]*id="{ident}-sewing-{edge.replace(" ", "-")}"[^>]*>', text)
            on_fold = piece["on_fold"] and edge == "centre"
            named.add((found is None) == on_fold, f"{name}, sewing, {edge}")
            if found:
                d = re.search(r' d="([^"]*)"', found.group(0)).group(1)
                own = parse(d.replace("M", "M ").replace("L", " L ").replace("C", " C "))
                length.add(own.length() - curve.length(), f"{name}, sewing, {edge}")
    yield length.result()
    yield named.result()
