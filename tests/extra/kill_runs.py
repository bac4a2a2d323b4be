"""Kills `draft`, `trial`, `new` and `class` at random moments: files are whole, sets are finished or undone.

Usage: kill_runs.py PROGRAM BASE.toml [KILLS]
A quarter of the kills each. After every kill each file is the old one or the new one, byte for byte;
after the run that follows, everything is as an undisturbed run leaves it, and nothing else is there.
"""

import random
import re
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

DAY = ["--date", "2026-03-02"]
HEAD = "name,waist,hips,waist to hip,crotch length,front crotch,thigh\n"


def tree(root):
    return {str(p.relative_to(root)): p.read_bytes() for p in sorted(root.rglob("*")) if p.is_file()}


def named(files):
    """Without the hidden ones: a folder as a person sees it."""
    return {name: data for name, data in files.items() if not Path(name).name.startswith(".")}


class Killer:
    def __init__(self, program, scratch):
        self.program, self.scratch, self.rng = program, scratch, random.Random(15)
        self.killed = self.between = self.mixed = self.left = 0

    def start(self, args):
        return subprocess.Popen([self.program, *args], cwd=self.scratch, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)

    def whole(self, args):
        """Runs it undisturbed, and says how long it took."""
        began = time.monotonic()
        run = self.start(args)
        _, err = run.communicate()
        assert run.returncode == 0, err.decode()
        return time.monotonic() - began

    def kill(self, args, longest):
        run = self.start(args)
        try:
            run.communicate(timeout=self.rng.uniform(0, longest))
        except subprocess.TimeoutExpired:
            run.send_signal(signal.SIGKILL)
            run.communicate()
            self.killed += 1
            return True
        return False


def sets(killer, kills, texts):
    """`draft`: an old and a new sheet of one name, into one folder."""
    out, scratch = killer.scratch / "out", killer.scratch
    expected, took = [], 0
    for text in texts:
        (scratch / "sheet.toml").write_text(text)
        took = killer.whole(["draft", "sheet.toml", "-o", "out"])
        expected.append(tree(out))
    assert expected[0].keys() == expected[1].keys() and expected[0] != expected[1]
    until, now = killer.killed + kills, 1
    while killer.killed < until:
        old, new = expected[now], expected[1 - now]
        (scratch / "sheet.toml").write_text(texts[1 - now])
        was_killed = killer.kill(["draft", "sheet.toml", "-o", "out"], 1.1 * took)
        files = tree(out)
        seen = named(files)
        assert seen.keys() == old.keys(), seen.keys() ^ old.keys()
        for name, data in seen.items():
            assert data in (old[name], new[name]), f"{name} is neither the old one nor the new one"
        killer.left += was_killed and len(files) > len(seen)
        killer.between += was_killed and seen != old and seen != new
        killer.whole(["draft", "sheet.toml", "-o", "out"])
        assert tree(out) == new, "the next run does not leave what an undisturbed one leaves"
        now = 1 - now


def own_files(killer, kills, text):
    """`trial`: a person's own sheet."""
    sheet = killer.scratch / "own.toml"
    args = ["trial", "own.toml", "--left", "right", *DAY]
    sheet.write_text(text)
    took = killer.whole(args)
    new = sheet.read_text()
    until = killer.killed + kills
    while killer.killed < until:
        sheet.write_text(text)
        killer.kill(args, 1.1 * took)
        assert sheet.read_text() in (text, new), "the sheet is neither the old one nor the new one"
    sheet.write_text(text)
    killer.whole(args)
    hidden = [p.name for p in killer.scratch.iterdir() if p.name.startswith(".")]
    assert sheet.read_text() == new and not hidden, hidden


def new_files(killer, kills):
    """`new`: there or not."""
    file = killer.scratch / "new.toml"
    took = killer.whole(["new", "new.toml"])
    whole = file.read_bytes()
    until = killer.killed + kills
    while killer.killed < until:
        file.unlink(missing_ok=True)
        killer.kill(["new", "new.toml"], took)
        assert not file.exists() or file.read_bytes() == whole, "half a sheet"
    for left in killer.scratch.glob(".quarterpin-new-*"):
        killer.left += 1
        left.unlink()


def classes(killer, kills):
    """`class`: 12 people, gone on with until it ends."""
    table = killer.scratch / "people.csv"
    table.write_text(HEAD + "".join(f"P{i},{70 + i / 2},{96 + i / 2},20,71,32,57\n" for i in range(12)))
    args = lambda out: ["class", "people.csv", "--sheet", "sheet.toml", "-o", out]
    took = killer.whole(args("undisturbed"))
    expected = tree(killer.scratch / "undisturbed")
    until, count = killer.killed + kills, 0
    while killer.killed < until:
        count += 1
        out = f"class {count}"
        while killer.kill(args(out), 0.6 * took):
            for name, data in named(tree(killer.scratch / out)).items():
                assert data == expected[name], f"{name} is half"
        killer.whole(args(out))
        assert tree(killer.scratch / out) == expected, "the folder differs from that of the undisturbed run"


def main(program, base, kills):
    old = Path(base).read_text()
    new = re.sub(r"(?m)^(hip_girth = \d+)$", r"\1.5", old, count=1)
    assert new != old, "the base has to say hip_girth as a whole number"
    with tempfile.TemporaryDirectory() as scratch:
        killer = Killer(Path(program).resolve(), Path(scratch))
        sets(killer, kills // 4, [old, new])
        print(f"draft: {killer.killed} killed, {killer.left} left hidden files, {killer.between} a set half moved; all put right by the next run")
        own_files(killer, kills // 4, old)
        new_files(killer, kills // 4)
        classes(killer, kills - 3 * (kills // 4))
        print(f"{killer.killed} runs killed in all; every file whole, every folder right after the next run")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 1000)
