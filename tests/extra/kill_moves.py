#!/usr/bin/env python3
"""Kills `draft`, `trial`, `new` and `class` at every single move: `kill_moves.py PROGRAM BASE.toml`.

A kill at random hardly ever falls between two files of a set that take their places. Here strace (Debian:
`apt install strace`) ends the run with SIGKILL at the first, second, third … call of each kind that changes
anything on the disk, until a run comes through. After each kill every file is the old one or the new one, byte
for byte; the next run leaves what an undisturbed one leaves, and nothing else. Not a part of CI.
"""

import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

from kill_runs import HEAD, named, tree

# Whatever changes a folder, a file, or what of it is on the disk.
CALLS = [
    "openat", "write", "fsync", "ftruncate", "fchmod", "mkdir", "rmdir",
    "rename", "renameat", "renameat2", "link", "linkat", "unlink", "unlinkat", "flock",
]


class Case:
    """A command in a folder `old`, which it makes `new`."""

    def __init__(self, program, scratch, name, args, prepare, is_repeatable=True):
        self.program, self.name, self.args, self.prepare = program, name, args, prepare
        self.is_repeatable = is_repeatable
        self.at = scratch / name
        self.begin()
        self.old = named(tree(self.at))
        run = self.run()
        assert run.returncode == 0, run.stderr.decode()
        self.new = named(tree(self.at))
        assert self.new != self.old

    def begin(self):
        shutil.rmtree(self.at, ignore_errors=True)
        self.at.mkdir()
        self.prepare(self.at)

    def run(self, *before):
        return subprocess.run([*before, self.program, *self.args], cwd=self.at, capture_output=True)

    def sweep(self, tally):
        for call in CALLS:
            number = 0
            while True:
                number += 1
                self.begin()
                # Not every system has all of them.
                inject = f"inject=?{call}:signal=SIGKILL:when={number}"
                run = self.run("strace", "-f", "-qq", "-o", "/dev/null", "-e", f"trace=?{call}", "-e", inject)
                if run.returncode == 0:
                    break
                assert run.returncode == -9 or run.returncode == 137, (call, number, run.returncode, run.stderr[-300:])
                self.check(call, number, tally)
            tally[self.name, "kills"] += number - 1

    def check(self, call, number, tally):
        where = f"{self.name} killed at {call} {number}"
        files = tree(self.at)
        for name, data in named(files).items():
            assert data in (self.old.get(name), self.new.get(name)), f"{where}: {name} is neither old nor new"
        lost = self.old.keys() - files.keys()
        assert not lost, f"{where}: {lost} are lost"
        moved = {name for name, data in named(files).items() if data != self.old.get(name)}
        changing = {name for name in self.new if self.new[name] != self.old.get(name)}
        tally[self.name, "some files moved, some not"] += bool(moved) and moved != changing
        tally[self.name, "hidden files left"] += len(files) > len(named(files))
        # What was done already, `new` refuses to do again, and `trial` would count twice.
        if named(files) != self.new or self.is_repeatable:
            run = self.run()
            assert run.returncode == 0, f"{where}: {run.stderr.decode()}"
        left = tree(self.at)
        assert named(left) == self.new, f"{where}: the next run leaves something else"
        assert left.keys() == named(left).keys(), f"{where}: the next run leaves {left.keys() - named(left).keys()}"


def cases(program, scratch, base):
    changed = re.sub(r"(?m)^(hip_girth = \d+)$", r"\1.5", base, count=1)
    assert changed != base, "the base has to say hip_girth as a whole number"

    def drafted(at):
        (at / "sheet.toml").write_text(base)
        subprocess.run([program, "draft", "sheet.toml", "-o", "out"], cwd=at, check=True, capture_output=True)
        (at / "sheet.toml").write_text(changed)

    def alone(at):
        (at / "sheet.toml").write_text(base)

    def people(at):
        alone(at)
        rows = "".join(f"P{i},{70 + i / 2},{96 + i / 2},20,71,32,57\n" for i in range(2))
        (at / "people.csv").write_text(HEAD + rows)

    draft = ["draft", "sheet.toml", "-o", "out"]
    yield Case(program, scratch, "draft into a new folder", draft, alone)
    yield Case(program, scratch, "draft over an older set", draft, drafted)
    trial = ["trial", "sheet.toml", "--left", "right", "--date", "2026-03-02"]
    yield Case(program, scratch, "trial", trial, alone, is_repeatable=False)
    yield Case(program, scratch, "new", ["new", "new.toml"], lambda at: None, is_repeatable=False)
    yield Case(program, scratch, "class", ["class", "people.csv", "--sheet", "sheet.toml", "-o", "out"], people)


def main(program, base):
    tally = Counter()
    with tempfile.TemporaryDirectory() as scratch:
        for case in cases(str(Path(program).resolve()), Path(scratch), Path(base).read_text()):
            case.sweep(tally)
            print(f"{case.name}: " + ", ".join(f"{n} {what}" for (name, what), n in tally.items() if name == case.name), flush=True)
    print(f"{sum(n for (_, what), n in tally.items() if what == 'kills')} runs killed, every one put right by the next")


if __name__ == "__main__":
    main(*sys.argv[1:])
