#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every key of the form's table stands in its page, and the page names no other key.

What an empty form lacks comes from the program (`limits --json`), and each key that the page tells is given to
`slowlift check`, which must take it.

usage: check_form_doc.py PROGRAM SOURCE
"""
import pathlib
import re
import subprocess
import sys
import tempfile

program, source = sys.argv[1], pathlib.Path(sys.argv[2])
page = (source / "docs/file-format.md").read_text(encoding="utf-8")
section = page[page.index("\n## Intake\n"):page.index("\n## Prices\n")]
told = {key for row in section.splitlines() if row.startswith("| `") for key in re.findall(r"`([a-z_]+)`", row.split("|")[1])}
SAMPLES = {"age": "30", "label": "20 min", "person": "K12", "qualified": "op-1", "part": "nape", "packet_opened": "2026-11-20",
           "showed": "[{arm: a, at: 5 min, grade: slight}]"}
failed = 0


def known(key, value):
    with tempfile.NamedTemporaryFile("w", suffix=".yaml") as form:
        form.write(f"kind: intake\nversion: 1\ntitle: t\norigin: o\n{key}: {value}\n")
        form.flush()
        return subprocess.run([program, "check", form.name], capture_output=True).returncode == 0


for key in sorted(told):
    if not known(key, SAMPLES.get(key, "yes")):
        print(f"docs/file-format.md tells of the key {key}, which a form does not take")
        failed = 1
with tempfile.NamedTemporaryFile("w", suffix=".yaml") as form:
    form.write("kind: intake\nversion: 1\ntitle: t\norigin: o\n")
    form.flush()
    out = subprocess.run([program, "limits", "way-wide", "--models", str(source / "models"), "--person", form.name, "--json", "--members",
                          "100"], capture_output=True, text=True, check=True).stdout
asked = set(re.findall(r'"key": "([a-z_]+)"', out))
if len(asked) < 20:
    print(f"an empty form misses {len(asked)} answers only")
    failed = 1
for key in sorted(asked - told):
    print(f"a form is asked for {key}, and docs/file-format.md does not tell of it")
    failed = 1
sys.exit(failed)
