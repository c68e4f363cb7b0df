#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""While water runs on an eye nothing else calls, but the label's end of hair of a person, whose code stands
in one still line; what was in the bowls is told, also in a blind test, kept, and on the sheet of stops.
By the real clock: what has happened before is written into the log as another program would.

usage: day_eye.py PROGRAM MODELS
"""
import os
import re
import sqlite3
import subprocess
import sys
import tempfile
import uuid

from day_terminal import Terminal, patience, rows

ALSO = "Also on hair: {}. Rinse that too, somebody else."


def english():
    environment = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en")
    return environment


def rewrite(base, table, words, *values):
    """Around the log's own guard, as no program of ours does it."""
    guard, = base.execute("SELECT sql FROM sqlite_schema WHERE name = ?", (f"{table}_stays",)).fetchone()
    base.execute(f"DROP TRIGGER {table}_stays")
    base.execute(words, values)
    base.execute(guard)


def new_log(program, models, folder, name, lies="bench", label_s=None):
    """A test whose hair lies there; planned for the bench, since no plan is made for a person."""
    log = os.path.join(folder, name + ".db")
    subprocess.run([program, "log", "new", log, os.path.join(models, "scenes", "eight-arms.yaml"), "--operator", "op-1",
                    "--repeats", "1"], check=True, env=english(), stdout=subprocess.DEVNULL)
    if lies != "bench":
        with sqlite3.connect(log) as base:
            rewrite(base, "scene_file", "UPDATE scene_file SET text = replace(text, 'lies: bench', ?) WHERE place = 0",
                    f"lies: {lies}")
            rewrite(base, "swatch", "UPDATE swatch SET label_s = ?, label_from = 'application'", label_s)
        base.close()
    return log


def treated(log):
    """Code, id, contact, dwell and arm, in the order of the plan."""
    return rows(log, "SELECT code, id, contact_s, dwell_s, arm FROM swatch WHERE contact_s >= 0 ORDER BY contact_s")


def happened(log, kind, seconds_ago, swatch=None):
    boot = open("/proc/sys/kernel/random/boot_id").read().strip()
    wall, since_boot = patience.clocks_ns()
    at = int(since_boot - seconds_ago * 1e9), int(wall - seconds_ago * 1e9)
    with sqlite3.connect(log) as base:
        base.execute("INSERT INTO event (id, test, swatch, kind, boot_ns, wall_ns, boot_id, at)"
                     " VALUES (?, (SELECT id FROM test), ?, ?, ?, ?, ?, '2026-01-01T00:00:00Z')",
                     (str(uuid.uuid4()), swatch, kind, *at, boot))
    base.close()


def opened(program, log, *more):
    terminal = Terminal([program, "day", log, *more], english())
    terminal.wait_for("Was the sound heard?")
    terminal.type("y")
    terminal.wait_for("Sound heard")
    return terminal


def water_has_run(terminal, seconds):
    """Until the foot of the screen has counted so far; what was said since the last key."""
    pattern = re.compile(r"WATER ON THE EYE 0:(\d\d)")
    patience.until(lambda: any(int(s) >= seconds for s in pattern.findall(terminal.text[terminal.at:])),
                   lambda: f"the water is timed\n{terminal.text[-800:]}", turn=0.1, pause=terminal.read)
    return terminal.text[terminal.at:]


def stop_one_for_an_eye(terminal, code):
    terminal.type(f"c{code}\rx")
    terminal.wait_for("Lukewarm water, now")
    terminal.type("1")
    terminal.wait_for("Reason: in an eye")
    terminal.wait_for("15 minutes and call for medical help")


def swatches_wait(program, models, folder):
    """On the bench: another swatch's turn comes while water runs, and nobody is called to it."""
    log = new_log(program, models, folder, "bench")
    first, second = treated(log)[:2]
    happened(log, "started", second[2] - 12)
    happened(log, "applied", 60, first[1])
    terminal = opened(program, log)
    stop_one_for_an_eye(terminal, first[0])
    said = water_has_run(terminal, 18)
    assert "ALARM" not in said, f"something calls beside the eye\n{said}"
    assert "NEXT" not in said.split("Who was told?")[-1], f"the foot counts something else down\n{said}"
    assert "Also on hair" not in said, said
    terminal.type("o")
    terminal.wait_for("o again only if")
    terminal.type("o")
    terminal.wait_for("water off")
    terminal.at = 0
    terminal.wait_for(f"ALARM {second[0]} (")  # once the water is off all calls again
    terminal.kill()


def a_person_does_not(program, models, folder):
    """On a head: a still line, and a call when the label's time is over."""
    label_s = 600
    log = new_log(program, models, folder, "head", "head", label_s)
    first, second = treated(log)[:2]
    happened(log, "started", 3000)
    happened(log, "applied", 60, first[1])
    happened(log, "applied", label_s - 15, second[1])
    terminal = opened(program, log)
    stop_one_for_an_eye(terminal, first[0])
    terminal.wait_for(ALSO.format(second[0]))
    said = water_has_run(terminal, 5)
    assert f"\n{ALSO.format(second[0])}\n" in said, f"no line of its own\n{said}"
    terminal.wait_for(f"ALARM {second[0]}: rinse")
    said = terminal.text[terminal.at:]
    called = set(re.findall(r"ALARM (\w+): ([a-z ]+)", said))
    assert {code for code, _ in called} <= {second[0]} and all(what.startswith("rinse") for _, what in called), called
    terminal.kill()


def bowls_are_told(program, models, folder):
    """In a blind test too, at each stop, whatever its reason; kept once for each, and who was told."""
    log = new_log(program, models, folder, "blind")
    first, second = [swatch for swatch in treated(log) if "powder" in swatch[4]][:2]
    arm = rows(log, f"SELECT arm FROM swatch WHERE id = '{first[1]}'")[0][0]
    happened(log, "started", 60)
    happened(log, "applied", 30, first[1])
    happened(log, "applied", 30, second[1])
    terminal = opened(program, log, "--blind")
    terminal.type(f"c{second[0]}\rx")
    terminal.wait_for("Lukewarm water, now")
    terminal.type("9")
    terminal.wait_for("by mistake")
    terminal.type("o")
    terminal.wait_for("water off")
    said = " ".join(terminal.text.split())
    assert re.search(second[0] + r": .*persulfates [0-9.]+ %.*pH about.* On the hair since", said), said
    assert "For a doctor: what was in the bowl" not in said and arm not in said
    stop_one_for_an_eye(terminal, first[0])
    terminal.wait_for("For a doctor: what was in the bowl")
    terminal.wait_for("Who was told?")
    said = " ".join(terminal.text[terminal.at:].split())
    assert re.search(first[0] + r": .*persulfates [0-9.]+ %.*pH about", said), said
    terminal.type("2")
    terminal.wait_for("Kept: a doctor was told.")
    terminal.press("\x1b", "All else waits")
    terminal.type("i")
    terminal.wait_for("Who was told?")
    assert terminal.leave() == 0  # another key is not held up by the question
    kept = rows(log, "SELECT remark, kind, about = (SELECT id FROM event s WHERE s.kind = 'stop and rinse' AND"
                     " s.about IS NULL ORDER BY s.kept DESC LIMIT 1) FROM event WHERE remark IS NOT NULL ORDER BY kept")
    assert kept == [("contents told", "note", 0), ("contents told", "note", 1), ("a doctor was told", "note", 1)], kept
    for language, words in (("en", ("Reason: by mistake", "Reason: in an eye", "pH about", "Water runs",
                                    "a doctor was told", "told, also to who judged blind")),
                            ("es", ("en un ojo", "pH"))):
        sheet = subprocess.run([program, "day", log, "--stops", "--language", language], check=True, text=True,
                               capture_output=True, env=english()).stdout
        plain = " ".join(sheet.split())
        for word in words:
            assert word in plain, f"{language}: {word}\n{sheet}"
    refused = subprocess.run([program, "day", log, "--stops", "--summary"], capture_output=True, text=True, env=english())
    assert refused.returncode == 2, refused


def main():
    program, models = sys.argv[1:3]
    with tempfile.TemporaryDirectory() as folder:
        swatches_wait(program, models, folder)
        a_person_does_not(program, models, folder)
        bowls_are_told(program, models, folder)
    print("the eye alone called; hair of a person stood in a line of its own, and its label called")


if __name__ == "__main__":
    main()
