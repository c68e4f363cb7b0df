#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""One day by one script of keys, on a terminal and in the window: both logs hold the same events, but for ids and
what the machine's clocks say.

usage: day_alike.py PROGRAM MODELS
"""
import os
import shutil
import subprocess
import sys
import tempfile

from day_terminal import Terminal, patience, rows

# As SDL names them, and as a terminal sends them. No deed twice in a row: the guard against keys that bounce goes by time.
SENT = {"Space": " ", "Return": "\r", "Escape": "\x1b", "Right": "\x1b[C", "Left": "\x1b[D", "Up": "\x1bOA", "Down": "\x1bOB"}
SCRIPTS = {
    "a swatch from bowl to water": "N,G,M,A,F,W,N,2,U,R,J,Escape,U,R,J",
    "another swatch by number and by arrow": "Y,G,2,M,Right,A,Left,A,F,V,N",
    "weighed and measured, as planned and not": "Y,G,M,Return,Return,A,E,2,M,7,.,5,Return,N,4,3,M,9,9,9,9,9,Return,8,Return,A,R,E",
    "room, then another block's": "Y,G,M,1,2,Return,2,1,.,5,Return,A,E,F,R,E,E",
    "undone, and said to be clean": "Y,G,A,U,Y,A,U,R,Y,U",
    "the start, undone": "Y,G,U,M,Return,Return,G,A,U,U",
    "what cannot follow": "Y,R,M,A,M,G,O,I,9,Right,W,Return,A",
    "a stop for an eye": "Y,G,A,Right,A,B,X,1,2,Escape,O,O,I,4,Escape,F",
    "the end of the day, ticked": "Y,Z,G,A,Z,R,E,Z,1,3,3,9,Escape,U,Z,2,4,5,3,J",
    "no stop by a habit": "Y,G,A,Space,F,Space,U,Right,Space,Left,R",
    "a stop of all, unsaid, then said": "N,G,A,Space,Space,O,3,Escape,O,N,Escape,N,8",
    "a stop from every page": "Space,Space,9,O,V,X,2,O,O,N,S,5,O,K,Escape,H,Escape,S,O,O",
}
ASKED = """SELECT event.kind, swatch.code, event.reason, remark, deed, value, note, late_s IS NULL, speed, clocks,
 (SELECT other.kind FROM event other WHERE other.id = event.about)
 FROM event LEFT JOIN swatch ON swatch.id = event.swatch ORDER BY event.kept"""


def in_window(program, log, keys, environment):
    patience.run([program, "watch", "--day", log, "--say", keys], check=True, env=environment, stdout=subprocess.DEVNULL)


def on_terminal(program, log, keys, environment):
    terminal = Terminal([program, "day", log], environment)
    terminal.wait_for("Was the sound heard?")
    for key in keys.split(","):
        os.write(terminal.end, SENT.get(key, key.lower()).encode())
        if key == "Escape":  # alone, and not the beginning of an arrow
            terminal.read(0.1)
    terminal.leave()


def main():
    program, models = sys.argv[1:3]
    environment = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en", SDL_AUDIODRIVER="dummy", SDL_VIDEODRIVER="dummy")
    with tempfile.TemporaryDirectory() as folder:
        new = os.path.join(folder, "new.db")
        scene = os.path.join(models, "scenes", "eight-arms.yaml")
        patience.run([program, "log", "new", new, scene, "--operator", "op-1", "--repeats", "1"], check=True,
                     env=environment, stdout=subprocess.DEVNULL)
        for name, keys in SCRIPTS.items():
            held = {}
            for medium in (in_window, on_terminal):
                log = os.path.join(folder, medium.__name__ + ".db")
                shutil.copyfile(new, log)
                medium(program, log, keys, environment)
                held[medium.__name__] = rows(log, ASKED)
                for left in (log, log + "-wal", log + "-shm"):
                    if os.path.exists(left):
                        os.remove(left)
            window, terminal = held.values()
            assert window == terminal, f"{name}: {keys}\n" + "\n".join(
                f"{a}\n{b}\n" for a, b in zip(window + [None] * 40, terminal + [None] * 40) if a != b)
            assert len(window) >= 4, f"{name}: {window}"
            print(f"{name}: {len(window)} events alike")


if __name__ == "__main__":
    main()
