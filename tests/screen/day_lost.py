#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The day on a terminal when its log cannot be written: a full disk, a log that went away, a log that another
program holds. It is said at once, a stop does not wait, and every event reaches the log when it can be
written again; what never could is told when the day is left.

usage: day_lost.py PROGRAM MODELS
"""
import os
import resource
import sqlite3
import subprocess
import sys
import tempfile
import time

from day_terminal import EVENTS, Terminal, rows

CANNOT = "THE LOG CANNOT BE WRITTEN"
AGAIN = "The log can be written again; everything is in it."


def begin(program, models, folder, name):
    """A day whose first swatch is on the hair."""
    log = os.path.join(folder, name)
    environment = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en")
    environment.pop("SLOWLIFT_DAY_SPEED", None)
    scene = os.path.join(models, "scenes", "eight-arms.yaml")
    subprocess.run([program, "log", "new", log, scene, "--operator", "op-1", "--repeats", "1"], check=True,
                   env=environment, stdout=subprocess.DEVNULL)
    terminal = Terminal([program, "day", log], environment)
    terminal.wait_for("Did you hear it?")
    terminal.type("y")
    terminal.wait_for("the day has begun")
    terminal.type("1")
    terminal.wait_for("Chosen:")
    terminal.type("a")
    terminal.wait_for("mix put on")
    return terminal, log


def stop_comes_at_once(terminal):
    began = time.monotonic()
    terminal.type(" ")
    terminal.wait_for("STOP AND RINSE. Lukewarm water")
    terminal.wait_for("call for medical help")
    waited = time.monotonic() - began
    assert waited < 1.0, f"the stop waited {waited:.2f} s for the log"


def kinds(log):
    return [kind for _, kind in rows(log, EVENTS)]


def full_disk(program, models, folder):
    terminal, log = begin(program, models, folder, "full.db")
    before = kinds(log)
    whole = resource.prlimit(terminal.child, resource.RLIMIT_FSIZE)
    resource.prlimit(terminal.child, resource.RLIMIT_FSIZE, (1, whole[1]))  # no file takes another byte
    terminal.type("1f")
    terminal.wait_for(CANNOT)
    stop_comes_at_once(terminal)
    terminal.type("2")
    terminal.wait_for("The reason is kept: skin stings or burns")
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
    stop_comes_at_once(terminal)
    os.rename(log + ".elsewhere", log)
    terminal.wait_for(AGAIN)
    assert kinds(log) == before + ["looked at skin, heat and stretch", "stop and rinse"], kinds(log)
    # and never again: told when the day is left, in words, with the exit code of a disk that failed
    os.rename(log, log + ".elsewhere")
    terminal.type("2")
    terminal.wait_for("The reason is kept: skin")
    terminal.wait_for(CANNOT)
    assert terminal.leave() == 3
    assert terminal.text.count("not in the log: stop and rinse") == 1, terminal.text[-800:]


def held(program, models, folder):
    terminal, log = begin(program, models, folder, "held.db")
    before = kinds(log)
    other = sqlite3.connect(log, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    stop_comes_at_once(terminal)
    assert kinds(log) == before
    other.execute("ROLLBACK")
    other.close()
    terminal.type("9")
    terminal.wait_for("by mistake")
    until = time.monotonic() + 15
    while kinds(log) != before + ["stop and rinse", "stop and rinse"]:
        assert time.monotonic() < until, kinds(log)
        terminal.read(0.1)
    assert terminal.leave() == 0


def main():
    program, models = sys.argv[1:3]
    with tempfile.TemporaryDirectory() as folder:
        full_disk(program, models, folder)
        gone(program, models, folder)
        held(program, models, folder)


main()
