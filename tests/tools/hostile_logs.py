#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every log of make_hostile_logs.py is read and written to: what is acknowledged is in the file, what is given was
in the good log, one clear message, no end by a signal, no step without end (limits of processor time, not of the
wall's), nothing on the screen that drives it.

    hostile_logs.py SLOWLIFT DOCS_LOG_MD
"""
import csv
import io
import os
import re
import resource
import sqlite3
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import make_hostile_logs as hostile  # noqa: E402

SLOWLIFT, DOCS = sys.argv[1:3]
ONLY = sys.argv[3:]
PROCESSOR_S = 60  # each takes hundredths of one, sanitized some tenths
SAME = ("test", "swatch", "zone", "minute", "judge", "at")  # what no case changes in a good reading
failures = []


def check(good, sentence):
    if not good:
        print("FALSE " + sentence)
        failures.append(sentence)


def limit():
    resource.setrlimit(resource.RLIMIT_CPU, (PROCESSOR_S, PROCESSOR_S))


def run(*words):
    done = subprocess.run([SLOWLIFT, *words], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          preexec_fn=limit)
    return done.returncode, done.stdout, done.stderr


def good_log(folder):
    """Six swatches, three notes and GOOD_ROWS readings of all but one swatch."""
    log, path = os.path.join(folder, "good.db"), os.path.join(folder, "good.csv")
    assert run("log", "new", log, "way-short", "--operator", "op-1", "--title", "Monday")[0] == 0
    base = sqlite3.connect(log)
    codes = [row[0] for row in base.execute("SELECT code FROM swatch ORDER BY block, place")][1:]
    zone = base.execute("SELECT name FROM zone ORDER BY place LIMIT 1").fetchone()[0]
    base.close()
    with open(path, "w") as file:
        file.write("swatch,zone,judge,grade,at,note\n")
        for i in range(hostile.GOOD_ROWS):
            file.write(f"{codes[i % len(codes)]},{zone},j{i % 7},about half,2026-11-25T10:00:00Z,row {i} {'x' * 150}\n")
    assert run("log", "import", log, path)[0] == 0
    for i in range(3):
        assert run("log", "note", log, f"note {i}")[0] == 0
    assert not os.path.exists(log + "-wal")
    return log


def rows_of(out):
    """The CSV that was given, by id."""
    text = out.decode("utf-8")
    return {row["id"]: row for row in csv.DictReader(io.StringIO(text))}


def harmless(name, out, err):
    """Nothing that drives a terminal or fools an eye."""
    text = (out + err).decode("utf-8", "replace")
    check("\ufffd" not in text, f"{name}: what is printed is UTF-8")
    check(not re.search("[\0-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069]", text),
          f"{name}: nothing printed drives a terminal: {text[:200]!r}")


def one_message(name, code, err):
    lines = err.decode("utf-8", "replace").splitlines()
    check(code >= 0 and b"no error" not in err and b"Sanitizer" not in err, f"{name}: ends by itself: {code} {err[:300]}")
    check(len(lines) == (0 if code == 0 else 1), f"{name}: one message where it fails, none else: {code} {lines}")


def note_is_there(path, note):
    try:
        base = sqlite3.connect(path)
        found = base.execute("SELECT count(*) FROM event WHERE note = ?", (note,)).fetchone()[0]
        base.close()
        return found == 1
    except sqlite3.Error:
        return False


def try_reading(one, path, good):
    name = one["name"]
    code, out, err = run("log", "export", path)
    one_message(name, code, err)
    harmless(name, b"" if code == 0 and one["outcome"] == "whole" else b"", err)
    given = rows_of(out)
    if code == 0:
        harmless(name, out, err)
    false = [i for i in given if i not in good or any(given[i][key] != good[i][key] for key in SAME)]
    check(not false, f"{name}: gives readings that were never kept: {false[:3]}")
    if one["rows"] is not None:
        check(len(given) == one["rows"], f"{name}: {len(given)} readings, not {one['rows']}: {err}")
    if one["outcome"] == "whole":
        check(code == 0, f"{name}: is read whole: {code} {err}")
    elif one["outcome"] == "refused":
        check(code != 0 and not given, f"{name}: is refused: {code}")
    elif one["rows"] is not None:
        check(code == 1 and re.search(rb"damaged: .*(read|left out)", err), f"{name}: says how much was read: {code} {err}")
    elif code == 0:
        check(len(given) == hostile.GOOD_ROWS, f"{name}: fewer readings and no word of it")
    shown = run("log", "show", path)
    one_message(name + ", show", shown[0], shown[2])
    harmless(name + ", show", shown[1], shown[2])
    looked = run("log", "check", path)
    one_message(name + ", check", looked[0], looked[2])
    harmless(name + ", check", looked[1], looked[2])
    check(looked[0] != 0 or code == 0, f"{name}: check finds nothing: {looked[1]}")


def try_writing(one, path):
    name, note = one["name"], "is this kept?"
    code, out, err = run("log", "note", path, note)
    one_message(name + ", note", code, err)
    harmless(name + ", note", out, err)
    check((code == 0) == note_is_there(path, note), f"{name}: acknowledged and kept are two things: {code} {out} {err}")
    check((code == 0) == (b"is kept" in out), f"{name}: {code}, and said {out}")
    if one["name"] not in ("page_gone",) and not name.startswith("page_gone") and one["rows"] is not None:
        check((code == 0) == one["writes"], f"{name}: written to: {code}, not {one['writes']} {err}")


with tempfile.TemporaryDirectory() as folder:
    good_path = good_log(folder)
    good_rows = rows_of(run("log", "export", good_path)[1])
    check(len(good_rows) == hostile.GOOD_ROWS, "the good log is whole")
    place = os.path.join(folder, "hostile")
    os.mkdir(place)
    n = 0
    for one_case, one_path in hostile.make_all(good_path, place):
        if not ONLY or one_case["name"] in ONLY:
            n += 1
            try_reading(one_case, one_path, good_rows)
            try_writing(one_case, one_path)
    print(f"{n} logs tried")
    check(n >= 60 or ONLY, "sixty hostile logs")
    with open(DOCS, encoding="utf-8") as page:
        check(hostile.table() in page.read(), "docs/log.md has the table of make_hostile_logs.py")
sys.exit(1 if failures else 0)
