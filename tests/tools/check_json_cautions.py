# SPDX-License-Identifier: GPL-3.0-or-later
"""Every command that has --json says the cautions that always stand, as `slowlift cautions` prints them.
usage: check_json_cautions.py PROGRAM SOURCE"""
import json
import os
import re
import subprocess
import sys
import tempfile

PROGRAM, SOURCE = sys.argv[1:3]
ENVIRONMENT = dict(os.environ, SLOWLIFT_MODELS=SOURCE + "/models", SLOWLIFT_LANGUAGE="en")
# What each command with --json is called with; a command that gets --json and stands not here fails.
CALLS = {
    "run": ["eight-arms"],
    "limits": ["way-wide", "--members", "20"],
    "rank": ["eight-arms", "--members", "100"],
    "what-if": ["eight-arms", "--arm", "powder + 6 %", "--strength", "3%"],
    "map": ["eight-arms", "--arm", "powder + 6 %"],
    "search": ["way-wide"],
    "plan": ["eight-arms"],
    "mix": ["--arm", "powder + 6 %", "--hair", "2g", "eight-arms"],
    "cost": ["--powder", "20g", "--developer", "40g", "school"],
    "compare": ["log.db"],
    "log export": ["log.db"],
}


def say(arguments, folder):
    done = subprocess.run([PROGRAM] + arguments, capture_output=True, text=True, env=ENVIRONMENT, cwd=folder,
                          check=False)
    assert done.returncode == 0, (arguments, done.returncode, done.stderr)
    return done.stdout


def never_off():
    """The texts of cautions.def that can never be switched off."""
    with open(SOURCE + "/include/slowlift/cautions.def", encoding="utf-8") as file:
        entries = re.findall(r'SL_CAUTION\(\w+, "\w+", true, [\w |]+,((?:\s*"(?:[^"\\]|\\.)*")+),', file.read())
    return ["".join(re.findall(r'"((?:[^"\\]|\\.)*)"', entry)) for entry in entries]


def main():
    always = never_off()
    assert len(always) >= 6, always
    with tempfile.TemporaryDirectory() as folder:
        commands = re.findall(r"^  ([a-z-]+) +\S", say(["--help"], folder), re.M)
        commands += re.findall(r"^  (log [a-z-]+) +\S", say(["log", "--help"], folder), re.M)
        have = [name for name in commands if "--json" in say([*name.split(), "--help"], folder)]
        assert set(have) == set(CALLS), (sorted(have), sorted(CALLS))
        say(["log", "new", "log.db", "eight-arms", "--operator", "op"], folder)
        for name in have:
            told = json.loads(say(name.split() + CALLS[name] + ["--json"], folder)).get("cautions", [])
            missing = [text for text in always if text not in told]
            assert not missing, (name, missing)
    print(f"{len(have)} commands say their cautions in JSON")


main()
