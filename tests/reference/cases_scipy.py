#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Four toy cases (verdict_cases.c) by integrals instead of draws: scipy.stats and scipy.integrate.

Goal t = ln(1/0.1)/k, limit min(-ln(1 - 0.2)/b, label); k and b log-normal, coefficient of
variation 0.3, means ln 2 over the half-lives. Tolerances: 200,000 members scatter by
sqrt(p(1-p)/n) <= 0.0011 in the odds, four of which are allowed; a quantile by less than 0.6 %,
and its bin is one second.

Each case again ("-seen") after "about half" was said at six minutes, by Bayes: the density of the goal's
time, times the judge's chance of the grade. Weights leave 58 to 92 of 100 members (sum^2 over sum of squares), so
the same tolerances are taken sqrt(1/0.58) = 1.32 times as wide.

usage: cases_scipy.py PROGRAM
"""
import math
import subprocess
import sys

from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.stats import lognorm, norm

SIGMA = math.sqrt(math.log(1 + 0.3 ** 2))
#        dye half-life, base half-life, label, verdict by the rule, checks
CASES = {"easy": (4, 90, 30, "open", [9, 12, 14, 17, 20]),
         "slow": (9, 90, 30, "doubtful", None),
         "fast": (3, 25, 45, "doubtful", None),
         "stubborn": (20, 90, 30, "none", [])}


def expected(dye, base, label):
    # a rate's median is its mean over sqrt(1 + cv^2); that of its inverse is the other way round
    shift = math.sqrt(1 + 0.3 ** 2)
    early = lognorm(SIGMA, scale=shift * math.log(10) * dye / math.log(2))
    moved = lognorm(SIGMA, scale=-shift * math.log(0.8) * base / math.log(2))
    odds = quad(lambda t: early.pdf(t) * moved.sf(t), 0, label, epsabs=1e-10)[0]
    q = [0.1, 0.5, 0.9]
    return odds, [early.ppf(x) for x in q], [min(moved.ppf(x), label) for x in q]


def judge(left):
    """Chance of "about half": between the square roots half way to 80 % and to 25 %, with lapses."""
    upper, lower = (math.sqrt(0.8) + math.sqrt(0.5)) / 2, (math.sqrt(0.5) + math.sqrt(0.25)) / 2
    at = math.sqrt(left)
    return 0.98 * (norm.cdf((upper - at) / 0.1) - norm.cdf((lower - at) / 0.1)) + 0.02 / 6


def expected_seen(dye, base, label):
    shift = math.sqrt(1 + 0.3 ** 2)
    early = lognorm(SIGMA, scale=shift * math.log(10) * dye / math.log(2))
    moved = lognorm(SIGMA, scale=-shift * math.log(0.8) * base / math.log(2))
    low, high = early.ppf(1e-9), early.ppf(1 - 1e-9)

    def mass(t, weight=lambda _: 1.0):
        if t <= low:
            return 0.0
        return quad(lambda x: early.pdf(x) * judge(10 ** (-6 / x)) * weight(x), low, t, epsabs=1e-11, limit=200)[0]

    whole = mass(high)
    odds = mass(min(label, high), moved.sf) / whole
    return (odds, [brentq(lambda t: mass(t) / whole - x, low, high, xtol=1e-6) for x in (0.1, 0.5, 0.9)],
            [min(moved.ppf(x), label) for x in (0.1, 0.5, 0.9)])


def main():
    lines = subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True).stdout.splitlines()
    bad = 0
    seen = set()
    for line in lines:
        words = line.split()
        name = words[0]
        seen.add(name)
        numbers = [float(w) for w in words[1:8]]
        after = name.endswith("-seen")
        dye, base, label, verdict, checks = CASES[name.removesuffix("-seen")]
        odds, early, late = (expected_seen if after else expected)(dye, base, label)
        wide = 1.32 if after else 1
        good = abs(numbers[0] - odds) < wide * 4 * 0.0012 and (after or words[8] == verdict)
        for found, wanted in zip(numbers[1:], early + late):
            good = good and abs(found - wanted) < wide * 0.006 * wanted + 1 / 60
        if checks is not None and not after:
            good = good and [int(w) for w in words[9:]] == checks
        print("ok " if good else "NOT", line, "| scipy %.4f" % odds, ["%.2f" % x for x in early + late])
        bad += not good
    if seen != set(CASES) | {name + "-seen" for name in CASES}:
        print("NOT all cases were seen:", sorted(seen))
        bad += 1
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
