"""The texts of the shipped protocols and of the terminal, looked up by what they are: nothing here knows a sentence by heart."""
import pathlib
import re
import xml.etree.ElementTree as Xml


def pattern(text, known):
    """A text as it may stand on a screen: lines broken anywhere, blanks filled; a blank of `known` only as it says there."""
    parts = []
    for piece in re.split(r"(\{[^}]*\})", " ".join(text.split())):
        if piece.startswith("{"):
            name = piece[1:-1]
            filling = known.get(name, r".{1,90}?")
            once = name.replace("-", "_")
            parts.append(f"(?P<{once}>{filling})" if once.isidentifier() and f"<{once}>" not in "".join(parts) else filling)
        else:
            parts.append(r"\s+".join(re.escape(word) for word in piece.split(" ")))
    return "".join(parts)


class Protocols:
    """Questions, steps and actions of one set in one language."""

    def __init__(self, folder, language, child):
        self.language = language
        self.known = {"child": re.escape(child), "until": r"\d\d:\d\d"}
        self.facts, self.steps = {}, []
        for file in sorted(pathlib.Path(folder).glob("*.xml")):
            root = Xml.parse(file).getroot()
            if root.tag != "protocol":
                continue
            for fact in root.find("facts"):
                self.facts.setdefault(fact.get("id"), fact)
            for step in root.find("steps"):
                self.steps.append((root.get("id"), step))

    def words(self, element):
        return element.findtext(self.language)

    def question_on(self, screen):
        """The fact whose question stands on the screen, at the beginning of a line; the last one if a headline asks too."""
        found = []
        for name, fact in self.facts.items():
            match = re.search("^" + pattern(self.words(fact.find("ask")), self.known), screen, re.M | re.S)
            if match:
                found.append((match.start(), name))
        return max(found)[1] if found else None

    def place_of(self, fact, option):
        """The number to type for an option."""
        names = [each.get("id") for each in self.facts[fact].findall("option")] or ["yes", "no"]
        return str(names.index(option) + 1)

    def option_text(self, fact, option):
        return next(self.words(each) for each in self.facts[fact].findall("option") if each.get("id") == option)

    def kind_of(self, fact):
        return self.facts[fact].tag

    def actions_on(self, screen, kind):
        """(protocol, step, action, match) of every action of this kind whose text stands on the screen."""
        for protocol, step in self.steps:
            for action in step.findall("do"):
                if action.get("kind") != kind:
                    continue
                match = re.search(pattern(self.words(action), self.known), screen, re.S)
                if match:
                    yield protocol, step, action, match

    def reading_wanted(self, screen):
        """The reading that the measuring on the screen is for."""
        for _, step, _, _ in self.actions_on(screen, "measure"):
            for ask in step.findall("ask"):
                if self.kind_of(ask.get("fact")) in ("glucose", "ketones"):
                    return ask.get("fact")
        return None


class Sentences:
    """The terminal's own sentences by their names in cli/say.hpp, and the house's in engine/episode/phrases.cpp."""

    def __init__(self, header, language):
        source = pathlib.Path(header).read_text(encoding="utf-8")
        pair = r'inline constexpr Both (k\w+)\{\s*"((?:[^"\\]|\\.)*)",\s*"((?:[^"\\]|\\.)*)"\};'
        which = 2 if language == "es" else 1
        self.by_name = {found[0]: found[which].replace('\\"', '"') for found in re.findall(pair, source)}
        house = pathlib.Path(header).resolve().parent.parent / "engine" / "episode" / "phrases.cpp"
        pair = r'case Phrase::(\w+):\s*return \{\s*"((?:[^"\\]|\\.)*)",\s*"((?:[^"\\]|\\.)*)"\};'
        self.by_name.update({found[0]: found[which] for found in re.findall(pair, house.read_text(encoding="utf-8"))})

    def on(self, name, screen, **known):
        """The match of the sentence on the screen, its blanks as groups one, two, three."""
        text = self.by_name[name]
        for number, word in (("1", "one"), ("2", "two"), ("3", "three")):
            text = text.replace("{" + number + "}", "{" + word + "}")
        return re.search(pattern(text, known), screen, re.S)
