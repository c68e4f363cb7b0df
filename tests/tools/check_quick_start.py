#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The quick start: two pages of paper in each language, its whole job that of the guide, its keys those of the window's page of keys.

usage: check_quick_start.py BUILD SOURCE
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

BUILD, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
KEYS = {"P": "play, pause", "C": "same minute, same colour left", "Up, Down": "zone above, below", "W": "what-if", "E": "how long",
        "Left, Right": "a minute back or on", "F1": "help", "K": "cautions"}
failures = []


def ok(sentence, good, seen=""):
    if not good:
        failures.append(sentence)
        print(f"false: {sentence}\n{seen[:1500]}")


def call(*words, language="en"):
    env = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "SLOWLIFT_LANGUAGE": language, "SLOWLIFT_MODELS": str(SOURCE / "models"),
           "HOME": os.environ.get("HOME", "/"), "COLUMNS": "100"}
    return subprocess.run([BUILD / "slowlift", *map(str, words)], capture_output=True, text=True, env=env, check=False)


def typed(words):
    """What a line of a table or of the guide asks for, without what it is for."""
    return " ".join(words.split("#")[0].split())


def check_job(said):
    section = (SOURCE / "docs/guide.md").read_text(encoding="utf-8").split("## The whole job\n", 1)[1].split("\n## ", 1)[0]
    guide = [typed(line) for line in section.split("```sh\n", 1)[1].split("```", 1)[0].splitlines() if line.startswith("slowlift ")]
    shown = [line for line in re.findall(r"\| (slowlift [^|]*?) *\|", said)]
    ok("what is typed stands in a table", len(shown) >= 12, said)
    job = shown[3:]
    ok("the whole job is that of the guide, nothing in another order", [line for line in guide if line in job] == job,
       "\n".join(sorted(set(job) - set(guide))))
    for line in shown:
        verb = line.split()[1:3] if line.split()[1] == "log" else line.split()[1:2]
        ok(f"{' '.join(verb)} is a command", call(*verb, "--help").returncode == 0)


def check_keys(said):
    rows = re.findall(r"^\| ([^|]*) \| ([^|]*) \|$", (SOURCE / "docs/window.md").read_text(encoding="utf-8").split("## Keys", 1)[1], re.M)
    for key, does in KEYS.items():
        of = [what for keys, what in rows if re.search(rf"(?:^|[ ,;]){re.escape(key)}(?:$|[ ,;(])", keys)]
        ok(f"{key}: {does}", any(does in what for what in of), str(of))
        ok(f"{key} is named", re.search(rf"\b{key.replace(', ', ' and ')}\b", said), said)


def main():
    with tempfile.TemporaryDirectory() as folder:
        for language in ("en", "es"):
            made = call("quick-start", "-o", f"{folder}/{language}.pdf", language=language)
            if shutil.which("pdfinfo") and (BUILD / "slowlift-paper").exists():
                ok(f"it is printed ({language})", made.returncode == 0, made.stderr)
                pages = re.search(r"^Pages: +(\d+)", subprocess.run(["pdfinfo", f"{folder}/{language}.pdf"], capture_output=True, text=True,
                                                                  check=False).stdout, re.M)
                ok(f"it has two pages ({language})", pages and pages.group(1) == "2", str(pages))
    done = call("quick-start", "-o", "/dev/null/x.html")
    ok("where it cannot be written it says so", done.returncode != 0)
    ok("it takes no file", call("quick-start", "eight-arms").returncode == 2)
    with tempfile.TemporaryDirectory() as folder:
        call("quick-start", "-o", f"{folder}/q.html")
        page = pathlib.Path(f"{folder}/q.html").read_text(encoding="utf-8")
    rows = re.sub(r"</t[dh]>\s*<t[dh][^>]*>", " | ", page)
    rows = re.sub(r"<tr>\s*<t[dh][^>]*>", "| ", re.sub(r"</t[dh]>\s*</tr>", " |", rows))
    check_job(re.sub(r"<[^>]+>", "", rows))
    check_keys(call("quick-start").stdout)
    print(f"{len(failures)} false")
    return 1 if failures else 0


sys.exit(main())
