# SPDX-License-Identifier: GPL-3.0-or-later
"""Outlines of the window: after each key page and panel, every word with style and place, every part and control."""
import re
import subprocess

import calls
import reader

SIZE = "1280x800"
WALKS = {  # scene: keys
    "way-wide": "Return,C,C,W,A,S,E,4,E,F,Escape,N,Escape,M,Escape,P,S,Escape,G,Escape,K,Escape,F1,Escape,Tab,Right,shift+Right,B",
    "head": "Return,C,W,E,N,Escape,M,Escape,F",
    "twice": "Return,C,2,E,W,Right,M",
}


def has_the_face():
    """Boxes hang on the typeface; the outlines were made with Debian 12's fonts-inter."""
    try:
        return "Inter" in subprocess.run(["fc-list", ":family=Inter"], capture_output=True, text=True).stdout
    except FileNotFoundError:
        return False


def walk(net, scene, folder):
    out = {}
    for language in calls.LANGUAGES:
        code, shown, err = net.run(["--language", language, "watch", "--size", SIZE, "--say", WALKS[scene], calls.SCENES[scene][0]],
                                  folder, None, "")
        if code != 0:
            out[f"{scene} · {language}"] = [f"exit {code}"] + [f"error {line}" for line in err.split("\n") if line.strip()]
            continue
        steps = re.split(r"^== (.*)\n", shown, flags=re.M)[1:]
        told = {}  # the step before, in full
        for number, (key, text) in enumerate(zip(steps[::2], steps[1::2])):
            lines = [reader.shortened(net.cautions[language].put(line)) for line in text.split("\n")[:-1]]
            name = f"{number} {key} · {language}"
            out[name] = net.beside(next(iter(told), None), told, lines)
            told = {name: lines}
    return out


def outlines(net):
    return {scene: (lambda folder, scene=scene: walk(net, scene, folder)) for scene in WALKS}
