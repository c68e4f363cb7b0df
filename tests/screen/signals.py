#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Signals: a terminal is left as it was found, whatever ends the day but kill -9; and a file that may not
grow is a write that failed, in each of the three programs, not a death.

usage: signals.py BUILD MODELS
"""
import os
import pty
import resource
import select
import signal
import subprocess
import sys
import tempfile
import termios

sys.path.append(os.path.join(os.path.dirname(os.path.abspath(__file__)), "../tools"))
import patience  # noqa: E402

# What asks for an end: the day is left in order, then the signal has its way.
ASKING = ("SIGTERM", "SIGHUP", "SIGINT", "SIGQUIT", "SIGUSR1", "SIGXCPU")
FAULTS = ("SIGSEGV", "SIGABRT")
CAN = ("PIPE", "XFSZ")


class Day:
    """The day on a terminal that this test keeps open, so that its settings can be read after the end."""

    def __init__(self, build, log, **how):
        self.end, self.side = pty.openpty()
        self.before = termios.tcgetattr(self.side)
        self.text = b""
        child = dict(os.environ, TERM="xterm", SLOWLIFT_LANGUAGE="en")
        how = {"stdout": self.side, "stderr": self.side, **how}
        self.program = subprocess.Popen([os.path.join(build, "slowlift"), "day", log], stdin=self.side, env=child,
                                        start_new_session=True, restore_signals=True, **how)

    def read(self, seconds):
        if select.select([self.end], [], [], seconds)[0]:
            self.text += os.read(self.end, 65536)

    def until(self, good, what):
        patience.until(good, lambda: f"{what}\n...{self.text[-600:]}", turn=0.05, pause=self.read)

    def is_raw(self):
        return not termios.tcgetattr(self.side)[3] & (termios.ICANON | termios.ECHO)

    def is_as_found(self):
        return termios.tcgetattr(self.side) == self.before

    def is_stopped(self):
        """As a shell asks it: called back any sooner, the program would stop after the call and wait for ever."""
        return os.waitid(os.P_PID, self.program.pid, os.WSTOPPED | os.WNOHANG) is not None

    def begin(self):
        self.until(lambda: self.is_raw() and b"Was the sound heard?" in self.text, "the day never began")
        return self

    def ended(self):
        self.until(lambda: self.program.poll() is not None, "the day does not end")
        while select.select([self.end], [], [], 0.1)[0]:
            self.read(0.1)
        return self.program.returncode

    def close(self):
        os.close(self.end)
        os.close(self.side)


def new_log(build, models, folder):
    log = os.path.join(folder, "day.db")
    subprocess.run([os.path.join(build, "slowlift"), "log", "new", log,
                    os.path.join(models, "scenes", "eight-arms.yaml"), "--operator", "op-1"],
                   check=True, stdout=subprocess.DEVNULL)
    return log


def by_signal(build, log):
    for name in ASKING + FAULTS:
        day = Day(build, log).begin()
        day.program.send_signal(getattr(signal, name))
        code = day.ended()
        wanted = 4 if name == "SIGINT" else -getattr(signal, name)  # the guide's "Exit codes"
        assert code == wanted or (name in FAULTS and code != 0), f"{name}: ended with {code}"
        assert day.is_as_found(), f"{name} leaves the terminal raw"
        shown = day.text[day.text.rindex(b"\x1b[J"):]
        assert b"STOP (S)" not in shown, f"{name}: the foot of the screen stays\n{shown}"
        assert (b"The clock goes on" in day.text) == (name in ASKING), f"{name}: {day.text[-400:]}"
        day.close()


def twice(build, log):
    """A program that cannot end in order, here because its output is held up, ends by the second signal."""
    day = Day(build, log).begin()
    day.program.send_signal(signal.SIGTERM)
    day.program.send_signal(signal.SIGTERM)
    assert day.ended() == -signal.SIGTERM and day.is_as_found()
    day.close()


def put_aside(build, log):
    """Stopped, the terminal is the shell's; called back, keys are keys again."""
    day = Day(build, log).begin()
    day.program.send_signal(signal.SIGTSTP)
    day.until(day.is_stopped, "it is not put aside")
    assert day.is_as_found(), "put aside, the terminal stays raw"
    day.program.send_signal(signal.SIGCONT)
    day.until(day.is_raw, "called back, keys need Enter")
    os.write(day.end, b"q")
    assert day.ended() == 0 and day.is_as_found()
    day.close()


def pipe_closed(build, log):
    """Keys from the terminal, words into a pipe that nobody reads any more."""
    out, into = os.pipe()
    day = Day(build, log, stdout=into, stderr=subprocess.DEVNULL)
    os.close(into)
    day.until(day.is_raw, "the day never began")
    os.close(out)
    os.write(day.end, b"l")
    assert day.ended() == 0 and day.is_as_found()
    day.close()


def by_itself(build, log):
    """Left by its key, by Ctrl-C and Ctrl-D, which are keys here, and with a log that cannot be opened."""
    for key in b"q\x03\x04":
        day = Day(build, log).begin()
        os.write(day.end, bytes([key]))
        assert day.ended() == 0 and day.is_as_found(), key
        day.close()
    day = Day(build, log + ".none")
    assert day.ended() == 1 and day.is_as_found()
    day.close()


def hung_up(build, log):
    """The terminal itself goes: the program ends, and soon."""
    child, end = pty.fork()
    if child == 0:
        os.environ["SLOWLIFT_LANGUAGE"] = "en"
        os.execv(os.path.join(build, "slowlift"), ["slowlift", "day", log])
    text = b""

    def began():
        nonlocal text
        if select.select([end], [], [], 0.1)[0]:
            text += os.read(end, 65536)
        return b"Was the sound heard?" in text
    patience.until(began, "the day begins")
    os.close(end)
    patience.until(lambda: os.waitpid(child, os.WNOHANG)[0] != 0, "the day ends with its terminal")


def ignored(pid):
    words = open(f"/proc/{pid}/status").read().split("SigIgn:")[1].split()[0]
    return int(words, 16)


def files_that_may_not_grow(build, models, folder):
    scene = os.path.join(models, "scenes", "eight-arms.yaml")
    out = os.path.join(folder, "out")
    english = dict(os.environ, SLOWLIFT_LANGUAGE="en")

    def limited():
        signal.signal(signal.SIGXFSZ, signal.SIG_DFL)  # Python ignores it, and a child would go on doing so
        resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))

    for words in (["slowlift", "run", scene, "--csv"], ["slowlift", "run", scene, "--csv", "-o", out + ".csv"],
                  ["slowlift", "picture", scene, "-o", out + ".png"], ["slowlift-paper", scene, "-o", out + ".svg"],
                  ["slowlift", "log", "new", out + ".db", scene, "--operator", "op-1"]):
        with open(out, "wb") as file:
            told = subprocess.run([os.path.join(build, words[0])] + words[1:], stdout=file, stderr=subprocess.PIPE,
                                  text=True, preexec_fn=limited, env=english)
        assert told.returncode == 3, f"{words[:3]}: {told.returncode} {told.stderr}"
        assert "annot write" in told.stderr or "disk" in told.stderr, f"{words[:3]}: {told.stderr}"


def counted_in_part(build, log, folder):
    """Ctrl-C while members are counted or rinsed: a page in part says so, and ends with 4 as all else does. Asked to end ever later,
    until a page in part came, which must be before one comes whole."""
    out = os.path.join(folder, "part.pdf")
    in_part, ended, wait_s = False, False, 0.04
    while not in_part and not ended:
        wait_s *= 1.2
        told = subprocess.Popen([os.path.join(build, "slowlift"), "report", log, "-o", out], stderr=subprocess.PIPE, text=True,
                                env=dict(os.environ, SLOWLIFT_LANGUAGE="en"))
        try:
            told.wait(wait_s)
            ended = True
        except subprocess.TimeoutExpired:
            told.send_signal(signal.SIGINT)
        said = told.communicate()[1]
        page = subprocess.run(["pdftotext", out, "-"], capture_output=True, text=True).stdout if os.path.exists(out) else ""
        if told.returncode == -signal.SIGINT:  # it had not begun: a busy machine starts programs late
            assert not page and said == "", said
            continue
        assert told.returncode in (0, 4), f"{told.returncode} {said}"
        assert told.returncode == 4 or "PARTIAL" not in page, f"in part, and 0: {said}"
        assert ("partial" in said) == ("PARTIAL" in page), said
        in_part = "PARTIAL" in page
        if page:
            os.remove(out)
    assert in_part, "no page in part was seen"


def window_too(build, models):
    """The window keeps to it as well: read from the system, since what it writes is small."""
    program = os.path.join(build, "slowlift-watch")
    if not os.path.exists(program):
        return
    shown = subprocess.Popen([program, os.path.join(models, "scenes", "second-round.yaml")],
                             env=dict(os.environ, SDL_VIDEODRIVER="dummy"), stderr=subprocess.DEVNULL,
                             preexec_fn=lambda: [signal.signal(number, signal.SIG_DFL)
                                                 for number in (signal.SIGPIPE, signal.SIGXFSZ)])
    wanted = sum(1 << getattr(signal, "SIG" + name) - 1 for name in CAN)
    try:
        patience.until(lambda: ignored(shown.pid) & wanted == wanted or shown.poll() is not None,
                       "the window is not ended by a write")
        assert shown.poll() is None, "the window went"
    finally:
        shown.kill()
        shown.wait()


def main():
    build, models = sys.argv[1:3]
    with tempfile.TemporaryDirectory() as folder:
        files_that_may_not_grow(build, models, folder)
        window_too(build, models)
        log = new_log(build, models, folder)
        counted_in_part(build, log, folder)
        by_signal(build, log)
        twice(build, log)
        put_aside(build, log)
        pipe_closed(build, log)
        by_itself(build, log)
        hung_up(build, log)
    print(f"{len(ASKING + FAULTS)} signals, a pipe, a terminal that went: it was left as it was found each time")


if __name__ == "__main__":
    main()
