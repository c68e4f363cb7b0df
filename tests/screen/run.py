#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The real window, driven by keys and pointer under Xvfb, and its pixels.

    run.py BUILD_DIR SOURCE_DIR [PART...]     without a part: all of them

Reference for colours: what `slowlift run --csv` prints for the same scene and minute.
Leaves with 77 (skipped) when Xvfb or xdotool is missing and CI is not set.
Frame times and memory are printed, never judged: they belong to the machine.
"""
import os
import shutil
import sys
import tempfile

sys.dont_write_bytecode = True
from asked import questions  # noqa: E402
from looks import looks, large_text  # noqa: E402
from lesson import lessons  # noqa: E402
from day import day_of_the_test  # noqa: E402
from letters import cover_in_its_box, label_in_its_box, more_is_told, nothing_cut, rows_apart, signs_in_sight, stop_in_sight  # noqa: E402
from limits import bowl, form, knobs, marks, views  # noqa: E402
from seen import seen  # noqa: E402
from start import job  # noqa: E402
from picture import TOLERANCE, Picture, table_colours, zone_mean  # noqa: E402
from window import Display, Window, patience  # noqa: E402

BUILD, SOURCE = sys.argv[1], sys.argv[2]
SCENE = os.path.join(SOURCE, "models/scenes/eight-arms.yaml")
WIDTH, HEIGHT = 1280, 800
failures = []


def check(good, sentence):
    print(("ok    " if good else "FALSE ") + sentence)
    if not good:
        failures.append(sentence)


def numbers_at(minute, *options):
    return table_colours(BUILD, SCENE, minute, *options)


def colours_agree(window, minute):
    srgb, arms, zones = numbers_at(minute)
    picture, places = Picture(window.pixels()), window.places()
    worst, where = 0.0, ""
    for number, arm in enumerate(arms):
        for zone, name in enumerate(zones):
            want = [int(srgb[arm, name][1 + 2 * i:3 + 2 * i], 16) for i in range(3)]
            seen = zone_mean(picture, places["strip", number], zone, len(zones))
            off = max(abs(a - b) for a, b in zip(want, seen))
            if off > worst:
                worst, where = off, f"{arm}, {name}: {want} against {[round(s) for s in seen]}"
    check(len(arms) == 8 and len(zones) == 9, "the scene has eight arms and nine zones")
    check(worst <= TOLERANCE, f"at {minute} min every zone shows the colour that the table prints "
                              f"(farthest off by {worst:.1f} of 255; {where})")
    return picture


def story(display):
    window = Window(display, BUILD, SCENE)
    first = Picture(window.pixels())
    window.key(*"nmjpfbgh", "Tab")
    check(Picture(window.pixels()).raw == first.raw, "no key but Enter or Esc passes over the first cautions")
    window.key("space")
    check(Picture(window.pixels()).raw != first.raw, "Space says so")
    window.key("k", "Escape")
    check(Picture(window.pixels()).raw == first.raw, "K shows all cautions and goes back to the first")
    window.key("Return")
    asked = colours_agree(window, 0)
    window.key("Escape")
    start = colours_agree(window, 0)
    check(asked.raw != start.raw, "what is asked before time moves goes with Esc")
    check(first.raw != start.raw, "the first cautions fold away with Enter")

    window.key(*["Right"] * 2, "shift+Right", "shift+Right")
    colours_agree(window, 12)
    window.key("End")
    end = colours_agree(window, 60)
    check(end.area(window.places()["strip", 4]) != start.area(window.places()["strip", 4]),
          "strips change with time")
    window.key("Home")
    check(Picture(window.pixels()).raw == start.raw, "Home brings back the first picture, pixel by pixel")

    x, y, w, h = window.places()["ruler", 0]
    at = x + round(30 / 60 * (w - 1))
    window.drag([(x + 40, y + h // 2), (x + 200, y + h // 2), (at, y + h // 2)])
    window.key("Left", "Right")
    colours_agree(window, 30)

    window.key("c")
    same_colour = Picture(window.pixels())
    places = window.places()
    check(same_colour.area(places["strip", 6]) != end.area(places["strip", 6]),
          "C shows strips at moments of their own")
    _, arms, zones = numbers_at(0)
    reached = [arms.index(a) for a in ("powder + water", "powder + 3 %", "powder + 6 %", "lightener + 6 %")]
    zone = zones.index("yellow")
    seen = [zone_mean(same_colour, places["strip", n], zone, len(zones)) for n in reached]
    spread = max(abs(a - b) for one in seen for two in seen for a, b in zip(one, two))
    # The dye is at the same share; what the base does below it may differ.
    check(spread < 25.0, f"at the same colour left the chosen zone looks much alike (spread {spread:.1f} of 255)")
    window.key("minus")
    check(Picture(window.pixels()).area(places["figures", 0]) != same_colour.area(places["figures", 0]),
          "another share moves the figures below")
    window.key("plus", "c")

    window.key("5", "w")
    before = Picture(window.pixels())
    places = window.places()
    x, y, w, h = places["knob", 0]
    frames = window.frames()
    window.drag([(x + w // 2, y + h // 2)] + [(x + w // 2 - 4 * i, y + h // 2) for i in range(1, 20)])
    after = Picture(window.pixels())
    strip = places["strip", 4]
    check(window.frames() - frames > 5, "the picture follows while a knob is dragged")
    half = strip[2] // 2
    blue = zones.index("blue")
    left_was = zone_mean(before, strip, blue, len(zones), 0.1, 0.4)
    left_is = zone_mean(after, strip, blue, len(zones), 0.1, 0.4)
    right_is = zone_mean(after, strip, blue, len(zones), 0.6, 0.9)
    check(half > 20 and max(abs(a - b) for a, b in zip(left_was, left_is)) < TOLERANCE,
          "the left half keeps the strip before the change")
    check(max(abs(a - b) for a, b in zip(left_is, right_is)) > TOLERANCE,
          "the right half shows the strip after the change")
    check(after.area(places["strip", 2]) == before.area(places["strip", 2]),
          "a strip that was not changed stays as it was")
    window.key("r")
    check(Picture(window.pixels()).area(strip) == before.area(strip), "R goes back to what the file says")

    window.key("w")
    frames = window.frames()
    for _ in range(20):
        window.settle()
    check(window.frames() == frames, "an idle window draws no frame")
    still = Picture(window.pixels())
    window.key("space")
    check(Picture(window.pixels()).raw != still.raw, "Space says which key plays")
    frames = window.frames()
    for _ in range(20):
        window.settle()
    check(window.frames() == frames, "and plays nothing")
    window.type("p")
    patience.until(lambda: window.frames() > frames + 5 or window.gone(), "playing draws frames")
    window.key("Return")
    for name in ("g", "h", "k"):
        plain = Picture(window.pixels())
        window.key(name)
        check(Picture(window.pixels()).raw != plain.raw, f"{name} opens a page")
        window.key("Escape")
        check(Picture(window.pixels()).raw == plain.raw, f"Esc closes the page of {name}")
    window.key("s")
    check(Picture(window.pixels()).raw != plain.raw, "S opens the science panel")
    memory = window.memory_mib()
    check(window.leave() == 0, "Ctrl and Q leave with exit code 0")
    summary = [line for line in window.said().splitlines() if line.startswith("frames ")]
    print(f"      {summary[-1] if summary else 'no summary'}; at most {memory:.1f} MiB")


def all_keys_in_all_sizes(display):
    """Smallest window, largest text, every scene: every key, every stop of Tab."""
    folder = os.path.dirname(SCENE)
    for name in sorted(os.listdir(folder)):
        window = Window(display, BUILD, "--size", "900x600", "--text", "200", os.path.join(folder, name))
        window.xdotool("key", *["Return"] * 12)
        window.xdotool("key", *"cwscegkhesnmbfjy".replace("", " ").split(), "Escape", *"advlxispsodvlxi".replace("", " ").split(),
                       *["Tab"] * 5, "Return", "Left", "Down", "bracketright", "Escape", "s", "w", "3", *["Tab"] * 20, "plus", "plus",
                       "minus", "Right", "Down", "Up", "bracketright", "t", "c", "minus", "End", "Home", "r")
        window.xdotool("windowsize", window.id, "1180", "760")
        window.settle()
        seen = window.pixels()
        window.key("h")
        check(window.pixels() != seen, f"{name}: still answers after every key and a new size")
        check(window.leave() == 0, f"{name}: leaves with exit code 0")


def refusals():
    env = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "WAYLAND_DISPLAY")}
    env.pop("SDL_VIDEODRIVER", None)
    env.setdefault("XDG_RUNTIME_DIR", tempfile.gettempdir())  # else libwayland has a line of its own to say

    def run(*words, **more):
        return patience.run([os.path.join(BUILD, "slowlift-watch"), *words], env=dict(env, **more),
                            capture_output=True, text=True)

    for words, code, hint in (([SCENE], 3, "display"), ([], 3, "display"), (["--nonsense", SCENE], 2, "nonsense"),
                              (["--size", "100x100", SCENE], 2, "900x600"), (["--text", "900", SCENE], 2, "200"),
                              (["no-such-scene.yaml"], 1, "no-such-scene.yaml")):
        got = run(*words)
        check(got.returncode == code and len(got.stderr.strip().splitlines()) == 1 and hint in got.stderr,
              f"{' '.join(os.path.basename(w) for w in words) or 'nothing'}: exit code {code}, one clear line "
              f"(got {got.returncode}: {got.stderr.strip()[:100]})")
    help_ = run("--help")
    check(help_.returncode == 0 and "--text" in help_.stdout, "--help says what there is")


def fontless(display):
    """With an empty font configuration there is no face, and it is said."""
    with tempfile.TemporaryDirectory() as folder:
        path = os.path.join(folder, "fonts.conf")
        with open(path, "w", encoding="ascii") as file:
            file.write("<?xml version='1.0'?><!DOCTYPE fontconfig SYSTEM 'fonts.dtd'><fontconfig>"
                       f"<cachedir>{folder}</cachedir></fontconfig>")
        got = patience.run([os.path.join(BUILD, "slowlift-watch"), SCENE], env=dict(display.env, FONTCONFIG_FILE=path),
                           capture_output=True, text=True)
    check(got.returncode == 3 and "fonts-inter" in got.stderr, f"without a typeface: exit code 3 and what to install "
                                                              f"(got {got.returncode}: {got.stderr.strip()[:120]})")


def limits_views(display):
    short = os.path.join(SOURCE, "models/scenes/way-short.yaml")
    for part in (marks, bowl, form, views):
        part(display, BUILD, short, check)
    knobs(display, BUILD, SCENE, check)


def first_page_and_story(display):
    refusals()
    fontless(display)
    story(display)


def looks_and_text(display):
    looks(display, BUILD, SCENE, check)
    large_text(display, BUILD, SCENE, check)
    nothing_cut(display, BUILD, SCENE, check)
    rows_apart(display, BUILD, SCENE, check)
    signs_in_sight(display, BUILD, SCENE, check)
    stop_in_sight(display, BUILD, SCENE, check)
    more_is_told(display, BUILD, SCENE, check)
    cover_in_its_box(display, BUILD, SCENE, check)
    label_in_its_box(display, BUILD, SCENE, check)


PARTS = {
    "story": first_page_and_story,
    "limits": limits_views,
    "looks": looks_and_text,
    "lesson": lambda display: lessons(display, BUILD, SOURCE, check),
    "day": lambda display: day_of_the_test(display, BUILD, SCENE, check),
    "seen": lambda display: seen(display, BUILD, SCENE, check),
    "start": lambda display: job(display, BUILD, check),
    "new": lambda display: questions(display, BUILD, SOURCE, check),
    "sizes": all_keys_in_all_sizes,
}


def main():
    missing = [tool for tool in ("Xvfb", "xdotool") if shutil.which(tool) is None]
    if missing:
        print("missing: " + ", ".join(missing))
        return 1 if os.environ.get("CI") else 77
    display = Display(WIDTH, HEIGHT)
    try:
        for part in sys.argv[3:] or PARTS:
            PARTS[part](display)
    finally:
        display.stop()
    print(f"{len(failures)} failed")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
