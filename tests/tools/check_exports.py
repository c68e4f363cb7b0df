#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The shared library exports what the public headers declare, and nothing else.

usage: check_exports.py LIBRARY HEADER_FOLDER
"""
import pathlib
import re
import subprocess
import sys

NOT_IN_LIBRARY = {"paper.h", "log.h", "compare.h", "strand_log.h"}  # paper is a program of its own; the log needs SQLite


def declared(folder):
    names = set()
    for header in folder.glob("*.h"):
        if header.name in NOT_IN_LIBRARY:
            continue
        text = re.sub(r"/\*.*?\*/", " ", header.read_text(encoding="utf-8"), flags=re.S)
        text = re.sub(r"^\s*#.*?(?<!\\)$", " ", text, flags=re.S | re.M)
        names |= set(re.findall(r"\b(sl_\w+)\s*\([^;{]*\)\s*;", text))
        names |= set(re.findall(r"\bextern[^;]*?\b(sl_\w+)\s*(?:\[\w*\])?;", text))
    return names


def exported(library):
    lines = subprocess.run(["nm", "-D", "--defined-only", library], check=True, capture_output=True,
                           text=True).stdout.splitlines()
    return {line.split()[-1].split("@")[0] for line in lines}


def main():
    wanted, found = declared(pathlib.Path(sys.argv[2])), exported(sys.argv[1])
    sanitizer = {name for name in found if re.match(r"__(asan|odr_asan|ubsan)|_fini$|_init$", name)}
    for name in sorted(wanted - found):
        print(f"declared but not exported: {name}")
    for name in sorted(found - wanted - sanitizer):
        print(f"exported but not declared: {name}")
    if len(wanted) < 50:
        print(f"only {len(wanted)} declarations were understood")
    return 0 if len(wanted) >= 50 and wanted == found - sanitizer else 1


sys.exit(main())
