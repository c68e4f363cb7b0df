# SPDX-License-Identifier: GPL-3.0-or-later
"""`slowlift --version --all` tells what a report of a fault needs, and the models' hash follows the models.
usage: check_version.py PROGRAM SOURCE"""
import hashlib
import os
import re
import shutil
import subprocess
import sys
import tempfile

PROGRAM, SOURCE = sys.argv[1:3]
KINDS = ("charts", "chemistry", "dyes", "forms", "hair", "mixes", "prices", "scenes")


def tell(models, **more):
    environment = {**os.environ, "SLOWLIFT_MODELS": models, "SLOWLIFT_LANGUAGE": "en", **more}
    done = subprocess.run([PROGRAM, "--version", "--all"], capture_output=True, env=environment, check=False)
    assert done.returncode == 0 and done.stderr == b"", done
    return done.stdout.decode("utf-8")


def hash_of(models):
    """The same sum, made here: kind, name and text of each file, kinds and names in the order of bytes."""
    whole = hashlib.sha256()
    for kind in KINDS:
        folder = os.path.join(models, kind)
        for name in sorted(n for n in os.listdir(folder) if n.endswith(".yaml")) if os.path.isdir(folder) else []:
            with open(os.path.join(folder, name), "rb") as file:
                whole.update(kind.encode() + b"\0" + name.encode() + b"\0" + file.read())
    return whole.hexdigest()


def main():
    with tempfile.TemporaryDirectory() as folder:
        models = folder + "/models"
        shutil.copytree(SOURCE + "/models", models)
        told = tell(models)
        for wanted in (r"slowlift \d+\.\d+\.\d+", r"build +\w+", r"compiler +\w+ [\d.]+", r"flags +\S", r"hardening +\S",
                       r"libraries +GSL [\d.]+ / [\d.]+", r" +libyaml [\d.]+ / [\d.]+", r" +SQLite [\d.]+ / [\d.]+",
                       r" +libunistring [\d.]+ / [\d.]+", r"system +\S", r"language +en"):
            assert re.search("^" + wanted, told, re.M), (wanted, told)
        assert f"models     {models} (" in told and hash_of(models) in told, (told, hash_of(models))
        with open(models + "/hair/prelight-9.yaml", "a", encoding="utf-8") as file:
            file.write("# changed\n")
        assert tell(models) != told and hash_of(models) in tell(models)
        odd = tell(models, LANG="\x1b[2J\nmodels none")
        assert "\x1b" not in odd and "LANG=\\u{1B}[2J\\u{A}models none" in odd, odd
        plain = subprocess.run([PROGRAM, "--version"], capture_output=True, text=True, check=True).stdout
        assert len(plain.splitlines()) == 2, plain
    print("the build, its libraries and its models are told")


main()
