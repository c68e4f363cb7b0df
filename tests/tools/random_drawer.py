# SPDX-License-Identifier: GPL-3.0-or-later
"""Random calls about one random world, and the last minute that each may tell."""
import math
import re
import shutil

import leave_rules
from random_judge import NEVER


class Call:
    """last: {arm or None: last minute or NEVER}; refused: exit 2, and nothing said; head: how the names of
    numbers of a head begin; labels: {arm: when its label ends, or 0 for hair on which no mix goes}, for looks that are planned."""

    def __init__(self, command, words, last, form="text", refused=False, typed="", made=None, planned=None, head=None, labels=None):
        self.command, self.words, self.last, self.form, self.refused = command, words, last, form, refused
        self.typed, self.made, self.planned, self.head, self.labels = typed, made, planned, head, labels


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
        told = (asked.label_min, asked.form.label_min if asked.form else None)
        labels = {arm["name"]: 0.0 if asked.heats() else self.scene.label_end(arm, *told) for arm in self.scene.arms}
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
        return Call("limits", ["limits", self.file, *words], last, form, labels=labels)

    def answer(self):
        words, asked = self.asked()
        form = self.chance.choice(["text", "json"])
        last = {arm["name"]: asked.last_minute(arm) for arm in self.scene.arms}
        words += ["--strip", self.chance.choice(["one", "1"])] if self.often(0.2) else []
        words += ["--zone", "blue"] if self.often(0.3) else []
        words += ["--same-colour"] if self.often(0.3) else []
        words += ["--science"] if self.often(0.1) else []
        members = ["600", "2000"] if "--strand" in words else ["150", "300"]
        words += ["--members", self.chance.choice(members), "--threads", "1", *(["--json"] if form == "json" else [])]
        return Call("answer", ["answer", self.file, *words], last, form)

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
            return Call("watch --day", ["watch", "--size", "1280x800", "--say", "N,A,W,Q,Right,F1,Escape,Space,Space,1,D", "--day", "copy.db"], {None: NEVER})
        if kind < 0.5 and self.world.log is not None:
            bench = not self.log.somebody() and not self.log.scene(self.world.test).is_head()
            return Call("watch --seen", ["watch", "--size", "1280x800", "--say", "Return,Z,Escape,Q,Escape,E", "--seen", "log.db"], {None: math.inf if bench else NEVER})
        head = self.scene.is_head()
        keys = self.chance.choice(["Return,C,E,N,Escape", "Return,W,E,4", "C,M,Escape,Z,Q,Escape", "Return,F,Escape,E"])
        words = ["watch", "--size", "1280x800", "--say", keys, self.file]
        words += ["--strand", "log.db"] if self.world.log is not None else []
        return Call("watch", words, {None: NEVER if head else math.inf})

    KINDS = {"limits": 40, "answer": 12, "run": 9, "what_if": 8, "map": 3, "rank": 6, "search": 4, "plan": 4, "cost": 2, "mix": 1, "check": 1,
             "of_log": 12, "lesson": 3, "pack": 0.5, "picture": 0.5, "watch": 2}

    def next(self):
        kind = self.chance.choices(list(self.KINDS), list(self.KINDS.values()))[0]
        return getattr(self, kind)()
