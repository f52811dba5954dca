"""`flinch ask` on a real pseudo-terminal: whole screens compared with those kept, broken off and gone
on with, in plain terminals, with hostile bytes. --update writes the kept screens anew."""

import fcntl
import os
import pathlib
import re
import pty
import select
import signal
import struct
import subprocess
import sys
import tempfile
import termios
import time

program, folder = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2])
updates = "--update" in sys.argv
faults = []


class Terminal:
    """The program on a terminal of its own, in a home folder of its own."""

    def __init__(self, home, *options, columns=80, rows=24, **settings):
        self.primary, secondary = pty.openpty()
        fcntl.ioctl(secondary, termios.TIOCSWINSZ, struct.pack("HHHH", rows, columns, 0, 0))
        environment = {"PATH": os.environ["PATH"], "HOME": str(home), "TERM": "xterm-256color", "LC_ALL": "C.UTF-8",
                       "SOURCE_DATE_EPOCH": "1795600000", "TZ": "UTC"} | settings
        for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
            if name in os.environ:
                environment[name] = os.environ[name]
        self.process = subprocess.Popen([program, "ask", *options], stdin=secondary, stdout=secondary, stderr=secondary,
                                        env=environment, cwd=home, start_new_session=True,
                                        preexec_fn=lambda: fcntl.ioctl(0, termios.TIOCSCTTY, 0))
        os.close(secondary)
        self.seen = b""

    def read(self, until=b"> "):
        """Waits for the prompt (or the end), and returns what came since the last time."""
        start = len(self.seen)
        deadline = time.monotonic() + 60
        while until is None or not self.seen[start:].endswith(until):
            if not select.select([self.primary], [], [], max(0, deadline - time.monotonic()))[0]:
                raise AssertionError(f"no prompt after {self.seen[start:]!r}")
            try:
                piece = os.read(self.primary, 4096)
            except OSError:  # the other end is closed
                break
            if not piece:
                break
            self.seen += piece
        return self.seen[start:]

    def type(self, *lines):
        for line in lines:
            os.write(self.primary, (line if isinstance(line, bytes) else line.encode()) + b"\n")
            self.read()

    def press(self, key):
        os.write(self.primary, key)

    def end(self):
        self.read(until=None)
        os.close(self.primary)
        return self.process.wait(timeout=60)

    def text(self):
        return self.seen.decode("utf-8", "surrogateescape").replace("\r\n", "\n")


def check(condition, words):
    if not condition:
        faults.append(words)


def compare(name, text):
    path = folder / f"{name}.txt"
    if updates:
        path.write_text(text, encoding="utf-8", errors="surrogateescape")
    elif not path.exists() or path.read_text(encoding="utf-8", errors="surrogateescape") != text:
        faults.append(f"{path.name} is not what comes out now; read the difference, then build update-terminal")
        (pathlib.Path(tempfile.gettempdir()) / f"flinch-{name}.txt").write_text(text, errors="surrogateescape")


def session(name, *lines, options=(), columns=80, rows=24, **settings):
    """A whole session, its screens kept under this name."""
    with tempfile.TemporaryDirectory() as home:
        terminal = Terminal(home, *options, columns=columns, rows=rows, **settings)
        terminal.read()
        terminal.type(*lines[:-1])
        terminal.press(lines[-1].encode() + b"\n" if isinstance(lines[-1], str) else lines[-1])
        code = terminal.end()
        check(code == 0, f"{name}: exit status {code}")
        check(not list(pathlib.Path(home).rglob("*.yaml")) or options, f"{name}: a finished interview leaves nothing")
        compare(name, terminal.text())
        return terminal.text()


LIMPS = ("limping on the left hind leg for weeks", "no")  # nothing else worries its keeper
COLLAPSED = ("keeled over", "", "no")

# A limping dog: the keeper goes through it on an ordinary screen.
old = session("ask-80x24", "licking his foot, limping for weeks, wibbly", "2 3", "none", "hobbling", "not 1", "no", "left hind",
              "yes", "why", "none", "how", "none", "clear", "none", "none", "13, boy been done, labradoor",
              "13 and a half years, boy been done, labradoor, 31 kg", "yes", "2", "so far", "q")
for line in old.splitlines():
    plain = line.replace("\x1b[1m", "").replace("\x1b[0m", "").replace("\x1b[1;7;38;5;30m", "")
    check(len(plain) <= 80, f"wider than the screen: {line!r}")
check("does not diagnose" in old, "the caution stands on the screen")
words = " ".join(old.split())
check("13: the age or the weight?" in words, "a bare number is neither")
check("Did you mean" in words and "breed: Labrador" in words, "yes takes the breed that was asked about")

wide = session("ask-120x40", *COLLAPSED, "hours", "11 and a half", "male neutered", "q", columns=120, rows=40)
check("See a vet now" in wide, "a collapsed dog is seen at once")

plain = session("ask-no-colour", *LIMPS, "2", "no", "q", NO_COLOR="1")
check("38;5" not in plain, "no hue with NO_COLOR")
ascii_only = session("ask-plain-locale", *LIMPS, "2", "no", "q", LC_ALL="C", TERM="dumb")
check(ascii_only.isascii() and "\x1b" not in ascii_only, "plain letters on a plain terminal")

# Whatever is pasted, one line says what would be understood, and the interview goes on.
hostile = session("ask-hostile", b"\x1b[2J\x1b]0;owned\x07", b"\xff\xfe\xfa", "9" * 3000, "-5", "1e99 years", "rm -rf /",
                  "none", "limping", "'; drop table dogs", "none", "no", "left hind", "'; drop table dogs", "yes", "-5",
                  "1e99 years", "2", "0", "9 99", "<b>labrador</b>", "q")
for line in hostile.split("\n"):
    # The terminal itself echoes what is pasted, controls as ^X; the program sends none.
    check("\x1b]0" not in line and "\x07" not in line and "\x1b[2J" not in line, f"an escape came through: {line!r}")
answered = re.findall("not understood|Type the number|no list here|which do you mean|Answer yes, no", hostile, re.IGNORECASE)
check(len(answered) >= 10, "each bad line is answered")

# Ctrl-D ends with the assessment so far.
ended = session("ask-end-of-input", *LIMPS, "slight", b"\x04", options=("--for", "nurse", "--save", "dog.yaml"))
check("HOW SOON" in ended, "the assessment so far is shown")


def broken_off(name, break_off, options):
    """Breaks an interview off after some answers, and goes on: nothing may be lost."""
    with tempfile.TemporaryDirectory() as home:
        first = Terminal(home, *options)
        first.read()
        first.type(*LIMPS)
        # The order of the questions is the pack's affair: go on until the one that is waited for.
        for _ in range(20):
            question = first.text().split("\n-- ")[-1]
            asked = re.findall(r"^ (\d)  Does the dog retch", question, re.MULTILINE)
            if asked:
                break
            first.type("none" if "any of these" in question else "skip")
        first.type(asked[0], "no")
        break_off(first)
        first.end()
        again = Terminal(home, *options)
        again.read()
        if not options:
            check("broken off" in again.text(), f"{name}: the broken interview is offered")
            again.type("yes")
        check("See a vet now. The questions can wait" in again.text(), f"{name}: the urgency is told anew")
        again.press(b"so far\n")
        again.read()
        for fact in ("left hind leg: lame", "Retches again and again"):
            check(fact in again.text(), f"{name}: lost: {fact}")
        check("Does the dog retch" not in again.text().split("HOW SOON")[0], f"{name}: nothing is asked twice")
        again.press(b"q\n")
        check(again.end() == 0, f"{name}: goes on to its end")
        compare(f"ask-{name}", re.sub(r"\d{4}-\d\d-\d\d \d\d:\d\d", "DAY AND HOUR", again.text()))


for kind, options in (("named", ("--save", "dog.yaml")), ("unnamed", ())):
    broken_off(f"{kind}-after-ctrl-c", lambda t: t.press(b"\x03"), options)
    broken_off(f"{kind}-after-kill", lambda t: t.process.send_signal(signal.SIGKILL), options)
broken_off("unnamed-after-hang-up", lambda t: t.process.send_signal(signal.SIGHUP), ())

# A list of dangers answered in part waits; gone on with, an answer can still be taken back.
part = " ".join(session("ask-in-part", *LIMPS, "6", "no", "", "q").split())
check("Is it no to all of these" in part, "the rest is asked once more")
untold = " ".join(session("ask-nobody-can-tell", *LIMPS, "dunno", "?", "q").split())
check("Can nobody tell about any of these" in untold and "answered don't know" in untold, "so is what nobody can tell")
# A doubt holds for every number behind it: none of them is a yes, and the rest is asked.
doubt = " ".join(session("ask-in-doubt", *LIMPS, "not sure about 3 and 4", "can't tell about 2 and 5", "1, not sure about 6 and 7",
                         "no", "", "q").split())
check("yes to retches and brings nothing up; " in doubt and "6 answered don't know" in doubt, "a doubt is no yes")
# What was said of a list stands, though the rest of it is never answered.
left = " ".join(session("ask-left-in-part", *LIMPS, "1", "q").split())
check("See a vet now" in left, "a danger of a list left half answered counts")
with tempfile.TemporaryDirectory() as home:
    first = Terminal(home, "--save", "dog.yaml")
    first.read()
    first.type(*LIMPS)
    first.press(b"\x03")
    first.end()
    again = Terminal(home, "--save", "dog.yaml")
    again.read()
    again.type("b", "1")
    check("Taken back: lame" in again.text(), "an answer of the time before is taken back")
    check("lame:" not in (pathlib.Path(home) / "dog.yaml").read_text(), "and is out of the file")
    again.press(b"q\n")
    again.end()

# Two that were broken off are both offered, one after the other; another pack leaves them alone.
with tempfile.TemporaryDirectory() as home:
    two = [Terminal(home), Terminal(home)]
    for terminal in two:
        terminal.read()
        terminal.type(*LIMPS)
    for terminal in two:
        terminal.process.send_signal(signal.SIGKILL)
        terminal.end()
    desk = pathlib.Path(__file__).parent.parent / "call" / "desk.flinch"
    terminal = Terminal(home, "--pack", str(desk))
    terminal.read()
    check("broken off" not in terminal.text(), "what another pack cannot read is not offered by it")
    terminal.type("yes")
    terminal.press(b"q\n")
    terminal.end()
    states = sorted(pathlib.Path(home).rglob("*.yaml"))
    check(len(states) == 2, "broken-off interviews are not thrown away unasked")
    seen = []
    for _ in states:
        terminal = Terminal(home)
        terminal.read()
        seen.append(terminal.text())
        terminal.type("no")
        terminal.press(b"q\n")
        terminal.end()
    check(all("broken off: 2 answers" in text for text in seen), "each is offered, with its answers")
    check(not list(pathlib.Path(home).rglob("*.yaml")), "thrown away on purpose, nothing is left")

# Later keeps what was broken off.
with tempfile.TemporaryDirectory() as home:
    terminal = Terminal(home)
    terminal.read()
    terminal.type("limping")
    terminal.process.send_signal(signal.SIGKILL)
    terminal.end()
    terminal = Terminal(home)
    terminal.read()
    terminal.type("later")
    check("lame" not in terminal.text().split("later")[-1], "later begins anew")
    terminal.press(b"q\n")
    terminal.end()
    check(len(list(pathlib.Path(home).rglob("*.yaml"))) == 1, "later keeps the earlier answers")

# Saving fails while the interview goes on.
with tempfile.TemporaryDirectory() as home:
    folder_of_case = pathlib.Path(home) / "d"
    folder_of_case.mkdir()
    terminal = Terminal(home, "--save", "d/x.yaml")
    terminal.read()
    terminal.type("limping")
    (folder_of_case / "x.yaml").unlink()
    folder_of_case.rename(pathlib.Path(home) / "e")
    terminal.type("itchy")
    check("cannot be saved" in terminal.text(), "it is said at once")
    terminal.press(b"q\n")
    check(terminal.end() == 2, "an interview that is not saved ends so")
    check("NOT SAVED in d/x.yaml" in terminal.text() and "itches" in terminal.text().split("NOT SAVED")[1],
          "the case is printed")

# A case that is open elsewhere is refused; what it holds is left alone until the first answer.
with tempfile.TemporaryDirectory() as home:
    case = pathlib.Path(home) / "x.yaml"
    case.write_text("# seen by Dr. Ash\nanswers:\n  trembling: yes\n")
    terminal = Terminal(home, "--save", "x.yaml")
    terminal.read()
    other = Terminal(home, "--save", "x.yaml")
    check(other.end() == 2 and "open in another flinch" in other.text(), "a case that is open is refused")
    check("Dr. Ash" in case.read_text(), "nothing is written before the first answer")
    terminal.press(b"q\n")
    check(terminal.end() == 0 and "Saved in x.yaml" in terminal.text(), "saved, and said so")

# A case file that is none is never overwritten.
with tempfile.TemporaryDirectory() as home:
    precious = pathlib.Path(home) / "letter.txt"
    precious.write_text("Dear aunt,\n")
    terminal = Terminal(home, "--save", "letter.txt")
    check(terminal.end() == 2 and precious.read_text() == "Dear aunt,\n", "a file that is no case is left alone")
    terminal = Terminal(home, "--save", "no/such/folder/dog.yaml")
    check(terminal.end() == 2 and "cannot write" in terminal.text(), "a file that cannot be written is said at once")

print("\n".join(faults) or "sessions as they should be")
sys.exit(bool(faults))
