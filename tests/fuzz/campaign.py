#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs the fuzzers, and prints the table of docs/robustness.md: what was executed, how fast, how much was reached.

    campaign.py BUILD [--runs N] [--keep FOLDER] [--artifacts FOLDER] [TARGET...]

Every target makes N executions (6000), the log a tenth of that, from the seeds and dictionaries of the target
`fuzz_seeds`. --keep: a folder for what was found, gone on from next time; executions there are added up. A rate is by the
processor's time, so that a busy machine changes little. Ends with 1 where something was found; the input then lies in the
folder of artifacts (the build's), and belongs among the tests' files before it is mended.
"""
import argparse
import json
import os
import pathlib
import re
import resource
import subprocess
import sys

sys.path.append(os.path.join(os.path.dirname(os.path.abspath(__file__)), "../tools"))
import patience  # noqa: E402

# A small store of freed memory, so that each input meets pages that are there: twice as fast.
ASAN = "detect_leaks=1:quarantine_size_mb=4:malloc_context_size=4"
TARGETS = ["scene", "part", "chart", "lesson", "answers", "quiz", "form", "prices", "csv", "log", "shard"]


def used():
    children = resource.getrusage(resource.RUSAGE_CHILDREN)
    return children.ru_utime + children.ru_stime


def run(build, target, runs, keep, artifacts):
    """One process over one target: (executions, processor seconds, edges reached, exit code)."""
    seeds = build / "fuzz" / target
    corpus = [str(keep / target), str(seeds)] if keep else [str(seeds)]
    if keep:
        (keep / target).mkdir(parents=True, exist_ok=True)
    words = [str(build / f"fuzz_{target}"), f"-runs={runs}", f"-dict={build}/fuzz/{target}.dict", f"-timeout={patience.WAIT_S}",
             "-rss_limit_mb=4096", "-verbosity=1", "-print_final_stats=1", f"-artifact_prefix={artifacts}/{target}-", *corpus]
    if not keep:
        words.append("-reduce_inputs=0")
    before = used()
    done = subprocess.run(words, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, check=False,
                          env=dict(os.environ, ASAN_OPTIONS=ASAN, UBSAN_OPTIONS="print_stacktrace=1"))
    said = done.stderr.decode("utf-8", "replace")
    executed = re.findall(r"stat::number_of_executed_units: (\d+)", said)
    reached = re.findall(r"cov: (\d+)", said)
    if done.returncode != 0:
        print(said[-4000:], file=sys.stderr)
    return int(executed[-1]) if executed else 0, used() - before, int(reached[-1]) if reached else 0, done.returncode


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("build", type=pathlib.Path)
    parser.add_argument("--runs", type=int, default=6000)
    parser.add_argument("--keep", type=pathlib.Path)
    parser.add_argument("--artifacts", type=pathlib.Path)
    parser.add_argument("targets", nargs="*", default=[])
    asked = parser.parse_intermixed_args()
    artifacts = asked.artifacts or asked.build / "fuzz-found"
    artifacts.mkdir(parents=True, exist_ok=True)
    totals = asked.keep / "totals.json" if asked.keep else None
    known = json.loads(totals.read_text()) if totals and totals.exists() else {}
    failed = []
    print("| target | executions | a second of processor time | edges reached | found |\n|---|---|---|---|---|")
    for target in asked.targets or TARGETS:
        runs = max(1, asked.runs // (10 if target == "log" else 1))
        executed, seconds, edges, code = run(asked.build, target, runs, asked.keep, artifacts)
        was = known.get(target, {"executions": 0, "seconds": 0.0, "found": 0})
        now = {"executions": was["executions"] + executed, "seconds": was["seconds"] + seconds, "edges": edges,
               "found": was["found"] + (code != 0)}
        known[target] = now
        print(f"| {target} | {now['executions']} | {now['executions'] / max(now['seconds'], 1e-3):.0f} | {edges} | "
              f"{now['found'] or 'nothing'} |", flush=True)
        failed += [target] if code != 0 else []
        if totals:
            totals.write_text(json.dumps(known, indent=1))
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
