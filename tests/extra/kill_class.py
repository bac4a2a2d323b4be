"""Kills a class a hundred times at random and goes on with it: nothing is lost, nothing done twice.

Usage: kill_class.py PROGRAM BASE.toml [KILLS]
A class of 24 invented people is made once undisturbed. Then it is begun, killed after a random
while, and begun again, until it ends by itself; then anew in another folder, until so many runs were
killed. After every kill the people that the journal calls done keep the times of their files; at
every end the folder is that of the undisturbed run, byte for byte.
"""

import json
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

PEOPLE = 24
HEAD = "name,waist,hips,waist to hip,crotch length,front crotch,thigh\n"


def tree(root):
    return {str(p.relative_to(root)): p.read_bytes() for p in root.rglob("*") if p.is_file()}


def done(out):
    """The people that the journal calls done, with the times of their files."""
    found = {}
    journal = out / ".quarterpin-class"
    for line in journal.read_text().splitlines() if journal.exists() else []:
        try:
            line = json.loads(line)
        except ValueError:
            continue
        folder = out / line["folder"]
        found.pop(line["folder"], None)
        if line["kept"]:
            found[line["folder"]] = {p.name: p.stat().st_mtime_ns for p in folder.iterdir()}
    return found


def main(program, base, kills):
    rng = random.Random(14)
    with tempfile.TemporaryDirectory() as scratch:
        scratch = Path(scratch)
        table = scratch / "people.csv"
        rows = (f"P{i},{70 + i / 4},{96 + i / 4},20,71,32,57\n" for i in range(PEOPLE))
        table.write_text(HEAD + "".join(rows))

        def start(out):
            return subprocess.Popen([program, "class", table, "--sheet", base, "-o", out], stdout=subprocess.DEVNULL)

        whole = scratch / "whole"
        began = time.monotonic()
        assert start(whole).wait() == 0
        took = time.monotonic() - began
        expected = tree(whole)
        killed, ended, half_done, round_of = 0, 0, 0, 0
        while killed < kills:
            round_of += 1
            out, known = scratch / f"round {round_of}", {}
            while True:
                run = start(out)
                try:
                    code = run.wait(timeout=rng.uniform(0.01, 0.5 * took))
                except subprocess.TimeoutExpired:
                    run.send_signal(signal.SIGKILL)
                    run.wait()
                    killed += 1
                    code = None
                for name, times in known.items():
                    assert {p.name: p.stat().st_mtime_ns for p in (out / name).iterdir()} == times, f"{name} was done twice"
                known.update(done(out))
                half_done += code is None and 0 < len(known) < PEOPLE
                if code is not None:
                    assert code == 0, code
                    break
            assert tree(out) == expected, "the folder differs from that of the undisturbed run"
            ended += 1
        print(f"{killed} runs killed ({half_done} of them with some people done), {ended} classes ended as undisturbed")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 100)
