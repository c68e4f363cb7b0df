#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The net: an outline of all that slowlift says, kept in outlines/, and the reasons of every change of it.

usage: net.py check PART BUILD [quick]    what differs, and outlines whose hash no file of differences/ names
       net.py renew BUILD [PART...]       writes the outlines anew; REASON="..." in the environment is needed
       net.py show PART NAME BUILD        one outline as it is now (to look at while working)

Parts: commands (of each scene), general (those without a scene), sheets (of a pack, and pictures' words), window (of scenes,
lessons, days), ensemble (to the bit). An outline is a file for each command and scene, so
that two people's changes seldom meet. quick: 100 columns alone, of some scenes.
"""
import concurrent.futures
import datetime
import difflib
import fcntl
import hashlib
import os
import pathlib
import pty
import re
import shutil
import struct
import subprocess
import sys
import tempfile
import termios
import threading

sys.path.append(str(pathlib.Path(__file__).resolve().parent / "../tools"))
import calls
import patience
import reader
import sheets
import window

HERE = pathlib.Path(__file__).resolve().parent
SOURCE = HERE.parents[1]
OUTLINES = HERE / "outlines"
DIFFERENCES = HERE / "differences"


class Net:
    END = b"\x00end of what it said\x00"

    def __init__(self, build):
        self.build = pathlib.Path(build).resolve()
        self.program = str(self.build / "slowlift")
        self.cautions = {language: reader.Cautions(SOURCE, language) for language in calls.LANGUAGES}
        self.version = subprocess.run([self.program, "--version"], capture_output=True, text=True).stdout.split()[1]

    def place(self, folder):
        """A folder that looks like the source's, so that no path of this machine is printed."""
        folder = pathlib.Path(folder)
        for name in ("models", "lessons"):
            (folder / name).symlink_to(SOURCE / name)
        (folder / "scenes").symlink_to(HERE / "scenes")
        (folder / "forms").symlink_to(SOURCE / "models" / "forms")
        (folder / "log").symlink_to(SOURCE / "tests" / "files" / "log")
        return folder

    def environment(self, folder):
        return {"PATH": os.environ.get("PATH", "/usr/bin:/bin"), "HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "TZ": "UTC",
                "LC_ALL": "C.UTF-8", "NO_COLOR": "1", "TERM": "dumb", "SLOWLIFT_MODELS": "models", "SLOWLIFT_SAY": "kinds"}

    def run(self, words, folder, width, typed):
        """(exit, stdout, stderr); with a width stdout is a terminal so wide."""
        command = [self.program, *words]
        if width is None:
            done = patience.run(command, cwd=folder, env=self.environment(folder), input=typed, text=True, capture_output=True)
            return done.returncode, done.stdout, done.stderr
        ours, theirs = pty.openpty()
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 50, width, 0, 0))
        mode = termios.tcgetattr(theirs)
        mode[1] &= ~termios.OPOST
        termios.tcsetattr(theirs, termios.TCSANOW, mode)
        with tempfile.TemporaryFile("w+") as said, tempfile.TemporaryFile("w+") as keys:
            keys.write(typed)
            keys.seek(0)
            child = subprocess.Popen(command, cwd=folder, env=self.environment(folder), stdin=keys, stdout=theirs, stderr=said)
            # Our own mark behind its last byte: a terminal closed at once can lose what is still on its way. A
            # program that hangs is ended by the limit of the whole test.
            ended = threading.Thread(target=lambda: (child.wait(), os.write(theirs, self.END)))
            ended.start()
            text = b""
            while not text.endswith(self.END):
                text += os.read(ours, 65536)
            ended.join()
            os.close(ours)
            os.close(theirs)
            said.seek(0)
            return child.returncode, text[:-len(self.END)].decode(), said.read()

    def masked(self, text, call, folder):
        text = text.replace(str(folder), "<folder>").replace(str(SOURCE), "<source>").replace(f"slowlift {self.version}", "slowlift <version>")
        for pattern, word in call.masks:
            text = re.sub(pattern, word, text)
        return text

    def outline(self, call, folder, language, width):
        """The lines of one call."""
        for old, new in call.copies:
            for path in folder.glob(new + "*"):  # with a journal, if one was left
                path.unlink()
            shutil.copyfile(folder / old, folder / new)
        terminal = width if call.has_widths() else None
        code, out, err = self.run(["--language", language, *call.words], folder, terminal, call.typed)
        out, err = (self.masked(text, call, folder) for text in (out, err))
        lines = []
        if code != 0:
            lines.append(f"exit {code}")
        lines += [f"error {reader.shortened(line)}" for line in err.split("\n") if line.strip()]
        if out.strip():
            lines += self.said(call, out, width, self.cautions[language], self.cautions["en"])
        for name in call.outputs:
            made = folder / name
            if made.exists():
                lines += [f"file {name}"] + reader.outline_of_csv(made.read_text())
                made.unlink()
        return [reader.with_kinds(line) for line in lines]

    @staticmethod
    def said(call, out, width, cautions, english):
        if call.form == "csv":
            return reader.outline_of_csv(out)
        if call.form == "json":
            return reader.outline_of_json(out, english)
        if call.form == "lines":
            return reader.outline_of_lines(out)
        if call.form == "bare":
            cautions = type("None", (), {"put": staticmethod(lambda text: text)})
        by_terminal = call.words and call.words[0] == "run"
        return reader.outline_of_text(out, call.width or (width if by_terminal else 100), cautions)

    def sections(self, called, quick):
        """The outline of a file: {section: lines}, each call in both languages and widths. Each of the four goes
        through the calls in a folder of its own, because some write what others read."""
        told = {}
        for language in calls.LANGUAGES:
            for width in calls.WIDTHS[-1:] if quick else calls.WIDTHS:
                with tempfile.TemporaryDirectory() as name:
                    folder = self.place(name)
                    for call in called:
                        if width == calls.WIDTHS[-1] or call.has_widths():
                            told[call.name, language, width] = self.outline(call, folder, language, width)
        return self.put_together(called, told)

    def put_together(self, called, told):
        out = {}
        for call in called:
            for language in calls.LANGUAGES:
                plain = None  # what the narrower one, or the other language of a machine's form, is told against
                for width in reversed(calls.WIDTHS):
                    lines = told.get((call.name, language, width))
                    if lines is None:
                        continue
                    name = f"{call.name} · {language}" + (f" {width}" if call.has_widths() else "")
                    base = plain or (f"{call.name} · en" if call.form in ("csv", "json") and language != "en" else None)
                    out[name] = self.beside(base, out, lines)
                    plain = plain or name
        return out

    @staticmethod
    def beside(base, out, lines):
        """Told in full, or as what differs from the section `base`."""
        changes = reader.as_changes(out[base], lines) if base is not None else None
        if changes is None:
            return lines
        return [f"as {base}" + (", but" if changes else "")] + changes


def written(sections):
    return "".join(f"== {name}\n" + "".join(line + "\n" for line in lines) for name, lines in sections.items())


def read(text):
    """{section: lines} of what written() wrote."""
    out = {}
    for line in text.split("\n")[:-1]:
        if line.startswith("== "):
            out[line[3:]] = []
        else:
            out[next(reversed(out))].append(line)
    return out


def scene_outlines(net, quick):
    jobs = {}
    for scene in calls.QUICK_SCENES if quick else calls.SCENES:
        for command, called in calls.of_scene(scene).items():
            jobs[f"{command}/{scene}"] = lambda called=called: net.sections(called, quick)
    return jobs


def general_outlines(net, quick):
    return {f"{command}/{what}": (lambda called=called: net.sections(called, quick))
            for (command, what), called in calls.of_none().items() if not quick or command not in calls.SLOW}


def in_a_folder(net, jobs):
    def made(job):
        with tempfile.TemporaryDirectory() as folder:
            sections = job(net.place(folder))
            return {name: [reader.with_kinds(line) for line in lines] for name, lines in sections.items()}
    return {name: (lambda job=job: made(job)) for name, job in jobs.items()}


def sheet_outlines(net, quick):
    return in_a_folder(net, sheets.outlines(net))


def window_outlines(net, quick):
    return in_a_folder(net, window.outlines(net))


def counted(net, file, threads):
    done = subprocess.run([net.build / "net_ensemble", SOURCE / "models", file, "640", str(threads)], capture_output=True,
                          text=True, check=True)
    return done.stdout.splitlines()


def count(net, file):
    one, two = (counted(net, file, threads) for threads in (1, 2))
    return {"one thread": one, "two threads": ["as one thread"] if one == two else two}


def ensemble_outlines(net, quick):
    return {scene: (lambda file=file: count(net, file)) for scene, file in
            (("way-wide", SOURCE / "models/scenes/way-wide.yaml"), ("twice", HERE / "scenes/twice.yaml"))}


PARTS = {"commands": scene_outlines, "general": general_outlines, "sheets": sheet_outlines, "window": window_outlines,
         "ensemble": ensemble_outlines}


def why_not(part, build):
    """Why a part cannot be looked at here, or None."""
    if part == "window" and not (pathlib.Path(build) / "slowlift-watch").exists():
        return "the window is not built"
    if part == "window" and not window.has_the_face():
        return "fonts-inter is not installed, and boxes hang on the typeface"
    if part == "sheets" and not (pathlib.Path(build) / "slowlift-paper").exists():
        return "the paper is not built"
    if part == "ensemble" and " fma " not in pathlib.Path("/proc/cpuinfo").read_text():
        return "another kind of processor: its last bits differ"
    return None


def made(part, net, only=None, quick=False):
    """{name: {section: lines}} of one part, two at a time."""
    jobs = {name: job for name, job in PARTS[part](net, quick).items() if only is None or name == only}
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        waiting = {name: pool.submit(job) for name, job in jobs.items()}
        return {name: future.result() for name, future in waiting.items()}


def kept(part):
    folder = OUTLINES / part
    return {str(path.relative_to(folder))[: -len(".txt")]: path.read_text() for path in folder.rglob("*.txt")} if folder.exists() else {}


def sha(text):
    return hashlib.sha256(text.encode()).hexdigest()


def named():
    """Every (outline, hash) that a file of differences/ names."""
    return {tuple(line.split()[1:3]) for path in DIFFERENCES.glob("*.md") for line in path.read_text().splitlines()
            if line.startswith("- ") and len(line.split()) == 3}


def tell(part, name, old, new):
    lines = list(difflib.unified_diff(old, new, f"kept/{part}/{name}", f"now/{part}/{name}", "", "", 1, ""))
    print("\n".join(lines[:40] + ([f"… {len(lines) - 40} lines more"] if len(lines) > 40 else [])))


def check(part, build, how="all"):
    if why_not(part, build) is not None:
        print(why_not(part, build))
        return 77
    before, now = kept(part), made(part, Net(build), quick=how == "quick")
    names = before.keys() | now.keys() if how == "all" else now.keys()
    reasons = named()
    false = 0
    for name in sorted(names):
        old, new = before.get(name, ""), now.get(name, {})
        sections = {s: lines for s, lines in read(old).items() if how == "all" or s in new}
        if sections != new or (how == "all" and old != written(new)):
            false += 1
            tell(part, name, written(sections).splitlines(), written(new).splitlines())
        elif (f"{part}/{name}", sha(old)) not in reasons:
            false += 1
            print(f"{part}/{name}: no file of tests/net/differences names {sha(old)}")
    print(f"{len(now)} outlines, {false} differ")
    if false:
        print('when it is meant: REASON="what is said now, and why" cmake --build BUILD --target net')
    return 1 if false or not now else 0


def renew(build, parts):
    reason = os.environ.get("REASON", "").strip()
    net, reasons = Net(build), named()
    changed = []
    for part in parts:
        if why_not(part, build) is not None:
            print(f"{part} stays as it is: {why_not(part, build)}")
            continue
        before, now = kept(part), {name: written(sections) for name, sections in made(part, net).items()}
        for name in before.keys() - now.keys():
            (OUTLINES / part / f"{name}.txt").unlink()
        for name, text in now.items():
            path = OUTLINES / part / f"{name}.txt"
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text)
            if before.get(name) != text or (f"{part}/{name}", sha(text)) not in reasons:
                changed.append((f"{part}/{name}", sha(text)))
    if not changed:
        print("nothing differs")
        return 0
    if not reason:
        print(f'{len(changed)} outlines are new in tests/net/outlines; look at them (git diff), then give the reason:\n'
              'REASON="what is said now, and why" cmake --build BUILD --target net')
        return 1
    return keep_reason(reason, dict(changed))


def keep_reason(reason, changed):
    slug = re.sub(r"[^a-z0-9]+", "-", reason.lower()).strip("-")[:60].strip("-")
    path = DIFFERENCES / f"{datetime.date.today().isoformat()}-{slug}.md"
    DIFFERENCES.mkdir(exist_ok=True)
    if path.exists():  # the same reason, renewed once more
        changed = dict(line.split()[1:3] for line in path.read_text().splitlines() if line.startswith("- ")) | changed
    path.write_text(reason + "\n\n" + "".join(f"- {name} {word}\n" for name, word in sorted(changed.items())))
    print(f"{len(changed)} outlines: {path.relative_to(SOURCE)}")
    return 0


def main():
    what, *given = sys.argv[1:]
    if what == "check":
        return check(*given)
    if what == "show":
        part, name, build = given
        print(written(made(part, Net(build), name)[name]), end="")
        return 0
    return renew(given[0], given[1:] or list(PARTS))


if __name__ == "__main__":
    sys.exit(main())
