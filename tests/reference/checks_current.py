# SPDX-License-Identifier: GPL-3.0-or-later
"""Fails when docs/checks.md does not say what check_targets computes today.

    checks_current.py CHECK_TARGETS CHECK-SCENE MODELS CHECKS.md README.md

Everything but the columns of computed numbers must be the same, text for text; those may differ in
the last printed digit between compilers. Both files tell how many of how many in the same sentence.
"""
import subprocess
import sys

COMPUTED = {12: (6, 9), 8: (4,), 7: (4, 5), 5: ()}  # columns by how many there are, counted from the empty one before the first bar


def rows(text):
    found = {}
    for line in text.splitlines():
        cells = [cell.strip() for cell in line.split("|")]
        if len(cells) in COMPUTED and cells[1] not in ("#", "place", "out", "---"):
            found[cells[1]] = [cell for i, cell in enumerate(cells) if i not in COMPUTED[len(cells)]]
    return found


def count(text):
    """The sentence of how many of how many, however its lines are broken."""
    text = " ".join(text.split())
    begin = text.find("Of ", text.find(" targets ") - 10)
    return text[begin:text.find(".", text.find("misses ", begin)) + 1]


def main():
    program, scene, models, path, readme = sys.argv[1:]
    said = subprocess.run([program, scene, models], check=True, capture_output=True, text=True).stdout
    today = rows(said)
    with open(path, encoding="utf-8") as file:
        kept = rows(file.read())
    with open(readme, encoding="utf-8") as file:
        if count(said) not in " ".join(file.read().split()):
            sys.exit(f"README.md does not say: {count(said)}")
    if not today or today.keys() != kept.keys():
        sys.exit(f"rows differ: {sorted(today.keys() ^ kept.keys())}; build the target checks")
    stale = [name for name in today if today[name] != kept[name]]
    for name in stale:
        print(f"{name}: kept {[a for a, b in zip(kept[name], today[name]) if a != b]}, "
              f"today {[b for a, b in zip(kept[name], today[name]) if a != b]}")
    if stale:
        sys.exit("docs/checks.md is out of date; build the target checks and read what changed")
    print(f"{len(today)} rows are as docs/checks.md says")


if __name__ == "__main__":
    main()
