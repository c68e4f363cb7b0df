# SPDX-License-Identifier: GPL-3.0-or-later
"""scipy's solve_ivp on the full system of one strip (powder + 6 %, every zone), for docs/bench.md.

    bench_scipy.py SCENE_NUMBERS MODELS

The right-hand side is Python (tests/reference/system_scipy.py), which bounds it: this shows what a
script costs, not what an integrator costs. Methods take turns; medians of 5; CPU time. Each runs
at the loosest tolerance (in steps of ten) whose error to DOP853 at 1e-12 is at most 1e-6.
"""
import os
import statistics
import sys
import time

import numpy as np

sys.path.insert(0, os.path.join(os.path.dirname(__file__), "..", "reference"))
import system_scipy as full

BOUND, REPEATS, ARM = 1e-6, 5, 4


def strip(scene, options):
    arm = scene["arms"][ARM]
    out, calls = [], 0
    for zone in scene["zones"]:
        model = full.Arm(scene, arm, zone)
        rows = full.values(model, model.solve(scene["times"], options))
        scale = np.ones(rows.shape[1])
        scale[1:7] = max(np.sum(model.hair["pool"]), 1e-30)
        out.append(rows / scale)
        calls += model.calls
    return out, calls


def main():
    scene = full.numbers(sys.argv[1], sys.argv[2], sys.argv[2] + "/scenes/eight-arms.yaml", 0.25)
    truth, _ = strip(scene, {"method": "DOP853", "rtol": 1e-12, "atol": 1e-15})
    chosen = {}
    for method in ("LSODA", "DOP853", "RK45", "BDF"):
        for power in range(3, 12):
            options = {"method": method, "rtol": 10.0 ** -power, "atol": 10.0 ** -(power + 2)}
            rows, calls = strip(scene, options)
            error = max(np.abs(a - b).max() for a, b in zip(rows, truth))
            if error <= BOUND:
                chosen[method] = (options, error, calls)
                break
    seconds = {method: [] for method in chosen}
    for _ in range(REPEATS):
        for method, (options, _, _) in chosen.items():
            start = time.process_time()
            strip(scene, options)
            seconds[method].append(time.process_time() - start)
    for method, (options, error, calls) in chosen.items():
        print(f"| one strip | {BOUND:.0e} | scipy solve_ivp {method}, full system, Python right side | "
              f"{options['rtol']:.0e} | {error:.1e} | {calls} | {1e3 * statistics.median(seconds[method]):.0f} | |")


if __name__ == "__main__":
    main()
