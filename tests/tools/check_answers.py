#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Taking the longest answer of each question of the quiz must not do better than chance.

A right answer that is longer than every other one gives itself away (a known flaw of items with answers to
choose from). Counted over all tiers of a quiz; chance is the sum of one over the number of answers.

usage: check_answers.py QUIZ... | check_answers.py --self-test
"""
import math
import sys

import yaml


def given_away(questions):
    """(right answers longer than all others, what chance would find)."""
    longest, chance = 0, 0.0
    for answers in questions:
        right = next(len(one["say"]) for one in answers if one.get("right"))
        others = [len(one["say"]) for one in answers if not one.get("right")]
        longest += right > max(others)
        chance += 1.0 / len(answers)
    return longest, math.ceil(chance)


def self_test():
    telling = [{"say": "the long right one", "right": True}, {"say": "short"}]
    silent = [{"say": "right", "right": True}, {"say": "the long wrong one"}]
    assert given_away([telling, telling, silent]) == (2, 2)
    assert given_away([telling] * 4) == (4, 2)
    return 0


def main():
    if sys.argv[1:] == ["--self-test"]:
        return self_test()
    wrong = 0
    for path in sys.argv[1:]:
        with open(path, encoding="utf-8") as file:
            items = yaml.safe_load(file)["items"]
        tiers = [tier for item in items for tier in (item["answers"], item["reasons"]["answers"])]
        longest, chance = given_away(tiers)
        print(f"{path}: the right answer is the longest in {longest} of {len(tiers)} tiers; by chance {chance}")
        wrong += longest > chance
    return 1 if wrong else 0


sys.exit(main())
