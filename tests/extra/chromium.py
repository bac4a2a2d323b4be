"""Opens the SVG for home cutters in Chromium, a second opener beside resvg, and measures it there.

    python tests/extra/chromium.py PROGRAM [SHEET]     (by default fixtures/first-pair.toml)

Needs Chromium (on Debian: apt install chromium) and ezdxf and numpy (the environment of the outside
checks has both). Not a part of the usual run: Chromium is a large program.

Chromium is asked for the page's size, for the box of every outline and whether it ends where it starts
(CSS: 96 px to the inch). That is held against the page's own words and against the DXF to cut by, as
ezdxf reads it, with and without a kerf. Exit code 1 where something is off.
"""

import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

import ezdxf
import ezdxf.path
import numpy as np

# mm.
PX = 25.4 / 96
# Chromium lays out pages in 64ths of a pixel.
LIMIT = 0.01
FORMS = ([], ["--kerf", "0.3", "--notches", "slits"], ["--pairs", "2", "--cut-width", "900"], ["--pen-lines"])
ASK = """
const svg = document.querySelector("svg"), page = svg.getBoundingClientRect();
const scale = page.width / svg.viewBox.baseVal.width;
const outlines = [...svg.querySelectorAll("#cut path")].map(path => {
  const box = path.getBBox();
  const [a, b] = [0, path.getTotalLength()].map(at => path.getPointAtLength(at));
  return [box.width, box.height, Math.hypot(a.x - b.x, a.y - b.y)].map(v => v * scale);
});
document.body.textContent = "<<" + JSON.stringify([page.width, page.height, outlines]) + ">>";
"""


def asked(svg, folder):
    """Width and height of the page, then width, height and gap of every outline, mm."""
    page = folder / "page.html"
    body = svg[svg.index("<svg") :]
    page.write_text(f"<!DOCTYPE html><meta charset=utf-8><body>{body}<script>{ASK}</script>", encoding="utf-8")
    command = ["chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder / 'profile'}"]
    said = subprocess.run([*command, "--dump-dom", page.as_uri()], capture_output=True, text=True, check=True).stdout
    wide, high, outlines = json.loads(re.search("&lt;&lt;(.*)&gt;&gt;", said).group(1))
    return np.array([wide, high]) * PX, np.array(outlines) * PX


def cut_in_dxf(path):
    """Width and height of every outline, mm."""
    outlines = [e for e in ezdxf.readfile(path).modelspace() if e.dxf.layer == "CUT"]
    points = [np.array([(p.x, p.y) for p in ezdxf.path.make_path(e).flattening(1e-4)]) for e in outlines]
    return np.array([p.max(axis=0) - p.min(axis=0) for p in points])


def worst(program, sheet, flags):
    with tempfile.TemporaryDirectory() as name:
        out = Path(name) / "out"
        command = [program, "draft", sheet, "-o", out, "--curves", "splines", *flags]
        subprocess.run(command, check=True, capture_output=True)
        text = next(out.glob("*-cut.svg")).read_text(encoding="utf-8")
        page, outlines = asked(text, Path(name))
        said = [float(re.search(rf' {key}="([\d.]+)mm"', text).group(1)) for key in ("width", "height")]
        want = cut_in_dxf(next(out.glob("*-cut.dxf")))
    return max(abs(page - said).max(), abs(outlines[:, :2] - want).max(), outlines[:, 2].max()), len(want)


def main(program, sheet="fixtures/first-pair.toml"):
    found = [(*worst(program, sheet, flags), " ".join(flags) or "as it is") for flags in FORMS]
    for off, count, form in found:
        print(f"{form}: {count} outlines and their page, worst {off:.4f} mm (limit {LIMIT})")
    return int(max(off for off, _, _ in found) > LIMIT)


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
