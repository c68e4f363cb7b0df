# SPDX-License-Identifier: GPL-3.0-or-later
"""Every command that has --json says the cautions that always stand, as `slowlift cautions` prints them, with
those that its document says, and no other.
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
    "answer": ["way-wide", "--members", "20"],
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
    "log list": [],
    "log drift": [],
}


# Called once more so, with what is owed besides.
MORE = {
    "what-if": ["--warmer", "5K"],
    "answer": ["--person", SOURCE + "/models/forms/nothing-stops.yaml"],
    "limits": ["--person", SOURCE + "/models/forms/nothing-stops.yaml"],
    "cost": ["--scene", "eight-arms"],
}


def say(arguments, folder, **more):
    done = subprocess.run([PROGRAM] + arguments, capture_output=True, text=True, env=dict(ENVIRONMENT, **more),
                          cwd=folder, check=False)
    assert done.returncode == 0, (arguments, done.returncode, done.stderr)
    return done.stdout


def entries():
    """Of cautions.def: name -> (whether it can never be switched off, text)."""
    with open(SOURCE + "/include/slowlift/cautions.def", encoding="utf-8") as file:
        found = re.findall(r'SL_CAUTION\((\w+), "\w+", (true|false), [\w |]+,((?:\s*"(?:[^"\\]|\\.)*")+),', file.read())
    return {name: (always == "true", "".join(re.findall(r'"((?:[^"\\]|\\.)*)"', text))) for name, always, text in found}


def main():
    cautions = entries()
    always = {text for never_off, text in cautions.values() if never_off}
    assert len(always) >= 6, always
    with tempfile.TemporaryDirectory() as folder:
        commands = re.findall(r"^  ([a-z-]+) +\S", say(["--help"], folder), re.M)
        commands += re.findall(r"^  (log [a-z-]+) +\S", say(["log", "--help"], folder), re.M)
        have = [name for name in commands if "--json" in say([*name.split(), "--help"], folder)]
        assert set(have) == set(CALLS), (sorted(have), sorted(CALLS))
        say(["log", "new", "log.db", "eight-arms", "--operator", "op"], folder)
        for name in have:
            for more in ([], MORE[name]) if name in MORE else ([],):
                call = name.split() + CALLS[name] + more
                told = json.loads(say(call + ["--json"], folder))["cautions"]
                outline = say(call, folder, SLOWLIFT_SAY="outline") if name != "log export" else ""
                said = re.findall(r"^\w+ caution ([A-Z_]+)$", outline, re.M)
                assert said or name == "log export", outline
                assert set(told) == always | {cautions[one][1] for one in said}, (call, said, told)
    print(f"{len(have)} commands say their cautions in JSON")


main()
