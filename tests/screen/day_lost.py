#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The day on a terminal when its log cannot be written: a full disk, a log that went away, a log that another
program holds. It is said at once, a stop does not wait, and every event reaches the log when it can be
written again; what never could is told when the day is left. And a day that is taken up when clocks disagree.

usage: day_lost.py PROGRAM MODELS
"""
import os
import re
import resource
import sqlite3
import subprocess
import sys
import tempfile
import uuid

from day_terminal import EVENTS, Terminal, patience, rows

CANNOT = "THE LOG CANNOT BE WRITTEN"
AGAIN = "The log can be written again; everything is in it."


def begin(program, models, folder, name):
    """A day whose first swatch is on the hair."""
    log = os.path.join(folder, name)
    environment = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en")
    scene = os.path.join(models, "scenes", "eight-arms.yaml")
    subprocess.run([program, "log", "new", log, scene, "--operator", "op-1", "--repeats", "1"], check=True,
                   env=environment, stdout=subprocess.DEVNULL)
    terminal = Terminal([program, "day", log], environment)
    terminal.wait_for("Was the sound heard?")
    terminal.type("y")
    terminal.wait_for("Sound heard")
    terminal.type("g")
    terminal.wait_for("the day has begun")
    terminal.type("1")
    terminal.wait_for("Chosen:")
    terminal.type("a")
    terminal.wait_for("mix put on")
    return terminal, log


def stop_comes_at_once(terminal, log):
    """While the log still cannot be written: it does not wait for it."""
    before = kinds(log) if os.path.exists(log) else None
    terminal.type("s")
    terminal.wait_for("Lukewarm water, now")
    terminal.wait_for("call for medical help")
    assert before is None or kinds(log) == before, "the stop was shown once the log had it"


def kinds(log):
    return [kind for _, kind in rows(log, EVENTS)]


def full_disk(program, models, folder):
    terminal, log = begin(program, models, folder, "full.db")
    before = kinds(log)
    whole = resource.prlimit(terminal.child, resource.RLIMIT_FSIZE)
    resource.prlimit(terminal.child, resource.RLIMIT_FSIZE, (1, whole[1]))  # no file takes another byte
    terminal.type("1f")
    terminal.wait_for(CANNOT)
    stop_comes_at_once(terminal, log)
    terminal.type("2")
    terminal.wait_for("Reason: skin stings or burns")
    assert kinds(log) == before
    resource.prlimit(terminal.child, resource.RLIMIT_FSIZE, whole)
    terminal.wait_for(AGAIN)
    assert kinds(log) == before + ["looked at skin, heat and stretch", "stop and rinse", "stop and rinse"], kinds(log)
    assert terminal.leave() == 0


def gone(program, models, folder):
    terminal, log = begin(program, models, folder, "gone.db")
    before = kinds(log)
    os.rename(log, log + ".elsewhere")
    terminal.type("1f")
    terminal.wait_for(CANNOT)
    terminal.wait_for("the log is no longer there")
    stop_comes_at_once(terminal, log)
    os.rename(log + ".elsewhere", log)
    terminal.wait_for(AGAIN)
    assert kinds(log) == before + ["looked at skin, heat and stretch", "stop and rinse"], kinds(log)
    # and never again: told when the day is left, in words, with the exit code of a disk that failed
    os.rename(log, log + ".elsewhere")
    terminal.type("2")
    terminal.wait_for("Reason: skin")
    terminal.wait_for(CANNOT)
    assert terminal.leave() == 3
    assert terminal.text.count("not in the log: stop and rinse") == 1, terminal.text[-800:]


def held(program, models, folder):
    terminal, log = begin(program, models, folder, "held.db")
    before = kinds(log)
    other = sqlite3.connect(log, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    stop_comes_at_once(terminal, log)
    assert kinds(log) == before
    other.execute("ROLLBACK")
    other.close()
    terminal.type("9")
    terminal.wait_for("by mistake")
    patience.until(lambda: kinds(log) == before + ["stop and rinse", "stop and rinse"], "both are kept", turn=0.05,
                   pause=terminal.read)
    assert terminal.leave() == 0


def slept(program, models, folder):
    """The contact as another start of the computer, or another wall clock, wrote it down."""
    here = open("/proc/sys/kernel/random/boot_id").read().strip()
    elsewhere = "00000000-0000-4000-8000-000000000000"
    # before this start, so longer ago than the computer has been running
    long = patience.clocks_ns()[1] // 10**9 // 3600 * 3600 + 3600 + 600
    for name, boot, wall_s, boot_s, least_s in (
        ("restarted", elsewhere, long, 0, long),
        ("set back", here, 120, 1200, 1200),
        ("set on", here, 1200, 120, 1200),
        ("asleep", here, 1200, 1200, 1200),
    ):
        log = os.path.join(folder, name + ".db")
        scene = os.path.join(models, "scenes", "eight-arms.yaml")
        subprocess.run([program, "log", "new", log, scene, "--operator", "op-1", "--repeats", "1"], check=True,
                       stdout=subprocess.DEVNULL)
        with sqlite3.connect(log) as connection:
            wall, boot_now = patience.clocks_ns()
            swatch, test = connection.execute("SELECT id, test FROM swatch WHERE contact_s >= 0").fetchone()
            for kind, of in (("started", None), ("applied", swatch)):
                connection.execute(
                    "INSERT INTO event (id, test, swatch, kind, boot_ns, wall_ns, boot_id, at) VALUES (?,?,?,?,?,?,?,?)",
                    (str(uuid.uuid4()), test, of, kind, boot_now - boot_s * 10**9, wall - wall_s * 10**9, boot, "2026-01-01T00:00:00Z"))
        connection.close()
        terminal = Terminal([program, "day", log], dict(os.environ, TERM="dumb", SLOWLIFT_LANGUAGE="en"))
        terminal.wait_for("on the hair")
        terminal.wait_for("Was the sound heard?")
        most_s = least_s + (patience.clocks_ns()[1] - boot_now) / 1e9 + 2
        said = " ".join(terminal.text.split())
        told = re.search(r"on the hair ((\d+):)?(\d+):(\d\d)", said)
        told_s = (int(told[2] or 0) * 60 + int(told[3])) * 60 + int(told[4])
        assert least_s <= told_s <= most_s, f"{name}: {told[0]}, and it was {least_s} to {most_s:.0f} s"
        assert ("the longer time was taken" in said) == (name in ("set back", "set on")), said
        assert ("was started again in between" in said) == (name == "restarted"), said
        assert terminal.leave() == 0


def speeds(program, models, folder):
    """A rehearsal is of a copy, says so on every line, and stays one; what has begun for real hair is not rehearsed."""
    scene = os.path.join(models, "scenes", "eight-arms.yaml")
    real = dict(os.environ, SLOWLIFT_LANGUAGE="en")
    log, copy = (os.path.join(folder, name) for name in ("real.db", "real.rehearsal.db"))
    subprocess.run([program, "log", "new", log, scene, "--operator", "op-1"], check=True, stdout=subprocess.DEVNULL)

    def run(*words, typed=""):
        return subprocess.run([program, "day", *words], input=typed, env=real, capture_output=True, text=True)

    assert run(log).returncode == 0 and rows(log, EVENTS) == [], "looking at a day began it"
    before = open(log, "rb").read()
    for bad in ("--rehearse=1", "--rehearse=601", "--rehearse=fast", "--rehearse=", "--rehearse=nan"):
        assert run(log, bad).returncode == 2 and not os.path.exists(copy), bad
    said = run(log, "--rehearse", typed="g\nm\nstop\n9\nq\n")
    lines = [line for line in said.stdout.split("\n") if line]
    assert said.returncode == 0 and all(line.startswith("REHEARSAL | ") for line in lines), said
    assert open(log, "rb").read() == before, "the log itself was changed"
    assert rows(copy, "SELECT DISTINCT speed FROM event") == [(60.0,)]
    assert "there is a rehearsal" in run(log, "--rehearse").stderr
    assert "is a rehearsal already" in run(copy, "--rehearse=30").stderr
    for words in ((copy,), (copy, "--summary"), (copy, "--stops"), (copy, "--stops", "--language", "es")):
        mark = "ENSAYO | " if "es" in words else "REHEARSAL | "
        lines = [line for line in run(*words).stdout.split("\n") if line]
        assert lines and all(line.startswith(mark) for line in lines), (words, lines)
    assert rows(copy, "SELECT DISTINCT speed FROM event") == [(60.0,)], "the real clock went on"
    assert run(log, typed="g\n").returncode == 0
    os.remove(copy)
    assert "has begun by the real clock" in run(log, "--rehearse").stderr and not os.path.exists(copy)


def languages(program, models, folder):
    """A rehearsal in one language is a rehearsal in the other, for people and for machines."""
    scene = os.path.join(models, "scenes", "eight-arms.yaml")
    for begun, other in (("es", "en"), ("en", "es")):
        log = os.path.join(folder, f"in-{begun}.db")
        call = lambda words, language: subprocess.run(
            [program] + words + ["--language", language], input="q\n", capture_output=True, text=True)
        assert call(["log", "new", log, scene, "--operator", "op-1"], begun).returncode == 0
        assert call(["day", log, "--rehearse"], begun).returncode == 0
        log = log.removesuffix(".db") + ".rehearsal.db"
        mark = "REHEARSAL" if other == "en" else "ENSAYO"
        assert call(["day", log], other).stdout.startswith(mark), f"{begun}: the real clock went on"
        for told in (["compare", log], ["report", log]):
            done = call(told, other)
            assert done.returncode == 1 and done.stdout == "" and mark.lower() in done.stderr, f"{begun}: told as a day for real: {done}"
        notes = [note for note, in rows(log, "SELECT note FROM event WHERE note IS NOT NULL")]
        assert notes == [], f"words of the program in the log: {notes}"


def main():
    program, models = sys.argv[1:3]
    with tempfile.TemporaryDirectory() as folder:
        full_disk(program, models, folder)
        gone(program, models, folder)
        held(program, models, folder)
        slept(program, models, folder)
        speeds(program, models, folder)
        languages(program, models, folder)


main()
