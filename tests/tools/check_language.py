#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every text for people is in the template, and the Spanish catalogue is complete, its own and without promises.

usage: check_language.py PROGRAM SOURCE | check_language.py --self-test
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

# Promises, as check_words.py has them for English.
BANNED = re.compile(r"tiempo seguro|garanti[zc]|garantía|se eliminará|se quitará del todo|\bperfect[oa]s?\b|\bperfectamente\b|"
                    r"sin riesgo|con seguridad|totalmente segur|\bseguro de usar|[\u2713\u2714\u2611\u2705]", re.I)
DECIMALS = re.compile(r"\d[.,]\d+ (?:a \d+(?:[.,]\d+)? )?min\b")
# Texts that are the same in both languages, and why.
SAME = {
    "%f; %w", r"\"is\"", r"%s %d min.\n", r"%s (\"%s\")",  # no words of ours
    "%.0f min", "%d min", "%.0f–%.0f min", "min", "%d nm", "%s %% (%s vol)", "%.1f g (%.2f oz)", "%.4g min", "5 min", "10 min", "20 min", "30 min", "%d x %s min", "h:min:s", " min", "pH", "vol",  # units
    "base", "no", "color : base", "pastel", "Control", "Tab", "Melanin",  # the same word
    "12", "16", "32", "64", "768", "1 MiB", "64 MiB", "4000 bytes", "4095 bytes", " bytes",  # numbers and units
}
# Words of English that no Spanish text has; names in files are quoted, in scenes, or stand in PLAIN.
ENGLISH = re.compile(r"\b(the|and|with|which|what|of|is|are|it|this|that|not|from|no longer|until|left|hair|mix|swatch|"
                     r"swatches|colour|goal|stop|look|check|wipe|rinse|time|label|runs?|model|than|nobody|for)\b")
UNREVIEWED = " (Traducción sin revisar. Texto original: "


def entries(text):
    """(msgid, msgid_plural or None, [msgstr...], flags) of a PO file."""
    for block in re.split(r"\n\s*\n", text):
        block = "\n".join(line for line in block.splitlines() if not line.startswith("#~"))
        found = {}
        for key, value in re.findall(r'^(msgid_plural|msgid|msgstr(?:\[\d\])?) ((?:"(?:\\.|[^"\\])*"\s*)+)', block, re.M):
            found[key] = "".join(re.findall(r'"((?:\\.|[^"\\])*)"', value))
        if "msgid" in found:
            said = [found[key] for key in sorted(found) if key.startswith("msgstr")]
            yield found["msgid"], found.get("msgid_plural"), said, "".join(re.findall(r"^#,.*$", block, re.M))


def marks(text):
    """The kinds of quotation marks."""
    return set(re.findall(r'\\"|[«»“”„‘’]', text))


def of_catalogue(text):
    wrong = []
    all_of = list(entries(text))
    header = next((said[0] for key, _, said, _ in all_of if key == ""), "")
    reviewed = "X-Cautions: reviewed" in header
    for key, many, said, flags in all_of:
        if key == "":
            continue
        if "fuzzy" in flags:
            wrong.append(f"fuzzy: {key!r}")
        if any(not one for one in said) or not said or (many and len(said) < 2):
            wrong.append(f"not translated: {key!r}")
        if key in said and key not in SAME:
            wrong.append(f"merely copied: {key!r}")
        for one in said:
            own = one.split(UNREVIEWED)[0]
            wrong += [f"promises {found.group(0)!r}: {one!r}" for found in BANNED.finditer(own)]
            wrong += [f"decimals of minutes: {one!r}" for found in DECIMALS.finditer(own)]
            wrong += [f"quoted otherwise than its English: {one!r}"] if marks(own) - marks(key) else []
    return wrong, {key: said for key, _, said, _ in all_of}, reviewed


def of_cautions(source, said, reviewed):
    """While a native speaker of the trade has not read them, the English stands beside each."""
    text = re.sub(r'"\s*\n\s*"', "", (source / "include/slowlift/cautions.def").read_text())
    texts = re.findall(r'SL_CAUTION\(\w+, "\w+", \w+, [\w |]+,\s*"((?:\\.|[^"\\])*)",', text)
    wrong = [] if len(texts) > 15 else ["cautions.def was not read"]
    for one in texts:
        spanish = said.get(one, [""])[0]
        beside = spanish.endswith(UNREVIEWED + one + ")")
        if beside == reviewed:
            wrong.append(f"caution {'with' if beside else 'without'} its English: {one[:60]!r}")
    return wrong


def of_template(source):
    with tempfile.TemporaryDirectory() as folder:
        fresh = pathlib.Path(folder) / "fresh.pot"
        subprocess.run([source / "src/po/renew", fresh], check=True)
        want = {key for key, *_ in entries(fresh.read_text())}
    have = {key for key, *_ in entries((source / "src/po/slowlift.pot").read_text())}
    catalogue = {key for key, *_ in entries((source / "src/po/es.po").read_text())}
    return [f"not in the template (cmake --build BUILD --target pot): {key!r}" for key in want - have] + \
           [f"not in es.po: {key!r}" for key in want - catalogue]


SHOWN = re.compile(r'\b(fputs|puts|printf|fprintf|snprintf|sl_put_paragraph|sl_put_heading)\(([^;{}]*?)"((?:\\.|[^"\\])*)"')
MACHINES = re.compile(r"csv|json|front/complete\.c|_data\.c|/paper/|/view/|/log/|part_|/po/")
NO_WORDS = re.compile(r"slowlift %s|https?:|<|%s: %s")


def of_sources(source):
    """A text with words that is printed as it stands, past the catalogue."""
    for path in sorted(path for part in ("report", "front", "command") for path in (source / "src" / part).rglob("*.c")):
        if MACHINES.search(str(path.relative_to(source))):
            continue
        name = ""
        text = path.read_text()
        for found in SHOWN.finditer(text):
            before = text[:found.start()]
            name = (re.findall(r"^[A-Za-z][\w *]*?(\w+)\([^;{]*?\)\n\{", before, re.M) or [""])[-1]
            words = re.sub(r"%[-+ #0-9.*$]*(?:ll|l|z)?[a-zA-Z%]|\\.", " ", found.group(3))
            marked = re.search(r"(\b_|N_|sl_plural)\(\s*$", found.group(2)) or "_(" in found.group(2)
            if marked or re.search(r"csv|json", name) or NO_WORDS.search(found.group(3)):
                continue
            if re.search(r"[a-z]{3,} [a-z]{2,}", words):
                yield f"{path.relative_to(source)}: {found.group(3)[:80]!r} in {name}"


COMMANDS = (["run", "eight-arms", "--colours"], ["limits", "way-wide", "--members", "200"], ["plan", "eight-arms"],
            ["rank", "eight-arms", "--members", "200"], ["what-if", "eight-arms", "--arm", "powder + 6 %", "--strength", "3%"],
            ["map", "way-wide", "--arm", "powder + 3 %"], ["search", "way-wide", "--allowed", "powder-3"], ["cautions"],
            ["mix", "--have", "6%", "--want", "3%", "--liquid", "60g"], ["--help"], ["run", "--help"], ["limits", "--help"],
            ["plan", "--help"], ["run", "no-such-scene"], ["rnu"], ["run", "--att"])
PLAIN = re.compile(r'"[^"\n]*"|--[a-z-]+|slowlift[- ][a-z-]+|\S+/\S*|\S+\.(?:yaml|csv|pdf|png|svg|webp)|slowlift [^\n]*|'
                   r"\([a-z ,-]*\)|Texto original: [^)]*\)")


def scene_words(source):
    """What scenes say themselves stays as it was written."""
    words = set()
    for path in (source / "models").rglob("*.yaml"):
        words.update(re.findall(r"^\s*(?:title|question): \"?([^\"\n]+)", path.read_text(), re.M))
        words.update(re.findall(r"^\s*-?\s*\{?(?:name|title|question|origin):\s*\"?([^\"\n{}]+?)\"?\s*(?:[,}].*)?$", path.read_text(),
                                re.M))
    return sorted((word for word in words if " " in word), key=len, reverse=True)


def spoken(program, words, **with_names):
    kept = {name: value for name, value in os.environ.items() if not re.match(r"LANG|LC_|SLOWLIFT_LANG", name)}
    done = subprocess.run([program, *words], capture_output=True, text=True, env=kept | {"NO_COLOR": "1"} | with_names)
    return done.stdout + done.stderr


def of_program(program, source):
    known = scene_words(source)
    for words in COMMANDS:
        english = spoken(program, words)
        said = spoken(program, words + ["--language", "es"])
        if said == english:
            yield f"{' '.join(words)}: nothing is Spanish"
        text = re.sub(r"\s+", " ", said)
        for one in known:
            text = text.replace(one, "")
        text = PLAIN.sub(" ", text)
        if words[-1] != "--help":
            for sentence in re.split(r"(?<=[.:;?]) ", text):
                if len(set(ENGLISH.findall(sentence))) > 1:
                    yield f"{' '.join(words)}: English: {sentence[:140]!r}"


REFUSED = [["runn"], ["run", "eight-arms", "--jsn"], ["run", "eight-arms", "--zone", "x"], ["run", "eight-arms", "--clock", "x"],
           ["run", "eight-arms", "--light", "x"], ["limits", "way-short", "--arm", "x"], ["rank", "way-short", "--zone", "x"],
           ["what-if", "way-short", "--arm", "x"], ["search", "way-short", "--arm", "x"], ["map", "way-short", "--show", "x"],
           ["log", "showw"], ["log", "strand", "a.db", "--part", "x"], ["teach", "--quiz", "x"], ["pack", "way-short", "--paper", "x"],
           ["picture", "eight-arms", "--theme", "x", "-o", "x.png"]]


def of_refusals(program):
    """A word that is not known is refused in one language, whatever it is the word of."""
    for words in REFUSED:
        said = spoken(program, words + ["--language", "es"]).splitlines()[-1]
        if re.search(ENGLISH, re.sub(r'"[^"]*"|: .*', "", said.removeprefix("slowlift: "))):
            yield f"{' '.join(words)}: English: {said!r}"


def of_doors(program):
    """Before or after the command, from the environment without a locale, and never for machines."""
    run = ["run", "eight-arms"]
    english, spanish = spoken(program, run), spoken(program, run + ["--language", "es"])
    same = [(["--language", "es"] + run, {}, spanish), (run + ["--language=es"], {}, spanish),
            (run, {"LANG": "es_MX.UTF-8"}, spanish), (run, {"LANGUAGE": "es", "LANG": "C.UTF-8"}, spanish),
            (run, {"LC_ALL": "C"}, english), (run, {"LANG": "de_DE.UTF-8"}, english),
            (run + ["--language", "en"], {"LANG": "es_ES.UTF-8"}, english),
            (run + ["--csv", "--language", "es"], {}, spoken(program, run + ["--csv"])),
            (run + ["--json"], {"LANG": "es_ES.UTF-8"}, spoken(program, run + ["--json"]))]
    for words, names, want in same:
        if spoken(program, words, **names) != want:
            yield f"another text than expected: {' '.join(words)} {names}"
    if "fr" not in spoken(program, run + ["--language", "fr"]) or "LO QUE QUEDA" not in spanish:
        yield "an unknown language is not refused by name, or the table is not Spanish"


def self_test():
    bad = ('msgid ""\nmsgstr ""\n"X-Cautions: unreviewed\\n"\n\nmsgid "a hair"\nmsgstr ""\n\nmsgid "b hair"\nmsgstr "b hair"\n\n'
           '#, fuzzy\nmsgid "c"\nmsgstr "un tiempo seguro"\n\nmsgid "d"\nmsgstr "3.5 min"\n\n'
           'msgid "the \\"e\\""\nmsgstr "la «e»"\n')
    wrong, _, _ = of_catalogue(bad)
    for word in ("fuzzy", "not translated", "merely copied", "promises", "decimals", "quoted"):
        assert any(one.startswith(word) for one in wrong), word
    assert not of_catalogue('msgid ""\nmsgstr ""\n\nmsgid "hair"\nmsgstr "cabello"\n')[0]


def main():
    self_test()
    if sys.argv[1:] == ["--self-test"]:
        return 0
    program, source = sys.argv[1], pathlib.Path(sys.argv[2])
    po = source / "src/po/es.po"
    wrong, said, reviewed = of_catalogue(po.read_text())
    checked = subprocess.run(["msgfmt", "--check", "-o", os.devnull, po], capture_output=True, text=True)
    wrong += [checked.stderr] if checked.returncode else []
    wrong += of_cautions(source, said, reviewed) + of_template(source) + list(of_sources(source))
    wrong += list(of_doors(program)) + list(of_program(program, source)) + list(of_refusals(program))
    for one in wrong:
        print(one)
    print(f"{len(said) - 1} texts, {len(wrong)} wrong; cautions {'reviewed' if reviewed else 'unreviewed'}")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
