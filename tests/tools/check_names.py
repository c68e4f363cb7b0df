#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""People read titles, machines read names (model.h, "titles").

    check_names.py BUILD        calls every command on a scene whose names nobody should read: what people are shown holds none of
                                them, in either language, and what machines read holds no title
    check_names.py --self-test

Then src/ is gone through for names of arms and zones that are read past sl_arm_title() and its kin.
"""
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

SOURCE = pathlib.Path(__file__).resolve().parents[2]
sys.path.append(str(SOURCE / "tests/net"))
import calls
import net
import window

NAME = re.compile(r"xarm-\d|xzone-\d")
TITLE = re.compile(r"(?:english|spanish) (?:strip|part|title|question|note)")
BOTH = "{{en: english {0}, es: spanish {0}}}"
ARMS = ("", "[{apply: plain-water, dwell: 10 min}, {rinse: 2 min}, {shampoo: 1}]",
        "[{apply: powder-3, dwell: 15 min}, {rinse: 2 min}, {apply: powder-3, dwell: 15 min, hair: damp}, {shampoo: 1}]",
        "[{apply: powder-6, dwell: 20 min}, {rinse: 2 min}]", "[{apply: two-part-reducing, dwell: 20 min}, {rinse: 2 min}]",
        "[{apply: labelled, dwell: 30 min}, {rinse: 2 min}]")
ZONES = (", dye: {red: 9}", ", dye: {blue: 9}", "")
# Names are looked up, compared or kept there: nobody is shown them.
MACHINES = re.compile(r"src/(scene/|log/store/|model/|report/\w+/\w+_data\.c|report/run/(csv|json)\.c)")
MACHINE_FILES = {
    "src/ask/files.c": "a dye is found by its name in the set",
    "src/report/told.c": "CSV and JSON",
    "src/command/log/log_add.c": "a title that was typed becomes the name that is kept",
    "src/front/work/rank_work.c": "what is typed is a name or a title",
    "src/log/compare/looks.c": "a zone is found by the name that a reading keeps",
    "src/lesson/computed.c": "names in a lesson's file",
    "src/lesson/lesson.c": "a lesson's own word for a name",
    "src/lesson/lesson_pages.c": "whether two scenes have the same arms",
    "src/log/compare/compare_data.c": "CSV and JSON",
    "src/report/plan/cost.c": "CSV and JSON, old powder: words ask for the titles",
    "src/log/compare/example.c": "keys of the log that it makes",
    "src/log/several/school.c": "keys of the logs that it makes",
    "src/log/several/several.c": "strips and zones of one name are looked for",
    "src/log/several/several_groups.c": "strips and zones of one name are looked for",
    "src/log/shelf/drift.c": "readings are found by the names of their zones",
    "src/report/rank/map.c": "JSON",
    "src/report/rank/search.c": "CSV and JSON",
    "src/report/run/pair.c": "CSV and JSON",
}
BARE = re.compile(r"\b(?:arms|zones|dyes)\[[^;]*?\]\.name\b|\b(?:arm|zone)->name\b")


def scene():
    arms = "".join(f"  - name: xarm-{i}\n    title: {BOTH.format(f'strip {i}')}\n    note: {BOTH.format('note')}\n    contact: {i} min\n" +
                   (f"    steps: {steps}\n" if steps else "") for i, steps in enumerate(ARMS))
    zones = "".join(f"  - {{name: xzone-{i}, title: {BOTH.format(f'part {i}')}, hair: prelight-9{dye}}}\n" for i, dye in enumerate(ZONES))
    return (f"kind: scene\nversion: 1\ntitle: {BOTH.format('title')}\norigin: for tests\nquestion: {BOTH.format('question')}\n"
            f"lies: bench\nroom: 24 °C\nuntil: 70 min\nhair_mass: 2 g\ndyes: bright-one\nzones:\n{zones}"
            f"application: {{mix_per_hair: 6 g/g}}\naims: {{colour_left: 50 %, base_moved: 30 %, cystine_lost: {{of: xarm-3, share: 90 %}}}}\n"
            f"arms:\n{arms}")


LABELLED = ("kind: mix\nversion: 1\ntitle: A mix with a label\norigin: for tests\nlike: powder-6\nlabel_longest: 20 min\n")


class Named(net.Net):
    """The net's folders and calls, with the scene of names in place of its own."""

    def place(self, folder):
        folder = super().place(folder)
        for name in ("scenes", "models"):
            (folder / name).unlink()
        (folder / "models").mkdir()
        for kind in (SOURCE / "models").iterdir():
            if kind.name != "mixes":
                (folder / "models" / kind.name).symlink_to(kind)
        (folder / "models" / "mixes").mkdir()
        for mix in (SOURCE / "models/mixes").iterdir():
            (folder / "models/mixes" / mix.name).symlink_to(mix)
        (folder / "models/mixes/labelled.yaml").write_text(LABELLED)
        (folder / "forms").unlink()
        (folder / "forms").mkdir()
        for form in (SOURCE / "models/forms").iterdir():
            said = re.sub(r"\barm: [^,}\n]+", "arm: xarm-3", form.read_text())
            (folder / "forms" / form.name).write_text(re.sub(r"\bzone: [^,}\n]+", "zone: xzone-0", said))
        (folder / "scenes").mkdir()
        (folder / "scenes/named.yaml").write_text(scene())
        return folder


class Findings:
    def __init__(self):
        self.false, self.shown, self.kept = [], 0, 0

    def people(self, where, text):
        self.shown += len(TITLE.findall(text))
        for line in text.split("\n"):
            if NAME.search(line):
                self.false.append(f"{where} shows a name: {line.strip()[:160]}")

    def machines(self, where, text):
        self.kept += len(NAME.findall(text))
        for line in text.split("\n"):
            if re.search(r"spanish", line):
                self.false.append(f"{where} follows the language: {line.strip()[:160]}")


def more_calls(zone):
    """What the net does not call of a scene that it knows."""
    file = calls.SCENES["named"][0]
    return [calls.Call("run between", ["run", file, "--between", "xarm-2/xzone-0", "--and", "xarm-3/xzone-0"]),
            calls.Call("run by share", ["run", file, "--colours", "--share", "50%", "--zone", zone]),
            calls.Call("surprise", ["rank", file, *calls.DRAWS, "--surprise", f"xarm-2 beats xarm-3 in {zone}"]),
            calls.Call("no such arm", ["what-if", file, "--arm", "nothing like it", "--time", "5min"]),
            calls.Call("no such zone", ["rank", file, *calls.DRAWS, "--zone", "nothing like it"]),
            calls.Call("not with this arm", ["what-if", file, "--arm", "xarm-0", "--time", "5min"]),
            calls.Call("asked for what it showed", ["limits", file, *calls.DRAWS, "--arm", "xarm-3", "--person", "ask"],
                       typed="34\n45\nno\nno\nno\nno\nno\nno\nyes\nno\nyes\n\n"),
            calls.Call("an example", ["compare", "--example"])]


def call_all(made, findings, language, folder):
    grade = {"slight": "ligero", "about half": "la mitad"}
    for called in [*calls.of_scene("named").values(), more_calls("xzone-0")]:
        for call in called:
            if language == "es":  # grades are typed in the language in use
                call.words = [re.sub("slight|about half", lambda found: grade[found[0]], word) for word in call.words]
            code, out, err = made.run(["--language", language, *call.words], folder, None, call.typed)
            where = f"{' '.join(call.words)} ({language})"
            findings.people(where, err)
            (findings.machines if call.form in ("csv", "json") else findings.people)(where, out)
            for name in call.outputs:
                findings.machines(f"{where}: {name}", (folder / name).read_text())


def look_at_log(made, findings, language, folder):
    """A log with something seen in it, read in every way."""
    _, out, _ = made.run(["log", "show", "new.db"], folder, None, "")
    ids = re.search(r"^[0-9a-f]{8}", out, re.M)[0]
    _, out, _ = made.run(["log", "show", "new.db", ids], folder, None, "")
    codes = re.findall(r"\b([A-Z]{2}\d) \(", out)
    for number, code in enumerate(codes):
        for zone in (0, 1):
            typed = f"spanish part {zone}" if language == "es" else f"xzone-{zone}"
            words = ["log", "add", "new.db", "--swatch", code, "--zone", typed, "--judge", "j1", "--grade", ("about half", "slight")[number % 2]]
            code_of, _, err = made.run(["--language", language, *words], folder, None, "")
            if code_of != 0:
                findings.false.append(f"{' '.join(words)} ({language}): {err}")
    for words in (["log", "show", "new.db", ids], ["compare", "new.db"], ["day", "new.db", "--summary"], ["day", "new.db", "--stops"]):
        _, out, err = made.run(["--language", language, *words], folder, None, "")
        findings.people(f"{' '.join(words)} ({language})", out + err)


def look_at_sheets(made, findings, language, folder):
    file, arm, zone = calls.SCENES["named"]
    packed = folder / f"pack-{language}"
    code, _, err = made.run(["--language", language, "pack", file, "--repeats", "2", "-o", packed.name], folder, None, "")
    if code != 0:
        findings.false.append(f"pack ({language}): {err}")
    for sheet in sorted(packed.glob("*.html")):
        findings.people(f"pack, {sheet.name} ({language})", sheet.read_text())
    pictures = {"sheet": ["picture", file, "--at", "0min,10min"], "rank": ["rank", file, *calls.DRAWS, "--zone", zone], "map": ["map", file, "--arm", arm],
                "seen": ["compare", "new.db"]}
    for name, words in pictures.items() if shutil.which("pdftotext") else ():
        code, _, err = made.run(["--language", language, *words, "-o", f"{name}.pdf"], folder, None, "")
        findings.people(f"{name}.pdf ({language})", err)
        text = subprocess.run(["pdftotext", "-raw", folder / f"{name}.pdf", "-"], capture_output=True, text=True).stdout
        if not text:
            findings.false.append(f"{name}.pdf ({language}) holds nothing: {err}")
        findings.people(f"{name}.pdf ({language})", text)


def look_at_window(made, findings, language, folder):
    for options, keys in (([calls.SCENES["named"][0]], window.WALKS["way-wide"]), (["--day", "new.db"], window.DAYS["class"][1])):
        code, out, err = made.run(["--language", language, "watch", "--size", window.SIZE, "--say", keys, *options], folder, None, "")
        if code != 0:
            findings.false.append(f"watch {' '.join(options)} ({language}): {err}")
        findings.people(f"watch {' '.join(options)} ({language})", out)


def bare_names(text):
    """Lines that read a name past the titles."""
    without = re.sub(r'/\*.*?\*/|"(?:[^"\\\n]|\\.)*"', lambda found: re.sub(r"[^\n]", " ", found[0]), text, flags=re.S)
    return [without.count("\n", 0, found.start()) + 1 for found in BARE.finditer(without)]


def look_at_source():
    found = {}
    for path in sorted((SOURCE / "src").rglob("*.c")):
        name = str(path.relative_to(SOURCE))
        lines = bare_names(path.read_text()) if not MACHINES.match(name) else []
        if lines:
            found[name] = lines
    false = [f"{name}:{line}: shown to people? sl_arm_title(), sl_zone_title(); else say in check_names.py why not"
             for name, lines in found.items() if name not in MACHINE_FILES for line in lines]
    return false + [f"{name} needs no exception any more" for name in MACHINE_FILES if name not in found]


def self_test():
    findings = Findings()
    findings.people("a", "xarm-1 is shown")
    findings.people("b", "english strip 1")
    findings.machines("c", "xarm-1,spanish part 1")
    right = len(findings.false) == 2 and findings.shown == 1 and findings.kept == 1
    right = right and bare_names('a(arm->name);\nb("arm->name"); /* zones[0].name */\nc(s->zones[of[i]].name);\n') == [1, 3]
    print("every fault is seen, and nothing else" if right else findings.false)
    return 0 if right else 1


def main():
    if sys.argv[1] == "--self-test":
        return self_test()
    calls.SCENES = {"named": ("scenes/named.yaml", "xarm-3", "xzone-0")}
    made, findings = Named(sys.argv[1]), Findings()
    for language in calls.LANGUAGES:
        with tempfile.TemporaryDirectory() as name:
            folder = made.place(name)
            call_all(made, findings, language, folder)
            look_at_log(made, findings, language, folder)
            if net.why_not("sheets", sys.argv[1]) is None:
                look_at_sheets(made, findings, language, folder)
            if net.why_not("window", sys.argv[1]) is None:
                look_at_window(made, findings, language, folder)
    findings.false += look_at_source()
    print("\n".join(findings.false))
    print(f"{findings.shown} titles were shown and {findings.kept} names kept, {len(findings.false)} faults")
    return 1 if findings.false or findings.shown < 500 or findings.kept < 100 else 0


if __name__ == "__main__":
    sys.exit(main())
