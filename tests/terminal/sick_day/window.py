"""The program in a terminal of 80 by 24, on a clock that is moved by hand."""
import datetime
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import time

BOUNCE = 0.7      # cli/walk_loop.cpp: an Enter sooner after a new screen is not taken
TO_READ = 1.55    # nor anything typed sooner after the time changed the screen
PATIENCE = 10.0


def without_clock(screen):
    """What a key changes: the clock beside the name and the time left above the prompt move by themselves."""
    lines = (screen or "").rstrip().split("\n")
    return [re.sub(r"\d+(:\d\d)+", "", line) if place in (1, len(lines) - 2) else line for place, line in enumerate(lines)]


class Window:
    def __init__(self, command, start):
        self.command = command
        self.work = tempfile.mkdtemp()
        self.socket = "sick%d" % os.getpid()
        self.now = start
        self.last = ""
        self.move_to(start)
        self.environment = dict(os.environ, LC_ALL="C.UTF-8", TERM="xterm", HOME=self.work,
                                RUSHLIGHT_CLOCK="@" + os.path.join(self.work, "clock"))

    def tmux(self, *words):
        return subprocess.run(["tmux", "-L", self.socket, "-f", "/dev/null", *words], env=self.environment,
                              capture_output=True, text=True, check=False).stdout

    def open(self):
        self.tmux("new-session", "-d", "-s", "server", "sleep 600")  # tmux itself outlives a killed program
        told = ["sh", "-c", '"$@"; echo "EXIT=$?"; exec sleep 600', "sh", *self.command]
        self.tmux("new-session", "-d", "-x", "80", "-y", "24", "-s", "day", *told)

    def kill_walk(self):
        """kill -9 the program, as a dead battery would."""
        shell = self.tmux("list-panes", "-t", "day", "-F", "#{pane_pid}").strip()
        with open(f"/proc/{shell}/task/{shell}/children", encoding="ascii") as children:
            os.kill(int(children.read().split()[0]), signal.SIGKILL)
        self.tmux("kill-session", "-t", "day")

    def close(self):
        self.tmux("kill-server")
        shutil.rmtree(self.work, ignore_errors=True)

    def move_to(self, moment):
        self.now = moment
        clock = os.path.join(self.work, "clock")
        with open(clock + ".new", "w", encoding="ascii") as file:
            file.write(moment.isoformat() + "\n")
        os.replace(clock + ".new", clock)

    def move(self, **time_passed):
        self.move_to(self.now + datetime.timedelta(**time_passed))

    def shown(self):
        return "\n".join(line.rstrip() for line in self.tmux("capture-pane", "-pJ", "-t", "day").splitlines())

    def settled(self, before=None, wanted=lambda screen: True):
        """The screen once it differs from `before`, is whole, is as wanted, and stays as it is."""
        until = time.monotonic() + PATIENCE
        last = None
        while time.monotonic() < until:
            screen = self.shown()
            whole = screen.rstrip().endswith(">")
            if whole and screen == last and without_clock(screen) != without_clock(before) and wanted(screen):
                self.last = screen
                return screen
            last = screen
            time.sleep(0.03)
        self.fail("the screen does not change as it should")
        return ""

    def presses(self, text):
        """A typed line and Enter; Enter alone not before a person could have read the screen."""
        if text:
            self.tmux("send-keys", "-t", "day", "-l", "--", text)
        else:
            time.sleep(BOUNCE)
        self.tmux("send-keys", "-t", "day", "Enter")

    def types(self, text, wanted=lambda screen: True):
        """Types a line and gives the next screen."""
        before = self.last  # what stands there now may be half drawn
        self.presses(text)
        return self.settled(before, wanted)

    def exit_status(self):
        """How the program ends, which it has to do now."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            ended = re.search(r"^EXIT=(\d+)$", self.shown(), re.M)
            if ended:
                return int(ended.group(1))
            time.sleep(0.05)
        self.fail("the program does not end")
        return None

    def waits_until(self, moment, wanted):
        """The time passes; the new screen is read before anything is typed."""
        self.move_to(moment)
        screen = self.settled(None, wanted)
        time.sleep(TO_READ)
        return screen

    def fail(self, why, screen=None):
        print("FAILED:", why)
        print("at", self.now)
        print(self.shown() if screen is None else screen)
        self.close()
        sys.exit(1)
