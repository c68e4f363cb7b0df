#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Renew docs/pictures from the real window.

    pictures.py BUILD_DIR SOURCE_DIR [FOLDER]
"""
import os
import subprocess
import sys

sys.dont_write_bytecode = True
from window import Display, Window  # noqa: E402

BUILD, SOURCE = sys.argv[1], sys.argv[2]
FOLDER = sys.argv[3] if len(sys.argv) > 3 else os.path.join(SOURCE, "docs/pictures")
SCENE = os.path.join(SOURCE, "models/scenes/eight-arms.yaml")


def save(window, display, name):
    path = os.path.join(FOLDER, name + ".png")
    subprocess.run(["import", "-window", "root", "-depth", "8", "-define", "png:compression-level=9",
                    "-define", "png:compression-filter=5", path], env=display.env, check=True)
    print(path, os.path.getsize(path) // 1024, "KiB")


def less_developer(window, steps):
    x, y, w, h = window.places()["knob", 0]
    window.drag([(x + w // 2, y + h // 2), (x + w // 2 - 2, y + h // 2)])
    window.key(*["minus"] * steps)


def shoot(width, height, name, *, at=0, keys=(), arguments=(), change=False, more=()):
    display = Display(width, height)
    try:
        window = Window(display, BUILD, "--size", f"{width}x{height}", "--at", str(at), *arguments, SCENE)
        window.key(*keys)
        if change:
            less_developer(window, 6)
        window.key(*more)
        save(window, display, name)
        window.leave()
    finally:
        display.stop()


def main():
    os.makedirs(FOLDER, exist_ok=True)
    for width, height in ((1280, 800), (2560, 1600)):
        for name, options in {
            "first-page": {},
            "start": {"keys": ["Return", "5"]},
            "mid": {"keys": ["Return", "5"], "at": 20},
            "end": {"keys": ["Return", "5", "End"]},
            "same-colour": {"keys": ["Return", "3", "c"]},
            "what-if": {"keys": ["Return", "5", "w"], "at": 20, "change": True},
            "science": {"keys": ["Return", "5", "s"], "at": 20},
        }.items():
            shoot(width, height, f"{name}-{width}", **options)
    shoot(1280, 800, "help-1280", keys=["Return", "h"])
    shoot(1280, 800, "what-if-same-colour-1280", keys=["Return", "5", "w"], change=True, more=["c"])
    shoot(1280, 800, "same-colour-text-200", keys=["Return"] * 6 + ["4", "c"], arguments=["--text", "200"])


main()
