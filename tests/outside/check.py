"""Checks parts of output folders; one JSON line per check.

Usage: check.py, which reads lines of {"title", "sheet", "folder", "part", ...}; the folder holds what
`draft` wrote. Every line of an answer is {"job", "name", "ok", "detail"}; an empty one ends it.
An exception is a failed check, never a skip.
"""

import gc
import json
import sys
import traceback
from pathlib import Path

import allowance
import alternatives
import beds
import card
import compared
import crossings
import curves
import cutter_files
import draft
import drawing_files
import drawings
import form
import lay
import lay_forms
import lengths
import lines
import loops
import mixes
import other_renderer
import outlines
import paper
import parts
import prints
import picture
import schema
import selftest
import sizes
import terminal
import trials
import written
from record import Record
from sheet import Sheet

ON_RECORD = [lengths, crossings, loops, outlines, allowance, draft, lines, lay]
# What is checked in one go; the parts of `Part` in outside.rs.
PARTS = {
    "files": [*ON_RECORD, drawing_files, picture, paper, parts, written, schema, card],
    "forms": [cutter_files, lay_forms, beds],
    "prints": [prints, sizes],
    "mixes": [mixes],
    "renderer": [other_renderer, form, terminal],
}


def run(module, record, sheet, job):
    """The results of one module; what goes wrong in it is a failure of its name."""
    try:
        yield from module.checks(record, sheet, job)
    except Exception as error:
        where = traceback.extract_tb(error.__traceback__)[-1]
        detail = f"{type(error).__name__}: {error} ({Path(where.filename).name}:{where.lineno})"
        yield {"name": f"{module.__name__} runs to its end", "ok": False, "detail": detail}


def one_file(folder, suffix):
    """The file of the pattern with this suffix; the record's name is the pattern's."""
    records = sorted(Path(folder).glob("*.json"))
    if len(records) != 1:
        raise FileNotFoundError(f"{len(records)} records in the output folder, not one")
    found = records[0].with_name(records[0].stem + suffix)
    if not found.is_file():
        raise FileNotFoundError(f"no {found.name} in the output folder")
    return found


def results(job):
    job["file"] = lambda suffix: one_file(job["folder"], suffix)
    try:
        record, sheet = Record.read(job["file"](".json")), Sheet(job["sheet"])
    except Exception as error:
        yield {"name": "the record can be read", "ok": False, "detail": f"{type(error).__name__}: {error}"}
        return
    if job["part"] == "harms":
        yield from run(trials, record, sheet, job)
        yield from run(compared, record, sheet, job)
        yield from selftest.results(record, sheet, job, ON_RECORD, run)
        yield from selftest.file_results(record, sheet, job)
        return
    for module in PARTS[job["part"]]:
        yield from run(module, record, sheet, job)
    if job["part"] == "files" and record.data.get("alternatives"):
        yield from run(alternatives, record, sheet, job)


def main(lines):
    # What was imported stays, and a check makes few circles: Python need not look for them all the time.
    gc.freeze()
    gc.set_threshold(100_000, 20, 20)
    for line in lines:
        job = json.loads(line)
        for result in results(job):
            print(json.dumps({"job": job["title"], **result}, ensure_ascii=False), flush=True)
        print(flush=True)
        forget()


def forget():
    """What the next part has no use for: its files have other names."""
    curves.parse.cache_clear()
    drawings.read.cache_clear()
    gc.collect()


if __name__ == "__main__":
    sys.stdin.reconfigure(encoding="utf-8")
    main(sys.stdin)
