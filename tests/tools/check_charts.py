#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Ranks, maps and what was seen as pictures say what they show, in words, and read without colour.

usage: check_charts.py SLOWLIFT SOURCE

Texts are read from the PDF by pdftotext (skipped, exit 77, when it is not installed). The hatch is looked for
in the SVG as strokes that climb at 45 degrees, and the unbeaten as filled squares; every pixel of the PNG is grey.
"""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import numpy
from PIL import Image

CAUTION = "classroom model"
HATCH = re.compile(r"M ([\d.-]+) ([\d.-]+) L ([\d.-]+) ([\d.-]+)")
failures = 0


def ok(name, holds):
    global failures
    if not holds:
        failures += 1
        print(f"false: {name}")


def draw(slowlift, words, path):
    subprocess.run([slowlift, *words, "-o", str(path)], check=True)
    return path


def text_of(path):
    done = subprocess.run(["pdftotext", "-raw", str(path), "-"], check=True, stdout=subprocess.PIPE)
    return " ".join(done.stdout.decode("utf-8").replace("\u00a0", " ").split())


def climbing(svg):
    """Strokes that rise by as much as they go to the right, longer than a tenth of the page."""
    count = 0
    for x0, y0, x1, y1 in HATCH.findall(svg):
        right, up = float(x1) - float(x0), float(y0) - float(y1)
        count += right > 80.0 and abs(right - up) < 0.01
    return count


def colourless(path):
    with Image.open(path) as image:
        pixels = numpy.asarray(image.convert("RGB"))
    return bool((pixels == pixels[..., :1]).all())


def check(slowlift, words, folder, wanted, name):
    pdf = text_of(draw(slowlift, words, folder / "a.pdf"))
    for part in [*wanted, CAUTION, "classroom example"]:
        ok(f"{name} has \"{part}\"", part.replace(" ", "") in pdf.replace(" ", ""))  # gaps are guessed in a PDF
    ok(f"{name} has no decimals of minutes", not re.search(r"\d\.\d+ min", pdf))
    ok(f"{name} is grey all over", colourless(draw(slowlift, words, folder / "a.png")))
    one = draw(slowlift, words, folder / "one.svg").read_bytes()
    ok(f"{name} is the same twice", one == draw(slowlift, words, folder / "two.svg").read_bytes())
    return one.decode("utf-8")


def main():
    slowlift, source = sys.argv[1], pathlib.Path(sys.argv[2])
    if not shutil.which("pdftotext"):
        return 77
    scenes = source / "models" / "scenes"
    wide, eight = str(scenes / "way-wide.yaml"), str(scenes / "eight-arms.yaml")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        arm = ["--arm", "powder + 3 %"]
        svg = check(slowlift, ["map", wide, *arm], folder,
                    ["developer strength (%)", "time on hair (min)", "colour left", "20 %", "goal",
                     "inside the limits you set", "base moved"], "a map")
        ok("what is inside the limits is hatched", climbing(svg) > 20)
        svg = check(slowlift, ["map", eight, "--arm", "powder + 6 %", "--show", "stress", "--x", "ratio:1..4", "--y",
                               "age:0..60min"], folder,
                    ["liquid for one part of powder (parts by weight)", "age of the mix at contact (min)",
                     "hair stress", "nothing is hatched"], "a map without limits")
        ok("nothing is hatched where no limit is set", climbing(svg) == 0)
        svg = check(slowlift, ["rank", eight, "--zone", "blue", "--members", "200"], folder,
                    ["colour left (% of the start)", "hair stress (%)", "powder + water", "place",
                     "no other strip has as little left", "least left in the middle model run"], "a picture of ranks")
        ok("the unbeaten are joined by a dashed line", "stroke-dasharray" in svg)
        ranks = ["rank", eight, "--members", "100"]
        zones = json.loads(subprocess.run([slowlift, *ranks, "--json"], check=True, stdout=subprocess.PIPE).stdout)["zones"]
        check(slowlift, ranks, folder, [f"\"{zone['zone']}\": colour left against hair stress" for zone in zones],
              "a picture of ranks without a zone")
        ok("six zones are ranked", len(zones) == 6)
        pages = subprocess.run(["pdfinfo", str(folder / "a.pdf")], check=True, stdout=subprocess.PIPE).stdout.decode()
        ok("a page for each", re.search(r"Pages: +6\b", pages))
        svg = check(slowlift, ["compare", str(source / "tests" / "files" / "log" / "class-1.db")], folder,
                    ["colour left (% of the start)", "time since contact (min)", "powder + 6 %", "place 1 even;",
                     "no strip came clearly before", "95 % interval of the mean"], "a picture of what was seen")
        ok("the second curve is dashed", "stroke-dasharray" in svg)
    return 1 if failures else 0


sys.exit(main())
