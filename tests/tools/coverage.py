#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Which branches of the core do the tests take? usage: coverage.py BUILD [--no-tests] [--missing WORD]

BUILD is a folder configured with -DSLOWLIFT_COVERAGE=ON. The suites run and the tests of programs that
write logs and files; then gcovr counts. A table tells the branches of each folder; 1 when one lies below
the least share. An assertion is no branch: what it denies cannot be tested. What else is left out stands
in the code, with its reason, behind GCOVR_EXCL_BR_LINE; the table says how many such lines there are.

--no-tests counts what has been run by hand; --missing lists each line whose path holds WORD and which
has a branch that nothing took. A program that was not built anew since a source of the core changed
writes over what all others counted of it: such counts are refused, with their names.
"""
import argparse
import json
import os
import pathlib
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDERS = ("base", "model", "kinetics", "optics", "timeline", "estimate", "clock", "log")
LEAST = 95.0
LIBRARIES = ("slowlift", "slowlift_save", "slowlift_log", "tests_plain_lanes")
# Suites by their label, and programs where their doors are what is tested; no window, no pictures.
SUITES = "^(unit|property|reference)$"
NO_SUITES = ("theme|strip|layout|leaf|change|words|eyes|study|form|lesson_view|day_view|strands|paper|pages"
             "|colour_skimage|colour_colorspacious|verdict_cases")
PROGRAMS = "log_receipts|hostile_logs|log_commands|outputs|folders|signals|day_elsewhere"
# These hold every line that a program says against a page, and come before anything is killed: a process that is
# killed while it writes its counts leaves some that do not fit, of which the next one says a line.
FIRST = "net_general|guide"
REASON = "GCOVR_EXCL_BR_LINE"


def run_tests(build):
    """What was counted before is taken away; a test that fails is told, and the measure fails with it."""
    for old in build.rglob("*.gcda"):
        old.unlink()
    # What GCC's counting has to say goes into a file: tests look at all that a program says.
    os.environ["GCOV_ERROR_FILE"] = str(build / "gcov-errors.txt")
    jobs = f"-j{os.cpu_count()}"
    calls = (["-R", f"^({FIRST})$"], ["-L", SUITES, "-E", f"^({NO_SUITES})$"], ["-R", f"^({PROGRAMS})$"])
    return all([subprocess.run(["ctest", "--test-dir", build, jobs, "--output-on-failure", *call]).returncode == 0
                for call in calls])


def of_another_build(folders):
    """Files of counts whose stamp (bytes 8 to 11) is not that of the notes that the compiler left beside them."""
    def stamp(path):
        with path.open("rb") as file:
            return file.read(12)[8:]
    return [counts.name for folder in folders for counts in sorted(folder.rglob("*.gcda"))
            if stamp(counts) != stamp(counts.with_suffix(".gcno"))]


def counted(build):
    """Of each file: its lines with their branches, as gcovr tells them."""
    folders = [build / "CMakeFiles" / f"{name}.dir" / "src" for name in LIBRARIES]
    old = of_another_build(folders)
    if old:
        sys.exit(f"counted by programs of another build: {', '.join(old)}; build them, remove these, run them again")
    done = subprocess.run(
        ["gcovr", "--root", ROOT, "--filter", f"{ROOT}/src/({'|'.join(FOLDERS)})/", "--gcov-ignore-parse-errors",
         "--exclude-lines-by-pattern", r"\s*assert\(.*", "-j", str(os.cpu_count()), "--json", "-", *folders],
        cwd=build, stdin=subprocess.DEVNULL, capture_output=True, text=True)
    if done.returncode != 0:
        sys.exit(f"gcovr: {done.stderr.strip()}")
    return {file["file"]: file["lines"] for file in json.loads(done.stdout)["files"]}


def table(files):
    """Prints the branches of each folder; whether each has its share."""
    good = True
    print(f"| folder | branches | taken | % | lines left out |\n|---|---|---|---|---|")
    for folder in FOLDERS:
        lines = [line for name, of in files.items() if name.startswith(f"src/{folder}/") for line in of]
        hits = [branch["count"] > 0 for line in lines for branch in line["branches"]]
        left_out = sum(path.read_text().count(REASON) for path in (ROOT / "src" / folder).rglob("*.[ch]"))
        share = 100 * sum(hits) / len(hits) if hits else 0.0
        print(f"| `{folder}` | {len(hits)} | {sum(hits)} | {share:.1f} | {left_out} |")
        good = good and share >= LEAST
    return good


def show_missing(files, word):
    for name, lines in sorted(files.items()):
        if word not in name:
            continue
        text = (ROOT / name).read_text().split("\n")
        hits = [branch["count"] > 0 for line in lines for branch in line["branches"]]
        print(f"{name}: {sum(hits)} of {len(hits)}")
        for line in lines:
            pattern = "".join("+" if branch["count"] > 0 else "-" for branch in line["branches"])
            if "-" in pattern:
                print(f"  {line['line_number']:4} {pattern:8} {text[line['line_number'] - 1].strip()}")


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("build", type=pathlib.Path)
    parser.add_argument("--no-tests", action="store_true")
    parser.add_argument("--missing")
    asked = parser.parse_args()
    build = asked.build.resolve()
    passed = asked.no_tests or run_tests(build)
    files = counted(build)
    if asked.missing is not None:
        show_missing(files, asked.missing)
    return 0 if table(files) and passed else 1


if __name__ == "__main__":
    sys.exit(main())
