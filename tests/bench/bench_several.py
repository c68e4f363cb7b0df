#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Many tests compared together: makes a log of 100 tests of the shipped eight strips and a million readings by grades (some 68 looks at
each dyed zone of each swatch, by four judges, at five minutes and at the end), then runs `slowlift compare LOG --all`; processor seconds
and peak memory of the process, best of three.

    bench_several.py SLOWLIFT LOG_MAKER [TESTS [READINGS [MOST_MIB]]]    with MOST_MIB as a test of memory alone
"""
import os
import random
import sqlite3
import subprocess
import sys
import tempfile

SLOWLIFT, MAKER = sys.argv[1:3]
TESTS = int(sys.argv[3]) if len(sys.argv) > 3 else 100
READINGS = int(sys.argv[4]) if len(sys.argv) > 4 else 1000000
MOST_MIB = float(sys.argv[5]) if len(sys.argv) > 5 else None
WORDS = ["no change", "slight", "about half", "mostly gone", "ghost only", "as undyed"]
ZONES = ["root", "red", "orange", "yellow", "green", "blue", "violet"]
MOMENTS = ["5", "10", "15", "20", "25", ""]


def rows(log):
    draw = random.Random(1)
    swatches = sqlite3.connect(log).execute("SELECT test, code, arm FROM swatch WHERE arm NOT LIKE 'undyed%' ORDER BY test, block, place").fetchall()
    cells = [(*swatch, zone) for swatch in swatches for zone in ZONES]
    for i in range(READINGS):
        test, code, arm, zone = cells[i * len(cells) // READINGS]
        grade = min(5, max(0, len(arm) % 5 + draw.choice((-1, 0, 0, 0, 1))))
        yield f"{test},{code},{zone},{MOMENTS[i % 6]},j{i // 6 % 4},{WORDS[grade]}\n"


def measured(words):
    """Processor seconds and MiB of a process, by the system's own count of it."""
    process = subprocess.Popen(words, stdout=subprocess.DEVNULL)
    _, status, use = os.wait4(process.pid, 0)
    assert status == 0, status
    return use.ru_utime + use.ru_stime, use.ru_maxrss / 1024


def main(folder):
    log, path = os.path.join(folder, "strands.db"), os.path.join(folder, "readings.csv")
    for _ in range(TESTS):
        subprocess.run([MAKER, log], check=True, stdout=subprocess.DEVNULL)
    with open(path, "w", encoding="utf-8") as out:
        out.write("test,swatch,zone,minute,judge,grade\n")
        out.writelines(rows(log))
    subprocess.run([SLOWLIFT, "log", "import", log, path], check=True, stdout=subprocess.DEVNULL)
    if MOST_MIB:
        _, peak = measured([SLOWLIFT, "compare", log, "--all"])
        assert peak <= MOST_MIB, f"{peak:.0f} MiB"
        print(f"{READINGS} readings of {TESTS} tests: {peak:.0f} MiB")
        return
    one = sqlite3.connect(log).execute("SELECT id FROM test").fetchone()[0]
    print("| what | readings | processor s | peak MiB |\n|---|---|---|---|")
    for what, words, n in ((f"{TESTS} tests together", ["--all"], READINGS), ("one of them", [one], READINGS // TESTS)):
        runs = [measured([SLOWLIFT, "compare", log, *words]) for _ in range(3)]
        print(f"| {what} | {n} | {min(run[0] for run in runs):.2f} | {min(run[1] for run in runs):.0f} |", flush=True)


if os.environ.get("SLOWLIFT_KEEP"):
    main(os.environ["SLOWLIFT_KEEP"])
else:
    with tempfile.TemporaryDirectory() as made:
        main(made)
