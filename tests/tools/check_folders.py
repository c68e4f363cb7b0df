#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A folder that slowlift fills (a pack, frames) loses nothing that somebody else put there.

usage: check_folders.py SLOWLIFT SOURCE
"""
import hashlib
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

SLOWLIFT, SOURCE = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()
SCENE = SOURCE / "models/scenes/way-wide.yaml"
LIST = "slowlift-files.txt"
failures = 0


def check(good, what):
    global failures
    if not good:
        failures += 1
        print("false:", what)


def fill(kind, folder, code, said=""):
    words = {"pack": ["pack", str(SCENE), "--repeats", "1", "-o", str(folder)],
             "frames": ["picture", str(SCENE), "--at", "0min,5min", "--size", "960x540", "--frames", str(folder)]}[kind]
    done = subprocess.run([SLOWLIFT, *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                          env=dict(os.environ, LC_ALL="C.UTF-8"))
    text = done.stderr.decode()
    check(done.returncode == code, f"{kind}: ends with {done.returncode}: {text}")
    check(said in text, f"{kind}: {text!r} says {said!r}")


def contents(folder):
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def try_kind(kind, mine, base):
    folder = base / kind
    folder.mkdir()
    # Files of a user whose names look like ours.
    for name in mine:
        (folder / name).write_text("precious")
    before = contents(folder)
    fill(kind, folder, 2, "no list of what slowlift wrote")
    check(contents(folder) == before, f"{kind}: a user's own files stay")
    shutil.rmtree(folder)
    # A new folder, and a list that another program can check.
    fill(kind, folder, 0)
    first = contents(folder)
    check(LIST in first, f"{kind}: the folder holds its list")
    listed = dict(reversed(line.split("  ", 1)) for line in first[LIST].decode().splitlines() if line[0] != "#")
    check(set(listed) == set(first) - {LIST} and
          all(hashlib.sha256(first[name]).hexdigest() == sum_ for name, sum_ in listed.items()),
          f"{kind}: the list names every file with its SHA-256")
    # An older one is replaced, also through a link and where a file of it is gone.
    (base / "link").symlink_to(folder)
    next(path for path in folder.iterdir() if path.name != LIST).unlink()
    fill(kind, base / "link", 0)
    check(contents(folder) == first and (base / "link").is_symlink(), f"{kind}: an older one is replaced whole")
    (base / "link").unlink()
    # What was added or changed since is kept, and said.
    for name in mine + ["notes.txt", ".hidden"]:
        if name not in first:
            (folder / name).write_text("precious")
            before = contents(folder)
            fill(kind, folder, 2, "which slowlift did not write")
            check(contents(folder) == before, f"{kind}: {name} stays, and all else")
            (folder / name).unlink()
    (folder / "mine").mkdir()
    fill(kind, folder, 2, "which slowlift did not write")
    (folder / "mine").rmdir()
    changed = sorted(set(first) - {LIST})[0]
    (folder / changed).write_bytes(first[changed] + b"<!-- a note in the margin -->")
    before = contents(folder)
    fill(kind, folder, 2, "was changed since it was written")
    check(contents(folder) == before, f"{kind}: a sheet that was changed is kept")
    # A list that is no list, and names in it that lead elsewhere.
    (base / "elsewhere.txt").write_text("precious")
    (folder / changed).write_bytes(first[changed])
    sum_ = hashlib.sha256(b"precious").hexdigest()
    for bad in (b"not a list\n", f"{sum_}  ../elsewhere.txt\n".encode(), b"\0" * 200):
        (folder / LIST).write_bytes(first[LIST] + bad)
        before = contents(folder)
        fill(kind, folder, 3, "it does not read")
        check(contents(folder) == before, f"{kind}: a list that does not read stops it")
    (folder / LIST).write_bytes(first[LIST])
    fill(kind, folder, 0)
    check(contents(folder) == first, f"{kind}: as it was written it is replaced")
    check((base / "elsewhere.txt").read_text() == "precious", f"{kind}: nothing outside the folder is touched")
    check(sorted(path.name for path in base.iterdir()) == sorted([kind, "elsewhere.txt"]),
          f"{kind}: nothing is left beside it: {sorted(path.name for path in base.iterdir())}")
    shutil.rmtree(folder)
    (base / "elsewhere.txt").unlink()


def main():
    with tempfile.TemporaryDirectory() as name:
        base = pathlib.Path(name)
        try_kind("pack", ["01-holiday.svg", "02-page.html", "pack.pdf"], base)
        try_kind("frames", ["frame-0001.png"], base)
    print(f"{failures} sentences are false")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
