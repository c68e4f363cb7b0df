#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""No text for people promises anything: banned words, lone ticks, decimals of minutes, single times.

usage: check_words.py PROGRAM SOURCE | check_words.py --self-test

Looks at every string of the sources and cautions, at the guides, the models and lessons, and at what the commands
print for several scenes. Minutes are looked at where limits are told to people.
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

BANNED = re.compile(r"safe time|guarantee|will be removed|\bperfect|\bsafely\b|\brisk-free\b", re.I)
TICK = re.compile("[\u2713\u2714\u2611\u2705\u2B55]")
DECIMALS = re.compile(r"\d\.\d+ (?:to \d+(?:\.\d+)? )?min\b")
# A computed time is "17 to 18 min"; "at 30 min" is a time that somebody wrote down, "from 9 min on" has an open end.
# So are the times of a label's sentence: planned "to stay on for 30 min", stated "time, 30 min from", a mix "1 min old".
SINGLE = re.compile(r"(?<!to )(?<!at )(?<!from )(?<!to stay on for )(?<!time, )(?<![\d.:])\b\d+ min\b(?! old)")
STRING = re.compile(r'"((?:[^"\\\n]|\\.)*)"')
COMPUTED = ("goal:", "stop:", "waiting:")

WORD_SAFE = re.compile(r"\bsafe\b", re.I)  # in what the commands print: never at all


QUOTED = re.compile(r'"[^"\n]{1,20}"|`[^`\n]{1,20}`|\*[^*\n]{1,20}\*')  # a document that lists what is refused


def promises(text):
    return [found.group(0) for found in list(BANNED.finditer(text)) + list(TICK.finditer(text))]


def computed_parts(text):
    """The lines that tell computed times: from a lead word to the next lead word."""
    lead = ""
    for line in text.splitlines():
        found = re.match(r"^ {1,3}([a-z]+:)", line)
        if found:
            lead = found.group(1)
        elif not line.startswith("      "):
            lead = ""
        if lead in COMPUTED:
            yield line


def loose_minutes(text):
    wrong = [found.group(0) for found in DECIMALS.finditer(text)]
    joined = " ".join(line.strip() for line in computed_parts(text))
    return wrong + [found.group(0) for found in SINGLE.finditer(joined)]


def strings_of(source):
    for path in sorted((source / "src").rglob("*.[chd]*")):
        if path.suffix in (".c", ".h", ".def"):
            joined = re.sub(r'"\s*\n\s*"', "", path.read_text())
            for found in STRING.finditer(joined):
                yield path, found.group(1)


def documents(source):
    for folder, end in (("docs", "*.md"), ("models", "*.yaml"), ("lessons", "*.yaml")):
        for path in sorted((source / folder).rglob(end)):
            yield path, QUOTED.sub("", path.read_text()) if end == "*.md" else path.read_text()
    yield source / "README.md", (source / "README.md").read_text()


def run(program, source, *words):
    done = subprocess.run([program, *words], capture_output=True, text=True, cwd=source, stdin=subprocess.DEVNULL,
                          env={**os.environ, "NO_COLOR": "1"})
    return done.stdout + done.stderr


def commands(source, folder):
    scenes = source / "models" / "scenes"
    forms = source / "models" / "forms"
    arm = ["--arm", "powder + 3 %"]
    for scene in ("way-wide", "way-short", "way-none"):
        yield ["limits", scene]
    yield ["limits", "eight-arms", "--goal", "50%", "--label", "30min"]
    yield ["limits", "eight-arms", "--goal", "80%", "--members", "1000"]
    yield ["limits", "violet-ghost", "--goal", "10%", "--science"]
    for seen in ("15 about half", "8 mostly gone", "5 as undyed", "30 no change"):
        yield ["limits", "way-wide", *arm, "--saw", seen]
    for form in sorted(forms.glob("*.yaml")):
        yield ["limits", "way-wide", "--person", str(form)]
    for place in ("head", "wrapped"):
        for scene in ("way-wide", "way-none"):
            path = folder / f"{scene}-{place}.yaml"
            path.write_text(re.sub(r"^lies: \w+", f"lies: {place}", (scenes / f"{scene}.yaml").read_text(), flags=re.M))
            yield ["limits", str(path), "--models", "models"]
            yield ["run", str(path), "--models", "models"]
    yield ["limits", str(folder / "way-wide-head.yaml"), "--models", "models", "--person",
           str(forms / "nothing-stops.yaml")]
    for scene in sorted(scenes.glob("*.yaml")):
        yield ["run", str(scene), "--colours"]
    yield ["what-if", "way-short", *arm, "--strength", "6%"]
    yield ["what-if", "way-wide", *arm, "--rounds", "2x15min"]
    yield ["map", "way-wide", *arm]
    yield ["search", "way-wide", "--allowed", "powder-3"]
    yield ["search", "way-none"]
    yield ["rank", "diluted", "--members", "200", "--surprise", "powder + 3 % beats powder + 6 %, left open in blue"]
    yield ["cautions"]
    yield ["list"]
    yield ["--help"]


def self_test():
    assert promises("a safe time of 20 min") and promises("Perfect result") and promises("\u2714 done")
    assert not promises("imperfectly known; a saved timer")
    assert loose_minutes("after 17.5 min it goes") == ["7.5 min"]
    assert loose_minutes("   goal:      17 min; x") == ["17 min"]
    assert loose_minutes("   goal:      17 to 26 min; x") == []
    assert loose_minutes("   stop:      at 30 min; the label's time") == []
    assert loose_minutes("   goal:      from 9 min on") == []
    assert loose_minutes("   label:     to stay on for 30 min, the label's time, 30 min from mixing; the mix is 1 min old") == []
    assert loose_minutes("   goal:      lies for 17 min") == ["17 min"]
    assert loose_minutes("   stop:      20 to\n              26 min; then 30 min") == ["30 min"]
    return 0


def main():
    if sys.argv[1] == "--self-test":
        return self_test()
    program, source = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2]).resolve()
    false, looked = [], 0
    for path, text in list(strings_of(source)) + list(documents(source)):
        looked += 1
        # A string that is nothing but such a word stands in a list of what is refused.
        false += [f"{path.relative_to(source)}: {words}" for words in promises(text) if words != text]
    with tempfile.TemporaryDirectory() as folder:
        names = re.findall(r"^  ([a-z-]+) +[a-z]", run(program, source, "--help"), flags=re.M)
        for words in list(commands(source, pathlib.Path(folder))) + [[name, "--help"] for name in names]:
            looked += 1
            text = run(program, source, *words)
            wrong = promises(text) + [found.group(0) for found in WORD_SAFE.finditer(text)]
            if words[0] == "limits" and "--help" not in words:
                wrong += loose_minutes(text)
                if "How long?" not in text:
                    wrong.append(text[:200])
            false += [f"slowlift {' '.join(words)}: {found}" for found in wrong]
    print("\n".join(false))
    print(f"{looked} texts, {len(false)} false")
    return 1 if false or looked < 500 else 0


if __name__ == "__main__":
    sys.exit(main())
