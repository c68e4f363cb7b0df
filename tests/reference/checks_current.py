# SPDX-License-Identifier: GPL-3.0-or-later
"""Fails when docs/checks.md does not say what check_targets computes today.

    checks_current.py CHECK_TARGETS CHECK-SCENE MODELS CHECKS.md README.md

All must be the same, text for text; but the numbers in the columns of computed ones may differ by one unit of
the last printed digit between compilers. Both files tell how many of how many in the same sentence.
"""
import re
import subprocess
import sys

NUMBER = re.compile(r"-?\d+(?:\.(\d+))?")
COMPUTED = {12: (6, 9), 8: (4,), 7: (4, 5), 5: ()}  # columns by how many there are, counted from the empty one before the first bar


def rows(text):
    found = {}
    for line in text.splitlines():
        cells = [cell.strip() for cell in line.split("|")]
        if len(cells) in COMPUTED and cells[1] not in ("#", "place", "out", "---"):
            found[cells[1]] = cells
    return found


def same(kept, today, computed):
    """Of a computed cell: all but its numbers, and those to one unit of the last digit."""
    if not computed or NUMBER.sub("", kept) != NUMBER.sub("", today):
        return kept == today
    pairs = list(zip(NUMBER.finditer(kept), NUMBER.finditer(today)))
    return all(one[1] is None and other[1] is None or one[1] and other[1] and len(one[1]) == len(other[1]) for one, other in pairs) and all(
        abs(float(one[0]) - float(other[0])) < 1.001 * 10.0 ** -len(one[1] or "") for one, other in pairs)


def apart(kept, today):
    """Of a row: which cells are not the same."""
    if len(kept) != len(today):
        return [(kept, today)]
    return [(a, b) for i, (a, b) in enumerate(zip(kept, today)) if not same(a, b, i in COMPUTED[len(kept)])]


def can_fail():
    row = ["", "A", "asked", "source", "kind", "3 to 4", "3.05, -2.1 %", "pass", "null", "never", "fails", ""]
    def other(i, cell):
        return row[:i] + [cell] + row[i + 1:]
    assert not apart(row, row) and not apart(row, other(6, "3.06, -2.0 %"))
    assert all(apart(row, other(i, cell)) for i, cell in ((6, "3.07, -2.1 %"), (6, "3.05, 2.1 %"), (6, "3.05 %"), (6, "3.0, -2.1 %"),
                                                          (9, "1.0"), (5, "3 to 5"), (7, "**miss**")))


def count(text):
    """The sentence of how many of how many, however its lines are broken."""
    text = " ".join(text.split())
    begin = text.find("Of ", text.find(" targets ") - 10)
    return text[begin:text.find(".", text.find("misses ", begin)) + 1]


def main():
    program, scene, models, path, readme = sys.argv[1:]
    can_fail()
    said = subprocess.run([program, scene, models], check=True, capture_output=True, text=True).stdout
    today = rows(said)
    with open(path, encoding="utf-8") as file:
        kept = rows(file.read())
    with open(readme, encoding="utf-8") as file:
        if count(said) not in " ".join(file.read().split()):
            sys.exit(f"README.md does not say: {count(said)}")
    if not today or today.keys() != kept.keys():
        sys.exit(f"rows differ: {sorted(today.keys() ^ kept.keys())}; build the target checks")
    stale = [name for name in today if apart(kept[name], today[name])]
    for name in stale:
        print(f"{name}: kept and today {apart(kept[name], today[name])}")
    if stale:
        sys.exit("docs/checks.md is out of date; build the target checks and read what changed")
    print(f"{len(today)} rows are as docs/checks.md says")


if __name__ == "__main__":
    main()
