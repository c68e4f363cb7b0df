#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""How the sources hang together: every header compiles alone, all of them together, and in the other order; a type has one
definition; no circle of files; no folder too full to be looked through. A header that is the first thing of a source of its name compiles alone by that.

    check_headers.py SOURCE COMPILER [FLAG...]

The flags: where headers of libraries lie. Self-test: what is found is found in a house built to be wrong, too.
"""
import collections
import pathlib
import re
import subprocess
import sys
import tempfile

MOST_FILES = 30  # of a folder, without its list of sources
DEFINITIONS = (r"\btypedef\s+(?:struct|enum|union)\s+(sl_\w+)\s*\{", r"(?m)^\}\s*(sl_\w+);",
               r"(?m)^typedef\s+(?!struct|enum|union)(?:const\s+)?\w[\w ]*?\b(sl_\w+)\s*(?:\([^)]*\))?;",
               r"(?m)^(?:struct|enum|union)\s+(sl_\w+)\s*\{")


def files_of(root):
    return sorted([*root.glob("src/**/*.[ch]"), *root.glob("src/**/*.def"), *root.glob("include/**/*.h")])


def without_comments(text):
    return re.sub(r"//[^\n]*", "", re.sub(r"/\*.*?\*/", "", text, flags=re.S))


def twice(root):
    where = collections.defaultdict(set)
    for path in files_of(root):
        text = without_comments(path.read_text(encoding="utf-8"))
        for pattern in DEFINITIONS:
            for name in re.findall(pattern, text):
                where[name].add(str(path.relative_to(root)))
    return [f"{name} is defined in {', '.join(sorted(files))}" for name, files in sorted(where.items()) if len(files) > 1]


def included(path, root):
    for name in re.findall(r'(?m)^\s*#\s*include\s+"([^"]+)"', path.read_text(encoding="utf-8")):
        for folder in (root / "src", root / "include"):
            if (folder / name).is_file():
                yield folder / name


def circles(root):
    """Headers that come back to themselves by what they include."""
    state, found = {}, []

    def visit(path, way):
        if state.get(path) == "open":
            found.append(" -> ".join(str(p.relative_to(root)) for p in way[way.index(path):] + [path]))
            return
        if path in state:
            return
        state[path] = "open"
        for other in included(path, root):
            visit(other, way + [path])
        state[path] = "done"

    for path in files_of(root):
        visit(path, [])
    return found


def folders(root):
    """{folder of src: how many files it holds}"""
    return {folder: len([path for path in folder.iterdir() if path.is_file() and path.name != "CMakeLists.txt"])
            for folder in sorted({path.parent for path in files_of(root) if root / "src" in path.parents})}


def too_full(root):
    for folder, n in folders(root).items():
        if n > MOST_FILES:
            yield f"{folder.relative_to(root)} holds {n} files, {MOST_FILES} at most"


def compiles(headers, compiler, flags, root):
    """What the compiler says of a file that includes these; empty: nothing."""
    with tempfile.NamedTemporaryFile("w", suffix=".c", encoding="utf-8") as file:
        file.write("".join(f'#include "{header}"\n' for header in headers))
        file.flush()
        done = subprocess.run([compiler, "-std=gnu17", "-fsyntax-only", "-Wall", "-Wextra", "-Werror", "-Wno-unused-variable",
                               "-Wno-unused-const-variable", "-Wno-unused-function", f"-I{root}/src", f"-I{root}/include",
                               "-D_GNU_SOURCE", *flags, file.name], capture_output=True, text=True, check=False)
        return done.stderr.strip()


def headers_of(root):
    for path in files_of(root):
        if path.suffix == ".h":
            base = root / "src" if root / "src" in path.parents else root / "include"
            yield str(path.relative_to(base))


def comes_first(header, root):
    """Whether some source of the header's name opens with it."""
    for path in root.glob(f"src/**/{pathlib.Path(header).stem}.c"):
        first = re.search(r'(?m)^\s*#\s*include\s+(.*)$', path.read_text(encoding="utf-8"))
        if first and first.group(1) == f'"{header}"':
            return True
    return False


def self_test():
    with tempfile.TemporaryDirectory() as folder:
        root = pathlib.Path(folder)
        (root / "src/one").mkdir(parents=True)
        (root / "include").mkdir()
        (root / "src/one/a.h").write_text('#include "one/b.h"\ntypedef struct sl_thing {\n    int a;\n} sl_thing;\n')
        (root / "src/one/b.h").write_text('#include "one/a.h"\nint f(sl_nothing *n);\n')
        (root / "src/one/c.c").write_text("typedef enum sl_thing { SL_THING } sl_thing;\n")
        for i in range(MOST_FILES):
            (root / f"src/one/more{i}.c").write_text("")
        found = [twice(root), circles(root), list(too_full(root)), compiles(["one/b.h"], sys.argv[2], [], root)]
        assert all(found), found


def main():
    self_test()
    root, compiler, flags = pathlib.Path(sys.argv[1]).resolve(), sys.argv[2], sys.argv[3:]
    wrong = twice(root) + circles(root) + list(too_full(root))
    headers = list(headers_of(root))
    alone = [[header] for header in headers if not comes_first(header, root)]
    for one in alone + [headers, headers[::-1]]:
        said = compiles(one, compiler, flags, root)
        if said:
            wrong.append(f"{one[0] if len(one) == 1 else 'all headers together'}: {said[:600]}")
    for line in wrong:
        print(line)
    print(f"{len(headers)} headers, {len(alone)} of them tried alone here")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
