#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The same questions are asked of every medium, and each says the same words and digits: a terminal, a page of HTML, the window,
paper, and JSON, whose numbers are rounded here by the rules of the docs.

usage: same_answers.py BUILD SOURCE [--every] [SCENE...]

Each scene in one language, by turns; --every, or a scene that is named, in both (.ci/nightly calls).

Words are those of the page, whose parts are marked; the others must say each of its sentences, rows and cells. A medium that
says less than was asked is found, because every question counts what it compared.
"""
import csv
import html.parser
import json
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

import patience

SCENES = {  # name: (file, arm, the zone that the window shows first)
    "way-wide": ("models/scenes/way-wide.yaml", "powder + 3 %", "violet"),  # a goal for all colours
    "zone-goals": ("models/scenes/zone-goals.yaml", "powder + 6 %", "blue"),  # one for each zone
    "eight-arms": ("models/scenes/eight-arms.yaml", "powder + 6 %", "violet"),  # controls, and no goal
    "twice": ("tests/net/scenes/twice.yaml", "twice, 15 min each", "violet"),  # two applications
}
LANGUAGES = ("en", "es")
BORDERS = (18, 15, 5)  # of 20, answer.h: SL_ODDS_OPEN, SL_ODDS_SHORT, SL_ODDS_DOUBTFUL
LESS = {"en": "fewer than", "es": "menos de"}
RANGE = {"en": "{} to {} min", "es": "entre {} y {} min"}


def flat(text):
    return " ".join(re.sub("[│●○\u200b-\u200e]", " ", text).split())


class Page(html.parser.HTMLParser):
    """Its title, its sentences as (part, label, text), its tables as rows of cells; cautions left out."""

    def __init__(self, text):
        super().__init__()
        self.said, self.rows, self.part, self.label, self.words, self.row, self.over = [], [], "", "", [], None, False
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        if tag == "tr":
            self.row = []
        if tag in ("p", "h2", "h3", "li", "td", "th", "caption", "h1", "title", "style"):
            self.words, self.label = [], ""

    def handle_data(self, data):
        self.words.append(data)

    def handle_endtag(self, tag):
        text = flat("".join(self.words))
        if tag == "strong":
            self.label, self.words = text, []
        elif tag in ("td", "th"):
            self.row.append(text)
        elif tag == "tr":
            self.rows.append([cell for cell in self.row if cell])
        elif tag in ("h2", "h3"):
            self.part, self.over = text, text in ("Cautions", "Precauciones")
        if tag in ("p", "li", "caption", "h2", "h3") and text and not self.over and not self.label.isupper():
            self.said.append((self.part, self.label.rstrip(":"), text))


class Found:
    def __init__(self):
        self.false, self.compared = [], 0

    def ok(self, where, medium, words, there):
        self.compared += 1
        if not there:
            self.false.append(f"{where}: {medium} does not say: {words}")


class Asker:
    """All media about one scene in one language."""

    def __init__(self, build, source, scene, language, folder, found):
        self.build, self.folder, self.found, self.language = pathlib.Path(build).resolve(), pathlib.Path(folder), found, language
        file, self.arm, self.zone = SCENES[scene]
        arms = re.findall(r"^  - name: \"?(.*?)\"?\n(?:    title: {es: \"?(.*?)\"?}\n)?", (pathlib.Path(source) / file).read_text(), re.M)
        self.titles = {name: title if title and language == "es" else name for name, title in arms}  # what is read of each
        self.scene, self.where = str(pathlib.Path(source) / file), f"{scene}, {language}"
        self.environment = {"PATH": os.environ["PATH"], "HOME": folder, "LC_ALL": "C.UTF-8", "TZ": "UTC", "SDL_VIDEODRIVER": "dummy",
                            "SLOWLIFT_MODELS": str(pathlib.Path(source) / "models")}

    def run(self, *words):
        done = patience.run([str(self.build / "slowlift"), "--language", self.language, *words], cwd=self.folder, env=self.environment,
                            capture_output=True, text=True)
        assert done.returncode == 0, (words, done.stderr)
        return done.stdout

    def json(self, *words):
        return json.loads(self.run(*words, "--json"))

    def page(self, *words):
        self.run(*words, "-o", "said.html")
        return Page((self.folder / "said.html").read_text())

    def paper(self, *words):
        self.run(*words, "-o", "said.pdf")
        return flat(subprocess.run(["pdftotext", "-raw", "-enc", "UTF-8", self.folder / "said.pdf", "-"], capture_output=True,
                                   text=True, check=True).stdout)

    def window(self, *keys):
        """Every text that stands there after the last of the keys."""
        told = self.run("watch", "--size", "1280x2400", "--say", ",".join(keys), self.scene).split("\n== ")[-1]
        return [flat(text) for text in re.findall(r"^words(?: -?\d+){4} \w+ (.*)$", told, re.M)]

    def ok(self, medium, words, there):
        self.found.ok(self.where, medium, words, there)

    def on_terminal(self, page, *words):
        """Every sentence and row of the page stands on the terminal, and every label of it on the page."""
        raw = self.run(*words)
        text, labels = flat(raw), {label for _, label, _ in page.said}
        for label in re.findall(r"^ {1,3}([a-záéíóúñ]+): ", raw, re.M):
            self.ok(f"page, {words[0]}", label, label in labels or any(said.startswith(label + ": ") for _, _, said in page.said))
        for _, label, said in page.said:
            line = f"{label}{'' if label.endswith('?') else ':'} {said}" if label else said
            self.ok(f"terminal, {words[0]}", line, line in text)
        for row in page.rows:  # a table that is too wide is told in two pieces, each with the name of its row
            pieces = [row[:1] + row[at:] for at in range(2, len(row))]
            there = any(" ".join(row[:at]) in text and " ".join(piece) in text for at, piece in enumerate(pieces, 2))
            self.ok(f"terminal, {words[0]}", " ".join(row), there or " ".join(row) in text)


def percent(share):
    """docs: whole per cents; what is above nothing and below a half is <1."""
    return "<1" if 0.0 < 100.0 * share < 0.5 + 1e-6 else str(round(100.0 * share))


def with_range(middle):
    """docs: the middle, and in brackets where eight of ten lie, unless both ends read alike or nothing is left to tell."""
    low, high = percent(middle["p10"]), percent(middle["p90"])
    if not middle["p10"] < middle["p90"] or low == high or high == "<1":
        return f"{high if middle['p10'] < middle['p90'] else percent(middle['p50'])} %"
    return f"{percent(middle['p50'])} % ({low}-{high})"


def listed(minutes, language):
    words = [str(minute) for minute in minutes]
    return (", ".join(words[:-1]) + {"en": " and ", "es": " y "}[language] if words[1:] else "") + words[-1] + " min"


def ask_limits(ask):
    words = ["limits", ask.scene, "--arm", ask.arm]
    page, told = ask.page(*words), ask.json(*words)["arms"][0]
    ask.on_terminal(page, *words)
    window = ask.window("Return", "Escape", str(list(ask.titles).index(ask.arm) + 1), "E", "PageDown")
    rows = [(label, text) for part, label, text in page.said if label and part]
    assert len(rows) >= 7, page.said
    for label, text in rows:
        ask.ok("window, limits", f"{label}: {text}", (label, text) in zip(window, window[1:]))
    text = " | ".join(said for _, _, said in page.said)
    of = {"en": "of", "es": "de"}[ask.language]
    dots = math.floor(20 * told["odds"] + 0.5)
    ask.ok("JSON, odds", told["odds"], f" {dots} {of} 20 " in text)
    under = any(20 * told["odds"] < border <= dots for border in BORDERS)
    ask.ok("JSON, under a border", told["odds"], under == (f"{LESS[ask.language]} {dots} {of} 20 " in text))
    for name in ("goal_min", "stop_min"):
        low, high = told[name]["p10"], told[name]["p90"]
        if low is not None and high is not None and math.floor(low) + 1 < high:
            ask.ok(f"JSON, {name}", (low, high), RANGE[ask.language].format(math.floor(low), math.ceil(high)) in text)
    for name in ("looks_min", "checks_min"):
        if told[name]:
            ask.ok(f"JSON, {name}", told[name], f" {listed(told[name], ask.language)}" in text)
    ask.ok("JSON, left", told["left_at_stop_p50"], f" {percent(told['left_at_stop_p50'])} %" in text)


def in_fives(share):
    """docs: colour left as an eye grades it, in steps of five; less than five is that."""
    five = 5 * math.floor(20.0 * share + 0.5)
    return str(five) if five >= 5 else None


def ask_answer(ask):
    words = ["answer", ask.scene, "--zone", ask.zone]
    page, told = ask.page(*words), ask.json(*words)["arms"]
    if re.search("[●○]", ask.run(*words)):  # in Spanish the eight need more than a terminal's hundred columns, and it takes the narrow form
        ask.on_terminal(page, *words)
    window = [text for text in ask.window("Return", "Q") if text]
    said = [(label, text) for part, label, text in page.said]
    assert len(said) >= 10 and len(page.rows) >= 2 * len(told), page.said
    for label, text in said:
        ask.ok("window, answer", f"{label}: {text}", ((label, text) in zip(window, window[1:])) if label else text in window)
    for row in page.rows:
        ask.ok("window, answer", row, any(window[i:i + len(row)] == row for i in range(len(window))))
    for arm in told:
        rows = [row for row in page.rows if row[0] == f"{arm['strip']} {ask.titles[arm['arm']]}"]
        if arm["dots"] is not None:
            ask.ok("JSON, dots", arm["dots"], rows[0][1].lstrip("<") == str(arm["dots"]))
            by = arm["rinse_by"]
            minute = by["planned_min"] if by["planned_min"] is not None else by["model_min"]
            ask.ok("JSON, rinse_by", minute, str(minute) in rows[0] and rows[1][1] == str(minute))
            ask.ok("JSON, looks", arm["looks"], all(str(look) in " ".join(rows[0]) for look in arm["looks"][:2]))
        left = [in_fives(zone["p50"]) for zone in arm["colour_left"] or []]
        shown = [cell.strip("[]") for cell in rows[1][2:2 + len(left)]]
        ask.ok("JSON, colour left", (arm["arm"], left), all(one in (None, other) for one, other in zip(left, shown)))


def ask_rank(ask):
    words = ["rank", ask.scene, "--zone", ask.zone, "--at", "1min"]  # as the window begins
    page, told = ask.page(*words), ask.json(*words)["zones"][0]
    ask.on_terminal(page, *words)
    why = [text for _, label, text in page.said if label in ("why", "por qué")]
    assert len(why) == 1, page.said
    window, paper = ask.window("Return", "N"), ask.paper(*words)
    if ask.language == "en":  # machines are told in English
        ask.ok("JSON, why", why[0], flat(told["why"]) == why[0])
    ask.ok("paper, why", why[0], why[0] in paper)
    places = 0
    for arm in told["arms"]:
        title = ask.titles[arm["arm"]]
        for cells in (("left_then", "base_then", "stress_then"), ("stress_gone", "base_gone")):
            first = arm.get(cells[0])
            if first and first.get("place"):
                places += 1
                row = [title, *[with_range(arm[cell]) for cell in cells]]
                ask.ok(f"JSON, {cells[0]}", row, any("".join(its[:1]).startswith(str(first["place"])) and its[1:len(row) + 1] == row for its in page.rows))
    assert places >= 2, told
    for row in [*page.rows, why]:
        ask.ok("window, rank", row, any(window[i:i + len(row)] == row for i in range(len(window))))


def ask_what_if(ask):
    words = ["what-if", ask.scene, "--arm", ask.arm, "--time", "10min"]
    page, told = ask.page(*words), ask.json(*words)
    ask.on_terminal(page, *words)
    cells = [row[-3:-1] for row in page.rows]
    for before, after in zip(told["before"]["colour_left"], told["after"]["colour_left"]):
        both = [f"{percent(side['value'])} %" for side in (before, after)]
        ask.ok("JSON, colour left", both, both in cells)
    for key in ("base_moved", "cystine_lost"):
        both = [f"{percent(told[side][key])} %" for side in ("before", "after")]
        ask.ok(f"JSON, {key}", both, both in cells)


def ask_run(ask):
    words = ["run", ask.scene, "--at", "0min,10min,20min"]
    page, told, paper = ask.page(*words), ask.json(*words), ask.paper("picture", ask.scene, "--at", "0min,10min,20min")
    ask.on_terminal(page, *words)
    looked = 0
    for arm in told["arms"]:
        title = ask.titles[arm["name"]]
        dyed = [zone["colour_left"] for zone in arm["zones"] if zone["colour_left"]]
        rows = [row for row in page.rows if row[:1] == [title] and all(re.fullmatch("<?[0-9.]+|-", cell) for cell in row[1:])]
        for time, row in enumerate(rows[:3]):
            left = [percent(zone[time]) for zone in dyed]
            looked += len(left)
            ask.ok("JSON, colour left", (title, left), row[1:len(left) + 1] == left)
        if dyed and arm["predicted"]:
            printed = " ".join(percent(zone[time]) for time in range(3) for zone in dyed)
            ask.ok("paper, colour left", (title, printed), f" {printed} " in paper)
    assert looked >= 6, page.rows


def ask_cost(ask):
    words = ["cost", "school", "--scene", ask.scene, "--powder", "20g", "--developer", "40g", "--people", "2"]
    page, told = ask.page(*words), ask.json(*words)
    ask.on_terminal(page, *words)
    assert told["uses"] and told["products"]
    for of in told["products"]:
        row = [of["product"], f"{of['needed_g']:.1f}", *(str(of[key]) for key in ("opened", "on_the_shelf", "to_buy")), f"{of['left_g']:.0f}",
               f"{told['currency']} {of['cost']:.2f}"]
        ask.ok("JSON, product", row, row in page.rows)
    for row in csv.DictReader(ask.run(*words, "--csv").splitlines()):
        if row["what"] == "the class":
            ask.ok("CSV, class", row, all(math.isclose(float(row[key]), value, abs_tol=0.005) for key, value in told["class"].items() if key != "a_swatch"))
    whole = told["class"]
    assert whole["pairs_of_gloves"] == int(re.search(r": (\d+) pa", ask.run("plan", ask.scene, "--people", "2")).group(1)), whole
    for key in ("cost", "other", "a_swatch", "to_buy_cost"):
        amount = f"{told['currency']} {whole[key]:.2f}"
        ask.ok(f"JSON, {key} of the class", amount, any(amount in text for _, _, text in page.said) or whole[key] == 0.0)
    gloves = f"{whole['pairs_of_gloves']} pa"
    ask.ok("JSON, gloves", gloves, any(gloves in text for _, _, text in page.said))
    for use in told["uses"]:
        for way in ("with_packets", "with_tub"):
            amount = f"{told['currency']} {use[way]:.2f}"
            ask.ok(f"JSON, {way}", amount, any(row[-1:] == [amount] for row in page.rows))


def ask_mix(ask):
    words = ["mix", ask.scene, "--arm", ask.arm, "--hair", "16g"]
    page, told = ask.page(*words), ask.json(*words)
    ask.on_terminal(page, *words)
    for key in ("powder_g", "developer_g", "total_g"):
        if told[key] > 0.0:
            ask.ok(f"JSON, {key}", told[key], any(row[-1:] == [f"{told[key]:.1f} g"] for row in page.rows))


def main():
    build, source, *words = sys.argv[1:]
    every = "--every" in words
    scenes = [word for word in words if word != "--every"]
    found = Found()
    for number, scene in enumerate(scenes or SCENES):
        for language in LANGUAGES if every or scenes else [LANGUAGES[number % len(LANGUAGES)]]:
            with tempfile.TemporaryDirectory() as folder:
                ask = Asker(build, source, scene, language, folder, found)
                for question in (ask_answer, ask_limits, ask_rank, ask_what_if, ask_run, ask_cost, ask_mix):
                    question(ask)
    print("\n".join(found.false))
    print(f"{found.compared} answers compared, {len(found.false)} differ")
    return 1 if found.false or found.compared < (100 if scenes else 500) else 0


if __name__ == "__main__":
    if not shutil.which("pdftotext"):
        print("needs pdftotext (poppler-utils)")
        sys.exit(77)
    sys.exit(main())
