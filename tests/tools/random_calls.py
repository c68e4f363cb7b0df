#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Random calls of the program, each read by what kind its minutes are and never by its words: a minute of the model stands where
leave_rules.py finds, from the files alone, that it may, and none later than it may.

    random_calls.py BUILD SOURCE [--count N] [--seed N] [--table]

Beside that: exit codes that are documented, one line on stderr for each fault, no minute printed without its kind, nothing called
safe. The opposite is asked too: a minute that may be told is told in a share of the calls. --table prints docs/robustness.md's rows.
"""
import argparse
import collections
import concurrent.futures
import csv
import io
import json
import math
import os
import pathlib
import random
import re
import shutil
import sys
import tempfile

import leave_rules
import patience
import random_cases

sys.path.append(str(pathlib.Path(__file__).resolve().parents[1] / "net"))
import reader

CALLS_OF_WORLD = 20
SHOWN = 200  # faults
SPAN = re.compile(f"([{''.join(reader.KINDS)}])([^\u200e]*)\u200e")
UNMARKED = re.compile(r"(?<![\w.])\d+(?:[.,]\d+)?[ \u00a0\n]*min\b(?!/)")
PROMISE = re.compile(r"\b(?:safe|safely|(?<!tu )seguros?|seguras?|inofensiv\w+|harmless)\b", re.I)  # "tu seguro" is insurance
NUMBER = re.compile(r"\d+(?:\.\d+)?")
NEVER = None  # in place of a last minute


class Fault(Exception):
    pass


def want(good, sentence):
    if not good:
        raise Fault(sentence)


class Call:
    """last: {arm or None: last minute or NEVER}; refused: exit 2, and nothing said; head: how the names of numbers of a head begin."""

    def __init__(self, command, words, last, form="text", refused=False, typed="", made=None, planned=None, head=None):
        self.command, self.words, self.last, self.form, self.refused = command, words, last, form, refused
        self.typed, self.made, self.planned, self.head = typed, made, planned, head


class Runner:
    def __init__(self, build, source):
        self.build, self.source = pathlib.Path(build).resolve(), pathlib.Path(source).resolve()
        self.window, self.paper = ((self.build / f"slowlift-{part}").exists() for part in ("watch", "paper"))

    def run(self, folder, words, typed="", **more):
        where = {"PATH": os.environ.get("PATH", "/usr/bin:/bin"), "HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "TZ": "UTC",
                 "LC_ALL": "C.UTF-8", "NO_COLOR": "1", "TERM": "dumb", "SLOWLIFT_MODELS": str(self.source / "models"), "SLOWLIFT_SAY": "kinds"}
        return patience.run([str(self.build / "slowlift"), *words], cwd=folder, env=where | more, input=typed.encode(), capture_output=True)

    def fetch(self, folder):
        def found(kind, name):
            for place in (folder / "models", self.source / "models"):
                if (place / kind / f"{name}.yaml").exists():
                    return (place / kind / f"{name}.yaml").read_text(encoding="utf-8")
            raise FileNotFoundError(name)
        return found


# ---- what is called ------------------------------------------------------------------------------------

class Drawer:
    """Random calls about one world."""

    def __init__(self, world, runner):
        self.world, self.chance, self.runner, self.n = world, world.chance, runner, 0
        self.fetch = runner.fetch(world.folder)
        self.scene = leave_rules.Scene(world.scene.read_text(encoding="utf-8"), self.fetch)
        self.arms = [arm["name"] for arm in self.scene.arms]
        self.file = str(world.scene)
        self.log = leave_rules.Log(world.log) if world.log is not None else None

    def often(self, share):
        return self.chance.random() < share

    def swatches(self, *warmer):
        """For what has no person to ask about: {None: last}."""
        head = any(self.scene.is_head(shift) for shift in (0.0, *warmer))
        return {None: NEVER if head else math.inf}, head

    def machine(self):
        form = self.chance.choice(["text", "text", "csv", "json"])
        return form, [] if form == "text" else [f"--{form}"]

    def asked(self):
        """Options of limits, and whom they ask about."""
        words, who = [], {}
        if self.often(0.25):
            words += ["--label", self.chance.choice(["4min", "20min", "40min"])]
            who["label_min"] = float(words[-1][:-3])
        if self.often(0.1) or not self.scene.aims:
            words += ["--goal", self.chance.choice(["40%", "60%"])]
            who["goal"] = True
        if self.world.form is not None and self.often(0.9):
            words += ["--person", "form.yaml"]
            who["form"] = leave_rules.Form(self.world.form.read_text(encoding="utf-8"))
            if self.world.log is not None and self.often(0.9):
                who["log"], place = self.log, "log.db"
                if self.often(0.3):
                    who["test"], place = self.world.test[:8], place + ":" + self.world.test[:8]
                    if self.often(0.5):
                        who["code"], place = self.world.swatch, place + ":" + self.world.swatch
                words += ["--strand", place]
        return words, leave_rules.Asked(self.scene, today=self.world.today.toordinal(), **who)

    def limits(self):
        words, asked = self.asked()
        form, how = self.machine()
        last = {arm["name"]: asked.last_minute(arm) for arm in self.scene.arms}
        if self.often(0.4):
            words += ["--arm", "one"]
            last = {"one": last["one"]}
        if self.often(0.1):
            words += ["--saw", self.chance.choice(["10 slight", "12 about half blue", "5 slight blue"])]
        if self.often(0.1):
            words += ["--science"]
        # a strand weighs the members, and few are left of few
        members = ["600", "2000", "4000"] if "--strand" in words else ["150", "300", "600"]
        words += ["--members", self.chance.choice(members), "--threads", "1", *how]
        if self.often(0.04):
            return self.in_parts(words, last, form)
        return Call("limits", ["limits", self.file, *words], last, form)

    def in_parts(self, words, last, form):
        """Counted in two parts, which are then added up."""
        counting, telling = [], []
        for at, word in enumerate(words):
            one = word in ("--csv", "--json", "--science")
            if word.startswith("--"):
                both = word in ("--label", "--goal", "--saw", "--person", "--strand")
                for there in ([counting, telling] if both else [telling] if one or word == "--arm" else [counting]):
                    there += [word] if one else words[at:at + 2]
        for part in (1, 2):
            self.runner.run(self.world.folder, ["limits", self.file, *counting, "--part", f"{part}/2", "-o", f"part-{part}"],
                            SLOWLIFT_TODAY=str(self.world.today))
        return Call("limits --merge", ["limits", *telling, "--merge", self.file, "part-1", "part-2"], last, form)

    def run(self):
        last, head = self.swatches()
        form, how = self.machine()
        at = self.chance.choice(["13.7", "17.3", "41.9"])  # of no scene
        words = ["run", self.file, *how, "--at", f"{at}min"]
        words += ["--clock", "contact"] if self.often(0.3) else []
        words += ["--share", self.chance.choice(["30%", "60%"])] if self.often(0.3) else []
        words += ["--colours"] if form == "text" and self.often(0.3) else []
        words += ["--between", "one/blue", "--and", "one/bare"] if form == "text" and self.often(0.2) else []
        return Call("run", words, last, form, refused=head and form != "text", planned=at if head else None)

    def what_if(self):
        words, shift, timed = [], 0.0, False
        for option, values in (("--strength", ["3%", "6%"]), ("--warmer", ["-4K", "5K", "8K"]), ("--age", ["10min"]), ("--grams", ["5"]),
                               ("--time", ["10min", "25min"])):
            if self.often(0.35):
                words += [option, self.chance.choice(values)]
                shift = float(words[-1][:-1]) if option == "--warmer" else shift
                timed = timed or option == "--time"
        if not words:
            words, timed = ["--rounds", "2x10min"], True
        last, head = self.swatches(shift)
        form, how = self.machine()
        return Call("what-if", ["what-if", self.file, "--arm", "one", *words, *how], last, form, refused=head and timed)

    def map(self):
        x, low, high = self.chance.choice([("strength:0..12%", 0.0, 0.0), ("warmer:-5..2K", -5.0, 2.0), ("warmer:0..8K", 0.0, 8.0),
                                           ("age:0..20min", 0.0, 0.0)])
        last, head = self.swatches(low, high)
        form, how = self.machine()
        return Call("map", ["map", self.file, "--arm", "one", "--x", x, *how], last, form, refused=head)

    def rank(self):
        last, head = self.swatches()
        form, how = self.machine()
        words = ["rank", self.file, "--members", "100", "--threads", "1", *how]
        words += ["--at", "10min", "--share", "60%"] if self.often(0.3) else []
        return Call("rank", words, last, form, refused=head)

    def search(self):
        last, head = self.swatches()
        form, how = self.machine()
        return Call("search", ["search", self.file, "--allowed", self.scene.arms[0]["steps"][0]["apply"], *how], last, form, refused=head)

    def plan(self):
        form, how = self.machine()
        words = ["plan", self.file, "--repeats", "1", *how]
        words += self.chance.choice([[], ["--looks", "5min,10min"], ["--ladder", "5min,10min"], ["--people", "2"]])
        return Call("plan", words, {None: NEVER}, form, refused=self.scene.is_head())

    def cost(self):
        form, how = self.machine()
        return Call("cost", ["cost", "school", "--scene", self.file, *how], {None: NEVER}, form, refused=self.scene.is_head())

    def mix(self):
        return Call("mix", ["mix", self.file, "--arm", "one", "--hair", "16g"], {None: NEVER})

    def check(self):
        return Call("check", ["check", self.file], {None: NEVER})

    def of_log(self):
        """What reads a log: the clock of the day, what was seen, the log itself."""
        if self.world.log is None:
            return self.limits()
        kept = self.world.folder / "copy.db"
        shutil.copyfile(self.world.log, kept)
        bench = {None: NEVER if self.log.somebody() or self.log.scene(self.world.test).is_head() else math.inf}
        form, how = self.machine()
        never = {None: NEVER}
        return self.chance.choice([
            Call("compare", ["compare", "copy.db", *how], bench, form), Call("compare", ["compare", "copy.db", *how], bench, form),
            Call("day", ["day", "copy.db", "--plain"], never, typed="l\np\n1\np\n?\nq\n"), Call("day --stops", ["day", "copy.db", "--stops"], never),
            Call("day --summary", ["day", "copy.db", "--summary"], never), Call("log show", ["log", "show", "copy.db", self.world.test[:8]], never),
            Call("log export", ["log", "export", "copy.db", "--json"], never, "kept")])

    def lesson(self, in_window=False):
        """A shipped lesson whose scenes were moved to where this world's hair lies."""
        name = self.chance.choice(sorted(path.name for path in (self.runner.source / "lessons").iterdir() if (path / "lesson.yaml").exists()))
        lessons = self.world.folder / "lessons"
        shutil.rmtree(lessons, ignore_errors=True)
        shutil.copytree(self.runner.source / "lessons" / name, lessons / name)
        where = self.chance.choice(["", "lies: head", "lies: wrapped", "room: 31 °C", "person: K12"])
        key = where.split(":")[0]
        for path in (lessons / name).glob("*.yaml"):
            text = path.read_text(encoding="utf-8")
            if where and re.search("^kind: scene", text, re.M):
                text = re.sub(f"^{key}: .*", where, text, flags=re.M) if key != "person" else text.replace("kind: scene\n", f"kind: scene\n{where}\n")
                path.write_text(text, encoding="utf-8")
        last = {None: NEVER if where else math.inf}
        if self.often(0.4):  # its scenes stay, and numbers of another one, elsewhere, come in beside
            return self.lesson_with_a_head(name, where or "lies: head")
        if in_window:
            keys = ",".join(["1", "Return"] * 20)
            return Call("watch --lesson", ["watch", "--size", "1280x800", "--models", "models", "--say", keys, "--lesson", name], last)
        if self.often(0.5):
            return Call("check --numbers", ["check", "--models", "models", "--numbers", f"lessons/{name}/lesson.yaml"], last)
        return Call("teach", ["teach", name, "--models", "models", *(["--educator"] if self.often(0.3) else [])], last, typed="\n1\n\n" * 14 + "\n" * 20)

    def lesson_with_a_head(self, name, where):
        folder = self.world.folder / "lessons" / name
        shutil.rmtree(folder)
        shutil.copytree(self.runner.source / "lessons" / name, folder)
        text = (folder / "lesson.yaml").read_text(encoding="utf-8")
        first = re.search(r"^scenes: \{(\w+): ([\w-]+)", text, re.M)
        scene = (folder / f"{first[2]}.yaml").read_text(encoding="utf-8")
        key = where.split(":")[0]
        scene = re.sub(f"^{key}: .*\n", "", scene, flags=re.M).replace("kind: scene\n", f"kind: scene\n{where}\n")
        (folder / "elsewhere.yaml").write_text(scene, encoding="utf-8")
        found = re.findall(r"^( +- \{name: )(\w+)(, scene: )" + first[1] + r"(, .*what: (?!warmth|bench).*)$", text, re.M)
        more = "".join(f"{a}h_{b}{c}elsewhere{d}\n" for a, b, c, d in found)
        text = text.replace(first[0], f"scenes: {{elsewhere: elsewhere, {first[1]}: {first[2]}").replace("\nclaims:", f"{more}\nclaims:", 1)
        (folder / "lesson.yaml").write_text(text, encoding="utf-8")
        return Call("check --numbers", ["check", "--models", "models", "--numbers", f"lessons/{name}/lesson.yaml"], {None: math.inf}, head="h_")

    def pack(self):
        if not self.runner.paper:
            return self.plan()
        self.n += 1
        return Call("pack", ["pack", self.file, "--repeats", "1", "-o", f"pack-{self.n}"], {None: NEVER}, "html", refused=self.scene.is_head(),
                    made=f"pack-{self.n}")

    def picture(self):
        if not self.runner.paper or not shutil.which("pdftotext"):
            return self.run()
        head = self.scene.is_head()
        return Call("picture", ["picture", self.file, "--at", "0min,17min", "-o", "sheet.pdf"], {None: NEVER if head else math.inf}, "pdf", made="sheet.pdf")

    def watch(self):
        if not self.runner.window:
            return self.run()
        kind = self.chance.random()
        if kind < 0.2:
            return self.lesson(in_window=True)
        if kind < 0.4 and self.world.log is not None:
            shutil.copyfile(self.world.log, self.world.folder / "copy.db")
            return Call("watch --day", ["watch", "--size", "1280x800", "--say", "N,A,W,P,Right,F1,Escape,Space,1,D", "--day", "copy.db"], {None: NEVER})
        if kind < 0.5 and self.world.log is not None:
            bench = not self.log.somebody() and not self.log.scene(self.world.test).is_head()
            return Call("watch --seen", ["watch", "--size", "1280x800", "--say", "Return,P,Escape,E", "--seen", "log.db"], {None: math.inf if bench else NEVER})
        head = self.scene.is_head()
        keys = self.chance.choice(["Return,C,E,N,Escape", "Return,W,E,4", "C,M,Escape,P,Escape", "Return,F,Escape,E"])
        words = ["watch", "--size", "1280x800", "--say", keys, self.file]
        words += ["--strand", "log.db"] if self.world.log is not None else []
        return Call("watch", words, {None: NEVER if head else math.inf})

    KINDS = {"limits": 40, "run": 9, "what_if": 8, "map": 3, "rank": 6, "search": 4, "plan": 4, "cost": 2, "mix": 1, "check": 1,
             "of_log": 12, "lesson": 3, "pack": 0.5, "picture": 0.5, "watch": 2}

    def next(self):
        kind = self.chance.choices(list(self.KINDS), list(self.KINDS.values()))[0]
        return getattr(self, kind)()


# ---- what is read ----------------------------------------------------------------------------------------

class Said:
    """The minutes of one output: {kind: [(arm or None, numbers)]}."""

    def __init__(self):
        self.minutes = collections.defaultdict(list)

    def put(self, kind, arm, numbers):
        self.minutes[kind].append((arm, numbers))

    def spans(self, text):
        for mark, words in SPAN.findall(text):
            self.put(reader.KINDS[mark], None, [float(n) for n in NUMBER.findall(words)])

    def text(self, text):
        self.spans(text)
        rest = SPAN.sub("", text)
        want(not any(mark in rest for mark in reader.MARKS), "a mark of a kind that does not end")
        bare = UNMARKED.search(rest)
        want(bare is None, f"a minute without a kind: {bare and rest[max(0, bare.start() - 60):bare.end() + 20]!r}")

    def csv(self, text):
        rows = list(csv.reader(io.StringIO(text)))
        want(rows and all(len(row) == len(rows[0]) for row in rows), "rows of unequal length")
        head = [self.key(name) for name in rows[0]]
        names = [name for name, _ in head]
        for row in rows[1:]:
            quantity = self.key(row[names.index("quantity")]) if "quantity" in names else ("", None)
            arm = row[names.index("arm")] if "arm" in names else None
            for (name, kind), cell in zip(head, row):
                if kind or (quantity[1] and name in ("value", "before", "after")):
                    self.put(kind or quantity[1], arm, [float(n) for n in NUMBER.findall(cell)])

    def key(self, name):
        """(name, kind) of a machine's key; a minute's key names its kind."""
        kind = reader.KINDS.get(name[-1:])
        name = name.rstrip("".join(reader.KINDS))
        minute = name.endswith(("_min", "minute")) and not name.endswith("per_min")
        want(kind is not None or not minute, f"a machine's minute without a kind: {name}")
        return name, kind

    def json(self, text):
        self.walk(json.loads(text), None, None)

    def walk(self, value, arm, kind):
        if isinstance(value, dict):
            arm = value.get("arm", arm) if isinstance(value.get("arm", arm), (str, type(None))) else arm
            for name, inner in value.items():
                holds = isinstance(inner, (int, float)) and not isinstance(inner, bool)
                plain, own = self.key(name) if holds or name[-1:] in reader.KINDS else (name, None)
                self.walk(inner, arm, own or kind)
        elif isinstance(value, list):
            for inner in value:
                self.walk(inner, arm, kind)
        elif kind and isinstance(value, (int, float)) and not isinstance(value, bool):
            self.put(kind, arm, [float(value)])


def read(call, done, folder):
    said, out = Said(), done.stdout.decode()
    if call.form == "csv" and out:
        said.csv(out)
    elif call.form == "json" and out:
        said.json(out)
    elif call.form == "html":
        for page in sorted((folder / call.made).glob("*.html")):
            said.text(re.sub(r"<[^>]*>", " ", page.read_text(encoding="utf-8")))
        shutil.rmtree(folder / call.made, ignore_errors=True)
    elif call.form == "kept":  # is read back by log import, so its keys are those of the log's columns
        json.loads(out)
    elif call.form == "pdf":  # its letters have no marks; on a head it has no minute at all
        words = patience.run(["pdftotext", "-raw", "-enc", "UTF-8", str(folder / call.made), "-"], capture_output=True).stdout.decode()
        minute = UNMARKED.search(words) if call.last[None] is NEVER else None
        want(minute is None, f"a minute on a sheet of a head: {minute and minute[0]}")
    else:
        said.text(out)
    return said


def judge(call, done, folder):
    """What is false of a call, as a Fault; else its minutes."""
    out, err = done.stdout.decode(), done.stderr.decode()
    lines = [line for line in err.split("\n") if line.strip()]
    want(done.returncode in (0, 1, 2), f"exit {done.returncode}")
    want(all(line.startswith("slowlift: ") for line in lines), f"a line on stderr that is none of ours: {err!r}")
    want(done.returncode == 0 or len(lines) == 1, f"exit {done.returncode} with {len(lines)} lines on stderr: {err!r}")
    want(not call.refused or (done.returncode == 2 and not out), f"not refused: exit {done.returncode}, {out[:200]!r}")
    promise = PROMISE.search(out + err)
    want(promise is None, f"a promise: {promise and promise[0]}")
    said = Said() if done.returncode != 0 and call.form in ("kept", "html", "pdf") else read(call, done, folder)
    said.spans(err)
    for line in out.split("\n") if call.head and done.returncode == 0 else []:
        model = any(reader.KINDS[mark] == "model" for mark, _ in SPAN.findall(line))
        want(not line.strip().startswith(call.head) or not model, f"a number of a head is a minute: {line}")
    ends = [last for last in call.last.values() if last is not NEVER]
    for arm, numbers in said.minutes["model"]:
        last = call.last[arm] if arm in call.last else max(ends, default=NEVER)
        want(last is not NEVER, f"a minute of the model where none may be told: {arm}, {numbers}")
        want(all(n <= last + 1e-9 for n in numbers), f"a minute of the model after {last}: {arm}, {numbers}")
    for _, numbers in said.minutes["planned"]:
        want(call.planned is None or float(call.planned) not in numbers, f"told by the minute on a head: {call.planned}")
    return said


# ---- all of them --------------------------------------------------------------------------------------------

class Tally:
    FIELDS = ("calls", "exit 0", "refused", "may", "told", "planned", "clock", "model")

    def __init__(self):
        self.of = collections.defaultdict(collections.Counter)

    def put(self, name, call, done, said):
        may = any(last is not NEVER for last in call.last.values())
        row = collections.Counter({"calls": 1, "exit 0": done.returncode == 0, "refused": done.returncode == 2, "may": may,
                                   "told": may and bool(said.minutes["model"])})
        row.update({kind: len(found) for kind, found in said.minutes.items()})
        self.of[name].update(row)

    def add(self, other):
        for name, row in other.of.items():
            self.of[name].update(row)

    def lines(self):
        yield "| command | " + " | ".join(self.FIELDS) + " |"
        yield "|---" * (len(self.FIELDS) + 1) + "|"
        total = sum(self.of.values(), collections.Counter())
        for name, row in [*sorted(self.of.items()), ("all", total)]:
            yield f"| `{name}` | " + " | ".join(f"{row[field]:,}" for field in self.FIELDS) + " |"


def world_of(number, seed, runner, calls):
    """Calls about one world: (tally, faults)."""
    chance, tally, faults = random.Random(f"{seed}.{number}"), Tally(), []
    with tempfile.TemporaryDirectory(prefix="slowlift-calls-") as name:
        folder = pathlib.Path(name)
        world = random_cases.World(chance, folder, lambda words, typed="", **more: runner.run(folder, words, typed, **more))
        drawer = Drawer(world, runner)
        for at in range(calls):
            call = drawer.next()
            words = ["--language", chance.choice(["en", "es"]), *call.words]
            done = runner.run(folder, words, call.typed, SLOWLIFT_TODAY=str(world.today))
            person = "--person" in call.words
            try:
                tally.put(call.command + (" --person" if person else ""), call, done, judge(call, done, folder))
            except Fault as fault:
                faults.append(f"world {number}, call {at}: {fault}\n  slowlift {' '.join(words).replace(name, '.')}\n"
                              f"  faults {world.faults}, gaps {world.gaps}, today {world.today}, last {call.last}")
    return tally, faults


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build")
    parser.add_argument("source")
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--world", type=int, help="this one alone")
    parser.add_argument("--table", action="store_true")
    asked = parser.parse_args()
    runner = Runner(asked.build, asked.source)
    worlds = range(math.ceil(asked.count / CALLS_OF_WORLD)) if asked.world is None else [asked.world]
    tally, faults = Tally(), []
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        for one, wrong in pool.map(lambda n: world_of(n, asked.seed, runner, min(CALLS_OF_WORLD, asked.count - n * CALLS_OF_WORLD if asked.world is None else CALLS_OF_WORLD)), worlds):
            tally.add(one)
            faults += wrong
    print("\n".join(tally.lines()) if asked.table else "")
    for fault in faults[:SHOWN]:
        print(f"false: {fault}")
    total = sum(tally.of.values(), collections.Counter())
    person = sum((row for name, row in tally.of.items() if name.endswith("--person")), collections.Counter())
    for what, row in (("swatches", total - person), ("a person", person)):
        print(f"{what}: {row['calls']} calls, {row['may']} in which a minute of the model may be told, {row['told']} in which it is")
    print(f"{total['calls'] + len(faults)} calls, {len(faults)} false")
    both = all(row["told"] > 0 and row["may"] < row["calls"] for row in (total - person, person))
    print("" if both or asked.world is not None else "false: both sides were not met, of swatches and of people")
    return 1 if faults or not (both or asked.world is not None) else 0


if __name__ == "__main__":
    sys.exit(main())
