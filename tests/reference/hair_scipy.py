# SPDX-License-Identifier: GPL-3.0-or-later
"""Hair beside the colour, for compare_scipy.py: what was read of each zone, and what was paid at the same colour left, made
anew from the rows of the exported CSV. A word counts by its place; zones, shares and rules are those of docs/science.md."""
import collections

import numpy as np

STRETCH = ["springs back", "slow", "stays long", "breaks"]
FEEL = ["as untreated", "slightly dry", "rough", "slippery-soft", "gummy"]
LEAST = {"level": 0.5, "levels_lifted": 0.5, "lightness": 1.0, "moved": 1.0, "from_undyed": 1.0, "stretch": 0.5, "feel": 0.5}
MEETINGS = [0.1, 0.25, 0.5, 0.8]


class Looks:
    """Means of the looks at a zone of a swatch at a minute ("": the end), at once."""

    def __init__(self, rows, shares):
        kept = collections.defaultdict(lambda: collections.defaultdict(list))
        self.arm = {}
        for row in rows:
            if row["hours_after"]:
                continue
            self.arm[row["swatch"]] = row["arm"].lstrip("'")
            at = kept[row["swatch"], row["zone"], row["minute"]]
            for key, value in (("grade", shares.get(row["grade"])), ("level", row["level"]), ("L", row["L"]), ("a", row["a"]), ("b", row["b"]),
                               ("stretch", STRETCH.index(row["stretch"]) if row["stretch"] else ""),
                               ("feel", FEEL.index(row["feel"]) if row["feel"] else "")):
                if value not in ("", None):
                    at[key].append(float(value))
        self.kept = {key: {what: np.mean(all_of) for what, all_of in at.items()} for key, at in kept.items()}

    def lab(self, *key):
        at = self.kept.get(key, {})
        return np.array([at[c] for c in "Lab"]) if "L" in at else None

    def of(self, word, swatch, zone, minute, bare):
        at = self.kept.get((swatch, zone, minute), {})
        if word in ("level", "stretch", "feel"):
            return at.get(word)
        if word == "lightness":
            return at.get("L")
        if word == "levels_lifted":
            start = self.kept.get((swatch, zone, "0"), {})
            return at["level"] - start["level"] if "level" in at and "level" in start else None
        one = self.lab(swatch, zone, minute)
        other = self.lab(swatch, zone, "0") if word == "moved" else self.lab(swatch, bare, minute)
        return None if one is None or other is None else float(np.linalg.norm(one - other))


def read(looks, zones, block_of, zone_class):
    """zones: name to (dyed, which undyed zone goes with it); graded alone. Words to their strips and rounds, by zone and measure."""
    found = []
    for zone, (dyed, bare) in zones.items():
        for words in (["level", "levels_lifted"], ["lightness", "moved"], ["from_undyed"], ["stretch"], ["feel"]):
            if (words[0] == "lightness" and dyed) or (words[0] == "from_undyed" and not dyed):
                continue
            cells = {}
            for word in words:
                values = {code: looks.of(word, code, zone, "", bare) for code in looks.arm}
                cells[word] = [(arm, block_of[code], values[code]) for code, arm in looks.arm.items() if values[code] is not None]
            whole = [word for word in words if len(cells[word]) == len(cells[words[0]])]
            if cells[words[0]]:
                found.append(Hair(zone, whole[-1], cells[whole[-1]], zone_class))
    return found


class Hair:
    def __init__(self, zone, word, cells, zone_class):
        self.zone, self.word, self.cells = zone, word, cells
        self.of = zone_class(cells, 0.0)
        self.of.least = dict.fromkeys(self.of.arms, LEAST[word])
        self.of.calm_sd, self.of.calm_freedom = self.of.sd, self.of.freedom

    def never_worse(self, less, more):
        """Whether the shares of swatches up to each word are at least as large."""
        up_to = [[np.mean([np.ceil(v - 1e-9) <= word for arm, _, v in self.cells if arm == of]) for word in range(5)] for of in (less, more)]
        return np.all(np.array(up_to[0]) >= np.array(up_to[1]) - 1e-9)


def at_left(points, left, apart, from_start):
    """By the nearest looks on both sides, on the logarithm; and the slope there."""
    x, y = np.array([p[0] for p in points]), np.array([p[1] for p in points])
    if not np.any(x <= left):
        return None
    low = x[x <= left].max()
    low_y = y[x == low].mean()
    if np.any(x >= left) and x[x >= left].min() > low:
        high = x[x >= left].min()
        high_y = y[x == high].mean()
        logs = np.log(np.maximum([low, high], 0.05))
        return np.interp(np.log(left), logs, [low_y, high_y]), (high_y - low_y) / (logs[1] - logs[0])
    if left - low > apart + 1e-9:
        return None
    return low_y, low_y / np.log(max(low, 0.05)) if from_start else 0.0


class Paid:
    """Of one dyed zone, and what its undyed zone was read for."""

    def __init__(self, looks, zone, hair, block_of, zone_class, least_sd):
        self.zone, self.hair, self.left = zone, hair, None
        least, reached = collections.defaultdict(list), {left: [] for left in MEETINGS}
        slopes = collections.defaultdict(list)
        for code, arm in looks.arm.items():
            points = []
            for (swatch, at, minute), seen in looks.kept.items():
                if swatch == code and at == zone and "grade" in seen and (minute == "" or float(minute) >= 0.5):
                    value = looks.of(hair.word, code, hair.zone, minute, None)
                    points += [] if value is None else [(seen["grade"], value)]
            if not points:
                continue
            least[arm].append(min(x for x, _ in points))
            for left in MEETINGS:
                found = at_left(points, left, least_sd(left), hair.word not in ("level", "lightness"))
                if found:
                    reached[left].append((arm, block_of[code], found[0]))
                    slopes[left, arm].append(0.25 * abs(found[1]) * least_sd(left) / left)
        most = 1
        for left in MEETINGS:
            strips = len({arm for arm, _, _ in reached[left]})
            if most >= 2 and 2 * most >= len(least):
                break
            if strips > most:
                most, self.left = strips, left
        if self.left is None:
            return
        self.of = zone_class(reached[self.left], 0.0)
        self.lean = {arm: np.mean(slopes[self.left, arm]) for arm in self.of.arms}
        self.own = {arm: np.mean(least[arm]) for arm in self.of.arms}
        self.of.least = dict.fromkeys(self.of.arms, LEAST[hair.word])
        self.of.calm_sd, self.of.calm_freedom = self.of.sd, self.of.freedom
