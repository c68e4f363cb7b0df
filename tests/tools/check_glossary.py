#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""One word for one thing: the table of docs/glossary.md, held against all that people read.

usage: check_glossary.py SOURCE | check_glossary.py --self-test

A row is | thing | English | Spanish | not in English | not in Spanish | note |; words are parted by commas, * stands for
any ending, – for none. No text has a word of the columns "not". Where an English sentence has the row's word, its Spanish has
the row's word too, and with "both ways" in the note the other way round; but for lessons and quiz, which are told anew in each
language. A note's `except "TEXT": reason` takes a piece of an English or Spanish text out of that row. Texts are those of the
catalogue, of lessons, quiz and models in both languages, and the prose of the documents for users (DOCUMENTS); code, options,
commands, file names and {numbers} are no words.
"""
import pathlib
import re
import sys

import yaml

from check_language import UNREVIEWED, entries

DOCUMENTS = ("README.md", "docs/guide.md", "docs/window.md", "docs/teach.md", "docs/log.md")
FOR_DEVELOPERS = "\n## Measured"  # from here on window.md speaks of frames
TITLES = {"title", "question", "note"}
NO_TEXT = {"kind", "version", "origin", "language", "edition", "number", "level", "numbers", "claims", "scenes", "names", "scene",
           "zone", "at", "arms", "by", "draws", "right", "run", "cautions"}  # of lessons: what machines read
NO_WORDS = re.compile(r"--?[a-z][\w-]*|\bslowlift [a-z-]+|\w+(?:,\w+)+|[\w.-]*/[\w./-]+|\b[\w-]+\.(?:yaml|db|csv|pdf|png|svg|html|md)\b|\{[^{}]*\}|\b\w+_\w+\b|\w+:(?=[a-z])")


class Row:
    def __init__(self, cells):
        self.thing, english, spanish, not_english, not_spanish, note = cells
        self.word = {"en": pattern(english), "es": pattern(spanish)}
        self.refused = {"en": pattern(not_english), "es": pattern(not_spanish)}
        self.both = "both ways" in note
        self.excepted = re.findall(r'except "([^"]+)": \S', note)

    def of(self, text):
        for piece in self.excepted:
            text = text.replace(piece, " ")
        return text


def pattern(cell):
    words = [re.escape(word.strip(" `")).replace(r"\*", r"\w*").replace(r"\ ", r"\s+") for word in cell.split(",") if word.strip() not in ("", "–")]
    return re.compile(r"(?<![\w-])(?:" + "|".join(words) + r")(?![\w-])", re.I) if words else re.compile(r"(?!)")


def rows_of(document):
    cells = [[cell.strip() for cell in line.strip().strip("|").split("|")] for line in document.splitlines() if line.startswith("| ")]
    return [Row(row) for row in cells if len(row) == 6 and row[0] != "thing"]


def wrong_in(rows, place, english, spanish=None):
    """What one text says by another word; spanish: its translation, or None."""
    texts = {"en": english, "es": spanish or ""}
    for row in rows:
        said = {language: row.of(NO_WORDS.sub(" ", text)) for language, text in texts.items()}
        for language, text in said.items():
            for found in row.refused[language].finditer(text):
                yield f"{place}: {row.thing}: {found.group(0)!r} in {texts[language]!r}"
        if not english or not spanish:
            continue
        kept = [found.group(0) for found in row.word["en"].finditer(said["en"])]
        has = {"en": bool(kept), "es": bool(row.word["es"].search(said["es"]))}
        # A word that stands in both is one of a file or a command.
        if not has["es"] and any(word not in said["es"] for word in kept) and row.word["es"].pattern != "(?!)":
            yield f"{place}: {row.thing}: {english!r} without the Spanish word: {spanish!r}"
        if row.both and has["es"] and not has["en"]:
            yield f"{place}: {row.thing}: {spanish!r} without the English word: {english!r}"


def of_catalogue(text):
    for key, many, said, _ in entries(text):
        if key:
            tidy = [re.sub(r'\\(.)', lambda found: {"n": "\n", "t": "\t"}.get(found.group(1), found.group(1)), one) for one in (key, many or key, *said)]
            yield "es.po", tidy[0], tidy[2].split(UNREVIEWED)[0]
            if many:
                yield "es.po", tidy[1], tidy[-1]


def pairs(english, spanish):
    """Texts that stand at the same place of two records."""
    if isinstance(english, dict):
        for key in english.keys() - NO_TEXT:
            yield from pairs(english[key], spanish.get(key) if isinstance(spanish, dict) else None)
    elif isinstance(english, list):
        for i, value in enumerate(english):
            yield from pairs(value, spanish[i] if isinstance(spanish, list) and i < len(spanish) else None)
    elif isinstance(english, str):
        yield english, spanish if isinstance(spanish, str) else None


def titles(node):
    """Titles, questions and notes of a file, {en: ..., es: ...} or English alone."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key in TITLES and isinstance(value, dict) and "en" in value:
                yield value["en"], value.get("es")
            elif key in TITLES and isinstance(value, str):
                yield value, None
            else:
                yield from titles(value)
    elif isinstance(node, list):
        for value in node:
            yield from titles(value)


def of_files(source):
    for path in sorted((source / "lessons").rglob("*.yaml")) + sorted((source / "models").rglob("*.yaml")):
        if ".es." in path.name:
            continue
        record, place = yaml.safe_load(path.read_text()), path.relative_to(source)
        if path.name in ("lesson.yaml", "quiz.yaml"):
            spanish = path.with_suffix("").with_suffix(".es.yaml")
            for both in pairs(record, yaml.safe_load(spanish.read_text())):
                yield place, both[0], None
                yield place, "", both[1] or ""
        else:
            yield from ((place, english, spanish) for english, spanish in titles(record))


def of_documents(source):
    for name in DOCUMENTS:
        text = re.sub(r"^```.*?^```", "", (source / name).read_text().split(FOR_DEVELOPERS)[0], flags=re.M | re.S)
        text = re.sub(r"^    .*$", "", text, flags=re.M)
        for paragraph in re.split(r"\n\s*\n|\n(?=[|#-])", text):
            yield name, re.sub(r"\s+", " ", re.sub(r"`[^`]*`|\]\([^)]*\)|<[^>]*>", " ", paragraph)), None


def of_verdicts(source, rows, catalogue):
    """Verdicts are told by one list; lessons, whose language is not the program's, have its Spanish words."""
    listed = (source / "include/slowlift/answer.h").read_text()
    words = dict(re.findall(r'X\((SL_VERDICT_\w+), "([^"]+)"', listed))
    if len(words) != 5:
        yield "answer.h: no list of five verdicts"
    for path in sorted((source / "src").rglob("*.[ch]")):
        for word in words.values():
            if f'"{word}"' in path.read_text() and word != "doubtful":
                yield f"{path.relative_to(source)}: {word!r} beside the list of answer.h"
    for word in words.values():
        if not any(row.word["en"].fullmatch(word) for row in rows):
            yield f"the glossary lacks the verdict {word!r}"
    spanish = {key: said[0] for key, _, said, _ in entries(catalogue)}
    for name, word in re.findall(r'\[(SL_VERDICT_\w+)\] = "([^"]+)"', (source / "src/lesson/numbers.c").read_text()):
        if spanish.get(words[name]) != word:
            yield f"numbers.c: {word!r} is {spanish.get(words[name])!r} in the catalogue"


def self_test():
    rows = rows_of('| thing | English | Spanish | not in English | not in Spanish | note |\n|---|---|---|---|---|---|\n'
                   '| a strip | strip, strips | tira* | arm, arms | brazo* | both ways; except "over the arm": a body\'s arm |\n')
    assert len(rows) == 1
    for english, spanish, words in (("an arm", None, "'arm'"), ("a strip", "un brazo", "'brazo'"), ("a strip", "una cosa", "without the Spanish"),
                                    ("a thing", "una tira", "without the English")):
        assert any(words in one for one in wrong_in(rows, "", english, spanish)), words
    for english, spanish in (("two strips", "dos tiras"), ("over the arm", "por encima"), ("--arm NAME", "--arm NOMBRE"), ("eight-arms", None),
                             ("alarms", "alarmas"), ("{arm: x}", "{arm: x}")):
        assert not list(wrong_in(rows, "", english, spanish)), english
    assert list(of_catalogue('msgid "a \\"b\\""\nmsgstr "c"\n')) == [("es.po", 'a "b"', "c")]
    assert list(titles({"title": {"en": "a", "es": "b"}, "x": [{"note": "c"}]})) == [("a", "b"), ("c", None)]
    assert list(pairs({"ask": "a", "scene": "b"}, {"ask": "c"})) == [("a", "c")]


def main():
    self_test()
    if sys.argv[1:] == ["--self-test"]:
        return 0
    source = pathlib.Path(sys.argv[1])
    rows, catalogue = rows_of((source / "docs/glossary.md").read_text()), (source / "src/po/es.po").read_text()
    texts = [*of_catalogue(catalogue), *of_files(source), *of_documents(source)]
    wrong = [one for text in texts for one in wrong_in(rows, *text)] + list(of_verdicts(source, rows, catalogue))
    for row in rows:
        wrong += [f"glossary: {piece!r} is in no text" for piece in row.excepted
                  if not any(piece in (english + " " + (spanish or "")) for _, english, spanish in texts)]
    for one in wrong:
        print(one)
    print(f"{len(rows)} things, {len(texts)} texts, {len(wrong)} wrong")
    return 1 if wrong or len(rows) < 40 or len(texts) < 3000 else 0


if __name__ == "__main__":
    sys.exit(main())
