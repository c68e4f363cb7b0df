#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Taking the longest answer of each question of the quiz and of the lessons must not do better than chance.

A right answer that is longer than every other one gives itself away (a known flaw of items with answers to
choose from). Counted over all questions of a language; chance is the sum of one over the number of answers.

usage: check_answers.py FILE... | check_answers.py --self-test
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


def questions_of(file):
    """The answers of every question of a quiz or a lesson."""
    if file["kind"] == "quiz":
        return [tier for item in file["items"] for tier in (item["answers"], item["reasons"]["answers"])]
    single = [file["cases"]["ask"]] + [file[key] for key in ("prediction", "reasons", "saw", "transfer")]
    return [question["answers"] for question in file["recall"] + single + file["exit"]]


def main():
    if sys.argv[1:] == ["--self-test"]:
        return self_test()
    found = {}
    for path in sys.argv[1:]:
        with open(path, encoding="utf-8") as file:
            read = yaml.safe_load(file)
        found.setdefault((read["kind"], read.get("language", "en")), []).extend(questions_of(read))
    wrong = 0
    for (kind, language), questions in sorted(found.items()):
        longest, chance = given_away(questions)
        print(f"{kind}, {language}: the right answer is the longest in {longest} of {len(questions)}; by chance {chance}")
        wrong += longest > chance
    return 1 if wrong or not found else 0


sys.exit(main())
