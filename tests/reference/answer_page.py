# SPDX-License-Identifier: GPL-3.0-or-later
"""Every figure of the answer page made anew from the members, by numpy and by the rules of docs/guide.md alone.

    answer_page.py SLOWLIFT PAGE_MEMBERS MODELS SCENE-FILE...

The program counts members in seconds (moments) and thousandths (shares); here nothing is rounded but at the end,
so that a quantile may differ by one bin, and a member whose two moments lie within a second may be counted
otherwise. Odds may then differ by 2 members, shares by a thousandth.
"""
import json
import math
import subprocess
import sys

import numpy as np

MEMBERS, SEED, DOTS = 320, 5, 20
BASE, STRESS, CHAIR, END, LABEL = range(5)
SAYS = {BASE: "base moved", STRESS: "hair stress", CHAIR: "the longest time", END: "planned"}
BIN = 0.0011  # a thousandth and its rounding
SECOND = 1 / 60 + 1 / 600
SCALE_END = 10.5
found = []


def call(words):
    return subprocess.run(words, check=True, capture_output=True, text=True).stdout


def differs(what, mine, theirs):
    found.append(f"{what}: {mine} by this script, {theirs} by the program")


def quantile(values, p):
    """The least value that at least a share p of the members do not exceed; never: inf."""
    ordered = np.sort(values)
    return ordered[max(math.ceil(p * len(ordered)) - 1, 0)]


def verdict(odds, early, late):
    apart = math.isfinite(early[1]) and early[1] < late[0]
    if odds >= 0.9 and apart:
        return "open"
    return "short" if odds >= 0.75 else "doubtful" if odds >= 0.25 else "none"


def read(tool, models, scene, minutes):
    lines = call([tool, models, scene, str(SEED), str(MEMBERS // 16), *(f"{m:g}" for m in minutes)]).splitlines()
    rows = [json.loads(line) for line in lines]
    facts, arms = rows[0], {}
    for row in rows[1:]:
        arms.setdefault(row["arm"], []).append(row)
    return facts, arms


def times(rows):
    never = lambda values: np.array([math.inf if v < 0 else v for v in values])
    return never([r["early"] for r in rows]), np.array([r["late"] for r in rows])


def rinse_by(facts, arm, rows):
    """(minute, planned, who says so), by the rule: before any limit in nine of ten, never after it is off."""
    _, late = times(rows)
    planned, says = math.floor(facts["arms"][arm]["off"]), END
    if 0 <= facts["longest"] and math.floor(facts["longest"]) < planned:
        planned, says = math.floor(facts["longest"]), CHAIR
    first = quantile(late, 0.1)
    if math.floor(first + SECOND) < planned or math.floor(first) < planned:
        by = [r["by"] for r in rows]
        return first, False, STRESS if by.count(STRESS) > by.count(BASE) else BASE
    return planned, True, says


def level(facts, zone, moved):
    start = facts["zones"][zone]["level"]
    most = max(SCALE_END - start, 0.0)
    return start + (most if moved >= 1 else min(math.log(1 - moved) / math.log(facts["level_ratio"]), most))


def check_times(facts, arm, rows, told):
    early, late = times(rows)
    odds = float(np.mean(early < late))
    if abs(odds - told["odds"]) > 2.5 / MEMBERS:
        differs(f"{told['arm']}: odds", odds, told["odds"])
    if told["dots"] not in (round(DOTS * (odds - 2.5 / MEMBERS)), round(DOTS * odds), round(DOTS * (odds + 2.5 / MEMBERS))):
        differs(f"{told['arm']}: dots", DOTS * odds, told["dots"])
    sure = {verdict(odds + e, (quantile(early, .1), quantile(early, .9) + s), (quantile(late, .1), quantile(late, .9)))
            for e in (-2.5 / MEMBERS, 0, 2.5 / MEMBERS) for s in (-SECOND, 0, SECOND)}
    if told["verdict"] not in sure:
        differs(f"{told['arm']}: verdict", sure, told["verdict"])
    minute, planned, says = rinse_by(facts, arm, rows)
    by = told["rinse_by"]
    theirs = by["planned_min"] if planned else by["model_min"]
    if theirs is None or theirs not in (math.floor(minute), math.floor(minute + SECOND)):
        differs(f"{told['arm']}: rinse by", minute, by)
    if by["says"] != SAYS[says]:
        differs(f"{told['arm']}: who says so", SAYS[says], by["says"])
    last = theirs if theirs is not None else -1
    if any(look > last for look in told["looks"]) or told["looks"] != sorted(told["looks"]):
        differs(f"{told['arm']}: looks", f"none after {last}", told["looks"])


def check_measure(rows, told):
    """Odds of the members whose draw lies in its lowest, and in its highest fifth."""
    measure = told["measure"]
    if measure["draw"] is None or measure["odds_less"] is None:
        return 0
    early, late = times(rows)
    drawn = np.array([r["u"][measure["draw"]] for r in rows])
    mine = sorted(float(np.mean((early < late)[part])) for part in (drawn < 0.2, drawn >= 0.8))
    for what, one in zip(("odds_less", "odds_more"), mine):
        near(f"{told['arm']}: {what} once measured", one, measure[what], 2.5 / (MEMBERS / 5))
    return 1


def near(what, mine, theirs, within):
    if theirs is None or abs(mine - theirs) > within:
        differs(what, mine, theirs)


def check_rinsed(facts, arm, rows, told, undyed):
    zones = np.array([r["zones"] for r in rows])  # [member][zone][left, base, stress, gone]
    _, late = times(rows)
    for colour in told["colour_left"]:
        zone = next(i for i, z in enumerate(facts["zones"]) if z["name"] == colour["zone"])
        for p in (10, 50, 90):
            near(f"{told['arm']}, {colour['zone']}: p{p}", quantile(zones[:, zone, 0], p / 100), colour[f"p{p}"], BIN)
        if colour["in_time"] is not None:
            gone = zones[:, zone, 3]
            near(f"{told['arm']}, {colour['zone']}: in time", np.mean((gone >= 0) & (gone < late)), colour["in_time"],
                 2.5 / MEMBERS)
    for p in (10, 50, 90):
        moved = quantile(zones[:, undyed, 1], p / 100)
        slack = level(facts, undyed, min(moved + BIN, 1)) - level(facts, undyed, max(moved - BIN, 0))
        near(f"{told['arm']}: level p{p}", level(facts, undyed, moved), told["base"][f"level_p{p}"], slack + 1e-9)
        near(f"{told['arm']}: stress p{p}", quantile(zones[:, undyed, 2], p / 100), told["hair_stress"][f"p{p}"], BIN)


def fives(left):
    percent = 5 * round(20 * left + 1e-9)
    return "under 5" if percent < 5 else str(percent)


def check_page(told, page):
    """The words of the page are those of its JSON, rounded by the rule."""
    for arm in told["arms"]:
        lines = [line for line in page.splitlines() if line.strip().startswith(f"{arm['strip']} ")]
        if arm["verdict"] and not any(f" {arm['dots']} " in line.replace("<", " ") for line in lines):
            differs(f"{arm['arm']}: the page's count", lines, arm["dots"])
        by = arm["rinse_by"]
        minute = by and int(by["model_min"] if by["model_min"] is not None else by["planned_min"])
        if by and not any(f" {minute} " in f"{line} " for line in lines):
            differs(f"{arm['arm']}: the page's rinse by", lines, minute)
        for colour in arm["colour_left"] or []:
            around = {fives(colour["p50"] + e) for e in (-1e-6, 0, 1e-6)}
            if not any(any(words in line for line in lines) for words in around):
                differs(f"{arm['arm']}, {colour['zone']}: on the page", lines, around)


def check_scene(slowlift, tool, models, scene):
    draws = ["--members", str(MEMBERS), "--seed", str(SEED), "--models", models]
    told = json.loads(call([slowlift, "answer", scene, *draws, "--json"]))
    page = call([slowlift, "answer", scene, *draws])
    facts, first = read(tool, models, scene, [])
    minutes = []
    for arm, row in enumerate(told["arms"]):
        by = row["rinse_by"]
        planned = math.floor(facts["arms"][arm]["off"]) if row["role"] != "strip" else None
        minutes.append(facts["arms"][arm]["off"] if planned is not None and facts["arms"][arm]["off"] > 0 else -1 if by is None
                       else by["planned_min"] if by["planned_min"] is not None else by["model_min"])
    _, rinsed = read(tool, models, scene, minutes)
    measured = 0
    for arm, row in enumerate(told["arms"]):
        if row["role"] == "strip":
            check_times(facts, arm, first[arm], row)
            measured += check_measure(first[arm], row)
        if row["colour_left"] is not None and row["base"] is not None:
            goal = next(i for i, z in enumerate(facts["zones"]) if z["wanted"])
            hair = facts["zones"][goal]["hair"]
            undyed = next(i for i, z in enumerate(facts["zones"]) if z["dyes"] == 0 and z["hair"] == hair)
            check_rinsed(facts, arm, rinsed[arm], row, undyed)
    check_page(told, page)
    if not measured:
        found.append(f"{scene}: nothing to measure next")
    return sum(row["role"] == "strip" for row in told["arms"])


def main():
    slowlift, tool, models, *scenes = sys.argv[1:]
    strips = sum(check_scene(slowlift, tool, models, scene) for scene in scenes)
    for line in found:
        print(line)
    print(f"{strips} strips of {len(scenes)} scenes, {len(found)} figures differ")
    sys.exit(1 if found or strips < 2 * len(scenes) else 0)


main()
