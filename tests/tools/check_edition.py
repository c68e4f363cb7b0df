#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The model's number is raised when a result changes, and never in vain.

usage: check_edition.py PROGRAM SOURCE [renew]

tests/files/editions/N.csv is what `slowlift run --csv` told under model N. The newest is the program's own number and holds
today's results to 1e-6 of each; two that follow each other differ. `renew` writes the newest, when its number is new.
"""
import csv
import io
import math
import os
import pathlib
import re
import subprocess
import sys

CALLS = (["eight-arms", "--at", "5min", "--at", "20min", "--at", "40min"], ["zone-goals", "--at", "15min"], ["second-round", "--at", "30min"])
EQUAL = 1e-6


def ask(program, *words):
    env = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "SLOWLIFT_LANGUAGE": "en"}
    return subprocess.run([program, *words], capture_output=True, text=True, check=True, env=env, stdin=subprocess.DEVNULL).stdout


def results(program):
    return "".join(ask(program, "run", *words, "--csv") for words in CALLS)


def apart(one, other):
    """Cells of two tables that are not the same."""
    rows, others = (list(csv.reader(io.StringIO(text))) for text in (one, other))
    if [len(row) for row in rows] != [len(row) for row in others]:
        return ["other rows or columns"]
    found = []
    for number, (row, beside) in enumerate(zip(rows, others), 1):
        for a, b in zip(row, beside):
            try:
                same = math.isclose(float(a), float(b), rel_tol=EQUAL, abs_tol=EQUAL)
            except ValueError:
                same = a == b
            found += [] if same else [f"line {number}: {b} is {a} now"]
    return found


def main(program, source, renew=False):
    folder = pathlib.Path(source) / "tests" / "files" / "editions"
    number = int(re.search(r"^model +(\d+) of \d{4}-\d\d-\d\d$", ask(program, "--version", "--all"), re.M).group(1))
    kept = {int(path.stem): path.read_text() for path in folder.glob("*.csv")}
    if renew:
        if number in kept:
            sys.exit(f"model {number} has its results already; a change of results takes a new number (src/model/edition.c)")
        (folder / f"{number}.csv").write_text(results(program))
        return 0
    faults = [] if sorted(kept) == list(range(1, number + 1)) else [f"model {number}, and results kept of {sorted(kept)}"]
    faults += [f"model {number}: {what}" for what in apart(results(program), kept.get(number, ""))[:10]]
    faults += [f"models {n} and {n + 1} have the same results" for n in range(1, number) if n + 1 in kept and not apart(kept[n], kept[n + 1])]
    changed = kept.get(number, "").replace("0.9", "0.8", 1)
    faults += [] if apart(changed, kept.get(number, "")) else ["a change of one cell would not be seen"]
    print("\n".join(faults) or f"model {number}: the results that it was given for")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2], "renew" in sys.argv[3:]))
