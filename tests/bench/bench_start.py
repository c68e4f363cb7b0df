#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What short commands take over an empty process (`slowlift --version`), from start to exit: medians over many rounds,
in each of which every command runs once beside an empty process, so that all meet the same machine; and with valgrind
their instructions.

    bench_start.py SLOWLIFT MODELS [BEFORE]

BEFORE: another slowlift, such as an older one, that runs in turn with the first.
"""
import os
import re
import shutil
import statistics
import subprocess
import sys
import time

ROUNDS = 300
SCENE = "scenes/eight-arms.yaml"
COMMANDS = (("list",), ("check", SCENE), ("run", SCENE))


def milliseconds(words, environment, nowhere):
    """Wall and processor time of one run."""
    start = time.monotonic()
    child = os.posix_spawn(words[0], words, environment,
                           file_actions=[(os.POSIX_SPAWN_DUP2, nowhere, stream) for stream in (0, 1, 2)])
    status, used = os.wait4(child, 0)[1:]
    wall = time.monotonic() - start
    if status != 0:
        sys.exit(f"{' '.join(words)}: status {status}")
    return 1e3 * wall, 1e3 * (used.ru_utime + used.ru_stime)


def over_empty(programs, words, environment):
    """For each program the medians of what a run takes over its empty process, pair by pair."""
    nowhere = os.open(os.devnull, os.O_RDWR)
    rounds = {program: [] for program in programs}
    for _ in range(ROUNDS):
        for program in programs:
            empty = milliseconds([program, "--version"], environment, nowhere)
            full = milliseconds([program, *words], environment, nowhere)
            rounds[program].append([full[0] - empty[0], full[1] - empty[1]])
    os.close(nowhere)
    return {program: [statistics.median(column) for column in zip(*pairs)] for program, pairs in rounds.items()}


def millions(program, words, environment):
    if not shutil.which("valgrind"):
        return float("nan")
    told = subprocess.run(["valgrind", "--tool=callgrind", "--callgrind-out-file=/dev/null", program, *words],
                          check=True, env=environment, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True)
    return int(re.search(r"Collected : (\d+)", told.stderr).group(1)) / 1e6


def main():
    programs, models = [os.path.abspath(program) for program in (sys.argv[1], *sys.argv[3:4])], sys.argv[2]
    environment = {**os.environ, "SLOWLIFT_MODELS": models}
    print("| command | program | ms over an empty process | processor ms over it | million instructions |\n|---|---|---|---|---|")
    for command in COMMANDS:
        words = [os.path.join(models, word) if "/" in word else word for word in command]
        times = over_empty(programs, words, environment)
        for program, name in zip(programs, ("this", "before")):
            print(f"| `{' '.join(command)}` | {name} | {times[program][0]:.2f} | {times[program][1]:.2f} "
                  f"| {millions(program, words, environment):.1f} |", flush=True)


main()
