# SPDX-License-Identifier: GPL-3.0-or-later
"""No memory, at any moment and at any size: a command either does its work or says that memory ran out, with
exit 3, and never ends by a signal or with another reason.

    check_starved.py PROGRAM SOURCE STARVE [STEPS]

STARVE is the library of starve.c; every allocation would take hours, so STEPS of them, spread over the run and
dense at its start, are tried for each command. Then the address space is kept small (ulimit -v)."""
import os
import resource
import subprocess
import sys
import tempfile

import patience

PROGRAM, SOURCE, STARVE = sys.argv[1:4]
STEPS = int(sys.argv[4]) if len(sys.argv) > 4 else 60
ENVIRONMENT = dict(os.environ, SLOWLIFT_MODELS=SOURCE + "/models", SLOWLIFT_LANGUAGE="en")
COMMANDS = (["run", "way-wide"], ["limits", "way-wide", "--members", "20", "--threads", "2"],
            ["list"], ["plan", "way-wide"], ["search", "way-wide"], ["rank", "way-wide", "--members", "100"],
            ["check", SOURCE + "/lessons/fair-test/lesson.yaml"], ["log", "show", "log.db"], ["compare", "log.db"],
            ["log", "export", "log.db", "--json"])
ON_PAPER = (["picture", "way-wide", "-o", "p.png"], ["pack", "way-wide", "-o", "pack", "--repeats", "1"])
# Where the system's own loader has no room for the libraries nothing of ours runs, and it says so itself.
LOADER = "error while loading shared libraries"
SIZES_MB = (8, 12, 16, 24, 32, 48, 64, 96, 128, 256, 400)


def run(arguments, folder, starve_at=None, megabytes=None):
    environment = dict(ENVIRONMENT)
    if starve_at is not None:
        environment.update(LD_PRELOAD=STARVE, STARVE_AT=str(starve_at), STARVE_COUNT=folder + "/count")

    def small():
        if megabytes:
            resource.setrlimit(resource.RLIMIT_AS, (megabytes << 20, megabytes << 20))

    return patience.run([PROGRAM] + arguments, capture_output=True, text=True, errors="replace", env=environment,
                        cwd=folder, preexec_fn=small)


def wrong(done, what):
    """What is wrong with how a starved call ended; None: nothing."""
    reasons = ("out of memory", "memory has run out")
    said = [line for line in done.stderr.splitlines() if line.startswith("slowlift")]
    if done.returncode == 0 or (done.returncode == 127 and LOADER in done.stderr):
        return None
    if done.returncode != 3:
        return f"{what}: exit {done.returncode}: {done.stderr[-300:]}"
    if not any(reason in line for line in said for reason in reasons):
        return f"{what}: another reason: {done.stderr[-300:]}"
    return None


def moments(folder, command):
    """Which allocations to fail: the first thirty, and others evenly over the rest."""
    whole = run(command, folder, starve_at=0)
    assert whole.returncode == 0, (command, whole.stderr)
    with open(folder + "/count", encoding="ascii") as file:
        count = int(file.read())
    step = max(1, count // STEPS)
    return whole.stdout, sorted(set(range(1, min(30, count) + 1)) | set(range(1, count + 1, step)))


def starve(folder, command):
    output, tried = moments(folder, command)
    for at in tried:
        done = run(command, folder, starve_at=at)
        fault = wrong(done, f"{command} without memory from allocation {at}")
        if fault is None and done.returncode == 0 and done.stdout != output:
            fault = f"{command} without memory from allocation {at}: exit 0 with another output"
        if fault:
            yield fault
    print(f"{command[0]}: {len(tried)} allocations failed")


def main():
    bad = []
    with tempfile.TemporaryDirectory() as folder:
        made = run(["log", "new", "log.db", "way-wide", "--operator", "op"], folder)
        assert made.returncode == 0, made.stderr
        for command in COMMANDS:
            bad.extend(starve(folder, command))
        for size in SIZES_MB:
            for command in COMMANDS[:5] + ON_PAPER:
                done = run(command, folder, megabytes=size)
                fault = wrong(done, f"{command} in {size} MB")
                if size > SIZES_MB[0] and done.returncode == 127:
                    fault = f"{command} is not even loaded in {size} MB"
                bad.extend([fault] if fault else [])
    print("\n".join(bad[:40]) if bad else "memory ran out, and it was said")
    print(f"{len(bad)} wrong")
    return 1 if bad else 0


sys.exit(main())
