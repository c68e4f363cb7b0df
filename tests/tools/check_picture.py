#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The sheet paints every colour that CSV gives for the same scene and moments, in an area of its own.

usage: check_picture.py SLOWLIFT SCENE

Exact: both come from the same painting function, and a PNG of 24 bits keeps each of its 8-bit
colours. The least area is a fifth of the smallest zone of a strip (14 x 17 points at 4 pixels a
square point), the rest being numbers and rounded corners.
"""
import csv
import io
import pathlib
import subprocess
import sys
import tempfile

from PIL import Image

TIMES = "0min,10min,30min"
LEAST_PIXELS = 14 * 17 * 4 // 5


def main():
    slowlift, scene = sys.argv[1:]
    text = subprocess.run([slowlift, "run", scene, "--csv", "--at", TIMES], check=True,
                          stdout=subprocess.PIPE).stdout.decode("utf-8")
    wanted = {row["value"] for row in csv.DictReader(io.StringIO(text)) if row["quantity"] == "srgb"}
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder, "sheet.png")
        subprocess.run([slowlift, "picture", scene, "--at", TIMES, "-o", str(path)], check=True)
        with Image.open(path) as image:
            counts = {f"#{r:02x}{g:02x}{b:02x}": n for n, (r, g, b) in image.convert("RGB").getcolors(1 << 24)}
    missing = sorted(colour for colour in wanted if counts.get(colour, 0) < LEAST_PIXELS)
    for colour in missing:
        print(f"{colour} covers {counts.get(colour, 0)} pixels of the sheet, fewer than {LEAST_PIXELS}")
    print(f"{len(wanted)} colours, {len(missing)} missing")
    return 1 if missing or len(wanted) < 20 else 0


sys.exit(main())
