#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A log under kill -9, and under two writers at once. Read with Python's own sqlite3 module, so
that the file is seen by another program.

    log_killed.py LOG_MAKER LOG_WRITER [KILLS]

LOG_MAKER PATH makes a log with one test and prints the test's id.
"""
import os
import random
import signal
import sqlite3
import subprocess
import sys
import tempfile

import patience

MAKER, WRITER = sys.argv[1], sys.argv[2]
KILLS = int(sys.argv[3]) if len(sys.argv) > 3 else 500
failures = []


def check(good, sentence):
    print(("ok    " if good else "FALSE ") + sentence)
    if not good:
        failures.append(sentence)


def kept(path):
    base = sqlite3.connect(path)
    ids = [row[0] for row in base.execute("SELECT id FROM event ORDER BY kept")]
    whole = base.execute("PRAGMA integrity_check").fetchone()[0]
    base.close()
    return ids, whole


def killed(path, test):
    """Kill a writer at random instants; every id that it printed must be there, once."""
    acknowledged = []
    chance = random.Random(20261125)
    for _ in range(KILLS):
        writer = subprocess.Popen([WRITER, path, test, "1000000"], stdout=subprocess.PIPE)
        said = "".join(writer.stdout.readline().decode() for _ in range(chance.randint(1, 4)))
        patience.any_instant(chance, 0.01)
        writer.send_signal(signal.SIGKILL)
        said += writer.stdout.read().decode()
        writer.wait()
        acknowledged += [line for line in said.split("\n") if len(line) == 36]
    ids, whole = kept(path)
    lost = set(acknowledged) - set(ids)
    check(len(acknowledged) >= KILLS, f"{KILLS} kills met {len(acknowledged)} acknowledged events")
    check(not lost, f"no acknowledged event is lost ({len(lost)} are)")
    check(len(ids) == len(set(ids)), "no event is there twice")
    check(len(ids) - len(acknowledged) <= KILLS, "at most one event a kill was kept and not yet acknowledged")
    check(whole == "ok", "the file is whole")


def together(path, test, count=5000):
    """Two writers at once: both finish, and every write is there."""
    before = len(kept(path)[0])
    writers = [subprocess.Popen([WRITER, path, test, str(count)], stdout=subprocess.PIPE) for _ in range(2)]
    said = [writer.communicate()[0].decode().split() for writer in writers]
    ids, whole = kept(path)
    check(all(writer.returncode == 0 for writer in writers), "both writers finish")
    check(set(said[0] + said[1]) <= set(ids) and len(ids) - before == 2 * count,
          f"two writers kept {len(ids) - before} of {2 * count} events")
    check(whole == "ok", "the file is whole after two writers")


with tempfile.TemporaryDirectory() as folder:
    log = os.path.join(folder, "strands.db")
    test_id = subprocess.run([MAKER, log], check=True, capture_output=True, text=True).stdout.strip()
    killed(log, test_id)
    together(log, test_id)
sys.exit(1 if failures else 0)
