# SPDX-License-Identifier: GPL-3.0-or-later
"""Outlines of what is printed: every sheet of a pack, from its HTML, and the words of pictures, from their PDF."""
import shutil
import subprocess

import calls
import reader

PACKS = {  # scene: options of its pack
    "way-wide": ["--repeats", "1", "--people", "2"],
    "eight-arms": ["--repeats", "2", "--people", "4", "--blind"],
    "twice": ["--repeats", "1", "--people", "2", "--ladder", "5min,10min"],
    "no-goal": ["--repeats", "1", "--looks", "5min,10min"],
    "head": ["--repeats", "1"],
}
MEMBERS = ["--members", "100", "--threads", "1"]


def refusal(net, language, words, folder):
    """The lines of a call that gives no file, or None."""
    code, out, err = net.run(["--language", language, *words], folder, None, "")
    if code == 0:
        return None
    return [f"exit {code}"] + [f"error {line}" for line in (err + out).split("\n") if line.strip()]


def pack(net, scene, folder):
    file, options = calls.SCENES[scene][0], PACKS[scene]
    out = {}
    for language in calls.LANGUAGES:
        made = folder / "pack"
        shutil.rmtree(made, ignore_errors=True)
        no = refusal(net, language, ["pack", file, *options, "-o", "pack"], folder)
        if no is not None:
            out[f"pack · {language}"] = no
            continue
        for sheet in sorted(made.glob("*.html")):
            pages = len(list(made.glob(f"{sheet.stem}-*.svg")))
            out[f"{sheet.stem} · {language}"] = [f"pages {pages}"] + reader.outline_of_html(
                sheet.read_text(), net.cautions[language])
    return out


def words_of_pdf(path):
    text = subprocess.run(["pdftotext", "-raw", "-enc", "UTF-8", str(path), "-"], capture_output=True, text=True, check=True).stdout
    return [f"drawn {reader.shortened(line.strip())}" for line in text.replace("\f", "\n").split("\n") if line.strip()]


def drawings(scene):
    file, arm, zone = calls.SCENES[scene]
    return {"sheet": ["picture", file, "--at", "0min,10min,20min"],
            "rank": ["rank", file, *MEMBERS, "--zone", zone],
            "map": ["map", file, "--arm", arm]}


def drawn(net, scene, folder):
    out = {}
    for name, words in drawings(scene).items():
        for language in calls.LANGUAGES:
            made = folder / f"{name}.pdf"
            made.unlink(missing_ok=True)
            no = refusal(net, language, [*words, "-o", made.name], folder)
            out[f"{name} · {language}"] = no if no is not None else words_of_pdf(made)
    return out


def seen(net, folder):
    out = {}
    for language in calls.LANGUAGES:
        shutil.copyfile(folder / "log" / "ladder-2.db", folder / "kept.db")
        no = refusal(net, language, ["compare", "kept.db", "-o", "seen.pdf"], folder)
        out[f"seen · {language}"] = no if no is not None else words_of_pdf(folder / "seen.pdf")
    return out


def outlines(net):
    """{name: what makes its sections in a folder}"""
    jobs = {f"pack/{scene}": (lambda folder, scene=scene: pack(net, scene, folder)) for scene in PACKS}
    if shutil.which("pdftotext"):
        jobs |= {f"drawn/{scene}": (lambda folder, scene=scene: drawn(net, scene, folder)) for scene in calls.SCENES}
        jobs["drawn/seen"] = lambda folder: seen(net, folder)
    return jobs
