# SPDX-License-Identifier: GPL-3.0-or-later
"""Outlines of the window: after each key page and panel, every word with style and place, every part and control; of
scenes, of lessons step by step, and of the clock of the day, whose times alone are masked."""
import re
import shutil
import subprocess

import calls
import reader

SIZE = "1280x800"
WALKS = {  # scene: keys
    "way-wide": "Return,C,C,W,A,S,E,4,E,F,Escape,N,Escape,M,Escape,Space,P,P,Z,S,Escape,G,Escape,K,Escape,F1,Escape,Tab,Right,shift+Right,B",
    "head": "Return,C,W,E,N,Escape,M,Escape,Q,Escape,F",
    "twice": "Return,C,2,E,W,Right,M,Escape,Q,Right",
}
ASKED = "End,Return,End,Return,4"  # the cautions fill two pages in Spanish
SCIENCE = "Return,Return,S"


def has_the_face():
    """Boxes hang on the typeface; the outlines were made with Debian 12's fonts-inter."""
    try:
        return "Inter" in subprocess.run(["fc-list", ":family=Inter"], capture_output=True, text=True).stdout
    except FileNotFoundError:
        return False


LESSONS = ("half-life", "limits", "warmth", "when-waiting-ends")
ANSWERS = ",".join(["1", "Return"] * 22)  # through all steps of a lesson
DAYS = {  # name: (a kept log, keys)
    "ladder": ("log/ladder-2.db", "N,G,M,A,W,T,Escape,F,Right,K,Escape,F1,Escape,J,Escape,U,B,Space,Space,1,O,D,Escape"),
    "class": ("log/class-1.db", "Y,G,Right,A,R,N,1,Space,F,S,2,D"),
}


def walk(net, options, keys, folder, language, masked=lambda line: line):
    """{step: lines}, each as what differs from the one before."""
    code, shown, err = net.run(["--language", language, "watch", "--size", SIZE, "--say", keys, *options], folder, None, "")
    if code != 0:
        return {f"start · {language}": [f"exit {code}"] + [f"error {line}" for line in err.split("\n") if line.strip()]}
    steps = re.split(r"^== (.*)\n", shown, flags=re.M)[1:]
    out, told = {}, {}  # the step before, in full
    for number, (key, text) in enumerate(zip(steps[::2], steps[1::2])):
        lines = [masked(reader.shortened(net.cautions[language].put(line))) for line in text.split("\n")[:-1]]
        name = f"{number} {key} · {language}"
        out[name] = net.beside(next(iter(told), None), told, lines)
        told = {name: lines}
    return out


def both(make):
    return {name: lines for language in calls.LANGUAGES for name, lines in make(language).items()}


def without_clock(line):
    """A time that a clock shows, and the box that is as wide as its figures."""
    if not re.search(calls.CLOCK[0], line):
        return line
    line = re.sub(calls.CLOCK[0], calls.CLOCK[1], line)
    return re.sub(r"^words [-\d]+ [-\d]+ [-\d]+ [-\d]+ ", "words … ", line)


def of_day(net, name, folder):
    kept, keys = DAYS[name]

    def one(language):
        (folder / "kept.db").unlink(missing_ok=True)
        shutil.copyfile(folder / kept, folder / "kept.db")
        return walk(net, ["--day", "kept.db"], keys, folder, language, without_clock)
    return both(one)


def outlines(net):
    jobs = {scene: (lambda folder, scene=scene: both(lambda language: walk(net, [calls.SCENES[scene][0]], WALKS[scene], folder, language)))
            for scene in WALKS}
    jobs["new"] = lambda folder: both(lambda language: walk(net, ["--new"], ASKED, folder, language))
    jobs["science"] = lambda folder: both(lambda language: walk(net, [calls.SCENES["way-wide"][0]], SCIENCE, folder, language))
    jobs |= {f"lesson/{name}": (lambda folder, name=name: both(lambda language: walk(net, ["--lesson", name], ANSWERS, folder, language)))
             for name in LESSONS}
    jobs["lesson/class"] = lambda folder: both(lambda language: walk(
        net, ["--lesson", "half-life", "--class", "lessons/class-example"], "Down", folder, language))
    return jobs | {f"day/{name}": (lambda folder, name=name: of_day(net, name, folder)) for name in DAYS}
