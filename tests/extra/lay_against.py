#!/usr/bin/env python3
"""The lay beside a general nester and beside boxes: `lay_against.py PROGRAM [SECONDS [STEPS]]`.

Needs shapely, svgpathtools and spyrrow (`pip install spyrrow`), a nester whose search is its own:
pieces by their outlines, half turns, the same gap, grain along the cloth, for SECONDS (20) at one
core; the lay takes STEPS, else as many as are usual, which is far less time. Its gap is made here, by growing every outline by half of it, since it would keep it from the
edges of the cloth as well. Boxes are those of the file to cut by. Nothing is installed; not a part of CI.
"""

import json
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import spyrrow
from shapely.geometry import Polygon

HERE = Path(__file__).resolve().parent
sys.path.insert(0, str(HERE.parent / "outside"))
from lay import placed  # noqa: E402
from record import Record, polygon_points, unfolded  # noqa: E402

SHEETS = ["first-pair", "saturday-hipster", "uneven-legs"]
PAIRS = [1, 2, 4, 10]
WIDTHS = [900, 1500]
GAP = 5.0


def drafted(program, sheet, pairs, width, *flags):
    """The record, the SVG to cut by, and how long it took."""
    with tempfile.TemporaryDirectory() as folder:
        call = [program, "draft", sheet, "-o", folder, "--pairs", str(pairs), "--cut-width", str(width), *flags]
        start = time.monotonic()
        subprocess.run(call, check=True, capture_output=True)
        took = time.monotonic() - start
        path = next(Path(folder).glob("*.json"))
        drawn = path.with_name(path.stem + "-cut.svg").read_text(encoding="utf-8")
        return Record(json.loads(path.read_text(encoding="utf-8"))), drawn, took


def by_boxes(drawn):
    return float(re.search(r'height="([\d.]+)mm"', drawn)[1])


def nested(record, pairs, width, seconds):
    """The general nester lays along x; outlines are turned by a quarter, which mirrors nothing."""
    items = []
    for name, piece in record.pieces.items():
        whole = Polygon(polygon_points(unfolded(piece, record.loop(name, "cut")), 4.0))
        grown = whole.buffer(GAP / 2).simplify(0.05)
        corners = [(y, -x) for x, y in grown.exterior.coords[:-1]]
        items.append(spyrrow.Item(name, corners, demand=pairs * piece["quantity"], allowed_orientations=[0, 180]))
    strip = spyrrow.StripPackingInstance("cloth", strip_height=width + GAP, items=items)
    config = spyrrow.StripPackingConfig(
        early_termination=False, total_computation_time=seconds, num_workers=1, seed=1
    )
    return strip.solve(config).width - GAP


def smallest_gap(record):
    shapes = placed(record, record.data["lays"][0])
    return min(a.distance(b) for i, a in enumerate(shapes) for b in shapes[:i])


def main(program, seconds=20, steps=None):
    more = ["--lay-steps", steps] if steps else []
    print(f"{'sheet':18} pairs width   lay mm  took s  gap mm  nester mm in {seconds} s   lay/nester   boxes mm")
    worst = 0.0
    for name in SHEETS:
        sheet = str(HERE.parent.parent / "fixtures" / f"{name}.toml")
        for pairs in PAIRS:
            for width in WIDTHS:
                record, _, took = drafted(program, sheet, pairs, width, "--lay", *more)
                _, boxed, _ = drafted(program, sheet, pairs, width, "--lay-steps", "1")
                length = record.data["lays"][0]["length_mm"]
                other = nested(record, pairs, width, int(seconds))
                worst = max(worst, length / other)
                print(
                    f"{name:18} {pairs:5} {width:5} {length:8.1f} {took:7.1f} {smallest_gap(record):7.3f} {other:12.1f}"
                    f" {length / other:20.3f} {by_boxes(boxed):10.1f}",
                    flush=True,
                )
    print(f"at worst {100 * (worst - 1):+.1f} % of the nester's length; the aim is +2 % at most")
    return worst > 1.02


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
