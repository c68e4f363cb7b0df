# SPDX-License-Identifier: GPL-3.0-or-later
"""The same bytes for any number of threads: text, CSV and JSON of every command that draws members.

    check_threads.py SLOWLIFT SCENE
"""
import os
import subprocess
import sys

THREADS = (1, 2, 8)
# members that are no multiple of sixteen, so that the last block is short
COMMANDS = (("limits", ("--members", "1003", "--seed", "7")),
            ("limits", ("--members", "1003", "--seed", "7", "--goal", "50%", "--label", "30min", "--science")),
            ("limits", ("--members", "1003", "--arm", "powder + 3 %", "--saw", "12 min mostly gone")),
            ("rank", ("--members", "1003", "--seed", "7")))


def output(program, words):
    done = subprocess.run([program, *words], capture_output=True, check=False, env={**os.environ, "LC_ALL": "C.UTF-8"})
    if done.returncode != 0:
        raise SystemExit(f"{' '.join(words)}: exit {done.returncode}: {done.stderr.decode()}")
    return done.stdout


def main():
    program, scene = sys.argv[1:]
    bad = 0
    seen = set()
    for command, options in COMMANDS:
        for form in ((), ("--csv",), ("--json",)):
            words = [command, scene, *options, *form]
            found = [output(program, [*words, "--threads", str(n)]) for n in THREADS]
            same = len(set(found)) == 1 and len(found[0]) > 100
            bad += not same
            seen.add(found[0])
            print("ok " if same else "NOT", " ".join(words), len(found[0]), "bytes")
    if len(seen) != 3 * len(COMMANDS):
        print("NOT different answers to different questions")
        bad += 1
    return 1 if bad else 0


if __name__ == "__main__":
    sys.exit(main())
