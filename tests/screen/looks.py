# SPDX-License-Identifier: GPL-3.0-or-later
"""Themes, other eyes, looks and lights, two swatches, large text: the window against the
program's own table and against published matrices. Used by run.py."""
from picture import TOLERANCE, Picture, decode, encode, table_colours, zone_mean
from window import Window

# Machado, Oliveira & Fernandes, IEEE TVCG 15(6):1291 (2009), severity 1, linear RGB; and the
# luminance of sRGB (IEC 61966-2-1).
GREY = [[0.2126, 0.7152, 0.0722]] * 3
SEEN = [
    ("protan", [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]),
    ("deutan", [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]),
    ("tritan", [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]),
    ("grey", GREY),
]
THEMES = {"light": 0xDA, "dark": 0x22, "high contrast": 0x00}


def bytes_of(text):
    return [int(text[1 + 2 * i:3 + 2 * i], 16) for i in range(3)]


def seen(matrix, srgb):
    linear = [decode(c) for c in srgb]
    return [encode(min(max(sum(w * c for w, c in zip(row, linear)), 0.0), 1.0)) for row in matrix]


def apart_by(want, got):
    """Steps of 255. Near no light at all the eyes' matrices ask single strands for less than none,
    which no screen gives, so that the mean of the strands lies above the colour of the mean: below
    1 % of the light both count as dark."""
    return 0.0 if max(decode(want), decode(got)) < 0.01 else abs(want - got)


def worst_zone(window, colours, change=lambda c: c, strips=range(8)):
    """The zone farthest from what it should be: by how much, and which."""
    srgb, arms, zones = colours
    picture, places = Picture(window.pixels()), window.places()
    worst = (0.0, "")
    for number in strips:
        for zone, name in enumerate(zones):
            want = change(bytes_of(srgb[arms[number], name]))
            got = zone_mean(picture, places["strip", number], zone, len(zones))
            off = max(apart_by(a, b) for a, b in zip(want, got))
            worst = max(worst, (off, f"{arms[number]}, {name}: {[round(w) for w in want]} against "
                                     f"{[round(g) for g in got]}"))
    return worst


def themes(window, check):
    first = Picture(window.pixels())
    x, y, w, h = window.places()["field", 0]
    corner = (x + w - 2, y + h - 2)
    for name, ground in THEMES.items():
        picture = Picture(window.pixels())
        check(picture.at(2, 2) == (ground,) * 3, f"theme {name}: its ground is grey {ground:#x}")
        check(picture.at(*corner) == first.at(*corner) == (0x81,) * 3,
              f"theme {name}: the field behind the strips is the same middle grey")
        check(picture.area(window.places()["strip", 4])[40] == first.area(window.places()["strip", 4])[40],
              f"theme {name}: hair keeps its colour")
        window.key("d")
    check(Picture(window.pixels()).raw == first.raw, "D comes round to the first theme, pixel by pixel")


def eyes(window, colours, check):
    for name, matrix in SEEN:
        window.key("v")
        off, where = worst_zone(window, colours, lambda c, m=matrix: seen(m, c))
        check(off <= TOLERANCE, f"seen as {name}, every zone has the colour of the published matrix "
                                f"(farthest off by {off:.1f} of 255; {where})")
    picture = Picture(window.pixels()).raw
    check(picture[0::3] == picture[1::3] == picture[2::3], "in the grey print view no pixel has a hue")
    window.key("v")
    off, where = worst_zone(window, colours)
    check(off <= TOLERANCE, f"V comes round to full colour vision (farthest off by {off:.1f}; {where})")


def looks_and_lights(window, build, scene, check):
    minute = 12
    window.key("l")
    off, where = worst_zone(window, table_colours(build, scene, minute, "--look", "wet"))
    check(off <= TOLERANCE, f"L shows wet hair as the table has it (farthest off by {off:.1f}; {where})")
    window.key("l")
    covered = Picture(window.pixels())
    window.key("x")
    off, where = worst_zone(window, table_colours(build, scene, minute, "--look", "wet"), strips=range(1, 8))
    check(off <= TOLERANCE, f"X wipes the mix aside: below it lies wet hair (farthest off by {off:.1f}; {where})")
    strip = window.places()["strip", 4]
    wiped = Picture(window.pixels())
    darkest = [min(max(zone_mean(p, strip, zone, 8)) for zone in range(8)) for p in (covered, wiped)]
    check(darkest[0] > darkest[1] + 40.0, f"the mix hides the dark zones of a strip ({darkest[0]:.0f} above "
                                          f"{darkest[1]:.0f} of 255)")
    window.key("x")
    check(Picture(window.pixels()).raw == covered.raw, "X lays the mix on again, pixel by pixel")
    window.key("l", "i")
    for light in ("lamp", "led"):
        off, where = worst_zone(window, table_colours(build, scene, minute, "--light", light))
        check(off <= TOLERANCE, f"I shows the strips in the light of {light} (farthest off by {off:.1f}; {where})")
        window.key("i")
    def shown():  # hair, and the row that names how it is shown
        picture, places = Picture(window.pixels()), window.places()
        return [picture.area(places[part, 0]) for part in ("field", "shown", "figures")], picture.area(places["sentence", 0])
    usual, said = shown()
    window.key("o")
    check(shown()[0] == usual, "the observer stays where it is while the science is shut")
    check(shown()[1] != said, "and it is said why")
    window.key("s", "o")
    off, where = worst_zone(window, table_colours(build, scene, minute, "--observer", "10"))
    check(off <= TOLERANCE, f"O shows the 10 degree observer (farthest off by {off:.1f}; {where})")
    window.key("o", "s")


def flat(window, side):
    x, y, w, h = window.places()["flat", side]
    return list(Picture(window.pixels()).at(x + w // 2, y + h // 2))


def two_swatches(window, colours, check):
    srgb, arms, zones = colours
    plain = Picture(window.pixels()).raw
    window.key("z")
    check(("swatch", 0) in window.places(), "P opens two swatches")
    undyed, chosen = zones.index("undyed"), zones.index("violet")  # at the start: undyed hair of the chosen strip, the zone that shows most
    first = bytes_of(srgb[arms[2], zones[undyed]]), bytes_of(srgb[arms[2], zones[chosen]])
    check((flat(window, 0), flat(window, 1)) == first, "what is chosen stands beside the undyed hair of its strip")
    window.key("Left", "4", "Down", "Right", "8", "bracketleft", "Up", "Up")
    left = bytes_of(srgb[arms[3], zones[undyed + 1]])
    right = bytes_of(srgb[arms[6], zones[chosen - 2]])
    check(flat(window, 0) == left and flat(window, 1) == right,
          f"arrows, brackets and figures choose both zones; their colours stand edge to edge as the table has them "
          f"({flat(window, 0)}, {flat(window, 1)} against {left}, {right})")
    check(window.places()["curves", 0][2] == 0, "spectra stay behind the science switch")
    shut = Picture(window.pixels()).raw
    window.key("s")
    check(window.places()["curves", 0][2] > 100, "S opens their figures and spectra")
    window.key("s")
    check(Picture(window.pixels()).raw == shut, "S shuts them again")
    x, y, w, h = window.places()["side", 0]
    frames = window.frames()
    window.key("Tab", "Tab")
    check(window.frames() > frames and Picture(window.pixels()).raw != shut, "Tab shows a ring on their controls")
    window.key("Return")
    check(flat(window, 0) == bytes_of(srgb[arms[2], zones[undyed + 1]]), "Enter presses the control with the ring")
    window.key("Escape")
    check(len(Picture(window.pixels()).raw) == len(plain) and ("swatch", 0) not in window.places(),
          "Esc goes back to the strips")


def looks(display, build, scene, check):
    window = Window(display, build, "--at", "12", scene)
    colours = table_colours(build, scene, 12)
    window.key("Return")
    themes(window, check)
    # Later: at 12 and 14 min one channel of one zone lies where single strands just begin to ask for less than
    # no light, at the edge of what apart_by() calls dark.
    window.key(*["Right"] * 8)
    eyes(window, table_colours(build, scene, 20), check)
    window.key(*["Left"] * 8)
    looks_and_lights(window, build, scene, check)
    two_swatches(window, colours, check)
    check(window.leave() == 0, "and leaves with exit code 0")
    asked = Window(display, build, "--at", "12", "--theme", "high-contrast", "--vision", "grey", "--look", "mix",
                   "--light", "led", "--observer", "10", scene)
    asked.key("Return")
    picture = Picture(asked.pixels())
    check(picture.at(2, 2) == (0, 0, 0) and picture.raw[0::3] == picture.raw[1::3],
          "theme, vision, light, look and observer can be asked for on the command line")
    asked.leave()


def apart(places, names):
    """Pairs of parts that cover each other, or leave the window."""
    parts = [(key, place) for key, place in places.items() if key[0] in names and place[2] > 0 and place[3] > 0]
    bad = [str(key) for key, (x, y, w, h) in parts if x < 0 or y < 0 or x + w > 1280 or y + h > 800]
    for i, (one, (ax, ay, aw, ah)) in enumerate(parts):
        for two, (bx, by, bw, bh) in parts[i + 1:]:
            if ax < bx + bw and bx < ax + aw and ay < by + bh and by < ay + ah:
                bad.append(f"{one} on {two}")
    return len(parts), bad


def large_text(display, build, scene, check):
    """At 200 % nothing covers anything else, and all of it is there."""
    window = Window(display, build, "--size", "1280x800", "--text", "200", "--at", "12", scene)
    window.key(*["Return"] * 12)
    rows = ("button", "sentence", "shown", "gutter", "field", "figures", "ruler", "foot", "panel")
    swatches = ("words", "swatch", "flat", "side", "reading", "curves", "close", "science", "foot")
    for keys, names, least in (([], rows, 14), (["w"], rows, 15), (["a"], rows, 15), (["s"], rows, 15),
                               (["s", "End"], rows, 14), (["z"], swatches, 12), (["s"], swatches, 13)):
        window.key(*keys)
        n, bad = apart(window.places(), names)
        check(n >= least and not bad, f"text at 200 %, after {keys or 'the start'}: {n} parts stand apart {bad}")
    said = [line for line in window.said().splitlines() if line.startswith("text ")]
    check(said and all(line == "text 200 % of 200 %" for line in said), f"the text has its full size ({set(said)})")
    check(window.leave() == 0, "and leaves with exit code 0")
