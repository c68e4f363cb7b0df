# SPDX-License-Identifier: GPL-3.0-or-later
"""A window on a display of its own, driven by keys and pointer. Used by run.py and
pictures.py."""
import os
import signal
import subprocess
import tempfile
import time

LEAKS = os.path.join(os.path.dirname(os.path.abspath(__file__)), "leaks.txt")


class Display:
    """An X server of its own on a free number."""

    def __init__(self, width, height):
        read, write = os.pipe()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", f"{width}x{height}x24", "-nolisten", "tcp", "-noreset"],
            pass_fds=[write], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as answer:
            number = answer.readline().strip()
        if not number:
            raise RuntimeError("Xvfb did not start")
        self.env = dict(os.environ, DISPLAY=":" + number, SLOWLIFT_TRACE_FRAMES="2", SDL_VIDEODRIVER="x11",
                        LSAN_OPTIONS="print_suppressions=0:suppressions=" + LEAKS)

    def stop(self):
        self.server.terminate()
        self.server.wait()


class Window:
    def __init__(self, display, build, *arguments):
        self.env = display.env
        self.trace = tempfile.TemporaryFile("w+")
        self.program = subprocess.Popen([os.path.join(build, "slowlift-watch"), *arguments], env=self.env,
                                        stderr=self.trace)
        self.id = self.wait_for_window()
        self.xdotool("windowmove", self.id, "0", "0", "windowfocus", self.id)
        self.settle()

    def xdotool(self, *words):
        return subprocess.run(["xdotool", *words], env=self.env, check=False, capture_output=True,
                              text=True).stdout

    def wait_for_window(self):
        for _ in range(400):
            found = self.xdotool("search", "--onlyvisible", "--pid", str(self.program.pid)).split()
            if found:
                return found[-1]
            if self.program.poll() is not None:
                break
            time.sleep(0.025)
        raise RuntimeError("no window came up: " + self.said())

    def said(self):
        self.trace.seek(0)
        return self.trace.read()

    def frames(self):
        return sum(line.startswith("frame ") for line in self.said().splitlines())

    def settle(self, quiet=0.4, most=15.0):
        """Wait until no frame was drawn for a while."""
        count, since, start = self.frames(), time.time(), time.time()
        while time.time() - since < quiet and time.time() - start < most:
            time.sleep(0.05)
            now = self.frames()
            if now != count:
                count, since = now, time.time()

    def key(self, *names):
        for name in names:
            self.xdotool("key", "--clearmodifiers", name)
            time.sleep(0.03)
        self.settle()

    def places(self):
        """Where things stand in the newest frame."""
        found = {}
        for line in self.said().splitlines():
            words = line.split()
            if line.startswith("place "):
                found[words[1], int(words[2])] = tuple(int(w) for w in words[3:7])
            elif line.startswith("frame "):
                last, found = found, {}
        return last

    def pixels(self):
        """Of the whole display, 3 bytes each."""
        return subprocess.run(["import", "-window", "root", "-depth", "8", "rgb:-"], env=self.env, check=True,
                              capture_output=True).stdout

    def memory_mib(self):
        with open(f"/proc/{self.program.pid}/status", encoding="ascii") as status:
            return next(int(line.split()[1]) for line in status if line.startswith("VmHWM")) / 1024.0

    def drag(self, path):
        (x, y), rest = path[0], path[1:]
        self.xdotool("mousemove", str(x), str(y), "mousedown", "1")
        for x, y in rest:
            self.xdotool("mousemove", str(x), str(y))
            time.sleep(0.015)  # no hand is faster; a slow build must get its turn
        self.xdotool("mouseup", "1")
        self.settle()

    def leave(self):
        self.xdotool("key", "ctrl+q")
        try:
            return self.program.wait(timeout=10)
        except subprocess.TimeoutExpired:
            self.program.send_signal(signal.SIGKILL)
            return -1
