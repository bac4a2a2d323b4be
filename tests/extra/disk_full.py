"""Fills the disk at every write: `draft` into small file systems of every size, in steps.

Usage, as root: disk_full.py PROGRAM SHEET.toml [STEP in KiB]
Each size is tried with an empty folder and with the files of another sheet of the same name in it. A run
either ends well with every file, or says so with exit code 2 and leaves the folder as it was.
"""

import re
import subprocess
import sys
import tempfile
from pathlib import Path


def tree(root):
    return {p.name: p.read_bytes() for p in root.iterdir() if p.is_file()}


def main(program, sheet, step):
    program, text = Path(program).resolve(), Path(sheet).read_text()
    with tempfile.TemporaryDirectory() as scratch:
        scratch = Path(scratch)
        disk, new, old = scratch / "disk", scratch / "new.toml", scratch / "old.toml"
        new.write_text(text)
        old.write_text(re.sub(r"(?m)^(hip_girth = \d+)$", r"\1.5", text, count=1))
        disk.mkdir()
        draft = lambda sheet, into: subprocess.run([program, "draft", sheet, "-o", into], capture_output=True, text=True)
        assert draft(new, scratch / "whole").returncode == 0 and draft(old, scratch / "before").returncode == 0
        whole, before = tree(scratch / "whole"), tree(scratch / "before")
        full = done = size = 0
        while done < 6:
            size += step
            for start in ({}, before):
                # A page in hand for the folder itself.
                room = size * 1024 + (sum(-(-len(data) // 4096) * 4096 for data in start.values()))
                subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={room}", "tmpfs", disk], check=True)
                try:
                    out = disk / "out"
                    if start:
                        out.mkdir()
                        for name, data in start.items():
                            (out / name).write_bytes(data)
                    run = draft(new, out)
                    left = tree(out) if out.exists() else None
                    if run.returncode == 0:
                        done += 1
                        assert left == whole, "done, and not every file is there"
                    else:
                        full += 1
                        assert run.returncode == 2 and "next:" in run.stderr, (run.returncode, run.stderr)
                        assert left == (start or None), f"{size} KiB: the folder is not as it was"
                finally:
                    subprocess.run(["umount", disk], check=True)
        print(f"{full} disks were full at some write and left the folder as it was; {done} had room for everything")


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]) if len(sys.argv) > 3 else 4)
