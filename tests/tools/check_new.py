#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`slowlift new`: the files that it makes of answers, and that it leaves nothing behind where it should not.

    check_new.py check|renew PROGRAM        the files of tests/golden/new, in both languages

How strong a colour looks is measured anew: the written scene is run with its own amounts and with the most that a recipe may have, and
CIEDE2000 is taken by scikit-image.
"""
import json
import pathlib
import re
import resource
import subprocess
import sys
import tempfile

import numpy as np
from skimage import color

ROOT = pathlib.Path(__file__).resolve().parents[2]
GOLDEN = ROOT / "tests" / "golden" / "new"
QUESTIONS = 16
SHARES = {"pastel": 0.25, "medium": 0.45, "vivid": 0.70, "deep": 0.85}  # docs/science.md, "How strong a colour looks"
failures = []


def say(good, words):
    if not good:
        failures.append(words)
        print("false:", words)


def call(program, folder, *words, typed="", limit=None):
    def small():
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))

    return subprocess.run([program, *words], cwd=folder, input=typed, capture_output=True, text=True,
                          env={"SLOWLIFT_MODELS": str(ROOT / "models"), "LC_ALL": "C.UTF-8"}, preexec_fn=small if limit is not None else None)


def files(folder):
    return {str(path.relative_to(folder)): path.read_text() for path in sorted(pathlib.Path(folder).rglob("*")) if path.is_file()}


def entries(folder):
    return sorted(path.name for path in pathlib.Path(folder).iterdir())


def made(program, folder, name, language="en"):
    run = call(program, folder, "new", "--answers", str(GOLDEN / f"{name}.yaml"), "-o", "my-test.yaml", "--language", language)
    say(run.returncode == 0, f"{name} in {language} is made ({run.stderr.strip()})")
    return run


# ---- the files ------------------------------------------------------------------------------------------------------


def told(program, name, language):
    with tempfile.TemporaryDirectory() as folder:
        run = made(program, folder, name, language)
        text = "".join(f"==> {path}\n{content}\n" for path, content in files(folder).items())
        marks = len(re.findall("# assumed$", text, re.M))
        text += "==> said\n" + run.stdout.split("\n\n ")[0] + "\n\n " + run.stdout.split("\n\n ")[1] + "\n"  # without cautions
        number = re.search(r"^ (\d+) n", run.stdout, re.M)
        say(number and int(number.group(1)) == marks, f"{name} in {language} counts its {marks} assumed numbers")
        for path in files(folder):
            read = call(program, folder, "check", path)
            warned = name == "class" and path == "my-test.yaml"  # its class is too short for what it asks
            say(read.returncode == 0 and ("That cannot work" in read.stderr if warned else not read.stderr),
                f"{name}'s {path} passes the check: {read.stderr}")
        answer = call(program, folder, "answer", "my-test.yaml", "--members", "40", "--language", language)
        say(answer.returncode == 0 and answer.stdout, f"{name} is answered: {answer.stderr}")
        return text


def golden(program, renew):
    for name in ("usual", "class", "person"):
        for language in ("en", "es"):
            text, kept = told(program, name, language), GOLDEN / f"{name}.{language}.txt"
            if renew:
                kept.write_text(text)
            say(kept.exists() and kept.read_text() == text, f"{kept.name} is what new makes (check_new.py renew)")


# ---- how strong a colour looks ---------------------------------------------------------------------------------------


def colours(program, folder, scene):
    run = call(program, folder, "run", scene, "--json", "--at", "0min")
    arm = next(arm for arm in json.loads(run.stdout)["arms"] if arm["name"] == "untreated")
    return {zone["zone"]: np.array([zone[axis][0] for axis in ("lab_l", "lab_a", "lab_b")]) for zone in arm["zones"]}


def strengths(program):
    for name in ("usual", "class", "person"):
        with tempfile.TemporaryDirectory() as folder:
            made(program, folder, name)
            text = (pathlib.Path(folder) / "my-test.yaml").read_text()
            words = re.findall(r"name: (\w+), .*dye: \{\1: ([\d.]+)\}\} # (\w+)", text)
            say(len(words) >= 2, f"{name} has colours")
            most = re.sub(r"(dye: \{\w+: )[\d.]+", r"\g<1>50", text)
            (pathlib.Path(folder) / "most.yaml").write_text(most)
            if "person:" in text:  # of a head nothing is told by the minute
                for scene in ("my-test.yaml", "most.yaml"):
                    path = pathlib.Path(folder) / scene
                    path.write_text(re.sub(r"person: .*\n", "", path.read_text()))
            looks, deepest = colours(program, folder, "my-test.yaml"), colours(program, folder, "most.yaml")
            for zone, _, word in words:
                whole = color.deltaE_ciede2000(looks["undyed"], deepest[zone])
                share = 1.0 - color.deltaE_ciede2000(looks[zone], deepest[zone]) / whole
                # Amounts have four figures, which moves the share by less than 1e-4.
                say(abs(share - SHARES[word]) < 2e-4, f"{zone} of {name} looks {word}: {share:.4f} of the way")


# ---- doubt about dyes --------------------------------------------------------------------------------------------------


def doubts(program):
    def dyes(order):
        with tempfile.TemporaryDirectory() as folder:
            (pathlib.Path(folder) / "a.yaml").write_text(f"colours: red, yellow, violet\norder: {order}\n")
            call(program, folder, "new", "--answers", "a.yaml", "-o", "t.yaml")
            return files(folder).get("dyes/t.yaml", ""), files(folder)["t.yaml"]

    agrees, scene = dyes("violet red")
    say(agrees == "" and "dyes: bright-one\n" in scene, "an order that the set bears out leaves its grades")
    for order, wide in (("red violet", ["red", "violet"]), ("unknown", ["red", "yellow", "violet"])):
        text, scene = dyes(order)
        say(re.findall(r"^  (\w+):$", text, re.M) == wide and "dyes: t\n" in scene, f"{order} widens {wide}")
        say("persulfate: {value: 0.163 L/(mol min), grade: assumed}" in text, f"{order} sets no constant")  # models/dyes/classes.yaml


# ---- nothing is left -----------------------------------------------------------------------------------------------------


def nothing_left(program):
    for row in range(QUESTIONS):
        for typed, code in (("\n" * row + "q\n", 0), ("\n" * row, 2)):
            with tempfile.TemporaryDirectory() as folder:
                run = call(program, folder, "new", typed=typed)
                say(run.returncode == code and entries(folder) == [] and run.stdout == "", f"{typed!r} leaves nothing")
    with tempfile.TemporaryDirectory() as folder:
        call(program, folder, "new", typed="\n" * QUESTIONS)
        whole = len(files(folder)["my-test.yaml"].encode())
    for limit in (0, 300, 700, 1500, whole - 1):
        with tempfile.TemporaryDirectory() as folder:
            run = call(program, folder, "new", typed="\n" * QUESTIONS, limit=limit)
            say(run.returncode == 3 and entries(folder) == [], f"a disk that is full at {limit} bytes leaves nothing: {entries(folder)}")
    for there in ("my-test.yaml", "mixes/my-test-3.yaml", "dyes/my-test.yaml"):
        with tempfile.TemporaryDirectory() as folder:
            path = pathlib.Path(folder) / there
            path.parent.mkdir(exist_ok=True)
            path.write_text("mine\n")
            run = call(program, folder, "new", "--answers", str(GOLDEN / "usual.yaml"))
            say(run.returncode != 0 and files(folder) == {there: "mine\n"}, f"nothing is written over {there}: {files(folder).keys()}")
    with tempfile.TemporaryDirectory() as folder:  # what a call that was killed left
        made(program, folder, "usual")
        whole = files(folder)
        (pathlib.Path(folder) / "my-test.yaml").unlink()
        made(program, folder, "usual")
        say(files(folder) == whole, "a call goes on where one was killed")


# ---- what is typed -----------------------------------------------------------------------------------------------------------

BAD = {"question": ["6", "which", "1.5"], "whose": ["4", "1 K12", "2 Anna Maria"], "room": ["60 °C", "warm", "20 K"],
       "hair": ["5 from 9", "11", "9 of 5", "10.7 from 5", "6.5"], "root": ["red on 5", "brown", "brown on 12"],
       "colours": ["puce", "red red", ","], "strength": ["loud", "vivid deep"], "order": ["red", "pink red", "red violet blue", "red orange yellow green blue violet pink"],
       "mixes": ["9", "water water"], "bowls": ["1:0", "300 min", "perhaps", "new; new", "code a b"], "controls": ["some"],
       "time": ["0 min", "5 h", "30 g"], "left": ["0 %", "all", "half, half", "ignore"],
       "limits": ["1 level", "2, 10 %, 45 min", "-1 levels, 10 %, 45 min", "1 level, 200 %, 45 min", "0x1 level, 10 %, 45 min", "nan levels, 10 %, 45 min"],
       "class": ["3", "0, 2 g, 1, no end", "3, 2 g, 9, no end", "3, 2 kg, 1, no end"], "file": ["my test.yaml", "a.txt", ".yaml", "A.yaml"]}


def typing(program):
    ids = list(BAD)
    say(len(ids) == QUESTIONS, "each question has bad answers")
    for row, (key, answers) in enumerate(BAD.items()):
        for answer in answers:
            with tempfile.TemporaryDirectory() as folder:
                run = call(program, folder, "new", typed="\n" * row + answer + "\nq\n")
                asked = run.stderr.count(f"{row + 1} of {QUESTIONS}.")
                refused = [line for line in run.stderr.splitlines() if line.startswith("   ") and "; " in line]
                say(run.returncode == 0 and asked == 1 and refused and entries(folder) == [], f"{key}: {answer!r} is asked again")
                (pathlib.Path(folder) / "a.yaml").write_text(f"{key}: '{answer}'\n")
                run = call(program, folder, "new", "--answers", "a.yaml")
                say(run.returncode in (1, 2) and len(run.stderr.splitlines()) == 1 and "a.yaml:1:" in run.stderr and entries(folder) == ["a.yaml"],
                    f"{key}: {answer!r} is refused in a file: {run.stderr}")
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "a.yaml").write_text("colour: red\n")
        run = call(program, folder, "new", "--answers", "a.yaml")
        say(run.returncode == 1 and '"colours"' in run.stderr, "an unknown key is told, with the nearest")
        (pathlib.Path(folder) / "a.yaml").write_text("whose: 3\n")
        run = call(program, folder, "new", "--answers", "a.yaml")
        say(run.returncode == 1 and "time" in run.stderr and entries(folder) == ["a.yaml"], "nothing is usual on a head")

    def typed_files(typed, *words):
        with tempfile.TemporaryDirectory() as folder:
            run = call(program, folder, "new", *words, typed=typed)
            say(run.returncode == 0, f"typed: {run.stderr}")
            return files(folder)

    usual = typed_files("\n" * QUESTIONS)
    say(usual == typed_files("\n\nb\n?\n" + "\n" * QUESTIONS), "b goes back, and ? asks the same again")
    changed = typed_files("\n\n31 °C\nb\n21 °C\n" + "\n" * 13)
    say("room: 21 °C\n" in changed["my-test.yaml"], "what was taken back is gone")
    say("room: 23 °C\n" in typed_files("\n\n23\n" + "\n" * 13)["my-test.yaml"], "a bare number has the unit of its question")
    keys = dict(re.findall(r"^(\w+): (.*)$", (GOLDEN / "class.yaml").read_text(), re.M))
    by_hand = typed_files("".join(keys.get(key, "") + "\n" for key in ids))
    with tempfile.TemporaryDirectory() as folder:
        made(program, folder, "class")
        say(by_hand == files(folder), "a terminal makes what a file of answers makes")
    spanish = {"colours": "rojo, azul", "strength": "vivo, medio", "order": "azul rojo", "mixes": "agua 3", "left": "mitad", "root": "marrón sobre 6",
               "hair": "9 desde 5", "controls": "lavado, sin teñir", "bowls": "1:2, sin leer", "limits": "2 niveles, 10 %, 45 min"}
    english = {"colours": "red, blue", "strength": "vivid, medium", "order": "blue red", "mixes": "water 3", "left": "half", "root": "brown on 6",
               "hair": "9 from 5", "controls": "washed, undyed", "bowls": "1:2, not read", "limits": "2 levels, 10 %, 45 min"}
    one, other = (typed_files("".join(words.get(key, "") + "\n" for key in ids), "--language", "es") for words in (spanish, english))
    say(one == other, "words may be typed in the language in use or in English")


def main():
    program = str(pathlib.Path(sys.argv[2]).resolve())
    golden(program, sys.argv[1] == "renew")
    strengths(program)
    doubts(program)
    nothing_left(program)
    typing(program)
    print("failed" if failures else "right")
    sys.exit(bool(failures))


if __name__ == "__main__":
    main()
