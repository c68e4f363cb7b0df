#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every key that slowlift tells machines stands in docs/keys.md, and none goes within a format's number.

usage: check_keys.py LISTER PAGE check|renew

LISTER is tests/tools/key_lister. `renew` adds keys to the page; one that went, or changed its place in a CSV of one line for each
row, needs a higher number (docs/file-format.md, "What may change"). `check` also calls what it judges with: a page that lacks a
key, and one that has a key too many, must be refused."""
import pathlib
import re
import subprocess
import sys

HEAD = """# Keys for machines

What CSV and JSON hold, by format. A key is never renamed and never goes within a number; new ones may come
([file-format.md](file-format.md), "What may change"). `[]`: a list; `.`: an object within. Written by
`cmake --build BUILD --target keys` from the tables that the program writes.
"""


def formats(text):
    """{name: (number, csv head or None, [quantities], [members])}"""
    found = {}
    for line in text.splitlines():
        word, _, rest = line.partition(" ")
        if word == "format":
            name, number = rest.split("/")
            found[name] = (int(number), [], [], [])
        else:
            of = found[name][{"head": 1, "quantity": 2, "json": 3}[word]]
            of += [rest] if rest not in of else []  # a record may be told in two turns
    return found


def page(found):
    text = HEAD
    for name, (number, head, quantities, members) in found.items():
        text += f"\n## slowlift-{name}/{number}\n"
        text += "".join(f"\nCSV: `{line}`\n" for line in head)
        text += f"\nQuantities: {', '.join(f'`{key}`' for key in quantities)}.\n" if quantities else ""
        text += f"\nJSON: {', '.join(f'`{key}`' for key in members)}.\n" if members else ""
    return text


def read_page(text):
    found = {}
    for part in re.split(r"^## slowlift-", text, flags=re.M)[1:]:
        name, number = re.match(r"([a-z-]+)/(\d+)", part).groups()
        of = {kind: re.search(rf"^{kind}: (.*)$", part, re.M) for kind in ("CSV", "Quantities", "JSON")}
        keys = {kind: re.findall(r"`([^`]+)`", line[1]) if line else [] for kind, line in of.items()}
        found[name] = (int(number), keys["CSV"], keys["Quantities"], keys["JSON"])
    return found


def broken(kept, now):
    """What somebody who reads by these keys would miss."""
    for name, (number, head, quantities, members) in kept.items():
        if name not in now:
            yield f"{name}: the format went"
            continue
        if now[name][0] > number:
            continue
        heads = [line.split(",") for line in head], [line.split(",") for line in now[name][1]]
        if any(new[: len(old)] != old for old, new in zip(*heads) if "quantity" not in old) or len(heads[0]) > len(heads[1]):
            yield f"{name}: columns of CSV went, or stand elsewhere"
        for old, new in ((quantities, now[name][2]), (members, now[name][3])):
            yield from (f"{name}: {key} went" for key in old if key not in new)


def self_test(now):
    name = next(iter(now))
    number, head, quantities, members = now[name]
    more = dict(now, **{name: (number, head, quantities, members + ["one.more"])})
    raised = dict(now, **{name: (number + 1, head, quantities, members[1:])})
    assert list(broken(more, now)) == [f"{name}: one.more went"] and not list(broken(now, more)) and not list(broken(now, raised))
    assert read_page(page(now)) == now


def main():
    now = formats(subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True).stdout)
    path = pathlib.Path(sys.argv[2])
    kept = read_page(path.read_text(encoding="utf-8")) if path.exists() else {}
    self_test(now)
    wrongs = list(broken(kept, now))
    if sys.argv[3] == "renew" and not wrongs:
        path.write_text(page(now), encoding="utf-8")
        return 0
    if not wrongs and kept != now:
        wrongs = ["the page lacks keys: cmake --build BUILD --target keys"]
    print("\n".join(wrongs) or f"{len(now)} formats, {sum(len(of[2]) + len(of[3]) for of in now.values())} keys")
    return 1 if wrongs or len(now) < 10 else 0


sys.exit(main())
