#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Random calls of the program, each read by what kind its minutes are and never by its words: a minute of the model stands where
leave_rules.py finds, from the files alone, that it may, and none later than it may.

    random_calls.py BUILD SOURCE [--count N] [--seed N] [--table]

Beside that: exit codes that are documented, one line on stderr for each fault, no minute printed without its kind, nothing called
safe. The opposite is asked too: a minute that may be told is told in a share of the calls. --table prints docs/robustness.md's rows.
"""
import argparse
import collections
import concurrent.futures
import math
import os
import pathlib
import random
import sys
import tempfile

import patience
import random_cases
from random_drawer import Drawer
from random_judge import Fault, Tally, judge

CALLS_OF_WORLD = 20
SHOWN = 20  # faults


class Runner:
    def __init__(self, build, source):
        self.build, self.source = pathlib.Path(build).resolve(), pathlib.Path(source).resolve()
        self.window, self.paper = ((self.build / f"slowlift-{part}").exists() for part in ("watch", "paper"))

    def run(self, folder, words, typed="", **more):
        where = {"PATH": os.environ.get("PATH", "/usr/bin:/bin"), "HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "TZ": "UTC",
                 "LC_ALL": "C.UTF-8", "NO_COLOR": "1", "TERM": "dumb", "SLOWLIFT_MODELS": str(self.source / "models"), "SLOWLIFT_SAY": "kinds"}
        return patience.run([str(self.build / "slowlift"), *words], cwd=folder, env=where | more, input=typed.encode(), capture_output=True)

    def fetch(self, folder):
        def found(kind, name):
            for place in (folder / "models", self.source / "models"):
                if (place / kind / f"{name}.yaml").exists():
                    return (place / kind / f"{name}.yaml").read_text(encoding="utf-8")
            raise FileNotFoundError(name)
        return found


def world_of(number, seed, runner, calls):
    """Calls about one world: (tally, faults)."""
    chance, tally, faults = random.Random(f"{seed}.{number}"), Tally(), []
    with tempfile.TemporaryDirectory(prefix="slowlift-calls-") as name:
        folder = pathlib.Path(name)
        world = random_cases.World(chance, folder, lambda words, typed="", **more: runner.run(folder, words, typed, **more))
        drawer = Drawer(world, runner)
        for at in range(calls):
            call = drawer.next()
            words = ["--language", chance.choice(["en", "es"]), *call.words]
            done = runner.run(folder, words, call.typed, SLOWLIFT_TODAY=str(world.today))
            person = "--person" in call.words
            try:
                tally.put(call.command + (" --person" if person else ""), call, done, judge(call, done, folder))
            except Fault as fault:
                faults.append(f"world {number}, call {at}: {fault}\n  slowlift {' '.join(words).replace(name, '.')}\n"
                              f"  faults {world.faults}, gaps {world.gaps}, today {world.today}, last {call.last}")
    return tally, faults


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build")
    parser.add_argument("source")
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--world", type=int, help="this one alone")
    parser.add_argument("--table", action="store_true")
    asked = parser.parse_args()
    runner = Runner(asked.build, asked.source)
    worlds = range(math.ceil(asked.count / CALLS_OF_WORLD)) if asked.world is None else [asked.world]
    tally, faults = Tally(), []
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        for one, wrong in pool.map(lambda n: world_of(n, asked.seed, runner, min(CALLS_OF_WORLD, asked.count - n * CALLS_OF_WORLD if asked.world is None else CALLS_OF_WORLD)), worlds):
            tally.add(one)
            faults += wrong
    print("\n".join(tally.lines()) if asked.table else "")
    for fault in faults[:SHOWN]:
        print(f"false: {fault}")
    total = sum(tally.of.values(), collections.Counter())
    person = sum((row for name, row in tally.of.items() if name.endswith("--person")), collections.Counter())
    for what, row in (("swatches", total - person), ("a person", person)):
        print(f"{what}: {row['calls']} calls, {row['may']} in which a minute of the model may be told, {row['told']} in which it is")
    print(f"{total['calls'] + len(faults)} calls, {len(faults)} false")
    both = all(row["told"] > 0 and row["may"] < row["calls"] for row in (total - person, person))
    print("" if both or asked.world is not None else "false: both sides were not met, of swatches and of people")
    return 1 if faults or not (both or asked.world is not None) else 0


if __name__ == "__main__":
    sys.exit(main())
