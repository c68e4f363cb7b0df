# SPDX-License-Identifier: GPL-3.0-or-later
"""Half widths and intervals of odds against scipy.stats.

    odds_scipy.py ODDS_NUMBERS

Student's t through scipy's t.cdf, the difference turned into one of t by its density: t.ppf of scipy
1.10 is itself off by 4.6e-9 at n = 31, p = 0.9 (30 digits of mpmath, t = 1.69726088659395785, side with
ours). binomtest(...).proportion_ci(method="exact") and beta.ppf for Clopper and Pearson's interval.
Both sides are special functions in double precision, so 1e-9 leaves them three digits of rounding
where a distribution is narrow.
"""
import subprocess
import sys

from scipy import stats

NEAR = 1e-9


def wanted_odds(hits, n, p):
    if n <= 25:
        found = stats.binomtest(hits, n).proportion_ci(p, method="exact")
        return found.low, found.high
    tail = (1 - p) / 2
    return (stats.beta.ppf(tail, hits, n - hits + 1) if hits else 0.0,
            stats.beta.ppf(1 - tail, hits + 1, n - hits) if hits < n else 1.0)


def main():
    lines = subprocess.run([sys.argv[1]], check=True, capture_output=True, text=True).stdout.splitlines()
    worst = {"mean": (0.0, ""), "odds": (0.0, "")}
    count = {"mean": 0, "odds": 0}
    for line in lines:
        kind, *words = line.split()
        count[kind] += 1
        if kind == "mean":
            n, p, half = int(words[0]), float(words[1]), float(words[2])
            t = half * n ** 0.5
            error = abs(stats.t.cdf(t, n - 1) - (0.5 + p / 2)) / stats.t.pdf(t, n - 1) / t
        else:
            hits, n, p, low, high = int(words[0]), int(words[1]), *map(float, words[2:])
            wanted = wanted_odds(hits, n, p)
            error = max(abs(low - wanted[0]), abs(high - wanted[1]))
        if not error <= worst[kind][0]:
            worst[kind] = (error, line)
    for kind, (error, line) in worst.items():
        print(f"{kind}: {count[kind]} figures, at most {error:.1e} apart ({line})")
    return 0 if all(error < NEAR for error, _ in worst.values()) and min(count.values()) > 700 else 1


if __name__ == "__main__":
    sys.exit(main())
