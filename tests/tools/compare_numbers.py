#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares what a program prints with a golden file: words exactly, numbers within a tolerance.

usage: compare_numbers.py GOLDEN PROGRAM [ARGUMENT...]

Tolerances: 1e-6 absolute or relative; the solver's own is 1e-9 and another processor or compiler moves the last
digits. Lab reaches 100, so 1e-6 relative there. Colours #rrggbb: one step of each channel (rounding at a half).
"""
import re
import subprocess
import sys

TOKEN = re.compile(r"#[0-9a-f]{6}|(?<![A-Za-z0-9_])-?\d+(?:\.\d+)?(?:e[-+]?\d+)?")


def pieces(text):
    """(words between the numbers, numbers), both in order. Runs of spaces count as one: a number
    that gains a digit moves its neighbours."""
    return [re.sub(r" +", " ", word) for word in TOKEN.split(text)], TOKEN.findall(text)


def close(one, two):
    if one == two:
        return True
    if one.startswith("#") or two.startswith("#"):
        return len(one) == len(two) == 7 and all(
            abs(int(one[i:i + 2], 16) - int(two[i:i + 2], 16)) <= 1 for i in (1, 3, 5))
    a, b = float(one), float(two)
    return abs(a - b) <= 1e-6 * max(1.0, abs(a), abs(b))


def differences(golden, now):
    golden_words, golden_numbers = pieces(golden)
    now_words, now_numbers = pieces(now)
    if golden_words != now_words:
        for old, new in zip(golden.splitlines(), now.splitlines()):
            if pieces(old)[0] != pieces(new)[0]:
                yield f"words differ:\n  golden: {old}\n  now:    {new}"
                return
        yield f"{len(golden.splitlines())} lines in the golden file, {len(now.splitlines())} now"
        return
    for old, new in zip(golden_numbers, now_numbers):
        if not close(old, new):
            yield f"numbers differ: {old} in the golden file, {new} now"


def main():
    path, *command = sys.argv[1:]
    with open(path, encoding="utf-8", newline="") as file:
        golden = file.read()
    now = subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout.decode("utf-8")
    found = list(differences(golden, now))
    for line in found[:20]:
        print(line)
    if found:
        print(f"{len(found)} differences; when they are meant: cmake --build BUILD --target golden")
    return 1 if found else 0


sys.exit(main())
