# SPDX-License-Identifier: GPL-3.0-or-later
"""The job by the pointer alone, from the start page: a new test, its answer, plan, papers and day, which runs and is left, and a
lesson. Used by run.py."""
import pathlib
import sqlite3
import tempfile

from window import Window, patience

HOME, TESTS, TEST, LESSONS, READ = range(5)  # sl_start_view
HEARD, START, APPLIED, LEAVE = 14, 23, 1, 30  # sl_day_act
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


def job(display, build, check):
    with tempfile.TemporaryDirectory() as folder:
        tests, home = pathlib.Path(folder) / "tests", pathlib.Path(folder) / "home"
        tests.mkdir()
        home.mkdir()
        ours = {"SLOWLIFT_TESTS": str(tests), "XDG_CONFIG_HOME": str(home)}
        display.env.update(ours)
        window = Job(display, build)
        try:
            first_page(window, check)
            new_test(window, tests, check)
            of_the_test(window, tests, check)
            day(window, tests, check)
            lesson(window, check)
        finally:
            for name in ours:
                del display.env[name]
            if not window.gone():
                window.program.kill()


def first_page(window, check):
    places = window.places()
    small = [key for key, (_, _, w, h) in places.items() if key[0] not in ("hair", "body", "start-view") and min(w, h) < TARGET]
    check(window.view() == HOME and not small, f"the start page, and whatever can be pressed has 44 pixels {small}")
    check(("mine", 0) not in places, "a line without content is not there")
    check(places["hair", 0][3] >= 0.44 * 800, "hair has 45 % of the height")
    window.key("space")
    check(window.view() == HOME and window.at("example")[2] > 0, "Space does nothing there")


def new_test(window, tests, check):
    window.tap("new")
    window.tap("do-close")  # the first cautions are read
    window.tap("write")
    check((tests / "my-test.yaml").is_file(), "a new test is written into the folder of my tests, and no path was typed")
    window.tap("open")
    window.tap("do-close")
    if window.at("do-guess-skip")[2] > 0:
        window.tap("do-guess-skip")
    window.tap("do-home")
    check(window.view() == HOME and window.at("mine")[2] > 0, "it leads back to the start page, which has my tests now")


def of_the_test(window, tests, check):
    window.tap("mine")
    window.tap("test")
    check(window.view() == TEST and window.at("seen") == (0, 0, 0, 0), "of a test that nobody looked at nothing that was seen is offered")
    window.tap("answer")
    window.tap("do-close")
    check(window.at("do-turn-on")[2] > 0, "the answer is the window's own page")
    window.tap("do-close")
    window.tap("do-home")
    window.tap("plan")
    check(window.view() == READ, "the plan is read")
    window.tap("on")
    window.tap("back")
    window.tap("papers")
    names = {path.name for path in tests.iterdir()}
    check({"my-test-papers", "my-test-picture.png", "my-test-answer.pdf"} <= names, f"its papers lie beside it: {sorted(names)}")
    check((tests / "my-test-answer.pdf").read_bytes()[:5] == b"%PDF-", "the answer is a PDF")


def day(window, tests, check):
    window.tap("day")
    check((tests / "my-test.db").is_file(), "the day's log is made beside it")
    for act in (HEARD, START, APPLIED, LEAVE):
        window.tap("spot", act * 1000)
    window.tap("spot", LEAVE * 1000)  # mix lies on hair: asked twice
    with sqlite3.connect(tests / "my-test.db") as log:
        kinds = {kind for (kind,) in log.execute("SELECT kind FROM event")}
    check({"started", "applied"} <= kinds, f"the day was begun and a mix put on: {sorted(kinds)}")
    window.tap("back")
    window.tap("back")
    check(window.view() == HOME and window.at("running")[2] > 0, "a day that runs stands on the start page")


def lesson(window, check):
    window.tap("teach")
    check(window.view() == LESSONS, "the lessons are listed")
    window.tap("lesson")
    check(window.at("next")[2] > 0, "a lesson is played")
    window.tap("back")
    check(window.view() == LESSONS, "and left from its first step by its way back")
