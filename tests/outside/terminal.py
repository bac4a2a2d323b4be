"""The program on a terminal of its own, as wide as it may be: a pseudo-terminal of Python's library."""

import fcntl
import os
import pty
import re
import struct
import tempfile
import termios

from tally import Facts

# Narrower and wider than what is followed, and between.
SHOWN = {40: 60, 60: 60, 80: 80, 96: 96, 120: 120, 200: 120}


def checks(record, sheet, job):
    lines = Facts("no line is wider than the terminal (from 60 to 120 columns)")
    words = Facts("a narrow terminal is told the same numbers as a wide one")
    with tempfile.TemporaryDirectory() as folder:
        for command in (["draft", "-o", folder], ["walk", "--marks"], ["work", "--why"], ["check"]):
            said = {}
            for columns, wide in SHOWN.items():
                name, *flags = command
                text = shown(columns, [job["program"], name, job["sheet"], *flags])
                long = [line for line in text.splitlines() if len(line) > wide]
                lines.add(not long, f"{name} at {columns}: {long[:1]}")
                said[columns] = sorted(re.findall(r"\d+\.\d+", text))
            words.add(said[60] == said[120] and (said[60] or name == "check"), f"{name}: {len(said[60])} and {len(said[120])}")
    yield lines.result()
    yield words.result()


def shown(columns, command):
    """What a command shows on a terminal, without its styles."""
    child, master = pty.fork()
    if child == 0:
        fcntl.ioctl(0, termios.TIOCSWINSZ, struct.pack("HHHH", 50, columns, 0, 0))
        os.execv(command[0], command)
    out = b""
    try:
        while part := os.read(master, 1 << 16):
            out += part
    except OSError:
        pass  # Linux says so where the other end has closed.
    os.close(master)
    os.waitpid(child, 0)
    return re.sub(r"\x1b\[[0-9;]*m", "", out.decode()).replace("\r\n", "\n")
