# SPDX-License-Identifier: GPL-3.0-or-later
"""The questions of a new test on one page: by keys alone, by the pointer alone, in either language, with large text; what comes of it
is compared byte by byte with what `slowlift new` makes of the same answers. Used by run.py."""
import os
import pathlib
import subprocess
import tempfile

import yaml

from looks import apart
from picture import Picture
from window import Window

KEYS = {" ": "space", ",": "comma", ".": "period", ":": "colon", ";": "semicolon", "%": "percent", "-": "minus", "/": "slash"}
ROWS = "question whose room hair root colours strength order mixes bowls controls time left limits class file".split()
WORDS = 8  # that a row can offer, at most


def files(folder):
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(pathlib.Path(folder).rglob("*")) if path.is_file()}


def made_by_command(build, answers, language):
    with tempfile.TemporaryDirectory() as folder:
        (pathlib.Path(folder) / "answers").write_text(yaml.safe_dump(answers, allow_unicode=True))
        subprocess.run([os.path.join(build, "slowlift"), "new", "--answers", "answers", "--language", language], cwd=folder, check=True,
                       stdout=subprocess.DEVNULL)
        os.remove(os.path.join(folder, "answers"))
        return files(folder)


class Page:
    """The window begun with the questions, in a folder of its own."""

    def __init__(self, display, build, *arguments):
        self.folder, self.before = tempfile.TemporaryDirectory(), os.getcwd()
        os.chdir(self.folder.name)
        self.window = Window(display, build, "--new", *arguments)
        while not self.asks():
            self.window.key("Return")

    def asks(self):
        return ("explained", 0) in self.window.places() and self.window.places()["explained", 0][2] > 0

    def made(self):
        return ("open", 0) in self.window.places() and self.window.places()["open", 0][2] > 0

    def type(self, text):
        self.window.type(*[KEYS.get(letter, letter) for letter in text])

    def at(self, what, number):
        return self.window.places().get((what, number), (0, 0, 0, 0))

    def tap(self, what, number=0):
        """Scrolled to by the wheel, and pressed."""
        for step in ["5"] * 80 + ["4"] * 160:
            if self.at(what, number)[2] > 0:
                break
            x, y, w, h = self.at("body", 0)
            self.window.xdotool("mousemove", str(x + w // 2), str(y + h // 2), "click", step)
            self.window.settle()
        x, y, w, h = self.at(what, number)
        assert w > 0, (what, number)
        self.window.drag([(x + w // 2, y + h // 2)])

    def word(self, row, number):
        self.tap("word", ROWS.index(row) * WORDS + number)

    def files(self):
        return files(self.folder.name)

    def leave(self):
        code = self.window.leave()
        os.chdir(self.before)
        self.folder.cleanup()
        return code


def by_keys(display, build, source, check):
    for name in ("class", "person"):
        answers = yaml.safe_load((pathlib.Path(source) / "tests/golden/new" / f"{name}.yaml").read_text())
        answers = {key: "no" if value is False else str(value) for key, value in answers.items()} | {"file": f"my-{name}.yaml"}
        page = Page(display, build)
        for row in ROWS:
            page.type(answers.get(row, ""))
            page.window.key("Return")
        check(page.asks() and not page.files(), f"{name}: letters and Enter go from question to question, and nothing is written yet")
        page.window.key("Return")
        check(page.made() and page.files() == made_by_command(build, answers, "en"),
              f"{name}: by keys alone, the page writes byte for byte what the command writes of the same answers")
        page.window.key("Return", "Return", "Return")
        check(("strip", 0) in page.window.places(), f"{name}: what was made is shown in place of the example")
        check(page.leave() == 0, f"{name}: and leaves with exit code 0")


TAPPED = {"question": "4", "root": "no", "colours": "red, blue, violet, pink", "strength": "pastel", "order": "violet, red",
          "mixes": "water, old, 3", "bowls": "1:2, not read, allowed, opened long ago", "controls": "untreated, undyed", "left": "half"}


def by_pointer(display, build, check, language, percent):
    page = Page(display, build, "--language", language, "--text", percent)
    what = f"{language}, {percent} %"
    for row, numbers in {"question": [3], "root": [0], "colours": [1, 2, 3, 6], "strength": [0], "order": [5, 0], "mixes": [1],
                         "bowls": [1, 3], "controls": [1], "left": [0]}.items():
        for number in numbers:
            page.word(row, number)
            n, bad = apart(page.window.places(), ("field", "word", "explained", "write", "close"))
            check(n > 3 and not bad, f"{what}: {n} parts stand apart after {row} {bad}")
    page.tap("write")
    check(page.made() and page.files() == made_by_command(build, TAPPED, language),
          f"{what}: by the pointer alone, the page writes byte for byte what the command writes of the same answers")
    page.tap("close")
    check(any(kind == "strip" for kind, _ in page.window.places()) and page.leave() == 0, f"{what}: and goes back to the strips")


def refusals(display, build, check):
    page = Page(display, build)
    pathlib.Path("my-test.yaml").write_text("mine")
    before = Picture(page.window.pixels())
    page.type("dvtlxiqnh")
    check(page.asks(), "a letter is typed, and does nothing else")
    page.window.key("Down")
    check(Picture(page.window.pixels()).area(page.at("row", 0)) != before.area(page.at("row", 0)),
          "what was left and cannot be read is refused below its line")
    page.window.key("Up", *["BackSpace"] * 9)
    page.tap("write")
    check(page.asks() and page.files() == {"my-test.yaml": b"mine"} and page.at("field", 15)[2] > 0,
          "nothing is written over a file: the page goes to the row that names it")
    page.window.key(*["BackSpace"] * 3)
    page.type("other.yaml")
    page.window.key("Escape")
    check(("strip", 0) in page.window.places() and page.files() == {"my-test.yaml": b"mine"}, "Esc leaves, and nothing is written")
    page.window.key("y")
    check(page.asks(), "Y comes back to the questions")
    page.tap("write")
    check(page.made() and "other.yaml" in page.files() and page.files()["my-test.yaml"] == b"mine", "which still stand as they were answered")
    check(page.leave() == 0, "and leaves with exit code 0")


def questions(display, build, source, check):
    by_keys(display, build, source, check)
    by_pointer(display, build, check, "en", "100")
    by_pointer(display, build, check, "es", "200")
    refusals(display, build, check)
