# SPDX-License-Identifier: GPL-3.0-or-later
"""When a minute of the model may be told, up to which one: worked out from a scene's YAML, a form's YAML and a log's rows
alone. Written from docs/guide.md ("A scene that counts as a head", "Can I use this on somebody ..."), docs/file-format.md
and docs/log.md, apart from the gate, which it never asks.

Invariant: whatever these pages leave open closes here.
"""
import datetime
import math
import pathlib
import re
import sqlite3

import yaml

HEAD_FROM_C, BODY_C = 30.0, 37.0
OLDEST_DAYS = 14


class Plain(getattr(yaml, "CSafeLoader", yaml.SafeLoader)):
    """Every value as text, as the program reads it."""


Plain.yaml_implicit_resolvers = {}


def read_yaml(text):
    return yaml.load(text, Plain)


def number(text, units, bare=None):
    """A value with a unit; units: {unit: what makes it the first one}."""
    found = re.fullmatch(r"(-?[\d.]+(?:e-?\d+)?) *(\D*)", text.strip())
    unit = found[2].strip() or bare
    return units[unit](float(found[1]))


def minutes(text):
    return number(text, {"min": lambda v: v, "s": lambda v: v / 60.0, "h": lambda v: 60.0 * v})


def celsius(text):
    fahrenheit = lambda v: (v - 32.0) / 1.8
    return number(text, {"°C": lambda v: v, "C": lambda v: v, "°F": fahrenheit, "F": fahrenheit})


def day_number(text):
    return datetime.date.fromisoformat(text).toordinal()


def on_top(below, above):
    """`like`: as deep as the keys go, a number with its grade as a whole."""
    if isinstance(below, dict) and isinstance(above, dict) and "value" not in below and "value" not in above:
        return {key: on_top(below.get(key), above[key]) if key in above else below[key] for key in [*below, *above]}
    return above


class Scene:
    """A scene and the files that it names. `fetch(kind, name)` gives a file's text."""

    def __init__(self, text, fetch):
        self.root, self.fetch, self.parts = read_yaml(text), fetch, {}
        places = self.part("chemistry", self.root.get("chemistry", "oxidation"))["places"]
        self.head_c = celsius(self.value(places["head"]))
        self.rise_k = number(self.value(places["wrapped_rise"]), {"K": lambda v: v})
        self.arms = self.root["arms"]
        self.aims = self.root.get("aims", {})

    @staticmethod
    def value(entry):
        return entry["value"] if isinstance(entry, dict) else entry

    def part(self, kind, name):
        if (kind, name) not in self.parts:
            root = read_yaml(self.fetch(kind, name))
            self.parts[kind, name] = on_top(self.part(kind, root["like"]), root) if "like" in root else root
        return self.parts[kind, name]

    # ---- what counts as a head

    def warmth(self, warmer_k=0.0):
        """Coldest and warmest that the hair gets."""
        points = [celsius(at[1]) for at in self.root.get("temperature", [])]
        if not points:
            points = {"bench": [celsius(self.root["room"])], "head": [self.head_c],
                      "wrapped": [self.head_c, self.head_c + self.rise_k]}[self.root["lies"]]
        return min(points) + warmer_k, max(points) + warmer_k

    def is_head(self, warmer_k=0.0):
        warmest = max(self.warmth(warmer_k)[1], celsius(self.root["room"]) + warmer_k)
        return self.root["lies"] != "bench" or warmest >= HEAD_FROM_C or "person" in self.root

    # ---- the label

    def applications(self, arm):
        """(minute from contact, mix, its age at contact) of each."""
        start, found = 0.0, []
        for step in arm.get("steps", []):
            if "apply" in step:
                age = step.get("mix_age", self.root.get("application", {}).get("mix_age", "0 min"))
                found.append((start, step["apply"], minutes(age)))
                start += minutes(step["dwell"])
            else:
                start += float(step["shampoo"]) if "shampoo" in step else minutes(step.get("rinse", step.get("rest")))
        return found

    def label_end(self, arm, option_min=None, form_min=None):
        """The last minute from contact that a label allows; infinite where none was entered."""
        end = math.inf
        for start, name, age in self.applications(arm):
            mix = self.part("mixes", name)
            of_file = mix.get("label_longest")
            if of_file is not None:
                from_mixing = mix.get("label_counts_from", "mixing") == "mixing"
                end = min(end, start + max(minutes(of_file) - (age if from_mixing else 0.0), 0.0))
            for told in (option_min, form_min if mix["class"] != "plain water" else None):
                if told is not None:
                    end = min(end, start + max(told - age, 0.0))
        return end

    # ---- what a mix is

    def only_mix(self, arm):
        """All that makes the one mix of an arm what it is; None: no mix, or several."""
        applied = self.applications(arm)
        if len(applied) != 1:
            return None
        told = ("kind", "version", "title", "origin", "like", "veil")
        return applied[0][1], {key: value for key, value in self.part("mixes", applied[0][1]).items()
                               if key not in told and not key.startswith("label_")}

    def dyed_zones(self):
        return {zone["name"] for zone in self.root["zones"] if zone.get("dye")}

    # ---- goal and limits

    def aims_are_written(self, option_goal=False):
        """Goal and both limits of damage, none of them usual."""
        by_hand = "colour_left" in self.aims or option_goal
        zones = [goal for goal in self.aims.get("zones", {}).values() if goal != "ignore"]
        usual = "next" in self.aims and not by_hand
        return (by_hand or bool(zones)) and not usual and "base_moved" in self.aims and "cystine_lost" in self.aims


# ---- the form ---------------------------------------------------------------------------------------

PASSES = {"reacted": "no", "asthma": "no", "sulfite": "no", "doctor": "no", "allergy_test": "yes", "scalp": "no", "metallic": "no",
          "henna": "no", "unknown_past": "no", "treated": "no", "liquids": "yes", "heat": "no", "doer_reacted": "no", "strand": "yes",
          "since_strand": "no"}


class Form:
    def __init__(self, text):
        self.root = read_yaml(text)
        self.label_min = minutes(self.root["label"]) if "label" in self.root else None

    def is_clear(self):
        root = self.root
        return (all(root.get(key) == reply for key, reply in PASSES.items()) and int(root.get("age", 0)) >= 18 and
                self.label_min is not None and root.get("lightened") in ("yes", "no") and
                all(key in root for key in ("person", "qualified", "part", "packet_opened")) and
                all(minutes(saw["at"]) <= self.label_min for saw in root.get("showed") or []))

    def is_made_up(self):
        return self.root.get("practice") == "yes"


# ---- strands of a log ---------------------------------------------------------------------------------

class Strand:
    """What the rows say of one swatch that is somebody's strand."""

    def __init__(self):
        self.note, self.looks, self.end = {}, [], {}
        self.lay_min = self.day = self.mix = None
        self.bad = self.heated = self.rehearsed = False


class Log:
    def __init__(self, path):
        self.rows = sqlite3.connect(":memory:")
        file = sqlite3.connect(f"file:{pathlib.Path(path)}?mode=ro", uri=True)
        file.backup(self.rows)
        file.close()
        self.rows.row_factory = sqlite3.Row
        self.found = None

    def ask(self, words, *values):
        return self.rows.execute(words, values).fetchall()

    def scene(self, test):
        texts = {(row["kind"], row["name"]): row["text"] for row in self.ask("SELECT * FROM scene_file WHERE test = ?", test)}
        kinds = {"mixes": "mix", "chemistry": "chemistry"}
        root = next(text for (kind, _), text in texts.items() if kind == "scene")
        return Scene(root, lambda kind, name: texts[kinds[kind], name])

    def somebody(self):
        """Whether a swatch of it is noted as a person's."""
        return any(row["note"].startswith("strand:") and "person=" in row["note"]
                   for row in self.ask("SELECT note FROM event WHERE kind = 'note' AND swatch IS NOT NULL AND note IS NOT NULL"))

    def strands(self):
        """[(test, code, Strand)], with what its owner's other strands showed."""
        if self.found is not None:
            return self.found
        found = self.found = []
        for test in self.ask("SELECT id FROM test"):
            scene = self.scene(test["id"])
            for swatch in self.ask("SELECT * FROM swatch WHERE test = ?", test["id"]):
                strand = self.one(scene, test["id"], swatch)
                if strand.note:
                    found.append((test["id"], swatch["code"], strand))
        for _, _, one in found:
            kin = [other for _, _, other in found if other.note.get("person") == one.note.get("person") is not None]
            one.heated = one.heated or any(other.heated for other in kin)
            one.bad = one.bad or any(other.bad and other.mix == one.mix for other in kin)
        return found

    def one(self, scene, test, swatch):
        strand = Strand()
        arms = [arm for arm in scene.arms if arm["name"] == swatch["arm"]]
        strand.mix = scene.only_mix(arms[0]) if arms else None
        undone = {row["about"] for row in self.ask("SELECT about FROM event WHERE kind = 'undone'")}
        contact = water = None
        for event in self.ask("SELECT * FROM event WHERE test = ? ORDER BY kept", test):
            if event["id"] in undone:
                continue
            strand.rehearsed = strand.rehearsed or event["speed"] is not None
            if event["kind"] == "stop and rinse" and event["swatch"] in (None, swatch["id"]):
                strand.bad = strand.bad or event["reason"] == "damage"
                strand.heated = strand.heated or event["reason"] == "heat"
                water = water or event["wall_ns"]
            if event["swatch"] != swatch["id"]:
                continue
            if event["kind"] == "note" and (event["note"] or "").startswith("strand:"):
                strand.note |= dict(word.split("=", 1) for word in event["note"].split()[1:] if "=" in word)
            contact = event["wall_ns"] if event["kind"] == "applied" else contact
            water = event["wall_ns"] if event["kind"] == "rinsed" else water
        if contact is not None:
            strand.day = datetime.datetime.fromtimestamp(contact // 10**9, datetime.timezone.utc).date().toordinal()
        if contact is not None and water is not None:
            strand.lay_min = (water - contact) / 60e9
        strand.heated = strand.heated or any(strand.note.get(sign) == "yes" for sign in ("warm", "fizzed", "smelt"))
        self.put_readings(strand, swatch)
        return strand

    def put_readings(self, strand, swatch):
        replaced = {row["replaces"] for row in self.ask("SELECT replaces FROM reading WHERE replaces IS NOT NULL")}
        for row in self.ask("SELECT * FROM reading WHERE swatch = ?", swatch["id"]):
            if row["id"] in replaced:
                continue
            strand.bad = strand.bad or row["feel"] == "gummy" or row["stretch"] in ("stays long", "breaks")
            if row["hours_after"] is not None or row["outcome"] == "invalid":
                continue
            minute = strand.lay_min if row["minute"] is None else row["minute"]
            if row["minute"] is None:
                strand.end |= {what: row[what] for what in ("stretch", "feel") if row[what] is not None}
            if row["grade"] is not None and minute is not None and 0.0 < minute <= (strand.lay_min or 0.0):
                strand.looks.append((row["zone"], minute))
                if row["minute"] is None:
                    strand.end["graded", row["zone"]] = True


def strand_counts(strand, form, scene, arm, today):
    """The last minute at which it was graded where it counts for this form and arm, else None."""
    note, mix = strand.note, scene.only_mix(arm)
    zones = scene.dyed_zones()
    looks = {minute for zone, minute in strand.looks if zone in zones}
    packet, in_use = note.get("packet_opened"), form.root.get("packet_opened")
    holds = (note.get("person") is not None and note.get("person") == form.root.get("person") and
             note.get("part") is not None and note.get("part") == form.root.get("part") and
             mix is not None and strand.mix == mix and note.get("cut") == "yes" and note.get("washed_and_dried") == "yes" and
             packet is not None and in_use is not None and strand.day is not None and
             day_number(in_use) <= day_number(packet) <= strand.day and
             0 <= today - strand.day <= OLDEST_DAYS and form.root.get("since_strand") == "no" and
             strand.lay_min is not None and len(looks) >= 2 and
             any(("graded", zone) in strand.end for zone in zones) and "stretch" in strand.end and "feel" in strand.end and
             not strand.bad and not strand.heated and not strand.rehearsed and note.get("practice") != "yes")
    return max(looks) if holds else None


# ---- leave ------------------------------------------------------------------------------------------------

class Asked:
    """Whose hair a call is about. form: a Form; log: a Log, and the test and swatch that were named."""

    def __init__(self, scene, form=None, log=None, test=None, code=None, today=0, label_min=None, goal=False):
        self.scene, self.form, self.log, self.test, self.code = scene, form, log, test, code
        self.today, self.label_min, self.goal = today, label_min, goal

    def watched(self, arm):
        """How long the newest strand that counts was watched; None: none counts."""
        counted = []
        for test, code, strand in self.log.strands() if self.log else []:
            if (self.test and not test.startswith(self.test)) or (self.code and code != self.code):
                continue
            minute = strand_counts(strand, self.form, self.scene, arm, self.today)
            if minute is not None:
                counted.append((strand.day, minute))
        return max(counted)[1] if counted else None

    def heats(self):
        """Whether a strand of this person answered with heat: nothing that oxidises goes on that hair (common practice, no source)."""
        for test, code, strand in self.log.strands() if self.log else []:
            named = test.startswith(self.test or "") and self.code in (None, code)
            if named and strand.heated and strand.note.get("person") == self.form.root.get("person"):
                return True
        return False

    def last_minute(self, arm):
        """The last minute from contact that may be told of an arm; None: none may."""
        scene, form = self.scene, self.form
        if form is None:
            return None if scene.is_head() else scene.label_end(arm, self.label_min)
        coldest, warmest = scene.warmth()
        theirs = scene.root.get("person") in (None, form.root.get("person"))
        there = scene.root["lies"] != "bench" and coldest >= HEAD_FROM_C and warmest <= BODY_C
        if not (form.is_clear() and not form.is_made_up() and theirs and there and scene.aims_are_written(self.goal)):
            return None
        watched = self.watched(arm)
        return None if watched is None else min(watched, scene.label_end(arm, self.label_min, form.label_min))
