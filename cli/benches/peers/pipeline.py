"""The straightforward way in Python, to compare with: the same pieces, with well-known libraries.

Usage: pipeline.py PROGRAM SHEET.toml [ROUNDS]
Needs numpy, scipy, shapely, ezdxf and cairocffi. From the finished curves of a record: lengths by
scipy's quadrature, allowances by shapely's buffers, an R2000 DXF by ezdxf, a tiled A4 PDF by cairo, an
SVG and the record by the standard library, all in memory. Then the floor: writing the bytes of all files
of the program. Times are the median of so many rounds, in ms, of one core; the program is timed as a
whole, process and all.
"""

import io
import json
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import cairocffi
import ezdxf
import numpy as np
from scipy.integrate import quad
from shapely.geometry import Polygon

TILE, OVERLAP, PT = (190.0, 277.0), 10.0, 72.0 / 25.4


def cubics(d):
    """The cubics of a path of the record, absolute M, L and C."""
    words, at = d.replace("M", " M ").replace("L", " L ").replace("C", " C ").replace(",", " ").split(), 0
    here, out = None, []
    while at < len(words):
        kind, take = words[at], {"M": 1, "L": 1, "C": 3}[words[at]]
        p = [np.array([float(v) for v in words[at + 1 + 2 * k : at + 3 + 2 * k]]) for k in range(take)]
        at += 1 + 2 * take
        if kind == "L":
            p = [here + (p[0] - here) / 3, here + 2 * (p[0] - here) / 3, p[0]]
        if kind != "M":
            out.append(np.array([here, *p]))
        here = p[-1]
    return out


def length(c):
    a, b, d = 3 * (c[1] - c[0]), 3 * (c[2] - c[1]), 3 * (c[3] - c[2])
    speed = lambda t: np.hypot(*((1 - t) ** 2 * a + 2 * (1 - t) * t * b + t**2 * d))
    return quad(speed, 0, 1, epsabs=1e-7)[0]


def points(c, n=24):
    t = np.linspace(0, 1, n, endpoint=False)[:, None]
    return (1 - t) ** 3 * c[0] + 3 * (1 - t) ** 2 * t * c[1] + 3 * (1 - t) * t**2 * c[2] + t**3 * c[3]


def geometry(pieces):
    lengths = [length(c) for piece in pieces for c in piece]
    outlines = [Polygon(np.concatenate([points(c) for c in piece])) for piece in pieces]
    return lengths, outlines, [o.buffer(7.0, join_style="mitre") for o in outlines]


def files(outlines, allowances, record):
    document = ezdxf.new("R2000")
    space = document.modelspace()
    for shape in [*outlines, *allowances]:
        space.add_lwpolyline(list(shape.exterior.coords), close=True)
    dxf = io.StringIO()
    document.write(dxf)
    pdf = io.BytesIO()
    surface = cairocffi.PDFSurface(pdf, 210 * PT, 297 * PT)
    context = cairocffi.Context(surface)
    for allowance in allowances:
        x0, y0, x1, y1 = allowance.bounds
        for column in range(int((x1 - x0) // (TILE[0] - OVERLAP)) + 1):
            for row in range(int((y1 - y0) // (TILE[1] - OVERLAP)) + 1):
                context.save()
                context.scale(PT, PT)
                context.translate(10 - x0 - column * (TILE[0] - OVERLAP), 10 - y0 - row * (TILE[1] - OVERLAP))
                for shape in [*outlines, *allowances]:
                    for p in shape.exterior.coords:
                        context.line_to(*p)
                    context.close_path()
                context.set_line_width(0.3)
                context.stroke()
                context.restore()
                surface.show_page()
    surface.finish()
    svg = "".join(f'<path d="M{" ".join(f"{x:.3f},{y:.3f}" for x, y in s.exterior.coords)}Z"/>' for s in outlines)
    return len(dxf.getvalue()), len(pdf.getvalue()), len(svg), len(json.dumps(record, indent=2))


def timed(what, rounds):
    times = []
    for _ in range(rounds):
        began = time.perf_counter()
        what()
        times.append(1000 * (time.perf_counter() - began))
    return statistics.median(times)


def main(program, sheet, rounds):
    with tempfile.TemporaryDirectory() as scratch:
        out = Path(scratch) / "out"
        draft = lambda: subprocess.run([program, "draft", sheet, "-o", out], check=True, capture_output=True)
        draft()
        record = json.loads(next(out.glob("*.json")).read_text())
        pieces = [[c for edge in piece["finished"] for c in cubics(edge["d"])] for piece in record["pieces"]]
        _, outlines, allowances = geometry(pieces)
        written = {path.name: path.read_bytes() for path in out.iterdir()}

        def floor():
            for name, data in written.items():
                (Path(scratch) / name).write_bytes(data)

        rows = [
            ("Python: lengths and allowances", lambda: geometry(pieces)),
            ("Python: its files in memory", lambda: files(outlines, allowances, record)),
            (f"floor: writing {sum(map(len, written.values()))} bytes in {len(written)} files", floor),
            ("the program: whole, started and ended", draft),
        ]
        for name, what in rows:
            print(f"{timed(what, rounds):8.2f} ms  {name}")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 50)
