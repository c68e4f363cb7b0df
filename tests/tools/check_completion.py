#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What is made from the rows of the command line, asked from outside: every option that help tells is taken, no
option is told by one and not by another, the scripts are scripts of their shells, each shell completes with its
own, and the page for man, as mandoc sets it, says of each command what help says, to the letter.

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


def quoted(words):
    return " ".join("'" + word + "'" for word in words)


def in_bash(script, words):
    return run("bash", "-c", f"source {script}; COMP_WORDS=({quoted(words)}); COMP_CWORD=$((${{#COMP_WORDS[@]}} - 1)); "
               "_slowlift; printf '%s\\n' \"${COMPREPLY[@]}\"")


def in_zsh(script, words):
    """The functions of zsh's own completion, which needs a terminal, only tell what they were given."""
    return run("zsh", "-f", "-c", "_files() { print -r - :files }; _describe() { print -rl - ${${(P)2}%%:*} }; "
               f"words=({quoted(words)}); CURRENT=${{#words}}; source {script}")


def in_fish(script, words):
    return run("fish", "--no-config", "-c", f"source {script}; complete -C '{' '.join(words)}'")


def complete(shell, script, *words):
    """What the shell would offer for the last of the words."""
    done = {"bash": in_bash, "zsh": in_zsh, "fish": in_fish}[shell](script, ("slowlift",) + words)
    assert done.returncode == 0 and not done.stderr, (shell, words, done.stderr)
    return {line.split("\t")[0] for line in done.stdout.splitlines() if line}


def of_shell(shell, script, names):
    told = {name: {"--" + option for option, _ in options(said(*name.split(), "--help"))} for name in names}
    wrong = [f"{shell}, {name}: {sorted(offered ^ (told[name] | {'--help'}))}" for name in names
             if (offered := complete(shell, script, *name.split(), "--")) != told[name] | {"--help"}]
    first = complete(shell, script, "")
    wrong += [f"{shell} does not offer {name}" for name in names if " " not in name and name not in first]
    for words, wanted in ((("run", "--light", "l"), {"lamp", "led"}), (("run", "eight"), {"eight-arms"}),
                          (("log", "ex"), {"export"}), (("plan", "--repeats", ""), set()),
                          (("log", "new", "x.db", "way-w"), {"way-wide"}), (("cost", "scho"), {"school"}),
                          (("teach", "--quiz", ""), {"before", "after"}), (("--language", ""), {"en", "es"})):
        offered = complete(shell, script, *words) - {":files"}
        if offered != wanted:
            wrong.append(f"{shell}, {words}: {sorted(offered)}, wanted {sorted(wanted)}")
    return wrong


def of_manual(page, names):
    """Each command's part of the page as it is set, beside its help: the same words in the same order."""
    set_page = re.sub(".\b", "", run("mandoc", "-T", "utf8", page).stdout)
    parts = re.split(r"^   slowlift ([a-z -]+)$", set_page, flags=re.M)
    found = {name: " ".join(text.split()) for name, text in zip(parts[1::2], parts[2::2])}
    wrong = []
    for name in names:
        told = " ".join(said(*name.split(), "--help").split("\n\n  log new ")[0].split()).replace("Usage: ", "", 1)
        if not found.get(name, "").startswith(told):
            wrong.append(f"the page for man does not say of {name} what help says:\n{told}\n{found.get(name)}")
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
            if shutil.which(tool[0]):
                wrong += of_manual(path, names) if kind == "manual" else of_shell(kind, path, names)
    print("\n".join(wrong))
    print(f"{len(names)} commands, {len(wrong)} wrong")
    return 1 if wrong else 0


sys.exit(main())
