"""The same files to the last bit: by programs of several builds, threads, time zones and languages.

Usage: same_bits.py PROGRAM... -- SHEET.toml...
The first program is the one to compare with: say a release build, a debug build, and builds for other
targets (`rustup target add i686-unknown-linux-musl`, `cargo build --target …`). Every file of a draft is
compared, and where a record differs, the numbers that moved are shown.
"""

import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

PLACES = [
    {},
    {"RAYON_NUM_THREADS": "1", "TZ": "Pacific/Kiritimati", "LANG": "tr_TR.UTF-8", "LC_ALL": "tr_TR.UTF-8"},
    {"RAYON_NUM_THREADS": "2", "TZ": "America/Adak", "LANG": "C", "LC_ALL": "C"},
]


def files(program, sheet, place):
    with tempfile.TemporaryDirectory() as out:
        run = subprocess.run([program, "draft", sheet, "-o", out, "--plotter"], capture_output=True, env={**os.environ, **place})
        assert run.returncode in (0, 1), run.stderr.decode()
        return {p.name: p.read_bytes() for p in Path(out).iterdir()}


def moved(a, b, way=""):
    """Every place where two values of JSON differ."""
    if isinstance(a, dict) and isinstance(b, dict):
        for key in sorted(a.keys() | b.keys()):
            yield from moved(a.get(key), b.get(key), f"{way}.{key}")
    elif isinstance(a, list) and isinstance(b, list) and len(a) == len(b):
        for i, (x, y) in enumerate(zip(a, b)):
            yield from moved(x, y, f"{way}[{i}]")
    elif a != b and not way.startswith(".mark"):
        yield way, a, b


def main(programs, sheets):
    compared = differ = 0
    for sheet in sheets:
        first = files(programs[0], sheet, PLACES[0])
        for program in programs:
            for place in PLACES:
                other = files(program, sheet, place)
                assert other.keys() == first.keys(), (program, sheet)
                for name, data in first.items():
                    compared += 1
                    if other[name] == data:
                        continue
                    differ += 1
                    print(f"{sheet}: {name} of {program} differs {place or ''}")
                    if name.endswith(".json"):
                        for way, a, b in list(moved(json.loads(data), json.loads(other[name])))[:20]:
                            print(f"  {way}: {str(a)[:60]} is {str(b)[:60]}")
    print(f"{compared} files compared, {differ} differ")
    return differ


if __name__ == "__main__":
    at = sys.argv.index("--")
    programs = [str(Path(program).resolve()) for program in sys.argv[1:at]]
    sys.exit(bool(main(programs, sys.argv[at + 1 :])))
