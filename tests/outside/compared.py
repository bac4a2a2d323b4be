"""Two sheets in one print: each on a layer of its own, both shown, at true size.

Layers are read and hidden by pypdf; pypdfium2 renders, and the ink of each is the length of its cut lines by
their width, as the record of its own sheet tells it.
"""

import re
import subprocess
import tempfile
from pathlib import Path

import pypdf

from alternatives import cut_ink
from prints import CUT_LINE, LAYERS
from record import Record
from tally import Facts

# On, off and width of the second sheet's line, mm.
ON, OFF, WIDTH = 2.5, 1.5, 0.4


def checks(record, sheet, job):
    source = Path(job["sheet"]).read_text(encoding="utf-8")
    other = re.sub(r"hip_girth = [\d.]+", "hip_girth = 105", source).replace("[gusset]\n", "[gusset]\nlength = 15.5\n")
    other = re.sub(r"\nname = \"[^\"]*\"", '\nname = "the other one"', other, count=1)
    with tempfile.TemporaryDirectory() as folder:
        second, path, out = Path(folder) / "other.toml", Path(folder) / "both.pdf", Path(folder) / "out"
        second.write_text(other, encoding="utf-8")
        program = job["program"]
        subprocess.run([program, "compare", job["sheet"], second, "--print", path], check=True, capture_output=True)
        subprocess.run([program, "draft", second, "-o", out, "--only", "pattern"], check=True, capture_output=True)
        of_second = Record.read(next(out.glob("*.json")))
        names = [record.data["name"], "the other one"]
        yield listed(path, names)
        edge = sheet.mm("print", "margin", 10.0) + 0.5 * sheet.mm("print", "overlap", 10.0)
        kinds = [n for n in LAYERS if n != "Cut lines"]
        inked = ON / (ON + OFF) * WIDTH / CUT_LINE
        for name, hidden, of, share in [(names[0], names[1], record, 1.0), (names[1], names[0], of_second, inked)]:
            pieces = [{**p, "on_fold": False, "perimeter_mm": share * p["perimeter_mm"]} for p in of.on_paper(of.data["pieces"])]
            yield cut_ink(path, edge, [hidden, *kinds], pieces, f"“{name}” alone shows the cut lines of its pieces, at true size")


def listed(path, names):
    facts = Facts("both sheets are layers by their names, and both show")
    optional = pypdf.PdfReader(path, strict=True).trailer["/Root"]["/OCProperties"]
    found = [g.get_object()["/Name"] for g in optional["/OCGs"]]
    facts.add(found == LAYERS + names, f"layers {found}")
    facts.add("/OFF" not in optional["/D"] and "/RBGroups" not in optional["/D"], "something is off by itself")
    return facts.result()
