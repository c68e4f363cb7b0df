#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`slowlift log` as a shell sees it: every verb, the sqlite3 tool beside it, a full disk, a folder that may
only be read, another user, two importers at once.

    log_commands.py SLOWLIFT LOG_READINGS
"""
import csv
import io
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile

SLOWLIFT, READINGS = sys.argv[1:3]
failures = []


def check(good, sentence):
    print(("ok    " if good else "FALSE ") + sentence)
    if not good:
        failures.append(sentence)


def run(*words, user=None):
    done = subprocess.run([SLOWLIFT, "log", *words], capture_output=True, text=True, user=user)
    return done.returncode, done.stdout, done.stderr


def wants(code, part, *words, user=None):
    """The command ends with this code, and one of its streams holds this part."""
    got, out, err = run(*words, user=user)
    check(got == code and part in out + err, f"slowlift log {' '.join(words)[:90]}: {got}, {(out + err)[:160]!r}")
    return out


def sql(log, text):
    """The sqlite3 tool opens the file."""
    return subprocess.run(["sqlite3", log, text], capture_output=True, text=True, check=True).stdout.strip()

def dyed(folder):
    """The day on which swatches were dyed, and that the day says so where it is today."""
    log = os.path.join(folder, "dyed.db")
    wants(0, "24 swatches", "new", log, "eight-arms", "--operator", "op-1")
    first = lambda: subprocess.run([SLOWLIFT, "day", log], input="q\n", capture_output=True, text=True).stdout
    check("Dyed today" not in first(), "nobody said when they were dyed")
    wants(0, "is kept", "dyed", log)
    check("Dyed today: let the swatches rest first" in " ".join(first().split()), "dyed today: rest first")
    wants(0, "is kept", "dyed", log, "--on", "2026-11-24")
    check("Dyed today" not in first(), "what is said last counts")
    wants(0, "Dyed on 2026-11-24.", "show", log)
    check(sql(log, "SELECT group_concat(note) FROM event WHERE kind = 'note'").endswith("dyed: on=2026-11-24"), "as a note")
    wants(2, "is no day until today", "dyed", log, "--on", "2261-01-01")


def filled_in(folder):
    """A CSV to fill in: a row for each swatch, zone and planned look, and its end; taken in half filled and full."""
    log = os.path.join(folder, "looks.db")
    wants(0, "24 swatches", "new", log, "eight-arms", "--operator", "op-1", "--looks", "5min,10min,40min")
    path = os.path.join(folder, "blank.csv")
    wants(0, "", "export", log, "--blank", "-o", path)
    with open(path, newline="") as file:
        rows = list(csv.DictReader(file))
    tests = json.loads(run("export", log, "--json")[1])["tests"]
    zones = [name for name in sql(log, "SELECT name FROM zone ORDER BY place").splitlines()]
    wanted = {(swatch["code"], zone, minute) for test in tests for swatch in test["swatches"] for zone in zones
              for minute in [""] + [f"{look:g}" for look in swatch["looks_min"]
                                    if swatch["contact_s"] is not None and 60 * look < swatch["dwell_s"]]}
    got = [(row["swatch"], row["zone"], row["minute"]) for row in rows]
    check(len(got) == len(set(got)) and set(got) == wanted and any(row[2] for row in got),
          f"a row for each swatch, zone and look: {len(got)} of {len(wanted)}")
    ids = {row["id"] for row in rows if re.fullmatch("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}", row["id"])}
    check("arm" not in rows[0] and len(ids) == len(rows), "no arm, and an id for each row")
    said = [("0", "no change"), ("5", "as undyed"), ("Ghost Only", "ghost only"), ("la mitad", "about half")]

    def take(n, more, language="es"):
        for row, (typed, _) in zip(rows, said[:n]):
            row["judge"], row["grade"] = "j7", typed
        with open(path, "w", newline="") as file:
            writer = csv.DictWriter(file, rows[0].keys())
            writer.writeheader()
            writer.writerows(rows)
        return run("import", log, path, "--language", language) if more is None else wants(0, more, "import", log, path)

    wants(0, f"{len(rows)} rows were not filled in", "import", log, path)
    take(3, "3 readings were added; 0 were there")
    check(take(4, None, "en")[0] == 1, "a word of another language than the one in use is refused")
    check("1 lecturas; 3 ya" in take(4, None)[1], "the rest is added, what was there is passed over")
    kept = {row["id"]: row for row in csv.DictReader(io.StringIO(run("export", log)[1]))}
    check([kept[row["id"]]["grade"] for row in rows[:4]] == [word for _, word in said], "kept are the words of the form")
    rows[0]["grade"] = "6"
    check(take(0, None)[0] == 1, "there is no grade 6")
    wants(0, "is kept", "add", log, "--swatch", rows[-1]["swatch"], "--zone", zones[0], "--judge", "j8", "--grade", "2",
          "--cotton", "Strong")


def usual(folder):
    log = os.path.join(folder, "strands.db")
    wants(2, "code, never a name", "new", log, "eight-arms")
    wants(1, "looks like a name", "new", log, "eight-arms", "--operator", "Ada L")
    check(not os.path.exists(log), "a refused test leaves no file")
    wants(0, "24 swatches", "new", log, "eight-arms", "--operator", "op-1", "--title", "Monday")
    for hours, said in ("1 h", "take 2 h 9 min; you have 1 h 0 min."), ("10 h", "24 swatches by 1 pair of hands take 2 h 9 min."):
        wants(0, said, "new", log + hours[:2].strip(), "eight-arms", "--operator", "op-1", "--class", hours.replace(" ", ""))
    out = wants(0, "Round 3:", "show", log, sql(log, "SELECT substr(id, 1, 8) FROM test"))
    check("powder + 3 %" in out, "swatches are shown with their arms")
    out = wants(0, "HP5", "show", log, sql(log, "SELECT id FROM test"), "--blind")
    check("powder" not in out, "a blind look shows codes alone")
    wants(0, "is kept", "add", log, "--swatch", "HP5", "--zone", "red", "--judge", "j1", "--grade", "about half")
    wants(1, "no names are kept", "add", log, "--swatch", "HP5", "--zone", "red",
          "--judge", "Ada L", "--grade", "slight")
    wants(1, "about half", "add", log, "--swatch", "HP5", "--zone", "red", "--judge", "j1", "--grade", "abot half")
    wants(1, "log show", "add", log, "--swatch", "QQ1", "--zone", "red", "--judge", "j1", "--grade", "slight")
    wants(2, "--judge", "add", log, "--swatch", "HP5", "--zone", "red", "--grade", "slight")
    photo = os.path.join(folder, "a photo.jpg")
    with open(photo, "wb") as file:
        file.write(b"abc")
    wants(0, "is kept", "add", log, "--swatch", "HP5", "--zone", "red", "--judge", "j2", "--photo", photo)
    # FIPS 180-4's example: SHA-256 of "abc"
    check(sql(log, "SELECT photo_sha256 FROM reading WHERE photo IS NOT NULL").startswith("ba7816bf8f01cfea414140de"),
          "a photo is kept by its SHA-256")
    first = sql(log, "SELECT id FROM reading ORDER BY kept LIMIT 1")
    wants(0, "is kept", "add", log, "--swatch", "HP5", "--zone", "red", "--judge", "j1", "--grade", "ghost only",
          "--replaces", first)
    out = wants(0, "10 % left", "show", log, sql(log, "SELECT id FROM test"))
    check("50 % left" not in out, "what was corrected does not count")
    wants(0, "note is kept", "note", log, "the room got warm", "--swatch", "HP5")
    wants(1, "nothing named", "note", log, "x", "--swatch", "QQ1")
    rows = list(csv.DictReader(io.StringIO(run("export", log)[1])))
    check(len(rows) == 3 and rows[0]["grade"] == "about half" and rows[2]["replaces"] == first,
          "another reader of CSV reads what was exported")
    whole = json.loads(run("export", log, "--json")[1])
    check(len(whole["tests"][0]["readings"]) == 3 and whole["tests"][0]["events"][0]["note"] == "the room got warm",
          "another reader of JSON reads what was exported")
    check(sql(log, "PRAGMA integrity_check; PRAGMA foreign_key_check; PRAGMA user_version") == "ok\n6",
          "the sqlite3 tool finds the file whole")
    wants(2, "no log was named", "show")
    wants(2, "nearest", "imprt", log)
    wants(1, "No such file", "show", os.path.join(folder, "none.db"))
    wants(2, "the same log", "merge", log, log)
    return log


def bad_file(folder, log):
    """Named with its place; nothing is kept of it."""
    path = os.path.join(folder, "bad.csv")
    with open(path, "w") as file:
        file.write("swatch,zone,judge,grade\nHP5,red,j1,slight\nHP5,red,j1,slihgt\n")
    before = sql(log, "SELECT count(*) FROM reading")
    wants(1, f"{path}:3:12: unknown word \"slihgt\"", "import", log, path)
    check(sql(log, "SELECT count(*) FROM reading") == before, "a bad file leaves nothing")


def made_csv(log, path, count, judge):
    with open(path, "w") as file:
        subprocess.run([READINGS, log, str(count), judge], stdout=file, check=True)


def together(folder, log):
    """Two importers at once: one waits, and both files are there."""
    before = int(sql(log, "SELECT count(*) FROM reading"))
    files = [os.path.join(folder, f"{judge}.csv") for judge in "ab"]
    for path in files:
        made_csv(log, path, 20000, os.path.basename(path)[0])
    both = [subprocess.Popen([SLOWLIFT, "log", "import", log, path], stdout=subprocess.PIPE) for path in files]
    said = [one.communicate()[0].decode() for one in both]
    check(all("20000 readings were added" in words for words in said), f"two importers at once finish: {said}")
    check(int(sql(log, "SELECT count(*) FROM reading")) == before + 40000, "two importers at once lose nothing")
    check(sql(log, "PRAGMA integrity_check") == "ok", "the file is whole after two importers")


def busy(log):
    """A log that another program holds is said to be busy, after a wait, and nothing is half kept."""
    holder = subprocess.Popen(["sqlite3", log], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True)
    holder.stdin.write("BEGIN IMMEDIATE;\nSELECT 'held';\n")
    holder.stdin.flush()
    holder.stdout.readline()
    wants(3, "busy", "note", log, "held")
    holder.communicate("ROLLBACK;\n")
    wants(0, "is kept", "note", log, "free again")


def read_only(folder, log):
    """Another user who may not write: told so, may read; nothing is lost. Only root can become another one."""
    if os.geteuid() != 0:
        return
    try:
        subprocess.run([SLOWLIFT, "--version"], capture_output=True, check=True, user="nobody")
    except (PermissionError, subprocess.CalledProcessError):  # built where nobody else may look
        print("left out: another user cannot reach the program here")
        return
    place = os.path.join(folder, "shelf")
    os.mkdir(place)
    copy = os.path.join(place, "strands.db")
    shutil.copy(log, copy)
    os.chmod(folder, 0o755)
    os.chmod(place, 0o555)
    wants(3, "Permission denied", "note", copy, "x", user="nobody")
    wants(0, "24 swatches", "show", copy, user="nobody")
    wants(3, "Permission denied", "new", os.path.join(place, "new.db"), "eight-arms", "--operator", "o", user="nobody")
    os.chmod(copy, 0)
    wants(1, "cannot read", "show", copy, user="nobody")
    os.chmod(copy, 0o644)
    os.chmod(place, 0o755)


def full_disk(folder):
    """A disk of 600 KiB, where this machine lets one be made."""
    place = os.path.join(folder, "disk")
    os.mkdir(place)
    if subprocess.run(["mount", "-t", "tmpfs", "-o", "size=600k", "tmpfs", place], capture_output=True).returncode != 0:
        print("left out: no disk can be made here")
        return
    try:
        log, path = os.path.join(place, "strands.db"), os.path.join(folder, "many.csv")
        wants(0, "24 swatches", "new", log, "eight-arms", "--operator", "op-1")
        wants(0, "is kept", "note", log, "before")
        made_csv(log, path, 20000, "j")
        wants(3, "the disk is full", "import", log, path)
        wants(0, "0 readings", "show", log)
        filler = open(os.path.join(place, "filler"), "wb", buffering=0)
        try:
            while True:
                filler.write(bytes(512))
        except OSError:
            filler.close()
        wants(3, "the disk is full", "note", log, "lost")
        wants(0, "24 swatches", "show", log)
        wants(0, "eight-arms", "export", log, "--json")
        os.remove(os.path.join(place, "filler"))
        check(sql(log, "SELECT group_concat(note) FROM event; SELECT count(*) FROM reading; PRAGMA integrity_check")
              == "before\n0\nok", "a full disk loses nothing that was acknowledged")
        wants(0, "is kept", "note", log, "after")
        subprocess.run(["mount", "-o", "remount,ro", place], check=True)
        wants(3, "Read-only file system", "note", log, "x")
        wants(0, "24 swatches", "show", log)
    finally:
        subprocess.run(["umount", place], check=True)


def compared(*words, **where):
    done = subprocess.run([SLOWLIFT, "compare", *words], capture_output=True, text=True, **where)
    return done.returncode, " ".join(done.stdout.split()), done.stderr


def commands_shown(folder):
    """A command that is shown runs where its reader stands, whatever the folder is called."""
    for name in ("school", "Ana's tests"):
        os.mkdir(os.path.join(folder, name))
        compared("--example", os.path.join(folder, name, "one.db"))
        for words in ([name], [name + "/"], [os.path.join(name, "one.db"), "--all"]):
            shown = re.search("slowlift (compare .*?) tells of it", compared(*words, cwd=folder)[1])
            done = subprocess.run(f"{SLOWLIFT} {shown and shown[1]}", shell=True, capture_output=True, text=True, cwd=folder)
            check(shown and done.returncode == 0 and "To be read aloud" in done.stdout, f"{words}: {shown and shown[0]!r} runs")


def nothing_there(folder):
    """A folder without a test, and a test that is not in one, are told so."""
    place = os.path.join(folder, "bare")
    os.mkdir(place)
    for words in (["compare", place], ["log", "drift", place], ["compare", place, "--json"]):
        done = subprocess.run([SLOWLIFT, *words], capture_output=True, text=True)
        check(done.returncode == 2 and not done.stdout and "no log of this folder holds a test" in done.stderr,
              f"{words[0]} of nothing: {done.returncode} {done.stderr!r}")
    school = os.path.join(folder, "year")
    compared("--example-school", school)
    code, _, err = compared(school, "zzz")
    check(code == 1 and re.search(r"there are (\w{8}, ){3}\w{8} and 20 more", err), f"tests of a folder: {code} {err!r}")
    code, _, err = compared(os.path.join(school, "after.db"), "zzz")
    check(code == 2 and re.search(r"the log has (\w{8}, ){3}\w{8} and 8 more", err), f"tests of a log: {code} {err!r}")


def refused_together(folder):
    """What has no effect beside another word is refused, not passed over."""
    log, new = os.path.join(folder, "year", "after.db"), os.path.join(folder, "never.db")
    first, second = sql(log, "SELECT id FROM test LIMIT 2").split()
    for words, part in ((["compare", log, first, second, "--all"], "--all and tests by their ids"),
                        (["compare", log, first, "--all"], "--all and tests by their ids"),
                        (["compare", "--example", "--across"], "--example and what is asked of several tests"),
                        (["compare", "--example", "--example-school", new], "--example and what is asked of several tests"),
                        (["plan", "eight-arms", "--spread", "5%", "--spread-from", log], "--spread and --spread-from together"),
                        (["rank", "eight-arms", "--surprise", "powder + 3 % beats powder + 6 % in blue", "--spread", "5%",
                          "--spread-from", log], "--spread and --spread-from together"),
                        (["plan", "eight-arms", "--blind", "--key", new, "--tell", "30%"], "--blind with --spread, --spread-from or --tell"),
                        (["log", "new", new, "eight-arms", "--operator", "op-1", "--tell", "30%"], '"tell" is not known'),
                        (["log", "new", new, "eight-arms", "--operator", "op-1", "--spread-from", "no.db"], '"spread-from" is not known')):
        done = subprocess.run([SLOWLIFT, *words], capture_output=True, text=True)
        check(done.returncode == 2 and not done.stdout and part in done.stderr and not os.path.exists(new),
              f"{' '.join(words)[-60:]}: {done.returncode} {done.stderr[:100]!r}")


def broken_off(folder):
    """Ctrl-C while the logs of a folder are read ends with a word: sent as soon as the signal is held back."""
    for _ in range(50):
        with subprocess.Popen([SLOWLIFT, "compare", os.path.join(folder, "year")], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                              text=True) as running:
            with open(f"/proc/{running.pid}/status") as status:
                held = False
                while not held and running.poll() is None:
                    status.seek(0)
                    held = int(re.search(r"SigBlk:\s*(\w+)", status.read())[1], 16) & 1 << signal.SIGINT - 1
            running.send_signal(signal.SIGINT)
            out, err = running.communicate()
        if running.returncode != 0:
            break
    check((running.returncode, out) == (4, "") and "it was broken off" in err, f"broken off: {running.returncode} {err!r}")


with tempfile.TemporaryDirectory() as folder:
    commands_shown(folder)
    nothing_there(folder)
    broken_off(folder)
    refused_together(folder)
    dyed(folder)
    filled_in(folder)
    log = usual(folder)
    bad_file(folder, log)
    together(folder, log)
    busy(log)
    read_only(folder, log)
    full_disk(folder)
sys.exit(1 if failures else 0)
