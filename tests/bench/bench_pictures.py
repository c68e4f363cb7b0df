#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What pictures of the eight arms and a class on paper cost: processor time (user and system), best of
five whole runs of the program, and bytes.

    bench_pictures.py SLOWLIFT SCENE
"""
import os
import resource
import subprocess
import sys
import tempfile

SLOWLIFT, SCENE = sys.argv[1:]
MINUTES = "0min..30min/1min"
KINDS = (("sheet, 5 moments", "sheet.png", []), ("sheet, 5 moments", "sheet.svg", []),
         ("sheet, 5 moments", "sheet.pdf", []), ("one moment, 1280x720", "one.png", ["--at", "20min", "--size", "1280x720"]),
         ("one moment, 3840x2160", "one.png", ["--at", "20min", "--size", "3840x2160"]),
         ("31 moments, 1280x720", "frames", ["--at", MINUTES]), ("31 moments, 1280x720", "film.webp", ["--at", MINUTES]))


def used():
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return children.ru_utime + children.ru_stime


def size(path):
    if os.path.isdir(path):
        return sum(os.path.getsize(os.path.join(path, name)) for name in os.listdir(path))
    return os.path.getsize(path)


def cost(words):
    before = used()
    subprocess.run(words, check=True, stdout=subprocess.DEVNULL)
    return used() - before


def main():
    print("| what | kind | processor, s | KiB |\n|---|---|---|---|")
    with tempfile.TemporaryDirectory() as folder:
        for what, name, options in KINDS:
            path, times = os.path.join(folder, name), []
            target = ["-o", path] if "." in name else ["--frames", path]
            for _ in range(5 if len(options) != 2 else 1):
                times.append(cost([SLOWLIFT, "picture", SCENE, *options, *target]))
            print(f"| {what} | {name.split('.')[-1]} | {min(times):.2f} | {size(path) // 1024} |")
        path = os.path.join(folder, "pack")
        times = [cost([SLOWLIFT, "pack", SCENE, "--repeats", "3", "--people", "4", "-o", path]) for _ in range(5)]
        print(f"| a class, 8 arms, 3 repeats | PDF, SVG, HTML | {min(times):.2f} | {size(path) // 1024} |")


main()
