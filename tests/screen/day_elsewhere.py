#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Two people at one test, each with a terminal, and a note from a third program: each sees within seconds
what the others keep; a stop at one is a stop at both; nobody takes back what another one did.

usage: day_elsewhere.py PROGRAM MODELS
"""
import os
import subprocess
import sys
import tempfile

from day_terminal import EVENTS, Terminal, rows


def opened(program, log, environment):
    terminal = Terminal([program, "day", log], environment)
    terminal.wait_for("Was the sound heard?")
    return terminal


def main():
    program, models = sys.argv[1:3]
    environment = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en")
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "two.db")
        scene = os.path.join(models, "scenes", "eight-arms.yaml")
        subprocess.run([program, "log", "new", log, scene, "--operator", "op-1", "--repeats", "1"], check=True,
                       env=environment, stdout=subprocess.DEVNULL)
        first = opened(program, log, environment)
        second = opened(program, log, environment)
        first.type("y")
        first.wait_for("Sound heard")
        first.type("g")
        first.wait_for("the day has begun")
        second.wait_for("From elsewhere: the day has begun")
        second.type("y")
        second.wait_for("Sound heard")
        codes = [code for code, in rows(log, "SELECT code FROM swatch WHERE contact_s IS NOT NULL ORDER BY contact_s")]
        first.act(codes[0], "a")
        second.wait_for(f"From elsewhere: {codes[0]}: mix put on")
        second.act(codes[1], "a")
        first.wait_for(f"From elsewhere: {codes[1]}: mix put on")

        second.type(f"c{codes[0]}\ra")  # the bench knows: it lies already
        second.wait_for("Not taken")
        subprocess.run([program, "log", "note", log, "a drip on the bench"], check=True, env=environment,
                       stdout=subprocess.DEVNULL)
        first.wait_for("From elsewhere: note")
        first.type("u")
        first.wait_for(f"Undone: {codes[0]}: mix put on")
        second.wait_for(f"From elsewhere: {codes[0]}: undone")
        first.type("u")
        first.wait_for("Nothing to undo")

        second.type("s")
        second.wait_for("Lukewarm water, now")
        first.wait_for("From elsewhere: stop and rinse")
        first.wait_for("Lukewarm water, now")
        first.type("1")
        first.wait_for("15 minutes and call for medical help")
        second.wait_for("From elsewhere: stop and rinse")
        second.type("s")  # another stop does not cut an eye's water short
        second.type("o")
        second.wait_for("An eye needs 15 minutes of water")

        kept = rows(log, EVENTS)
        assert [kind for _, kind in kept if kind == "applied"] == ["applied"] * 2, kept
        assert [kind for _, kind in kept if kind == "undone"] == ["undone"], kept
        assert sum(kind == "stop and rinse" for _, kind in kept) == 3, kept
        assert first.leave() == 0 and second.leave() == 0
        assert kept == rows(log, EVENTS), "leaving adds nothing"
    print(f"{len(kept)} events by three programs, each kept once")


if __name__ == "__main__":
    main()
