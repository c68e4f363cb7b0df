#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`slowlift compare` beside the same sums made with numpy and scipy from the CSV that the log exports: means over
swatches, Student's t (scipy.stats.t), places, repeats, weighted kappa (Cohen 1968, from the table of pairs). Rates of a
time ladder beside scipy.stats.linregress; and places at one of its minutes.

    compare_scipy.py SLOWLIFT LADDER.db
"""
import collections
import csv
import io
import itertools
import json
import os
import subprocess
import sys
import tempfile

import numpy as np
from scipy import stats

SLOWLIFT = sys.argv[1]
SHARE = {"no change": 1.0, "slight": 0.8, "about half": 0.5, "mostly gone": 0.25, "ghost only": 0.1, "as undyed": 0.0}
WORDS = list(SHARE)


def run(*words):
    return subprocess.run([SLOWLIFT, *words], capture_output=True, text=True, check=True).stdout


def half_width(values):
    return stats.t.ppf(0.975, len(values) - 1) * np.std(values, ddof=1) / np.sqrt(len(values))


def kappa(pairs):
    table = np.zeros((6, 6))
    for one, two in pairs:
        table[WORDS.index(one), WORDS.index(two)] += 1
    apart = np.abs(np.subtract.outer(np.arange(6), np.arange(6)))
    chance = np.outer(table.sum(1), table.sum(0)) / table.sum()
    return 1 - (apart * table).sum() / (apart * chance).sum()


with tempfile.TemporaryDirectory() as folder:
    log = os.path.join(folder, "example.db")
    run("compare", "--example", log)
    again = subprocess.run([SLOWLIFT, "compare", "--example", log], capture_output=True, text=True)
    assert again.returncode == 2 and "already" in again.stderr, again.stderr
    found = json.loads(run("compare", log, "--json"))
    flat = list(csv.DictReader(io.StringIO(run("compare", log, "--csv"))))
    rows = list(csv.DictReader(io.StringIO(run("log", "export", log))))

ends = collections.defaultdict(lambda: collections.defaultdict(list))
later = collections.defaultdict(lambda: collections.defaultdict(list))
moments = collections.defaultdict(list)
for row in rows:
    moments[row["swatch"], row["zone"], row["minute"], row["hours_after"]].append(row)
    key = row["zone"], row["arm"].lstrip("'")
    if not row["minute"]:
        (later if row["hours_after"] else ends)[key][row["swatch"]].append(SHARE[row["grade"]])

pairs, squares, freedom = [], 0.0, 0
for looks in moments.values():
    first = {}
    by_judge = collections.defaultdict(list)
    for row in looks:
        first.setdefault(row["judge"], row["grade"])
        by_judge[row["judge"]].append(SHARE[row["grade"]])
    pairs += [(first[a], first[b]) for a, b in itertools.combinations(sorted(first), 2)]
    for shares in by_judge.values():
        squares += float(np.sum((np.array(shares) - np.mean(shares)) ** 2))
        freedom += len(shares) - 1
assert len(pairs) == found["judges"]["pairs"] and freedom >= 5
assert sum(a == b for a, b in pairs) == found["judges"]["equal"]
assert abs(kappa(pairs) - found["judges"]["weighted_kappa"]) < 1e-8
floor = 2.8 * np.sqrt(squares / freedom)

arms = 0
for zone in found["zones"]:
    means = {}
    for arm in zone["arms"]:
        key = zone["zone"], arm["arm"]
        values = np.array([np.mean(looks) for looks in ends[key].values()])
        seen = arm["left_by_grade"]
        means[arm["arm"]] = values.mean(), half_width(values)
        assert seen["swatches"] == len(values) == 3, key
        assert abs(seen["mean"] - values.mean()) < 1e-8, key
        assert abs(seen["half_width"] - half_width(values)) < 1e-7, key
        change = [np.mean(later[key][code]) - np.mean(looks) for code, looks in ends[key].items()]
        assert abs(arm["change_after_hours"]["mean"] - np.mean(change)) < 1e-8, key
        arms += 1
    assert abs(zone["tie_below_at_nothing_left"] - floor) < 1e-8
    turn = {}
    for name, (mean, half) in sorted(means.items(), key=lambda item: item[1][0]):  # nobody is clearly behind one with less left
        turn[name] = 1 + max([turn[o] for o, (m, h) in means.items() if mean - m > floor and m + h < mean - half], default=0)
    for arm in zone["arms"]:
        assert arm["place"] == 1 + sum(t < turn[arm["arm"]] for t in turn.values()), (zone["zone"], arm["arm"])
        row = [r for r in flat if (r["zone"], r["arm"], r["quantity"]) == (zone["zone"], arm["arm"], "place")]
        assert len(row) == 1 and int(row[0]["value"]) == arm["place"]
assert arms == 49, arms
off = [thing for thing in found["otherwise_than_planned"] if thing["what"] == "late"]
assert len(off) == 1 and abs(off[0]["seconds"] - 240) < 1e-6 and off[0]["planned_over_had"] > 1


def ladder(log):
    """A kept log with pieces at 5, 10, 20 min and what was left rinsed at 30, three swatches of each arm."""
    found = json.loads(run("compare", log, "--json", "--at", "10min"))
    flat = list(csv.DictReader(io.StringIO(run("compare", log, "--csv", "--at", "10min"))))
    looks = collections.defaultdict(lambda: collections.defaultdict(list))
    for row in csv.DictReader(io.StringIO(run("log", "export", log))):
        minute = float(row["minute"] or 30)
        looks[row["zone"], row["arm"].lstrip("'")][row["swatch"]].append((minute, SHARE[row["grade"]]))
    assert found["at_min"] == 10 and len(found["rates"]) == len(looks) == 2
    for rate in found["rates"]:
        swatches = looks[rate["zone"], rate["arm"]]
        slopes, left_out = [], 0
        for points in swatches.values():
            t, s = np.array([point for point in points if point[1] > 0]).T
            left_out += len(points) - len(t)
            slopes.append(-stats.linregress(t, np.log(s)).slope)
        assert rate["per_min"]["swatches"] == len(slopes) == 3 and rate["left_out"] == left_out
        assert abs(rate["per_min"]["mean"] - np.mean(slopes)) < 1e-8, rate
        assert abs(rate["per_min"]["half_width"] - half_width(slopes)) < 1e-7, rate
        rows = {row["quantity"]: float(row["value"]) for row in flat if row["arm"] == rate["arm"]}
        assert abs(rows["rate_per_min"] - np.mean(slopes)) < 1e-8 and rows["at_min"] == 10
        assert 0 < rate["per_min_by_model"] == rows["rate_per_min_by_model"]
    assert sum(rate["left_out"] for rate in found["rates"]) == 1
    (zone,) = found["zones"]
    for arm in zone["arms"]:
        values = [share for points in looks[zone["zone"], arm["arm"]].values() for minute, share in points if minute == 10]
        seen = arm["left_by_grade"]
        assert seen["swatches"] == len(values) == 3 and abs(seen["mean"] - np.mean(values)) < 1e-8
        assert abs(seen["half_width"] - half_width(values)) < 1e-7 and arm["place_at_planned"] == arm["place"]
    assert [arm["place"] for arm in zone["arms"]] == [1, 2]
    return len(found["rates"])


rates = ladder(sys.argv[2])
print(f"{rates} rates, {arms} arms in {len(found['zones'])} zones, {len(pairs)} pairs of judges, {freedom} looks again: all agree")
