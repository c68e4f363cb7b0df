# SPDX-License-Identifier: GPL-3.0-or-later
"""Ensembles of the eight-arm scene against loops of other solvers, for docs/bench.md.

    bench_spread.py SPREAD_BENCH SPREAD_BENCH_PLAIN SCENE_NUMBERS MODELS

Each way runs in a process of its own. Loops run few members and are scaled to 10,000; they are
told apart by what they leave out (see spread_bench.c). Ways take turns; medians of 3. Ratios are of
processor seconds, which a busy machine disturbs less than wall time.
"""
import os
import statistics
import subprocess
import sys
import time

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "reference"))


import system_scipy as full

WHOLE, REPEATS, MIB = 10000, 3, 1024


def run(program, models, place, way, members, threads, arms=6):
    words = [program, models, place, way, str(members), str(threads), str(arms)]
    out = subprocess.run(words, check=True, capture_output=True, text=True).stdout.split()
    return float(out[0]), float(out[1]), int(out[2])


def python_loop(scene, members):
    """LSODA on the shared system (no dyes), six arms, at the same tolerance as the other loops."""
    zone = dict(scene["zones"][-1])
    options = {"method": "LSODA", "rtol": 1e-5, "atol": 1e-7}
    start, busy = time.monotonic(), time.process_time()
    for _ in range(members):
        for arm in scene["arms"][1:7]:
            full.Arm(scene, arm, zone).solve(scene["times"], options)
    return time.monotonic() - start, time.process_time() - busy


def growth(wide, plain, models):
    """Time a member from a thousand to a hundred thousand, and memory at a million."""
    print("\n| place | way | members | threads | wall s | processor microseconds a member | peak MiB |\n"
          "|---|---|---|---|---|---|---|")

    def line(place, name, program, members, threads, arms=6, label=""):
        repeats = REPEATS if members <= 10000 else 1
        runs = [run(program, models, place, "ensemble", members, threads, arms) for _ in range(repeats)]
        wall, busy, peak = (statistics.median(x) for x in zip(*runs))
        print(f"| {place}{label} | {name} | {members} | {threads} | {wall:.3g} | {1e6 * busy / members:.1f} "
              f"| {peak / MIB:.1f} |", flush=True)

    for place in ("bench", "wrapped"):
        for name, program, threads in (("wide", wide, 1), ("wide", wide, 2), ("plain", plain, 1)):
            for members in (1000, 10000, 100000):
                line(place, name, program, members, threads)
    line("bench", "wide", wide, 1000000, 2, 1, ", one arm")
    line("bench", "wide", wide, 1000000, 2, 6, ", six arms")


def once(wide, models):
    """What one asks once: milliseconds for one, medians of 5."""
    print("\n| what | threads | wall ms | processor ms |\n|---|---|---|---|")
    asks = (("ranks of six arms, 10,000 members", "rank", 10000, 1, 6, 10000),
            ("ranks of six arms, 10,000 members", "rank", 10000, 2, 6, 10000),
            ("a map of 25 x 25, one arm", "map", 3, 1, 6, 1),
            ("the search, every mix marked as allowed", "search", 5, 1, 6, 1),
            ("limits of all eight arms, solved anew", "limits", 100, 1, 8, 1))
    for name, way, times, threads, arms, whole in asks:
        runs = [run(wide, models, "bench", way, times, threads, arms)[:2] for _ in range(5)]
        wall, busy = (1e3 * statistics.median(x) * whole / times for x in zip(*runs))
        print(f"| {name} | {threads} | {wall:.3g} | {busy:.3g} |", flush=True)


def main():
    wide, plain, numbers, models = sys.argv[1:]
    print("| place | way | members run | threads | wall s for 10,000 | processor s | ratio |\n"
          "|---|---|---|---|---|---|---|")
    for place in ("bench", "wrapped"):
        scene = full.numbers(numbers, models, models + "/scenes/eight-arms.yaml", 1)
        scene["place"] = place
        ways = [(f"ensemble, {name}", WHOLE, threads,
                 lambda p=place, e=program, t=threads: run(e, models, p, "ensemble", WHOLE, t))
                for name, program in (("wide vectors", wide), ("plain", plain)) for threads in (1, 2)]
        ways.append(("own solver, a loop", 300, 1, lambda p=place: run(wide, models, p, "solver", 300, 1)))
        ways.append(("CVODE Adams, shared system, a loop", 100, 1,
                     lambda p=place: run(wide, models, p, "cvode", 100, 1)))
        ways.append(("scipy LSODA, shared system, Python right side, a loop", 2, 1, lambda: python_loop(scene, 2)))
        times = [[] for _ in ways]
        for _ in range(REPEATS):
            for found, (_, members, _, go) in zip(times, ways):
                found.append([x * WHOLE / members for x in go()[:2]])
        medians = [[statistics.median(x) for x in zip(*found)] for found in times]
        for (name, members, threads, _), (wall, busy) in zip(ways, medians):
            print(f"| {place} | {name} | {members} | {threads} | {wall:.3g} | {busy:.3g} | {busy / medians[0][1]:.2f} |",
                  flush=True)
    growth(wide, plain, models)
    once(wide, models)


if __name__ == "__main__":
    main()
