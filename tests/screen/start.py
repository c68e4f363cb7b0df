# SPDX-License-Identifier: GPL-3.0-or-later
"""The whole job by the pointer alone, from the start page: a new test, its answer, plan and day, what was seen, report, lessons,
papers; and nothing is put over a file. Used by run.py."""
import os
import pathlib
import sqlite3
import subprocess
import tempfile

from window import Window, patience

HOME, TESTS, TEST, LESSONS, READ = range(5)  # sl_start_view
STARTED = 23  # sl_day_act, as in day.py
TARGET = 44


class Job(Window):
    def view(self):
        return next((number for kind, number in self.places() if kind == "start-view"), -1)

    def at(self, what, number=0):
        return self.places().get((what, number), (0, 0, 0, 0))

    def tap(self, what, number=0):
        x, y, w, h = self.at(what, number)
        assert w > 0, (what, number, sorted(self.places()))
        self.drag([(x + w // 2, y + h // 2)])

    def there(self, good, what):
        patience.until(lambda: good() or self.gone(), what)
        assert not self.gone(), what


def job(display, build, check, language):
    with tempfile.TemporaryDirectory() as folder:
        tests, home = pathlib.Path(folder) / "tests", pathlib.Path(folder) / "home"
        tests.mkdir()
        home.mkdir()
        display.env.update(SLOWLIFT_TESTS=str(tests), XDG_CONFIG_HOME=str(home), SLOWLIFT_LANGUAGE=language)
        window = Job(display, build)
        try:
            whole_job(window, build, tests, check, language)
        finally:
            for name in ("SLOWLIFT_TESTS", "XDG_CONFIG_HOME", "SLOWLIFT_LANGUAGE"):
                del display.env[name]
            if not window.gone():
                window.program.kill()


def new_test(window, tests, check, language):
    window.tap("new")
    if ("close", 0) in window.places() and ("write", 0) not in window.places():
        window.tap("close")
    while ("write", 0) not in window.places() or window.at("write")[2] == 0:
        window.key("Return")
    window.tap("write")
    check((tests / "my-test.yaml").is_file(), f"{language}: a new test is written into the folder of my tests, and no path was typed")
    window.tap("open")


def whole_job(window, build, tests, check, language):
    places = window.places()
    small = [key for key, (_, _, w, h) in places.items() if key[0] not in ("hair", "body", "start-view") and min(w, h) < TARGET]
    check(window.view() == HOME and not small, f"{language}: the start page, and whatever can be pressed has 44 pixels {small}")
    check(("mine", 0) not in places, f"{language}: a line without content is not there")
    check(places["hair", 0][3] >= 0.44 * 800, f"{language}: hair has 45 % of the height")
    new_test(window, tests, check, language)
