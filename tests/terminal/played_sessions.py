"""Calls and interviews of invented dogs, played on a pseudo-terminal of 80 x 24 on the pack that ships.

Each account was written down before it was played: what the caller says, in the caller's words. A nurse who types
them, or a keeper who answers, says yes only to what the account tells; of choices and amounts that it is silent
about nobody can tell. Compared are the answers that were recorded with what was said, and kept are the keys, the
lists and questions, and the urgency; `--update` rewrites them. At the highest urgency, or after eight lists of a call
and sixteen questions of an interview, the talk ends."""

import difflib
import pathlib
import re
import sys
import tempfile

import yaml
from screen import Terminal

program, kept = sys.argv[1], pathlib.Path(sys.argv[2])
update = "--update" in sys.argv
folder = pathlib.Path(tempfile.mkdtemp())
faults = []
lists_at_most = 8  # as long as a caller stays on the line
CALLS = [
    {"name": "Hazel", "account": "My spaniel Hazel, seven, spayed. She has been drinking loads for a fortnight, and now she wets her "
                                 "bed at night. She eats as always.",
     "search": [("drinking loads", "drinks much|thirst"), ("wets her bed", "soils")], "sex": "female spayed", "age": "7 years",
     "lists": ["soils without"], "choices": [("How much .*drink", "much more than usual"), ("eating", "as usual")],
     "said": {"thirst": "much_more", "soils_without_knowing": True, "appetite": "normal"}},
    {"name": "Otto", "account": "Otto, our dachshund, five, male. He yelped when I picked him up this morning, his back is hunched and "
                                "he will not climb the stairs. He can walk.",
     "search": [("yelped when picked up", "lifted"), ("hunched", "hunch"), ("won't climb stairs", "stairs")],
     "sex": "male", "age": "5 years", "lists": ["cries when lifted", "hunched", "stairs"], "choices": [],
     "said": {"cries_when_lifted": True, "hunched_back": True, "reluctant_stairs": True}},
    {"name": "Biscuit", "account": "A Lab, he has been in the bin an hour ago and had some chicken bones. Bright as a button.",
     "search": [("chicken bones", "bone")], "sex": "male", "age": "", "lists": ["bone"], "choices": [],
     "said": {"ate_bone": True}},
    {"name": "Willow", "account": "My old girl fell over ten minutes ago, went stiff, legs paddling, foam, maybe two minutes. She is up "
                                  "now, but dazed. The first one ever.",
     "search": [("went stiff and paddled", "seizure|fit"), ("seizure", "seizure")], "sex": "female", "age": "12 years",
     "lists": ["[Ff]it|[Ss]eizure"], "choices": [("fits", "one")], "said": {"seizure": True, "fits_in_a_day": "one"}},
    {"name": "Ziggy", "account": "He scratches at his left ear and shakes his head since the weekend, and it smells.",
     "search": [("shakes his head", "shak"), ("ear smells", "ear")], "sex": "male", "age": "4 years",
     "lists": [r"\bear\b", "shakes its head"], "choices": [],
     "said": {"shakes_head": True, "ear_smells": True, "ear_trouble": True}},
]
INTERVIEWS = [
    {"name": "Poppy", "account": "She has been sick three times since last night, a bit quiet, still drinking. A Labrador, four, "
                                 "spayed, 28 kg.",
     "complaint": "sick three times since last night, a bit quiet", "facts": "4 years, female spayed, Labrador, 28 kg",
     "lists": ["^times vomited", "^Has the dog vomited|^Does the dog vomit$", "^quieter or hiding"], "choices": [("How often", "three times"), ("how long|How long", "since last night")],
     "said": {"vomiting": True, "vomited_times": "few", "duration": "hours", "withdrawn": True}},
    {"name": "Rex", "account": "Limping on his right front leg since the walk yesterday, it is clear at a walk. A German Shepherd of "
                               "8 months, entire, 30 kg.",
     "complaint": "limping on the right front leg since yesterday", "facts": "8 months, entire male, German Shepherd, 30 kg",
     "lists": ["limping"], "choices": [("How bad is the limp", "clear at a walk"), ("how long|How long", "since yesterday")],
     "said": {"lame": True, "duration": "days", "limp_degree": "clear"}},
    {"name": "Daisy", "account": "A bee stung her on the face just now and it swells up. A terrier cross, six, spayed, 20 lb.",
     "complaint": "stung by a bee, face is swelling", "facts": "6 years, female spayed, crossbreed, 20 lb", "lists": ["^stung, or", "^swollen face", "sting or"],
     "choices": [("how long|How long", "hours")],
     "said": {"stung_or_snake": True, "face_swollen": True, "duration": "hours"}},
    {"name": "Monty", "account": "He has cut his left front paw on glass this morning, through the skin, about 3 cm long. A collie, "
                                 "nine, neutered, 22 kg.",
     "complaint": "cut his paw on glass", "facts": "9 years, male neutered, Border Collie, 22 kg", "lists": ["^kind of wound: a cut", "skin broken"],
     "choices": [("What kind of wound", "a cut"), ("How deep", "through the skin"), ("How long is the wound", "3 cm"),
                 ("how long|How long", "this morning"), ("Where|where", "left front paw")],
     "said": {"wound": True, "wound_kind": "cut", "wound_depth": "through", "wound_size": "medium", "duration": "hours"}},
    {"name": "Luna", "account": "Her tummy is blown up and she tries to be sick, but nothing comes. A Great Dane, seven, spayed, 60 kg.",
     "complaint": "tummy is bloated, trying to be sick but nothing comes up", "facts": "7 years, female spayed, Great Dane, 60 kg",
     "lists": ["^swollen belly", "belly bigger"], "choices": [("how long|How long", "hours"), ("How fast did the belly", "within a day")],
     "said": {"belly_swollen": True, "retching_dry": True, "duration": "hours", "belly_grew": "hours"}},
]


def is_named(text, patterns):
    return any(re.search(pattern, text) for pattern in patterns)


def reply_of(text, choices):
    return next((reply for pattern, reply in choices if re.search(pattern, text)), None)


class Call:
    """A nurse who counts each key."""

    def __init__(self, entry):
        self.entry, self.keys, self.lists, self.notes = entry, 0, 0, []
        self.case = folder / f"{entry['name']}.yaml"
        self.terminal = Terminal([program, "call", "--save", str(self.case)])

    def press(self, keys):
        self.keys += len(keys)
        self.terminal.press(keys)

    def lines(self):
        """The numbered lines on the screen, by their number."""
        found = re.findall(r"^ (\d) [ >] *(.*?) *$", self.terminal.text(), re.MULTILINE)
        return {int(number): label for number, label in found}

    def search(self, words, wanted):
        self.press(words)
        number = next((n for n, label in self.lines().items() if re.search(wanted, label) and "?" not in label), None)
        if number is None:
            self.notes.append(f"not found: {words}")
            self.press("\x1b")
            return
        self.press(str(number))
        if "CHOOSE" in self.terminal.text():
            self.choose()
        if "Where" in self.terminal.text() and "PLACE" in self.terminal.text():
            self.press("\r")

    def play(self):
        for words, wanted in self.entry["search"]:
            self.search(words, wanted)
        while self.lists < lists_at_most and "See a vet now" not in self.terminal.text().split("\n")[0].split("may be")[0]:
            self.lists += 1
            self.answer_screen()
        tier = self.terminal.text().split("\n")[0].split("  ")[0].strip()
        self.terminal.press("\x03")
        self.terminal.end()
        return tier

    def answer_screen(self):
        text = self.terminal.text()
        say = self.said()
        if "Male or female" in say:
            return self.press(self.entry["sex"] + "\r")
        if "age" in say and "What is its" in say:
            return self.press(f"\r{self.entry['age']}\r" if self.entry["age"] else "?")
        if "ANY OF THESE" in text or "0 none" in text:
            for number, label in self.lines().items():
                if is_named(label, self.entry["lists"]) and ": " not in label:
                    self.press(str(number))
                    if "This is a new" in self.terminal.text():
                        self.press(str(number))
            self.press("0")
            if "once more" in self.terminal.text():
                self.press("0")
            return None
        return self.choose()

    def said(self):
        """The question to be read out."""
        text = "".join(re.findall(r"^SAY    (.*?)^(?:CHECK|WHY|\n)", self.terminal.text(), re.MULTILINE | re.DOTALL))
        return re.sub(r"\s+", " ", text)

    def choose(self):
        reply = reply_of(self.said(), self.entry["choices"])
        number = next((n for n, label in self.lines().items() if reply and label == reply), None)
        self.press(str(number) if number else "?")
        if "new question" in self.terminal.text():
            self.press(str(number) if number else "?")


class Interview:
    """A keeper who types lines."""

    def __init__(self, entry):
        self.entry, self.keys, self.lists, self.notes = entry, 0, 0, []
        self.case = folder / f"{entry['name']}.yaml"
        self.terminal = Terminal([program, "ask", "--save", str(self.case)], columns=80, rows=2000, NO_COLOR="1")

    def question(self):
        return re.split(r"\n> .*\n", self.terminal.text())[-1]

    def type(self, line):
        self.keys += len(line) + 1
        self.terminal.press(line + "\n")

    def play(self):
        self.type(self.entry["complaint"])
        while self.lists < 2 * lists_at_most and self.terminal.process.poll() is None:
            text = self.question()
            if "Press Enter to end" in text:
                break
            self.lists += 1
            self.answer(text)
            if "See a vet now. The questions can wait" in self.question():
                break
        self.type("q")
        tier = re.findall(r"[\u25a0\u25a1]+ *(?:At least: )?(.*?) *$", self.terminal.text(), re.MULTILINE)
        self.terminal.end()
        return tier[-1] if tier else "none"

    def answer(self, text):
        if "Enter when you have read" in text or "Enter goes on with" in text:
            return self.type("")
        if "Anything else that worries" in text or "Is it no to all of these" in text:
            return self.type("no")
        lines = {int(n): label for n, label in re.findall(r"^ ?(\d+)  (.*)$", text, re.MULTILINE)}
        if "About the dog" in text:
            return self.type(self.entry["facts"])
        if "nobody can tell any" in text or "Can nobody tell" in text:
            return self.type("?")
        if "which do you mean" in text:
            wanted = [str(n) for n, label in lines.items() if is_named(label, self.entry["lists"])]
            return self.type(wanted[0] if wanted else "none")
        if "the numbers that are so" in text:
            wanted = [str(n) for n, label in lines.items() if is_named(label, self.entry["lists"])]
            return self.type(" ".join(wanted) or "none")
        reply = reply_of(re.sub(r"\s+", " ", text), self.entry["choices"])
        is_so = any(is_named(line, self.entry["lists"]) for line in text.splitlines())
        return self.type(reply or (("yes" if is_so else "no") if "yes, no or ?" in text else "?"))


def is_no(answer):
    return answer is False or answer == "no" or isinstance(answer, dict) and answer.get("found") == []


def is_said(sign, answer, said):
    if sign not in said:
        return is_no(answer)
    if is_no(answer):
        return False
    wanted = said[sign]
    return answer in (True, "yes") or not isinstance(answer, (bool, str)) if wanted is True else answer == wanted


def played(kind, entry):
    play = kind(entry)
    tier = play.play()
    case = yaml.safe_load(play.case.read_text(encoding="utf-8"))
    answers = case.get("answers") or {}
    told = {sign: answer for sign, answer in answers.items()
            if not is_no(answer) and answer != "can't tell"}
    wrong = [f"{sign}: {answer}" for sign, answer in answers.items()
             if answer != "can't tell" and not is_said(sign, answer, entry["said"])]
    for one in wrong:
        faults.append(f"{entry['name']}: recorded and not said: {one}")
    lines = [f"{entry['name']}: \"{entry['account']}\"", f"  keys {play.keys}, lists and questions {play.lists}, told: {tier}"]
    lines += [f"  recorded: {sign}: {answer}" for sign, answer in told.items()]
    lost = [sign for sign in entry["said"] if sign not in told]
    lines += [f"  said, and not come to: {', '.join(lost)}"] if lost else []
    lines += [f"  the dog: {sign}: {answer}" for sign, answer in (case.get("dog") or {}).items() if sign != "species"]
    lines += [f"  {note}" for note in play.notes]
    return "\n".join(lines) + "\n"


text = "CALLS\n\n" + "\n".join(played(Call, entry) for entry in CALLS)
text += "\nINTERVIEWS\n\n" + "\n".join(played(Interview, entry) for entry in INTERVIEWS)
if update:
    kept.write_text(text, encoding="utf-8")
wanted = kept.read_text(encoding="utf-8") if kept.exists() else ""
if text != wanted:
    faults.append("".join(difflib.unified_diff(wanted.splitlines(True), text.splitlines(True), "kept", "seen")))
print("\n".join(faults) or "sessions as they should be")
sys.exit(bool(faults))
