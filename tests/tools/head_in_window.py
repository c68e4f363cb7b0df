#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The window tells no minute of hair that counts as a head: it compares at the same colour left, whatever is pressed.

usage: head_in_window.py PROGRAM MODELS SCENE
"""
import re
import subprocess
import sys

KEYS = ["Return", "Return", "Space", "P", "Return", "C", "Right", "shift+Right", "End", "E", "E", "W", "W", "S", "S", "Q", "Q", "Z", "Z", "G"]
PLANNED = "(model only)"  # the knob of the time that the file plans
MINUTES = re.compile(r"\d\s*min\b|\d:\d\d|\bto \d+ min")


def main():
    program, models, scene = sys.argv[1:]
    said = subprocess.run([program, "watch", "--at", "15", "--say", ",".join(KEYS), scene, "--models", models],
                          capture_output=True, text=True, check=True).stdout
    after = said.split("== ")
    wrong = []
    if len(after) != len(KEYS) + 2:
        wrong.append(f"{len(after) - 2} keys were taken, not {len(KEYS)}")
    if "No minutes are given for hair on a head" not in said or "Same colour left" not in said:
        wrong.append("it does not say that no minutes are given, or does not compare at the same colour left")
    for part in after[1:]:
        key, *lines = part.splitlines()
        for line in lines:
            text = line.split(" ", 6)[-1] if line.startswith("words ") else ""
            if MINUTES.search(text) and not text.endswith(PLANNED):
                wrong.append(f"after {key}: {line}")
    print("\n".join(wrong) if wrong else f"{len(KEYS)} keys, no minute")
    return 1 if wrong else 0


sys.exit(main())
