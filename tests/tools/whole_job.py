#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The whole job of a new user, command by command as docs/guide.md shows it, in an empty folder.

usage: whole_job.py PROGRAM_FOLDER SOURCE

At most fifteen commands; each ends well, each file that is named lies there afterwards, and what was filled in is in the report.
"""
import csv
import os
import pathlib
import re
import subprocess
import sys
import tempfile

MOST = 15
TYPED = {"slowlift new": "\n" * 16, "slowlift day tests.db --rehearse": "g\nq\n", "slowlift day tests.db": "g\nq\n"}
GRADES = {"untreated": 0, "washing only": 1, "powder + water": 2, "powder + 3 %": 3, "powder + 6 %": 4, "undyed treated": 5}


def commands(source):
    section = (source / "docs" / "guide.md").read_text().split("## The whole job\n", 1)[1].split("\n## ", 1)[0]
    return section.split("```sh\n", 1)[1].split("```", 1)[0].splitlines()


def fill(folder, run):
    """Each strip's own grade, in every zone."""
    shown = run("slowlift log show tests.db", "")
    test = re.match(r"\w+", shown).group(0)
    arms = dict(re.findall(r"(\w+) \(([^)]*)\)", run(f"slowlift log show tests.db {test}", "")))
    with open(folder / "seen.csv", encoding="utf-8") as file:
        rows = list(csv.DictReader(file))
    for row in rows:
        row |= {"judge": "j1", "grade": GRADES[arms[row["swatch"]]]}
    with open(folder / "seen.csv", "w", encoding="utf-8", newline="") as file:
        writer = csv.DictWriter(file, rows[0])
        writer.writeheader()
        writer.writerows(rows)


def main(programs, source):
    env = {"PATH": f"{programs}:{os.environ['PATH']}", "LC_ALL": "C.UTF-8", "SLOWLIFT_LANGUAGE": "en", "SLOWLIFT_MODELS": str(source / "models")}
    faults = []
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)

        def run(line, typed):
            done = subprocess.run(["bash", "-c", line], cwd=folder, env=env, input=typed, capture_output=True, text=True)
            faults.extend([] if done.returncode == 0 else [f"{line}: {done.returncode}, {done.stderr}"])
            return done.stdout

        told, asked = {}, 0
        for line in commands(source):
            if line.startswith("# fill in seen.csv"):
                fill(folder, run)
            else:
                asked += 1
                words = line.split("#")[0].strip()
                told[words] = run(words, TYPED.get(words, ""))
        paper = run("slowlift report tests.db", "")
        faults += [] if 10 <= asked <= MOST else [f"{asked} commands"]
        for wanted in ("my-test.yaml", "answer.pdf", "papers", "tests.db", "tests.rehearsal.db", "seen.csv", "report.pdf"):
            faults += [] if (folder / wanted).exists() else [f"no {wanted}"]
        for words, said in (("slowlift answer my-test.yaml", " % left in time, of 20 runs"), ("slowlift plan my-test.yaml --class 90min", "What would:"),
                            ("slowlift log import tests.db seen.csv", "144 readings were added"), ("slowlift compare tests.db", "powder + 6 %"),
                            ("slowlift log list .", "Which mix takes which colour")):
            faults += [] if said in told.get(words, "") else [f"{words}: no {said!r} in\n{told.get(words)}"]
        faults += [] if re.search(r"powder \+ 6 % +10 % \(", paper) else [f"the grades are not in the report:\n{paper[paper.find('What was seen'):][:2500]}"]
    print("\n".join(faults) or f"{asked} commands, from questions to a report")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()))
