#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every kind of picture paints every colour that CSV gives for the same scene and moments, in an
area of its own; frames and animations show the same pixels; other eyes see what the matrices say.

usage: check_picture.py SLOWLIFT SCENE FILM      FILM: "film", or "none" when built without libwebp

Exact: all come from the same painting function, and 24 bits keep each 8-bit colour. The least area
is that of the dot of an undyed zone (8.6 points across at 4 pixels a square point: 232 pixels), less its
smoothed edge; on a frame of 960x540 a point is 1.2 pixels wide and half of that is left. SVG and PDF are read by librsvg and poppler, WebP by webpinfo and Pillow.
"""
import csv
import io
import pathlib
import subprocess
import sys
import tempfile

import numpy
from PIL import Image

SLOWLIFT, SCENE, FILM = sys.argv[1:]
TIMES = ["0min", "10min", "30min"]
LEAST_PIXELS = 190
failures = 0


def check(good, what):
    global failures
    if not good:
        failures += 1
        print("false:", what)


def colours(*options, only=None):
    """sRGB words of CSV; `only` chooses rows by arm and minute."""
    text = subprocess.run([SLOWLIFT, "run", SCENE, "--csv", *options], check=True,
                          stdout=subprocess.PIPE, stderr=subprocess.DEVNULL).stdout.decode("utf-8")
    return {row["value"] for row in csv.DictReader(io.StringIO(text))
            if row["quantity"] == "srgb" and (only is None or only(row["arm"], float(row["time_min"])))}


def draw(path, *options, code=0):
    target = ["--frames", str(path)] if path.suffix == "" else ["-o", str(path)]
    done = subprocess.run([SLOWLIFT, "picture", SCENE, *options, *target], stderr=subprocess.PIPE)
    check(done.returncode == code, f"picture {' '.join(options)} to {path.name} ends with {code}: {done.stderr}")
    return path


def counts(path):
    with Image.open(path) as image:
        r, g, b = numpy.moveaxis(numpy.asarray(image.convert("RGB"), dtype=numpy.uint32), 2, 0)
    words, n = numpy.unique(r << 16 | g << 8 | b, return_counts=True)
    return dict(zip((f"#{word:06x}" for word in words), n))


def holds(path, wanted, what, least=LEAST_PIXELS):
    found = counts(path)
    missing = sorted(colour for colour in wanted if found.get(colour, 0) < least)
    check(not missing, f"{what}: {len(missing)} of {len(wanted)} colours are missing: {missing[:5]}")
    check(len(wanted) >= 9, f"{what}: only {len(wanted)} colours were looked for")


def fibres(path):
    """A sheet of flat fields has some hundred colours, antialiased letters included."""
    check(len(counts(path)) > 5000, f"{path.name} draws hair")


def sheets(folder):
    wanted = colours("--at", ",".join(TIMES))
    at = ("--at", ",".join(TIMES))
    png = draw(folder / "sheet.png", *at)
    holds(png, wanted, "the sheet")
    fibres(png)
    svg, pdf = draw(folder / "sheet.svg", *at), draw(folder / "sheet.pdf", *at)
    check(svg.stat().st_size < 6e6, f"an SVG of {svg.stat().st_size} bytes")
    subprocess.run(["rsvg-convert", "-z", "2", "-o", folder / "svg.png", svg], check=True)
    subprocess.run(["pdftoppm", "-r", "144", "-png", "-singlefile", pdf, folder / "pdf"], check=True)
    for kind in ("svg", "pdf"):
        holds(folder / f"{kind}.png", wanted, f"the sheet as {kind}")
        fibres(folder / f"{kind}.png")


# ---- other eyes: Machado, Oliveira and Fernandes (2009), severity 1 --------------------------------

SEEN = {
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritan": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
    "grey": ((0.2126, 0.7152, 0.0722),) * 3,
}


def linear(byte):
    value = byte / 255
    return value / 12.92 if value <= 0.04045 else ((value + 0.055) / 1.055) ** 2.4


def byte(value):
    value = min(max(value, 0.0), 1.0)
    return round(255 * (12.92 * value if value <= 0.0031308 else 1.055 * value ** (1 / 2.4) - 0.055))


def seen(word, colour):
    light = [linear(int(colour[i:i + 2], 16)) for i in (1, 3, 5)]
    return tuple(byte(sum(a * b for a, b in zip(row, light))) for row in SEEN[word])


def eyes(folder):
    wanted = colours("--at", "20min")
    for word in SEEN:
        found = counts(draw(folder / f"{word}.png", "--at", "20min", "--vision", word))
        for colour in wanted:
            r, g, b = seen(word, colour)  # a rounding apart at most: one step in each channel
            area = sum(found.get(f"#{x:02x}{y:02x}{z:02x}", 0) for x in (r - 1, r, r + 1)
                       for y in (g - 1, g, g + 1) for z in (b - 1, b, b + 1) if min(x, y, z) >= 0)
            check(area >= LEAST_PIXELS, f"{colour} seen by {word} covers {area} pixels")


def under_the_mix(folder):
    """The plates show the hair without its mix: wet where a mix lies on it, dry on what is left alone."""
    path = draw(folder / "mix.png", "--at", "20min", "--look", "mix")
    mixed = colours("--at", "20min", "--look", "wet", only=lambda arm, _: arm == "powder + 6 %")
    alone = colours("--at", "20min", only=lambda arm, _: arm == "untreated")
    holds(path, mixed | alone, "hair as it lies")
    check(mixed.isdisjoint(colours("--at", "20min", only=lambda arm, _: arm == "powder + 6 %")),
          "wet and dry hair differ")


# ---- pictures of one moment, frames, an animation -----------------------------------------------------


def frames(folder):
    reel = draw(folder / "reel", "--at", ",".join(TIMES), "--size", "960x540")
    names = [f"frame-{i + 1:04}.png" for i in range(len(TIMES))]
    check(sorted(p.name for p in reel.iterdir()) == names + ["slowlift-files.txt"],
          "frames are numbered, and nothing but their list is there")
    for name, time in zip(names, TIMES):
        holds(reel / name, colours("--at", time), f"{name} at {time}", LEAST_PIXELS // 3)  # nine zones on half the pixels
        with Image.open(reel / name) as image:
            check(image.size == (960, 540), f"{name} has the size asked for")
        one = draw(folder / "one.png", "--at", time, "--size", "960x540")
        check(one.read_bytes() == (reel / name).read_bytes(), f"{name} is the picture of {time}")
    before = [(reel / name).read_bytes() for name in names]
    draw(reel, "--at", ",".join(TIMES), "--size", "960x540")
    check(before == [(reel / name).read_bytes() for name in names], "the same frames again have the same bytes")
    draw(reel, "--at", "0min", "--size", "960x540")
    check([p.name for p in sorted(reel.iterdir())] == ["frame-0001.png", "slowlift-files.txt"],
          "fewer frames leave none of the older ones")
    draw(reel, "--at", ",".join(TIMES), "--size", "960x540")
    (reel / "notes.txt").write_text("mine")
    draw(reel, "--at", ",".join(TIMES), code=2)
    (reel / "notes.txt").unlink()
    check(before == [(reel / name).read_bytes() for name in names], "a refusal changes nothing")
    draw(folder / "small", "--at", "0min", "--size", "480x480", code=2)
    check(not (folder / "small").exists(), "nothing stays of frames that could not be drawn")
    draw(folder / "none" / "reel", "--at", "0min", code=3)
    return [reel / name for name in names]


def dark(folder):
    """The plates keep their colours; the ground is dark; a sheet is for paper."""
    path = draw(folder / "dark.png", "--at", "20min", "--size", "1280x720", "--theme", "dark")
    holds(path, colours("--at", "20min"), "a dark picture", LEAST_PIXELS // 2)
    with Image.open(path) as image:
        check(image.convert("RGB").getpixel((3, 3)) == (28, 28, 28), "the ground is dark")
    draw(folder / "sheet-dark.png", "--theme", "dark", code=2)


def film(folder, pictures):
    options = ("--at", ",".join(TIMES), "--size", "960x540", "--each", "250ms")
    if FILM != "film":
        draw(folder / "film.webp", *options, code=3)
        return
    path, again = draw(folder / "film.webp", *options), draw(folder / "again.webp", *options)
    check(path.read_bytes() == again.read_bytes(), "the same animation has the same bytes")
    told = subprocess.run(["webpinfo", path], check=True, stdout=subprocess.PIPE).stdout.decode()
    check(told.count("Chunk ANMF") == len(TIMES), "webpinfo counts the moments")
    check(told.count("Duration: 250") == len(TIMES), "each stands as long as was asked")
    check("No error detected" in told, "webpinfo finds no error")
    with Image.open(path) as moving:
        for i, picture in enumerate(pictures):
            moving.seek(i)
            with Image.open(picture) as still:
                check(moving.convert("RGB").tobytes() == still.convert("RGB").tobytes(),
                      f"moment {i + 1} of the animation is frame {i + 1}, pixel by pixel")


def refusals(folder):
    draw(folder / "x.png", "--size", "1280x720", code=2)  # which moment?
    draw(folder / "x.png", "--size", "12x7", "--at", "0min", code=2)
    draw(folder / "x.png", "--each", "500ms", code=2)
    draw(folder / "x.webp", "--each", "500", code=2)
    draw(folder / "x.png", "--vision", "owl", code=2)
    check(not list(folder.glob("x.*")), "a refused picture leaves nothing")


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        sheets(folder)
        eyes(folder)
        under_the_mix(folder)
        dark(folder)
        film(folder, frames(folder))
        refusals(folder)
    print(f"{failures} false")
    return 1 if failures else 0


sys.exit(main())
