#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""`slowlift run --csv` and `--json` of an hour by the second are written as they are read: with little memory, whatever is asked for.

usage: check_streams.py PROGRAM MODELS

Half a minute and an hour are asked for, each in a process that may have LIMIT of data (RLIMIT_DATA; the clock is not looked at); a
table of the hour, which is kept whole, must fail under the same limit, or the limit holds nothing."""
import resource
import subprocess
import sys

LIMIT = 16 << 20
SCENE = "scenes/eight-arms.yaml"


def ended(arguments):
    done = subprocess.run([sys.argv[1], "run", f"{sys.argv[2]}/{SCENE}", *arguments], stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_DATA, (LIMIT, LIMIT)), check=False)
    return done.returncode, done.stderr


def main():
    for form in ("--csv", "--json"):
        for times in ("0min..30s/1s", "0min..60min/1s"):
            code, said = ended([form, "--at", times])
            assert code == 0, (form, times, code, said)
    code, said = ended(["--at", "0min..60min/1s"])
    assert code == 3 and b"memory" in said, (code, said)
    print("an hour by the second is never kept")


main()
