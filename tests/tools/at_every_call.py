#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every command that writes is killed, stopped, or meets a failing disk, at each system call that changes a file.

usage: at_every_call.py SLOWLIFT SOURCE AT_CALL.so all|smoke [kill|stop|fail|memory|beside]... [only=COMMAND]... [most=N]

most=N: of the calls of a command, N at equal distances.

at_call.c meets the n-th such call; n counts up until the program ends without meeting one, so nothing hangs on a
clock. Judged from outside: bytes of files, rows of a log by Python's own sqlite3, names in the folder.

  kill   SIGKILL. Each output is the old one or the new one, whole; a log holds its rows and maybe the new ones; the
         same command, called again there, does its work and leaves no other file than it would have.
  stop   SIGTERM and SIGINT. The same, and nothing half written is left even before the next call.
  beside Two at once: one stands still (SIGSTOP) just before its file or folder takes its place; another writes in the same
         folder, and clears nothing of it away; two packs into one folder: the second is refused.
  memory An allocation of the program's own is refused, once and from then on: exit code 3 and "out of memory", or its
         work done without; all as before.
  fail   ENOSPC once, EIO and EDQUOT from then on. The exit code is not 0, the message names file and reason, all is as
         before; or the program did without that call, and all is as it should be.

Ends with a table of how many there were (docs/robustness.md holds it).
"""
import collections
import errno
import hashlib
import os
import pathlib
import re
import shutil
import signal
import sqlite3
import subprocess
import sys
import tempfile

SLOWLIFT, SOURCE, SHIM = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve(), os.path.abspath(sys.argv[3])
WHOLE = sys.argv[4] == "all"
MODES = [word for word in sys.argv[5:] if "=" not in word] or ["kill", "stop", "fail", "memory", "beside"]
SMOKE = ["run -o", "plan --key", "log new", "log add", "log forget", "teach", "pack"]
ONLY = [word[5:] for word in sys.argv[5:] if word.startswith("only=")]
MOST = min([int(word[5:]) for word in sys.argv[5:] if word.startswith("most=")], default=10 ** 9)
DRAWS = os.path.join(os.path.dirname(SLOWLIFT), "slowlift-paper")
PAPER = os.path.exists(DRAWS)
ALL_CALLS, THAT_FAIL = "cwsrumthl", "cwsrmth"  # locks and removals that fail are nobody's loss
failures = 0
table = collections.defaultdict(collections.Counter)


def check(good, what):
    global failures
    if not good:
        failures += 1
        print("false:", what, flush=True)
    return good


# ---- what is written, and what it holds --------------------------------------------------------------------


def rows(path):
    """What a log holds, without identifiers and times that each run makes anew; None: no log."""
    if not path.exists():
        return None
    base = sqlite3.connect(path)
    check(base.execute("PRAGMA integrity_check").fetchone()[0] == "ok", f"{path.name} is whole")
    held = tuple((name, base.execute(f"SELECT count(*) FROM {name}").fetchone()[0])
                 for name, in sorted(base.execute("SELECT name FROM sqlite_master WHERE type = 'table'")))
    base.close()
    return held


def bytes_of(path):
    if path.is_dir():
        return tuple((each.name, hashlib.sha256(each.read_bytes()).hexdigest()) for each in sorted(path.iterdir()))
    return hashlib.sha256(path.read_bytes()).hexdigest() if path.exists() else None


def state(folder, outputs):
    """Looked at in a copy: opening a log changes what lies beside it."""
    with tempfile.TemporaryDirectory() as name:
        copy = pathlib.Path(name) / "copy"
        shutil.copytree(folder, copy)
        return tuple(rows(copy / each) if each.endswith(".db") else bytes_of(copy / each) for each in outputs)


def names(folder):
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*"))


Work = collections.namedtuple("Work", "words outputs typed", defaults=[""])
SCENE = str(SOURCE / "models/scenes/way-wide.yaml")
ARM = "powder + 3 %"
WORKS = {
    "run -o": Work(["run", SCENE, "--csv", "-o", "out.csv"], ["out.csv"]),
    "limits -o": Work(["limits", SCENE, "--members", "40", "--json", "-o", "out.json"], ["out.json"]),
    "limits --part": Work(["limits", SCENE, "--members", "40", "--part", "1/2", "-o", "one.part"], ["one.part"]),
    "plan --key": Work(["plan", SCENE, "--blind", "--key", "key.csv", "-o", "plan.txt"], ["key.csv", "plan.txt"]),
    "log new": Work(["log", "new", "new.db", SCENE, "--repeats", "1", "--operator", "op"], ["new.db"]),
    "log new, there": Work(["log", "new", "l.db", SCENE, "--repeats", "1", "--operator", "op"], ["l.db"]),
    "log add": Work(["log", "add", "one.db", "--swatch", "CODE", "--zone", "violet", "--judge", "j1", "--grade", "slight"],
                    ["one.db"]),
    "log note": Work(["log", "note", "one.db", "a dry day"], ["one.db"]),
    "log import": Work(["log", "import", "one.db", "new.csv"], ["one.db"]),
    "log merge": Work(["log", "merge", "one.db", "two.db"], ["one.db"]),
    "log forget": Work(["log", "forget", "one.db", "j1"], ["one.db"]),
    "log export -o": Work(["log", "export", "one.db", "-o", "out.csv"], ["out.csv", "one.db"]),
    "compare -o": Work(["compare", "one.db", "--json", "-o", "out.json"], ["out.json", "one.db"]),
    "compare --example": Work(["compare", "--example", "--csv", "-o", "out.csv"], ["out.csv"]),
    "teach": Work(["teach", "half-life", "--answers", "group-1.yaml"], ["group-1.yaml"], "\n1\n\n1\n1\nq\n"),
}
if PAPER:
    WORKS |= {
        "picture -o": Work(["picture", SCENE, "--at", "5min", "-o", "sheet.svg"], ["sheet.svg"]),
        "film": Work(["picture", SCENE, "--at", "0min,5min", "--size", "960x540", "-o", "film.webp"], ["film.webp"]),
        "frames": Work(["picture", SCENE, "--at", "0min,5min", "--size", "960x540", "--frames", "reel"], ["reel"]),
        "map -o": Work(["map", SCENE, "--arm", ARM, "-o", "map.pdf"], ["map.pdf"]),
        "pack": Work(["pack", SCENE, "--repeats", "1", "-o", "class"], ["class"]),
        "pack, new": Work(["pack", SCENE, "--repeats", "1", "-o", "fresh"], ["fresh"]),
    }


def environment_of(folder, shim):
    environment = dict(os.environ, SLOWLIFT_MODELS=str(SOURCE / "models"), LC_ALL="C.UTF-8", TMPDIR=str(folder))
    if shim:
        environment["LD_PRELOAD"] = SHIM
        environment |= {f"AT_CALL_{key}": str(value) for key, value in shim.items()}
    return environment


def program(words):
    """What draws is begun as itself: `slowlift` only waits for it, and what is met is met by the one that writes."""
    return {"args": list(words), "executable": DRAWS} if words[0] in ("picture", "pack", "map") else {
        "args": [SLOWLIFT, *words]}


def call(folder, words, typed="", **shim):
    return subprocess.run(**program(words), cwd=folder, env=environment_of(folder, shim), input=typed.encode(), stdout=subprocess.PIPE,
                          stderr=subprocess.PIPE)


def begin(folder):
    """Older outputs, all of them other than what will be written; logs with one test each."""
    folder.mkdir()
    for name in ("out.csv", "out.json", "one.part", "key.csv", "plan.txt", "sheet.svg", "film.webp", "map.pdf"):
        (folder / name).write_text(f"an older {name}\n")
    for name in ("one.db", "two.db", "l.db"):
        call(folder, ["log", "new", name, SCENE, "--repeats", "1", "--operator", "op"])
    base = sqlite3.connect(folder / "one.db")
    code = base.execute("SELECT code FROM swatch").fetchone()[0]
    base.close()
    made = call(folder, ["log", "add", "one.db", "--swatch", code, "--zone", "violet", "--judge", "j1", "--grade", "slight"])
    check(made.returncode == 0, f"a reading is added: {made.stderr.decode()}")
    call(folder, ["log", "export", "one.db", "-o", "new.csv"])
    text = (folder / "new.csv").read_text()
    (folder / "new.csv").write_text(re.sub(r"[0-9a-f]{4}," + code, "beef," + code, text))  # not there yet
    typed = call(folder, ["teach", "half-life", "--answers", "group-1.yaml"], "\nq\n")
    check(typed.returncode == 0, f"answers are begun: {typed.stderr.decode()}")
    if PAPER:
        for words in (["pack", SCENE, "--repeats", "1", "--paper", "letter", "-o", "class"],
                      ["picture", SCENE, "--at", "0min", "--size", "960x540", "--frames", "reel"]):
            check(call(folder, words).returncode == 0, f"{words}")
    return code


class Bench:
    """One command, its start, and what comes of it."""

    def __init__(self, base, name, start, code):
        self.base, self.name, self.start = base, name, start
        work = WORKS[name]
        self.words = [code if word == "CODE" else word for word in work.words]
        self.outputs, self.typed = work.outputs, work.typed
        self.work, self.mark, self.count = base / "work", base / "mark", base / "count"
        self.old, self.old_names = state(start, self.outputs), names(start)
        self.fresh()
        self.n = {}
        done = self.call()
        check(done.returncode == 0, f"{name}: does its work: {done.stderr.decode()}")
        self.new, self.new_names = state(self.work, self.outputs), names(self.work)
        check(self.new != self.old, f"{name}: writes something new")
        self.on_the_way = self.steps() if self.typed else set()
        again = self.call()
        check(again.returncode == 0, f"{name}: does its work twice: {again.stderr.decode()}")
        self.again, self.again_names = state(self.work, self.outputs), names(self.work)

    def steps(self):
        """Answers are kept one by one: what stands there after each."""
        lines, found = self.typed.splitlines(keepends=True), set()
        for n in range(len(lines)):
            self.fresh()
            call(self.work, self.words, "".join(lines[:n]))
            found.add(state(self.work, self.outputs))
        self.fresh()
        self.call()
        return found

    def fresh(self):
        shutil.rmtree(self.work, ignore_errors=True)
        shutil.copytree(self.start, self.work)
        self.mark.unlink(missing_ok=True)

    def call(self, **shim):
        return call(self.work, self.words, self.typed, **shim)

    def meet(self, kinds, n, does, **more):
        """The n-th call of these kinds; None when there are fewer."""
        self.fresh()
        done = self.call(ROOT=self.work, KINDS=kinds, N=n, DOES=does, MARK=self.mark, **more)
        return done if self.mark.exists() else None

    def is_whole(self):
        found = state(self.work, self.outputs)
        return found in self.on_the_way or all(now in (old, new) for now, old, new in zip(found, self.old, self.new))

    def left(self, expected):
        """What lies there or lacks against `expected`. SQLite cannot clear away its files on a disk that fails:
        what is acknowledged may stand in them until the next call."""
        return {name for name in set(names(self.work)) ^ set(expected) if not name.endswith((".db-wal", ".db-shm"))}

    def goes_on(self, what):
        """Called again where something was left."""
        again = self.call()
        check(again.returncode == 0, f"{what}: called again it ends with {again.returncode}: {again.stderr.decode()}")
        check(names(self.work) in (self.new_names, self.again_names),
              f"{what}: called again it leaves {set(names(self.work)) ^ set(self.again_names)}")
        check(self.typed or state(self.work, self.outputs) in (self.new, self.again),
              f"{what}: called again it does its work")

    def count_of(self, kinds):
        if kinds not in self.n:
            self.fresh()
            self.call(ROOT=self.work, KINDS=kinds, N=10 ** 9, DOES=0, MARK=self.mark, COUNT=self.count)
            self.n[kinds] = int(self.count.read_text())
        return self.n[kinds]

    def points(self, kinds, least):
        """Which n to try: all, or some of each kind that matters."""
        n = self.count_of(kinds)
        if WHOLE:
            return sorted({1 + i * (n - 1) // max(min(n, MOST) - 1, 1) for i in range(min(n, MOST))})
        return sorted({1, n // 2, n} - {0})[-least:]


def swaps(bench):
    """The calls by which a result takes its place and an older one goes: the last rename, then removals."""
    n, last = bench.count_of("u"), bench.count_of("r")
    return [("r", last)] * (last > 0) + [("u", at) for at in sorted({1, n} - {0})]


def killed(bench):
    for kinds, n in swaps(bench) + [(ALL_CALLS, n) for n in bench.points(ALL_CALLS, 1)]:
        what = f"{bench.name}, killed at call {n} of {kinds}"
        if bench.meet(kinds, n, -signal.SIGKILL) is None:
            continue
        table[bench.name]["kill"] += 1
        check(bench.is_whole(), f"{what}: something is lost or half written")
        bench.goes_on(what)


def stopped(bench):
    for number in (signal.SIGTERM, signal.SIGINT)[:None if WHOLE else 1]:
        for n in bench.points(ALL_CALLS, 1):
            what = f"{bench.name}, {number.name} at call {n}"
            done = bench.meet(ALL_CALLS, n, -number)
            if done is None:
                continue
            table[bench.name]["stop"] += 1
            check(done.returncode in (-number, 0, 4), f"{what}: ends with {done.returncode}")
            check(bench.is_whole(), f"{what}: something is lost or half written")
            check(names(bench.work) in (bench.old_names, bench.new_names) or done.returncode == 4,
                  f"{what}: leaves {set(names(bench.work)) ^ set(bench.old_names)}")
            if not WHOLE or n % 7 == 0:
                bench.goes_on(what)


# The words for it, of the C library and of the log.
SAID = {errno.ENOSPC: ["No space left", "disk is full"], errno.EIO: ["Input/output error", "disk is full or does not answer"],
        errno.EDQUOT: ["quota exceeded", "disk is full"]}


def failed(bench):
    for number, lasts in ((errno.ENOSPC, ""), (errno.EIO, "yes"), (errno.EDQUOT, "yes"))[:None if WHOLE else 1]:
        for n in bench.points(THAT_FAIL, 1):
            what = f"{bench.name}, {errno.errorcode[number]} at call {n}{' and on' if lasts else ''}"
            done = bench.meet(THAT_FAIL, n, number, LASTS=lasts)
            if done is None:
                continue
            table[bench.name]["fail"] += 1
            said = done.stderr.decode()
            if done.returncode == 0:
                check(state(bench.work, bench.outputs) == bench.new and bench.left(bench.new_names) == set(),
                      f"{what}: ends with 0 without its work; {bench.left(bench.new_names)}")
                continue
            expected = 1 if "cannot read" in said else 3  # a log that does not open to be read
            check(done.returncode == expected, f"{what}: ends with {done.returncode}: {said}")
            check(any(word in said for word in [*SAID[number], "could not be opened"]) and
                  any(file in said for file in [*bench.outputs, "example.db", "two.db"]), f"{what}: says {said!r}")
            check(bench.is_whole() if len(bench.outputs) > 1 or bench.typed else
                  state(bench.work, bench.outputs) == bench.old, f"{what}: something is lost")
            check(bench.left(bench.old_names) == set(), f"{what}: leaves {bench.left(bench.old_names)}")
            if lasts and (not WHOLE or n % 7 == 0):
                bench.goes_on(what)


def without_memory(bench):
    for lasts in ("", "yes")[:None if WHOLE else 1]:
        for n in bench.points("a", 2):
            what = f"{bench.name}, allocation {n} refused{' and on' if lasts else ''}"
            done = bench.meet("a", n, errno.ENOMEM, LASTS=lasts)
            if done is None:
                continue
            table[bench.name]["memory"] += 1
            said = done.stderr.decode()
            if done.returncode == 0:
                check(state(bench.work, bench.outputs) == bench.new, f"{what}: ends with 0 without its work")
                continue
            check(done.returncode == 3 and "memory" in said, f"{what}: ends with {done.returncode}: {said}")
            check(bench.is_whole(), f"{what}: something is lost")
            check(bench.left(bench.old_names) == set(), f"{what}: leaves {bench.left(bench.old_names)}")


def halted(bench, kinds, n):
    """The command, stopped before its n-th call of these kinds."""
    bench.fresh()
    shim = {"ROOT": bench.work, "KINDS": kinds, "N": n, "DOES": -signal.SIGSTOP, "MARK": bench.mark}
    one = subprocess.Popen(**program(bench.words), cwd=bench.work, env=environment_of(bench.work, shim),
                           stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE)
    _, status = os.waitpid(one.pid, os.WUNTRACED)
    check(os.WIFSTOPPED(status), f"{bench.name}: stands still before its file takes its place")
    return one


def goes_on_after(bench, one):
    os.kill(one.pid, signal.SIGCONT)
    said = one.communicate()[1].decode()
    check(one.returncode == 0 and state(bench.work, bench.outputs) == bench.new,
          f"{bench.name}: goes on beside another: {one.returncode} {said}")
    check(not [name for name in names(bench.work) if ".slowlift-new" in name], f"{bench.name}: two leave nothing")


def beside(bench):
    """The last rename of a command puts its result in place."""
    one = halted(bench, "r", bench.count_of("r"))
    waiting = [name for name in names(bench.work) if ".slowlift-new" in name]
    check(waiting, f"{bench.name}: something waits")
    other = call(bench.work, ["run", SCENE, "--csv", "-o", "other.csv"])
    check(other.returncode == 0 and set(waiting) <= set(names(bench.work)),
          f"{bench.name}: what a living one writes was cleared away: {other.stderr.decode()}")
    if bench.name == "pack":
        again = bench.call()
        check(again.returncode == 3, f"two packs into one folder: the second ends with {again.returncode}")
    goes_on_after(bench, one)
    table[bench.name]["beside"] += 1


def main():
    with tempfile.TemporaryDirectory() as name:
        base = pathlib.Path(name)
        probe = call(base, ["cautions"], ROOT=base, KINDS="w", N=10 ** 9, DOES=0, MARK=base / "mark")
        if probe.returncode == 77:
            print("seccomp filters are not allowed here")
            return 77
        code = begin(base / "start")
        for each in WORKS if WHOLE or ONLY else [each for each in SMOKE if each in WORKS]:
            if not ONLY or each in ONLY:
                bench = Bench(base, each, base / "start", code)
                for mode, trial in (("kill", killed), ("stop", stopped), ("fail", failed), ("memory", without_memory),
                                    ("beside", beside)):
                    if mode in MODES and (mode != "beside" or each in ("run -o", "pack", "log new")):
                        trial(bench)
                        check(table[each][mode] > 0, f"{each}: nothing was tried of {mode}")
                print(f"| `{each}` | " + " | ".join(str(table[each][mode]) for mode in MODES) + " |", flush=True)
    print("| all | " + " | ".join(str(sum(row[mode] for row in table.values())) for mode in MODES) + " |")
    print(f"{failures} sentences are false")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
