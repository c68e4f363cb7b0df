# SPDX-License-Identifier: GPL-3.0-or-later
"""Waiting, for every test that is written in Python: until a condition holds, and never for a time. The limits are those
of patience.h; nothing that a test asserts depends on them.

    patience.py SHELL-WORDS...      waits until the words, given to sh, succeed (for tests in shell)
"""
import os
import re
import subprocess
import sys
import time

with open(os.path.join(os.path.dirname(os.path.abspath(__file__)), "patience.h"), encoding="ascii") as _header:
    _limits = dict(re.findall(r"#define (PATIENCE_\w+_S) (\d+)", _header.read()))
WAIT_S, TEST_S = int(_limits["PATIENCE_WAIT_S"]), int(_limits["PATIENCE_TEST_S"])


class Impatient(AssertionError):
    pass


def until(good, what, limit=WAIT_S, turn=0.01, pause=time.sleep):
    """What good() gives once it is true; `pause` may do something while it waits."""
    end = time.monotonic() + limit
    while not (found := good()):
        if time.monotonic() > end:
            raise Impatient(f"waited {limit} s, and never: {what() if callable(what) else what}")
        pause(turn)
    return found


def any_instant(chance, most_s):
    """Lets a random time pass: for what may come at any moment, such as a kill. Nothing is expected of it."""
    time.sleep(most_s * chance.random())


def run(words, limit=TEST_S, **how):
    """subprocess.run with the limit of a test, or WAIT_S for what a person would wait for."""
    return subprocess.run(words, timeout=limit, check=how.pop("check", False), **how)


def clocks_ns():
    """What the machine's two clocks say: the wall's, and the one that goes on in sleep."""
    return time.time_ns(), time.clock_gettime_ns(time.CLOCK_BOOTTIME)


if __name__ == "__main__":
    until(lambda: subprocess.run(["sh", "-c", *sys.argv[1:]], check=False).returncode == 0, sys.argv[1])
