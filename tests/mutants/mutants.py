#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Do the tests bite? One small fault at a time is put into the core, and the tests must fail.

usage: mutants.py FOLDER [--seed N] [--count N] [--part I/N] [--among FOLDERS] [--only ID] [--list]
                         [--again FILE] [--whole] [--results FILE [--go-on]]

FOLDER is made: a copy of the sources and two builds of it; the working tree is never touched. The operators
below and the seed (1) were fixed before the tests that answer them were written; another seed is for the
closing figure. A mutant whose object code is that of the original is equivalent and not counted; another
one is drawn in its place. A mutant that leaves the tests green is a survivor. Equivalents that a person
has argued stand in equivalents.txt beside this file, by their line's text, and are told apart.

One of the builds counts which functions each suite enters; the suites that enter a mutant's function judge
it, those of its folder first, then quick ones before slow ones. What takes long (SLOW_S, the label `slow`)
is left out. `--again FILE` judges only those that survived in the results of an earlier run, wherever their
line stands today, so that a draw stays the same while tests are written; now suites beyond SLOW_S judge too,
and those that enter the function once more with the address and undefined-behaviour sanitizers, as .ci/run
has them. With `--whole` the label `slow` keeps nothing out.

A mutant that does not end is stopped by processor time, not by the clock on the wall; one that sleeps for ever, as by a lock that
nobody opens, ends with the longest wait of every test (tests/tools/patience.h).
"""
import argparse
import copy
import hashlib
import json
import os
import pathlib
import random
import re
import resource
import select
import shutil
import signal
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
sys.path.append(str(ROOT / "tests" / "tools"))
import patience  # noqa: E402
FOLDERS = ("model", "kinetics", "timeline", "optics", "estimate", "plan", "clock", "log", "scene")
QUICK_S, SLOW_S = 2.2, 6.0  # in the build that counts; above the first only suites that know the folder judge, above
                            # the second none, but under --again
BATCHES_S = (0.8, 4.0)   # suites of about so many seconds are built and run in one call; the rest in one more
PATIENCE = 6             # suites that take so many times the seconds that they took, and as many more, do not end
MEMORY_BYTES = 6 << 30   # a mutant that asks for ever more is stopped too

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
    "model": "model leave kinetics plan limits shipped scene checks_current form",
    "kinetics": "kinetics phases timeline closed_forms chemistry cvode_events trade_limits trade_regressions checks_current "
                "spread scipy net_ensemble cvode random_scenes members_scipy faults",
    "timeline": "timeline stains estimate report closed_forms golden_csv golden_json net_ensemble random_scenes",
    "optics": "optics colour viewing chart lift_look stains colour_standards difference_standards kubelka_munk "
              "colour_lcms colour_skimage colour_colorspacious",
    "estimate": "estimate leave strand limits spread draws rank map what_if odds part goal limits_closed intake "
                "trade_limits observation_members verdict_cases draws_scipy random_leave minute net_ensemble observation net_commands odds_scipy "
                "random_people limits_words members_scipy threads cvode_events",
    "plan": "plan timetable order cost pair pages net_general random_plans pack",
    "clock": "clock day_words day_view day_keeper",
    "log": "log readings csv looks log_values log_columns compare compare_data compare_edges log_edges log_lost log_leaks log_odd rescue "
           "rescue_pages "
           "seen_curves strand_log log_check compare_scipy log_receipts day_keeper net_commands log_commands log_memory hostile_logs day_terminal",
    "scene": "scene scene_files fingerprint quantity form_file weakest bad_files shipped colour_files part leave model scene_memory colour_words form lesson "
             "net_commands folders",
}
LATE = "limits_words hostile_logs pack folders scene_damaged"  # as slow as what is labelled so, where functions are counted
# What looks at sources, texts or a build rather than at what the core does, or needs another house than a mutant's.
NEVER = re.compile(r"screen_|picture|valgrind|german|scene_locale|installed|rule|readability|exports|layers|language|"
                   r"killed|mutants|fuzz|hardening|version|patience|answers_of|starved|signals|memory_long")


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
        for path in sorted((ROOT / "src" / folder).rglob("*.[ch]"), key=lambda path: path.name):  # wherever in it a file lies
            name = str(path.relative_to(ROOT))
            found += [(name,) + site for site in sites_of(path)]
    return found


def limited():
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY_BYTES, MEMORY_BYTES))


def of_session(session):
    """(process, the seconds of a processor that it and those it waited for have taken) of each process."""
    found = []
    for stat in pathlib.Path("/proc").glob("[0-9]*/stat"):
        try:
            words = stat.read_text().rsplit(")", 1)[1].split()
        except OSError:  # it ended
            continue
        if int(words[3]) == session:
            found.append((int(stat.parent.name), sum(map(int, words[11:15])) / os.sysconf("SC_CLK_TCK")))
    return found


def end_session(session):
    """Each of its processes: a suite puts those of its tests into groups of their own."""
    for process, _ in of_session(session):
        try:
            os.kill(process, signal.SIGKILL)
        except ProcessLookupError:
            pass


def copied(target):
    """The sources as they stand, taken over where they differ."""
    listed = subprocess.run(["git", "ls-files", "-z"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    for name in filter(None, listed.split("\0")):
        old, new = ROOT / name, target / name
        if old.is_file() and (not new.exists() or new.read_bytes() != old.read_bytes()):
            new.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(old, new)


def configured(source, build, flags, targets=(), sanitize=""):
    if not (build / "CMakeCache.txt").exists():
        tools = ["-G", "Ninja"] if shutil.which("ninja") and "CMAKE_GENERATOR" not in os.environ else []
        tools += ["-DCMAKE_EXE_LINKER_FLAGS=-fuse-ld=mold"] if shutil.which("mold") else []
        tools += ["-DCMAKE_C_COMPILER=clang"] if sanitize else []  # GCC warns of more where it is sanitized
        subprocess.run(["cmake", "-S", source, "-B", build, *tools, "-DCMAKE_BUILD_TYPE=Debug",
                        f"-DCMAKE_C_FLAGS_DEBUG={flags}", "-DSLOWLIFT_SHARED=OFF", f"-DSLOWLIFT_SANITIZE={sanitize}"],
                       check=True, stdout=subprocess.DEVNULL)
    wanted = ["--target", *sorted(targets)] if targets else []
    subprocess.run(["cmake", "--build", build, "-j2", *wanted], check=True, stdout=subprocess.DEVNULL)


def tests_of(build):
    """The tests that may judge, by their names; one whose program is not built yet has no command."""
    told = subprocess.run(["ctest", "--test-dir", build, "--show-only=json-v1"], capture_output=True, text=True, check=True)
    return {test["name"]: test for test in json.loads(told.stdout)["tests"] if not NEVER.search(test["name"])}


def labels_of(test):
    return next((p["value"] for p in test["properties"] if p["name"] == "LABELS"), [])


def functions_entered(build, counts):
    """{source: [(first line, last line)]} of the functions that the counts below a folder saw entered. One that was put
    in where it is called has no count of its own: it was entered when any of its lines was."""
    found, where = {}, counts / str(build).lstrip("/")
    data = sorted(where.rglob("*.gcda"))
    for file in data:  # gcov wants the notes beside the counts
        notes = file.with_suffix(".gcno")
        if not notes.exists():
            notes.symlink_to(build / notes.relative_to(where))
    told = subprocess.run(["gcov", "--json-format", "--stdout", *data], capture_output=True, text=True, cwd=counts)
    for line in filter(None, told.stdout.splitlines()):
        for file in json.loads(line)["files"]:
            name = file["file"].split("/source/")[-1]
            if name.startswith("src/") and name.endswith((".c", ".h")):
                spans = found.setdefault(name, set())
                counted = [at["line_number"] for at in file["lines"] if at["count"]]
                spans.update((f["start_line"], f["end_line"]) for f in file["functions"]
                             if f["execution_count"] or any(f["start_line"] <= line <= f["end_line"] for line in counted))
                spans.update((line, line) for line in counted
                             if not any(first <= line <= last for first, last in spans))
    return {name: sorted(spans) for name, spans in found.items()}


class House:
    """A copy of the sources with a build, in which mutants live and die, and what each suite takes and enters."""

    names = {"slowlift_program": "slowlift", "slowlift_watch": "slowlift-watch", "slowlift_paper": "slowlift-paper"}

    def __init__(self, folder, whole, patient):
        self.source, self.build, self.whole = folder / "source", folder / "build", whole
        self.patient = whole or patient  # long suites judge, and sanitized ones
        self.folder, self.sound, self.limits, self.twin = folder, set(), limited, None
        folder.mkdir(parents=True, exist_ok=True)
        copied(self.source)
        configured(self.source, self.build, "-O1")
        self.tests = {name: test for name, test in tests_of(self.build).items() if test.get("command")}
        self.measured = self.measure()

    def sanitized(self):
        """The same sources and suites in another build: what reads behind an array may go well in this one."""
        if not self.twin:
            self.twin = copy.copy(self)  # without a limit of memory: a sanitizer asks for addresses without end
            self.twin.build, self.twin.sound, self.twin.limits = self.folder / "sanitized", set(), None
            configured(self.source, self.twin.build, "-O1 -g1", {"slowlift"}, "address,undefined")
            there = lambda word: word.replace(str(self.build), str(self.twin.build), 1)
            self.twin.tests = {name: {**self.tests[name], "command": list(map(there, self.tests[name]["command"]))}
                               for name in tests_of(self.twin.build) if name in self.tests}
            self.twin.measured = {name: told for name, told in self.measured.items() if name in self.twin.tests}
        return self.twin

    def is_quick(self, name):
        """What judges without --whole: programs of C, and the others that FIRST names; not what is labelled slow."""
        program = self.tests[name]["command"][0].startswith(str(self.build) + "/")
        named = any(name in names.split() for names in FIRST.values())
        return (program or named) and "slow" not in labels_of(self.tests[name]) and name not in LATE.split()

    def measure(self):
        """{suite: {"s": seconds, "entered": ...}}: every suite run once, as it stands, in the build that counts."""
        counting, kept = self.folder / "counting", self.folder / "measured.json"
        asked = {name: self.state(name) for name in self.tests if self.whole or self.is_quick(name)}
        had = json.loads(kept.read_text()) if kept.exists() else {}
        new = [name for name in asked if had.get(name, {}).get("state") != asked[name]]
        if new:
            configured(self.source, counting, "-O0 --coverage", {target for name in new for target in self.targets(name)})
        for name in new:
            counts = self.folder / "counts" / name
            shutil.rmtree(counts, ignore_errors=True)
            counts.mkdir(parents=True)
            before = os.times()
            subprocess.run(["ctest", "--test-dir", counting, "-R", f"^{re.escape(name)}$"], capture_output=True,
                           env={**os.environ, "GCOV_PREFIX": str(counts)}, start_new_session=True)
            took = os.times()
            had[name] = {"state": asked[name], "entered": functions_entered(counting, counts),
                         "s": took.children_user + took.children_system - before.children_user - before.children_system}
            shutil.rmtree(counts)
            kept.write_text(json.dumps(had))
        return {name: had[name] for name in asked}

    def state(self, suite):
        """What changes when a suite, or a program that it runs, is not what it was."""
        paths = [self.build / self.names.get(target, target) for target in self.targets(suite)]
        paths += [pathlib.Path(word) for word in self.tests[suite]["command"]]
        return hashlib.sha256(b"".join(path.read_bytes() for path in paths if path.is_file())).hexdigest()

    def enters(self, suite, name, line):
        spans = self.measured[suite]["entered"].get(name, []) if suite in self.measured else []
        return any(first <= line <= last for first, last in spans)

    def order(self, name, line):
        """Suites for a mutant in this line: that of its file, those of its folder, then quick ones before slow ones."""
        folder, stem = name.split("/")[1], pathlib.Path(name).stem
        own = FIRST[folder].split()
        like = lambda s: s == stem or stem.startswith(s + "_") or s.startswith(stem + "_")
        seconds = lambda s: self.measured[s]["s"]
        entering = [s for s in self.measured if self.enters(s, name, line)]
        quick = [s for s in entering if self.patient or s == folder or
                 seconds(s) <= (SLOW_S if s in own[:6] or like(s) else QUICK_S)]
        quick.sort(key=lambda s: (seconds(s) > SLOW_S, not like(s), seconds(s) > 1.0,
                                  own.index(s) if s in own else len(own), seconds(s)))
        return quick

    def batches(self, suites):
        """The same suites, a few to a call: cheap calls first."""
        cut, sums, limits = [[]], 0.0, list(BATCHES_S)
        for suite in suites:
            if limits and sums > limits[0]:
                limits.pop(0)
                cut.append([])
                sums = 0.0
            cut[-1].append(suite)
            sums += self.measured[suite]["s"]
        return [batch for batch in cut if batch]

    def targets(self, test):
        """The programs of the build that a test runs, by the names that make knows."""
        words = self.tests[test]["command"]
        base = [pathlib.Path(word).name for word in words if pathlib.Path(word).parent == self.build]  # not what it reads
        if any(word == str(self.build) for word in words):
            whole = not re.search("net_(commands|general|ensemble)", test)
            base += ["slowlift", "net_ensemble", *(["slowlift-watch", "slowlift-paper"] if whole else [])]
        own = {program: target for target, program in self.names.items()}
        return [own.get(name, name) for name in base if not name.startswith("lib")]

    def makes(self, suites, others=()):
        targets = sorted({*others, *(target for suite in suites for target in self.targets(suite))})
        return not targets or subprocess.run(["cmake", "--build", self.build, "-j2", "--target", *targets],
                                             capture_output=True, text=True).returncode == 0

    def failing(self, suites):
        """The first of the suites that fails, or an empty word."""
        wanted = "|".join(map(re.escape, suites))
        most = PATIENCE * (1 + sum(self.measured[suite]["s"] for suite in suites))
        with tempfile.TemporaryFile("w+") as said:
            ran = subprocess.Popen(["ctest", "--test-dir", self.build, "-R", f"^({wanted})$", "--stop-on-failure", "-FA", ".*",
                                    "--timeout", str(patience.WAIT_S)],
                                   stdout=said, stderr=subprocess.DEVNULL, preexec_fn=self.limits, start_new_session=True)
            end = os.pidfd_open(ran.pid)
            while not select.select([end], [], [], 0.5)[0]:  # it can be read from when the process has ended
                if sum(seconds for _, seconds in of_session(ran.pid)) > most:
                    end_session(ran.pid)
            os.close(end)
            ran.wait()
            said.seek(0)
            text = said.read()
        end_session(ran.pid)  # what a suite left behind
        if ran.returncode == 0:
            return ""
        told = re.search(r"^\s*\d+ - (\S+) \(", text, flags=re.M) or re.search(r"Start +\d+: (\S+)\n?\Z", text)
        return told.group(1) if told else suites[0]

    def objects_of(self, name):
        """What is made of a source; of a header, all of its folder: functions in it become part of who includes it."""
        objects = f"{name}.o" if name.endswith(".c") else f"{pathlib.Path(name).parent}/*.o"
        return sorted((self.build / "CMakeFiles").glob(f"*.dir/{objects}"))


def fails_by(house, name, number):
    """The first suite that fails, built with what stands in the sources; None: it does not compile."""
    for batch in house.batches(house.order(name, number + 1)):
        if not house.makes(batch):
            return None
        by = house.failing(batch)
        if by:
            return by
    return ""


def verdict_of(house, name, number):
    """(verdict, the suite that fails) of the sources as they stand, with a mutant in this line."""
    library = next(part for part in house.objects_of(name)[0].parts if part.endswith(".dir"))[:-len(".dir")]
    before = [path.read_bytes() for path in house.objects_of(name)]
    if not house.makes([], [library]):
        return "does not compile", ""
    if [path.read_bytes() for path in house.objects_of(name)] == before:
        return "same code", ""
    by = fails_by(house, name, number)
    if by is None:
        return "does not compile", ""
    if by:
        return "caught", by
    return "survived", "" if house.order(name, number + 1) else "no suite enters it"


def judge(house, site):
    name, number, operator, column, new = site
    path = house.source / name
    original = path.read_text()
    lines = original.split("\n")
    lines[number] = new
    try:
        path.write_text("\n".join(lines))
        verdict, by = verdict_of(house, name, number)
    finally:
        path.write_text(original)
    if verdict == "survived" and house.patient:
        house = house.sanitized()
        try:
            path.write_text("\n".join(lines))
            found = fails_by(house, name, number)
        finally:
            path.write_text(original)
        verdict, by = ("caught", found) if found else (verdict, by)
    if verdict == "caught" and by not in house.sound:  # the first that it catches: it must pass without
        if not house.makes([by]) or house.failing([by]):
            sys.exit(f"{by} fails without any mutant")
        house.sound.add(by)
    return verdict, by


def argued():
    path = pathlib.Path(__file__).with_name("equivalents.txt")
    if not path.exists():
        return set()
    return {tuple(line.split("\t")[:3]) for line in path.read_text().splitlines() if line and not line.startswith("#")}


def found_again(row, sites):
    """Where a mutant of an earlier run stands today: the same file, operator, line and change, nearest to where it was."""
    name, line, operator = row[2].split(":")
    same = [s for s in sites if s[0] == name and s[2] == operator and s[4].strip() == row[4] and
            (ROOT / name).read_text().split("\n")[s[1]].strip() == row[3]]
    return min(same, key=lambda s: abs(s[1] + 1 - int(line)), default=None)


def judged_before(path, sites):
    """The rows of a run that was broken off, then the sites that follow the last of them."""
    rows = [tuple(line.split("\t")) for line in path.read_text().splitlines()]
    names = [f"{site[0]}:{site[1] + 1}:{site[2]}" for row, site in sites]
    ends = {(name, site[4].strip()): i for i, (name, (row, site)) in enumerate(zip(names, sites))}
    last = max((ends[row[2], row[4]] for row in rows), default=-1)
    return [(row, None) for row in rows] + sites[last + 1:]


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--part", default="1/1", help="I/N: every N-th of the drawn ones, to share among processors")
    parser.add_argument("--among", help="folders with commas between: those of the drawn ones that lie there")
    parser.add_argument("--only", help="FILE:LINE:OPERATOR, judged alone")
    parser.add_argument("--list", action="store_true", help="say which would be drawn, and end")
    parser.add_argument("--again", type=pathlib.Path, help="results of an earlier run: judge its survivors anew, keep the rest")
    parser.add_argument("--whole", action="store_true", help="slow suites too, and those that do not enter the function")
    parser.add_argument("--results", type=pathlib.Path, help="a line for each mutant, as it is judged")
    parser.add_argument("--go-on", action="store_true", help="after the last one in --results, which are kept")
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
    known, told = argued(), {"caught": 0, "survived": 0, "equivalent": 0}
    kept = [tuple(line.split("\t")) for line in asked.again.read_text().splitlines()] if asked.again else []
    if kept:
        sites, wanted = [(row, found_again(row, sites)) for row in kept], len(kept)
    else:
        sites = [(None, site) for site in sites]
    house = House(asked.folder.resolve(), asked.whole, bool(kept))
    if asked.go_on and asked.results.exists():
        sites = judged_before(asked.results, sites)
    results = asked.results.open("w") if asked.results else None
    for row, site in sites:
        if sum(told.values()) >= wanted:
            break
        if row and (row[0] == "caught" or not site or asked.go_on):
            verdict, by, where, old, new = row
        else:
            name, number, operator, column, new = site
            old = (house.source / name).read_text().split("\n")[number].strip()
            is_argued = (name, operator, old) in known
            verdict, by = ("survived", "") if is_argued and row else judge(house, site)
            if verdict in ("does not compile", "same code"):
                continue
            where, new = f"{name}:{number + 1}:{operator}", new.strip()
            if verdict == "survived" and is_argued:
                verdict = "equivalent"
        told[verdict] += 1
        line = "\t".join((verdict, by, where, old, new))
        print(line, flush=True)
        if results:
            print(line, file=results, flush=True)
    counted = told["caught"] + told["survived"]
    print(f"seed {asked.seed}: {told['caught']} of {counted} caught, {told['equivalent']} argued as equivalent")
    return 0 if counted and told["caught"] >= 0.9 * counted else 1


if __name__ == "__main__":
    sys.exit(main())
