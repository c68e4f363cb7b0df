# SPDX-License-Identifier: GPL-3.0-or-later
"""What was seen over what the model predicts: points against `slowlift compare --csv`, curves
against `slowlift run --csv`. Used by run.py."""
import csv
import io
import os
import subprocess
import tempfile

from picture import Picture
from window import Window

# Lengths of src/log/compare/seen_graph.c and src/graph, in pixels at a scale of 1.
APART, HALF, TICK, MOST_LEFT = 9.0, 5, 4, 1.0


def ask(build, *words):
    out = subprocess.run([os.path.join(build, "slowlift"), *words], check=True, capture_output=True, text=True).stdout
    return list(csv.DictReader(io.StringIO(out)))


def dark(picture, x, y):
    return picture.at(x, y)[0] < 0x70


def longest(line):
    """Where a row or column of pixels is dark longest: (length, first)."""
    best, run = (0, 0), 0
    for i, is_dark in enumerate(line):
        run = run + 1 if is_dark else 0
        best = max(best, (run, i - run + 1))
    return best


def frame(picture, body):
    """The chart's frame: the outermost columns that are dark over its whole height; the left one has a tick below."""
    x, y, w, h = body
    runs = [longest([dark(picture, x + i, y + j) for j in range(h)]) for i in range(w)]
    high = max(run for run, _ in runs)
    sides = [i for i, (run, _) in enumerate(runs) if run >= high - 2 * TICK]
    top, low = y + runs[sides[-1]][1], runs[sides[-1]][0]
    return x + sides[0], top, x + sides[-1], top + low - 1


def place_in(box, longest_min, minute, left):
    x0, y0, x1, y1 = box
    to = longest_min + max(2.0, 0.1 * longest_min)
    return x0 + minute / to * (x1 - x0), y1 - min(left, MOST_LEFT) / MOST_LEFT * (y1 - y0)


def has_shape(picture, x, y):
    """An outline: above and below its middle, and at both sides, something dark."""
    x, y, reach = round(x), round(y), HALF + 3
    def any_dark(xs, ys):
        return any(dark(picture, x + i, y + j) for i in xs for j in ys)
    return any_dark(range(-reach, -1), range(-2, 3)) and any_dark(range(2, reach + 1), range(-2, 3)) and \
        any_dark(range(-2, 3), range(-reach, -1)) and any_dark(range(-2, 3), range(2, reach + 1))


def points(picture, box, rows, zone):
    """Of the arms that were seen, best first: whether a shape stands at its mean, and 40 pixels beside it."""
    of = {}
    for row in rows:
        of.setdefault(row["arm"], {})[row["quantity"]] = float(row["value"])
    order = sorted((arm for arm in of if of[arm].get("place", 0) > 0),
                   key=lambda arm: (of[arm]["place"], of[arm]["left_by_grade"]))
    found = []
    for i, arm in enumerate(order):
        x, y = place_in(box, 30, 30, of[arm]["left_by_grade"])
        x += APART * (i - 0.5 * (len(order) - 1))
        found.append((arm, has_shape(picture, x, y), has_shape(picture, x - 90, y + 25)))
    return found


def curve_at(picture, box, minute, left, gap):
    """How far from its place the curve's nearest dark pixel lies; gap: pixels aside that its dots may leave out."""
    x, y = place_in(box, 30, minute, left)
    near = [abs(j) for i in range(-gap, gap + 1) for j in range(-30, 31) if dark(picture, round(x) + i, round(y) + j)]
    return min(near, default=99)


def seen(display, build, scene, check):
    models = os.path.dirname(os.path.dirname(scene))
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "day.db")
        subprocess.run([os.path.join(build, "slowlift"), "compare", "--example", log, "--models", models], check=True,
                       capture_output=True)
        window = Window(display, build, "--models", models, "--seen", log)
        first = Picture(window.pixels())
        window.key("Return")
        check(("turn", 0) not in window.places() and ("words", 1) in window.places() and
              Picture(window.pixels()).raw != first.raw, "after the cautions stands what was seen")
        window.key("Up", "Up", "Up")  # from violet, which shows most, to yellow
        picture, body = Picture(window.pixels()), window.places()["body", 0]
        box = frame(picture, body)
        found = points(picture, box, ask(build, "compare", log, "--csv", "--zone", "yellow"), "yellow")
        check(len(found) == 7 and all(there for _, there, _ in found) and sum(beside for _, _, beside in found) <= 2,
              f"each mean stands where slowlift compare has it ({found})")
        for arm, minute in (("lightener + 6 %", 15), ("lightener + 6 %", 25), ("powder + 6 %", 3), ("untreated", 15)):
            rows = ask(build, "run", "--csv", "--clock", "contact", "--at", f"{minute}min", scene)
            left = next(float(r["value"]) for r in rows
                        if (r["arm"], r["zone"], r["quantity"]) == (arm, "yellow", "colour_left"))
            off = curve_at(picture, box, minute, left, 2 if arm == "powder + 6 %" else 0)  # the dotted one
            check(off <= 2, f"the curve of {arm} goes through what slowlift run says "
                                                             f"at {minute} min ({off} pixels off)")
        window.key("Down")
        below = Picture(window.pixels())
        found = points(below, frame(below, body), ask(build, "compare", log, "--csv", "--zone", "green"), "green")
        check(all(there for _, there, _ in found) and below.raw != picture.raw, f"Down shows the next zone ({found})")
        window.key("Up")
        check(Picture(window.pixels()).raw == picture.raw, "Up shows the first again, pixel by pixel")
        window.key("5")
        check(Picture(window.pixels()).raw != picture.raw, "a figure marks its strip")
        window.key("Escape")
        strips = Picture(window.pixels())
        check(("strip", 0) in window.places(), "Esc shows the strips")
        window.key("j")
        window.key("j")
        check(Picture(window.pixels()).raw == strips.raw, "J opens it and shuts it")
        x, y, w, h = window.places()["button", 5]
        window.xdotool("mousemove", str(x + w // 2), str(y + h // 2), "click", "1")
        window.settle()
        check(("strip", 0) not in window.places() and ("body", 0) in window.places(), "and so does its button")
        check(window.leave() == 0, "leaves with exit code 0")
        small = Window(display, build, "--size", "900x600", "--text", "200", "--models", models, "--seen", log)
        small.key(*["Return"] * 12)
        top = Picture(small.pixels())
        small.key("Next")
        check(("body", 0) in small.places() and Picture(small.pixels()).raw != top.raw, "at 200 % in the smallest window Page Down reads on")
        check(small.leave() == 0, "leaves with exit code 0")
    bare = Window(display, build, scene)
    bare.key("Return", "j")
    check(("body", 0) in bare.places(), "without a log J says what is missing")
    check(bare.leave() == 0, "leaves with exit code 0")
