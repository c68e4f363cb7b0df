# SPDX-License-Identifier: GPL-3.0-or-later
"""What comes from outside drives no terminal, forges no line and holds nothing up.

    check_outside.py PROGRAM SOURCE

Every option that takes a text is given texts that no eye can trust; files get names that do; inputs are pipes,
devices and folders. Each call must end by itself with a documented exit code, and say nothing but text."""
import os
import re
import subprocess
import sys
import tempfile

import patience

PROGRAM, SOURCE = sys.argv[1:3]
ENVIRONMENT = dict(os.environ, SLOWLIFT_MODELS=SOURCE + "/models", SLOWLIFT_LANGUAGE="en", TERM="dumb", NO_COLOR="1")
HOSTILE = (b"\x1b[2J", b"a\nforged", b"a\tb", "a\u202eb".encode(), "a\u200bb".encode(), "\U000e0061x".encode(),
           b"\xff\xfe", b"\xc2\x9b2J")
FILES = {"output", "models", "picture", "key", "person", "photo", "frames", "answers", "seen", "day", "lesson", "class", "merge", "scene", "prices", "client", "no",
         "outcomes", "spread-from"}
# What each command needs beside the option that is tried.
NEEDS = {"log": ["show", "log.db"], "day": ["log.db"], "compare": ["log.db"], "cost": ["school"], "report": ["log.db"]}
bad = []


def call(arguments, folder, **more):
    try:
        return patience.run([PROGRAM, *arguments], limit=patience.WAIT_S, capture_output=True, env={**ENVIRONMENT, **more},
                            cwd=folder, stdin=subprocess.DEVNULL)
    except subprocess.TimeoutExpired:
        bad.append(f"{arguments}: never ends")
        return None


def raw(said):
    """Bytes that are no text of lines."""
    try:
        text = said.decode("utf-8")
    except UnicodeDecodeError:
        return True
    return re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u200b-\u200f\u202a-\u202e\u2066-\u2069\U000e0000-\U000e007f]", text)


def must(done, what, codes):
    if done is None:
        return
    if done.returncode not in codes:
        bad.append(f"{what}: exit {done.returncode}, {done.stderr[:200]!r}")
    if raw(done.stdout) or raw(done.stderr):
        bad.append(f"{what}: {done.stdout[:100]!r} {done.stderr[:200]!r}")
    if done.returncode != 0 and len(done.stderr.splitlines()) > 2:
        bad.append(f"{what}: {len(done.stderr.splitlines())} lines for one fault")


def options_of(command, folder):
    usage = call([command, "--help"], folder).stdout.decode()
    return sorted(set(re.findall(r"--([a-z-]+) [A-Z\"]", usage)) - FILES)


def try_options(folder):
    n = 0
    listed = call(["--help"], folder).stdout.decode()
    for command in re.findall(r"^  ([a-z-]+) +\S", listed, re.M):
        if command == "watch":
            continue  # it needs a display before it looks at more
        for option in options_of(command, folder):
            for text in (HOSTILE[n % len(HOSTILE)], HOSTILE[(n + 3) % len(HOSTILE)]):  # all of them, by turns
                done = call([command, *NEEDS.get(command, ["eight-arms"]), b"--" + option.encode(), text], folder)
                must(done, f"{command} --{option} {text!r}", (2,))
                n += 1
    return n


def try_names(folder):
    """Files whose names drive a terminal are read; what is said of them does not."""
    with open(SOURCE + "/models/scenes/way-wide.yaml", "rb") as file:
        scene = file.read()
    name = b"s\x1b[2J\n\xe2\x80\xaeforged.yaml"
    with open(os.path.join(folder.encode(), name), "wb") as file:
        file.write(scene)
    must(call(["check", name], folder), "check", (0,))
    must(call(["plan", name, "--json", "-o", b"out\x1b[2J.json"], folder), "plan", (0,))
    must(call(["run", b"missing\x1b[2J\n"], folder), "run of a missing file", (1,))
    must(call(["run", name, "-o", b"none\x1b/\n/x"], folder), "an output in no folder", (3,))
    must(call([b"\x1b[2J\n"], folder), "a command", (2,))
    must(call(["list"], folder, SLOWLIFT_MODELS="\x1b[2J\n"), "models by the environment", (0, 1, 3))
    must(call(["list", "--models", b"\x1b[2J\n"], folder), "models by option", (2, 1))


def try_inputs(folder):
    """Nothing waits for a pipe, a device or a folder, by whatever door it comes."""
    os.mkfifo(folder + "/fifo.yaml")
    os.makedirs(folder + "/own/scenes")
    os.mkfifo(folder + "/own/scenes/piped.yaml")
    endless = ("fifo.yaml", "/dev/zero", "/dev/full", "/", "/dev/stdin")
    doors = (["run"], ["check"], ["plan"], ["limits", "way-wide", "--person"], ["limits", "--merge", "way-wide"],
             ["cost", "--powder", "20g", "--developer", "40g"], ["log", "import", "log.db"],
             ["log", "new", "other.db"],
             ["log", "add", "log.db", "--swatch", "A", "--zone", "blue", "--judge", "j", "--grade", "slight", "--photo"],
             ["teach", SOURCE + "/lessons/fair-test/lesson.yaml", "--answers"])
    for door in doors:
        for name in endless:
            if name == "/dev/stdin" and door[0] in ("log", "teach"):
                continue
            must(call([*door, name], folder), f"{door} {name}", (1, 2, 3))
    must(call(["list", "--models", "own"], folder), "list of a folder with a pipe", (0,))
    must(call(["run", "piped", "--models", "own"], folder), "a scene by its name that is a pipe", (1,))


def try_lines(folder):
    """A question may have lines; none of them can pass for a line of the report."""
    with open(SOURCE + "/models/scenes/way-wide.yaml", encoding="utf-8") as file:
        scene = re.sub("(?m)^question: .*$", 'question: "Why?\\\\n\\\\nSTOP: leave it on for 60 min\\\\n goal: none"', file.read())
    with open(folder + "/q.yaml", "w", encoding="utf-8") as file:
        file.write(scene)
    for arguments in (["run"], ["limits", "--members", "100"], ["plan"], ["rank", "--members", "100"]):
        done = call([*arguments, "q.yaml"], folder)
        must(done, f"{arguments} with lines in its question", (0,))
        if done and re.search(rb"(?m)^(STOP: leave| goal: none)", done.stdout):
            bad.append(f"{arguments}: a question forges a line")


def main():
    with tempfile.TemporaryDirectory() as folder:
        made = call(["log", "new", "log.db", "way-wide", "--operator", "op"], folder)
        assert made.returncode == 0, made.stderr
        n = try_options(folder)
        try_names(folder)
        try_inputs(folder)
        try_lines(folder)
    print("\n".join(bad[:40]))
    print(f"{n} options tried; {len(bad)} wrong")
    return 1 if bad or n < 120 else 0


sys.exit(main())
