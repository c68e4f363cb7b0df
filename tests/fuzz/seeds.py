#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Seeds and dictionaries of the fuzzers, made from what is there: the shipped files, the files of the tests, and the words in
the code's own tables.

    seeds.py SOURCE FUZZ_SHARD FOLDER        FOLDER/TARGET/... and FOLDER/TARGET.dict
"""
import pathlib
import re
import shutil
import subprocess
import sys

SOURCE, SHARDS, FOLDER = pathlib.Path(sys.argv[1]), sys.argv[2], pathlib.Path(sys.argv[3])
# Where each target's words stand.
WORDS = {
    "scene": ["src/scene", "include/slowlift/model.h", "include/slowlift/wording.h", "src/model"],
    "part": ["src/scene", "include/slowlift/model.h", "include/slowlift/wording.h"],
    "chart": ["src/scene/files/chart_file.c", "src/scene/library.c", "src/scene/yaml/value.c"],
    "form": ["src/scene/files/intake_file.c", "src/scene/library.c", "src/estimate/person/intake.c"],
    "prices": ["src/scene/files/prices_file.c", "src/scene/library.c"], "lesson": ["src/lesson", "include/slowlift/cautions.def"],
    "answers": ["src/lesson/answers_file.c", "src/lesson/header.c"], "quiz": ["src/lesson/quiz_file.c", "src/lesson/header.c"],
    "csv": ["src/log/readings/reading_columns.c", "src/log/readings/csv_cells.c", "include/slowlift/log.h", "src/log/store/iso_time.c"],
    "log": ["src/log"], "shard": ["src/scene/part/part_file.c", "src/scene/part/part_write.c"],
}
YAML = [": ", "- ", "[", "]", "{", "}", "\"", "'", "#", "|", ">", "&a", "*a", "!!str", "---", "...", "<<: ", "\\u2028", "\t", "\r\n",
        "\ufeff", "~", "1e999", "-0", "nan", "0x10", " %", " g", " min", " °C", " mol/L", " vol", "like: "]
CSV = [",", ";", "\"", "\"\"", "\r\n", "\ufeff", "'=", "=", "1e309", "nan", "2026-11-25T14:05:30+01:00"]
SQL = ["CREATE TABLE ", "CREATE VIEW ", "CREATE TRIGGER ", "RAISE(IGNORE)", "WITH RECURSIVE ", "SQLite format 3\0"]
PLAIN = {"csv": CSV, "log": SQL + CSV, "shard": [" ", "\n", ":", "-1", "9223372036854775807"]}


def words_of(places):
    found = set()
    for place in places:
        path = SOURCE / place
        for file in sorted(path.rglob("*.[ch]")) if path.is_dir() else [path]:
            for text in re.findall(r'"((?:[^"\\\n]|\\.)*)"', file.read_text(encoding="utf-8")):
                if 1 < len(text) <= 40 and "%" not in text and ".h" not in text and text.count(" ") < 3:
                    found.add(text.encode().decode("unicode_escape", "ignore").encode("latin-1", "ignore").decode("utf-8", "ignore")
                              if "\\" in text else text)
    return sorted(found)


def escaped(word):
    return "".join(chr(b) if 32 <= b < 127 and chr(b) not in '"\\' else f"\\x{b:02x}" for b in word.encode())


def dictionary(target):
    words = [word for word in words_of(WORDS[target]) + PLAIN.get(target, YAML) if word]
    (FOLDER / f"{target}.dict").write_text("".join(f'"{escaped(word)}"\n' for word in words), encoding="ascii")


def put(target, name, content):
    folder = FOLDER / target
    folder.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(content)


def kind_of(text):
    found = re.search(rb"^kind: *(\w+)", text, re.M)
    return found[1].decode() if found else ""


TARGET = {"scene": "scene", "hair": "part", "dyes": "part", "mix": "part", "chemistry": "part", "chart": "chart", "intake": "form",
          "prices": "prices", "lesson": "lesson", "quiz": "quiz", "answers": "answers"}


def yaml_seeds():
    for place in ("models", "lessons", "tests/files"):
        for path in sorted((SOURCE / place).rglob("*.yaml")):
            text = path.read_bytes()
            target = TARGET.get(kind_of(text), "scene")
            name = "-".join(path.relative_to(SOURCE).parts)
            if target == "lesson":
                text = b"# " + path.parent.name.encode() + b"\n" + text
            put(target, name, text)
    # nothing shipped is a form or a shelf of prices: the manual's own examples are
    manual = (SOURCE / "docs/file-format.md").read_bytes()
    for number, block in enumerate(re.findall(rb"```(?:yaml)?\n(.*?)```|((?:^    .*\n|^\n)+)", manual, re.S | re.M)):
        text = block[0] or re.sub(rb"^    ", b"", block[1], flags=re.M)
        if kind_of(text) in TARGET:
            put(TARGET[kind_of(text)], f"manual-{number}.yaml", text)


def other_seeds():
    for path in sorted((SOURCE / "tests/files/csv").glob("*")):
        put("csv", path.name, path.read_bytes())
    for path in sorted((SOURCE / "tests/files/log").glob("*.db")):
        put("log", path.name, path.read_bytes())
    (FOLDER / "shard").mkdir()
    subprocess.run([SHARDS, "--seeds", str(FOLDER / "shard")], check=True)


shutil.rmtree(FOLDER, ignore_errors=True)
FOLDER.mkdir(parents=True)
yaml_seeds()
other_seeds()
for name in WORDS:
    (FOLDER / name).mkdir(exist_ok=True)
    dictionary(name)
    print(name, len(list((FOLDER / name).iterdir())), "seeds", sum(1 for _ in open(FOLDER / f"{name}.dict", encoding="ascii")), "words")
