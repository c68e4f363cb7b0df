#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""No test asserts how fast the machine is, and limits stand in one place (patience.h, patience.py, suite.h).

    check_patience.py SOURCE       refuses clocks, sleeps and limits of their own in tests/ (the bench may measure)
    check_patience.py --self-test
"""
import os
import re
import sys

OWN = {"tests/tools/patience.h", "tests/tools/patience.py", "tests/unit/suite.h", "tests/tools/check_patience.py"}
FREE = ("tests/bench/", "tests/tools/make_")  # they measure, or make files once, by hand
RULES = {
    "c": {
        r"\b(tcase_set_timeout|srunner_create|suite_create|tcase_create)\b": "a suite is made by suite.h alone",
        r"\b(nanosleep|usleep|sleep|SDL_Delay|alarm)\s*\(": "wait for a condition with patient()",
        r"CLOCK_PROCESS_CPUTIME_ID|\bclock\s*\(\s*\)": "how long work takes is the bench's to say",
    },
    "py": {
        r"\btime\.\w+|^import time|^from time\b": "wait for a condition with patience.until()",
        r"(?<!-)\btimeout=": "use patience.run()",
    },
    "sh": {
        r"(^|[;&|({]|\bthen\b|\bdo\b)\s*sleep\s": "wait for a condition with patience.py",
        r"\btimeout\s+-": "wait for a condition with patience.py",
    },
}


def faults(name, text):
    """(line, what to do instead) of everything that depends on a machine's speed."""
    kind = {"h": "c"}.get(name.rsplit(".", 1)[-1], name.rsplit(".", 1)[-1])
    found = []
    for number, line in enumerate(text.splitlines(), 1):
        found += [(number, advice) for rule, advice in RULES.get(kind, {}).items() if re.search(rule, line)]
    return found


def self_test():
    bad = {"a.c": ["tcase_set_timeout(tests, 4);", "SRunner *r = srunner_create(s);", "    nanosleep(&span, NULL);", "SDL_Delay(5);",
                   "clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);"],
           "a.py": ["import time", "took = time.monotonic() - began", "time.sleep(0.5)", "subprocess.run(words, timeout=60)"],
           "a.sh": ["sleep 1", "a && { sleep 2; }", 'script -qec "timeout -s INT 2 $slowlift"']}
    good = {"a.c": ["clock_gettime(CLOCK_MONOTONIC, &monotonic)", "ADD(a_sleeping_machine)"], "a.py": ["patience.until(f, 'it')"],
            "a.sh": ["asleep=1", "# waits and does not sleep"]}
    wrong = [(n, l) for n, ls in bad.items() for l in ls if not faults(n, l)]
    wrong += [(n, l) for n, ls in good.items() for l in ls if faults(n, l)]
    print(wrong or "every fault is seen, and nothing else")
    return 1 if wrong else 0


def main():
    if sys.argv[1] == "--self-test":
        return self_test()
    found = 0
    for folder, _, names in os.walk(os.path.join(sys.argv[1], "tests")):
        for name in sorted(names):
            path = os.path.join(folder, name)
            said = os.path.relpath(path, sys.argv[1])
            if said in OWN or said.startswith(FREE) or name.rsplit(".", 1)[-1] not in ("c", "h", "py", "sh"):
                continue
            with open(path, encoding="utf-8") as file:
                for number, advice in faults(name, file.read()):
                    print(f"{said}:{number}: {advice}")
                    found += 1
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
