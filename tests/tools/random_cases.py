# SPDX-License-Identifier: GPL-3.0-or-later
"""Random scenes, forms and logs around the lines at which a minute may no longer be told: 30 °C, a person's code, a label that is
absent or over, an answer that stops, a strand that nearly counts. All of a World lies in one folder and comes from its chance.
"""
import datetime
import pathlib
import sqlite3
import uuid

import yaml

TRIED = datetime.date(2026, 11, 20)  # when strands lay
PERSON, OTHER = "K12", "K13"
MIXES = {"own-a": "powder-3", "own-b": "powder-6", "own-c": "powder-water", "own-r": "two-part-reducing"}
GRADES = ["no change", "slight", "about half", "mostly gone", "ghost only", "as undyed"]
CLEAR = {"practice": "no", "person": PERSON, "age": "34", "label": "45 min", "qualified": "op-1", "part": "nape", "packet_opened": "2026-11-16",
         "lightened": "no", "reacted": "no", "asthma": "no", "sulfite": "no", "doctor": "no", "allergy_test": "yes", "scalp": "no",
         "metallic": "no", "henna": "no", "unknown_past": "no", "treated": "no", "liquids": "yes", "heat": "no", "doer_reacted": "no",
         "strand": "yes", "since_strand": "no"}
REPLIES = [key for key, value in CLEAR.items() if value in ("yes", "no") and key not in ("practice", "lightened")]
GAPS = ["old", "later", "another mix", "let down", "two applications", "not washed", "not graded at the end", "no stretch", "no feel",
        "gummy", "stays long", "breaks", "watched for 10 min", "one look", "not cut", "no part", "another part", "older packet",
        "no packet", "packet of later", "somebody else's", "practice", "rehearsed", "never rinsed", "never on", "stopped for damage",
        "stopped for heat", "warm", "fizzed", "smelt", "another strand was gummy", "end called invalid", "hours later",
        "only an undyed zone", "looked at after the water"]


class Texts(yaml.SafeDumper):
    pass


def text_of(root):
    """As YAML that people could have written: every value plain, lists of one line."""
    return yaml.dump(root, Dumper=Texts, sort_keys=False, allow_unicode=True, width=10000, default_flow_style=None)


Texts.add_representer(str, lambda dumper, word: dumper.represent_scalar(
    "tag:yaml.org,2002:str", word, style='"' if any(c in word for c in ":#+%") or word[:1] in "-[{&*!|>@?" else ""))


class World:
    """One scene with its mixes, perhaps a form, perhaps a log; `program(words)` runs slowlift there."""

    def __init__(self, chance, folder, program):
        self.chance, self.folder, self.program = chance, pathlib.Path(folder), program
        self.gaps, self.faults, self.today, self.swatch = [], [], TRIED + datetime.timedelta(days=9), None
        self.test = self.log = self.form = None
        (self.folder / "models" / "scenes").mkdir(parents=True)
        (self.folder / "models" / "mixes").mkdir()
        self.somebody = chance.random() < 0.5
        self.put_mixes()
        self.scene = self.put("models/scenes/asked.yaml", text_of(self.draw_scene()))
        if self.somebody:
            self.form = self.put("form.yaml", text_of(self.draw_form()))
            if self.often(0.9):
                self.make_log()
        elif self.often(0.3):
            self.make_log()

    def often(self, share):
        return self.chance.random() < share

    def put(self, name, text):
        path = self.folder / name
        path.write_text(text, encoding="utf-8")
        return path

    # ---- the scene

    def put_mixes(self):
        for name, like in MIXES.items():
            root = {"kind": "mix", "version": "1", "title": f"Like {like}", "origin": "drawn by chance, for tests", "like": like}
            if self.often(0.55):
                root["label_longest"] = self.chance.choice(["5 min", "12 min", "30 min", "45 min", "2700 s", "1 h"])
                if self.often(0.5):
                    root["label_counts_from"] = self.chance.choice(["mixing", "application"])
            self.put(f"models/mixes/{name}.yaml", text_of(root))

    def arm(self, name, mix, two=False):
        dwell = self.chance.choice(["10 min", "20 min", "30 min", "40 min", "50 min", "600 s"])
        on = {"apply": mix, "dwell": dwell} | ({"mix_age": self.chance.choice(["0 min", "5 min", "20 min"])} if self.often(0.3) else {})
        steps = [on, {"rinse": "2 min"}]
        if two:
            steps += [{"apply": self.chance.choice([mix, "own-b"]), "dwell": "10 min"}, {"rinse": "2 min"}]
        return {"name": name, "contact": self.chance.choice(["0 s", "45 s"]), "steps": steps + ([{"shampoo": "1"}] if self.often(0.5) else [])}

    def draw_scene(self):
        chance = self.chance
        lies = chance.choices(["bench", "head", "wrapped"], [1, 7, 3] if self.somebody else [7, 2, 1])[0]
        root = {"kind": "scene", "version": "1", "title": "Drawn by chance", "origin": "drawn by chance, for tests", "lies": lies,
                "room": chance.choice(["18 °C", "21 °C", "24 °C", "28 °C", "29.9 °C", "85 °F"] if self.often(0.8) else
                                      ["30 °C", "30.1 °C", "86 °F", "31 °C", "35 °C"])}
        if self.often(0.09):
            root["temperature"] = [["0 min", chance.choice(["22 °C", "29.9 °C", "31 °C", "34 °C"])],
                                   ["20 min", chance.choice(["24 °C", "29.9 °C", "30 °C", "34 °C", "37 °C", "37.1 °C", "45 °C"])]]
        if self.often(0.12):
            root["person"] = chance.choice([PERSON, PERSON, OTHER])
        root |= {"until": chance.choice(["60 min", "75 min", "90 min"]), "hair_mass": "2 g", "dyes": "bright-one",
                 "zones": [{"name": "blue", "hair": "prelight-9", "dye": {"blue": chance.choice(["7", "9", "11"])}},
                           *([{"name": "violet", "hair": "prelight-9", "dye": {"violet": "9"}}] if self.often(0.3) else []),
                           {"name": "bare", "hair": "prelight-9"}],
                 "application": {"mix_per_hair": "4 g/g", "mix_age": chance.choice(["0 min", "1 min", "5 min", "20 min"])}}
        aims = self.draw_aims()
        if aims:
            root["aims"] = aims
        root["arms"] = [self.arm("one", chance.choice(["own-a", "own-b"]))]
        if self.often(0.4):
            root["arms"].append(self.arm("two", chance.choice(["own-b", "own-c", "own-r"]), two=self.often(0.5)))
        if self.often(0.1):
            root["arms"].append({"name": "nothing"})
        self.root = root
        return root

    def draw_aims(self):
        if self.often(0.05):
            return {}
        aims = {}
        if self.often(0.05):
            aims["next"] = self.chance.choice(["pastel", "same family", "darker"])
        if "next" not in aims or self.often(0.4):
            aims["colour_left"] = self.chance.choice(["30 %", "40 %", "50 %", "60 %", "70 %"])
        for key, words in (("base_moved", ["20 %", "35 %", "50 %"]), ("cystine_lost", ["5 %", "10 %", "15 %"])):
            if self.often(0.97):
                aims[key] = self.chance.choice(words)
        if self.often(0.6):
            aims["longest"] = self.chance.choice(["30 min", "45 min", "50 min"])
        if self.often(0.05):
            aims["zones"] = {"blue": self.chance.choice(["20 %", "60 %", "ignore"])}
        return aims

    # ---- the form

    def draw_form(self):
        root = {"kind": "intake", "version": "1", "title": "Drawn by chance", "origin": "drawn by chance, for tests"} | CLEAR
        root["label"] = self.chance.choice(["15 min", "30 min", "45 min", "60 min", "2 h"])
        root["packet_opened"] = self.chance.choice(["2026-11-14", "2026-11-16"])
        for _ in range(self.chance.choices([0, 1, 2], [15, 4, 1])[0]):
            self.spoil(root)
        if self.often(0.15):
            root["showed"] = [{"arm": "one", "at": self.chance.choice(["5 min", "10 min", "70 min"]), "grade": "slight", "zone": "blue"}]
        return root

    def spoil(self, root):
        key = self.chance.choice([*REPLIES, "age", "label", "lightened", "person", "qualified", "part", "packet_opened", "practice"])
        value = {"age": "14", "person": OTHER, "part": "front", "packet_opened": "2026-11-19", "practice": "yes", "label": "1 min",
                 "lightened": "unsure", "qualified": None}.get(key, self.chance.choice(["unsure", "yes" if CLEAR.get(key) == "no" else "no", None]))
        self.faults.append(key)
        if value is None or (key != "practice" and self.often(0.25)):
            root.pop(key, None)
        else:
            root[key] = value

    # ---- the log

    def strand_scene(self):
        """On the bench, with the same mixes; what was asked about itself where it lies there."""
        root = {key: value for key, value in self.root.items() if key not in ("person", "temperature")}
        root |= {"title": "The strand", "lies": "bench", "room": "22 °C", "arms": [arm for arm in root["arms"] if "steps" in arm]}
        if "two applications" in self.gaps:
            root["arms"] = [self.arm("one", root["arms"][0]["steps"][0]["apply"], two=True)]
        if "another mix" in self.gaps:
            root["arms"] = [self.arm("one", "own-c")]
        return root

    def make_log(self):
        self.gaps = self.chance.sample(GAPS, self.chance.choices([0, 1, 2], [14, 9, 1])[0])
        folder = self.folder / "models"
        mix = folder / "mixes" / (self.root["arms"][0]["steps"][0]["apply"] + ".yaml")
        before = mix.read_text(encoding="utf-8")
        if "let down" in self.gaps:  # the same name, and less in it
            mix.write_text(before + "ph: 9.8\n", encoding="utf-8")
        scene = self.put("models/scenes/strand.yaml", text_of(self.strand_scene()))
        done = self.program(["log", "new", "log.db", str(scene), "--operator", "op-1", "--repeats", "2" if "another strand was gummy" in self.gaps else "1"])
        mix.write_text(before, encoding="utf-8")
        if done.returncode != 0:
            return
        self.log = self.folder / "log.db"
        rows = sqlite3.connect(self.log)
        self.test = rows.execute("SELECT id FROM test").fetchone()[0]
        swatches = rows.execute("SELECT id, code FROM swatch WHERE arm = 'one' ORDER BY block").fetchall()
        rows.close()
        self.today = TRIED + datetime.timedelta(days={"old": self.chance.choice([15, 16, 40]), "later": -1}.get(
            next((gap for gap in self.gaps if gap in ("old", "later")), ""), self.chance.choice([0, 1, 9, 13, 14])))
        self.swatch = swatches[0][1]
        if "rehearsed" in self.gaps:
            self.program(["day", "log.db", "--plain", "--rehearse"], typed="q\n")
            (self.folder / "log.rehearsal.db").replace(self.log)
        self.lay(*swatches[0], self.gaps)
        if len(swatches) > 1:
            self.lay(*swatches[1], ["gummy"])
        if self.often(0.15) and len(self.root["arms"]) > 1:  # somebody else's, of another arm
            self.strand(self.swatch_of("two"), ["--person", OTHER, "--part", "nape", "--cut"])

    def swatch_of(self, arm):
        rows = sqlite3.connect(self.log)
        found = rows.execute("SELECT code FROM swatch WHERE arm = ?", (arm,)).fetchone()
        rows.close()
        return found[0] if found else self.swatch

    def strand(self, code, words):
        if not self.somebody:  # swatches of nobody
            return None
        return self.program(["log", "strand", "log.db", "--swatch", code, *words], SLOWLIFT_TODAY=str(max(self.today, TRIED)))

    def event(self, swatch, kind, minute, **columns):
        """A row as the clock of the day keeps it, of a day that is over."""
        noon = datetime.datetime.combine(TRIED, datetime.time(12), datetime.timezone.utc)
        at = noon + datetime.timedelta(minutes=minute)
        row = {"id": str(uuid.UUID(int=self.chance.getrandbits(128), version=4)), "test": self.test, "swatch": swatch, "kind": kind,
               "boot_ns": 10**12 + int(minute * 60e9), "wall_ns": int(at.timestamp()) * 10**9, "boot_id": str(uuid.UUID(int=7)),
               "at": at.strftime("%Y-%m-%dT%H:%M:%SZ"), **columns}
        rows = sqlite3.connect(self.log)
        with rows:
            rows.execute(f"INSERT INTO event ({', '.join(row)}) VALUES ({', '.join('?' * len(row))})", list(row.values()))
        rows.close()

    def look(self, code, words):
        return self.program(["log", "add", "log.db", "--swatch", code, "--judge", "op-1", *words])

    def lay(self, swatch, code, gaps):
        """One strand from its note to its last look."""
        lay_min = 10 if "watched for 10 min" in gaps else self.chance.choice([12, 16, 25, 30, 44])
        other = self.chance.choice([OTHER, None]) if "somebody else's" in gaps else PERSON
        note = ["--packet-opened", "2026-11-12" if "older packet" in gaps else "2026-11-22" if "packet of later" in gaps else "2026-11-16"]
        note = [] if "no packet" in gaps else note
        note += ["--person", other] if other else []
        note += [] if "no part" in gaps else ["--part", "crown" if "another part" in gaps else "nape"]
        note += [] if "not cut" in gaps else ["--cut"]
        note += [f"--{gap}" for gap in ("warm", "fizzed", "smelt", "practice") if gap in gaps]
        self.strand(code, note)
        if "never on" not in gaps:
            self.event(swatch, "mixed", 1)
            self.event(swatch, "applied", 2)
        for gap, reason in (("stopped for damage", "damage"), ("stopped for heat", "heat")):
            if gap in gaps:
                self.event(swatch, "stop and rinse", 2 + lay_min, reason=reason)
        if "never rinsed" not in gaps:
            self.event(swatch, "rinsed", 2 + lay_min)
        zone = ["--zone", "bare" if "only an undyed zone" in gaps else "blue"]
        looks = self.chance.choice([2, 3])
        at = [(n + 1) * lay_min // (looks + 1) for n in range(looks)] if "one look" not in gaps else []
        grade = self.chance.choice([0, 1])  # colour leaves, and never comes back
        for minute in at:
            self.look(code, [*zone, "--minute", str(minute), "--grade", GRADES[grade]])
            grade += self.chance.choice([0, 1])
        if "looked at after the water" in gaps:
            self.look(code, [*zone, "--minute", str(lay_min + 5), "--grade", "mostly gone"])
        self.look(code, [*zone, *self.last_look(gaps, GRADES[grade])])
        if "not washed" not in gaps:
            self.strand(code, ["--washed-and-dried"])

    def last_look(self, gaps, grade):
        feel = "gummy" if "gummy" in gaps else self.chance.choice(["as untreated", "slightly dry", "rough"])
        stretch = next((gap for gap in gaps if gap in ("stays long", "breaks")), self.chance.choice(["springs back", "slow"]))
        words = [] if "not graded at the end" in gaps else ["--grade", grade]
        words += [] if "no feel" in gaps else ["--feel", feel]
        words += [] if "no stretch" in gaps else ["--stretch", stretch]
        words += ["--outcome", "invalid"] if "end called invalid" in gaps else []
        words += ["--hours_after", "24"] if "hours later" in gaps else []
        return words or ["--note", "nothing to say"]
