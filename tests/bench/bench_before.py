#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the same scenes cost an older program and this one, each with the models of its own source: instructions that
valgrind counts, which are the same whatever else a machine does, so that one run of each is enough.

    bench_before.py SLOWLIFT BEFORE

Both built for release. Scenes: eight-strips.yaml, the first that was benched, whose mixes warm themselves; cool-strips.yaml,
whose mixes do so nowhere by 0.2 K. What counts is what is spent inside the library's own call: solving and reading a scene,
members with their limits, members with their ranks; and of the whole command what goes beyond an empty process.
"""
import os
import pathlib
import re
import subprocess
import sys

MEMBERS = "320"
HERE = pathlib.Path(__file__).parent
ASKED = (  # what it is; the command; the call that counts, or the whole
    ("one scene solved and read", ("run",), "sl_timeline_solve"),
    ("the whole command", ("run",), None),
    (f"limits of {MEMBERS} members", ("limits", "--members", MEMBERS), "sl_spread_run"),
    (f"ranks of {MEMBERS} members", ("rank", "--members", MEMBERS), "sl_rank_run"),
)


def millions(program, words, inside):
    counted = ["--toggle-collect=" + inside] if inside else []
    environment = {name: value for name, value in os.environ.items() if name != "SLOWLIFT_MODELS"}
    told = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", *counted, program, *words],
                          env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    if told.returncode not in (0, 1):  # 1: nothing is answered so that it could be relied on
        sys.exit(told.stderr)
    return int(re.search(r"Collected : (\d+)", told.stderr)[1]) / 1e6


def spent(program, scene, words, inside):
    whole = millions(program, [words[0], str(HERE / scene), *words[1:]], inside)
    return whole if inside else whole - millions(program, ["--version"], None)


def main():
    now, before = sys.argv[1:3]
    print("| scene | what | before | now | now over before |\n|---|---|---|---|---|")
    for scene in ("eight-strips.yaml", "cool-strips.yaml"):
        for what, words, inside in ASKED:
            was, is_now = (spent(program, scene, words, inside) for program in (before, now))
            print(f"| {scene} | {what} | {was:.1f} | {is_now:.1f} | {is_now / was:.2f} |", flush=True)


main()
