#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How easily the sources are changed, in numbers: how many files of src and include a real change edits by hand (the patches of
tests/patches, without catalogues), and how the code is cut. Kept in docs/house.md between its marks.

    house_numbers.py ROOT            prints the table
    house_numbers.py ROOT --write    renews the page
    house_numbers.py ROOT --check    1 when the page holds another, or a number is beyond its bound
"""
import difflib
import pathlib
import re
import statistics
import subprocess
import sys
import tempfile

import check_headers

BEGIN, END = "<!-- numbers: cmake --build BUILD --target house -->\n", "<!-- end of numbers -->\n"
MOST_EDITED = {"caution": 2, "chart": 2, "command": 3, "doubt": 2, "knob": 2, "oxidant": 6, "panel": 3, "scene_key": 2}  # files of src and include for a patch
LONG_FILE, LONG_FUNCTION, MOST_PATHS, LONG_MACRO = 400, 80, 25, 10


def edited(patch):
    """Files of src and include that a patch changes, but for the catalogues, which a target renews."""
    names = re.findall(r"(?m)^(?:---|\+\+\+) [ab]/(\S+)", patch)
    return sorted({name for name in names if name.startswith(("src/", "include/")) and not name.startswith("src/po/")})


def functions(text):
    """(name, lines) of each function, its head with it; as clang-format lays them out."""
    lines = text.splitlines()
    start = None
    for i, line in enumerate(lines):
        if line == "{":
            start = i
            while start > 0 and not re.search(r"^\s*$|[;}]$|^ ?/?\*.*\*/$|^#|\\$", lines[start - 1]):
                start -= 1
        elif line == "}" and start is not None:
            yield re.search(r"(\w+)\(", " ".join(lines[start:i])).group(1), i + 1 - start
            start = None


def macros(text):
    """(name, lines) of each macro that is no list: a list takes the macro that is called on each of its rows, or says each of them
    (document/say.h)."""
    for found in re.finditer(r"(?m)^#define (\w+)(\([^)]*\))?(?:.*\\\n)*.*$", text):
        if found.group(2) not in ("(X)", "(ROW)", "(SAY)"):
            yield found.group(1), found.group().count("\n") + 1


def paths(root):
    """(McCabe's number, name, file) of each function, as pmccabe counts them (a switch is one)."""
    told = subprocess.run(["pmccabe", *sorted(str(path) for path in root.glob("src/**/*.c"))], capture_output=True, text=True,
                          check=True).stdout
    for line in told.splitlines():
        cells = line.split("\t")
        yield int(cells[0]), cells[5].split(": ")[1], pathlib.Path(cells[5].split("(")[0])


def lines_of(root):
    return {path: path.read_text(encoding="utf-8") for path in check_headers.files_of(root)}


def measured(root):
    """[(what, number, bound or None)]"""
    rows = []
    for patch in sorted(root.glob("tests/patches/*.patch")):
        rows.append((f"files that `tests/patches/{patch.name}` edits", len(edited(patch.read_text(encoding="utf-8"))),
                     MOST_EDITED.get(patch.stem)))
    texts = lines_of(root)
    lengths = [(n, name, path) for path, text in texts.items() for name, n in functions(text)]
    longest, name, path = max(lengths)
    branched, most_branched, branched_in = max(paths(root))
    longest_macro, macro = max((n, name) for text in texts.values() for name, n in macros(text))
    fullest = max(check_headers.folders(root).values())
    rows += [("types that are defined twice", len(check_headers.twice(root)), 0),
             ("circles of files that include each other", len(check_headers.circles(root)), 0),
             ("files in the fullest folder", fullest, check_headers.MOST_FILES),
             (f"lines of the longest function, `{name}` of {path.relative_to(root)}", longest,
              LONG_FUNCTION),
             (f"ways through the one with most, `{most_branched}` of {branched_in.relative_to(root)} (McCabe's number)", branched, MOST_PATHS),
             (f"lines of the longest macro that is no list, `{macro}`", longest_macro, LONG_MACRO),
             ("lines of a function, median", int(statistics.median(n for n, *_ in lengths)), None),
             (f"files of more than {LONG_FILE} lines", sum(text.count("\n") > LONG_FILE for text in texts.values()), None)]
    return rows


def beyond(rows):
    return [f"{what}: {number}, {bound} at most" for what, number, bound in rows if bound is not None and number > bound]


def table(rows):
    told = "".join(f"| {what} | {number} | {'' if bound is None else bound} |\n" for what, number, bound in rows)
    return f"| what | number | at most |\n|---|---|---|\n{told}"


def self_test():
    patch = "--- a/src/one.c\n+++ b/src/one.c\n--- /dev/null\n+++ b/src/new.c\n+++ b/src/po/es.po\n+++ b/docs/a.md\n--- a/include/o.h\n+++ /dev/null\n"
    assert edited(patch) == ["include/o.h", "src/new.c", "src/one.c"], edited(patch)
    code = "static const int t[] = {\n    1,\n};\n\n/* Why. */\nstatic int long_head(int a,\n    int b)\n{\n    return 1;\n}\n#define A 1\nint f(void)\n{\n}\n"
    assert list(functions(code)) == [("long_head", 5), ("f", 3)], list(functions(code))
    assert list(macros("#define A(X) \\\n    X(1) \\\n    X(2)\n#define B(y) \\\n    (y)\n#define C 1\n")) == [("B", 2), ("C", 1)]
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        (root / "src/one").mkdir(parents=True)
        (root / "tests/patches").mkdir(parents=True)
        (root / "src/one/a.c").write_text(code + "\n" * LONG_FILE)
        (root / "tests/patches/doubt.patch").write_text(patch)
        rows = measured(root)
        assert beyond(rows) == ["files that `tests/patches/doubt.patch` edits: 3, 2 at most"], beyond(rows)
        assert rows[-1][1] == 1 and rows[-5][1] == 5 and rows[-4][1] == 1, rows


def main():
    self_test()
    root, mode = pathlib.Path(sys.argv[1]).resolve(), sys.argv[2:]
    page = root / "docs/house.md"
    text = page.read_text(encoding="utf-8")
    rows = measured(root)
    before, rest = text.split(BEGIN)
    kept, after = rest.split(END)
    if mode == ["--write"]:
        page.write_text(before + BEGIN + table(rows) + END + after, encoding="utf-8")
    elif mode == ["--check"]:
        wrong = beyond(rows) + list(difflib.unified_diff(kept.splitlines(), table(rows).splitlines(), "docs/house.md", "now", lineterm="", n=0))
        print("\n".join(wrong))
        return 1 if wrong else 0
    else:
        print(table(rows), end="")
    return 0


if __name__ == "__main__":
    sys.exit(main())
