#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Renew docs/pictures from the real window and from `slowlift picture`.

    pictures.py BUILD_DIR SOURCE_DIR [FOLDER]
"""
import os
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ThreadPoolExecutor

sys.dont_write_bytecode = True
from day import ON_HAIR, applied, opened, play  # noqa: E402
from lesson import Lesson  # noqa: E402
from window import Display, Window  # noqa: E402

BUILD, SOURCE = sys.argv[1], sys.argv[2]
FOLDER = sys.argv[3] if len(sys.argv) > 3 else os.path.join(SOURCE, "docs/pictures")
SCENE = os.path.join(SOURCE, "models/scenes/eight-arms.yaml")


def save(window, display, name):
    path = os.path.join(FOLDER, name + ".png")
    subprocess.run(["import", "-window", "root", "-depth", "8", "-define", "png:compression-level=9",
                    "-define", "png:compression-filter=5", path], env=display.env, check=True)
    print(path, os.path.getsize(path) // 1024, "KiB")


def pack():
    """Every pixel stays; the files become a tenth smaller where zopflipng is installed."""
    if shutil.which("zopflipng") is None:
        return
    names = [os.path.join(FOLDER, name) for name in sorted(os.listdir(FOLDER)) if name.endswith(".png")]
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        list(pool.map(lambda path: subprocess.run(["zopflipng", "-y", path, path], check=True,
                                                  stdout=subprocess.DEVNULL), names))


def less_developer(window, steps):
    x, y, w, h = window.places()["knob", 0]
    window.drag([(x + w // 2, y + h // 2), (x + w // 2 - 2, y + h // 2)])
    window.key(*["minus"] * steps)


def shoot(width, height, name, *, at=0, keys=(), arguments=(), change=False, more=(), scene=SCENE):
    display = Display(width, height)
    try:
        window = Window(display, BUILD, "--size", f"{width}x{height}", "--at", str(at), *arguments, scene)
        window.key(*keys)
        if change:
            less_developer(window, 6)
        window.key(*more)
        window.settle()
        save(window, display, name)
        window.leave()
    finally:
        display.stop()


TIMES = (0, 5, 10, 20, 30)
EYES = ("protan", "deutan", "tritan")


def series():
    """The demo through time: both themes, and the eyes of three colour-vision deficiencies."""
    for minute in TIMES:
        for theme in ("light", "dark"):
            shoot(1280, 800, f"{theme}-{minute:02}", keys=["Return", "5"], at=minute, arguments=["--theme", theme])
        width, height = (1280, 800) if minute == 20 else (900, 600)
        for eyes in EYES:
            shoot(width, height, f"{eyes}-{minute:02}", keys=["Return", "Return", "5"], at=minute,
                  arguments=["--vision", eyes])


def looks():
    for name, arguments in {"grey-print": ["--vision", "grey"],
                            "high-contrast": ["--theme", "high-contrast"]}.items():
        shoot(1280, 800, name, keys=["Return", "5"], at=20, arguments=arguments)
    shoot(1280, 800, "under-mix", keys=["Return", "5"], at=20, arguments=["--look", "mix"])
    shoot(1280, 800, "wiped", keys=["Return", "5", "x"], at=20, arguments=["--look", "mix"])
    shoot(1280, 800, "two-swatches", keys=["Return", "z"], at=20)
    shoot(1280, 800, "two-swatches-science", keys=["Return", "z", "Up", "Up", "Left", "5", "Up", "Up", "Up", "s"],
          at=20, arguments=["--theme", "dark"])


def papers():
    """Before and after as `slowlift picture` draws them: a sheet, and two pictures for slides."""
    for name, options in {"sheet": ["--at", "0min,30min"],
                          "before": ["--at", "0min", "--size", "960x540"],
                          "after": ["--at", "30min", "--size", "960x540"],
                          "after-deutan": ["--at", "30min", "--size", "960x540", "--vision", "deutan"]}.items():
        path = os.path.join(FOLDER, name + ".png")
        subprocess.run([os.path.join(BUILD, "slowlift"), "picture", SCENE, *options, "-o", path], check=True)
        print(path, os.path.getsize(path) // 1024, "KiB")


def limits():
    """Goal and stop, what goes with them, and the form."""
    wide = os.path.join(SOURCE, "models/scenes/way-wide.yaml")
    shoot(1280, 800, "limits", keys=["Return", "e"], at=12, scene=wide)
    shoot(1280, 800, "at-the-bowl", keys=["Return", "b", "Tab", "Tab", "Return"], at=18, scene=wide)
    shoot(1280, 800, "limits-science", keys=["Return", "2", "e", "s"], scene=wide, arguments=["--theme", "dark"])
    shoot(1280, 800, "answer", keys=["Return", "q"])
    shoot(1280, 800, "ranks", keys=["Return", "5", "n"], at=10)
    shoot(1280, 800, "map", keys=["Return", "2", "m"], scene=wide)
    shoot(1280, 800, "map-warmth", keys=["Return", "2", "m", "Right"], scene=wide, arguments=["--theme", "dark"])
    shoot(1280, 800, "form", keys=["Return", "f", "Right", "Down", "Right", "Down", "Right", "Right"], scene=wide)
    shoot(1280, 800, "new-test", arguments=["--new"], keys=["Return", "4", "Down", "Down", *"21", "Down", *"11", "Down"])
    shoot(900, 600, "limits-text-200", keys=["Return"] * 8 + ["e"], at=12, scene=wide, arguments=["--text", "200"])


def lesson(name, arguments, answers=()):
    """The newest step after `answers` (keys, each on a frame of its own)."""
    display = Display(1280, 800)
    try:
        window = Lesson(display, BUILD, "--lesson", "half-life", *arguments)
        for key in answers:
            window.press(key)
        window.settle()
        save(window, display, name)
        window.leave_with_escape()
    finally:
        display.stop()


def lessons():
    to_run = ["Return", "3", "Return", "1", "Return", "2", "Return", "1", "Return", "1", "Return", "1", "Return"]
    lesson("lesson-cases", ["--theme", "dark"], to_run[:8])
    lesson("lesson-run", [], to_run + ["Return"] * 4)
    lesson("lesson-classroom", ["--classroom", "--language", "es"], to_run + ["Return"] * 6)
    lesson("lesson-class", ["--class", os.path.join(SOURCE, "lessons/class-example")])


DAYS = (("day", [], []), ("day-stop", [], ["x", "1", "Escape"]),
        ("day-text-200", ["--text", "200", "--theme", "dark"], []))


def one_day(name, arguments, more):
    """A day whose clock runs as it does in a class: three swatches are put on in their turn."""
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, name + ".db")
        subprocess.run([os.path.join(BUILD, "log_maker"), log, "1"], check=True, stdout=subprocess.DEVNULL)
        display = Display(1280, 800)
        try:
            window = opened(display, BUILD, log, *arguments)
            window.press("y", "g")
            play(window, lambda s: applied(log) >= 3 and s["late"] == 0 and s["stage"] == ON_HAIR and s["in"] > 40)
            window.press(*more)
            window.settle()
            save(window, display, name)
            window.kill()
        finally:
            display.stop()


def day():
    """At once: each takes some minutes, in which nearly nothing is computed."""
    with ThreadPoolExecutor(len(DAYS)) as pool:
        list(pool.map(lambda each: one_day(*each), DAYS))


def seen():
    """A made-up day of strand tests over the model's curves."""
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "day.db")
        models = os.path.join(SOURCE, "models")
        subprocess.run([os.path.join(BUILD, "slowlift"), "compare", "--example", log, "--models", models], check=True,
                       stdout=subprocess.DEVNULL)
        display = Display(1280, 800)
        try:
            window = Window(display, BUILD, "--models", models, "--seen", log)
            window.key("Return", "5")
            save(window, display, "seen")
            window.leave()
        finally:
            display.stop()


def main():
    os.makedirs(FOLDER, exist_ok=True)
    papers()
    series()
    looks()
    limits()
    lessons()
    day()
    seen()
    shoot(1280, 800, "first-page")
    shoot(1280, 800, "same-colour-1280", keys=["Return", "3", "c"])
    shoot(1280, 800, "what-if", keys=["Return", "5", "w"], at=20, change=True)
    shoot(1280, 800, "science", keys=["Return", "5", "s"], at=20)
    shoot(1280, 800, "show-as", keys=["Return", "5", "a"], at=20, arguments=["--theme", "dark"])
    shoot(1280, 800, "help", keys=["Return", "h"])
    shoot(1280, 800, "text-200", keys=["Return"] * 8 + ["4", "c"], arguments=["--text", "200"])
    shoot(1280, 800, "two-swatches-text-200", keys=["Return"] * 8 + ["z"], at=20, arguments=["--text", "200"])
    shoot(2560, 1600, "large", keys=["Return", "5"], at=20)
    pack()


main()
