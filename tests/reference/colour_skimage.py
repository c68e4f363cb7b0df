# SPDX-License-Identifier: GPL-3.0-or-later
"""The colour arithmetic against scikit-image over random colours and spectra.

Usage: colour_skimage.py PATH_OF_colour_figures

Both sides use the same formulas, so where no constant differs only rounding may: 1e-9.
Constants that differ: scikit-image's white of D65 is 95.047, 100, 108.883 (ours is the
5 nm sum), so XYZ are scaled from our white to its own before it makes CIELAB of them; and
its sRGB matrix has six figures where IEC 61966-2-1 has four, which moves a linear channel
by up to 4e-4; and below (6/29)^3 it has a line of slope 7.787 for 841/108, which moves a*
by up to 500 * 3.7e-5 * 0.0089 = 1.7e-4, so dark colours are held to 2e-4.

scikit-image knows no spectra, but the whites of A and D65 for both observers to five figures:
random smooth reflectances are summed here, brought to CIELAB by our code, and their XYZ by
scikit-image, scaled from our white to its own as above.
"""
import subprocess
import sys

import numpy as np
from skimage import color

N = 10000
SWATCHES = 1000
SEEN = ((1, "hardly anyone would tell them apart"), (2, "a trained eye would see it side by side"), (5, "most people would see it side by side"),
        (10, "anyone would see it"), (np.inf, "anyone would call them two colours"))


def ask(program, requests):
    return np.array([[float(x) for x in line.split()] for line in told(program, requests)])


def told(program, requests):
    run = subprocess.run([program], input="\n".join(requests) + "\n", capture_output=True, text=True, check=True)
    return run.stdout.splitlines()


def lines(word, rows):
    return [word + " " + " ".join(repr(float(x)) for x in row) for row in rows]


def compare(what, ours, theirs, tolerance):
    worst = float(np.max(np.abs(ours - theirs)))
    print(f"{what:34s} worst {worst:.2e}  allowed {tolerance:.0e}")
    return ours.shape == theirs.shape and worst <= tolerance


def spectra(program, draw):
    """Smooth reflectances every 10 nm: a running mean of noise between 0 and 1."""
    rough = draw.random((N, 41 + 8)) ** 2
    smooth = np.stack([rough[:, i:i + 41] for i in range(9)]).mean(axis=0)
    results = []
    for observer, degrees in ((0, "2"), (1, "10")):
        for light, name in ((0, "D65"), (1, "A")):
            rows = np.column_stack([np.full(N, observer), np.full(N, light), smooth])
            ours = ask(program, lines("spectrum", rows))
            white = ask(program, lines("white_of", [[observer, light]]))[0]
            their_white = np.array(color.colorconv.illuminants[name][degrees])
            theirs = color.xyz2lab(ours[:, :3] / white * their_white, illuminant=name, observer=degrees)
            results.append(compare(f"spectra, {name}, {degrees} degrees", ours[:, 3:], theirs, 1e-9))
    return results


def said(one, two):
    """The sentence of docs/guide.md, "Two zones compared", by its own table of steps."""
    apart = color.deltaE_ciede2000(one, two)
    seen = next(words for below, words in SEEN if apart < below)
    warmth = [lab[1] * np.cos(np.pi / 3) + lab[2] * np.sin(np.pi / 3) for lab in (one, two)]
    steps = ((one[0] - two[0], 1, "lighter", "darker"), (warmth[0] - warmth[1], 2, "warmer", "cooler"),
             (np.hypot(*one[1:]) - np.hypot(*two[1:]), 2, "more vivid", "greyer"))
    how = [more if by >= least else less for by, least, more, less in steps if abs(by) >= least]
    if apart < 1:
        return f"A and B look alike: {seen}."
    if not how:
        return f"A and B differ in hue alone: {seen}."
    return f"A is {', '.join(how[:-1]) + ' and ' if how[1:] else ''}{how[-1]} than B: {seen}."


def words(program, draw):
    """A thousand drawn swatches, each beside one that is nearer or farther from it: the words that are said of both."""
    one = np.column_stack([draw.uniform(15, 85, SWATCHES), draw.normal(8, 14, SWATCHES), draw.normal(12, 18, SWATCHES)])
    two = one + draw.normal(0, 1, (SWATCHES, 3)) * draw.choice([0.4, 1.5, 4, 12], (SWATCHES, 1))
    ours, theirs = told(program, lines("words", np.hstack([one, two]))), [said(a, b) for a, b in zip(one, two)]
    wrong = [pair for pair in zip(ours, theirs) if pair[0] != pair[1]]
    kinds = {sentence.rsplit(": ", 1)[1] for sentence in ours}
    print(f"{SWATCHES} pairs of swatches in {len(set(ours))} sentences, {len(wrong)} differ", *wrong[:3], sep="\n")
    return not wrong and len(ours) == SWATCHES and len(kinds) == len(SEEN)


def main():
    program = sys.argv[1]
    draw = np.random.default_rng(20240501)
    white = ask(program, ["white"])[0]
    their_white = np.array([0.95047, 1.0, 1.08883])
    xyz = draw.random((N, 3)) ** 3 * white
    lab = np.column_stack([draw.uniform(0, 100, N), draw.uniform(-90, 90, N), draw.uniform(-90, 90, N)])
    near = lab + draw.normal(0, 3, (N, 3))
    far = np.column_stack([draw.uniform(0, 100, N), draw.uniform(-90, 90, N), draw.uniform(-90, 90, N)])
    srgb8 = draw.integers(0, 256, (N, 3))
    linear = draw.random(N) ** 3
    ours = ask(program, lines("lab", xyz))
    theirs = color.xyz2lab(xyz / white * their_white, illuminant="D65", observer="2")
    dark = np.any(xyz / white < 0.00886, axis=1)
    encoded = np.where(linear > 0.0031308, 1.055 * linear ** (1 / 2.4) - 0.055, 12.92 * linear)

    good = [words(program, draw)] + spectra(program, draw) + [
        compare("XYZ to CIELAB, on the cube root", ours[~dark], theirs[~dark], 1e-9),
        compare("XYZ to CIELAB, on the line", ours[dark], theirs[dark], 2e-4),
        compare("CIELAB to XYZ and back", ask(program, lines("lab", ask(program, lines("xyz", lab)))), lab, 1e-9),
        compare("dE76, near", ask(program, lines("de", np.hstack([lab, near])))[:, 0],
                color.deltaE_cie76(lab, near), 1e-9),
        compare("CIEDE2000, near", ask(program, lines("de", np.hstack([lab, near])))[:, 1],
                color.deltaE_ciede2000(lab, near), 1e-9),
        compare("CIEDE2000, far", ask(program, lines("de", np.hstack([lab, far])))[:, 1],
                color.deltaE_ciede2000(lab, far), 1e-9),
        compare("sRGB bytes to XYZ", ask(program, lines("srgb8", srgb8)), color.rgb2xyz(srgb8 / 255.0), 4e-4),
        compare("CIELAB to LCh", ask(program, lines("lch", lab)) * [1, 1, np.pi / 180], color.lab2lch(lab), 1e-9),
        compare("sRGB transfer", ask(program, lines("encode", linear[:, None]))[:, 0], encoded, 1e-12),
    ]
    return 0 if all(good) else 1


if __name__ == "__main__":
    sys.exit(main())
