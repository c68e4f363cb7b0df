# SPDX-License-Identifier: GPL-3.0-or-later
"""Limits of single members of the ensemble, found again by scipy from the document's full system.

Reads what members drew (member_numbers) and the scene's numbers (scene_numbers), puts the draws into
the system of system_scipy.py, which was written apart from the library, and finds the same moments
on scipy's own dense output: DOP853 at 1e-8, whose moments are good to far below a second.

    members_scipy.py MEMBER_NUMBERS SCENE_NUMBERS MODELS SCENE-FILE

The ensemble runs fixed steps of a quarter of a minute, straight in between, and stops halving at a
tenth of a second: a moment may differ by a second, the colour left at the stop by what a zone loses
in a second (less than half of its colour in half a minute: 0.02), here held to 0.002.
"""
import copy
import json
import subprocess
import sys

import numpy as np
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

import system_scipy as full

SECOND = 1 / 60
HALVING = 1 / 600
LEFT_SLACK = 0.002
BASE, STRESS, END = 0, 1, 3
OPTIONS = {"method": "DOP853", "rtol": 1e-8, "atol": 1e-11}
MEMBERS = {"bench": 40, "wrapped": 16}


def of_member(scene, drawn):
    """The scene with one member's draws in place of the central values."""
    mine = copy.deepcopy({key: value for key, value in scene.items() if key != "results"})
    chem = mine["chemistry"]
    mine["shift_k"] += drawn["warmth_k"][0]
    for mix in mine["mixes"]:
        mix["ph"] += drawn["ph_shift"][0]
        mix["loss_per_min"] *= drawn["loss"][0]
        mix["loss_l_mol_min"] *= drawn["loss"][0]
    for key, factor in (("fibre_loss_per_min", "loss"), ("peroxide_diffusion_cm2_s", "peroxide_entry"),
                        ("persulfate_diffusion_cm2_s", "persulfate_entry"), ("persulfate_partition", "partition"),
                        ("saturation_mol_l", "saturation"), ("couple_l_mol_min", "couple"),
                        ("damage_opens", "opening")):
        chem[key] *= drawn[factor][0]
    chem["fibre_water_ml_g"] /= drawn["grams"][0]  # more mix on the same hair
    for j, flux in enumerate((1, 1, drawn["radical"][0])):
        chem["cystine"]["k"][j] *= drawn["cystine"][0] * flux
        for kind in chem["melanin"]:
            kind["rates"]["k"][j] *= drawn["melanin"][0] * flux
        for i, dye in enumerate(mine["dyes"]):
            dye["rates"]["k"][j] *= drawn["dye"][i] * flux
    return mine


class Member(full.Arm):
    def path(self, end):
        """Pieces (from, to, dense solution) over the scene's clock."""
        y, t, pieces = self.start(), self.first, []
        for step in list(self.arm["steps"]) + [{"kind": "rest", "duration_min": 1e9}]:
            if t >= end:
                break
            stop = min(t + step["duration_min"], end)
            self.last = t if step["kind"] == "apply" else self.last
            self.open(step, y, OPTIONS)
            found = solve_ivp(self.slopes, (t, stop), y, dense_output=True, **OPTIONS)
            if not found.success:
                raise RuntimeError(found.message)
            pieces.append((t, stop, found.sol))
            y, t = found.y[:, -1].copy(), stop
        return pieces


def first_time(pieces, falls):
    """Minutes from contact at which falls(state) is down to zero; None: never."""
    for start, stop, state in pieces:
        if falls(state(stop)) <= 0:
            inside = falls(state(start)) > 0
            return (brentq(lambda t: falls(state(t)), start, stop, xtol=1e-7) if inside else start) - pieces[0][0]
    return None


def state_at(pieces, minute):
    t = pieces[0][0] + minute
    for start, stop, state in pieces:
        if t <= stop:
            return state(t)
    return pieces[-1][2](pieces[-1][1])


def limits(mine, told, arm, zones):
    goal, base_moved, cystine_lost = told["aims"]
    hair = mine["hairs"][zones[0][1]["hair"]]
    model = Member(mine, arm, {"hair": zones[0][1]["hair"], "dyes": [z["dyes"][0] for _, z in zones]})
    pieces = model.path(told["until_min"])
    weights = np.array(told["weights"]).ravel()
    whole = weights @ np.ravel(hair["pool"])

    def left(y, i):
        return y[full.PIGMENTS + 6 + 2 * i] + y[full.PIGMENTS + 7 + 2 * i]

    reached = [first_time(pieces, lambda y, i=i: left(y, i) - goal) for i in range(len(zones))]
    stops = {END: told["until_min"] - arm["contact_min"]}
    base = first_time(pieces, lambda y: weights @ y[full.PIGMENTS:full.PIGMENTS + 6] - (1 - base_moved) * whole)
    stress = first_time(pieces, lambda y: y[full.C] - (1 - cystine_lost) * hair["cystine_intact"])
    stops.update({BASE: base} if base is not None else {})
    stops.update({STRESS: stress} if stress is not None else {})
    by = min(stops, key=stops.get)
    ends = [left(pieces[-1][2](pieces[-1][1]), i) for i in range(len(zones))]
    late = [i for i, t in enumerate(reached) if t is None]
    last = max(late, key=lambda i: ends[i]) if late else max(range(len(zones)), key=lambda i: reached[i])
    return {"early": None if late else max(reached), "zone": zones[last][0], "late": stops[by], "by": by,
            "left": left(state_at(pieces, stops[by]), last)}


def compare(found, mine, worst, seen):
    """What is wrong, as text; nothing when they agree."""
    reached, early, zone, late, by, left = found
    if bool(reached) != (mine["early"] is not None):
        return "only one of them reaches the goal"
    if reached:
        worst["early"] = max(worst["early"], abs(early - mine["early"]) * 60)
    worst["late"] = max(worst["late"], abs(late - mine["late"]) * 60)
    worst["left"] = max(worst["left"], abs(left - mine["left"]))
    seen[by] = seen.get(by, 0) + 1
    seen["goal"] = seen.get("goal", 0) + bool(reached)
    seen["asked"] = seen.get("asked", 0) + 1
    if reached and abs(early - mine["early"]) > SECOND + HALVING:
        return f"goal at {early} and {mine['early']} min"
    if abs(late - mine["late"]) > SECOND + HALVING or by != mine["by"]:
        return f"stop {by} at {late}, {mine['by']} at {mine['late']} min"
    if zone != mine["zone"]:
        return f"last zone {zone} and {mine['zone']}"
    return f"left {left} and {mine['left']}" if abs(left - mine["left"]) > LEFT_SLACK else ""


def check(place, member_numbers, scene_numbers, models, path):
    blocks = (MEMBERS[place] + 15) // 16
    out = subprocess.run([member_numbers, models, path, place, str(blocks)], check=True, capture_output=True, text=True)
    told = json.loads(out.stdout)
    scene = full.numbers(scene_numbers, models, path, 60)
    scene["place"] = place
    zones = [(i, z) for i, z in enumerate(scene["zones"]) if z["dyes"] and not told["oxidative"][z["dyes"][0]]]
    assert all(len(z["dyes"]) == 1 and z["hair"] == zones[0][1]["hair"] for _, z in zones)
    worst, seen, bad = {"early": 0.0, "late": 0.0, "left": 0.0}, {}, 0
    for m in range(MEMBERS[place]):
        drawn = told["members"][m]
        mine = of_member(scene, drawn)
        for a, arm in enumerate(scene["arms"]):
            if drawn["limits"][a] is None:
                continue
            wrong = compare(drawn["limits"][a], limits(mine, told, arm, zones), worst, seen)
            if wrong:
                print(f"NOT member {m}, {arm['name']}, {place}: {wrong}")
                bad += 1
    print(f"{place}: {seen.get('asked', 0)} pairs of member and arm, {seen.get('goal', 0)} reach the goal, "
          f"stopped by base {seen.get(BASE, 0)}, stress {seen.get(STRESS, 0)}, the end {seen.get(END, 0)}; at most "
          f"{worst['early']:.2f} s (goal), {worst['late']:.2f} s (stop), {worst['left']:.1e} (colour left) apart")
    every_case = all(seen.get(key, 0) >= 5 for key in ("goal", BASE, STRESS, END))
    if not every_case or seen["goal"] == seen["asked"]:
        print("NOT every case is among them")
    return bad == 0 and every_case and seen["goal"] < seen["asked"]


def main():
    good = [check(place, *sys.argv[1:]) for place in MEMBERS]
    sys.exit(0 if all(good) else 1)


if __name__ == "__main__":
    main()
