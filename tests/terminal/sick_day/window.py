"""The program in a terminal of 80 by 24, on a clock that is moved by hand."""
import datetime
import os
import shutil
import signal
import subprocess
import sys
import tempfile
import time

BOUNCE = 0.7      # cli/walk_loop.cpp: an Enter sooner after a new screen is not taken
TO_READ = 1.55    # nor anything typed sooner after the time changed the screen
PATIENCE = 10.0


class Window:
    def __init__(self, command, start):
        self.command = command
        self.work = tempfile.mkdtemp()
        self.socket = "sick%d" % os.getpid()
        self.now = start
        self.move_to(start)
        self.environment = dict(os.environ, LC_ALL="C.UTF-8", TERM="xterm", HOME=self.work,
                                RUSHLIGHT_CLOCK="@" + os.path.join(self.work, "clock"))

    def tmux(self, *words):
        return subprocess.run(["tmux", "-L", self.socket, "-f", "/dev/null", *words], env=self.environment,
                              capture_output=True, text=True, check=False).stdout

    def open(self):
        self.tmux("new-session", "-d", "-s", "server", "sleep 600")  # tmux itself outlives a killed program
        self.tmux("set-option", "-g", "remain-on-exit", "on")
        self.tmux("new-session", "-d", "-x", "80", "-y", "24", "-s", "day", *self.command)

    def kill_walk(self):
        """kill -9 the program, as a dead battery would."""
        os.kill(int(self.tmux("list-panes", "-t", "day", "-F", "#{pane_pid}")), signal.SIGKILL)
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
            if whole and screen == last and screen != before and wanted(screen):
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

    def types(self, text):
        """Types a line and gives the next screen."""
        before = self.shown()
        self.presses(text)
        return self.settled(before)

    def exit_status(self):
        """How the program ends, which it has to do now."""
        until = time.monotonic() + PATIENCE
        while time.monotonic() < until:
            dead, _, status = self.tmux("list-panes", "-t", "day", "-F", "#{pane_dead} #{pane_dead_status}").partition(" ")
            if dead == "1":
                return int(status)
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
