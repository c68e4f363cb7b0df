#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A time ladder the whole way: planned into a log, its pieces called out by the clock of the day on a terminal and
marked done with one key, undone and done again; summed up; readings of the pieces added; ranked at a minute.

usage: day_ladder.py PROGRAM MODELS
"""
import json
import os
import sqlite3
import subprocess
import sys
import tempfile

from day_terminal import EVENTS, Terminal, rehearsal, rows

SPEED = 120


def run(program, environment, *words):
    done = subprocess.run([program, *words], capture_output=True, text=True, env=environment)
    assert done.returncode == 0, f"{words}: {done.stderr}"
    return done.stdout


def done_in_its_time(log):
    """The same log as if its clock had been the real one, which a rehearsal's never is."""
    with sqlite3.connect(log) as kept:
        guards = kept.execute("SELECT name, sql FROM sqlite_master WHERE type = 'trigger' AND tbl_name = 'event'").fetchall()
        for name, _ in guards:
            kept.execute(f"DROP TRIGGER {name}")
        kept.execute("UPDATE event SET speed = NULL")
        for _, text in guards:
            kept.execute(text)


def one_swatch(terminal, code):
    """Pieces at 3 and 6 min; what is left is rinsed at 9. The undone piece is due again."""
    terminal.type(f"c{code}\ra")
    terminal.wait_for(f"{code}: mix put on")
    terminal.wait_for(f"ALARM {code}: feel skin, heat and stretch")  # goes on beside the ladder
    terminal.wait_for(f"ALARM {code}: cut the piece for 3 min off and rinse it")
    terminal.type(f"c{code}\rw")
    terminal.wait_for(f"{code}: piece for 3 min cut off and rinsed, ")
    terminal.type("u")
    terminal.wait_for(f"Undone: {code}: piece for 3 min cut off and rinsed.")
    terminal.wait_for(f"{code}: cut the piece for 3 min off and rinse it, ")
    terminal.press(f"c{code}\rw", f"{code}: piece for 3 min cut off and rinsed, ")
    terminal.wait_for(f"ALARM {code}: cut the piece for 6 min off and rinse it")
    terminal.press(f"c{code}\rw", f"{code}: piece for 6 min cut off and rinsed, ")
    terminal.wait_for(f"ALARM {code}: rinse, ")
    assert "wipe and look" not in terminal.text, "a ladder asks for a look"
    terminal.type(f"c{code}\rr")
    terminal.wait_for(f"{code}: rinsed, first water, ")
    assert terminal.leave() == 0


def main():
    program, models = sys.argv[1:3]
    environment = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en")
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "ladder.db")
        scene = os.path.join(models, "scenes", "way-short.yaml")
        run(program, environment, "log", "new", log, scene, "--operator", "op-1", "--repeats", "1",
            "--ladder", "3min,6min,9min")
        log = rehearsal(program, log, SPEED, environment)
        plan = rows(log, "SELECT code, ladder_min, looks_min, dwell_s, arm FROM swatch ORDER BY block, place")
        assert all(row[1:4] == ("3,6", "", 540) for row in plan), plan
        terminal = Terminal([program, "day", log], environment)
        terminal.wait_for("Was the sound heard? y or n")
        terminal.type("y")
        terminal.wait_for("Sound heard")
        terminal.type("g")
        terminal.wait_for("the day has begun")
        code = plan[0][0]
        one_swatch(terminal, code)
        kinds = [kind for swatch, kind in rows(log, EVENTS) if swatch == code and kind not in ("mixed", "undone")]
        assert kinds == ["applied"] + 3 * ["wiped and looked"] + ["rinsed"], kinds
        said = run(program, environment, "day", log, "--summary")
        assert "pieces cut off on the way" not in said.split(plan[1][0])[0], said  # all of them: nothing to tell
        zone = rows(log, "SELECT name FROM zone WHERE name != 'undyed' ORDER BY place")[0][0]
        for minute, grade in ((3, "slight"), (6, "about half"), (None, "mostly gone")):
            words = ["--minute", str(minute)] if minute else []
            run(program, environment, "log", "add", log, "--swatch", code, "--zone", zone, "--judge", "j1",
                "--grade", grade, *words)
        refused = subprocess.run([program, "compare", log], capture_output=True, text=True, env=environment)
        assert refused.returncode == 1 and "rehearsal" in refused.stderr, refused
        done_in_its_time(log)
        found = json.loads(run(program, environment, "compare", log, "--at", "6min", "--json"))
        (arm,) = found["zones"][0]["arms"]
        assert found["at_min"] == 6 and arm["left_by_grade"]["mean"] == 0.5, found
        assert found["rates"][0]["arm"] == arm["arm"] == plan[0][4] and found["rates"][0]["per_min_by_model"] > 0
        text = run(program, environment, "compare", log, "--at", "6min")
        assert "minute 6: pieces that were cut off and rinsed then" in " ".join(text.split()), text
        nobody = run(program, environment, "compare", log, "--at", "4min")
        assert "Nobody looked at minute 4. There are looks at 3, 6 and 9 min." in nobody, nobody
        for asked in ("2.5min", "0min", "3min,6min", "six"):
            done = subprocess.run([program, "compare", log, "--at", asked], capture_output=True, text=True)
            assert done.returncode == 2 and "--at" in done.stderr, (asked, done.stderr)
    print("planned, called out, marked, undone, read, ranked: the ladder came the whole way")


if __name__ == "__main__":
    main()
