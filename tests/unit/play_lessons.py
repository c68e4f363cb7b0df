#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Plays every lesson there is in the terminal, in every language it has: with right answers and with wrong
ones, stopped in the middle and gone on, and then asks what the class answered.

usage: play_lessons.py PROGRAM SOURCE
"""
import pathlib
import re
import subprocess
import sys
import tempfile

import yaml

sys.path.append(str(pathlib.Path(__file__).resolve().parent / "../tools"))
import patience  # noqa: E402

SAID = {
    "en": {"locked": "The run is locked", "first": "Answer this question first", "right": "Right.",
           "wrong": "Not this one.", "predicted": "You predicted:", "run": "The run", "gave": "The run gave: ", "your": ": Your prediction\n", "kept": "Kept.", "gain": "Class gain", "note": "note"},
    "es": {"locked": "El cálculo está cerrado", "first": "Contesta primero", "right": "Correcto.",
           "wrong": "Esta no.", "predicted": "Predijiste:", "run": "El cálculo", "gave": "El cálculo dio: ", "your": ": Tu predicción\n", "kept": "Guardado.", "gain": "Ganancia de la clase", "note": "nota"},
}
failures = []


def ok(what, true):
    if not true:
        failures.append(what)
        print("false:", what)


class Lesson:
    def __init__(self, path):
        self.path = path
        self.file = yaml.safe_load(path.read_text(encoding="utf-8"))
        self.language = self.file.get("language", "en")
        self.stops = len(self.file["run"]["stops"])
        names = [f"recall-{i + 1}" for i in range(3)]
        exits = [f"exit-{i + 1}" for i in range(len(self.file["exit"]))]
        self.questions = dict(zip(names, self.file["recall"]))
        self.questions["cases"] = self.file["cases"]["ask"]
        self.questions |= {"prediction": self.file["prediction"], "reason": self.file["reasons"],
                           "saw": self.file["saw"], "transfer": self.file["transfer"]}
        self.questions |= dict(zip(exits, self.file["exit"]))
        self.pages = 1 + 3 + 1 + 1 + 1 + 1 + 1 + 1 + 1 + 1 + len(exits) + 1

    def choice(self, key, right):
        """The number of the right answer, or of the first wrong one."""
        answers = self.questions[key]["answers"]
        return next(i for i, a in enumerate(answers, 1) if bool(a.get("right", False)) == right)


def answers(lesson, right, keys):
    """What is typed for these questions: number, Enter."""
    return "".join(f"{lesson.choice(key, right)}\n\n" for key in keys)


def play(program, lesson, right, folder):
    name = lesson.path.parent.name
    said = SAID[lesson.language]
    words = f"{name} ({lesson.language}, {'right' if right else 'wrong'})"
    kept = folder / f"{name}-{lesson.language}-{'right' if right else 'wrong'}.yaml"
    command = [program, "teach", name, "--language", lesson.language, "--answers", str(kept)]

    def run(typed):
        done = patience.run(command, input=typed, capture_output=True, text=True)
        ok(f"{words}: exit {done.returncode} {done.stderr}", done.returncode == 0 and done.stderr == "")
        return done.stdout

    head = [k for k in lesson.questions if k.startswith("recall")] + ["cases"]
    # Enter without an answer, at the prediction and at its reason; then stop before the run's page is left
    out = run("\n" + answers(lesson, right, head) + "\n" + f"{lesson.choice('prediction', right)}\n\n\n"
              + f"{lesson.choice('reason', right)}\n\nq\n")
    ok(f"{words}: no answer is asked for", said["first"] in out)
    ok(f"{words}: the run is locked without a reason", said["locked"] in out)
    reply = lesson.questions["prediction"]["answers"][lesson.choice("prediction", right) - 1]["reply"]
    ok(f"{words}: the prediction gets no feedback before the run",
       reply.split("{")[0][:30] not in " ".join(out.split()))
    run_page = out.rfind(f": {said['run']}\n")
    ok(f"{words}: the run comes after both are kept", run_page > out.rfind(said["kept"]) > 0)
    before_prediction = out[:out.find(said["your"])]
    # gone on: the run, its stops, what was seen, the rest
    rest = [k for k in lesson.questions if k.startswith("exit")]
    out = run("\n" * lesson.stops + answers(lesson, right, ["saw"]) + "\n" + answers(lesson, right, ["transfer"])
              + "\n" + answers(lesson, right, rest))
    flat = " ".join(out.split())
    first = next((line for line in out.splitlines() if re.match(r"(Step|Paso) \d+ ", line)), "")
    ok(f"{words}: goes on at the run", first.endswith(f": {said['run']}"))
    ok(f"{words}: the prediction stands beside the result", said["predicted"] in out)
    right_one = next(a for a in lesson.questions["prediction"]["answers"] if a.get("right"))
    gave = re.search(re.escape(said["gave"]) + "(.*)", out)
    ok(f"{words}: every prediction gets the result of the run", bool(gave) or "draws" not in right_one)
    by_number = sum("draws" in a for a in lesson.questions["prediction"]["answers"]) > 1
    ok(f"{words}: nothing gives the prediction away before it is asked",
       not gave or not by_number or not re.search(r"(?<!\d)" + re.escape(gave.group(1)) + r"(?!\d)", before_prediction))
    ok(f"{words}: feedback to the prediction comes after the run", reply.split("{")[0][:30] in flat)
    ok(f"{words}: comes to its end", f" {lesson.pages} " in out and out.rstrip().splitlines()[-1].endswith(kept.name))
    ok(f"{words}: says what was right", (said["right"] in out) == right and (said["wrong"] in out) != right)
    ok(f"{words}: no brace is left", "{" not in out and "}" not in out)
    file = yaml.safe_load(kept.read_text(encoding="utf-8"))
    for key in lesson.questions:
        ok(f"{words}: {key} is kept", file["lessons"][0]["answers"].get(key) == lesson.choice(key, right))


def class_of(program, folder, lesson):
    """One right and one wrong record for each language: the summary counts them."""
    name = lesson.path.parent.name
    csv = subprocess.run([program, "teach", "--class", str(folder), name, "--csv"], capture_output=True, text=True)
    rows = [line.rsplit(",", 2) for line in csv.stdout.splitlines() if f"{name},prediction," in line]
    plays = len([f for f in folder.glob(f"{name}-*.yaml")])
    ok(f"{name}: the class is counted",
       sum(int(n) for _, right, n in rows if right == "yes") == plays // 2
       and sum(int(n) for _, _, n in rows) == plays)
    table = subprocess.run([program, "teach", "--class", str(folder), name], capture_output=True, text=True)
    ok(f"{name}: the class table names the lesson", lesson.file["title"] in table.stdout and table.returncode == 0)


def quiz_of(program, source, folder):
    """Wrong before and right after: everything that could be gained, in every language there is."""
    for path in sorted((source / "lessons").glob("quiz*.yaml")):
        file = yaml.safe_load(path.read_text(encoding="utf-8"))
        language = file.get("language", "en")
        room = folder / f"quiz-{language}"
        room.mkdir()
        for when, right in (("before", False), ("after", True)):
            typed = ""
            for item in file["items"]:
                for tier in (item["answers"], item["reasons"]["answers"]):
                    typed += f"{next(i for i, a in enumerate(tier, 1) if bool(a.get('right', False)) == right)}\n"
            done = subprocess.run([program, "teach", "--quiz", when, "--language", language, "--answers",
                                   str(room / "group-1.yaml")], input=typed, capture_output=True, text=True)
            ok(f"{path.name}, {when}: exit {done.returncode} {done.stderr}", done.returncode == 0)
            ok(f"{path.name}, {when}: no feedback during a quiz", SAID[language]["right"] not in done.stdout)
        table = subprocess.run([program, "teach", "--class", str(room), "--language", language],
                               capture_output=True, text=True)
        ok(f"{path.name}: the gain is whole", SAID[language]["gain"] + ": 1.00" in table.stdout)
        ok(f"{path.name}: the note is there", SAID[language]["note"] + ": " in table.stdout)


def main():
    program, source = sys.argv[1], pathlib.Path(sys.argv[2])
    files = sorted((source / "lessons").glob("*/lesson*.yaml"))
    ok("there are lessons", len(files) > 0)
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        for path in files:
            lesson = Lesson(path)
            for right in (True, False):
                play(program, lesson, right, folder)
        for path in files:
            if path.name == "lesson.yaml":
                class_of(program, folder, Lesson(path))
        quiz_of(program, source, folder)
    print(f"{len(files)} lesson files played twice, {len(failures)} failures")
    return 1 if failures else 0


sys.exit(main())
