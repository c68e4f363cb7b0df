#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The papers of a test, against the log's own rows and against arithmetic done here.

A class is kept, one bowl weighed and a blind test stopped; a strand is kept for a person. Then every paper is written, in both
languages, on the terminal and as HTML, and is read.

usage: check_papers.py BUILD SOURCE
"""
import datetime
import html
import os
import pathlib
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import uuid

import yaml

sys.path.insert(0, str(pathlib.Path(__file__).parent))
from random_cases import CLEAR, TRIED  # noqa: E402

failures = []


def ok(sentence, good, seen=""):
    if not good:
        failures.append(sentence)
        print(f"false: {sentence}\n{seen[:1500]}")


class Folder:
    def __init__(self, build, source, path):
        self.build, self.source, self.path = pathlib.Path(build).resolve(), pathlib.Path(source).resolve(), pathlib.Path(path)

    def call(self, words, typed="", language="en", **more):
        environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "TZ": "UTC", "SLOWLIFT_MODELS": str(self.source / "models"),
                       "SLOWLIFT_TODAY": str(TRIED + datetime.timedelta(days=9)), **more}
        return subprocess.run([self.build / "slowlift", *words, "--language", language], cwd=self.path, env=environment, input=typed,
                              capture_output=True, text=True, check=False)

    def paper(self, words, language="en"):
        """As text with one blank between words; from the terminal, from HTML and, but for marks at line ends, from PDF."""
        done = self.call(["report", *words], language=language)
        ok(f"report {' '.join(words)} is written", done.returncode == 0, done.stderr)
        self.call(["report", *words, "-o", "paper.html"], language=language)
        page = (self.path / "paper.html").read_text(encoding="utf-8")
        (self.path / "paper.html").unlink()
        if shutil.which("pdftotext") and (self.build / "slowlift-paper").exists():
            self.check_pdf(words, language, done.stdout)
        return [" ".join(done.stdout.split()), " ".join(html.unescape(re.sub(r"<style>.*?</style>|<[^>]+>", " ", page)).split())]

    def check_pdf(self, words, language, said):
        """Every longer word of the terminal's stands on the pages too, in any order: tables are set otherwise there."""
        made = self.call(["report", *words, "-o", "paper.pdf"], language=language)
        ok(f"report {' '.join(words)} is printed", made.returncode == 0, made.stderr)
        pages = subprocess.run(["pdftotext", "-layout", self.path / "paper.pdf", "-"], capture_output=True, text=True, check=True).stdout
        (self.path / "paper.pdf").unlink()
        spoken = lambda text: set(re.findall(r"[^\W\d_]{5,}", text.split("NOTICE")[0].split("AVISO")[0]))
        said = re.sub(r"What the model says.*?\n\n?Cautions|Qué dice el modelo.*?\n\n?Precauciones", "", said, flags=re.S)  # its tables are narrow on paper
        lacks = spoken(said) - set(re.findall(r"[^\W\d_]{5,}", pages))
        ok(f"the pages of {' '.join(words)} ({language}) say what the terminal says", len(spoken(said)) > 5 and not lacks, str(sorted(lacks)))

    def rows(self, log, question):
        base = sqlite3.connect(self.path / log)
        found = base.execute(question).fetchall()
        base.close()
        return found

    def outline(self, words):
        done = self.call(words, SLOWLIFT_SAY="outline")
        return [line.strip() for line in done.stdout.splitlines() if not re.match(r"(\w+ )?(caution|title|heading|document|apart)\b", line)]


def grams(scene_file, swatches):
    """{mix: grams in all} by hand: hair × grams a gram × 1.1 for each swatch."""
    scene = yaml.safe_load(scene_file.read_text(encoding="utf-8"))
    number = lambda text: float(str(text).split()[0])
    planned = {}
    for arm in scene["arms"]:
        for step in arm.get("steps", []):
            if isinstance(step, dict) and "apply" in step:
                per = number(step.get("mix_per_hair", scene["application"]["mix_per_hair"]))
                bowl = number(scene["hair_mass"]) * per * 1.1
                planned[step["apply"]] = planned.get(step["apply"], 0) + swatches.count(arm["name"]) * bowl
    return planned


def check_class(folder):
    folder.call(["log", "new", "class.db", "eight-arms", "--repeats", "2", "--operator", "op-1"])
    code = folder.rows("class.db", "SELECT code FROM swatch WHERE arm = 'powder + 3 %' AND block = 0")[0][0]
    day = folder.call(["day", "class.db", "--blind"], typed=f"g\n{code}\nm\n20.5\n22\na\nstop\n4\no\no\ni\n2\nq\n").stdout
    asked = day.index("Why? One key")
    ok("a stop names what was in the bowl before it asks why, in a blind test too",
       re.search(r"persulfates \d+ %, hydrogen peroxide 2 %", " ".join(day[:asked].split())), day)
    opened = folder.rows("class.db", "SELECT count(*) FROM event WHERE remark = 'contents told'")[0][0]
    ok("that it was told is kept once", opened == 1, str(opened))
    for text in folder.paper(["class.db", "--accident"]):
        ok("the accident's sheet says what, since when and how long water ran",
           re.search(rf"{code}: .*persulfates \d+ %, hydrogen peroxide 2 %.* Mixed at [\d:]{{8}}\. On the hair since [\d:]{{8}}\..* Water ran for 0:0\d", text), text)
        ok("and who was told", "a doctor was told" in text or "poison" in text, text)
    for text in folder.paper(["class.db", "--accident"], "es"):
        ok("in Spanish too", "persulfatos" in text and "peróxido de hidrógeno" in text, text)
    check_school(folder)
    check_labels(folder)
    check_whole(folder)


def check_school(folder):
    (folder.path / "outcomes.txt").write_text("Weighs a mix to a tenth of a gram\r\n\r\nKeeps a record\n", encoding="utf-8")
    scene = folder.source / "models/scenes/eight-arms.yaml"
    planned = grams(scene, [row[0] for row in folder.rows("class.db", "SELECT arm FROM swatch")])
    for text in folder.paper(["class.db", "--school", "--outcomes", "outcomes.txt"]):
        for mix, sum_g in planned.items():
            title = yaml.safe_load((folder.source / f"models/mixes/{mix}.yaml").read_text(encoding="utf-8"))["title"]
            title = title["en"] if isinstance(title, dict) else title
            ok(f"the school's sheet has {sum_g:.1f} g of {title}", re.search(re.escape(title) + rf" [\d. ]*\b{sum_g:.1f}\b", text), text)
        ok("and what was weighed of one bowl", "20.5 in 1 bowl" in text, text)
        ok("and the one stop", "STOP AND RINSE was called 1 time that day." in text, text)
        ok("and outcomes in their own words", "Weighs a mix to a tenth of a gram" in text and "Keeps a record" in text, text)
        ok("and names to sign for", "Who is in charge; name and day:" in text and "op-1" in text, text)
    blank = folder.paper(["class.db", "--school"])[0]
    ok("without a file of outcomes there are lines to write on", re.search(r"In the words of the course: _{9}", blank), blank)
    ok("outcomes belong to the school's sheet", folder.call(["report", "class.db", "--outcomes", "outcomes.txt"]).returncode == 2)
    ok("one sheet at a time", folder.call(["report", "class.db", "--school", "--accident"]).returncode == 2)


def check_labels(folder):
    rows = folder.rows("class.db", "SELECT code, arm, block, place FROM swatch ORDER BY block, place")
    made = folder.rows("class.db", "SELECT substr(made, 1, 10), substr(id, 1, 8) FROM test")[0]
    for blind in ([], ["--blind"]):
        for text in folder.paper(["class.db", "--labels", *blind]):
            places = [text.rfind(code + " ") for code, *_ in rows]
            ok("each swatch has a label, in the order of the plan", -1 not in places and places == sorted(places), text)
            for code, arm, block, place in rows:
                of = text[text.rfind(code + " "):][:200]
                strip = "" if blind else re.escape(arm) + " "
                ok(f"{code}'s label tells its strip, day, place and test, blind no strip",
                   re.match(rf"{code} {strip}{made[0]} Round {block + 1}, place {place + 1} Test {made[1]} Shelf:", of), of)
    ok("other sheets cannot be blind", folder.call(["report", "class.db", "--blind"]).returncode == 2)
    folder.call(["log", "new", "twice.db", "second-round", "--people", "2", "--repeats", "1", "--operator", "op-1"])
    ok("a test that needs two people is reported", folder.call(["report", "twice.db"]).returncode == 0)


def check_whole(folder):
    """All that compare, the day and plan say stands in it, in their own words."""
    folder.call(["compare", "--example", "example.db"])
    whole = folder.outline(["report", "example.db"])
    for words in (["compare", "example.db"], ["day", "example.db", "--summary"]):
        lacks = [line for line in folder.outline(words) if line and line not in whole and not line.startswith("lead say Model ")]  # its foot is the report's
        ok(f"what {words[0]} says stands in the report", len(whole) > 100 and not lacks, "\n".join(lacks))
    answer = [line for line in folder.outline(["answer", "eight-arms"]) if line and not line.startswith(("lead say Model ", "lead say All ", "lies "))]
    whole = folder.outline(["report", "class.db"])
    lacks = [line for line in answer if line not in whole]
    ok("what answer says of the kept scene stands in the report", len(answer) > 30 and not lacks, "\n".join(lacks))


# ---- how -o ends ---------------------------------------------------------------------------------------

BEGINS = {"pdf": b"%PDF-", "png": b"\x89PNG", "svg": b"<?xml", "html": b"<!DOCTYPE html>", "json": b"{\n", "csv": None, "txt": None}
TOLD = {"answer": "way-wide --members 100", "run": "way-wide", "limits": "way-wide --members 100", "rank": "way-wide --members 100",
        "what-if": "way-wide --arm 2 --strength 2%", "map": "way-wide --arm 2 --x strength:1..3% --y time:5..20min", "search": "way-wide",
        "plan": "way-wide", "mix": "way-wide --arm 2 --hair 2g", "cost": "school --powder 20g", "compare": "example.db", "report": "example.db",
        "teach": "half-life --class class", "log list": ".", "log drift": ".", "log export": "example.db", "quick-start": ""}
NAMED_OTHERWISE = {"new", "picture", "pack", "log backup", "log rescue"}  # what they write has one form, or rules of its own


def check_ends(folder):
    """What a name asks for is what is written, or it is refused and nothing is."""
    (folder.path / "class").symlink_to(folder.source / "lessons" / "class-example")
    arm = {"2": "powder + 3 %"}
    names = re.findall(r"^ {2,}((?:log )?[a-z-]+)  ", folder.call(["--help"]).stdout + folder.call(["log", "--help"]).stdout, re.M)
    takes = {name for name in names if "--output" in folder.call([*name.split(), "--help"]).stdout.split("Example")[0]}
    ok("every command with -o is tried", takes - NAMED_OTHERWISE == set(TOLD), str(takes ^ set(TOLD)))
    for name, words in TOLD.items():
        call = [*name.split(), *(arm.get(word, word) for word in words.split())]
        options = folder.call([*name.split(), "--help"]).stdout
        for end, begins in BEGINS.items():
            if end in ("pdf", "png", "svg") and not (folder.build / "slowlift-paper").exists():
                continue
            done = folder.call([*call, "-o", f"told.{end}"])
            written = (folder.path / f"told.{end}").read_bytes() if (folder.path / f"told.{end}").exists() else None
            (folder.path / f"told.{end}").unlink(missing_ok=True)
            has = (end in ("csv", "txt") if name == "log export" else end not in ("csv", "json") or name == "answer" and end == "json" or
                   f"--{end} " in options and name != "answer") or name == "log export" and end == "json"
            if has:
                ok(f"{name} into .{end}", done.returncode == 0 and done.stdout == "" and written and written.startswith(begins or b""), done.stderr)
                ok(f"{name}: .csv has a line of keys", end != "csv" or re.match(rb"[a-zA-Z_]+,", written or b""), str(written)[:200])
            else:
                ok(f"{name} refuses .{end}", done.returncode == 2 and written is None and done.stdout == "", done.stderr)
    for form, end in (("--csv", "pdf"), ("--csv", "json"), ("--json", "html"), ("--json", "csv")):
        done = folder.call(["run", "way-wide", form, "-o", f"told.{end}"])
        ok(f"{form} into .{end} is refused", done.returncode == 2 and not (folder.path / f"told.{end}").exists(), done.stderr)


# ---- a person ----------------------------------------------------------------------------------------


def keep_strand(folder, scene="way-wide", arm="powder + 3 %", zone="blue"):
    folder.call(["log", "new", "strand.db", scene, "--repeats", "1", "--operator", "op-1"])
    test, swatch, code = folder.rows("strand.db", f"SELECT test, id, code FROM swatch WHERE arm = '{arm}'")[0]
    folder.call(["log", "strand", "strand.db", "--swatch", code, "--person", "K12", "--part", "nape", "--cut", "--packet-opened", "2026-11-16"])
    noon = datetime.datetime.combine(TRIED, datetime.time(12), datetime.timezone.utc)
    base = sqlite3.connect(folder.path / "strand.db")
    with base:
        for kind, minute in (("mixed", 1), ("applied", 2), ("rinsed", 27)):
            at = noon + datetime.timedelta(minutes=minute)
            base.execute("INSERT INTO event (id, test, swatch, kind, boot_ns, wall_ns, boot_id, at) VALUES (?, ?, ?, ?, ?, ?, ?, ?)",
                         (str(uuid.uuid4()), test, swatch, kind, 10**12 + minute * 60 * 10**9, int(at.timestamp()) * 10**9,
                          str(uuid.UUID(int=7)), at.strftime("%Y-%m-%dT%H:%M:%SZ")))
    base.close()
    look = ["log", "add", "strand.db", "--swatch", code, "--zone", zone, "--judge", "op-1"]
    folder.call([*look, "--minute", "7", "--grade", "slight"])
    folder.call([*look, "--minute", "19", "--grade", "about half"])
    folder.call([*look, "--grade", "mostly gone", "--feel", "slightly dry", "--stretch", "springs back"])
    folder.call(["log", "strand", "strand.db", "--swatch", code, "--washed-and-dried"])


def put_form(folder, name, **changed):
    lines = ["kind: intake", "version: 1", "title: A form", "origin: our own invention"]
    lines += [f"{key}: {value}" for key, value in (CLEAR | changed).items()]
    (folder.path / name).write_text("\n".join(lines) + "\n", encoding="utf-8")


def check_person(folder):
    keep_strand(folder)
    put_form(folder, "clear.yaml")
    put_form(folder, "henna.yaml", henna="unsure")
    for language in ("en", "es"):
        for text in folder.paper(["strand.db", "--client", "clear.yaml"], language):
            ok(f"the client's sheet tells what the strand showed ({language})",
               all(word in text for word in (["slight", "about half", "a little dry", "it springs back"] if language == "en"
                                             else ["algo seco", "vuelve de golpe"])), text)
            told = {int(number) for number in re.findall(r"\d+", text.replace(str(TRIED), "").replace("powder + 3 %", ""))}
            told -= {3}  # of the mix's title
            ok(f"it has no number but the minutes at which somebody looked ({language}: {sorted(told)})", told == {7, 19}, text)
    silent = folder.call(["report", "strand.db"]).stdout
    ok("of a person's hair the model says nothing", "What was seen" in silent and "rinse by" not in silent and "What the model says" not in silent, silent)
    refused = folder.call(["report", "strand.db", "--client", "henna.yaml"])
    ok("a form that stops has no client's sheet", refused.returncode == 1 and refused.stdout == "", refused.stderr)
    refused = folder.call(["report", "class.db", "--client", "clear.yaml"])
    ok("no strand, no client's sheet", refused.returncode == 1 and "strand" in refused.stderr, refused.stderr)
    refused = folder.call(["report", "strand.db", "--no", "clear.yaml"])
    ok("where nothing is in the way nothing is refused", refused.returncode == 1 and refused.stdout == "", refused.stderr)
    for text in folder.paper(["strand.db", "--no", "henna.yaml"]):
        ok("the sheet that says no has the reason, what comes first and other ways",
           all(word in text for word in ("henna in this hair", "try the mix on cut-off hair", "Other ways")), text)
        ok("and no minute", not re.search(r"\d+ min", text), text)
    for text in folder.paper(["class.db", "--no", "clear.yaml"]):
        ok("without a strand that is the reason", "no strand of this person's hair" in text, text)


def check_words(folder):
    for words in (["class.db", "--school"], ["class.db"], ["strand.db", "--client", "clear.yaml"], ["strand.db", "--no", "henna.yaml"]):
        for language in ("en", "es"):
            for text in folder.paper(words, language):
                found = re.findall(r"\b(?:approv\w*|aprob\w*|safe\b|es segur[oa]\b|inocu[oa]s?\b)", text, re.I)
                ok(f"{' '.join(words)} ({language}) calls nothing approved or safe: {found}", not found, text)


def main():
    with tempfile.TemporaryDirectory() as path:
        folder = Folder(sys.argv[1], sys.argv[2], path)
        check_class(folder)
        check_person(folder)
        check_ends(folder)
        check_words(folder)
    print(f"{len(failures)} false")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
