# SPDX-License-Identifier: GPL-3.0-or-later
"""Outlines: one line for each thing said, with its kind, out of what a program printed.

A paragraph that was broken at the width is one line again, so that 60 and 100 columns say the same: lines are
broken at the last word that fits, so a line goes on the one before it exactly where its first word had no room
there. A standing caution whose words are those of the catalogue is its identifier; `cautions` holds the words.
"""
import csv
import difflib
import hashlib
import html.parser
import io
import json
import pathlib
import re
import unicodedata

FIGURES = 5  # of a long number that are kept: other processors differ in the last ones alone
MOST_ROWS = 12  # of a CSV that are written out
MOST_VALUES = 6  # of one path of a JSON


KINDS = {"\u200b": "planned", "\u200c": "clock", "\u200d": "model"}  # the marks of src/base/minute.h
MARKS = "".join(KINDS) + "\u200e"


def with_kinds(text):
    """Every minute between brackets, with its kind; a machine's key is followed by the kind of its value."""
    text = re.sub(f"([{''.join(KINDS)}])(?=[\",:.\\[]| =|$)", lambda mark: f"⟨{KINDS[mark[1]]}⟩", text)
    for mark, kind in KINDS.items():
        text = text.replace(mark, f"⟨{kind} ")
    return text.replace("\u200e", "⟩")


def shortened(text):
    """Numbers with more figures than FIGURES, rounded to so many."""
    def short(number):
        if sum(c.isdigit() for c in re.split("[eE]", number[0])[0].lstrip("-0.")) <= FIGURES:
            return number[0]
        return f"{float(number[0]):.{FIGURES}g}"
    return re.sub(r"(?<![\w.#-])-?\d+\.\d+(?:[eE][-+]?\d+)?(?![\w.])", short, text)


def sha(text):
    return hashlib.sha256(text.encode()).hexdigest()[:16]


class Cautions:
    """Every caution's words, in one language, by identifier."""

    def __init__(self, source, language):
        source = pathlib.Path(source)
        self.known = {}
        for name, word, body in re.findall(r'SL_CAUTION\((\w+), "(\w+)", \w+, [\w |]+,((?:\s*"(?:[^"\\]|\\.)*")+),',
                                           (source / "include/slowlift/cautions.def").read_text()):
            text = "".join(re.findall(r'"((?:[^"\\]|\\.)*)"', body))
            self.known[name] = (word, text)
        if language != "en":
            self.translate((source / f"src/po/{language}.po").read_text())

    def translate(self, po):
        words = {}
        for entry in po.split("\n\n"):
            found = re.search(r'^msgid ((?:"[^\n]*"\n)+)msgstr ((?:"[^\n]*"\n?)+)', entry, re.M)
            if found:
                key, text = ("".join(re.findall(r'"([^\n]*)"', part)).replace('\\"', '"') for part in found.groups())
                words[key] = text
        for name, (word, text) in self.known.items():
            self.known[name] = (words.get(word, word), words.get(text, text))

    def put(self, text):
        for name, (word, body) in sorted(self.known.items(), key=lambda item: -len(item[1][1])):
            if body in text:
                text = re.sub(rf"(?:{re.escape(word)}[: ]*)?{re.escape(body)}",
                              "{" + name + "}", text)
        return text


def columns(text):
    return sum(0 if unicodedata.combining(c) or c in MARKS else 2 if unicodedata.east_asian_width(c) in "WF" else 1 for c in text)


def indent_of(line):
    return len(line) - len(line.lstrip(" "))


def goes_on(paragraph, last, line, width):
    """Whether `line` is the next one of the paragraph that began with `paragraph` and ended, so far, with `last`."""
    k = indent_of(line)
    body = line[k:]
    if not body or "  " in body or k < indent_of(paragraph) or k >= len(paragraph):
        return False
    if "  " in paragraph.strip() and k == indent_of(paragraph):
        return False  # below a row of a table, or below what has a label of its own
    if paragraph[k] == " " or (k > 0 and paragraph[k - 1] != " ") or (last is not paragraph and indent_of(last) != k):
        return False
    return columns(last) + 1 + columns(body.split(" ")[0]) > width >= columns(last)


def paragraphs(text, width):
    """(first line's indent, text, lines) of each; None where a line is empty."""
    first = last = None
    joined = ""
    for line in [*text.split("\n"), ""]:
        line = line.rstrip()
        if first is not None and line and goes_on(first, last, line, width):
            joined += " " + line.strip()
            last = line
            continue
        if first is not None:
            yield indent_of(first), joined
        first = last = joined = None
        if line:
            first = last = joined = line
        else:
            yield None


def cells(body):
    return [cell for cell in re.split(r" {2,}| ?[│|] ?", body) if cell != ""]


def kind_of(indent, body, after, in_table):
    """The kind of a paragraph; `after`: the one below it or None."""
    parts = cells(body)
    if body.startswith("{") and re.fullmatch(r"\{[A-Z_]+\}", body):
        return "caution", body[1:-1]
    if body.isupper() or re.match(r"^[A-ZÁÉÍÓÚÑ¿][A-ZÁÉÍÓÚÑ, ]{5,}", body):
        return "heading", body
    if body.startswith("- ") and len(parts) == 1:
        return "item", body[2:]
    label = "  " not in body.split(":")[0] and re.match(r"^([^\s:{}][^:{}\"]{0,28}): +(\S.*)$", body)
    if label and len(cells(label[2])) <= 1 and (len(parts) > 1 or not label[2].endswith(".")):
        return "note", f"{label[1]}: {label[2]}"
    if len(parts) > 1:
        head = not in_table and not any(c.isdigit() for part in parts[1:] for c in part)
        return ("table-head" if head else "row"), " | ".join(parts)
    if indent == 0 and not body.endswith((".", ":")) and after is not None and after[0] > 0:
        return "heading", body
    return "say", body


def as_changes(old, new):
    """`new` as what differs from `old`, without line numbers; None where that is no shorter."""
    out = []
    for tag, a, b, c, d in difflib.SequenceMatcher(None, old, new, autojunk=False).get_opcodes():
        if tag != "equal":
            out += [f"- {line}" for line in old[a:b]] + [f"+ {line}" for line in new[c:d]]
    return out if len(out) < len(new) else None


def outline_of_text(text, width, cautions):
    said = []
    for piece in paragraphs(text, width):
        said.append(None if piece is None else (piece[0], cautions.put(piece[1].strip())))
    out = []
    in_table = False
    for at, piece in enumerate(said):
        if piece is None:
            in_table = False
            continue
        after = said[at + 1] if at + 1 < len(said) else None
        kind, words = kind_of(piece[0], piece[1], after, in_table)
        in_table = kind in ("row", "table-head")
        out.append(f"{kind} {shortened(words)}")
    return out


def outline_of_lines(text):
    """Help and the like, whose lines are set by hand."""
    return [f"line {shortened(line.rstrip())}" for line in text.split("\n") if line.strip()]


def outline_of_csv(text):
    rows = list(csv.reader(io.StringIO(text)))
    if not rows:
        return ["csv-rows 0"]
    lines = [shortened(line) for line in text.replace("\r\n", "\n").rstrip("\n").split("\n")]
    out = [f"csv-head {lines[0]}", f"csv-rows {len(rows) - 1} sha {sha(chr(10).join(lines))}"]
    shown = lines[1:] if len(lines) <= MOST_ROWS + 1 else [*lines[1:4], "…", lines[-1]]
    return out + [f"csv-row {line}" for line in shown]


def outline_of_json(text, cautions):
    """Each path with its values; those of a list's members together, by hash where they are many."""
    found = {}

    def walk(value, path):
        if isinstance(value, dict):
            for key, inner in value.items():
                walk(inner, f"{path}.{key}" if path else key)
        elif isinstance(value, list):
            if not value:
                found.setdefault(path + "[]", [])
            for inner in value:
                walk(inner, path + "[]")
        else:
            words = json.dumps(value, ensure_ascii=False)
            found.setdefault(path, []).append(shortened(cautions.put(words)))

    try:
        walk(json.loads(text), "")
    except json.JSONDecodeError as error:
        return [f"no-json {error}", *outline_of_lines(text)]
    out = []
    for path, values in found.items():
        if len(values) <= MOST_VALUES:
            told = " ; ".join(values)
        else:
            told = f"{len(values)} values sha {sha(chr(10).join(values))} ; {values[0]} … {values[-1]}"
        out.append(f"json {path} = {told}")
    return out


class Page(html.parser.HTMLParser):
    """What a sheet says: headings, paragraphs, tables, items; styles and pictures left out."""
    BLOCKS = {"h1": "heading", "h2": "heading", "h3": "heading", "p": "say", "li": "item", "caption": "caption",
              "tr": "row", "title": "title", "td": "", "th": "", "div": "say", "label": "say", "footer": "say",
              "text": "drawn", "figcaption": "caption", "dt": "note", "dd": "note", "legend": "say"}

    def __init__(self):
        super().__init__()
        self.out, self.kind, self.words, self.skipped = [], "say", [], 0
        self.row = None

    def end_block(self):
        text = " ".join("".join(self.words).split())
        self.words = []
        if self.row is not None:
            return text
        if text:
            self.out.append((self.kind, text))
        return text

    def handle_starttag(self, tag, attributes):
        if tag in ("style", "script"):
            self.skipped += 1
        elif tag == "tr":
            self.end_block()
            self.row, self.row_kind = [], "row"
        elif tag in ("td", "th"):
            self.words = []
            if tag == "th" and not self.row:
                self.row_kind = "table-head"
            if tag == "td":
                self.row_kind = "row"
        elif tag == "br":
            self.words.append(" ")
        elif tag in ("input", "textarea", "select"):
            self.words.append("[blank]")
        elif tag in self.BLOCKS:
            if self.row is None:
                self.end_block()
                self.kind = self.BLOCKS[tag]
        for name, value in attributes:
            if name in ("alt", "aria-label") and value:
                self.words.append(f"[{value}]")

    def handle_endtag(self, tag):
        if tag in ("style", "script"):
            self.skipped -= 1
        elif tag in ("td", "th") and self.row is not None:
            self.row.append(self.end_block())
        elif tag == "tr" and self.row is not None:
            self.out.append((self.row_kind, " | ".join(self.row)))
            self.row = None
        elif tag in self.BLOCKS and self.row is None:
            self.end_block()
            self.kind = "say"

    def handle_data(self, data):
        if not self.skipped:
            self.words.append(data)


def outline_of_html(text, cautions):
    page = Page()
    page.feed(text)
    page.end_block()
    out = []
    for kind, words in page.out:
        words = cautions.put(words)
        if re.fullmatch(r"\{[A-Z_]+\}", words):
            kind, words = "caution", words[1:-1]
        out.append(f"{kind} {shortened(words)}")
    return out
