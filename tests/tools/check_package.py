#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The Debian package, made anew: that it holds what a plain install has and what a desktop asks for, and no more, that Debian's own
checker finds no error, and that what it holds runs from where it is unpacked.

usage: check_package.py BUILD SOURCE
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

BUILD, SOURCE = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
PROGRAMS = ("usr/bin/slowlift", "usr/libexec/slowlift/slowlift-paper", "usr/libexec/slowlift/slowlift-watch")
BESIDE = ("usr/share/applications/slowlift.desktop", "usr/share/icons/hicolor/scalable/apps/slowlift.svg", "usr/share/man/man1/slowlift.1.gz",
          "usr/share/bash-completion/completions/slowlift", "usr/share/zsh/vendor-completions/_slowlift",
          "usr/share/fish/vendor_completions.d/slowlift.fish", "usr/share/locale/es/LC_MESSAGES/slowlift.mo",
          "usr/share/doc/slowlift/copyright", "usr/share/doc/slowlift/changelog.gz", "usr/share/doc/slowlift/changelog.md.gz",
          "usr/share/doc/slowlift/quick-start.en.pdf", "usr/share/doc/slowlift/quick-start.es.pdf")
SIZES = (16, 24, 32, 48, 64, 128, 256)
PLACES = {"models": "usr/share/slowlift/models", "lessons": "usr/share/slowlift/lessons", "docs": "usr/share/doc/slowlift"}
failures = []


def ok(sentence, good, seen=""):
    if not good:
        failures.append(sentence)
        print(f"false: {sentence}\n{seen[:1500]}")


def run(*words, **more):
    return subprocess.run([str(word) for word in words], capture_output=True, text=True, check=False, **more)


def wanted():
    files = set(PROGRAMS) | set(BESIDE)
    if shutil.which("rsvg-convert"):
        files |= {f"usr/share/icons/hicolor/{size}x{size}/apps/slowlift.png" for size in SIZES}
    for folder, place in PLACES.items():
        files |= {f"{place}/{path.relative_to(SOURCE / folder)}" for path in (SOURCE / folder).rglob("*") if path.is_file()}
    return files - {"usr/share/doc/slowlift/changelog.md"}  # it is there compressed


def check_held(package):
    held = {}
    for line in run("dpkg-deb", "-c", package).stdout.splitlines():
        mode, owner, _, _, _, name = line.split(maxsplit=5)
        if not mode.startswith("d"):
            held[name.removeprefix("./")] = mode
        ok(f"{name} belongs to root", owner == "root/root", owner)
        ok(f"nobody but root can change {name}", mode[5] == "-" and mode[8] == "-", mode)
    ok("it lacks nothing", wanted() <= set(held), str(sorted(wanted() - set(held))))
    ok("and holds no more", set(held) <= wanted(), str(sorted(set(held) - wanted())))
    ok("programs alone can be run", {name for name, mode in held.items() if "x" in mode} == set(PROGRAMS))


def check_said(package):
    told = dict(re.findall(r"^(\w[\w-]*): (.*)$", run("dpkg-deb", "-f", package).stdout, re.M))
    version = re.search(r"VERSION (\S+) LANGUAGES", (SOURCE / "CMakeLists.txt").read_text(encoding="utf-8")).group(1)
    ok("it has the project's version", told["Version"] == version and told["Package"] == "slowlift", str(told))
    ok("what it needs was asked of the programs", all(word in told["Depends"] for word in ("libsdl2", "libcairo2", "libsqlite3", "libyaml", "fonts-")),
       told["Depends"])
    if shutil.which("lintian"):
        found = run("lintian", "--allow-root", "--no-cfg", "--tag-display-limit", "0", package)
        ok("lintian finds no error and no warning", not re.search(r"^[EW]:", found.stdout, re.M), found.stdout + found.stderr)


def check_run(root):
    entry = dict(line.split("=", 1) for line in (root / BESIDE[0]).read_text(encoding="utf-8").splitlines() if "=" in line)
    ok("the entry's program and icon are in the package",
       (root / "usr/bin" / entry["Exec"].split()[0]).is_file() and (root / f"usr/share/icons/hicolor/scalable/apps/{entry['Icon']}.svg").is_file())
    ok("the entry speaks Spanish", all(f"{key}[es]" in entry for key in ("GenericName", "Comment", "Keywords")), str(entry))
    if shutil.which("desktop-file-validate"):
        done = run("desktop-file-validate", root / BESIDE[0])
        ok("the entry is one", done.returncode == 0 and not done.stdout, done.stdout)
    env = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "COLUMNS": "100", "HOME": str(root)}
    program = root / PROGRAMS[0]
    done = run(program, "run", "way-short", env=env, cwd="/")
    ok("it runs unpacked, by its own models", done.returncode == 0 and "Colour left" in done.stdout, done.stderr)
    done = run(program, "teach", "half-life", "--language", "es", env=env, cwd="/", stdin=subprocess.DEVNULL)
    ok("and teaches in Spanish, by its own lessons", "Paso 1 de" in done.stdout, done.stdout + done.stderr)
    done = run(program, "picture", "way-short", "-o", root / "sheet.png", env=env, cwd="/")
    ok("and draws", done.returncode == 0 and (root / "sheet.png").read_bytes().startswith(b"\x89PNG"), done.stderr)


def main():
    lacks = [word for word in ("cpack", "dpkg-deb", "dpkg-shlibdeps", "gzip") if not shutil.which(word)]
    if lacks:
        print(f"{', '.join(lacks)} not here: nothing was looked at")
        return 77
    with tempfile.TemporaryDirectory() as folder:
        made = run("cpack", "--config", BUILD / "CPackConfig.cmake", "-G", "DEB", "-B", folder, "-D", "CPACK_DEBIAN_COMPRESSION_TYPE=gzip", cwd=folder)
        packages = list(pathlib.Path(folder).glob("*.deb"))
        ok("one package is made", made.returncode == 0 and len(packages) == 1, made.stdout + made.stderr)
        if packages:
            check_held(packages[0])
            check_said(packages[0])
            root = pathlib.Path(folder) / "root"
            run("dpkg-deb", "-x", packages[0], root)
            check_run(root)
    print(f"{len(failures)} false")
    return 1 if failures else 0


sys.exit(main())
