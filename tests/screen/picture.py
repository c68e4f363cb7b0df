# SPDX-License-Identifier: GPL-3.0-or-later
"""What a picture shows, and what the program prints for the same moment. Used by run.py."""
import csv
import io
import os
import subprocess

# As argued in tests/unit/test_strip.c.
TOLERANCE = 5.0


def decode(byte):
    c = byte / 255.0
    return c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4


def encode(linear):
    return 255.0 * (12.92 * linear if linear <= 0.0031308 else 1.055 * linear ** (1 / 2.4) - 0.055)


LINEAR = [decode(i) for i in range(256)]


class Picture:
    def __init__(self, raw, width=1280):
        self.raw = raw
        self.width = width

    def at(self, x, y):
        return tuple(self.raw[3 * (y * self.width + x):3 * (y * self.width + x) + 3])

    def mean(self, x0, y0, x1, y1):
        """Mean light of an area, as sRGB 0..255."""
        sums, n = [0.0, 0.0, 0.0], 0
        for y in range(y0, y1):
            row = self.raw[3 * (y * self.width + x0):3 * (y * self.width + x1)]
            for channel in range(3):
                sums[channel] += sum(LINEAR[b] for b in row[channel::3])
            n += x1 - x0
        return [encode(s / n) for s in sums]

    def area(self, place):
        x, y, w, h = place
        return [self.raw[3 * ((y + v) * self.width + x):3 * ((y + v) * self.width + x + w)] for v in range(h)]


def zone_mean(picture, strip, zone, n_zones, left=0.25, right=0.75):
    """The middle of a zone, away from its borders and the strip's edges."""
    x, y, w, h = strip
    top = y + zone * h // n_zones
    zone_h = h // n_zones
    return picture.mean(x + int(left * w), top + zone_h // 3, x + int(right * w), top + 2 * zone_h // 3)


def table_colours(build, scene, minute, *options):
    """sRGB by (arm, zone) as the program prints it; names of arms, names of zones."""
    out = subprocess.run([os.path.join(build, "slowlift"), "run", scene, "--csv", "--at", f"{minute}min", *options],
                         check=True, capture_output=True, text=True).stdout
    rows = list(csv.DictReader(io.StringIO(out)))
    arms, zones = [], []
    for row in rows:
        if row["arm"] not in arms:
            arms.append(row["arm"])
        if row["zone"] not in zones:
            zones.append(row["zone"])
    return {(r["arm"], r["zone"]): r["value"] for r in rows if r["quantity"] == "srgb"}, arms, zones
