#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The way of a mix's strength that DEVELOPERS.md tells: its files are there, each defines the function that is named beside it,
and below the dilution nobody asks for a strength again: what has become a dose or a colour does not turn back.

usage: check_walk.py ROOT
"""
import pathlib
import re
import sys

MOST_FILES = 8
BELOW = ("kinetics", "timeline", "optics", "swatch")


def way(root):
    text = (root / "DEVELOPERS.md").read_text(encoding="utf-8")
    part = text[text.index("### One value's way"):].split("\n## ")[0]
    return re.findall(r"^\| `(src/[^`]+)` \| (.*) \|$", part, re.M)


def wrong(root):
    rows = way(root)
    if not 0 < len(rows) <= MOST_FILES:
        yield f"{len(rows)} files, {MOST_FILES} at most"
    for name, words in rows:
        text = (root / name).read_text(encoding="utf-8") if (root / name).exists() else ""
        if not text:
            yield f"{name}: no such file"
        for function in re.findall(r"`(sl_\w+)\(\)`", words):
            if not re.search(rf"^\w[^;{{}}]*\b{function}\([^;{{}}]*\)\n{{", text, re.M):
                yield f"{name} does not define {function}()"
    for part in BELOW:
        for path in sorted((root / "src" / part).rglob("*.[ch]")):
            if "developer_pct" in path.read_text(encoding="utf-8"):
                yield f"{path.relative_to(root)} asks for a strength"


def main():
    faults = list(wrong(pathlib.Path(sys.argv[1])))
    print("\n".join(faults) or "the way is as it is told")
    return 1 if faults else 0


sys.exit(main())
