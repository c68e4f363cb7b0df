#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every key of the tables of records (src/scene/field.h) stands on the page of the files with what it takes and what
serves when it is left out, and the page tells of no other key; names in JSON, too. What people are told of a row is in the
catalogues' template, or it would be told in English everywhere.

The page says a key's facts in tables of four columns. Words in backticks under "left out" are a value, compared as the
reader understands it; other words are for people, where a reader of the key's own decides.

usage: check_field_doc.py LISTER SOURCE
"""
import collections
import pathlib
import re
import subprocess
import sys

HEAD = "| key | left out | takes | |"
# The tables of each section of the page, in their order: of which record, and whether of what stands in its sections.
TABLES = {"Scene": [("sl_scene", False), ("sl_zone", False), ("sl_arm", False), ("sl_step", False), ("sl_aims", False), ("sl_crew", False)],
          "Hair": [("sl_hair_record", False)], "Dyes": [("sl_dye", False), ("sl_dye", True), ("sl_band", False)],
          "Mix": [("sl_mix", False), ("sl_mix", True)],
          "Chart": [("sl_chart", False), ("sl_chart", True), ("sl_tone", False)],
          "Prices": [("sl_prices", False), ("sl_prices", True), ("sl_product", False)],
          "Settings": [("sl_settled", False)]}
Row = collections.namedtuple("Row", "record section key required takes usual told own words wanted of")


def rows_of(lister, source):
    out = subprocess.run([lister, str(source / "models")], capture_output=True, text=True, check=True).stdout
    return [Row(*line.split("\t")) for line in out.splitlines()]


def sections_of(page):
    parts = re.split(r"(?m)^## (.+)$", page)
    return dict(zip(parts[1::2], parts[2::2]))


def cells(line):
    return [cell.strip() for cell in line.strip()[1:-1].split("|")] if line.startswith("|") else []


def tables_of(text):
    """Each table with the head as above: {key: (left out, takes)}."""
    found, lines = [], text.splitlines()
    for at, line in enumerate(lines):
        if line != HEAD:
            continue
        table = {}
        for row in lines[at + 2:]:
            if not row.startswith("|"):
                break
            keys, left_out, takes = (cells(row) + ["", ""])[:3]
            for key in re.findall(r"`(\w+)`", keys):
                table[key] = (left_out, takes)
        found.append(table)
    return found


def value_of(text):
    """A number with its unit, or a word."""
    match = re.fullmatch(r"([-+.\de]+) ?(.*)", text)
    return (float(match[1]), match[2]) if match else text


def is_nothing(usual):
    value = value_of(usual)
    return usual in ("", "no") or (isinstance(value, tuple) and value[0] == 0.0)


def wrongs_of_key(row, left_out, takes, section):
    if (row.required == "required") != left_out.startswith("required"):
        yield f"is {'' if row.required else 'not '}required, and the page says \"{left_out}\""
    stated = re.search(r"`([^`]+)`", left_out)
    if not row.required and stated and value_of(stated[1]) != value_of(row.usual):
        if not (stated[1] == "natural" or row.usual == ""):
            yield f"is {row.usual or 'nothing'} when it is left out, and the page says {stated[1]}"
    if not row.required and not stated and not is_nothing(row.usual):
        yield f"is {row.usual} when it is left out, and the page does not say so"
    if takes == "one of the classes":
        takes = row.takes if all(word in section for word in re.findall(r"`[^`]+`", row.takes)) else "some of the classes"
    free = row.takes == "" or (row.own and not re.match(r"[-.\de]+ to [-.\de]+", takes))
    if not free and takes != row.takes:
        yield f"takes {row.takes}, and the page says {takes}"
    if takes == "" and row.takes:
        yield "takes something, and the page does not say what"


def wrongs_of_tables(rows, sections):
    for heading, expected in TABLES.items():
        tables = tables_of(sections[heading])
        if len(tables) != len(expected):
            yield f"{heading}: {len(tables)} tables of keys, not {len(expected)}"
            continue
        for table, (record, within) in zip(tables, expected):
            of_record = [row for row in rows if row.record == record and row.key]
            told = [row for row in of_record if bool(row.section) == within]
            known = {row.key for row in told} | ({row.section for row in of_record if row.section} if not within else set())
            yield from (f"{heading}: `{key}` of {record} is not on the page" for key in sorted(known - set(table)))
            yield from (f"{heading}: `{key}` is on the page, and {record} has no such key" for key in sorted(set(table) - known))
            for row in told:
                if row.key in table:
                    yield from (f"{heading}: `{row.key}` {wrong}" for wrong in wrongs_of_key(row, *table[row.key], " ".join(sections[heading].split())))


def wrongs_of_chemistry(rows, text):
    """There the page lists each section's keys in one row; a range in brackets goes with the key before it."""
    told = {}
    for line in text.splitlines():
        if line.startswith("| `"):
            names, keys = cells(line)[:2]
            for section in re.findall(r"`(\w+)`", names):
                told[section] = set(re.findall(r"`(\w+)`", re.sub(r"\([^)]*\)", "", keys)))
            for key, least, most in re.findall(r"`(\w+)`[^`]*\(([-.\d]+) to ([-.\d]+)\)", keys):
                row = next((row for row in rows if row.key == key), None)
                if row and value_of(row.takes.split(" to ")[-1])[0] != float(most):
                    yield f"Chemistry: `{key}` takes {row.takes}, and the page says {least} to {most}"
    known = collections.defaultdict(set)
    needed = {row.section for row in rows if row.record == "sl_chemistry" and row.required}
    for row in rows:
        if row.record == "sl_chemistry" and row.key:
            known[row.section].add(row.key)
        if row.record == "sl_chemistry" and row.key and row.section not in needed:
            if not re.search(rf"(?s)The sections [^.]*`{row.section}`[^.]* may be left out", text):
                yield f"Chemistry: {row.section} may be left out, and the page does not say so"
        elif row.record == "sl_chemistry" and row.key and row.own == "" and not row.required:
            stated = re.search(rf"`{row.key}`, which [^`]* is ([-.\d]+) when", text)
            if not stated or float(stated[1]) != value_of(row.usual)[0]:
                yield f"Chemistry: `{row.key}` is {row.usual} when it is left out, and the page does not say so"
    for section in sorted(set(told) | set(known)):
        for key in sorted(told.get(section, set()) ^ known.get(section, set())):
            yield f"Chemistry: `{key}` of {section} is {'not ' if key in known.get(section, set()) else 'only '}on the page"


def wrongs_of_json(rows, text):
    member = {names[0].strip("`"): set(re.findall(r"`(\w+)`", names[1])) for names in map(cells, text.splitlines())
              if len(names) > 1 and names[0].startswith("`")}
    step = set(re.findall(r"`(\w+)`", text[text.index("A step has"):].split("\n\n")[0]))
    places = {"sl_scene": member["scene"], "sl_zone": member["zones"], "sl_hair": member["zones"], "sl_dye": member["zones"],
              "sl_mix": member["mixes"], "sl_arm": member["arms"], "sl_step": step}
    for row in rows:
        if row.told and row.told not in places.get(row.record, set()):
            yield f"JSON: `{row.told}` of {row.record} is not on the page"
    for name in sorted(member["mixes"] - {row.told for row in rows if row.record == "sl_mix"} - {"ph_grade"}):
        yield f"JSON: `{name}` of a mix is on the page, and is not told"


def wrongs_of_words(rows, template):
    texts = set(re.findall(r'(?m)^msgid "(.*)"$', template))
    for text in sorted({text for row in rows for text in (row.words, row.wanted, row.of if row.words else "") if text}):
        if text.replace('"', '\\"') not in texts:
            yield f'"{text}" is in no catalogue'


def main():
    lister, source = sys.argv[1], pathlib.Path(sys.argv[2])
    page = (source / "docs/file-format.md").read_text(encoding="utf-8")
    rows, sections = rows_of(lister, source), sections_of(page)
    wrongs = [*wrongs_of_tables(rows, sections), *wrongs_of_chemistry(rows, sections["Chemistry"]), *wrongs_of_json(rows, sections["JSON"])]
    wrongs = [f"docs/file-format.md: {wrong}" for wrong in wrongs]
    wrongs += wrongs_of_words(rows, (source / "src/po/slowlift.pot").read_text(encoding="utf-8"))
    for wrong in wrongs:
        print(wrong)
    print(f"{sum(1 for row in rows if row.key)} keys, {len(wrongs)} wrong")
    return 1 if wrongs or len(rows) < 150 else 0


sys.exit(main())
