#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Do the tests bite? One small fault at a time is put into the core, and the tests must fail.

usage: mutants.py FOLDER [--seed N] [--count N] [--part I/N] [--among FOLDERS] [--only ID] [--list] [--results FILE]

FOLDER is made: a copy of the sources and a build of it; the working tree is never touched. The operators
below and the seed (1) were fixed before the tests that answer them were written; another seed is for the
closing figure. A mutant whose object code is that of the original is equivalent and not counted; another
one is drawn in its place. A mutant that leaves the tests green is a survivor. Equivalents that a person
has argued stand in equivalents.txt beside this file, by their line's text, and are told apart.

A mutant that does not end is stopped by processor time, not by the clock on the wall.
"""
import argparse
import hashlib
import json
import pathlib
import random
import re
import resource
import shutil
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDERS = ("model", "kinetics", "timeline", "optics", "estimate", "plan", "clock", "log", "scene")
PROCESSOR_SECONDS = 300  # many times what the longest suite needs

# (name, pattern, what comes instead); a pattern is found in code alone, outside comments, texts and #-lines.
OPERATORS = [
    ("less", r"(?<![<\-=])<(?![<=])(?=\s)", "<="),
    ("less-or-equal", r"(?<!<)<=", "<"),
    ("more", r"(?<![>\-])(?<=\s)>(?![>=])(?=\s)", ">="),
    ("more-or-equal", r"(?<!>)>=", ">"),
    ("equal", r"==", "!="),
    ("unequal", r"!=", "=="),
    ("and", r"&&", "||"),
    ("or", r"\|\|", "&&"),
    ("not", r"(?<=[(\s])!(?=[A-Za-z_(])", ""),
    ("add", r"(?<=\s)\+(?=\s)", "-"),
    ("subtract", r"(?<=[\w)\]]\s)-(?=\s)", "+"),
    ("multiply", r"(?<=[\w)\]]\s)\*(?=\s)", "/"),
    ("divide", r"(?<=\s)/(?=\s)", "*"),
    ("add-to", r"\+=", "-="),
    ("count-up", r"\+\+(?=[;)])", "--"),
    ("smaller", r"\bfmin\(", "fmax("),
    ("larger", r"\bfmax\(", "fmin("),
    ("true", r"\btrue\b", "false"),
    ("false", r"\bfalse\b", "true"),
    ("whole-number", r"(?<![\w.])(\d+)(?![\w.])", lambda m: str(int(m.group(1)) + 1)),
    ("number", r"(?<![\w.])(\d+\.\d+)(?![\w.])", lambda m: repr(float(m.group(1)) * 1.25 if float(m.group(1)) else 0.25)),
    ("condition", r"\bif \((.*)\) \{$", lambda m: f"if (!({m.group(1)})) {{"),
    ("no-statement", r"^(\s+)((?!return|break|continue|static|const|goto)[A-Za-z_][\w.\->\[\]]* (?:[-+*/|&]?=) [^;]*;)$",
     lambda m: m.group(1) + ";"),
    ("no-call", r"^(\s+)([a-z_]\w*\([^;]*\);)$", lambda m: m.group(1) + ";"),
]

# Suites that know a folder best come first; the rest follow, quick ones before slow ones.
FIRST = {
    "model": "model kinetics plan limits shipped scene checks_current",
    "kinetics": "kinetics timeline closed_forms chemistry cvode spread random_scenes scipy members_scipy faults",
    "timeline": "timeline stains estimate report closed_forms random_scenes",
    "optics": "optics colour viewing chart lift_look stains colour_standards difference_standards kubelka_munk "
              "colour_lcms colour_skimage colour_colorspacious",
    "estimate": "estimate limits spread draws rank map what_if saw odds part goal limits_closed intake random_people "
                "trade_limits limits_words verdict_cases draws_scipy odds_scipy members_scipy threads cvode_events",
    "plan": "plan cost random_plans pair",
    "clock": "clock day_keeper day_words day_view",
    "log": "log readings csv compare seen_curves day_keeper log_commands compare_scipy log_memory day_terminal",
    "scene": "scene quantity bad_files shipped colour_files model part scene_memory scene_locale colour_words lesson",
}
NEVER = re.compile(r"screen_|picture|valgrind|german|installed|rule|readability|exports|layers|language|killed|mutants|fuzz")


def code_only(text):
    """The text with comments, strings, characters and lines of the preprocessor blanked, same length."""
    blank = lambda m: re.sub(r"[^\n]", " ", m.group(0))
    text = re.sub(r"/\*.*?\*/", blank, text, flags=re.S)
    text = re.sub(r"//[^\n]*", blank, text)
    text = re.sub(r'"(?:\\.|[^"\\\n])*"', blank, text)
    text = re.sub(r"'(?:\\.|[^'\\\n])*'", blank, text)
    return re.sub(r"^#(?:[^\n]*\\\n)*[^\n]*", blank, text, flags=re.M)


def inside_functions(code):
    """For each line whether it stands in a body: between a brace in the first column and its end."""
    here, inside = [], False
    for line in code.split("\n"):
        if line.startswith("}"):
            inside = False
        here.append(inside)
        if line.startswith("{"):
            inside = True
    return here


def sites_of(path):
    """Every possible mutant of a file: (line number from 0, operator, column, new line)."""
    text = path.read_text()
    code = code_only(text)
    body = inside_functions(code)
    lines, bare = text.split("\n"), code.split("\n")
    for number, line in enumerate(lines):
        if not body[number] or "assert(" in line:
            continue  # an assertion is itself a test
        for name, pattern, instead in OPERATORS:
            for found in re.finditer(pattern, bare[number]):
                if name in ("condition", "no-statement", "no-call"):
                    found = re.search(pattern, line)
                    if not found:
                        continue
                new = instead(found) if callable(instead) else instead
                yield number, name, found.start(), line[:found.start()] + new + line[found.end():]


def every_site():
    found = []
    for folder in FOLDERS:
        for path in sorted((ROOT / "src" / folder).rglob("*.c")):
            name = str(path.relative_to(ROOT))
            found += [(name,) + site for site in sites_of(path)]
    return found


def limited():
    resource.setrlimit(resource.RLIMIT_CPU, (PROCESSOR_SECONDS, PROCESSOR_SECONDS))


class House:
    """A copy of the sources with a build, in which mutants live and die."""

    def __init__(self, folder):
        self.source, self.build = folder / "source", folder / "build"
        folder.mkdir(parents=True, exist_ok=True)
        listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
        for name in filter(None, listed.split("\0")):
            old, new = ROOT / name, self.source / name
            if old.is_file() and (not new.exists() or new.read_bytes() != old.read_bytes()):
                new.parent.mkdir(parents=True, exist_ok=True)
                shutil.copy(old, new)
        if not (self.build / "CMakeCache.txt").exists():
            subprocess.run(["cmake", "-S", self.source, "-B", self.build, "-DCMAKE_BUILD_TYPE=Debug",
                            "-DCMAKE_C_FLAGS_DEBUG=-O1", "-DSLOWLIFT_SHARED=OFF"], check=True, stdout=subprocess.DEVNULL)
        subprocess.run(["cmake", "--build", self.build, "-j2"], check=True, stdout=subprocess.DEVNULL)
        told = subprocess.run(["ctest", "--test-dir", self.build, "--show-only=json-v1"], capture_output=True, text=True, check=True)
        self.tests = {test["name"]: test for test in json.loads(told.stdout)["tests"] if test.get("command")}

    def targets(self, test):
        """The programs of the build that a test runs, by the names that make knows."""
        words = self.tests[test]["command"]
        base = [pathlib.Path(word).name for word in words if word.startswith(str(self.build) + "/")]
        if any(word == str(self.build) for word in words):
            base += ["slowlift", "slowlift-watch", "slowlift-paper"]
        own = {"slowlift": "slowlift_program", "slowlift-watch": "slowlift_watch", "slowlift-paper": "slowlift_paper"}
        return [own.get(name, name) for name in base]

    def makes(self, targets):
        targets = [t for t in targets if not t.startswith("lib")]
        return subprocess.run(["cmake", "--build", self.build, "-j2", "--target", *targets], capture_output=True, text=True)

    def passes(self, test):
        ran = subprocess.run(["ctest", "--test-dir", self.build, "-R", f"^{re.escape(test)}$", "--timeout", "100000"],
                             capture_output=True, text=True, preexec_fn=limited)
        return ran.returncode == 0

    def object_of(self, name):
        return next((self.build / "CMakeFiles").glob(f"*.dir/{name}.o"))


def order_of(house, name):
    """Suites for a mutant in this file: those of its folder, then the other units, then whole programs."""
    folder = name.split("/")[1]
    first = [test for test in FIRST[folder].split() if test in house.tests]
    usable = [test for test in house.tests if not NEVER.search(test) and test not in first]
    units = [test for test in usable if pathlib.Path(house.tests[test]["command"][0]).name.startswith("test_")
             and "python" not in house.tests[test]["command"][0]]
    return first + units + [test for test in usable if test not in units]


def judge(house, site):
    name, number, operator, column, new = site
    path = house.source / name
    original = path.read_text()
    before = hashlib.sha256(house.object_of(name).read_bytes()).hexdigest()
    lines = original.split("\n")
    lines[number] = new
    try:
        path.write_text("\n".join(lines))
        order = order_of(house, name)
        if house.makes(house.targets(order[0])).returncode != 0:
            return "does not compile", ""
        if hashlib.sha256(house.object_of(name).read_bytes()).hexdigest() == before:
            return "same code", ""
        for test in order:
            targets = house.targets(test)
            if targets and house.makes(targets).returncode != 0:
                return "does not compile", ""
            if not house.passes(test):
                return "caught", test
        return "survived", ""
    finally:
        path.write_text(original)


def argued():
    path = pathlib.Path(__file__).with_name("equivalents.txt")
    if not path.exists():
        return set()
    return {tuple(line.split("\t")[:3]) for line in path.read_text().splitlines() if line and not line.startswith("#")}


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--part", default="1/1", help="I/N: every N-th of the drawn ones, to share among processors")
    parser.add_argument("--among", help="folders with commas between: those of the drawn ones that lie there")
    parser.add_argument("--only", help="FILE:LINE:OPERATOR, judged alone")
    parser.add_argument("--list", action="store_true", help="say which would be drawn, and end")
    parser.add_argument("--results", type=pathlib.Path, help="a line for each mutant, as it is judged")
    asked = parser.parse_args()

    sites = every_site()
    random.Random(asked.seed).shuffle(sites)
    if asked.only:
        name, line, operator = asked.only.split(":")
        sites = [s for s in sites if s[0] == name and s[1] == int(line) - 1 and s[2] == operator]
        asked.count = len(sites)
    if asked.among:
        there = lambda site: site[0].split("/")[1] in asked.among.split(",")
        asked.count = sum(map(there, sites[:asked.count]))
        sites = list(filter(there, sites))
    part, parts = map(int, asked.part.split("/"))
    sites, wanted = sites[part - 1::parts], (asked.count + parts - part) // parts
    if asked.list:
        for name, number, operator, column, new in sites[:wanted]:
            print(f"{name}:{number + 1}:{operator}\t{new.strip()}")
        return 0
    house = House(asked.folder.resolve())
    known, told = argued(), {"caught": 0, "survived": 0, "equivalent": 0}
    results = asked.results.open("w") if asked.results else None
    for site in sites:
        if sum(told.values()) >= wanted:
            break
        name, number, operator, column, new = site
        verdict, by = judge(house, site)
        if verdict in ("does not compile", "same code"):
            continue
        old = (ROOT / name).read_text().split("\n")[number].strip()
        if verdict == "survived" and (name, operator, old) in known:
            verdict = "equivalent"
        told[verdict] += 1
        row = f"{verdict}\t{by}\t{name}:{number + 1}:{operator}\t{old}\t{new.strip()}"
        print(row, flush=True)
        if results:
            print(row, file=results, flush=True)
    counted = told["caught"] + told["survived"]
    print(f"seed {asked.seed}: {told['caught']} of {counted} caught, {told['equivalent']} argued as equivalent")
    return 0 if counted and told["caught"] >= 0.9 * counted else 1


if __name__ == "__main__":
    sys.exit(main())
