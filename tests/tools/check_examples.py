#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What somebody copies out of help and the guide runs, and what a message says to type can be typed.

usage: check_examples.py PROGRAM SOURCE paper|none

Examples: of each command's --help, and each line of the guide that is set in as a command, in one folder and in that order. The
folder holds what the examples speak of. Each must end with 0.
Options: an option that a text of the sources names is one of the command that the text names before it ("slowlift day LOG --stops"),
else of the commands that the text's file belongs to.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import patience

# A window, a printer; a real person's strand cannot be made up (test_strand); the whole job and the day have tests that type.
NOT_RUN = re.compile(r"slowlift (watch|day \S+$|log strand strands|\S+ \S* ?(k12|client))|k12")
DRAWN = re.compile(r"\.(pdf|png|svg|webp)|slowlift pack")
# Commands whose options a file names, where its own name does not tell.
OF_FILE = {"answers_work": ["answer", "limits"], "limits_asked": ["limits"], "answer_work": ["answer"], "answer_says": ["answer"],
           "ensemble": ["answer", "limits", "rank"], "plan_work": ["plan", "pack", "log new"], "timetable": ["plan", "pack", "log new"],
           "new_log": ["log new", "compare"], "new_files": ["new"], "parts": ["limits"], "csv_import": ["log import"]}
ANYWHERE = {"help", "language", "version", "all", "manual", "models"}


class Program:
    def __init__(self, path, folder, source):
        self.path, self.folder = path, folder
        self.env = {"PATH": f"{path.parent}:/usr/bin:/bin", "HOME": str(folder), "LC_ALL": "C.UTF-8", "TZ": "UTC", "SLOWLIFT_LANGUAGE": "en",
                    "SLOWLIFT_MODELS": str(source / "models")}

    def run(self, line, typed=""):
        return patience.run(["bash", "-c", line], cwd=self.folder, env=self.env, input=typed, capture_output=True, text=True)

    def help(self, name):
        return self.run(f"slowlift {name} --help").stdout

    def names(self):
        commands = re.findall(r"^ {2,}([a-z-]+)  ", self.run("slowlift --help").stdout, re.M)
        return [name for name in commands if name != "log"] + re.findall(r"^  (log [a-z]+) ", self.help("log"), re.M) + ["log"]


def prepared(program, source):
    """What the examples speak of."""
    for name in ("models", "lessons"):
        (program.folder / name).symlink_to(source / name)
    shutil.copytree(source / "lessons" / "class-example", program.folder / "class")
    (program.folder / "tests").mkdir()
    (program.folder / "stick").mkdir()
    (program.folder / "outcomes.txt").write_text("Weighs and mixes by the label\n")
    (program.folder / "answers.yaml").write_text((source / "tests" / "golden" / "new" / "usual.yaml").read_text())
    program.run("slowlift log new strands.db eight-arms --repeats 3 --operator op-1")
    program.run("slowlift log new tests/autumn.db eight-arms --repeats 2 --operator op-1")  # the folder of somebody's tests
    beside_strands(program)


def beside_strands(program):
    """A test that somebody copied, a sheet to fill in, somebody's strand."""
    (program.folder / "other.db").unlink(missing_ok=True)
    program.run("slowlift log strand strands.db --swatch EK9 --person K12 --part nape --cut")
    program.run("slowlift log backup strands.db -o other.db")
    program.run("slowlift log export strands.db --blank -o readings.csv")


def examples(program, source, names):
    for name in names:
        for line in re.findall(r"^  ((?:source <\()?slowlift .*?)\)?$", program.help(name).split("\nExample", 1)[-1], re.M):
            yield f"{name} --help", line.split(" | ")[0].removeprefix("source <(")
    for line in re.findall(r"^    (slowlift .*)$", (source / "docs" / "guide.md").read_text(), re.M):
        yield "guide.md", line


def wrong_examples(program, source, names, paper):
    """Where a command makes what an example begins with, it is made anew."""
    count = 0
    for where, line in examples(program, source, names):
        if NOT_RUN.search(line) or (not paper and DRAWN.search(line)):
            continue
        count += 1
        line = line.replace("/media/", "./")
        made = re.search(r"slowlift (?:log new|new .*-o|log (?:backup|rescue) .*-o) (\S+)", line)
        if made:
            (program.folder / made.group(1)).unlink(missing_ok=True)
        done = program.run(line)
        if line.startswith("slowlift log new strands.db"):
            beside_strands(program)
        if done.returncode != 0:
            yield f"{where}: {line}: ends with {done.returncode}: {done.stderr.strip()}"
    if count < 55:
        yield f"only {count} examples were found"


def wrong_options(program, source, names):
    has = {name: set(re.findall(r"--([a-z][a-z-]*)", program.help(name).split("\nExample")[0])) for name in names}
    has = {name: options for name, options in has.items() if options} | {"": set().union(*has.values())}
    count = 0
    for path in sorted((source / "src").rglob("*.c")):
        stem = path.stem.removesuffix("_work")
        own = OF_FILE.get(path.stem) or OF_FILE.get(stem) or [name for name in names if name.replace(" ", "_").replace("-", "_") == stem] or [""]
        text = re.sub(r'"\s*\n\s*"', "", path.read_text())  # of one text
        for words in re.findall(r'"((?:[^"\\\n]|\\.)*)"', text):
            command = None
            for said in re.finditer(r"slowlift (log [a-z]+|[a-z][a-z-]*)|(?<![\w-])--([a-z][a-z-]+)", words):
                if said.group(1):
                    command = said.group(1) if said.group(1) in has else command
                elif said.group(2) not in ANYWHERE:
                    count += 1
                    for name in [command] if command else own:
                        if said.group(2) not in has[name]:
                            yield f"{path.relative_to(source)}: {name or 'no command'} has no --{said.group(2)}: \"{words}\""
    if count < 100:
        yield f"only {count} options were found in texts"


def main():
    program_path, source = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    with tempfile.TemporaryDirectory() as name:
        program = Program(program_path, pathlib.Path(name), source)
        names = program.names()
        prepared(program, source)
        wrong = [*wrong_options(program, source, names), *wrong_examples(program, source, names, sys.argv[3] == "paper")]
    print("\n".join(wrong))
    return 1 if wrong or len(names) < 30 else 0


sys.exit(main())
