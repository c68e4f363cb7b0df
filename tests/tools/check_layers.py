#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The layer rule, over every #include of src/ and include/slowlift/.

A part may include its own headers and those of lower rows; never upward, never a neighbour
that its row keeps apart. No file is exempted.

    7  command | view | paper (which may include command)
    6  front | day
    5  ask   lesson  log
    4  scene   graph   document   report
    3  estimate  plan  clock  swatch
    2  timeline
    1  kinetics | optics
    0  base, model

usage: check_layers.py ROOT     prints each breach as file:line, exit 1 when there is one
       check_layers.py --self-test
"""
import pathlib
import re
import sys

ROW = {"base": 0, "model": 0, "kinetics": 1, "optics": 1, "timeline": 2, "estimate": 3, "plan": 3, "clock": 3, "swatch": 3,
       "scene": 4, "graph": 4, "document": 4, "report": 4, "lesson": 5, "ask": 5, "log": 5, "front": 6, "day": 6, "paper": 7, "command": 7, "view": 7}
# Parts of one row that may include each other in the direction given. JSON tells a record by the rows that read it;
# documents are built of answers, and know none; what is told can be drawn.
ALLOWED_BESIDE = {("model", "base"), ("base", "model"), ("report", "scene"), ("report", "document"), ("report", "graph"), ("document", "graph"), ("paper", "command")}
# The part that a public header belongs to, where the names differ.
PUBLIC = {"error": "base", "doubt": "model", "knob": "model", "oxidant": "model", "reductant": "model", "ingredient": "model", "wording": "model", "edition": "model", "spread": "estimate", "what_if": "estimate", "map": "estimate", "rank": "estimate", "surprise": "estimate", "rinse": "estimate",
          "limits": "estimate", "answer": "estimate", "intake": "estimate", "leave": "estimate", "strand": "estimate", "strand_log": "log", "cost": "plan", "observation": "estimate", "odds": "estimate", "solution": "model", "blocks": "estimate", "pooled": "estimate", "graded": "estimate", "promise": "estimate", "part": "scene", "compare": "log", "caution": "document"}
INCLUDE = re.compile(r'^\s*#\s*include\s+"([^"]+)"')


def part_of_include(name):
    parts = name.split("/")
    if parts[0] == "slowlift":
        noun = parts[1].removesuffix(".h").removesuffix("s.def")
        return PUBLIC.get(noun, noun)
    return parts[0]


def part_of_file(path, root):
    inside = path.relative_to(root).parts
    if inside[0] == "src":
        return inside[1]
    return part_of_include("slowlift/" + inside[-1])


def breach(part, other):
    """Why `part` may not include `other`, or None."""
    if other not in ROW:
        return f"{other} is no part of the house"
    if part == other or ROW[other] < ROW[part] or (part, other) in ALLOWED_BESIDE:
        return None
    if ROW[other] > ROW[part]:
        return f"{part} (row {ROW[part]}) includes {other} (row {ROW[other]}) above it"
    return f"{part} includes its neighbour {other}"


def breaches(root):
    files = sorted([*root.glob("src/**/*.[ch]"), *root.glob("src/**/*.def"), *root.glob("include/slowlift/*.h")])
    if not files:
        yield f"{root}: no sources found"
    for path in files:
        part = part_of_file(path, root)
        if part not in ROW:
            yield f"{path}:1: {part} is no part of the house"
            continue
        for number, line in enumerate(path.read_text(encoding="utf-8").splitlines(), 1):
            found = INCLUDE.match(line)
            why = breach(part, part_of_include(found.group(1))) if found else None
            if why:
                yield f"{path.relative_to(root)}:{number}: {why}"


def self_test():
    """The rule refuses what it must and lets the rest pass."""
    refused = [("kinetics", "timeline"), ("kinetics", "optics"), ("model", "scene"), ("view", "command"),
               ("scene", "report"), ("document", "report"), ("document", "scene"), ("scene", "document"), ("timeline", "estimate"),
               ("timeline", "swatch"), ("swatch", "view"), ("scene", "lesson"), ("lesson", "command"), ("front", "command"), ("command", "paper"), ("day", "front"), ("log", "day")]
    let = [("timeline", "kinetics"), ("report", "document"), ("view", "document"), ("report", "scene"), ("scene", "base"), ("paper", "report"), ("model", "base"), ("view", "view"),
           ("view", "swatch"), ("paper", "swatch"), ("swatch", "timeline"),
           ("view", "front"), ("front", "log"), ("view", "day"), ("command", "day"), ("day", "log"), ("lesson", "scene"), ("lesson", "report"), ("command", "lesson"), ("view", "lesson"), ("paper", "lesson")]
    wrong = [pair for pair in refused if not breach(*pair)] + [pair for pair in let if breach(*pair)]
    for pair in wrong:
        print("the rule is wrong about", *pair)
    return 1 if wrong else 0


def main():
    if sys.argv[1:] == ["--self-test"]:
        return self_test()
    found = list(breaches(pathlib.Path(sys.argv[1]).resolve()))
    for line in found:
        print(line)
    return 1 if found else 0


sys.exit(main())
