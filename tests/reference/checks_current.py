# SPDX-License-Identifier: GPL-3.0-or-later
"""Fails when docs/checks.md does not say what check_targets computes today.

    checks_current.py CHECK_TARGETS CHECK-SCENE MODELS CHECKS.md

Everything but the column of computed numbers must be the same, text for text; those may differ in
the last printed digit between compilers.
"""
import subprocess
import sys

COMPUTED = 6  # column, counted from the empty one before the first bar


def rows(text):
    found = {}
    for line in text.splitlines():
        cells = [cell.strip() for cell in line.split("|")]
        if len(cells) > COMPUTED + 1 and cells[1] not in ("#", "---"):
            found[cells[1]] = cells[:COMPUTED] + cells[COMPUTED + 1:]
    return found


def main():
    program, scene, models, path = sys.argv[1:]
    today = rows(subprocess.run([program, scene, models], check=True, capture_output=True, text=True).stdout)
    with open(path, encoding="utf-8") as file:
        kept = rows(file.read())
    if not today or today.keys() != kept.keys():
        sys.exit(f"rows differ: {sorted(today.keys() ^ kept.keys())}; build the target checks")
    stale = [name for name in today if today[name] != kept[name]]
    for name in stale:
        print(f"{name}: kept {kept[name][-2]!r}, today {today[name][-2]!r}")
    if stale:
        sys.exit("docs/checks.md is out of date; build the target checks and read what changed")
    print(f"{len(today)} rows are as docs/checks.md says")


if __name__ == "__main__":
    main()
