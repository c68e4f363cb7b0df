# SPDX-License-Identifier: GPL-3.0-or-later
"""The built programs are what the flags of CMakeLists.txt promise: readelf says so, not the command line.
usage: check_hardening.py FORTIFIED(yes|no) PROGRAM..."""
import re
import subprocess
import sys


def readelf(*arguments):
    done = subprocess.run(["readelf", "-W", *arguments], capture_output=True, text=True, check=True)
    return done.stdout


def faults(program, fortified):
    header, segments = readelf("-h", program), readelf("-l", program)
    dynamic, symbols = readelf("-d", program), readelf("--dyn-syms", program)
    yield "position-independent", "Position-Independent Executable" in header or "PIE" in dynamic
    yield "read-only after relocation", "GNU_RELRO" in segments
    yield "bound at the start", re.search(r"BIND_NOW|\bNOW\b", dynamic) is not None
    yield "no stack that runs", re.search(r"GNU_STACK.* RW +0x", segments) is not None
    yield "no segment both written and run", "RWE" not in segments
    guarded, marked, ours = own_functions(program)
    yield "guarded stacks", guarded > ours / 20  # those that keep an array
    if "X86-64" in header:
        yield "marked branch targets", marked > ours / 2  # GCC leaves out what no pointer reaches
    if fortified:
        yield "fortified calls", re.search(r"__\w+_chk@", symbols.replace("__stack_chk_fail", "")) is not None


def own_functions(program):
    """Of the functions of this house: how many guard their stack, begin with a mark, and are there."""
    done = subprocess.run(["objdump", "-d", "--no-show-raw-insn", program], capture_output=True, text=True,
                          check=True)
    bodies = re.findall(r"^[0-9a-f]+ <(?:sl_\w+|main)>:\n((?:.+\n)*)", done.stdout, re.M)
    return (sum("__stack_chk_fail" in body for body in bodies),
            sum("endbr64" in body.partition("\n")[0] for body in bodies), len(bodies))


def main():
    bad = [f"{program}: lacks: {what}" for program in sys.argv[2:]
           for what, there in faults(program, sys.argv[1] == "yes") if not there]
    print("\n".join(bad) or f"{len(sys.argv) - 2} programs are hardened")
    return 1 if bad else 0


sys.exit(main())
