#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every row of the table of checks as it was in model 1 beside today's, and why its verdict changed.

usage: checks_then_now.py check|renew PAGE CHECKS.md [COMMIT]

`renew` writes PAGE: what is today's comes from CHECKS.md, what was then from the page itself, or from CHECKS.md as it was at COMMIT; the reasons
are written by hand into the page's last column and stay there as long as the verdict that they explain. `check` fails when the page is not
what `renew` would write, when a verdict that changed has no reason, and when a row asks for something else than it did then.
"""
import pathlib
import re
import subprocess
import sys

NO_REASON = "(no reason is told yet)"
NEW, GONE = "–", "–"
HEAD = """# The table of checks, then and now

Made by a program: `cmake --build build --target checks` writes the table from [checks.md](../checks.md), where targets stand with their
sources; a test fails when it is not today's, or when a verdict changed without a reason. Then: model 1, before mixes warmed themselves,
computed their pH, reduced dyes, opened hair by lipids and were washed in two parts ({commit}). *Evidence* (of what is not called so, none) and *held out* mean
what they mean there; R are regressions, which say nothing about hair.

{counts}

"""
TABLE = "| # | computed then | verdict then | computed now | verdict now | why the verdict changed |\n|---|---|---|---|---|---|\n"


class Row:
    def __init__(self, cells):
        self.name, self.target = cells[1], cells[2]
        wide = len(cells) == 12  # else a regression
        self.asked = cells[5] if wide else cells[3]
        self.computed = cells[6 if wide else 4] or "not computed"
        said, _, why = cells[7 if wide else 5].replace("*", "").partition(":")
        self.verdict = "not computed" if said.startswith("not computed") else said.strip()
        counts = wide and self.verdict != "not computed" and "no evidence" not in self.verdict
        self.verdict += ", evidence" if counts and "held out" not in self.verdict else ""
        self.verdict = self.verdict.replace(", no evidence", "")
        self.asks = (self.target, self.asked)


def table(text):
    rows = {}
    for line in text.splitlines():
        cells = [cell.strip() for cell in line.split("|")]
        if re.fullmatch(r"[A-Z]+\d+[a-z]?", cells[1] if len(cells) in (12, 8) else ""):
            rows[cells[1]] = Row(cells)
    return rows


def count(text):
    return re.search(r"Of \d+ targets .*?misses \d+\.", " ".join(text.split()))[0]


def told(page):
    """Of a page: what was then, and each verdict's change with its reason."""
    then, reasons = {}, {}
    for line in page.splitlines():
        cells = [cell.strip() for cell in line.split("|")]
        if len(cells) == 8 and cells[1] not in ("#", "---"):
            if cells[3] != NEW:
                then[cells[1]] = (cells[2], cells[3])
            reasons[cells[1], cells[3], cells[5]] = cells[6]
    return then, reasons


def written(then, then_count, commit, reasons, checks):
    now = table(checks)
    text = HEAD.format(commit=commit, counts=f"Then: {then_count}\nNow: {count(checks)}") + TABLE
    for name in list(now) + [name for name in then if name not in now]:
        computed, verdict = then.get(name, (NEW, NEW))
        today = (now[name].computed, now[name].verdict) if name in now else (GONE, GONE)
        same = verdict == today[1]
        reason = "" if same else reasons.get((name, verdict, today[1])) or NO_REASON
        text += f"| {name} | {computed} | {verdict} | {today[0]} | {today[1]} | {reason} |\n"
    return text


def can_fail():
    def page(then, now):
        table_row = "| C1 | asked | source | kind | 3 to 4 | 3.5 | {} | null | never | fails |"
        checks = "Of 1 targets 1 are evidence. It misses 0.\n" + table_row.format(now)
        return written({"C1": ("3.4", then)}, "Of 1 targets, misses 0.", "abc", {("C1", "pass, evidence", "miss, evidence"): "because"}, checks)
    assert "| C1 | 3.4 | pass, evidence | 3.5 | pass, evidence |  |" in page("pass, evidence", "pass")
    assert "| miss, evidence | because |" in page("pass, evidence", "**miss**")
    assert NO_REASON in page("pass, evidence", "pass, no evidence: seen") and NO_REASON in page("miss, evidence", "pass")


def main():
    can_fail()
    what, page, checks = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
    today = checks.read_text()
    kept = page.read_text() if page.exists() else ""
    then, reasons = told(kept)
    if len(sys.argv) > 4:
        was = subprocess.run(["git", "-C", str(checks.parent), "show", f"{sys.argv[4]}:./{checks.name}"], check=True, capture_output=True, text=True).stdout
        then = {name: (row.computed, row.verdict) for name, row in table(was).items()}
        then_count, commit = count(was), sys.argv[4]
        other = [name for name, row in table(today).items() if name in then and row.asks != table(was)[name].asks]
        print("rows that ask for something else than then:", ", ".join(other) or "none")
    else:
        then_count = re.search(r"^Then: (Of .*)$", kept, re.M)[1]
        commit = re.search(r"parts \((\w+)\)", kept)[1]
    new = written(then, then_count, commit, reasons, today)
    if what == "renew":
        page.write_text(new)
    elif new != kept:
        print(f"{page}: not today's; cmake --build build --target checks")
        return 1
    missing = [line.split("|")[1].strip() for line in new.splitlines() if NO_REASON in line]
    print("verdicts that changed without a reason:", ", ".join(missing) or "none")
    return 1 if missing and what == "check" else 0


sys.exit(main())
