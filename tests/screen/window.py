# SPDX-License-Identifier: GPL-3.0-or-later
"""A window on a display of its own, driven by keys and pointer. Used by run.py and
pictures.py."""
import os
import struct
import subprocess
import sys
import tempfile

sys.path.append(os.path.join(os.path.dirname(os.path.abspath(__file__)), "../tools"))
import patience  # noqa: E402

LEAKS = os.path.join(os.path.dirname(os.path.abspath(__file__)), "leaks.txt")


class Display:
    """An X server of its own on a free number, with a hand for keys and pointer. Its picture lies in a file of the format XWD
    (version 7: a head of numbers of 32 bits, a table of colours, the pixels), which is read as it is."""

    def __init__(self, width, height):
        read, write = os.pipe()
        self.folder = tempfile.TemporaryDirectory()
        self.server = subprocess.Popen(
            ["Xvfb", "-displayfd", str(write), "-screen", "0", f"{width}x{height}x24", "-fbdir", self.folder.name,
             "-nolisten", "tcp", "-noreset"],
            pass_fds=[write], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        os.close(write)
        with os.fdopen(read) as answer:
            number = answer.readline().strip()
        if not number:
            raise RuntimeError("Xvfb did not start")
        self.env = dict(os.environ, DISPLAY=":" + number, SLOWLIFT_TRACE_FRAMES="2", SDL_VIDEODRIVER="x11",
                        LSAN_OPTIONS="print_suppressions=0:suppressions=" + LEAKS)
        self.hand = subprocess.Popen(["xdotool", "-"], env=self.env, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                                     stderr=subprocess.DEVNULL, text=True, bufsize=1)
        self.picture = open(os.path.join(self.folder.name, "Xvfb_screen0"), "rb")

    def do(self, *words):
        """Keys and pointer, by one process that stays: most of the time of a key would else be its start."""
        self.hand.stdin.write(" ".join(words) + "\ngetdisplaygeometry\n")
        self.hand.stdout.readline()

    def pixels(self):
        """What the server shows, 3 bytes each."""
        self.picture.seek(0)
        words = struct.unpack(">25I", self.picture.read(100))
        head, version, width, height, bits, line, colours = (words[i] for i in (0, 1, 4, 5, 11, 12, 19))
        assert (version, bits, line) == (7, 32, 4 * width), words
        self.picture.seek(head + 12 * colours)
        seen, rgb = self.picture.read(line * height), bytearray(3 * width * height)
        for channel in range(3):  # stored as blue, green, red, nothing
            rgb[channel::3] = seen[2 - channel::4]
        return bytes(rgb)

    def stop(self):
        self.hand.stdin.close()
        self.hand.wait()
        self.picture.close()
        self.server.terminate()
        self.server.wait()
        self.folder.cleanup()


class Window:
    def __init__(self, display, build, *arguments):
        if "--size" not in arguments:
            arguments = ("--size", "1280x800", *arguments)
        self.display, self.env = display, display.env
        self.text, self.rest_of_line = [], ""
        self.drawn, self.taken, self.rested, self.marks = 0, 0, 0, 0
        self.placed, self.placing = {}, {}
        end, path = tempfile.mkstemp()  # what it says is appended, so that reading does not move where it writes
        os.close(end)
        with open(path, "ab") as said:
            self.program = subprocess.Popen([os.path.join(build, "slowlift-watch"), *arguments], env=self.env,
                                            stderr=said)
        self.trace = open(path, encoding="utf-8", errors="replace")
        os.remove(path)
        self.id = patience.until(self.shown, lambda: "a window came up: " + self.said())
        self.xdotool("windowmove", self.id, "0", "0")
        patience.until(self.has_focus, "the window has the keyboard")
        self.settle()

    def xdotool(self, *words):
        self.display.do(*words)

    def asked(self, *words):
        return subprocess.run(["xdotool", *words], env=self.env, check=False, capture_output=True,
                              text=True).stdout

    def shown(self):
        if self.program.poll() is not None:
            raise RuntimeError("no window came up: " + self.said())
        found = self.asked("search", "--onlyvisible", "--pid", str(self.program.pid)).split()
        return found[-1] if found else None

    def has_focus(self):
        self.xdotool("windowfocus", self.id)
        return self.asked("getwindowfocus", "-f").strip() == self.id or self.gone()

    def gone(self):
        return self.program.poll() is not None

    def read_on(self):
        new = self.rest_of_line + self.trace.read()
        lines = new.split("\n")
        self.rest_of_line = lines.pop()
        for line in lines:
            word, _, more = line.partition(" ")
            if word == "place":
                words = more.split()
                self.placing[words[0], int(words[1])] = tuple(int(w) for w in words[2:6])
            elif word == "frame":
                self.drawn += 1
                self.placed, self.placing = self.placing, {}
            elif word == "taken":
                self.taken = int(more)
            elif word == "rest":
                self.rested = int(more)
        self.text += lines

    def lines(self):
        """What it has said so far."""
        self.read_on()
        return self.text

    def said(self):
        return "\n".join(self.lines())

    def frames(self):
        self.read_on()
        return self.drawn

    def come_to(self, what):
        """Wait until the window has come as far as the last mark; one that was left will not."""
        def there():
            self.read_on()
            return getattr(self, what) >= self.marks or self.gone()
        patience.until(there, f"{what} {self.marks}", turn=0.004)

    def type(self, *names):
        """Keys, and the mark after them (src/view/window/rest.h); on as soon as they were taken and drawn."""
        self.marks += 1
        self.xdotool("key", "--clearmodifiers", *names, "Pause")
        self.come_to("taken")

    def settle(self):
        """Wait until all that was asked for is on the screen."""
        self.type()
        self.come_to("rested")

    def key(self, *names):
        for name in names:
            self.type(name)
        self.come_to("rested")

    def places(self):
        """Where things stand in the newest frame."""
        self.read_on()
        return self.placed

    def pixels(self):
        """Of the whole display, 3 bytes each."""
        return self.display.pixels()

    def memory_mib(self):
        with open(f"/proc/{self.program.pid}/status", encoding="ascii") as status:
            return next(int(line.split()[1]) for line in status if line.startswith("VmHWM")) / 1024.0

    def drag(self, path):
        (x, y), rest = path[0], path[1:]
        self.xdotool("mousemove", str(x), str(y), "mousedown", "1")
        for x, y in rest:
            self.xdotool("mousemove", str(x), str(y))
            self.xdotool("sleep", "0.1")  # a hand's pace; a key in between would let the button go
        self.xdotool("mouseup", "1")
        self.settle()

    def leave(self):
        self.xdotool("key", "ctrl+q")
        return self.left()

    def left(self):
        """Its exit code; killed where it does not go."""
        try:
            patience.until(self.gone, "the window is left")
        except patience.Impatient:
            self.program.kill()
        return self.program.wait()
