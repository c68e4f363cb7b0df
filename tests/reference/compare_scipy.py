#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`slowlift compare` beside the same sums made with numpy and scipy from the CSV that the log exports: means over
swatches in blocks by least squares (numpy.linalg.lstsq on dummies), Student's t (scipy.stats.t) with pooled scatter, Holm's steps
over all colours, places, repeats, weighted kappa (Cohen 1968, from the table of pairs). Rates of a
time ladder beside scipy.stats.linregress; and places at one of its minutes.

    compare_scipy.py SLOWLIFT LADDER.db
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

import hair_scipy

SLOWLIFT = sys.argv[1]
SHARE = {"no change": 1.0, "slight": 0.8, "about half": 0.5, "mostly gone": 0.25, "ghost only": 0.1, "as undyed": 0.0}
WORDS = list(SHARE)


def run(*words):
    return subprocess.run([SLOWLIFT, *words], capture_output=True, text=True, check=True).stdout


STEP = {0.0: 0.1, 0.1: 0.125, 0.25: 0.2, 0.5: 0.275, 0.8: 0.25, 1.0: 0.2}  # mean of the steps beside a grade


def least_sd(left, repeat_sd):
    return max(np.interp(left, list(STEP), list(STEP.values())) / 2, repeat_sd)


def mean_grade(left):
    """Of a judge who reads the square root of what is left to 0.10, and in 2 of 100 marks any line of the form."""
    roots = np.sqrt(list(SHARE.values()))
    edges = np.concatenate([[np.inf], (roots[1:] + roots[:-1]) / 2, [-np.inf]])
    below = stats.norm.cdf((edges - np.sqrt(left)) / 0.1)
    return float((0.98 * (below[:-1] - below[1:]) + 0.02 / 6) @ np.array(list(SHARE.values())))


def lean(mean):
    low, high = mean_grade(0.0), mean_grade(1.0)
    at = 0.0 if mean <= low else 1.0 if mean >= high else optimize.brentq(lambda left: mean_grade(left) - mean, 0.0, 1.0)
    return abs(mean - at)


class Zone:
    """Strips and blocks by least squares: columns for each strip, and for each block but the last, which is minus their sum."""

    def __init__(self, cells, repeat_sd):
        self.arms = sorted({arm for arm, _, _ in cells})
        self.fit(cells)
        if self.freedom <= 0 or not self.joined: # all swatches count as one round
            self.fit([(arm, 0, value) for arm, _, value in cells])
        self.least = {arm: least_sd(self.mean[arm], repeat_sd) for arm in self.arms}

    def fit(self, cells):
        blocks = sorted({block for _, block, _ in cells})
        design = np.zeros((len(cells), len(self.arms) + len(blocks) - 1))
        y = np.array([value for _, _, value in cells])
        one = np.zeros((len(cells), len(self.arms)))
        for row, (arm, block, _) in enumerate(cells):
            one[row, self.arms.index(arm)] = design[row, self.arms.index(arm)] = 1
            if block == blocks[-1]:
                design[row, len(self.arms):] = -1
            else:
                design[row, len(self.arms) + blocks.index(block)] = 1
        found = np.linalg.lstsq(design, y, rcond=None)[0]
        self.within = float(((y - design @ found) ** 2).sum())
        rank = np.linalg.matrix_rank(design)
        self.freedom, self.joined = len(cells) - rank, rank == design.shape[1]
        self.mean = dict(zip(self.arms, found))
        part = np.linalg.pinv(design.T @ design)[: len(self.arms), : len(self.arms)]
        self.part = {(a, b): part[i, k] for i, a in enumerate(self.arms) for k, b in enumerate(self.arms)}
        alone = float(((y - one @ np.linalg.lstsq(one, y, rcond=None)[0]) ** 2).sum())
        apart = alone - self.within
        if self.freedom > 0:
            self.alone_sd = np.sqrt(alone / (len(cells) - len(self.arms)))
            parts = self.within**2 / self.freedom + (apart**2 / (len(blocks) - 1) if len(blocks) > 1 else 0)
            self.alone_freedom = alone**2 / parts if parts > 1e-20 else len(cells) - len(self.arms)
            self.sd = np.sqrt(self.within / self.freedom)

    def half_of_numbers(self, arm):
        return stats.t.ppf(0.975, self.alone_freedom) * max(self.alone_sd, self.least[arm]) * np.sqrt(self.part[arm, arm])

    def half(self, arm):
        return self.half_of_numbers(arm) + lean(self.mean[arm])

    def error(self, a, b):
        return max(self.calm_sd, self.least[a], self.least[b]) * np.sqrt(self.part[a, a] + self.part[b, b] - 2 * self.part[a, b])


def calm(zones):
    """Smyth's moderated variances: the usual one and its freedom from the logarithms of all."""
    variance = np.array([max(zone.sd, min(zone.least.values())) ** 2 for zone in zones])
    half = np.array([zone.freedom for zone in zones]) / 2
    e = np.log(variance) - special.psi(half) + np.log(half)
    beyond = e.var(ddof=1) - special.polygamma(1, half).mean()
    shared = min(2 * optimize.brentq(lambda x: special.polygamma(1, x) - beyond, 1e-6, 1e9), 1e4) if beyond > 0 else 1e4
    usual = np.exp(e.mean() + special.psi(shared / 2) - np.log(shared / 2))
    for zone, own in zip(zones, variance):
        zone.calm_sd = np.sqrt((shared * usual + zone.freedom * own) / (shared + zone.freedom))
        zone.calm_freedom = min(shared + zone.freedom, (zone.freedom + sum(z.freedom for z in zones)) / 2)


def before(zones, hair=(), paid=()):
    """Holm over all pairs of all zones, all that was read of hair, and the pair of each that was paid: (which, less, more) of
    those that are told."""
    calm(zones)
    asked = []
    for at, zone in enumerate([*zones, *(one.of for one in hair)]):
        for a, b in itertools.combinations(zone.arms, 2):
            less, more = sorted((a, b), key=zone.mean.get)
            odds = 2 * stats.t.sf((zone.mean[more] - zone.mean[less]) / zone.error(a, b), zone.calm_freedom) if zone.freedom > 0 else 1.0
            asked.append((odds, at, less, more))
    for at, (one, fast, slow) in enumerate(paid):
        off = max(abs(one.of.mean[fast] - one.of.mean[slow]) - one.lean[fast] - one.lean[slow], 0)
        odds = 2 * stats.t.sf(off / one.of.error(fast, slow), one.of.calm_freedom) if one.of.freedom > 0 and off > 0 else 1.0
        asked.append((odds, len(zones) + len(hair) + at, *sorted((fast, slow), key=one.of.mean.get)))
    beside = sum(at >= len(zones) for _, at, _, _ in asked)  # of hair: together a fifth of the doubt, none more than a colour
    weight = min(0.25 * (len(asked) - beside) / beside, 1.0) if 0 < beside < len(asked) else 1.0
    weighed = sorted((odds / (weight if at >= len(zones) else 1.0), at, less, more) for odds, at, less, more in asked)
    told, rest = set(), sum(weight if at >= len(zones) else 1.0 for _, at, _, _ in asked)
    for odds, at, less, more in weighed:
        if odds * rest >= 0.05:
            break
        told.add((at, less, more))
        rest -= weight if at >= len(zones) else 1.0
    return told


def places(zone, told):
    order, turn = sorted(zone.arms, key=zone.mean.get), {}
    for arm in order:
        turn[arm] = 1 + max((turn[less] for less in turn if (less, arm) in told), default=0)
    turn = {arm: min(turn[more] for more in order[i:]) for i, arm in enumerate(order)}
    return {arm: 1 + sum(t < turn[arm] for t in turn.values()) for arm in order}


def half_width(values):
    return stats.t.ppf(0.975, len(values) - 1) * np.std(values, ddof=1) / np.sqrt(len(values))


def kappa(pairs):
    table = np.zeros((6, 6))
    for one, two in pairs:
        table[WORDS.index(one), WORDS.index(two)] += 1
    apart = np.abs(np.subtract.outer(np.arange(6), np.arange(6)))
    chance = np.outer(table.sum(1), table.sum(0)) / table.sum()
    return 1 - (apart * table).sum() / (apart * chance).sum()


def instrument(log, csv_path):
    """Made-up numbers of an instrument beside the words: undyed hair before contact, under the mix and at the end, and red at the end."""
    random = np.random.default_rng(5)
    swatches = sqlite3.connect(log).execute("SELECT code, arm FROM swatch").fetchall()
    with open(csv_path, "w") as out:
        out.write("swatch,zone,minute,judge,L,a,b,illuminant,observer\n")
        for code, arm in swatches:
            speed = {"untreated": 0, "lightener + 6 %": 6, "powder + 6 %": 4}.get(arm, 1)
            for minute, share in (("0", 0), ("10", 0.3), ("20", 0.6), ("", 1)):
                lab = np.array([80, 2, 30]) + speed * share * np.array([1, -0.2, -1.5]) + random.normal(0, 0.7, 3)
                out.write(f"{code},undyed,{minute},inst,{','.join(f'{x:.2f}' for x in lab)},D65,10\n")
            if "undyed" not in arm:
                lab = np.array([70 + speed, 20 - 2 * speed, 25]) + random.normal(0, 1, 3)
                out.write(f"{code},red,,inst,{','.join(f'{x:.2f}' for x in lab)},D65,10\n")
    run("log", "import", log, csv_path)


def near(written, made):
    """To the nine digits that are written."""
    return abs(written - made) < 1e-8 * max(1, abs(made))


def hair(found, flat, looks, zones, block_of, told, dyed, all_of, paid):
    """What is told of hair beside what was made anew."""
    halves = 0
    assert [(one["zone"], one["measure"]) for one in found["hair"]] == [(one.zone, one.word) for one in all_of]
    for at, (one, made) in enumerate(zip(found["hair"], all_of)):
        assert one["scatter_freedom"] == made.of.freedom and near(one["scatter_sd"], made.of.sd)
        assert one["least_scatter"] == hair_scipy.LEAST[made.word]
        mine = {(less, more) for i, less, more in told if i == len(dyed) + at}
        mine = {pair for pair in mine if made.word not in ("stretch", "feel") or made.never_worse(*pair)}
        assert {(pair["arm"], pair["before"]) for pair in one["told_apart"]} == mine, (one["measure"], mine)
        for arm in one["arms"]:
            name = arm["arm"]
            assert near(arm["mean"], made.of.mean[name]) and arm["swatches"] == sum(cell[0] == name for cell in made.cells)
            rows = {row["quantity"]: float(row["value"]) for row in flat if (row["zone"], row["arm"]) == (made.zone, name)}
            assert near(rows["hair_" + made.word], arm["mean"])
            if made.word in ("stretch", "feel"):
                assert arm["half_width"] is None and sum(word["swatches"] for word in arm["words"]) == arm["swatches"]
                named = {f"hair_{made.word}_{word['word'].replace(' ', '_').replace('-', '_')}": word["swatches"] for word in arm["words"]}
                assert all(rows[name] == many for name, many in named.items())
                assert sum(rows.get(name, 0) for name in rows if name.startswith(f"hair_{made.word}_") and not name.endswith("swatches")) == arm["swatches"]
            else:
                halves += 1
                assert near(arm["half_width"], made.of.half_of_numbers(name)), (made.word, arm)
    apart = 0
    assert [(one["zone"], one["measure"]) for one in found["same_colour_left"]] == [(one.zone, one.hair.word) for one, _, _ in paid]
    for at, (one, (made, fast, slow)) in enumerate(zip(found["same_colour_left"], paid)):
        assert one["colour_left"] == made.left and (one["fastest"], one["slowest"]) == (fast, slow), (one, made.left, fast, slow)
        mine = [more for i, _, more in told if i == len(dyed) + len(all_of) + at]
        assert [one["told_to_have_paid_more"]] == (mine or [None]), one
        for arm in one["arms"]:
            name = arm["arm"]
            assert near(arm["mean"], made.of.mean[name]), (one["zone"], one["measure"], arm, made.of.mean)
            assert near(arm["less_than_fastest"], made.of.mean[fast] - made.of.mean[name])
            if name != fast and made.of.freedom > 0:
                half = stats.t.ppf(0.975, made.of.calm_freedom) * made.of.error(fast, name) + made.lean[fast] + made.lean[name]
                assert near(arm["less_half_width"], half), (one["zone"], one["measure"], arm, half)
                apart += 1
    return halves, apart


def check(log):
    found = json.loads(run("compare", log, "--json"))
    flat = list(csv.DictReader(io.StringIO(run("compare", log, "--csv"))))
    rows = list(csv.DictReader(io.StringIO(run("log", "export", log))))
    kept = sqlite3.connect(log)
    block_of = dict(kept.execute("SELECT code, block FROM swatch"))
    zones_of = [name for (name,) in kept.execute("SELECT name FROM zone ORDER BY place")]
    order = [arm["arm"] for arm in found["hair"][0]["arms"]]

    ends = collections.defaultdict(lambda: collections.defaultdict(list))
    later = collections.defaultdict(lambda: collections.defaultdict(list))
    moments = collections.defaultdict(list)
    for row in rows:
        moments[row["swatch"], row["zone"], row["minute"], row["hours_after"]].append(row)
        key = row["zone"], row["arm"].lstrip("'")
        if not row["minute"] and row["grade"]:
            (later if row["hours_after"] else ends)[key][row["swatch"]].append(SHARE[row["grade"]])

    pairs, squares, freedom = [], 0.0, 0
    for looks in moments.values():
        first = {}
        by_judge = collections.defaultdict(list)
        for row in looks:
            if not row["grade"]:
                continue
            first.setdefault(row["judge"], row["grade"])
            by_judge[row["judge"]].append(SHARE[row["grade"]])
        pairs += [(first[a], first[b]) for a, b in itertools.combinations(sorted(first), 2)]
        for shares in by_judge.values():
            squares += float(np.sum((np.array(shares) - np.mean(shares)) ** 2))
            freedom += len(shares) - 1
    assert len(pairs) == found["judges"]["pairs"] and freedom >= 5
    assert sum(a == b for a, b in pairs) == found["judges"]["equal"]
    assert abs(kappa(pairs) - found["judges"]["weighted_kappa"]) < 1e-8
    repeat_sd = np.sqrt(squares / freedom)

    by_zone = {}
    for (zone, arm), swatches in ends.items():
        by_zone.setdefault(zone, []).extend((arm, block_of[code], np.mean(looks)) for code, looks in swatches.items())
    dyed = [Zone(by_zone[zone["zone"]], repeat_sd) for zone in found["zones"]]
    of_natural = ("root", "natural")  # hair of level 5; all other zones are lightened
    bare = {zone: (zone not in ("undyed", "natural"), "natural" if zone in of_natural else "undyed") for zone in zones_of}
    looks = hair_scipy.Looks(rows, SHARE)
    all_of = hair_scipy.read(looks, bare, block_of, Zone)
    paid = [hair_scipy.Paid(looks, zone, one, block_of, Zone, lambda left: least_sd(left, repeat_sd))
            for zone in zones_of if bare[zone][0] for one in all_of if one.zone == bare[zone][1]]
    paid = [(one, min(one.of.arms, key=lambda arm: (one.own[arm], order.index(arm))), max(one.of.arms, key=lambda arm: (one.own[arm], order.index(arm))))
            for one in paid]
    told = before(dyed, all_of, paid)

    arms = 0
    for at, zone in enumerate(found["zones"]):
        of = dyed[at]
        place = places(of, {(less, more) for i, less, more in told if i == at})
        assert abs(zone["least_scatter_at_nothing_left"] - least_sd(0.0, repeat_sd)) < 1e-8
        assert zone["scatter_freedom"] == of.freedom and abs(zone["scatter_sd"] - of.sd) < 1e-8
        apart = {(pair["arm"], pair["before"]) for pair in zone["told_apart"]}
        assert apart == {(less, more) for i, less, more in told if i == at}, (zone["zone"], apart ^ {(l, m) for i, l, m in told if i == at})
        for arm in zone["arms"]:
            key = zone["zone"], arm["arm"]
            seen = arm["left_by_grade"]
            assert seen["swatches"] == len(ends[key]) == 3, key
            assert abs(seen["mean"] - of.mean[arm["arm"]]) < 1e-8, key
            assert abs(seen["half_width"] - of.half(arm["arm"])) < 1e-7, (key, seen, of.half(arm["arm"]))
            change = [np.mean(later[key][code]) - np.mean(looks) for code, looks in ends[key].items()]
            assert abs(arm["change_after_hours"]["mean"] - np.mean(change)) < 1e-8, key
            assert arm["place"] == place[arm["arm"]], (key, arm["place"], place)
            row = [r for r in flat if (r["zone"], r["arm"], r["quantity"]) == (*key, "place")]
            assert len(row) == 1 and int(row[0]["value"]) == arm["place"]
            arms += 1
    assert arms == 49, arms
    off = [thing for thing in found["otherwise_than_planned"] if thing["what"] == "late"]
    assert len(off) == 1 and abs(off[0]["seconds"] - 240) < 1e-6 and off[0]["planned_over_had"] > 1
    return arms, len(found["zones"]), len(pairs), freedom, *hair(found, flat, looks, bare, block_of, told, dyed, all_of, paid)


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
        assert abs(seen["sd"] - np.std(values, ddof=1)) < 1e-8 and arm["place_at_planned"] == arm["place"]
    assert [arm["place"] for arm in zone["arms"]] == [1, 1]
    return len(found["rates"])


rates = ladder(sys.argv[2])
with tempfile.TemporaryDirectory() as folder:
    log = os.path.join(folder, "example.db")
    run("compare", "--example", log)
    again = subprocess.run([SLOWLIFT, "compare", "--example", log], capture_output=True, text=True)
    assert again.returncode == 2 and "already" in again.stderr, again.stderr
    for kind in ("by words", "by an instrument, too"):
        if kind != "by words":
            instrument(log, os.path.join(folder, "instrument.csv"))
        arms, zones, pairs, freedom, halves, apart = check(log)
        print(f"{arms} arms in {zones} zones, {pairs} pairs of judges, {freedom} looks again; hair {kind}: {halves} intervals, "
              f"{apart} differences at the same colour left: all agree")
print(f"{rates} rates: all agree")
