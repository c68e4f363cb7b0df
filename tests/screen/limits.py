# SPDX-License-Identifier: GPL-3.0-or-later
"""Marks below the ruler and the panel about limits: the window against `slowlift limits`. Used by
run.py."""
import csv
import io
import os
import subprocess

from picture import Picture
from window import Window


def quantities(build, scene, arm, *options):
    out = subprocess.run([os.path.join(build, "slowlift"), "limits", "--csv", *options, scene], check=True,
                         capture_output=True, text=True).stdout
    return {row["quantity"]: row["value"] for row in csv.DictReader(io.StringIO(out)) if row["arm"] == arm}


LONGER_THAN_LETTERS = 12  # pixels in a line


def columns(picture, marks, row):
    """Of one of the two rows: where the bar's frame begins and ends, as (first, last) x."""
    x, y, w, h = marks
    top = y + 1 + row * (h - 1) // 2  # src/view/strips/marks.c
    frame = top + (y + 2 + (row + 1) * (h - 1) // 2 - top) // 4
    dark = [picture.at(x + i, frame)[0] < 0x60 for i in range(w)]
    bar = [x + i for i in range(w) if all(dark[i:i + LONGER_THAN_LETTERS])
           or all(dark[max(i - LONGER_THAN_LETTERS + 1, 0):i + 1])]
    return (bar[0], bar[-1]) if bar else (0, 0)


def marks(display, build, scene, check):
    window = Window(display, build, scene)
    window.key("Return", "2")
    window.settle()
    picture, place = Picture(window.pixels()), window.places()["marks", 0]
    x, _, w, _ = place
    want = quantities(build, scene, "powder + 6 %")
    contact, until = 0.75, 70.0

    def at(minutes):
        return x + (contact + float(minutes)) / until * (w - 1)

    first, _ = columns(picture, place, 0)
    check(abs(first - at(want["goal_p10_min"])) <= 2.0,
          f"the goal's bar begins where one run in ten is there ({first} against {at(want['goal_p10_min']):.0f})")
    first, _ = columns(picture, place, 1)
    check(abs(first - at(want["stop_p10_min"])) <= 2.0,
          f"the stop's bar begins where one run in ten must stop ({first} against {at(want['stop_p10_min']):.0f})")
    window.key("w")
    knob = window.places()["knob", 0]
    before = Picture(window.pixels()).area(place)
    window.drag([(knob[0] + knob[2] // 2, knob[1] + knob[3] // 2)] +
                [(knob[0] + knob[2] // 2 + 4 * i, knob[1] + knob[3] // 2) for i in range(1, 12)])
    check(Picture(window.pixels()).area(window.places()["marks", 0]) != before, "the marks follow a knob")
    window.key("r", "w")
    plain = Picture(window.pixels())
    window.key("e")
    opened = Picture(window.pixels())
    check(opened.raw != plain.raw and ("panel", 0) in window.places(), "E opens the panel about limits")
    panel = window.places()["panel", 0]
    window.key("s")
    window.key("Next")
    check(Picture(window.pixels()).area(panel) != opened.area(panel), "S opens its shares of doubt, Page Down reads on")
    window.key("s", "Escape")
    window.settle()
    check(Picture(window.pixels()).raw == plain.raw, "Esc closes it and nothing else has changed")
    check(window.leave() == 0, "leaves with exit code 0")


def press(window, place):
    x, y, w, h = place
    window.xdotool("mousemove", str(x + w // 2), str(y + h // 2), "click", "1")
    window.settle()


def looks_so(window, place, wanted):
    """Whether an area looks so, once the ensemble is counted."""
    window.settle()
    return Picture(window.pixels()).area(place) == wanted


def views(display, build, scene, check):
    """Ranks and map, by keys and by pointer."""
    window = Window(display, build, scene)
    window.key("Return", "2", "e")
    plain = Picture(window.pixels())
    for key, turns in (("n", ["Down", "Right", "minus"]), ("m", ["bracketleft", "Right", "Down"])):
        window.key(key)
        window.settle()
        places = window.places()
        seen = Picture(window.pixels())
        check(("body", 0) in places and seen.raw != plain.raw, f"{key.upper()} opens its page")
        for number, turn in enumerate(turns):
            window.key(turn)
            window.settle()
            turned = Picture(window.pixels())
            check(turned.area(places["body", 0]) != seen.area(places["body", 0]), f"{turn} changes what {key.upper()} shows")
            press(window, places["back" if turn in ("Down", "Right") else "on", number])
            check(Picture(window.pixels()).raw == seen.raw, f"the button at its foot turns {turn} back")
        window.key("Escape")
        window.key(*(["Home"] if key == "n" else []))
        window.settle()
        check(("panel", 0) in window.places(), f"Esc closes {key.upper()} and leaves the panel open")
    check(window.leave() == 0, "leaves with exit code 0")


def bowl(display, build, scene, check):
    """What the cotton shows moves the marks as `slowlift limits --saw` has them."""
    window = Window(display, build, "--at", "12.75", scene)
    window.key("Return", "2", "Up", "Up", "b")
    window.settle()
    place = window.places()["marks", 0]
    before = Picture(window.pixels())
    window.key("Tab", "Tab", "Return")  # the third grade
    window.settle()
    seen = Picture(window.pixels())
    want = quantities(build, scene, "powder + 6 %", "--arm", "powder + 6 %", "--saw", "12 about half yellow")
    first, _ = columns(seen, place, 0)
    at = place[0] + (0.75 + float(want["goal_p10_min"])) / 70.0 * (place[2] - 1)
    check(abs(first - at) <= 2.0, f"a grade moves the goal's bar to where the table has it ({first} against {at:.0f})")
    press(window, window.places()["grade", 0])
    window.settle()
    check(Picture(window.pixels()).area(place) != seen.area(place), "another grade for the same lock takes its place")
    window.key("Delete")
    check(looks_so(window, place, before.area(place)), "Delete forgets what was seen")
    check(window.leave() == 0, "leaves with exit code 0")


def knobs(display, build, scene, check):
    """Eight arms leave the panel least height at this size; below a knob stands a line of text."""
    line = 16
    for language in ("en", "es"):
        window = Window(display, build, "--language", language, scene)
        window.key("End", "Return", "5", "w")
        places = window.places()
        x, y, w, h = places["panel", 0]
        rows = [place for (kind, _), place in places.items() if kind == "knob"]
        check(len(rows) == 4 and all(r[1] > y and r[1] + r[3] + line <= y + h for r in rows),
              f"{language}: all four knobs and their lines are in sight without scrolling")
        window.leave()


def form(display, build, scene, check):
    """A stop on the form takes every mark away; forgetting the form brings them back."""
    window = Window(display, build, scene)
    window.key("Return", "2")
    window.settle()
    place = window.places()["marks", 0]
    marked = Picture(window.pixels()).area(place)
    window.key("f")
    blank, rows = Picture(window.pixels()), window.places()
    window.key("Right", "Right")
    judged = Picture(window.pixels())
    check(judged.raw != blank.raw and ("row", 0) in rows, "F opens the form, Right answers its row")
    press(window, rows["on", 3])
    check(Picture(window.pixels()).raw != judged.raw, "a row is answered by the pointer too")
    window.key("Escape")
    window.settle()
    picture = Picture(window.pixels())
    check(columns(picture, place, 0) == columns(picture, place, 2) == (0, 0) and picture.area(place) != marked,
          "a form that stops leaves no bar below the ruler")
    for key in ("n", "m"):
        window.key(key)
        window.settle()
        page = Picture(window.pixels())
        window.key("Down")
        window.settle()
        x, y, w, h = window.places()["body", 0]
        check(page.area((x, y + h // 3, w, h // 3)) == Picture(window.pixels()).area((x, y + h // 3, w, h // 3)),
              f"{key.upper()} shows nothing for a person")
        window.key("Up", "Escape")
    window.key("f", "Delete", "Escape")
    check(looks_so(window, place, marked), "forgetting the form brings the marks back")
    check(window.leave() == 0, "leaves with exit code 0")
