# SPDX-License-Identifier: GPL-3.0-or-later
"""What is read of a random call: the kinds of its minutes, and all that must hold beside."""
import collections
import csv
import io
import json
import math
import pathlib
import re
import shutil
import sys

import patience

sys.path.append(str(pathlib.Path(__file__).resolve().parents[1] / "net"))
import reader

SPAN = re.compile(f"([{''.join(reader.KINDS)}])([^\u200e]*)\u200e")
UNMARKED = re.compile(r"(?<![\w.])\d+(?:[.,]\d+)?[ \u00a0\n]*min\b(?!/)")
PROMISE = re.compile(r"\b(?:safe|safely|(?<!tu )seguros?|seguras?|inofensiv\w+|harmless)\b", re.I)  # "tu seguro" is insurance
NUMBER = re.compile(r"\d+(?:\.\d+)?")
NEVER = None  # in place of a last minute


class Fault(Exception):
    pass


def want(good, sentence):
    if not good:
        raise Fault(sentence)


# ---- what is read ----------------------------------------------------------------------------------------

class Said:
    """The minutes of one output: {kind: [(arm or None, numbers)]}."""

    def __init__(self):
        self.minutes = collections.defaultdict(list)
        self.looks = []  # (arm, minute) at which to look, in what a machine reads

    def put(self, kind, arm, numbers):
        self.minutes[kind].append((arm, numbers))

    def spans(self, text):
        for mark, words in SPAN.findall(text):
            self.put(reader.KINDS[mark], None, [float(n) for n in NUMBER.findall(words)])

    def text(self, text):
        self.spans(text)
        rest = SPAN.sub("", text)
        want(not any(mark in rest for mark in reader.MARKS), "a mark of a kind that does not end")
        bare = UNMARKED.search(rest)
        want(bare is None, f"a minute without a kind: {bare and rest[max(0, bare.start() - 60):bare.end() + 20]!r}")

    def csv(self, text):
        rows = list(csv.reader(io.StringIO(text)))
        want(rows and all(len(row) == len(rows[0]) for row in rows), "rows of unequal length")
        head = [self.key(name) for name in rows[0]]
        names = [name for name, _ in head]
        for row in rows[1:]:
            quantity = self.key(row[names.index("quantity")]) if "quantity" in names else ("", None)
            arm = row[names.index("arm")] if "arm" in names else None
            for (name, kind), cell in zip(head, row):
                if quantity[0] == "look_min" and name == "value":
                    self.looks.append((arm, float(cell)))
                if kind or (quantity[1] and name in ("value", "before", "after")):
                    self.put(kind or quantity[1], arm, [float(n) for n in NUMBER.findall(cell)])

    def key(self, name):
        """(name, kind) of a machine's key; a minute's key names its kind."""
        kind = reader.KINDS.get(name[-1:])
        name = name.rstrip("".join(reader.KINDS))
        minute = name.endswith(("_min", "minute")) and not name.endswith("per_min")
        want(kind is not None or not minute, f"a machine's minute without a kind: {name}")
        return name, kind

    def json(self, text):
        self.walk(json.loads(text), None, None)

    def walk(self, value, arm, kind):
        if isinstance(value, dict):
            arm = value.get("arm", arm) if isinstance(value.get("arm", arm), (str, type(None))) else arm
            for name, inner in value.items():
                holds = isinstance(inner, (int, float)) and not isinstance(inner, bool)
                plain, own = self.key(name) if holds or name[-1:] in reader.KINDS else (name, None)
                self.looks += [(arm, minute) for minute in inner] if plain in ("looks_min", "strand_looks_min") and inner else []
                self.walk(inner, arm, own or kind)
        elif isinstance(value, list):
            for inner in value:
                self.walk(inner, arm, kind)
        elif kind and isinstance(value, (int, float)) and not isinstance(value, bool):
            self.put(kind, arm, [float(value)])


def read(call, done, folder):
    said, out = Said(), done.stdout.decode()
    if call.form == "csv" and out:
        said.csv(out)
    elif call.form == "json" and out:
        said.json(out)
    elif call.form == "html":
        for page in sorted((folder / call.made).glob("*.html")):
            said.text(re.sub(r"<[^>]*>", " ", page.read_text(encoding="utf-8")))
        shutil.rmtree(folder / call.made, ignore_errors=True)
    elif call.form == "kept":  # is read back by log import, so its keys are those of the log's columns
        json.loads(out)
    elif call.form == "pdf":  # its letters have no marks; on a head it has no minute at all
        words = patience.run(["pdftotext", "-raw", "-enc", "UTF-8", str(folder / call.made), "-"], capture_output=True).stdout.decode()
        minute = UNMARKED.search(words) if call.last[None] is NEVER else None
        want(minute is None, f"a minute on a sheet of a head: {minute and minute[0]}")
    else:
        said.text(out)
    return said


def judge(call, done, folder):
    """What is false of a call, as a Fault; else its minutes."""
    out, err = done.stdout.decode(), done.stderr.decode()
    lines = [line for line in err.split("\n") if line.strip()]
    want(done.returncode in (0, 1, 2), f"exit {done.returncode}")
    want(all(line.startswith("slowlift: ") for line in lines), f"a line on stderr that is none of ours: {err!r}")
    want(done.returncode == 0 or len(lines) == 1, f"exit {done.returncode} with {len(lines)} lines on stderr: {err!r}")
    want(not call.refused or (done.returncode == 2 and not out), f"not refused: exit {done.returncode}, {out[:200]!r}")
    promise = PROMISE.search(" ".join((out + err).split()))
    want(promise is None, f"a promise: {promise and promise[0]}")
    said = Said() if done.returncode != 0 and call.form in ("kept", "html", "pdf") else read(call, done, folder)
    said.spans(err)
    for line in out.split("\n") if call.head and done.returncode == 0 else []:
        model = any(reader.KINDS[mark] == "model" for mark, _ in SPAN.findall(line))
        want(not line.strip().startswith(call.head) or not model, f"a number of a head is a minute: {line}")
    ends = [last for last in call.last.values() if last is not NEVER]
    for arm, numbers in said.minutes["model"]:
        last = call.last[arm] if arm in call.last else max(ends, default=NEVER)
        want(last is not NEVER, f"a minute of the model where none may be told: {arm}, {numbers}")
        want(all(n <= last + 1e-9 for n in numbers), f"a minute of the model after {last}: {arm}, {numbers}")
    for arm, minute in said.looks if call.labels else []:
        ends = min(call.labels[arm], math.inf if call.last[arm] is NEVER else call.last[arm])
        want(minute <= ends + 1e-9, f"a look after {ends}: {arm}, {minute}")
    for _, numbers in said.minutes["planned"]:
        want(call.planned is None or float(call.planned) not in numbers, f"told by the minute on a head: {call.planned}")
    return said


class Tally:
    FIELDS = ("calls", "exit 0", "refused", "may", "told", "planned", "clock", "model")

    def __init__(self):
        self.of = collections.defaultdict(collections.Counter)

    def put(self, name, call, done, said):
        may = any(last is not NEVER for last in call.last.values())
        row = collections.Counter({"calls": 1, "exit 0": done.returncode == 0, "refused": done.returncode == 2, "may": may,
                                   "told": may and bool(said.minutes["model"])})
        row.update({kind: len(found) for kind, found in said.minutes.items()})
        self.of[name].update(row)

    def add(self, other):
        for name, row in other.of.items():
            self.of[name].update(row)

    def lines(self):
        yield "| command | " + " | ".join(self.FIELDS) + " |"
        yield "|---" * (len(self.FIELDS) + 1) + "|"
        total = sum(self.of.values(), collections.Counter())
        for name, row in [*sorted(self.of.items()), ("all", total)]:
            yield f"| `{name}` | " + " | ".join(f"{row[field]:,}" for field in self.FIELDS) + " |"
