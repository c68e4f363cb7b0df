# SPDX-License-Identifier: GPL-3.0-or-later
"""A whole day of the test in the window, driven by keys with a clock that runs 60 times as fast;
killed in the middle and gone on with; then the log is read by Python's own sqlite3. Used by run.py.

What the window shows is read from its trace (SLOWLIFT_TRACE_FRAMES=2).
"""
import os
import re
import signal
import sqlite3
import subprocess
import tempfile

from picture import TOLERANCE, Picture, table_colours, zone_mean
from window import Window, patience

SPEED = 60
BENCH, SOUND, STOPPED, BOWLS = 0, 1, 2, 3  # sl_day_page
WAITING, ON_HAIR, RINSED = 0, 1, 2  # sl_stage
START, LEFTOVER, CLEAN = 23, 31, 32  # sl_day_act
KEYS = {1: "m", 2: "a", 3: "w", 4: "f", 5: "r", 6: "e"}  # sl_event_kind
LINE = re.compile(r"day page (\d+) chosen (\S+) stage (\d+) started (\d) late (\d+) waiting (\d+) events (\d+) "
                  r"due (\d+)(?: next (\d+) (\S+) (-?[\d.]+))?")


class Day(Window):
    def now(self):
        for line in reversed(self.lines()):
            found = LINE.match(line)
            if found:
                page, chosen, stage, started, late, waiting, events, due, kind, code, in_s = found.groups()
                return {"page": int(page), "chosen": chosen, "stage": int(stage), "started": int(started),
                        "late": int(late), "waiting": int(waiting), "events": int(events), "due": int(due),
                        "kind": int(kind or 0), "code": code, "in": float(in_s or 1e9)}
        return {"page": -1, "chosen": "", "events": -1, "due": -1, "waiting": -1, "late": -1, "stage": -1}

    def until(self, good):
        """Its state once it is so; the last one where it never is."""
        try:
            patience.until(lambda: good(self.now()) or self.gone(), "the day comes so far")
        except patience.Impatient as never:
            print(never)
        return self.now()

    def wait(self, good):
        """Until it is so; nothing is worth trying after it never was."""
        patience.until(lambda: good(self.now()) or self.gone(), "the day comes so far")
        assert not self.gone(), "the window is gone"

    def press(self, *names):
        for name in names:
            self.type(name)

    def kill(self):
        self.program.send_signal(signal.SIGKILL)
        self.program.wait()


def rehearsal(build, log):
    """A copy whose clock runs fast."""
    subprocess.run([os.path.join(build, "slowlift"), "day", log, f"--rehearse={SPEED}"], check=True,
                   stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
    return log.removesuffix(".db") + ".rehearsal.db"


def opened(display, build, log, *more):
    return Day(display, build, "--day", log, *more)


def rows(log, words, *values):
    base = sqlite3.connect(log)
    try:
        return base.execute(words, values).fetchall()
    finally:
        base.close()


def do_next(day, state):
    """Enter goes to the swatch of what is next, then its key, again while the guard against a key that
    bounces refuses it."""
    day.press("Return")
    if day.now()["chosen"] == state["code"]:
        day.press(KEYS[state["kind"]])


def play(day, stop_when):
    """Do what is due until it is so; False where that never comes."""
    def step():
        state = day.now()
        if stop_when(state) or day.gone():
            return True
        if state["due"] > 0 and state["in"] <= 1.0:
            do_next(day, state)
        return False
    try:
        return patience.until(step, "the day goes on", limit=patience.TEST_S, turn=0.02) and not day.gone()
    except patience.Impatient:
        return False


def applied(log):
    return rows(log, "SELECT count(*) FROM event WHERE kind = 'applied'")[0][0]


def strip_beside(day):
    return next(place for key, place in day.places().items() if key[0] == "strip")


def first_minute(day, build, log, scene, check):
    """What the model says is covered until the grade at the end is in the log, by whoever kept it: then the strip of a swatch on which
    nothing is put has the colours of the table's first minute."""
    code = rows(log, "SELECT code FROM swatch WHERE arm = 'untreated'")[0][0]
    first = day.now()["chosen"]
    while day.now()["chosen"] != code:
        day.press("Down")
    check(strip_beside(day)[2] == 0, "the model is covered while no grade is in the log")
    done = patience.run([os.path.join(build, "slowlift"), "log", "add", log, "--swatch", code, "--zone", "red", "--judge", "j1",
                         "--grade", "no change"], capture_output=True, text=True)
    check(done.returncode == 0, f"a grade is kept ({done.stderr})")
    patience.until(lambda: day.settle() or day.press("p") or strip_beside(day)[2] > 0 or day.gone(), "the grade is seen")
    check(rows(log, "SELECT count(*) FROM event WHERE note = 'done: model shown'")[0][0] == 1, "that it was shown is kept")
    srgb, arms, zones = table_colours(build, scene, 0)
    places = day.places()
    number, area = next((key[1], place) for key, place in places.items() if key[0] == "strip")
    picture = Picture(day.pixels())
    worst = max(abs(int(srgb[arms[number], name][1 + 2 * i:3 + 2 * i], 16) - seen)
                for zone, name in enumerate(zones)
                for i, seen in enumerate(zone_mean(picture, area, zone, len(zones))))
    check(worst <= TOLERANCE, f"the strip beside the clock has the table's colours ({worst:.1f} of 255 off)")
    while day.now()["chosen"] != first:
        day.press("Up")
    check(strip_beside(day)[2] == 0, "and that of another is covered")


def large_enough(day, check):
    spots = {key[1]: place for key, place in day.places().items() if key[0] == "spot"}
    buttons = [spots[act * 1000] for act in [*range(9), START]]
    stops = [spots[10000], spots[11000]]
    check(all(w >= 64 and h >= 64 for _, _, w, h in buttons), "every button is at least 64 pixels wide and high")
    check(all(w >= 76 and h >= 76 for _, _, w, h in stops), "each STOP AND RINSE is at least 20 mm at 96 dpi")


def the_log(log, known, check):
    check(rows(log, "PRAGMA integrity_check") == [("ok",)], "sqlite3 finds the log whole")
    kinds = dict(rows(log, "SELECT kind, count(*) FROM event GROUP BY kind"))
    total = sum(kinds.values())
    check(total == known, f"every event that the window knew is in the log, none twice ({total} of {known})")
    treated = rows(log, "SELECT id, dwell_s FROM swatch WHERE contact_s IS NOT NULL")
    check(kinds.get("applied") == len(treated), f"each of {len(treated)} swatches was put on once, though its key bounced")
    worst = 0.0
    stopped = [id_ for (id_,) in rows(log, "SELECT swatch FROM event WHERE kind = 'stop and rinse' AND about IS NULL")]
    for id_, dwell in treated:
        ends = rows(log, "SELECT wall_ns FROM event WHERE swatch = ? AND kind = 'rinsed'", id_)
        starts = rows(log, "SELECT wall_ns FROM event WHERE swatch = ? AND kind = 'applied'", id_)
        if id_ in stopped:
            check(not ends, "the swatch that was stopped was not rinsed a second time")
        else:
            check(len(ends) == 1, "a swatch was rinsed once")
            worst = max(worst, dwell - (ends[0][0] - starts[0][0]) / 1e9)
    # How late a key comes is this machine's matter, at 60 times its speed; that none came early is not.
    check(worst <= 5.0, f"no swatch lay shorter than planned (at most {worst:.0f} s of the fast clock)")
    check(kinds.get("looked at skin, heat and stretch", 0) >= 3 * len(treated), "skin, heat and stretch were looked at")
    check([r for (r,) in rows(log, "SELECT reason FROM event WHERE kind = 'stop and rinse' ORDER BY kept")]
          == ["not said yet", "eyes"], "the stop is in the log, and its reason after it")
    stop, off = (rows(log, "SELECT wall_ns FROM event WHERE kind = ? ORDER BY kept", kind)[0][0]
                 for kind in ("stop and rinse", "washed out"))
    check(off - stop >= 900e9, f"water ran for 15 minutes ({(off - stop) / 60e9:.1f})")
    check(kinds.get("undone") == 1, "what was undone stays in the log as undone")
    starts = rows(log, "SELECT count(*) FROM event WHERE kind = 'note' AND remark IS NULL AND deed IS NULL AND note IS NULL AND speed = ?", SPEED)
    check(starts[0][0] == 3, "each start says, by a number, that this was a rehearsal")
    check(rows(log, "SELECT DISTINCT speed FROM event") == [(SPEED,)], "and so does each event")
    late = rows(log, "SELECT count(*) FROM event WHERE late_s > 5 OR late_s < -5")
    check(late[0][0] > 0, "late and early are in the log, as numbers")
    told = [r for (r,) in rows(log, "SELECT remark FROM event WHERE about = (SELECT id FROM event WHERE reason = 'not said yet'"
                                    " AND about IS NULL) AND kind = 'note' ORDER BY kept")]
    check(told == ["contents told", "a doctor was told"], f"what was in the bowl was told, also blind, and to whom ({told})")
    check(rows(log, "SELECT count(*) FROM event WHERE note IS NOT NULL AND note != 'done: model shown'")[0][0] == 0, "no words of the program are in the log")


def whole_day(display, build, scene, log, check):
    day = opened(display, build, log)
    check(day.until(lambda s: s["page"] == SOUND)["page"] == SOUND, "the day begins with a test of the sound")
    day.press("y")
    check(day.until(lambda s: s["page"] == BENCH)["page"] == BENCH, "Y logs that it was heard")
    large_enough(day, check)
    first_minute(day, build, log, scene, check)
    check(day.now()["started"] == 0, "and begins no day")
    day.press("g")
    check(day.until(lambda s: s["started"] == 1)["started"] == 1, "G begins the day")
    day.xdotool("key", "--delay", "1", "a", "a", "a")  # a key that bounces
    day.settle()
    day.wait(lambda s: s["waiting"] == 0)
    check(applied(log) == 1, "a key that bounces is taken once, also for the next swatch")

    check(play(day, lambda s: applied(log) >= 4), "four swatches are on")
    day.press("n", "3")
    many = day.until(lambda s: s["waiting"] == 0)["events"]
    day.press("u")
    before = day.until(lambda s: s["waiting"] == 0 and s["events"] > many)
    day.kill()
    check(rows(log, "SELECT count(*) FROM event")[0][0] == before["events"], "kill -9 loses nothing that was shown")

    day = opened(display, build, log)
    after = day.until(lambda s: s["page"] == BENCH and s["events"] > before["events"])
    check(after["page"] == BENCH and after["events"] == before["events"] + 1 and after["started"] == 1,
          f"started again, it goes on where the log is ({before['events']} events, {after})")
    check(play(day, lambda s: s["due"] > 0 and s["kind"] == 5 and applied(log) >= 7), "the first rinse is due")
    on_hair = day.now()
    day.press("b")  # covered: somebody judges blind
    day.press("Return", "x")
    page = day.until(lambda s: s["page"] == STOPPED)
    check(page["page"] == STOPPED and page["events"] > on_hair["events"], "X stops the chosen swatch and asks nothing first")
    day.press("1")
    check(day.until(lambda s: s["page"] == BOWLS)["page"] == BOWLS, "for an eye the window says what was in the bowl")
    day.press("2")
    day.press("Escape")
    check(day.until(lambda s: s["page"] == STOPPED)["page"] == STOPPED, "Esc leads back to the water")
    day.press("Return")
    check(day.now()["page"] == STOPPED, "with something in an eye the water is not turned off early by one key")
    day.press("Escape")
    waits = day.until(lambda s: s["page"] == BENCH and s["in"] < -10.0)
    check(waits["in"] < -10.0 and waits["late"] == 0, f"while water runs on an eye nothing else calls ({waits})")
    check(play(day, lambda s: s["due"] == 0), "every swatch is done")
    day.press("o")
    stop = rows(log, "SELECT min(boot_ns) FROM event WHERE kind = 'stop and rinse'")[0][0]
    patience.until(lambda: patience.clocks_ns()[1] * SPEED - stop > 16 * 60e9, "16 minutes of the fast clock pass")
    day.press("Return")
    known = day.until(lambda s: s["page"] == BENCH and s["waiting"] == 0)["events"]
    check(day.leave() == 0, "Ctrl and Q leave with exit code 0 once no mix is on hair")
    the_log(log, known, check)


def one_speed(build, log, check):
    """A rehearsed test goes on as a rehearsal."""
    said = patience.run([os.path.join(build, "slowlift"), "day", log], stdin=subprocess.DEVNULL, capture_output=True,
                        text=True, env=dict(os.environ, SLOWLIFT_LANGUAGE="en")).stdout
    check(said and all(line.startswith("REHEARSAL | ") for line in said.splitlines()),
          f"a rehearsed test is one on the terminal too ({said[:120]})")


def busy_log(display, build, log, check):
    """Another program holds the log: the stop is shown at once, and written later."""
    day = opened(display, build, log)
    day.press("n", "g", "a")
    day.wait(lambda s: s["waiting"] == 0)
    count = rows(log, "SELECT count(*) FROM event")[0][0]
    other = sqlite3.connect(log, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    day.press("s")
    state = day.until(lambda s: s["page"] == STOPPED)
    check(state["page"] == STOPPED and state["waiting"] >= 1, "a log that is held up does not hold up STOP AND RINSE")
    other.execute("ROLLBACK")
    other.close()
    check(day.until(lambda s: s["waiting"] == 0)["waiting"] == 0, "and the stop is written when the log is free")
    check(rows(log, "SELECT count(*) FROM event")[0][0] == count + 1, "once")
    day.kill()


def from_elsewhere(display, build, log, check):
    """A second program at the same test: what it keeps is on the window's bench within seconds."""
    day = opened(display, build, log)
    day.press("y", "g")
    before = day.until(lambda s: s["started"] == 1 and s["waiting"] == 0)
    env = dict(os.environ, SLOWLIFT_LANGUAGE="en")

    def other(*lines):
        return patience.run([os.path.join(build, "slowlift"), "day", log], input="".join(line + "\n" for line in lines),
                            env=env, capture_output=True, text=True).stdout
    chosen = day.now()["chosen"]
    said = other(f"a {chosen}", "q", "q")
    after = day.until(lambda s: s["stage"] == ON_HAIR)
    check("mix put on" in said and after["stage"] == ON_HAIR and after["events"] > before["events"],
          f"a mix that was put on elsewhere lies on the window's bench too ({after})")
    other("s", "q", "q")
    stopped = day.until(lambda s: s["page"] == STOPPED)
    check(stopped["page"] == STOPPED and stopped["chosen"] == chosen, "a stop elsewhere is a stop in the window")
    count = rows(log, "SELECT count(*) FROM event")[0][0]
    check(day.until(lambda s: s["events"] == count)["events"] == count, f"each event stands once ({count}, {day.now()})")
    day.kill()


def alarm_seen(display, build, log, check):
    """No device for sound: said, and the alarm flashes below three times a second."""
    display.env["SDL_AUDIODRIVER"] = "none-such"
    try:
        day = opened(display, build, log, "--size", "900x600", "--text", "150")
    finally:
        del display.env["SDL_AUDIODRIVER"]
    day.press("Escape", "n", "g")
    day.wait(lambda s: s["late"] > 0)
    (x, y, w, _) = day.places()["alarm", 0]


    def ground():
        return Picture(day.pixels()).area((x + w // 8, y + 8, 2, 2))
    (_, began), turns = patience.clocks_ns(), 8
    for _ in range(turns):
        patience.until(lambda was=ground(): ground() != was, "the alarm flashes")
    took = (patience.clocks_ns()[1] - began) / 1e9
    # WCAG 2.2, 2.3.1: at most three flashes, six turns, in any second. A slow machine sees them later, never closer.
    check(turns / took <= 6.0, f"the alarm flashes, below three times a second ({turns} turns in {took:.1f} s)")
    day.kill()


def pieces_done(log):
    """Per swatch, and not undone."""
    return dict(rows(log, "SELECT swatch, count(*) FROM event e WHERE kind = 'wiped and looked' AND NOT EXISTS"
                          " (SELECT 1 FROM event u WHERE u.about = e.id AND u.kind = 'undone') GROUP BY swatch"))


def press_button(day, act):
    """With the pointer; buttons of acts that cannot come at once share a place."""
    x, y, w, h = day.places()["spot", act * 1000]
    day.drag([(x + w // 2, y + h // 2)])


def deeds(log):
    return [deed for (deed,) in rows(log, "SELECT deed FROM event WHERE deed IS NOT NULL ORDER BY kept")]


def buttons(display, build, log, check):
    """Who keeps to the pointer begins the day, leaves a leftover open, and says that hair is clean."""
    day = opened(display, build, log)
    day.press("y")
    day.wait(lambda s: s["page"] == BENCH)
    press_button(day, START)
    check(day.until(lambda s: s["started"] == 1)["started"] == 1, "a button begins the day")
    first = day.now()["chosen"]  # it lies under water alone, of which nothing is left
    second = rows(log, "SELECT code FROM swatch ORDER BY block, place")[1][0]

    def press(key, count, words, code):
        """Of this swatch, above which only the first stands; a key that bounces is taken once, so again."""
        def step():
            there = day.now()["chosen"] == code
            if count() < words:
                day.press(key if there else "Down" if day.now()["chosen"] == first else "Up")
                day.settle()
            return count() >= words
        patience.until(step, f"{key} {code}")

    def undone():
        return rows(log, "SELECT count(*) FROM event WHERE kind = 'undone'")[0][0]

    def choose():
        patience.until(lambda: day.now()["chosen"] == second
                       or day.press("Down" if day.now()["chosen"] == first else "Up") or day.settle(), second)
    press("a", lambda: applied(log), 1, first)
    press("a", lambda: applied(log), 2, second)
    choose()
    press_button(day, LEFTOVER)
    patience.until(lambda: deeds(log), "the leftover is in the log")
    check(deeds(log) == ["leftover left open"], f"and its leftover is left open by one ({deeds(log)})")
    press("u", undone, 2, second)  # what was left open, and then the contact
    choose()
    press_button(day, CLEAN)
    patience.until(lambda: "hair clean" in deeds(log), "the clean hair is in the log")
    check(deeds(log)[-1] == "hair clean", f"a contact that was undone ends by one ({deeds(log)})")
    day.kill()


def time_ladder(display, build, log, check):
    """Pieces at 3 and 6 min are due like looks, marked by the same key, and due again once undone."""
    subprocess.run([os.path.join(build, "slowlift"), "log", "new", log, "way-short", "--repeats", "1", "--operator", "o",
                    "--ladder", "3min,6min,9min"], check=True, stdout=subprocess.DEVNULL)
    log = rehearsal(build, log)
    day = opened(display, build, log)
    day.press("y", "g")
    check(play(day, lambda s: s["kind"] == 3 and s["in"] <= 1.0), "a piece is due")
    due = day.now()["code"]
    day.press("Return", "w")
    day.wait(lambda s: (s["kind"], s["code"]) != (3, due) or s["in"] > 60.0)
    check(sum(pieces_done(log).values()) == 1, "one key says that the piece was cut off and rinsed")
    day.press("u")
    again = day.until(lambda s: (s["kind"], s["code"]) == (3, due))
    check((again["kind"], again["code"]) == (3, due) and not pieces_done(log), "undone, the piece is due again")
    check(play(day, lambda s: s["due"] == 0), "the ladder ends")
    check(set(pieces_done(log).values()) == {2}, "each swatch gave two pieces; the rest was rinsed")
    day.kill()


def day_of_the_test(display, build, scene, check):
    with tempfile.TemporaryDirectory() as folder:
        real = os.path.join(folder, "day.db")
        log = os.path.join(folder, "day.rehearsal.db")

        def clear():
            for name in os.listdir(folder):
                os.remove(os.path.join(folder, name))

        def fresh():
            clear()
            subprocess.run([os.path.join(build, "log_maker"), real, "1"], check=True, stdout=subprocess.DEVNULL)
            rehearsal(build, real)
        fresh()
        whole_day(display, build, scene, log, check)
        one_speed(build, log, check)
        fresh()
        busy_log(display, build, log, check)
        fresh()
        from_elsewhere(display, build, log, check)
        fresh()
        buttons(display, build, log, check)
        fresh()
        alarm_seen(display, build, log, check)
        clear()
        time_ladder(display, build, real, check)
