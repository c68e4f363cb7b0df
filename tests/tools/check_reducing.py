#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reducing mixes through every door: their four cautions, whole and short, what is without colour, and the gate of a head.

Where the dye does not matter it is one that breaks for good, which has a closed form and costs a tenth.

usage: check_reducing.py PROGRAM SOURCE
"""
import csv
import functools
import io
import json
import os
import pathlib
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from check_papers import Folder, keep_strand, put_form  # noqa: E402

PROGRAM, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
FEW = ["--members", "100"]
SCENE = """kind: scene
version: 1
title: two strips
origin: a test's own
lies: bench
room: 24 °C
until: 30 h
hair_mass: 2 g
dyes: bright-one
zones:
  - {name: red, hair: prelight-9, dye: {red: 9}}
BLUE  - {name: undyed, hair: prelight-9}
application: {mix_per_hair: 6 g/g, mix_age: 1 min, hair: dry, covered: yes}
arms:
  - name: one
    contact: 0 s
    steps: [{apply: MIX, dwell: 30 min}, {rinse: 5 min}, {shampoo: 1}]
  - name: two
    contact: 0 s
    steps: [{apply: powder-water, dwell: 30 min}, {rinse: 5 min}, {shampoo: 1}]
"""
# the beginning of each of the four, in both languages
WHOLE = {"en": ("Reducing mixes with sulfite, sulfinate or dithionite give off", "Whoever once reacted to sulfite, in food",
                "A reducing product never goes into an oxidising one", "Gloves and eye protection for reducing mixes too"),
         "es": ("Las mezclas reductoras con sulfito, sulfinato o ditionito", "Quien alguna vez reaccionó a los sulfitos",
                "Un producto reductor nunca va dentro de uno oxidante", "Guantes y protección para los ojos también con")}
# each of the four in one sentence
SHORT = {"en": ("Sulfur dioxide: air the room, add no acid.", "Sulfite allergy or asthma: stay outside.",
                "Never with what oxidises; waste apart.", "Gloves, goggles; colour may come back."),
         "es": ("Dióxido de azufre: ventila, sin ácido.", "Alergia a sulfitos o asma: quédate fuera.",
                "Nunca con lo que oxida; restos aparte.", "Guantes y gafas; el color puede volver.")}
false, counted = [], 0


def ok(what, good):
    global counted
    counted += 1
    if not good:
        false.append(what)
        print(f"false: {what}")


@functools.cache
def call(*words, language="en"):
    env = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "SLOWLIFT_LANGUAGE": language, "COLUMNS": "100",
           "SLOWLIFT_MODELS": str(SOURCE / "models"), "HOME": os.environ.get("HOME", "/")}
    return subprocess.run([PROGRAM, *map(str, words)], capture_output=True, text=True, env=env, stdin=subprocess.DEVNULL, check=False)


def plain(text):
    return " ".join(text.split())


def cautions(scene, other):
    doors = {"run": ["run"], "answer": ["answer", *FEW], "limits": ["limits", *FEW], "rank": ["rank", *FEW], "plan": ["plan"], 
             "map": ["map", "--arm", "two", "--x", "ratio:1..3", "--y", "time:10..20min"], "mix": ["mix", "--arm", "one", "--hair", "2g"],
             "search": ["search", "--allowed", "powder-water"],
             "what-if": ["what-if", "--arm", "one", "--time", "20min"]}
    for name, words in doors.items():
        for language, texts in WHOLE.items():
            said = plain(call(words[0], scene, *words[1:], language=language).stdout)
            for text in SHORT[language] if name == "answer" else texts:
                ok(f"{name} in {language}: {text!r} once, of {said.count(text)}", said.count(text) == 1)
        without = plain(call(words[0], other, *words[1:]).stdout)
        ok(f"{name} without such a mix has none", without and not any(text in without for text in WHOLE["en"] + SHORT["en"]))
    for name, words in doors.items():
        told = call(words[0], scene, *words[1:], "--json")
        listed = plain(" ".join(json.loads(told.stdout)["cautions"]))
        ok(f"{name} --json has them", all(text in listed for text in WHOLE["en"]))


def papers(scene, other, folder):
    """compare, the client's sheet and the school's, of a log with such a mix and of one without."""
    for arm, of in (("one", scene), ("two", other)):
        kept = Folder(pathlib.Path(PROGRAM).parent, SOURCE, folder / arm)
        kept.path.mkdir()
        keep_strand(kept, of, "one", "red")
        put_form(kept, "clear.yaml")
        kept.call(["log", "new", "class.db", str(of), "--repeats", "1", "--operator", "op-1"])
        for code, in kept.rows("class.db", "SELECT code FROM swatch"):
            kept.call(["log", "add", "class.db", "--swatch", code, "--zone", "red", "--judge", "op-1", "--grade", "slight"])
        doors = {"compare": ["compare", "class.db"], "client": ["report", "strand.db", "--client", "clear.yaml"],
                 "school": ["report", "class.db", "--school"]}
        for name, words in doors.items():
            for language, texts in WHOLE.items():
                said = plain(kept.call(words, language=language).stdout)
                wanted = 1 if of == scene else 0
                ok(f"{name} in {language}: each {wanted} times, {[said.count(text) for text in texts]}",
                   len(said) > 500 and all(said.count(text) == wanted for text in texts))
    told = json.loads(Folder(pathlib.Path(PROGRAM).parent, SOURCE, folder / "one").call(["compare", "class.db", "--json"]).stdout)
    ok("compare --json has them", all(text in plain(" ".join(told["cautions"])) for text in WHOLE["en"]))


def without_colour(scene, other):
    rows = list(csv.DictReader(io.StringIO(call("run", scene, "--at", "45min,24h", "--csv").stdout)))
    value = {(r["arm"], r["zone"], float(r["time_min"]), r["quantity"]): float(r["value"]) for r in rows if r["quantity"] != "srgb"}
    soon, late = ("one", "blue", 45.0), ("one", "blue", 1440.0)
    ok("blue is without colour at first", value[soon + ("colourless",)] > 0.1)
    ok("nothing is made: what comes back was without colour",
       0.0 < value[late + ("colour_left",)] - value[soon + ("colour_left",)] < value[soon + ("colourless",)])
    ok("of a red that breaks for good there is no such row", ("one", "red", 45.0, "colourless") not in value)
    ok("nor under powder and water", ("two", "blue", 45.0, "colourless") not in value)
    told = json.loads(call("run", scene, "--at", "45min,24h", "--json").stdout)
    of = {(arm["name"], zone["zone"]): zone["colourless"] for arm in told["arms"] for zone in arm["zones"]}
    ok("JSON has the same numbers", abs(of["one", "blue"][0] - value[soon + ("colourless",)]) < 1e-8)
    ok("and null elsewhere", of["one", "red"] is None and of["two", "blue"] is None)
    ok("a scene without such a mix has no row", "colourless" not in call("run", other, "--csv").stdout)
    back = round(100 * (value[late + ("colour_left",)] - value[soon + ("colour_left",)]))
    page = plain(call("answer", scene, *FEW).stdout)
    ok("the page says what comes back", "Comes back: As planned" in page and '1 ("blue")' in page)
    ok(f"about as much as the rows say, {back}", any(f"{n} in 1 (" in page for n in range(back - 12, back + 13)))
    ok("a page without such a mix does not", "Comes back" not in call("answer", other, *FEW).stdout)
    ok("in Spanish, too", "Vuelve" in call("answer", scene, *FEW, language="es").stdout)


def head(scene, folder):
    on = folder / "head.yaml"
    on.write_text(scene.read_text().replace("lies: bench", "lies: head"))
    for words in (["run", "--csv"], ["run", "--json"], ["rank"], ["search"]):
        done = call(words[0], on, *words[1:])
        ok(f"{words} of a head is refused", done.returncode == 2 and done.stdout == "")
    for name in ("limits", "answer"):
        said = plain(call(name, on, *FEW).stdout)
        ok(f"{name} of a head gives no minute", "No minute is given" in said or "no minute" in said.lower())
        ok(f"{name} of a head has no goal", " goal: " not in said or "look: " not in said)
    form = (SOURCE / "models/forms/nothing-stops.yaml").read_text().replace("arm: powder + 3 %", "arm: one").replace("zone: blue", "zone: red")
    for key in ("sulfite", "asthma"):
        bad = folder / f"{key}.yaml"
        bad.write_text(form.replace(f"{key}: no", f"{key}: yes"))
        said = plain(call("limits", on, *FEW, "--person", bad).stdout)
        ok(f"a form with {key} stops: {said[:200]}", "sulfite" in said if key == "sulfite" else "asthma" in said)
        ok(f"a form with {key} gives no minute", "look: " not in said and "stop: at" not in said)


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        scene, other, back = folder / "scene.yaml", folder / "other.yaml", folder / "back.yaml"
        scene.write_text(SCENE.replace("MIX", "reducing-sulfinate").replace("BLUE", ""))
        other.write_text(SCENE.replace("MIX", "powder-6").replace("BLUE", ""))
        back.write_text(SCENE.replace("MIX", "reducing-sulfinate").replace("BLUE", "  - {name: blue, hair: prelight-9, dye: {blue: 11}}\n"))
        without_colour(back, other)
        cautions(scene, other)
        papers(scene, other, folder)
        head(scene, folder)
    print(f"{counted} checks, {len(false)} false")
    return 1 if false or counted < 40 else 0


sys.exit(main())
