#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What is made from the rows of the command line, asked from outside: every option that help tells is taken, no
option is told by one and not by another, the scripts are scripts of their shells, and bash completes with them.

usage: check_completion.py SLOWLIFT
"""
import os
import re
import shutil
import subprocess
import sys
import tempfile

PROGRAM = os.path.abspath(sys.argv[1])
ENVIRONMENT = dict(os.environ, SLOWLIFT_LANGUAGE="en", NO_COLOR="1", TERM="dumb",
                   PATH=os.path.dirname(PROGRAM) + os.pathsep + os.environ["PATH"])


def run(*words, **more):
    return subprocess.run(words, capture_output=True, text=True, env=ENVIRONMENT, check=False, **more)


def said(*words):
    done = run(PROGRAM, *words)
    assert done.returncode == 0, (words, done.stderr)
    return done.stdout


def commands():
    names = re.findall(r"^  ([a-z-]+) +\S", said("help"), re.M)
    return names + re.findall(r"^  (log [a-z-]+) +\S", said("log", "--help"), re.M)


def options(help_text):
    """Name and whether it takes a value, of each line of help that begins with one."""
    return re.findall(r"^  (?:-\w, )?--([\w-]+)( \S|\[=)?", help_text, re.M)


def of_command(name):
    wrong = []
    for option, value in options(said(*name.split(), "--help")):
        if value == "[=":  # it may stand alone: what it does with a wrong value is its own test's
            continue
        done = run(PROGRAM, *name.split(), "--" + option + ("" if value else "=x"))
        if done.returncode == 3 and "not installed" in done.stderr:
            return []  # another program carries it out, which was not built
        wanted = "lacks its value" if value else "takes no value"
        if done.returncode != 2 or wanted not in done.stderr or "--" + option not in done.stderr:
            wrong.append(f"{name} --{option}: exit {done.returncode}, {done.stderr!r}")
    return wrong


def complete(script, *words):
    """What bash would offer for the last of the words."""
    ask = (f"source {script}; COMP_WORDS=({' '.join(repr(word) for word in words)}); "
           "COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _slowlift; printf '%s\\n' \"${COMPREPLY[@]}\"")
    done = run("bash", "-c", ask)
    assert done.returncode == 0 and not done.stderr, (words, done.stderr)
    return done.stdout.split()


def of_bash(script, names):
    told = {name: {"--" + option for option, _ in options(said(*name.split(), "--help"))} for name in names}
    wrong = [f"bash, {name}: {sorted(offered ^ (told[name] | {'--help'}))}" for name in names
             if (offered := {word for word in complete(script, "slowlift", *name.split(), "--")
                             if word.startswith("--")}) != told[name] | {"--help"}]
    first = set(complete(script, "slowlift", ""))
    wrong += [f"bash does not offer {name}" for name in names if " " not in name and name not in first]
    for words, wanted in ((("run", "--light", "l"), {"lamp", "led"}), (("run", "eight"), {"eight-arms"}),
                          (("log", "ex"), {"export"}), (("plan", "--repeats", ""), set()),
                          (("teach", "--quiz", ""), {"before", "after"})):
        offered = set(complete(script, "slowlift", *words))
        if offered != wanted:
            wrong.append(f"bash, {words}: {sorted(offered)}, wanted {sorted(wanted)}")
    return wrong


def of_script(folder, kind, *tool):
    path = os.path.join(folder, kind)
    with open(path, "w", encoding="utf-8") as file:
        file.write(said("completion", *(["--manual"] if kind == "manual" else [kind])))
    if not shutil.which(tool[0]):
        print(f"{tool[0]} is not here: {kind} was not read by it")
        return path, []
    done = run(*tool, path)
    return path, [] if done.returncode == 0 else [f"{kind}: {(done.stdout + done.stderr)[:400]}"]


def main():
    names = commands()
    assert len(names) > 20 and "log add" in names, names
    wrong = [line for name in names for line in of_command(name)]
    with tempfile.TemporaryDirectory() as folder:
        for kind, *tool in (("bash", "bash", "-n"), ("zsh", "zsh", "-n"), ("fish", "fish", "-n"),
                            ("manual", "mandoc", "-T", "lint", "-W", "error")):
            path, faults = of_script(folder, kind, *tool)
            wrong += faults
            wrong += of_bash(path, names) if kind == "bash" else []
            if kind != "bash":
                with open(path, encoding="utf-8") as file:
                    text = file.read().replace("\\-", "-")
                wrong += [f"{kind} does not tell --{option} of {name}" for name in names
                          for option, _ in options(said(*name.split(), "--help"))
                          if f"--{option}" not in text and f"-l {option}" not in text]
    print("\n".join(wrong))
    print(f"{len(names)} commands, {len(wrong)} wrong")
    return 1 if wrong else 0


sys.exit(main())
