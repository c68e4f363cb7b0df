#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A whole day of a test on a terminal, driven by keys, sixty times as fast; killed in the middle, one stop
for eyes; then its log is read by Python's own sqlite3.

usage: day_terminal.py PROGRAM MODELS [REPEATS]
"""
import os
import pty
import re
import select
import signal
import sqlite3
import subprocess
import sys
import tempfile

sys.path.append(os.path.join(os.path.dirname(os.path.abspath(__file__)), "../tools"))
import patience  # noqa: E402

SPEED = 60
MARK = "REHEARSAL | "
KEY = {"put the mix on": "a", "wipe and look": "w", "feel skin, heat and stretch": "f", "rinse": "r"}
DONE = {"a": "mix put on", "w": "wiped and looked", "f": "skin, heat and stretch felt", "r": "rinsed, first water"}
WORD = {"a": "applied", "w": "wiped and looked", "f": "looked at skin, heat and stretch", "r": "rinsed"}
ALARM = re.compile(r"ALARM ([A-Z]{2}\d)(?:\s\([^:]*\))?:\s"  # the mix stands beside the code where it is put on
                   r"(put\s+the\s+mix\s+on|wipe\s+and\s+look|feel\s+skin,\s+heat\s+and\s+stretch|rinse)")
EVENTS = "SELECT swatch.code, event.kind FROM event LEFT JOIN swatch ON swatch.id = event.swatch ORDER BY kept"


def rows(log, asked):
    with sqlite3.connect(f"file:{log}?mode=ro", uri=True) as connection:
        return connection.execute(asked).fetchall()


def rehearsal(program, log, speed, environment):
    """A copy of the log whose clock runs so many times as fast, as slowlift day opens it from then on."""
    subprocess.run([program, "day", log, f"--rehearse={speed}"], check=True, env=environment, stdin=subprocess.DEVNULL,
                   stdout=subprocess.DEVNULL)
    return log.removesuffix(".db") + ".rehearsal.db"


class Terminal:
    """The program on a pseudo-terminal of its own."""

    def __init__(self, words, environment):
        self.child, self.end = pty.fork()
        if self.child == 0:
            os.execvpe(words[0], words, environment)
        self.text = ""
        self.raw = ""  # with the mark of a rehearsal before each line
        self.taken = 0  # of raw, into text
        self.at = 0  # where the last answer begins
        self.answered = 0  # alarms before it were answered

    def read(self, turn):
        """What it says within a turn. False: the program has gone."""
        if not select.select([self.end], [], [], turn)[0]:
            return True
        try:
            got = os.read(self.end, 65536)
        except OSError:
            return False
        plain = re.sub(rb"\x1b\[[0-9;]*[A-Za-z]", b"", got).decode("utf-8", "replace")
        self.raw += plain.replace("\r", "")
        # a mark that came half is waited for
        half = next((n for n in range(len(MARK) - 1, 0, -1) if self.raw.endswith(MARK[:n])), 0)
        self.text += self.raw[self.taken : len(self.raw) - half].replace(MARK, "")
        self.taken = len(self.raw) - half
        return bool(got)

    def wait_for(self, words):
        patience.until(lambda: words in " ".join(self.text[self.at :].split()),
                       lambda: f"said: {words}\n...{self.text[-1500:]}", turn=0.05, pause=self.read)

    def type(self, keys):
        self.at = len(self.text)
        os.write(self.end, keys.encode())

    def press(self, keys, words):
        """Keys, again while the guard against a key that bounces refuses them, until it says so."""
        def answer():
            said = " ".join(self.text[self.at :].split())
            return words if words in said else "refused" if "taken once" in said else None
        found = "refused"
        while found == "refused":
            self.type(keys)
            found = patience.until(answer, lambda: f"said: {words}\n...{self.text[-1500:]}", turn=0.05, pause=self.read)

    def act(self, code, key):
        """And where in its text the program said so."""
        self.press(f"c{code}\r{key}", f"{code}: {DONE[key]}")
        words = rf"{code}:\s+" + r"\s+".join(map(re.escape, DONE[key].split()))
        return re.compile(words).search(self.text, self.at).end()

    def kill(self):
        os.kill(self.child, signal.SIGKILL)
        os.waitpid(self.child, 0)
        os.close(self.end)

    def leave(self):
        """Asked twice while mix is on the hair or something is not written."""
        def left():
            return "The clock goes on" in " ".join(self.text[self.at :].split())
        self.type("q")
        patience.until(lambda: left() or "again leaves" in self.text[self.at :], "an answer", turn=0.05, pause=self.read)
        if not left():
            self.type("q")
        self.wait_for("The clock goes on")
        patience.until(lambda: not self.read(0.05), "the program leaves")
        return os.waitstatus_to_exitcode(os.waitpid(self.child, 0)[1])


def answer_alarms(terminal, said, until, left_on=None):
    """Press what each alarm asks for, until `until` says so; said: what the program acknowledged. left_on: a
    swatch that nobody rinses. On a busy machine two things of one swatch may fall due within a turn: once it is
    rinsed, the other is none of its any more, and after the program said that it is, it may not call for it."""
    rinsed = {}  # where the program said so
    def step():
        terminal.read(0.05)
        while alarm := ALARM.search(terminal.text, terminal.answered):
            what = " ".join(alarm[2].split())
            if (alarm[1], what) == (left_on, "rinse"):
                terminal.answered = alarm.end()
                continue
            terminal.answered = alarm.end()
            if alarm[1] in rinsed:
                assert alarm.start() < rinsed[alarm[1]], f"called after it was rinsed: {alarm[0]}\n{terminal.text[-1500:]}"
                continue
            at = terminal.act(alarm[1], KEY[what])
            said.append((alarm[1], WORD[KEY[what]]))
            if KEY[what] == "r":
                rinsed[alarm[1]] = at
        return until()
    patience.until(step, lambda: f"the day ends\n{terminal.text[-1500:]}", limit=patience.TEST_S)


def begin(day, log, environment, said):
    """Sound test, the first swatch; keys that bounce are taken once."""
    terminal = Terminal(day, environment)
    terminal.wait_for("REHEARSAL: THIS CLOCK RUNS 60 TIMES AS FAST")
    terminal.wait_for("Was the sound heard? y or n")
    assert "\a" in terminal.text, "the bell did not ring"
    lines = terminal.raw.replace("\a", "").split("\n")[:-1]
    assert lines and all(line.startswith(MARK) for line in lines), f"a line that could be of a day for real: {lines}"
    terminal.type("y")
    terminal.wait_for("Sound heard")
    assert rows(log, "SELECT count(*) FROM event WHERE kind = 'started'") == [(0,)], "the answer began the day"
    terminal.type("g")
    terminal.wait_for("the day has begun")
    first = patience.until(lambda: ALARM.search(terminal.text), "an alarm", turn=0.05, pause=terminal.read)
    terminal.act(first[1], "a")
    terminal.type(f"c{first[1]}\ra")
    terminal.wait_for("Not taken")
    terminal.type(f"c{first[1]}\rfc{first[1]}\rf")
    terminal.wait_for("The same key twice within a second: taken once")
    said += [(first[1], "applied"), (first[1], WORD["f"])]
    terminal.answered = first.end()
    return terminal


def take_up(day, environment):
    terminal = Terminal(day, environment)
    terminal.wait_for("goes on from its log")
    terminal.wait_for("on the hair")
    terminal.type("v")  # it was tried on this day, and is asked again by a key alone
    terminal.wait_for("Was the sound heard?")
    terminal.type("n")
    terminal.wait_for("alarms are seen only")
    return terminal


def stop_for_eyes(terminal, log, code):
    """Of one swatch: kept before anything is asked."""
    terminal.type(f"c{code}\rx")
    terminal.wait_for("Lukewarm water, now")
    assert (code, "stop and rinse") in rows(log, EVENTS), "the stop was not kept before its reason was asked"
    terminal.type("1")
    terminal.wait_for("in an eye")
    terminal.wait_for("15 minutes and call for medical help")
    terminal.type("o")
    terminal.wait_for("An eye needs 15 minutes of water")


def end_day(terminal):
    """The whole rinse was timed, and its end was told; a note, undone; left in order."""
    terminal.at = 0
    terminal.wait_for("the eyes have had 15 minutes of water")
    terminal.type("o")
    terminal.wait_for("water off")
    terminal.type("tall went well\r")
    terminal.wait_for("note: all went well")
    terminal.type("u")
    terminal.wait_for(": note.")
    assert terminal.leave() == 0


def check_log(log, treated, stopped, said):
    """What the log holds, read by another program."""
    assert rows(log, "PRAGMA integrity_check") == [("ok",)]
    kept = rows(log, EVENTS)
    for code in treated:
        assert kept.count((code, "applied")) == 1, f"{code}: applied {kept.count((code, 'applied'))} times"
        ends = kept.count((code, "rinsed")), kept.count((code, "stop and rinse"))
        assert ends == ((0, 2) if code == stopped else (1, 0)), f"{code}: {ends}"
    for event in set(said):
        assert kept.count(event) == said.count(event), f"{event}: said {said.count(event)} times"
    reasons = rows(log, "SELECT reason, about FROM event WHERE kind = 'stop and rinse' ORDER BY kept")
    assert [reason for reason, _ in reasons] == ["not said yet", "eyes"] and reasons[1][1], reasons
    off = rows(log, "SELECT max(wall_ns) FROM event WHERE kind = 'washed out'")[0][0]
    stop = rows(log, "SELECT min(wall_ns) FROM event WHERE kind = 'stop and rinse'")[0][0]
    assert off - stop >= 900e9, "the eyes had less than 15 minutes"
    assert [kind for _, kind in kept].count("started") == 1
    assert rows(log, "SELECT DISTINCT speed FROM event") == [(float(SPEED),)], "each event says how fast its clock ran"
    late = rows(log, "SELECT late_s FROM event WHERE kind IN ('applied', 'rinsed')")
    assert all(isinstance(seconds, int) for seconds, in late), "how late is a number"
    assert rows(log, "SELECT note FROM event WHERE note IS NOT NULL") == [("all went well",)], "and no words are kept"
    # How late a key comes is this machine's matter, at 60 times its speed; that none came early is not.
    times = {(code, kind): at for code, kind, at in rows(
        log, "SELECT code, kind, event.boot_ns FROM event JOIN swatch ON swatch.id = swatch")}
    for code in set(treated) - {stopped}:
        dwell = (times[code, "rinsed"] - times[code, "applied"]) / 1e9
        assert dwell - treated[code] >= -5, f"{code} lay {dwell} s, planned {treated[code]}"
    return len(kept)


def main():
    program, models = sys.argv[1:3]
    repeats = sys.argv[3] if len(sys.argv) > 3 else "1"
    said = []
    with tempfile.TemporaryDirectory() as folder:
        log = os.path.join(folder, "day.db")
        environment = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en")
        scene = os.path.join(models, "scenes", "eight-arms.yaml")
        subprocess.run([program, "log", "new", log, scene, "--operator", "op-1", "--repeats", repeats], check=True,
                       env=environment, stdout=subprocess.DEVNULL)
        log = rehearsal(program, log, SPEED, environment)
        day = [program, "day", log]
        planned = rows(log, "SELECT code, contact_s, dwell_s FROM swatch WHERE contact_s >= 0")
        treated = {code: dwell for code, _, dwell in planned}
        assert len(treated) == 7 * int(repeats)

        terminal = begin(day, log, environment, said)
        answer_alarms(terminal, said, lambda: [kind for _, kind in said].count(WORD["f"]) >= 6)
        terminal.kill()
        kept = rows(log, EVENTS)
        for event in set(said):
            assert kept.count(event) == said.count(event), f"{event}: said, and not in the log as often"

        terminal = take_up(day, environment)
        stopped = [code for code, kind in said if kind == "applied"][-1]  # nobody has rinsed it, however slow all is
        others = set(treated) - {stopped}
        answer_alarms(terminal, said, lambda: others <= {code for code, kind in said if kind == "rinsed"}, stopped)
        stop_for_eyes(terminal, log, stopped)  # last: while its water runs nothing else calls
        end_day(terminal)

        n = check_log(log, treated, stopped, said)
        told = subprocess.run(day + ["--summary"], check=True, env=environment, capture_output=True, text=True).stdout
        assert f"{stopped}: stopped and rinsed after" in told and "The bell was not heard that day" in told, told
        print(f"{n} events of {len(treated)} treated swatches, {len(said)} of them answers to alarms")


if __name__ == "__main__":
    main()
