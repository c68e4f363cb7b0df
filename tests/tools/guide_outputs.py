#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Holds the outputs that the documents show against what the program prints.

usage: guide_outputs.py check|renew PROGRAM DOCUMENT...

A code block that begins with "$ slowlift ..." or "$ printf '...' | slowlift ..." shows commands and what they
print (both streams). A line "…"
stands for any number of lines left out. Commands run in a folder that looks like the source's, on copies of
the files of tests/files: some are written to. `renew` writes the lines anew: each piece between two "…" is found
again by the beginning of its first line.
"""
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

BEGINNING = 12  # characters by which a piece's first line is found again
root = pathlib.Path(__file__).resolve().parents[2]


def beginning(line):
    """By which a line is known again; a rehearsal's lines all begin alike."""
    return line.removeprefix("REHEARSAL | ")[:BEGINNING]


def stand_in(folder):
    """The source as a stranger sees it, without its originals."""
    for name in ("models", "lessons", "docs"):
        (folder / name).symlink_to(root / name)
    shutil.copytree(root / "tests" / "files", folder / "tests" / "files")


def printed(program, folder, words):
    """words: slowlift ..., or printf 'WHAT IS TYPED' | slowlift ..."""
    typed = ""
    if words.startswith("printf "):
        typist, words = words.split(" | ", 1)
        typed = shlex.split(typist)[1].replace("\\n", "\n")
    command = [program] + shlex.split(words)[1:]
    run = subprocess.run(command, capture_output=True, text=True, cwd=folder, input=typed, env={"NO_COLOR": "1"})
    return (run.stdout + run.stderr).splitlines()


def pieces(lines):
    """Split at "…"; empty pieces stay, so that joining gives the lines back."""
    found = [[]]
    for line in lines:
        if line == "…":
            found.append([])
        else:
            found[-1].append(line)
    return found


def follows(actual, shown):
    """Whether the pieces stand in `actual` in this order; the first at its head unless it is empty."""
    at = 0
    parts = pieces(shown)
    for number, part in enumerate(parts):
        places = [i for i in range(at, len(actual) - len(part) + 1) if actual[i : i + len(part)] == part]
        if number == 0 and part:
            places = [i for i in places if i == 0]
        if not places:
            return part
        at = places[0] + len(part)
    if parts[-1] and at != len(actual):
        return parts[-1]
    return None


def renewed(actual, shown):
    at = 0
    out = []
    for part in pieces(shown):
        if part:
            places = [i for i in range(at, len(actual)) if beginning(actual[i]) == beginning(part[0])]
            start = places[0] if places else at
            part = actual[start : start + len(part)]
            at = start + len(part)
        out.append(part)
    return [line for i, part in enumerate(out) for line in ((["…"] if i else []) + part)]


def go_through(how, program, documents, folder):
    false = 0
    commands = 0
    for name in documents:
        path = pathlib.Path(name)
        blocks = re.split(r"(^```\n(?=\$ (?:slowlift|printf )).*?^```$)", path.read_text(), flags=re.M | re.S)
        for number, block in enumerate(blocks):
            if not block.startswith(("```\n$ slowlift", "```\n$ printf ")):
                continue
            body = block[4:-4].rstrip("\n")
            parts = re.split(r"^\$ ((?:slowlift|printf ).*)\n?", body, flags=re.M)[1:]
            text = "```\n"
            for words, shown in zip(parts[::2], parts[1::2]):
                commands += 1
                lines = shown.rstrip("\n").split("\n") if shown.strip() else []
                actual = printed(program, folder, words)
                text += f"$ {words}\n" + "".join(line + "\n" for line in renewed(actual, lines))
                missing = follows(actual, lines)
                if missing is not None and how == "check":
                    false += 1
                    print(f"{name}: \"{words}\" no longer prints:\n  " + "\n  ".join(missing[:4]))
            blocks[number] = text + "```"
        if how == "renew":
            path.write_text("".join(blocks))
    print(f"{commands} commands, {false} false")
    return 1 if false or commands == 0 else 0


def main():
    with tempfile.TemporaryDirectory() as folder:
        stand_in(pathlib.Path(folder))
        return go_through(sys.argv[1], str(pathlib.Path(sys.argv[2]).resolve()), sys.argv[3:], pathlib.Path(folder))


if __name__ == "__main__":
    sys.exit(main())
