# SPDX-License-Identifier: GPL-3.0-or-later
"""Letters of every size in either language: what is told in words with their places (`watch --say`). Used by run.py."""
import os
import subprocess
import tempfile


def told(display, build, what, language, percent, keys):
    """What the window tells of itself after each key: a text each."""
    said = subprocess.run([os.path.join(build, "slowlift-watch"), *what, "--size", "1280x800", "--text", percent,
                           "--language", language, "--say", keys], env=display.env, check=True, stdout=subprocess.PIPE,
                          stderr=subprocess.DEVNULL, text=True).stdout
    return said.split("\n== ")


def nothing_cut(display, build, scene, check):
    """However large the letters, in either language: no words of a strip, a page, a panel or the day are wider than their place."""
    strips = "End,End,Return,C,C,2,Q,Escape,W,Escape,E,S,Escape,B,Escape,N,Escape,M,Escape,Z,S,Escape,F,Right,Escape"
    day = "End,End,Return,Y,Return,1,Return,F1,Escape,I,Escape,S,1"
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "day.db")
        subprocess.run([os.path.join(build, "slowlift"), "log", "new", log, scene, "--operator", "op-1"], env=display.env,
                       check=True, stdout=subprocess.DEVNULL)
        seen = os.path.join(folder, "seen.db")
        subprocess.run([os.path.join(build, "slowlift"), "compare", "--example", seen, "--models",
                        os.path.join(os.path.dirname(scene), "..")], env=display.env, check=True, stdout=subprocess.DEVNULL)
        asked = "End,End,Return," + ",".join(["Tab"] * 18)
        for what, keys in (([scene], strips), (["--day", log], day), (["--seen", seen], "End,End,Return,5"), (["--new"], asked)):
            for language in ("en", "es"):
                for percent in ("100", "130", "150", "200"):
                    pages = told(display, build, what, language, percent, keys)
                    cut = sorted({line for page in pages for line in page.splitlines() if line.startswith("cut ")})
                    check(len(pages) > keys.count(",") and not cut, f"{language}, {percent} %: words have their place: {cut}")


def rows_apart(display, build, scene, check):
    """However large the letters, in either language: no row of the form runs into the next, nor out of its own place."""
    for language in ("en", "es"):
        for percent in ("100", "150", "200"):
            lines = [line.split() for line in told(display, build, [scene], language, percent, "End,End,Return,F")[-1].splitlines()]
            end = next(int(line[4]) + int(line[6]) for line in lines if line[:2] == ["place", "body"])
            places = [place for place in (list(map(int, line[3:7])) for line in lines if line[:2] == ["place", "row"])
                      if place[1] + place[3] <= end]  # below lie its keys
            check(len(places) > 8, f"{language}, {percent} %: the form tells where its rows are")
            boxes = [list(map(int, line[1:5])) for line in lines if line[0] == "words" and line[5] != "note"]  # the sign lies over rows
            wrong = [(top, height, box) for left, top, width, height in places for box in boxes
                     if top <= box[1] + box[3] // 2 < top + height and left <= box[0] < left + width // 2 and
                     not top <= box[1] <= box[1] + box[3] <= top + height]
            check(not wrong, f"{language}, {percent} %: words stay inside their row: {wrong[:3]}")


def signs_in_sight(display, build, scene, check):
    """In either language: when to rinse at once, whatever the minute, is read without scrolling the panel of limits."""
    buttons = 52  # of the panel, below what scrolls
    for language, begins in (("en", "Rinse at once"), ("es", "Aclara enseguida")):
        lines = told(display, build, [scene], language, "100", "End,End,Return,2,E")[-1].splitlines()
        panel = next(list(map(int, line.split()[3:7])) for line in lines if line.startswith("place panel"))
        signs = [list(map(int, line.split()[1:5])) for line in lines if line.startswith("words ") and begins in line]
        check(len(signs) == 1 and signs[0][1] + signs[0][3] <= panel[1] + panel[3] - buttons,
              f"{language}: signs to rinse at once are in sight: {signs} of {panel}")


def stop_in_sight(display, build, scene, check):
    """However large the letters, in either language: what stops on the form is read at once, above its buttons."""
    for language, begins in (("en", "STOP"), ("es", "PARAR")):
        for percent in ("100", "200"):
            lines = told(display, build, [scene], language, percent, "End,End,Return,F,Right,Right")[-1].splitlines()
            places = {tuple(line.split()[1:3]): list(map(int, line.split()[3:7])) for line in lines if line.startswith("place ")}
            stops = [list(map(int, line.split()[1:5])) for line in lines if line.startswith("words ") and line.endswith(" " + begins)]
            check(any(box[1] + box[3] <= places["close", "0"][1] for box in stops),
                  f"{language}, {percent} %: what stops is in sight: {stops}")


def more_is_told(display, build, scene, check):
    """With large letters, wherever something goes on below what is in sight, a sign says so; what S opens is in sight."""
    for language, sign, science in (("en", "More below", "sampling"), ("es", "Hay más debajo", "muestreo")):
        pages = told(display, build, [scene], language, "200", "End,End,Return,5,H,Escape,K,Escape,Q,N,F,Escape,W,E,S,B,Escape")
        signs = [any(f" note {sign}" in line for line in page.splitlines()) for page in pages]
        wanted = [True] + 4 * [False] + [True, False] * 2 + 3 * [True] + [False, True, False, True, True, False]
        check("control unfold" in pages[14], f"{language}: in place of that a folded panel has a control")
        check(signs == wanted, f"{language}: what goes on below says so: {signs}")
        lines = pages[-3].splitlines()
        x, y, w, h = next(list(map(int, line.split()[3:7])) for line in lines if line.startswith("place panel"))
        tops = [int(line.split()[2]) for line in lines if line.startswith("words ") and science in line]
        check(any(y <= top < y + h for top in tops), f"{language}: what S opens is in sight: {tops} of {y, h}")


def cover_in_its_box(display, build, scene, check):
    """However large the letters, in either language: why the day shows no model of a swatch stands inside its box."""
    with tempfile.TemporaryDirectory() as folder:
        for language, begins in (("en", "The model is covered"), ("es", "El modelo está cubierto")):
            for percent in ("100", "200"):
                log = os.path.join(folder, language + percent + ".db")
                subprocess.run([os.path.join(build, "slowlift"), "log", "new", log, scene, "--operator", "op-1"], env=display.env,
                               check=True, stdout=subprocess.DEVNULL)
                lines = told(display, build, ["--day", log], language, percent, "Y,Return,G,Return,M,A,Return")[-1].splitlines()
                box = next(list(map(int, line.split()[3:7])) for line in lines if line.startswith("place model"))
                words = next(list(map(int, line.split()[1:5])) for line in lines if line.startswith("words ") and begins in line)
                check(box[1] <= words[1] and words[1] + words[3] <= box[1] + box[3],
                      f"{language}, {percent} %: why the model is covered stays in its box: {words} in {box}")


def label_and_box(lines, says, begins):
    """Of a page of the day: where the label's time of the chosen swatch is told, below what its keys are for, and the box around both;
    None where there is no such box."""
    spots = [list(map(int, line.split()[3:7])) for line in lines if line.startswith("place spot ")]
    words = [(line.split(" ", 6)[6], list(map(int, line.split()[1:5]))) for line in lines if line.startswith("words ")]
    at = next((i for i, (text, _) in enumerate(words) if text.startswith(says)), -1)
    if at < 0:
        return None
    x, y = words[at][1][:2]
    box = next(box for box in spots if box[0] <= x < box[0] + box[2] and box[1] <= y < box[1] + box[3])
    text, place = words[at + 1]
    return (place if text.startswith(begins) else None), box


def label_in_its_box(display, build, scene, check):
    """However large the letters, in either language: what is said of the label's time of the chosen swatch stands whole inside its box,
    whatever is said above it, before its mix is on it and while."""
    keys = "Y,Return,G,Return,M,A,Down,Down,Down,Down,R,Return,X,6"
    with tempfile.TemporaryDirectory() as folder:
        for language, says, begins in (("en", "Keys are for", ("No ", "Label")),
                                       ("es", "Las teclas son para", ("Sin ", "Tiempo de la etiqueta", "Etiqueta"))):
            for percent in ("100", "130", "150", "200"):
                log = os.path.join(folder, language + percent + ".db")
                subprocess.run([os.path.join(build, "slowlift"), "log", "new", log, scene, "--operator", "op-1"], env=display.env,
                               check=True, stdout=subprocess.DEVNULL)
                boxes = [label_and_box(page.splitlines(), says, begins)
                         for page in told(display, build, ["--day", log], language, percent, keys)]
                inset = 8 * int(percent) // 100
                wrong = [(label, box) for label, box in filter(None, boxes)
                         if not (label and box[1] <= label[1] and label[1] + label[3] <= box[1] + box[3] - inset and
                                 label[0] + label[2] <= box[0] + box[2] - inset)]
                check(len(boxes) - boxes.count(None) > 8 and not wrong,
                      f"{language}, {percent} %: the label's time of the chosen swatch stands in its box: {wrong[:3]}")
