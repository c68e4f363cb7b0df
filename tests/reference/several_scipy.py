#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`slowlift compare` of several tests beside the same made with numpy and scipy from the CSV that the log exports: each test by least
squares (numpy.linalg.lstsq on dummies), all tests of a lot by the marginal likelihood of their stacked means over a grid that is finer and
spaced otherwise than the program's, intervals by scipy.stats.t at each point, Holm's steps over all colours.

    several_scipy.py SLOWLIFT
"""
import collections
import csv
import io
import itertools
import json
import os
import sqlite3
import subprocess
import sys
import tempfile

import numpy as np
from scipy import optimize, special, stats

SLOWLIFT = sys.argv[1]
SHARE = {"no change": 1.0, "slight": 0.8, "about half": 0.5, "mostly gone": 0.25, "ghost only": 0.1, "as undyed": 0.0}
STEP = {0.0: 0.1, 0.1: 0.125, 0.25: 0.2, 0.5: 0.275, 0.8: 0.25, 1.0: 0.2}  # mean of the steps beside a grade
GRID = 60


def run(*words):
    return subprocess.run([SLOWLIFT, *words], capture_output=True, text=True, check=True).stdout


def lean(mean):
    roots = np.sqrt(list(SHARE.values()))
    edges = np.concatenate([[np.inf], (roots[1:] + roots[:-1]) / 2, [-np.inf]])

    def grade(left):
        below = stats.norm.cdf((edges - np.sqrt(left)) / 0.1)
        return float((0.98 * (below[:-1] - below[1:]) + 0.02 / 6) @ np.array(list(SHARE.values())))
    at = 0.0 if mean <= grade(0.0) else 1.0 if mean >= grade(1.0) else optimize.brentq(lambda left: grade(left) - mean, 0.0, 1.0)
    return abs(mean - at)


class Test:
    """Strips and rounds of one test and colour: complete, so that a strip's mean is that of its swatches."""

    def __init__(self, cells):
        self.arms = sorted({arm for arm, _, _ in cells})
        blocks = sorted({block for _, block, _ in cells})
        y = np.array([value for _, _, value in cells])
        design = np.array([[arm == a for a in self.arms] + [block == b for b in blocks[1:]] for arm, block, _ in cells], float)
        rest = y - design @ np.linalg.lstsq(design, y, rcond=None)[0]
        self.mean = np.array([np.mean([v for a, _, v in cells if a == arm]) for arm in self.arms])
        self.n = len(blocks)
        self.freedom = len(cells) - np.linalg.matrix_rank(design)
        self.sd = np.sqrt(rest @ rest / self.freedom)
        self.least = np.interp(self.mean, list(STEP), list(STEP.values())) / 2

    def covariance(self):
        return np.diag(np.maximum(self.calm_sd, self.least) ** 2 / self.n)


def calm(tests):
    variance = np.array([max(test.sd, test.least.min()) ** 2 for test in tests])
    half = np.array([test.freedom for test in tests]) / 2
    e = np.log(variance) - special.psi(half) + np.log(half)
    beyond = e.var(ddof=1) - special.polygamma(1, half).mean()
    shared = min(2 * optimize.brentq(lambda x: special.polygamma(1, x) - beyond, 1e-6, 1e9), 1e4) if beyond > 0 else 1e4
    usual = np.exp(e.mean() + special.psi(shared / 2) - np.log(shared / 2))
    for test, own in zip(tests, variance):
        test.calm_sd = np.sqrt((shared * usual + test.freedom * own) / (shared + test.freedom))
        test.calm_freedom = min(shared + test.freedom, sum(t.freedom for t in tests))


class Pool:
    def __init__(self, tests):
        n = len(tests[0].arms)
        covariances = [test.covariance() for test in tests]
        self.scatter = np.mean([np.diag(c) for c in covariances])
        self.freedom = np.mean([test.calm_freedom for test in tests])
        # spaced evenly in the logarithm, from a thousandth of what scatters to all of the colour
        sds = np.exp(np.linspace(np.log(1e-3 * np.sqrt(self.scatter)), np.log(2.0), GRID))
        self.points, logs = [], []
        for own, common in itertools.product(sds, sds):
            a, r, log = np.zeros((n, n)), np.zeros(n), 0.0
            for test, covariance in zip(tests, covariances):
                v = covariance + own**2 * np.eye(n) + common**2
                inverse = np.linalg.inv(v)
                a += inverse
                r += inverse @ test.mean
                log -= (np.linalg.slogdet(v)[1] + test.mean @ inverse @ test.mean) / 2
            mean, cov = np.linalg.solve(a, r), np.linalg.inv(a)
            log += (r @ mean - np.linalg.slogdet(a)[1]) / 2
            log += np.log(own / (own**2 + self.scatter)) + np.log(common / (common**2 + (self.scatter + own**2) / n))
            self.points.append((own, common, mean, cov))
            logs.append(log + np.log(own) + np.log(common))  # even steps of the logarithm
        weight = np.exp(np.array(logs) - max(logs))
        self.weight = weight / weight.sum()
        self.mean = sum(w * p[2] for w, p in zip(self.weight, self.points))
        self.own, self.common = (np.array([p[i] for p in self.points]) for i in range(2))

    def freedoms(self, between):
        return self.freedom * ((self.scatter + between) / self.scatter) ** 2

    def half(self, i):
        mean, se = (np.array([f(p) for p in self.points]) for f in (lambda p: p[2][i] - self.mean[i], lambda p: np.sqrt(p[3][i, i])))
        nu = self.freedoms(self.own**2 + self.common**2)
        return optimize.brentq(lambda h: self.weight @ (stats.t.sf((h - mean) / se, nu) + stats.t.sf((h + mean) / se, nu)) - 0.05, 1e-6, 3)

    def odds(self, less, more):
        apart, se = (np.array([f(p) for p in self.points]) for f in (lambda p: p[2][more] - p[2][less],
                     lambda p: np.sqrt(p[3][less, less] + p[3][more, more] - 2 * p[3][less, more])))
        return min(2 * self.weight @ stats.t.sf(apart / se, self.freedoms(self.own**2)), 1.0)

    def quantile(self, sd, q):
        at = np.unique(sd)
        weight = np.array([self.weight[sd == value].sum() for value in at])
        return float(np.exp(np.interp(q, np.cumsum(weight) - weight / 2, np.log(at))))


with tempfile.TemporaryDirectory() as folder:
    school = os.path.join(folder, "school")
    found = json.loads(run("compare", "--example-school", school, "--json"))["groups"]
    log = os.path.join(school, "after.db")
    rows = list(csv.DictReader(io.StringIO(run("log", "export", log))))
    block_of = {(test, code): block for test, code, block in sqlite3.connect(log).execute("SELECT test, code, block FROM swatch")}

looks = collections.defaultdict(list)
for row in rows:
    looks[row["test"], row["zone"], row["arm"].lstrip("'"), row["swatch"]].append(SHARE[row["grade"]])
cells = collections.defaultdict(list)
for (test, zone, arm, code), shares in looks.items():
    cells[test, zone].append((arm, block_of[test, code], np.mean(shares)))

strips = pairs = 0
for group in found:
    ids = [test["test"] for test in group["tests"]]
    assert len(ids) == 6 and group["assumed_sd"] is None
    tests = {zone["zone"]: [Test(cells[test, zone["zone"]]) for test in ids] for zone in group["zones"]}
    calm([test for of in tests.values() for test in of])
    pools = {zone: Pool(of) for zone, of in tests.items()}
    asked = []
    for zone in group["zones"]:
        pool, arms = pools[zone["zone"]], tests[zone["zone"]][0].arms
        for name, sd in (("own_sd", pool.own), ("common_sd", pool.common)):
            assert abs(zone[name]["middle"] - pool.quantile(sd, 0.5)) < 0.002, (zone["zone"], name, zone[name], pool.quantile(sd, 0.5))
            assert abs(zone[name]["high"] - pool.quantile(sd, 0.975)) < 0.01, (zone["zone"], name, zone[name], pool.quantile(sd, 0.975))
        for arm in zone["arms"]:
            i = arms.index(arm["arm"])
            half = pool.half(i) + lean(pool.mean[i])
            assert arm["tests"] == 6 and arm["swatches"] == 18
            assert abs(arm["left"] - pool.mean[i]) < 2e-4, (zone["zone"], arm, pool.mean[i])
            assert abs(arm["half_width"] - half) < 0.02 * half, (zone["zone"], arm, half)
            strips += 1
        for one, other in itertools.combinations(range(len(arms)), 2):
            less, more = sorted((one, other), key=lambda i: pool.mean[i])
            asked.append((pool.odds(less, more), zone["zone"], arms[less], arms[more]))
    told, near, open_ = set(), set(), True
    for step, (odds, *pair) in enumerate(sorted(asked)):
        together = odds * (len(asked) - step)
        open_ = open_ and together < 0.05
        if open_:
            told.add(tuple(pair))
        if 0.045 < together < 0.055:  # where the grids' last digits decide
            near.add(tuple(pair))
    said = {(zone["zone"], pair["arm"], pair["before"]) for zone in group["zones"] for pair in zone["told_apart"]}
    assert not (said ^ told) - near, (said ^ told) - near
    pairs += len(told)
assert strips == 98, strips
print(f"{len(found)} groups, {strips} strips, {pairs} before another: all agree")
