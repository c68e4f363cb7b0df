#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""No output is an input, and no two outputs are one file.

usage: check_outputs.py SLOWLIFT SOURCE paper|none

Every command that writes is given as its output each file that it reads: by the same path, another spelling, a
symbolic link and a hard link. It must refuse before it computes, name the file, say what it is and what would be
right, and change not a byte. Read by this test with its own eyes only: bytes, names, exit codes.
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

SLOWLIFT, SOURCE, PAPER = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve(), sys.argv[3] == "paper"
MODELS = SOURCE / "models"
failures = calls = 0


def check(good, what):
    global failures
    if not good:
        failures += 1
        print("false:", what)


def snapshot(folder):
    return {str(path.relative_to(folder)): (path.is_dir() or path.read_bytes())
            for path in sorted(folder.rglob("*")) if not path.name.endswith(("-wal", "-shm"))}


def call(folder, words, typed=b"", **where):
    global calls
    calls += 1
    given = {"stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **where}
    if "stdin" not in where:
        given["input"] = typed
    return subprocess.run([SLOWLIFT, *map(str, words)], cwd=folder, env=ENVIRONMENT, **given)


ENVIRONMENT = dict(os.environ, SLOWLIFT_MODELS=str(MODELS), LC_ALL="C.UTF-8")


def spellings(folder, name):
    """The same file by other names; those that are links are made."""
    path = folder / name
    yield name
    yield "./" + name
    yield str(path)
    links = folder.parent / "links"
    shutil.rmtree(links, ignore_errors=True)
    links.mkdir()
    end = path.suffix  # a picture is known by the end of its name
    (links / ("soft" + end)).symlink_to(path)
    yield str(links / ("soft" + end))
    os.link(path, links / ("hard" + end))
    yield str(links / ("hard" + end))


def refused(folder, words, name, what):
    """`words` with {} for the output. Nothing is changed, and what is said is useful."""
    for spelling in spellings(folder, name):
        before = snapshot(folder)
        done = call(folder, [word.replace("{}", spelling) for word in words])
        said, about = done.stderr.decode(), " ".join(words).replace("{}", spelling)
        check(done.returncode == 2, f"{about}: ends with {done.returncode}: {said}")
        check(snapshot(folder) == before, f"{about}: a file was changed or made")
        check(what in said and os.path.basename(spelling) in said and "name another file" in said,
              f"{about}: {said!r} names the file and {what!r}")
        check(done.stdout == b"", f"{about}: nothing is printed")


def fresh(base):
    """What the commands read, in a folder of its own. The scene and what it refers to are of this folder."""
    folder = base / "work"
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    shutil.copy(MODELS / "scenes/way-wide.yaml", folder / "s.yaml")
    shutil.copytree(MODELS, folder / "own")
    shutil.copytree(SOURCE / "lessons", folder / "lessons")
    shutil.copy(MODELS / "scenes/way-wide.yaml", folder / "s.png")  # read as a scene all the same
    shutil.copy(MODELS / "prices/school.yaml", folder / "prices.yaml")
    (folder / "photo.jpg").write_bytes(b"no real photo")
    for words in (["log", "new", "l.db", "s.yaml", "--operator", "op"],
                  ["limits", "s.yaml", "--members", "40", "--part", "1/2", "-o", "one.part"],
                  ["limits", "s.yaml", "--members", "40", "--part", "2/2", "-o", "two.part"]):
        done = call(folder, words)
        check(done.returncode == 0, f"{words}: {done.stderr.decode()}")
    done = call(folder, ["log", "export", "l.db", "-o", "l.csv"])
    check(done.returncode == 0, f"export: {done.stderr.decode()}")
    return folder


def own_models(folder):
    return sorted(folder.glob("own/chemistry/*.yaml"))[0].relative_to(folder)


def inputs(base):
    folder = fresh(base)
    scene = "the scene that is read"
    for words in (["run", "s.yaml", "-o", "{}"], ["run", "s.yaml", "--csv", "-o", "{}"],
                  ["run", "s.yaml", "--json", "-o", "{}"], ["limits", "s.yaml", "--json", "-o", "{}"],
                  ["limits", "s.yaml", "--part", "1/2", "-o", "{}"], ["rank", "s.yaml", "-o", "{}"],
                  ["search", "s.yaml", "-o", "{}"], ["map", "s.yaml", "--arm", "powder + 3 %", "-o", "{}"],
                  ["plan", "s.yaml", "-o", "{}"], ["plan", "s.yaml", "--blind", "--key", "{}"]):
        refused(folder, words, "s.yaml", scene)
    # What a scene refers to.
    for name in ("own/chemistry/oxidation.yaml", "own/mixes/powder-3.yaml"):
        refused(folder, ["run", "s.yaml", "--models", "own", "-o", "{}"], name, "a model file that is read")
    # Parts that are added up, a form.
    refused(folder, ["limits", "--merge", "s.yaml", "one.part", "two.part", "-o", "{}"], "two.part", "a part that")
    form = next(iter(sorted((SOURCE / "models").rglob("*form*.yaml"))), None) or next(
        path for path in sorted(SOURCE.rglob("*.yaml")) if "kind: intake" in path.read_text(encoding="utf-8"))
    shutil.copy(form, folder / "form.yaml")
    refused(folder, ["limits", "s.yaml", "--person", "form.yaml", "-o", "{}"], "form.yaml", "the form that is read")
    # The log and what SQLite keeps beside it.
    for words in (["log", "export", "l.db", "-o", "{}"], ["log", "export", "l.db", "--json", "-o", "{}"],
                  ["compare", "l.db", "-o", "{}"]):
        refused(folder, words, "l.db", "the log that is used")
    for end in ("-wal", "-shm", "-journal"):
        done = call(folder, ["log", "export", "l.db", "-o", "l.db" + end])
        check(done.returncode == 2 and "a part of the log" in done.stderr.decode(),
              f"a result goes into l.db{end}: {done.returncode} {done.stderr.decode()}")
    # A reader that goes on without what it cannot read.
    for words in (["log", "list", ".", "-o", "{}"], ["log", "drift", ".", "-o", "{}"]):
        refused(folder, words, "l.db", "the log that is used")
    (folder / "class").mkdir()
    for group in ("class/group-1.yaml", "class/group-2.yaml"):
        done = call(folder, ["teach", "lessons/half-life/lesson.yaml", "--answers", group], typed=b"\nq\n")
        check(done.returncode == 0, f"answers: {done.stderr.decode()}")
    refused(folder, ["teach", "lessons/half-life/lesson.yaml", "--class", "class", "-o", "{}"], "class/group-1.yaml",
            "a file of answers that is read")
    for end in (".txt", ".csv", ".pdf", ".png"):
        done = call(folder, ["teach", "lessons/half-life/lesson.yaml", "-o", "no-class" + end])
        check(done.returncode == 2 and "without a class" in done.stderr.decode() and not (folder / ("no-class" + end)).exists(),
              f"a lesson without a class goes into no-class{end}: {done.returncode} {done.stderr.decode()}")
    # A file that is read and written is no other input.
    refused(folder, ["teach", "lessons/half-life/lesson.yaml", "--answers", "{}"], "lessons/half-life/lesson.yaml",
            "a lesson's file that is read")
    if PAPER:
        for words in (["picture", "s.png", "-o", "{}"], ["rank", "s.png", "-o", "{}"],
                      ["rank", "s.png", "--picture", "{}"], ["map", "s.png", "--arm", "powder + 3 %", "-o", "{}"]):
            refused(folder, words, "s.png", scene)
        shutil.copy(folder / "s.yaml", folder / "s.webp")
        refused(folder, ["picture", "s.webp", "-o", "{}"], "s.webp", scene)
        shutil.copy(folder / "l.db", folder / "l.png")
        refused(folder, ["compare", "l.png", "-o", "{}"], "l.png", "the log that is used")


def computes_nothing(base):
    """The refusal comes before the file is even parsed: one that would not parse is refused for being read."""
    folder = fresh(base)
    for name in ("broken.yaml", "broken.webp"):
        (folder / name).write_text("kind: scene\n  : [")
    refused(folder, ["run", "broken.yaml", "-o", "{}"], "broken.yaml", "the scene that is read")
    if PAPER:
        refused(folder, ["picture", "broken.webp", "-o", "{}"], "broken.webp", "the scene that is read")


def two_outputs(base):
    folder = fresh(base)
    (folder / "k.csv").write_text("an older key\n")
    for other in spellings(folder, "k.csv"):
        before = snapshot(folder)
        done = call(folder, ["plan", "s.yaml", "--blind", "--key", "k.csv", "-o", other])
        check(done.returncode == 2 and "named for two results" in done.stderr.decode() and snapshot(folder) == before,
              f"one file for plan and key ({other}): {done.returncode} {done.stderr.decode()}")
    done = call(folder, ["plan", "s.yaml", "--blind", "--key", "new.csv", "-o", "./new.csv"])
    check(done.returncode == 2 and not (folder / "new.csv").exists(), "one new file for plan and key")
    with open(folder / "k.csv", "ab") as out:
        done = call(folder, ["plan", "s.yaml", "--blind", "--key", "k.csv"], stdout=out)
    check(done.returncode == 2 and "standard output" in done.stderr.decode() and
          (folder / "k.csv").read_text() == "an older key\n", "the key replaces what is printed to")
    done = call(folder, ["plan", "s.yaml", "--blind", "--key", "/dev/null", "-o", "/dev/null"])
    check(done.returncode == 0, f"a device may be named twice: {done.stderr.decode()}")


def printed(base):
    """Standard output that goes into an input: `run s.yaml --csv >> s.yaml`."""
    folder = fresh(base)
    for words, name in ((["run", "s.yaml", "--csv"], "s.yaml"), (["log", "export", "l.db"], "l.db"),
                        (["cost", "prices.yaml", "--powder", "20g", "--developer", "40g"], "prices.yaml"),
                        (["teach", "lessons/half-life/lesson.yaml"], "lessons/half-life/lesson.yaml"),
                        (["check", "s.yaml"], "s.yaml")):
        before = snapshot(folder)
        with open(folder / name, "ab") as out:
            done = call(folder, words, stdout=out)
        check(done.returncode != 0 and snapshot(folder) == before and "what is printed goes into" in
              done.stderr.decode(), f"{words} >> {name}: {done.returncode} {done.stderr.decode()}")
    with open(folder / "out.txt", "wb") as out:
        done = call(folder, ["run", "s.yaml", "--csv", "-o", "/dev/stdout"], stdout=out)
    direct = call(folder, ["run", "s.yaml", "--csv"]).stdout
    check(done.returncode == 0 and (folder / "out.txt").read_bytes() == direct, "-o /dev/stdout is standard output")
    with open(folder / "out.txt", "ab") as out:
        call(folder, ["run", "s.yaml", "--csv", "-o", "/dev/stdout"], stdout=out)
    check((folder / "out.txt").read_bytes() == direct + direct, "-o /dev/stdout adds where the shell adds")
    with open(folder / "s.yaml", "rb") as source:
        before = snapshot(folder)
        done = call(folder, ["run", "/dev/stdin", "-o", "s.yaml"], stdin=source)
    check(done.returncode == 2 and snapshot(folder) == before, "what comes by standard input is an input")


def no_log_from_another_file(base):
    """A log is made or written to where another input lies."""
    folder = fresh(base)
    before = snapshot(folder)
    for words in (["log", "new", "s.yaml", "s.yaml", "--operator", "op"], ["log", "import", "l.csv", "l.csv"]):
        done = call(folder, words)
        check(done.returncode != 0 and snapshot(folder) == before, f"{words}: {done.returncode}")


def others_still_work(base):
    """What is no input is written as ever, over an older file too, and through a link."""
    folder = fresh(base)
    (folder / "old.csv").write_text("older\n")
    (folder / "link.csv").symlink_to("old.csv")
    done = call(folder, ["run", "s.yaml", "--csv", "-o", "link.csv"])
    check(done.returncode == 0 and (folder / "link.csv").is_symlink() and
          (folder / "old.csv").read_text().startswith("arm,"), "a link is written through")
    answers = folder / "group-1.yaml"
    for _ in range(2):
        done = call(folder, ["teach", "lessons/half-life/lesson.yaml", "--answers", "group-1.yaml"], typed=b"\nq\n")
        check(done.returncode == 0 and answers.exists(), f"answers are read and replaced: {done.stderr.decode()}")


def spanish(base):
    folder = fresh(base)
    done = call(folder, ["run", "s.yaml", "-o", "s.yaml", "--language", "es"])
    check("la escena que se lee" in done.stderr.decode(), f"in Spanish: {done.stderr.decode()}")


def main():
    with tempfile.TemporaryDirectory() as name:
        base = pathlib.Path(name)
        for part in (inputs, computes_nothing, two_outputs, printed, no_log_from_another_file, others_still_work,
                     spanish):
            part(base)
    print(f"{calls} calls, {failures} sentences are false")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
