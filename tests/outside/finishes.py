"""The design's table of finishes, written down again: signed distances from the finished edge.

w elastic width, p its picot part, b the bite. Outward is positive. Common practice of the trade,
as the design's table has it.
"""

OPENINGS = {"top edge": "top", "left leg": "left_leg", "right leg": "right_leg"}


def settings(sheet, opening, side_seam):
    keys = sheet.finish(opening)
    elastic = sheet.elastic(keys.get("elastic"))
    mm = lambda table, key, default: default if key not in table else sheet.length(table[key])
    return {
        "kind": keys["kind"],
        "w": mm(elastic, "width", 0.0),
        "p": mm(elastic, "picot", 0.0),
        "b": mm(keys, "bite", 3.0),
        "reach": keys.get("reach", "keep"),
        "lap": min(mm(keys, "lap", 6.0), mm(elastic, "width", 0.0)),
        "room": mm(keys, "room", 3.0),
        "catch": mm(keys, "catch", 2.0),
        "turn": mm(keys, "turn", 0.0),
        "depth": mm(keys, "depth", 10.0 if opening == "top" else 7.0),
        # A band leaves two fifths of a short side seam.
        "width": mm(keys, "width", min(30.0, 0.36 * side_seam) if opening == "top" else min(20.0, 0.24 * side_seam)),
        "seam": sheet.mm("seams", "side", 7.0),
    }


def lines(s):
    """(cut, sewing, folded in at the finished edge?)"""
    w, p, b = s["w"], s["p"], s["b"]
    if s["kind"] == "trim" and s["reach"] == "add":
        return 0.0, -b, False
    return {
        "trim": (-(w - 2 * b), -(w - b), False),
        "turned": (w - p, 0.0, True),
        "encased": (w, w - 2.5, True),
        "lapped": (-(w - s["lap"]), -(w - min(1.5, s["lap"] / 2)), False),
        "binding": (0.0, -(w / 2 - 1.5), False),
        "tunnel": (w + s["room"] + s["catch"] + s["turn"], -(w + s["room"]), True),
        "hem": (s["depth"], -(s["depth"] - 2), True),
        "band": (-s["width"] + s["seam"], -s["width"], False),
        "raw": (0.0, None, False),
    }[s["kind"]]


def of(record, sheet, opening_name):
    side_seam = next(u["value"] for u in record.data["used"] if u["key"] == "style.side_seam")
    return lines(settings(sheet, OPENINGS[opening_name], side_seam))
