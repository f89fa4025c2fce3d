#!/usr/bin/python3
"""A sick day of a day and a half, typed into the real program in tmux: sick_day.py PROGRAM LANGUAGE

What to type is never known by place: the question on the screen is found in the protocol, its answer in day.py. Each round must
say when to check again, how much to drink and that the basal insulin goes on, under the urgency of that round.
Exit 77 (skipped) without tmux.
"""
import datetime
import json
import os
import pathlib
import re
import shutil
import sys

sys.dont_write_bytecode = True  # a test leaves nothing in the source tree

import day
from texts import Protocols, Sentences
from window import Window

ROOT = pathlib.Path(__file__).resolve().parents[3]
SET = ROOT / "protocols" / "reference"
START = datetime.datetime.fromisoformat("2026-03-01T01:50:00-05:00")
ROUND = datetime.timedelta(hours=2)
URGENCY = {
    "en": {day.HOME: "TREAT HERE", day.CLINIC: "CALL THE CLINIC", day.CLINIC_NOW: "CALL THE CLINIC NOW"},
    "es": {day.HOME: "ATIENDA AQUÍ", day.CLINIC: "LLAME A LA CLÍNICA", day.CLINIC_NOW: "LLAME A LA CLÍNICA AHORA"},
}
SIPS = (60, 40)  # mL typed during each wait
CHILD = {
    "name": "Mara", "birth": "2020-01-15", "weight": day.WEIGHT, "weighed": "2026-02-10", "delivery": "injections",
    "strips": "blood", "contacts": {"clinic": "555 0100", "on_call": "555 0101", "emergency": "555 0999"},
    "foods": [{"kind": "juice", "name": {"en": "apple juice", "es": "jugo de manzana"}, "unit": "mL",
               "carbohydrate": "9.6 g/(100.mL)", "source": "label"}],
    "rescue": [{"kind": "nasal", "expires": "2035-06-30", "place": "kitchen drawer"}],
}


class SickDay:
    def __init__(self, program, language):
        self.language = language
        self.protocols = Protocols(SET, language, CHILD["name"])
        self.say = Sentences(ROOT / "cli" / "say.hpp", language)
        self.window = Window([], START)
        child = pathlib.Path(self.window.work, "child.json")
        child.write_text(json.dumps(dict(CHILD, language=language, unit=self.unit())), encoding="utf-8")
        self.window.command = [program, "walk", "--protocols", str(SET), "--protocol", "illness", "--child", str(child),
                               "--journal", os.path.join(self.window.work, "journal.db")]
        self.round = -1
        self.true_now = dict(day.ALWAYS)
        self.drunk = self.calls = self.plans = self.plans_of_round = 0
        self.visited, self.killed = set(), set()
        self.screen = ""

    def unit(self):
        return "mg/dL" if self.language == "en" else "mmol/L"

    # ---- what is so

    def entry(self):
        return day.HOURS[self.round][1]

    def next_round(self):
        if self.round >= 0:
            self.check((self.entry()["plan"] is None) == (self.plans_of_round == 0), "the plan of this round was read")
            self.check(self.calls == self.entry().get("calls", 0), "calls of this round: %d" % self.calls)
            self.check(self.entry().get("visits") in self.visited | {None}, "the visit of this round was made")
        self.round += 1
        self.check(self.round < len(day.HOURS), "the sick day ends when it should")
        self.calls = self.plans_of_round = 0
        self.visited = set()
        late = self.window.now - START - datetime.timedelta(hours=day.HOURS[self.round][0])
        self.check(abs(late) < datetime.timedelta(hours=1), "the round is at its hour, not off by %s" % late)
        self.true_now.update(self.entry())

    def answer_to(self, fact):
        value = self.true_now[fact]
        if isinstance(value, list):
            self.true_now[fact] = value[1:] if len(value) > 2 else value[-1]
            value = value[0]
        if isinstance(value, tuple):
            value = value[0 if self.language == "en" else 1]
        if self.protocols.kind_of(fact) in ("choice", "ordered-choice", "yes-no"):
            return self.protocols.place_of(fact, value)
        if self.language == "es" and self.protocols.kind_of(fact) == "ketones":
            return value.replace(".", ",")
        return value

    def check(self, holds, what):
        if not holds:
            self.window.fail("not so: %s (round %d)" % (what, self.round))

    def sees(self, sentence, screen=None, **known):
        match = self.say.on(sentence, self.screen if screen is None else screen, **known)
        self.check(match, "the screen says " + sentence + " " + str(known))
        return match

    # ---- what is typed

    def types(self, text):
        self.window.move(seconds=5)
        self.screen = self.window.types(text)

    def all_pages(self):
        """Every page of this screen, one below the other; the last one stays."""
        pages = [self.screen]
        while self.say.on("kNextPage", self.screen):
            self.types("")
            pages.append(self.screen)
        return "\n".join(pages)

    def run(self):
        self.window.open()
        self.screen = self.window.settled()
        self.next_round()
        while True:
            for kind in ("by-mouth", "fluid"):  # what only one protocol gives shows which one leads
                leading = {found[0] for found in self.protocols.actions_on(self.screen, kind)}
                self.visited |= leading if len(leading) == 1 else set()
            if self.say.on("kTellEnded", self.screen):
                return self.end()
            self.one_step()

    def one_step(self):
        fact = self.protocols.question_on(self.screen)
        if self.say.on("kCallTitle", self.screen):
            self.report_call()
        elif self.say.on("kHowMuchTitle", self.screen):
            self.types("1")
        elif self.say.on("kDoseAsked", self.screen):
            self.types("1")  # no dose by telephone tonight
        elif fact:
            if self.entry().get("killed") == "asked" and "asked" not in self.killed and fact == "drinking":
                self.die_while_asked(fact)
            self.types(self.answer_to(fact))
        elif self.say.on("kTellDoneOrReading", self.screen):
            self.types(self.answer_to(self.protocols.reading_wanted(self.screen)))
        elif self.say.on("kTellWait", self.screen):
            self.wait()
        else:
            self.look_at_plan()
            self.types("")

    def report_call(self):
        """Somebody answers; what to say stands on the screen, with the number and what was read."""
        text = self.all_pages()
        self.sees("kSayThis", text)
        self.check(CHILD["name"] in text and "555 01" in text, "the call screen says who and which number")
        self.check(re.search(self.reading_said(), text), "the call screen says the latest glucose")
        self.check(self.say.on("kNextPage", text) is None, "what to say fits on one screen")
        self.calls += 1
        self.types("1")

    def reading_said(self):
        value = self.true_now["glucose"]
        value = value[-1] if isinstance(value, list) else value
        said = value[0] + " mg/dL" if self.language == "en" else value[1].replace(",", ".") + " mmol/L"
        return r"\s+".join(map(re.escape, said.split()))

    def plan_on(self, text):
        """The drinks of a round until its next check, if that is what the screen is about."""
        for protocol, step, action, _ in self.protocols.actions_on(text, "fluid"):
            wait = step.find("wait")
            if action.get("dose") and wait is not None and wait.get("timer") == "next-round":
                return protocol
        return None

    def look_at_plan(self):
        """When to check again, how much to drink, that the basal goes on; under the urgency of this round."""
        if not self.say.on("kNextPage", self.screen) and not self.plan_on(self.screen):
            return
        first_line = self.screen.splitlines()[0]
        text = self.all_pages()
        protocol = self.plan_on(text)
        if not protocol:
            return
        self.check(first_line == URGENCY[self.language][self.entry()["plan"]], "the urgency of this plan: " + first_line)
        drink = day.TWO_HOURS_WITH_KETONES if protocol == "ketones" else day.TWO_HOURS
        self.check(drink in text, "the plan says how much to drink: " + drink)
        self.check("basal" in text, "the plan says that the basal insulin goes on")
        self.check(re.search(r"\d\d:\d\d|2 h", text.split("\n", 2)[2]), "the plan says when to check again")
        self.plans += self.plans_of_round == 0
        self.plans_of_round += 1

    # ---- waits, and what happens in them

    def deadline(self):
        match = self.sees("kTimeLeft", two=r"\d\d:\d\d")
        hour, minute = map(int, match.group("two").split(":"))
        moment = self.window.now.replace(hour=hour, minute=minute, second=0)
        return moment if moment >= self.window.now - datetime.timedelta(minutes=1) else moment + datetime.timedelta(days=1)

    def wait(self):
        if self.say.on("kMovesOn", self.screen) or self.say.on("kCallAgain", self.screen):
            return self.types("c")
        chosen = self.early_answer()
        if chosen:
            return self.types(chosen)
        until = self.deadline()
        is_round = until - self.window.now > datetime.timedelta(minutes=100)
        if is_round:
            self.check(abs(until - self.window.now - ROUND) < datetime.timedelta(minutes=2), "the next check is in two hours")
            self.check(until.strftime("%H:%M") in self.screen, "the next check is told")
            self.drink(until)
        self.screen = self.window.waits_until(until + datetime.timedelta(minutes=1), lambda screen: self.say.on("time_is_up", screen))
        if is_round:
            self.next_round()
        return None

    def early_answer(self):
        """What the clinic said on the phone ends the wait for it."""
        text = self.protocols.option_text("clinic-said", self.true_now["clinic-said"])
        match = re.search(r"^([e-l])\. .*?" + r"\s+".join(map(re.escape, text.split())), self.screen, re.M)
        return match.group(1) if match and self.say.on("kBeforeThen", self.screen) else None

    def drink(self, until):
        if not self.say.on("kDrunkSoFar", self.screen):
            return
        for sip in SIPS:
            self.window.move(minutes=30)
            # The clock alone changes this screen too: how much was to be drunk by now.
            self.screen = self.window.types("%d mL" % sip, lambda screen: self.say.on("kDrunk", screen, one="%d mL" % sip))
            self.drunk += sip
            self.sees("kDrunkSoFar", two="%d mL" % self.drunk)
            self.sees("kDrinkGoal", one=until.strftime("%H:%M"), two=r"\d+ mL")
            self.check(self.deadline() == until, "a drink does not move the next check")
            if self.entry().get("killed") == "waiting" and "waiting" not in self.killed:
                self.die_while_waiting(until)

    # ---- kill -9

    def die(self, where):
        self.window.kill_walk()
        self.killed.add(where)
        self.window.move(minutes=4)
        self.window.open()
        self.screen = self.window.settled()
        self.sees("kGoingOn")

    def die_while_waiting(self, until):
        self.die("waiting")
        text = self.all_pages()
        self.check(self.deadline() == until, "the deadline is the same after a kill -9")
        self.sees("kDrunkSoFar", text, two="%d mL" % self.drunk)
        self.sees("kDrinkGoal", text, one=until.strftime("%H:%M"), two=r"\d+ mL")

    def die_while_asked(self, fact):
        self.die("asked")
        self.check(self.protocols.question_on(self.screen) == fact, "the question is the same after a kill -9")

    # ---- the end

    def end(self):
        self.check(self.round == len(day.HOURS) - 1, "the sick day ends at the last round")
        self.check(self.screen.splitlines()[0] == URGENCY[self.language][day.HOME], "the end is calm")
        self.check(str(day.GOOD_CHECKS) in self.screen, "the end says how many checks were good")
        self.check(self.killed == {"waiting", "asked"}, "it was killed twice")
        self.check(self.plans >= 12, "at least twelve plans were read, not %d" % self.plans)
        self.check(self.window.now - START >= datetime.timedelta(hours=36), "it took 36 hours")
        self.window.presses("")
        self.check(self.window.exit_status() == 0, "the program closes")
        print("%s: %d rounds, %d plans, %d mL drunk" % (self.language, self.round + 1, self.plans, self.drunk))
        self.window.close()


if __name__ == "__main__":
    if not shutil.which("tmux"):
        print("tmux is not installed")
        sys.exit(77)
    SickDay(os.path.abspath(sys.argv[1]), sys.argv[2]).run()
