#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What is acknowledged is in the log, and what is not is not: streams that are closed or full, readings that are
sent twice, copies that are restored, logs of which a part is lost.

    log_receipts.py SLOWLIFT
"""
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile

SLOWLIFT = sys.argv[1]
failures = []


def check(good, sentence):
    print(("ok    " if good else "FALSE ") + sentence.strip())
    if not good:
        failures.append(sentence)


def run(*words, stdout=subprocess.PIPE, close=False):
    done = subprocess.run([SLOWLIFT, *words], stdin=subprocess.DEVNULL, stdout=stdout, stderr=subprocess.PIPE, text=True,
                          preexec_fn=(lambda: os.close(1)) if close else None)
    return done.returncode, done.stdout, done.stderr


def counts(log):
    base = sqlite3.connect(log)
    found = [base.execute(f"SELECT count(*) FROM {table}").fetchone()[0] for table in ("test", "event", "reading")]
    base.close()
    return found


def counts_of_events(log):
    base = sqlite3.connect(log)
    found = base.execute("SELECT count(*) FROM event").fetchone()[0]
    base.close()
    return found


def broken_pipe():
    """A pipe whose reader has gone."""
    reads, writes = os.pipe()
    os.close(reads)
    return writes


def without_receipt(folder, log, looks, other):
    """Every command that keeps something, on four outputs that take nothing."""
    commands = (("log", "add", log, "--swatch", "HP5", "--zone", "red", "--judge", "j1", "--grade", "slight"),
                ("log", "note", log, "nobody hears this"), ("log", "import", log, looks),
                ("log", "merge", log, other), ("log", "new", log, "eight-arms", "--operator", "op-2"))
    before = counts(log)
    for words in commands:
        for output in ("closed", "full", "broken"):
            if output == "full":
                with open("/dev/full", "w") as full:
                    code, _, err = run(*words, stdout=full)
            elif output == "broken":
                pipe = broken_pipe()
                code, _, err = run(*words, stdout=pipe)
                os.close(pipe)
            else:
                code, _, err = run(*words, close=True)
            check(code == 3 and len(err.splitlines()) == 1 and "receipt" in err,
                  f"{words[1]} on a {output} output fails and says so: {code} {err.strip()}")
            check(counts(log) == before, f"{words[1]} on a {output} output keeps nothing: {before} {counts(log)}")
    new = os.path.join(folder, "new.db")
    code, _, err = run("log", "new", new, "eight-arms", "--operator", "op-1", close=True)
    check(code == 3 and not os.path.exists(new), "a new log without a receipt is none")


def twice(log):
    """The same reading sent again with its id is kept once; two that are alike without ids are two."""
    words = ("log", "add", log, "--swatch", "HP5", "--zone", "red", "--judge", "j1", "--grade", "slight")
    name = "0aaaaaaa-0000-4000-8000-00000000000a"
    before = counts(log)[2]
    first, again = run(*words, "--id", name), run(*words, "--id", name)
    check(first[0] == 0 and "is kept" in first[1], f"a reading with an id of its own is kept: {first}")
    check(again[0] == 0 and "already" in again[1], f"sent again, it is known: {again}")
    check(counts(log)[2] == before + 1, "it is there once")
    other = run(*words[:-1], "about half", "--id", name)
    check(other[0] == 1 and "other content" in other[2], f"another reading with that id is refused: {other}")
    check(counts(log)[2] == before + 1, "and not kept")
    later = run(*words, "--id", name, "--at", "2020-01-01T00:00:00Z")
    check(later[0] == 1, f"the same at another time is another reading: {later}")
    check(run(*words)[0] == 0 and run(*words)[0] == 0 and counts(log)[2] == before + 3,
          "two readings that are alike are two looks")


def restored(folder, log):
    """A copy, the log lost, and the day goes on with the copy."""
    copy = os.path.join(folder, "copy.db")
    held = sqlite3.connect(log)  # somebody has it open, with rows in its write-ahead log
    held.execute("SELECT count(*) FROM test").fetchone()
    check(run("log", "note", log, "before the copy")[0] == 0, "a note before the copy")
    code, out, err = run("log", "backup", log, "-o", copy)
    held.close()
    check(code == 0 and copy in out and "read back" in out, f"a copy is told by its name: {code} {out} {err}")
    check(counts(copy) == counts(log), "the copy has every row")
    whole = run("log", "export", log)[1]
    check(run("log", "export", copy)[1] == whole, "the copy gives the same readings")
    for words in (("backup", log, "-o", copy), ("backup", log, "-o", log), ("rescue", log, "-o", copy),
                  ("rescue", log, "-o", log)):
        with open(copy, "rb") as file:
            there = file.read()
        code, out, err = run("log", *words)
        with open(copy, "rb") as file:
            check(code == 2 and ("already" in err or log in words[-1]) and file.read() == there, f"nothing is written over: {words[0]} {err}")
    check(run("log", "export", log)[1] == whole, "and not over the log")
    check(run("log", "backup", log)[0] == 2 and run("log", "backup", log, "-o", os.path.join(folder, "no/a.db"))[0] == 3,
          "a copy needs a place")
    for end in ("", "-wal", "-shm"):
        if os.path.exists(log + end):
            os.unlink(log + end)
    shutil.copy(copy, log)
    check(run("log", "export", log)[1] == whole, "restored, the log is what it was")
    check(run("log", "add", log, "--swatch", "HP5", "--zone", "red", "--judge", "j9", "--grade", "slight")[0] == 0 and
          run("log", "note", log, "after")[0] == 0 and run("log", "check", log)[0] == 0, "and goes on")
    check(not [name for name in os.listdir(folder) if ".db." in name], "no file is left beside them")


def in_part(folder, log, looks):
    """A page of readings is lost: the others are given, and how many they are of how many."""
    torn = os.path.join(folder, "torn.db")
    shutil.copy(log, torn)
    base = sqlite3.connect(torn)
    base.execute("PRAGMA journal_mode = DELETE")
    for i in range(300):
        base.execute("INSERT INTO reading (id, swatch, zone, judge, at, note) SELECT ?, swatch, zone, judge, at, ?"
                     " FROM reading LIMIT 1", (f"0aaaaaaa-0000-4000-8000-{i:012d}", "word " * 30))
    base.commit()
    rows, size = base.execute("SELECT count(*) FROM reading").fetchone()[0], 4096
    root = base.execute("SELECT rootpage FROM sqlite_schema WHERE name = 'reading'").fetchone()[0]
    page = base.execute("SELECT max(rowid) FROM reading").fetchone()[0]
    base.close()
    with open(torn, "r+b") as file:
        whole = file.read()
        at = (root - 1) * size
        n = int.from_bytes(whole[at + 3:at + 5], "big")
        cell = int.from_bytes(whole[at + 12 + 2 * (n // 2):at + 14 + 2 * (n // 2)], "big")
        child = int.from_bytes(whole[at + cell:at + cell + 4], "big")
        there = int.from_bytes(whole[(child - 1) * size + 3:(child - 1) * size + 5], "big")
        file.seek((child - 1) * size)
        file.write(bytes(size))
    check(page == rows and 5 < there < 100, f"a page of {there} of {rows} readings is lost")
    code, out, err = run("log", "export", torn)
    given = len(out.splitlines()) - 1
    check(code == 1 and given == rows - there, f"the other {rows - there} are given: {given}, {code}")
    base = sqlite3.connect(log)
    total = rows + sum(base.execute(f"SELECT count(*) FROM {t}").fetchone()[0]
                       for t in ("test", "scene_file", "zone", "swatch", "event", "import"))
    base.close()
    check(f"{total - there} of {total} rows could be read" in err, f"and so many of how many: {err}")
    check("write" not in err.split("rows could")[0], "nobody wanted to write")
    for words in (("compare", torn), ("log", "show", torn), ("log", "export", torn, "--json")):
        code, out, err = run(*words)
        check(code == 1 and "rows could be read" in err and len(out) > 100, f"{words[0]} gives what there is: {code} {err}")
    saved = os.path.join(folder, "saved.db")
    code, out, err = run("log", "rescue", torn, "-o", saved)
    check(code == 1 and f"holds {total - there} rows" in out and "rows could be read" in err,
          f"rescue copies them: {code} {out} {err}")
    check(run("log", "check", saved)[0] == 0, "into a log that is whole")
    check(run("log", "note", saved, "on we go")[0] == 0, "and goes on")
    before = counts_of_events(torn)
    check(run("log", "note", torn, "the day goes on")[0] == 0 and counts_of_events(torn) == before + 1,
          "a note still finds its place in the torn one")
    code, out, err = run("log", "backup", torn, "-o", saved + "2")
    check(code == 1 and "rescue" in err, f"the torn one is not copied as if it were whole: {code} {err}")
    check(not os.path.exists(saved + "2"), "nothing of such a copy is left")


with tempfile.TemporaryDirectory() as folder:
    log, other = os.path.join(folder, "strands.db"), os.path.join(folder, "other.db")
    looks = os.path.join(folder, "looks.csv")
    for path in (log, other):
        run("log", "new", path, "eight-arms", "--operator", "op-1", "--title", "Monday")
    with open(looks, "w") as file:
        file.write("swatch,zone,judge,grade,test\n" + f"HP5,red,j1,slight,{sqlite3.connect(log).execute('SELECT id FROM test').fetchone()[0]}\n")
    without_receipt(folder, log, looks, other)
    twice(log)
    restored(folder, log)
    in_part(folder, log, looks)
sys.exit(1 if failures else 0)
