#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Whether first-year students can read the lessons and the quiz.

English: Flesch-Kincaid grade 8 or lower, counted by GNU style (package diction):
    .39 words/sentences + 11.8 syllables/words - 15.59
    J. P. Kincaid, R. P. Fishburne, R. L. Rogers, B. S. Chissom, Research Branch Report 8-75,
    Naval Technical Training, 1975.
Spanish: Fernandez Huerta's lecturabilidad 60 (normal for an adult) or higher:
    206.84 - 60 syllables/words - 1.02 words/sentences
    J. Fernandez Huerta, Consigna 214:29-32 (1959), with F read as words per sentence: G. Law,
    Error in the Fernandez Huerta readability formula, 2011, as told at legible.es.
A formula counts syllables and stops; it knows nothing of meaning.

    readability.py LESSONS_FOLDER
    readability.py --self-test
"""
import pathlib
import re
import shutil
import subprocess
import sys

import yaml

GRADE, LEGIBLE = 8.0, 60.0
NOT_READ = {"kind", "version", "origin", "language", "edition", "number", "minutes", "level", "numbers", "claims",
            "scenes", "names", "scene", "zone", "at", "arms", "by", "draws", "right", "run", "cautions", "teacher",
            "outcomes", "thinks", "name"}


def texts(node):
    """Every text that a student reads."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key not in NOT_READ:
                yield from texts(value)
    elif isinstance(node, list):
        for value in node:
            yield from texts(value)
    elif isinstance(node, str):
        yield node


def prose(path, number):
    """As sentences; a number stands as the word for one."""
    data = yaml.safe_load(path.read_text(encoding="utf-8"))
    for text in texts(data):
        text = re.sub(r"\{[a-z0-9_]+\}", number, text).strip()
        yield text if text[-1] in ".?!:" else text + "."


def english_grade(paths_text):
    said = subprocess.run(["style", "--language=en"], input=paths_text, text=True, capture_output=True,
                          check=True).stdout
    return float(re.search(r"Kincaid: (-?[\d.]+)", said).group(1))


def spanish_syllables(word):
    """Vowel groups; two strong vowels, or a stressed weak one beside a strong one, are two
    syllables (RAE, Ortografia 2010, 3.4.2.1)."""
    word = re.sub(r"([gq])u(?=[eéií])", r"\1", word.lower())
    word = re.sub(r"y(?=[^aeiouáéíóúü]|$)", "i", word)
    groups = re.findall(r"[aeiouáéíóúü]+", word)
    count = 0
    for group in groups:
        count += 1
        for one, other in zip(group, group[1:]):
            strong = one in "aeoáéó" and other in "aeoáéó"
            broken = (one in "íú" and other in "aeoáéó") or (other in "íú" and one in "aeoáéó")
            count += strong or broken
    return max(count, 1)


def spanish_legibility(text):
    words = re.findall(r"[a-záéíóúüñ]+", text.lower())
    sentences = len(re.findall(r"[^.?!:;]+[.?!:;]", text))
    syllables = sum(map(spanish_syllables, words))
    return 206.84 - 60.0 * syllables / len(words) - 1.02 * len(words) / sentences


def self_test():
    known = {"mechón": 2, "agua": 2, "tinte": 2, "decolorante": 5, "guía": 2, "queda": 2, "teñido": 3, "aéreo": 4,
             "ciudad": 2, "oxígeno": 4, "raíz": 2, "y": 1, "muy": 1, "lección": 2, "oír": 2, "pingüino": 3,
             "tiempo": 2, "oxidante": 4}
    wrong = {word: spanish_syllables(word) for word, n in known.items() if spanish_syllables(word) != n}
    hard = ("La predisposición dermatológica individualizada constituye indudablemente una contraindicación "
            "fundamental del procedimiento decolorante anteriormente mencionado.")
    if wrong or spanish_legibility(hard) > LEGIBLE or spanish_legibility("El agua se va. Queda la sal.") < LEGIBLE:
        sys.exit(f"the counting is wrong: {wrong}")
    if shutil.which("style") and english_grade("Notwithstanding considerable dermatological heterogeneity, "
                                               "individualised oxidative depigmentation necessitates "
                                               "unequivocally conservative methodological deliberation.") <= GRADE:
        sys.exit("a hard text counts as easy")


def main():
    if sys.argv[1] == "--self-test":
        self_test()
        return
    folder, hard = pathlib.Path(sys.argv[1]), 0
    files = sorted(path for path in folder.rglob("*.yaml") if re.match(r"(lesson|quiz)(\.es)?\.yaml", path.name))
    if not files:
        sys.exit(f"{folder}: no lessons")
    for path in files:
        spanish = path.name.endswith(".es.yaml")
        if not spanish and not shutil.which("style"):
            print(f"{path}: not counted, GNU style (package diction) is not here")
            continue
        text = "\n\n".join(prose(path, "diez" if spanish else "ten"))
        value = spanish_legibility(text) if spanish else english_grade(text)
        good = value >= LEGIBLE if spanish else value <= GRADE
        hard += not good
        print(f"{'ok   ' if good else 'FALSE'} {path.relative_to(folder)}: "
              f"{'lecturabilidad' if spanish else 'grade'} {value:.1f}")
    sys.exit(1 if hard else 0)


main()
