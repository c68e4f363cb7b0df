# SPDX-License-Identifier: GPL-3.0-or-later
"""Ensembles of the eight-arm scene against loops of other solvers, for docs/bench.md.

    bench_spread.py SPREAD_BENCH SPREAD_BENCH_PLAIN SCENE_NUMBERS MODELS

Each way runs in a process of its own. Loops run few members and are scaled to 10,000; they are
told apart by what they leave out (see spread_bench.c). Ways take turns; medians of 3, wall time.
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
    return float(out[0]), int(out[2])


def python_loop(scene, members):
    """LSODA on the shared system (no dyes), six arms, at the same tolerance as the other loops."""
    zone = dict(scene["zones"][-1])
    options = {"method": "LSODA", "rtol": 1e-5, "atol": 1e-7}
    start = time.monotonic()
    for _ in range(members):
        for arm in scene["arms"][1:7]:
            full.Arm(scene, arm, zone).solve(scene["times"], options)
    return time.monotonic() - start


def growth(wide, plain, models):
    """Time a member from a thousand to a hundred thousand, and memory at a million."""
    print("\n| place | way | members | threads | s | microseconds a member | peak MiB |\n|---|---|---|---|---|---|---|")
    for place in ("bench", "wrapped"):
        for name, program, threads in (("wide", wide, 1), ("wide", wide, 2), ("plain", plain, 1)):
            for members in (1000, 10000, 100000):
                s, peak = run(program, models, place, "ensemble", members, threads)
                print(f"| {place} | {name} | {members} | {threads} | {s:.3g} | {1e6 * s / members:.1f} "
                      f"| {peak / MIB:.1f} |", flush=True)
    for arms, name in ((1, "bench, one arm"), (6, "bench, six arms")):
        s, peak = run(wide, models, "bench", "ensemble", 1000000, 2, arms)
        print(f"| {name} | wide | 1000000 | 2 | {s:.3g} | {s:.1f} | {peak / MIB:.1f} |", flush=True)


def once(wide, models):
    """What one asks once: milliseconds for one, medians of 5."""
    print("\n| what | threads | ms |\n|---|---|---|")
    asks = (("ranks of six arms, 10,000 members", "rank", 10000, 1, 6, 10000),
            ("ranks of six arms, 10,000 members", "rank", 10000, 2, 6, 10000),
            ("a map of 25 x 25, one arm", "map", 3, 1, 6, 1),
            ("the search, every mix marked as allowed", "search", 5, 1, 6, 1),
            ("limits of all eight arms, solved anew", "limits", 100, 1, 8, 1))
    for name, way, times, threads, arms, whole in asks:
        s = statistics.median(run(wide, models, "bench", way, times, threads, arms)[0] for _ in range(5))
        print(f"| {name} | {threads} | {1e3 * s * whole / times:.3g} |", flush=True)


def main():
    wide, plain, numbers, models = sys.argv[1:]
    print("| place | way | members run | threads | s for 10,000 | ratio |\n|---|---|---|---|---|---|")
    for place in ("bench", "wrapped"):
        ways = {
            "ensemble, wide vectors": (WHOLE, 1, lambda p=place: run(wide, models, p, "ensemble", WHOLE, 1)[0]),
            "ensemble, wide vectors, ": (WHOLE, 2, lambda p=place: run(wide, models, p, "ensemble", WHOLE, 2)[0]),
            "ensemble, plain": (WHOLE, 1, lambda p=place: run(plain, models, p, "ensemble", WHOLE, 1)[0]),
            "ensemble, plain, ": (WHOLE, 2, lambda p=place: run(plain, models, p, "ensemble", WHOLE, 2)[0]),
            "own solver, a loop": (300, 1, lambda p=place: run(wide, models, p, "solver", 300, 1)[0]),
            "CVODE Adams, shared system, a loop": (100, 1, lambda p=place: run(wide, models, p, "cvode", 100, 1)[0]),
        }
        seconds = {name: [] for name in ways}
        for _ in range(REPEATS):
            for name, (members, _, go) in ways.items():
                seconds[name].append(go() * WHOLE / members)
        scene = full.numbers(numbers, models, models + "/scenes/eight-arms.yaml", 1)
        scene["place"] = place
        members = 2
        ways["scipy LSODA, shared system, Python right side, a loop"] = (members, 1, None)
        seconds["scipy LSODA, shared system, Python right side, a loop"] = [
            python_loop(scene, members) * WHOLE / members for _ in range(REPEATS)]
        base = statistics.median(seconds["ensemble, wide vectors"])
        for name, (members, threads, _) in ways.items():
            s = statistics.median(seconds[name])
            print(f"| {place} | {name.rstrip(', ')} | {members} | {threads} | {s:.3g} | {s / base:.2f} |", flush=True)
    growth(wide, plain, models)
    once(wide, models)


if __name__ == "__main__":
    main()
