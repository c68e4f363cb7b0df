# SPDX-License-Identifier: GPL-3.0-or-later
"""The colour-vision matrices against colorspacious (Debian's python3-colorspacious) over random
colours, through its whole path from and to encoded sRGB.

Usage: colour_colorspacious.py PATH_OF_colour_figures

Both sides have the published six decimals, so on linear values only rounding may differ: 1e-12.
colorspacious leaves 0..1 as the matrices do.
"""
import sys

import numpy as np
from colorspacious import cspace_convert

from colour_skimage import ask, compare, lines

N = 10000
KINDS = ((1, "protanomaly"), (2, "deuteranomaly"), (3, "tritanomaly"))


def main():
    program = sys.argv[1]
    draw = np.random.default_rng(20240502)
    good = []
    linear = draw.random((N, 3))
    for number, name in KINDS:
        space = {"name": "sRGB1-linear"}
        seen = {"name": "sRGB1+CVD", "cvd_type": name, "severity": 100}
        ours = ask(program, lines("seen", np.column_stack([np.full(N, number), linear])))
        encoded = cspace_convert(linear, space, "sRGB1")
        theirs = cspace_convert(cspace_convert(encoded, seen, "sRGB1"), "sRGB1", space)
        good.append(compare(name, ours, theirs, 1e-12))
    return 0 if all(good) else 1


if __name__ == "__main__":
    sys.exit(main())
