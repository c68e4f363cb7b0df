#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The class pack is whole, says its cautions, and reads without the program that made it.

usage: check_pack.py SLOWLIFT SOURCE timed|untimed

Judges from outside: qpdf (structure of the PDF), poppler (text, fonts, sizes), Python's own parsers for XML and
HTML. Paper: A4 is 210 x 297 mm (ISO 216), US Letter 8.5 x 11 inch; a point is 1/72 inch.
"""
import csv
import html
import html.parser
import pathlib
import re
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import xml.etree.ElementTree

from check_language import entries

SLOWLIFT, SOURCE = sys.argv[1], pathlib.Path(sys.argv[2])
SHEETS = ["plan", "shopping", "dye-day", "rota", "tags", "bowls", "mixing", "check", "safety", "board", "student", "educator",
          "client", "results", "key"]
# Which of the other cautions a sheet owes, whole.
OWED = {"plan": "REACTED TESTS EYES MIXING METAL AGE LICENCE", "shopping": "FRESHNESS DISPOSAL",
        "mixing": "REACTED EYES MIXING METAL FRESHNESS SWATCH_ONLY", "check": "EYES METALLIC STRETCH",
        "safety": "REACTED EYES MIXING METAL AGE LICENCE DISPOSAL", "dye-day": "AGE LICENCE", "educator": "HEAD AGE LICENCE",
        "client": "REACTED TESTS METALLIC AGE LICENCE DOCTOR HEAD", "results": "HEAD"}
PAPER = {"a4": (210 / 25.4 * 72, 297 / 25.4 * 72), "letter": (8.5 * 72, 11 * 72)}
failures = 0


def check(good, what):
    global failures
    if not good:
        failures += 1
        print("false:", what)


def words_of(path, name, pattern):
    """Texts by identifier, from a C source: pieces of a string are joined."""
    found = {}
    for part in re.finditer(pattern, (SOURCE / path).read_text(encoding="utf-8"), re.S):
        found[part.group(1)] = "".join(re.findall(r'"([^"]*)"', part.group(name)))
    return found


CAUTIONS = words_of("include/slowlift/cautions.def", 4, r'SL_CAUTION\((\w+), "(\w+)", (true|false), [\w |]+,(.*?),\n +(?:NULL|N_)')
ALWAYS = [name for name, _, always in re.findall(r'SL_CAUTION\((\w+), "(\w+)", (true|false),',
                                                (SOURCE / "include/slowlift/cautions.def").read_text(encoding="utf-8"))
          if always == "true"]
SHORT = words_of("include/slowlift/cautions.def", 2, r'SL_CAUTION\((\w+), (?:(?!SL_CAUTION\().)*?N_\(("[^"]*")\)\)\n')


def squeezed(text):
    return re.sub(r"\s+", "", text.replace("\u00a0", " "))


def pack(folder, *options, code=0, file=None, limit=None):
    def lower():
        signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
        resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))
    done = subprocess.run([SLOWLIFT, "pack", str(file or SOURCE / "models/scenes/eight-arms.yaml"), "--repeats", "3",
                           "--people", "4", *options, "-o", str(folder)], stderr=subprocess.PIPE, text=True,
                          preexec_fn=lower if limit else None)
    check(done.returncode == code, f"pack {' '.join(options)} ends with {code}: {done.returncode} {done.stderr}")
    return folder


def page_texts(folder):
    text = subprocess.run(["pdftotext", "-enc", "UTF-8", folder / "pack.pdf", "-"], check=True,
                          stdout=subprocess.PIPE).stdout.decode("utf-8")
    return text.split("\f")[:-1]


def pages_of(folder):
    """Numbers of SVG pages by sheet, in order."""
    return {name: len(list(folder.glob(f"{i + 1:02}-{name}-*.svg"))) for i, name in enumerate(SHEETS)}


class Reader(html.parser.HTMLParser):
    VOID = {"meta", "br"}

    def __init__(self):
        super().__init__()
        self.stack, self.tags, self.attributes, self.text, self.faults = [], [], [], [], []

    def handle_starttag(self, tag, attrs):
        self.tags.append(tag)
        self.attributes.append((tag, dict(attrs)))
        if tag not in self.VOID:
            self.stack.append(tag)

    def handle_endtag(self, tag):
        if not self.stack or self.stack.pop() != tag:
            self.faults.append(tag)

    def handle_data(self, data):
        if "style" not in self.stack:
            self.text.append(data)


def check_html(path, pdf_text, name):
    reader = Reader()
    reader.feed(path.read_text(encoding="utf-8"))
    reader.close()
    check(not reader.faults and not reader.stack, f"{name}.html: every tag is closed in order")
    check(("html", {"lang": "en"}) in reader.attributes, f"{name}.html names its language")
    check(reader.tags.count("title") == 1 and reader.tags.count("h1") == 1, f"{name}.html has one title, one h1")
    check(reader.tags.count("h2") >= 1 and "script" not in reader.tags, f"{name}.html has headings, no script")
    scopes = [values.get("scope") for tag, values in reader.attributes if tag == "th"]
    check(all(scope in ("col", "row") for scope in scopes), f"{name}.html: each th says what it heads")
    check(reader.tags.count("caption") == reader.tags.count("table"), f"{name}.html: each table has a caption")
    whole = squeezed(" ".join(reader.text))
    for caution in ALWAYS + OWED.get(name, "").split():
        check(squeezed(CAUTIONS[caution]) in whole, f"{name}.html has the caution {caution}")
    # the same words, whatever the order; rules to write on and boxes differ
    ours = set(re.findall(r"\w{2,}", re.sub(r"_+", " ", " ".join(reader.text))))
    theirs = set(re.findall(r"\w{2,}", re.sub(r"_+", " ", pdf_text)))
    missing = {word for word in ours - theirs if word != "Cautions"}
    check(not missing, f"{name}: words of the HTML that the PDF lacks: {sorted(missing)[:8]}")
    foot = set(re.findall(r"\w{2,}", " ".join(SHORT.values()))) | {"page", "of"}
    drawn = {"min", "on", "the", "scene", "clock", "upward", "left", "Code", "tape", "real", "swatch", "here",
             "developer", "as", "labelled", "minutes", "lines"} if name in ("board", "results") else set()
    extra = {word for word in theirs - ours - foot - drawn if not word.isdigit()}
    check(not extra, f"{name}: words of the PDF that the HTML lacks: {sorted(extra)[:8]}")


def check_pages(folder):
    texts, at = page_texts(folder), 0
    count = pages_of(folder)
    check(sum(count.values()) == len(texts), f"as many SVG as pages: {sum(count.values())}, {len(texts)}")
    for i, name in enumerate(SHEETS):
        pages = texts[at:at + count[name]]
        at += count[name]
        check(len(pages) >= 1, f"{name} has a page")
        whole = squeezed(" ".join(pages))
        for caution in ALWAYS:
            check(squeezed(CAUTIONS[caution]) in squeezed(pages[0]), f"{name}, page 1 has {caution} whole")
            for number, page in enumerate(pages[1:], 2):
                check(squeezed(SHORT[caution]) in squeezed(page), f"{name}, page {number} has {caution}")
        for caution in OWED.get(name, "").split():
            check(squeezed(CAUTIONS[caution]) in whole, f"{name} has the caution {caution}")
        for number, page in enumerate(pages, 1):
            check("classroom example" in page and f"page {number} of {len(pages)}" in page, f"{name}: foot {number}")
        check_html(folder / f"{i + 1:02}-{name}.html", " ".join(pages), name)
    start = sum(count[name] for name in SHEETS[:SHEETS.index("client")])
    check(count["client"] == 1, "the client sheet is one page")
    check(not re.search(r"\d\s*min\b", texts[start]), "the client sheet holds no minute")
    return texts, count


def check_files(folder, paper, title="Eight strips"):
    check(subprocess.run(["qpdf", "--check", folder / "pack.pdf"], stdout=subprocess.DEVNULL).returncode == 0,
          "qpdf finds nothing wrong")
    about = subprocess.run(["pdfinfo", folder / "pack.pdf"], check=True, stdout=subprocess.PIPE, text=True).stdout
    size = [float(x) for x in re.search(r"Page size:\s+([\d.]+) x ([\d.]+)", about).groups()]
    check(all(abs(a - b) < 0.1 for a, b in zip(size, PAPER[paper])), f"{paper} is {size}")
    check(title in re.search(r"Title:(.*)", about).group(1), "the PDF has its title")
    rows = subprocess.run(["pdffonts", folder / "pack.pdf"], check=True, stdout=subprocess.PIPE,
                          text=True).stdout.splitlines()[2:]
    check(rows and all(row.split()[-5:-2] == ["yes"] * 3 and "Type 3" not in row for row in rows),
          f"every font is embedded as outlines, with its text: {rows}")
    for svg in folder.glob("*.svg"):
        root = xml.etree.ElementTree.parse(svg).getroot()
        check(root.tag == "{http://www.w3.org/2000/svg}svg", f"{svg.name} is SVG")
        check(not list(root.iter("{http://www.w3.org/2000/svg}image")), f"{svg.name} is lines, not pixels")


def contents(folder):
    return {path.name: path.read_bytes() for path in sorted(folder.iterdir())}


def check_folders(base):
    kept = base / "kept"
    kept.mkdir()
    (kept / "notes.txt").write_text("mine", encoding="utf-8")
    pack(kept, code=2)
    check([path.name for path in kept.iterdir()] == ["notes.txt"], "a folder with other files is left alone")
    pack(base / "none" / "here", code=3)
    check(not (base / "none").exists(), "no folder is made for a path that is not there")
    for limit in (1, 60000, 250000):  # a disk that is full after so many bytes of one file
        pack(base / "full", code=3, limit=limit)
        check(sorted(path.name for path in base.iterdir()) == ["kept"], "a full disk leaves nothing behind")
    empty = base / "empty"
    empty.mkdir()
    first = contents(pack(empty))
    pack(empty, "--blind", "--paper", "letter")
    check(contents(empty) != first, "another pack takes an older one's place")
    check(contents(pack(empty)) == first, "an older pack is replaced whole, by the same bytes")
    check(sorted(path.name for path in base.iterdir()) == ["empty", "kept"], "the older pack is gone")
    head = base / "head.yaml"
    scene = (SOURCE / "models/scenes/eight-arms.yaml").read_text(encoding="utf-8")
    head.write_text(scene.replace("lies: bench", "lies: head"), encoding="utf-8")
    pack(base / "head", "--models", str(SOURCE / "models"), file=head, code=2)
    check(not (base / "head").exists(), "hair on a head has no pack")
    pack(base / "word", "--paper", "a5", code=2)


def check_spanish(folder):
    """The same pack in Spanish; while no native speaker of the trade has read the cautions, the English stands beside."""
    check_files(folder, "a4", "Ocho tiras")
    said = {key: texts[0] for key, _, texts, _ in entries((SOURCE / "src/po/es.po").read_text(encoding="utf-8"))}
    texts, count, at = page_texts(folder), pages_of(folder), 0
    check(sum(count.values()) == len(texts), "a Spanish page for each SVG")
    for i, name in enumerate(SHEETS):
        first = squeezed(texts[at])
        at += count[name]
        twin = (folder / f"{i + 1:02}-{name}.html").read_text(encoding="utf-8")
        reader = Reader()
        reader.feed(twin)
        reader.close()
        whole = squeezed(" ".join(reader.text))
        check(("html", {"lang": "es"}) in reader.attributes, f"the Spanish {name}.html names its language")
        for caution in ALWAYS:
            english = CAUTIONS[caution]
            spanish = said.get(english, "")
            own = spanish.removesuffix(english + ")")
            check(len(own) > 60 and own != spanish, f"{caution} has Spanish beside its English")
            for where, text in ((f"{name}, page 1", first), (f"{name}.html", whole)):
                check(squeezed(own) in text and squeezed(english) in text, f"Spanish {where} has {caution} in both")


def label_scene(base):
    """Eight arms whose powder mixes have a label of half an hour from mixing, a minute of which is gone at contact."""
    scene = (SOURCE / "models/scenes/eight-arms.yaml").read_text(encoding="utf-8")
    models = base / "models"
    shutil.copytree(SOURCE / "models", models)
    for mix in (models / "mixes").glob("powder-*.yaml"):
        text = re.sub(r"^label_longest:.*\n", "", mix.read_text(encoding="utf-8"), flags=re.M)
        mix.write_text(text + "label_longest: 20 min\n", encoding="utf-8")
    path = models / "scenes" / "labelled.yaml"
    path.write_text(scene, encoding="utf-8")
    return path


def check_label(base):
    """A label that ends first: one number on every sheet, that of the rota, and one sentence that says why."""
    folder = pack(base / "label", "--models", str(base / "models"), file=label_scene(base))
    sheets = {name: re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", (folder / f"{i + 1:02}-{name}.html").read_text(
        encoding="utf-8"))) for i, name in enumerate(SHEETS)}
    table = subprocess.run([SLOWLIFT, "plan", str(base / "models/scenes/labelled.yaml"), "--repeats", "3", "--people", "4",
                            "--csv"], check=True, stdout=subprocess.PIPE, text=True).stdout
    rows = list(csv.DictReader(table.splitlines()))
    put_on = {row["code"]: int(row["start_s"]) for row in rows if row["task"] == "apply"}
    on = {row["arm"]: (int(row["start_s"]) - put_on[row["code"]]) / 60 for row in rows
          if row["task"] == "rinse" and row["code"] in put_on}
    check(any(minutes == 19 for minutes in on.values()) and on, f"labels cut some arms short: {on}")
    for arm, minutes in on.items():
        sentence = f'"{arm}" lies {minutes:.0f} min and not the'
        for name in ("plan", "rota"):
            check((sentence in html.unescape(sheets[name])) == (minutes == 19), f"{name}: why {arm} lies {minutes} min")
    rows_of_plan = re.findall(r"<tr>(.*?)</tr>", (folder / "01-plan.html").read_text(encoding="utf-8"), re.S)
    told = {}
    for row in rows_of_plan:
        cells = [html.unescape(re.sub(r"<[^>]+>", "", cell)).strip() for cell in re.findall(r"<t[hd][^>]*>(.*?)</t[hd]>", row, re.S)]
        if len(cells) == 3 and cells[0] in on and re.fullmatch(r"\d+", cells[2]):
            told[cells[0]] = int(cells[2])
    check(told == {arm: round(minutes) for arm, minutes in on.items()}, f"the plan sheet has the rota's times: {told}, {on}")


def check_protects(folder):
    """What protects eyes, skin, clothes and air is laid out, and put on before the packet is opened; nothing of metal."""
    sheets = {name: html.unescape((folder / f"{i + 1:02}-{name}.html").read_text(encoding="utf-8"))
              for i, name in enumerate(SHEETS)}
    for name, words in {"shopping": ("Goggles", "aprons", "Gloves", "Air:", "Running water for eyes"),
                        "safety": ("Goggles", "apron", "Gloves", "extraction on"),
                        "mixing": ("goggles, apron and gloves on, then the packet",)}.items():
        for word in words:
            check(word in sheets[name], f"{name} has {word}")
    check("film or foil" not in sheets["shopping"].lower() and "no foil, no metal" in sheets["shopping"],
          "foil, which is metal and grows hot, covers nothing")


def check_ladder(base):
    """A ladder of ten minutes has no check card that runs on."""
    folder = pack(base / "ladder", "--ladder", "3min,6min,9min")
    card = (folder / "08-check.html").read_text(encoding="utf-8")
    minutes = [int(m) for m in re.findall(r"<t[hd][^>]*>(\d+)</t[hd]>", card)]
    check(minutes and max(minutes) == 9, f"the check card ends with the plan: {minutes}")


def check_blind(folder):
    texts, count = page_texts(folder), pages_of(folder)
    at = 0
    for name in SHEETS:
        text = " ".join(texts[at:at + count[name]])
        at += count[name]
        if name in ("plan", "rota", "tags", "check", "safety"):
            check("powder + 3" not in text and "two-part" not in text, f"a blind {name} names no arm")
        if name == "key":
            check("powder + 3" in text, "the key names the arms")


def main():
    if not all(shutil.which(tool) for tool in ("qpdf", "pdftotext", "pdffonts", "pdfinfo")):
        print("qpdf or poppler-utils is not installed")
        return 77
    check(len(CAUTIONS) == 24 and len(ALWAYS) == 6 and set(SHORT) == {*ALWAYS, "SULFUR", "SULFITE", "APART", "REDUCING"},
          "the cautions were read")
    with tempfile.TemporaryDirectory() as name:
        base = pathlib.Path(name)
        folder = pack(base / "a4")
        names = {re.sub(r"(-\d+)?\.\w+$", "", path.name) for path in folder.iterdir()} - {
            "pack", "slowlift-files"}
        check(names == {f"{i + 1:02}-{sheet}" for i, sheet in enumerate(SHEETS)}, f"fifteen sheets: {names}")
        check_files(folder, "a4")
        check_pages(folder)
        letter = pack(base / "letter", "--paper", "letter")
        check_files(letter, "letter")
        check_pages(letter)
        check_protects(folder)
        check_label(base)
        check_ladder(base)
        check_blind(pack(base / "blind", "--blind"))
        check_spanish(pack(base / "es", "--language", "es"))
        check(contents(pack(base / "again")) == contents(folder), "the same class gives the same bytes")
    with tempfile.TemporaryDirectory() as name:
        check_folders(pathlib.Path(name))
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
