# SPDX-License-Identifier: GPL-3.0-or-later
"""Lessons in the window, played from start to end by keys alone. Used by run.py.

What a step shows is read from the trace (SLOWLIFT_TRACE_FRAMES=2); what was kept is read from
the file of answers; what is drawn is read from the pixels.
"""
import os
import re
import tempfile
from collections import Counter

from picture import Picture
from window import Window, patience

STEP = re.compile(r"step (\d+) of (\d+) kind (\d+) question (\S+) choices (\d+) right (-?\d+) answered (-?\d+) "
                  r"stop (\d+) below (\d+) message (\d)")
RUN, END = 5, 11  # sl_page_kind


class Lesson(Window):
    def step(self):
        for line in reversed(self.lines()):
            found = STEP.match(line)
            if found:
                number, _, kind, _, choices, right, answered, stop, below, message = found.groups()
                return {"number": int(number), "kind": int(kind), "question": found.group(4), "choices": int(choices),
                        "right": int(right), "answered": int(answered), "stop": int(stop), "below": int(below),
                        "message": int(message)}
        return {"number": -1, "kind": -1, "question": "-", "below": 0, "stop": 0, "answered": -1, "message": 0}

    def press(self, name):
        """One key; on as soon as it was taken."""
        self.type(name)
        return self.step()

    def leave_with_escape(self):
        self.xdotool("key", "Escape")
        return self.left()


def play(lesson, choose):
    """Enter and answers from the first step to the last; what was answered, by question. The runs
    are ended by a second Enter."""
    given, steps, presses = {}, [], 0
    step = lesson.step()
    while step["kind"] != END and presses < 200 and lesson.program.poll() is None:
        presses += 1
        if not steps or steps[-1] != step["number"]:
            steps.append(step["number"])
        if step["question"] != "-" and step["answered"] < 0:
            choice = choose(step)
            given[step["question"]] = choice
            step = lesson.press(str(choice + 1))
        else:
            step = lesson.press("Return")
    return given, steps + [step["number"]]


def kept(path):
    """What the file of answers says, counted from 0."""
    with open(path, encoding="utf-8") as file:
        return {key: int(choice) - 1 for key, choice in re.findall(r"^      ([a-z]+(?:-\d)?): (\d+)$", file.read(), re.M)}


def wrong(step):
    return (step["right"] + 1) % step["choices"]


def right(step):
    return step["right"]


def lesson_names(source):
    folder = os.path.join(source, "lessons")
    return [(name, language) for name in sorted(os.listdir(folder)) for language, file in
            (("en", "lesson.yaml"), ("es", "lesson.es.yaml")) if os.path.exists(os.path.join(folder, name, file))]


def every_lesson(display, build, source, check):
    with tempfile.TemporaryDirectory() as folder:
        for name, language in lesson_names(source):
            for word, choose in (("wrong", wrong), ("right", right)):
                path = os.path.join(folder, f"{name}-{language}-{word}.yaml")
                try:
                    lesson = Lesson(display, build, "--lesson", name, "--language", language, "--answers", path)
                except RuntimeError as refusal:
                    check(False, f"{name} ({language}) opens: {refusal}")
                    break
                given, steps = play(lesson, choose)
                code = lesson.leave_with_escape()
                saved = kept(path)
                check(lesson.step()["kind"] == END and code == 0 and steps == sorted(set(steps)) and len(given) >= 8
                      and saved == given,
                      f"{name} ({language}) is played to its end with {word} answers by keys alone, every answer kept "
                      f"(steps {len(steps)}, answers {len(given)}, exit {code}, kept {len(saved)})")


def locked(display, build, check):
    """The run waits for a prediction and a reason; only an educator leaves a step."""
    lesson = Lesson(display, build, "--lesson", "half-life")
    step = lesson.step()
    while step["question"] != "prediction" and step["number"] < 14:
        step = lesson.press(str(step["right"] + 1) if step["question"] != "-" and step["answered"] < 0 else "Return")
    at = step["number"]
    check(lesson.press("Return")["number"] == at and lesson.step()["message"] == 1,
          "without a prediction Enter stays on its step and says why")
    check(lesson.press("s")["number"] == at, "S leaves no step for a student")
    lesson.press("9")
    check(lesson.step()["answered"] < 0, "an answer that is not there is not taken")
    check(lesson.press("1")["answered"] == 0 and lesson.press("2")["answered"] == 0, "the first answer counts")
    lesson.press("Return")
    at = lesson.step()["number"]
    check(lesson.press("Return")["number"] == at and lesson.step()["message"] == 1,
          "without a reason the run stays locked")
    lesson.press("1")
    check(lesson.press("Return")["kind"] == RUN, "with both the run opens")
    before = Picture(lesson.pixels())
    frames = lesson.frames()
    lesson.settle()
    check(lesson.frames() == frames and Picture(lesson.pixels()).raw == before.raw and lesson.step()["stop"] == 0,
          "nothing runs by itself")
    check(lesson.press("space")["stop"] == 0 and lesson.step()["message"] == 1, "Space runs nothing and says what does")
    strip = lesson.places()["strip", 0]
    lesson.press("p")
    lesson.settle()
    seen = Picture(lesson.pixels())
    check(lesson.step()["stop"] == 1 and seen.area(strip) != before.area(strip),
          "P runs the strip to the first stop")
    lesson.press("BackSpace")
    check(lesson.step()["number"] == at, "Backspace goes back")
    check(lesson.leave_with_escape() == 0, "leaves with exit code 0")

    lesson = Lesson(display, build, "--lesson", "half-life", "--educator")
    numbers = [lesson.press("s")["number"] for _ in range(7)]
    check(numbers == list(range(1, 8)) and lesson.step()["kind"] >= RUN, "an educator leaves each step with S")
    plain = Picture(lesson.pixels())
    lesson.press("n")
    check(Picture(lesson.pixels()).raw != plain.raw, "N shows the notes")
    lesson.press("Escape")
    check(lesson.program.poll() is None and lesson.step()["number"] == 7, "Esc closes them and the lesson stays")
    check(lesson.leave_with_escape() == 0, "leaves with exit code 0")


def sizes(display, build, check):
    """Every theme, largest text, smallest window: the text can be read to its end."""
    for arguments in (["--text", "200"], ["--classroom"], ["--size", "900x600", "--text", "200"], ["--theme", "dark"],
                      ["--theme", "high-contrast", "--classroom", "--language", "es"]):
        lesson = Lesson(display, build, "--lesson", "half-life", *arguments)
        _, steps = play(lesson, right)
        check(lesson.step()["kind"] == END and lesson.step()["below"] == 0, f"{' '.join(arguments)}: read to its end")
        for key in "ctdvhhc":
            lesson.press(key)
        check(lesson.leave_with_escape() == 0, f"{' '.join(arguments)}: leaves with exit code 0")


def luminance(colour):
    """WCAG 2.2, relative luminance."""
    parts = [c / 255 / 12.92 if c / 255 <= 0.04045 else ((c / 255 + 0.055) / 1.055) ** 2.4 for c in colour]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast_in(picture, area):
    """Of the commonest colour of an area against its farthest one that more than a few pixels have:
    ground and ink, between them lie smoothed edges."""
    x, y, w, h = area
    counts = Counter(tuple(picture.at(x + i, y + j)) for j in range(h) for i in range(w))
    ground = luminance(counts.most_common(1)[0][0])
    ratios = [(max(ground, l) + 0.05) / (min(ground, l) + 0.05)
              for l in (luminance(c) for c, n in counts.items() if n >= 12)]
    return max(ratios)


def contrast(display, build, check):
    """WCAG 2.2, 1.4.3 (4.5) and in high contrast 1.4.6 (7), from the pixels of a step."""
    for theme, least in (("light", 4.5), ("dark", 4.5), ("high-contrast", 7.0)):
        lesson = Lesson(display, build, "--lesson", "half-life", "--theme", theme)
        lesson.press("Return")
        lesson.press("2")
        picture, places = Picture(lesson.pixels()), lesson.places()
        x, y, w, h = places["head", 0]
        tx, ty, tw, th = places["text", 0]
        areas = {"lesson": (x, y, w // 2, h // 2), "step": (x, y + h * 2 // 3, w // 2, h // 3),
                 "question and answers": (tx, ty, tw // 2, th // 3), "foot": places["foot", 0]}
        worst = min((contrast_in(picture, area), name) for name, area in areas.items())
        check(worst[0] >= least, f"{theme}: text keeps {least} to 1 (least {worst[0]:.1f}, {worst[1]})")
        check(lesson.leave_with_escape() == 0, "leaves with exit code 0")


def unsaved(display, build, check):
    """A folder that goes away while the lesson is on: said on the screen, nothing lost."""
    with tempfile.TemporaryDirectory() as folder:
        inner = os.path.join(folder, "class")
        os.mkdir(inner)
        path = os.path.join(inner, "group-1.yaml")
        lesson = Lesson(display, build, "--lesson", "half-life", "--answers", path)
        os.remove(path)
        os.rmdir(inner)
        check(lesson.press("Return")["message"] == 1, "a folder that went away is said on the screen")
        choice = lesson.step()["right"]
        check(lesson.press(str(choice + 1))["answered"] == choice, "the answer stays")
        lesson.press("Escape")
        check(lesson.program.poll() is None, "Esc first says that nothing is on the disk yet")
        os.mkdir(inner)
        check(lesson.leave_with_escape() == 0 and kept(path) == {"recall-1": choice},
              "when the folder is back the next try keeps everything")


def refused(display, build, check):
    for words, code, hint in ((["--lesson", "no-such"], 2, "slowlift list"), (["--answers", "a.yaml", "x.yaml"], 2, "--lesson"),
                              (["--lesson", "half-life", "--language", "fr"], 2, "language"),
                              (["--lesson", "half-life", "--answers", "/no/such/folder/a.yaml"], 3, "/no/such/folder")):
        got = patience.run([os.path.join(build, "slowlift-watch"), *words], env=display.env, capture_output=True,
                           text=True)
        check(got.returncode == code and hint in got.stderr and len(got.stderr.strip().splitlines()) == 1,
              f"{' '.join(words)}: exit code {code}, one clear line (got {got.returncode}: {got.stderr.strip()[:110]})")


def class_view(display, build, source, check):
    lesson = Lesson(display, build, "--lesson", "half-life", "--class", os.path.join(source, "lessons/class-example"))
    first = Picture(lesson.pixels())
    lesson.press("Next")
    check(Picture(lesson.pixels()).raw != first.raw, "a class is summed up, and Page Down reads on")
    check(lesson.leave_with_escape() == 0, "leaves with exit code 0")


def by_pointer(display, build, check):
    """A whole lesson by pointer alone: answers and Next are pressed where they stand; stops stay side by side."""
    lesson = Lesson(display, build, "--lesson", "half-life")

    def press(what, number=0):
        x, y, w, h = lesson.places()[what, number]
        check(min(w, h) >= 44, f"{what} {number} is at least 44 pixels: {w} x {h}")
        lesson.xdotool("mousemove", str(x + w // 2), str(y + h // 2), "click", "1")
        lesson.settle()
        return lesson.step()

    step, most, presses = lesson.step(), 0, 0
    while step["kind"] != END and presses < 120:
        answers = step["question"] != "-" and step["answered"] < 0 and ("choice", step["right"]) in lesson.places()
        step = press("choice", step["right"]) if answers else press("next")
        if step["kind"] == RUN:
            most = max(most, sum(what == "strip" for what, _ in lesson.places()))
        presses += 1
    check(step["kind"] == END, f"a lesson is played to its end by pointer alone ({presses} presses)")
    check(most == 4, f"at its last stop the start and three stops hang side by side: {most}")
    number = step["number"]
    check(press("back")["number"] == number - 1, "Back goes back")
    check(lesson.leave_with_escape() == 0, "leaves with exit code 0")


def one_change(display, build, source, check):
    """The what-if of a scene: a second change of the same strip is said above the strips."""
    window = Window(display, build, os.path.join(source, "models/scenes/eight-arms.yaml"))
    window.key("Return", "5", "w")
    for number, knob in enumerate((0, 3)):
        before = Picture(window.pixels())
        x, y, w, h = window.places()["knob", knob]
        window.drag([(x + w // 2, y + h // 2), (x + w // 2 - 30, y + h // 2)])
        seen, (x, y, w, h) = Picture(window.pixels()), window.places()["sentence", 0]
        at = (x + 1, y + h - 3)
        check((seen.at(*at) != before.at(*at)) == (number == 1),
              f"change {number + 1} of a strip {'raises the' if number else 'needs no'} notice")
    check(window.leave() == 0, "leaves with exit code 0")


def lessons(display, build, source, check):
    one_change(display, build, source, check)
    by_pointer(display, build, check)
    locked(display, build, check)
    unsaved(display, build, check)
    refused(display, build, check)
    class_view(display, build, source, check)
    sizes(display, build, check)
    contrast(display, build, check)
    every_lesson(display, build, source, check)
