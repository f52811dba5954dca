"""Calls on a pseudo-terminal, their screens compared whole; `--update` rewrites the screens."""

import difflib
import os
import pathlib
import re
import subprocess
import sys
import tempfile

from screen import Terminal

program, pack, golden = sys.argv[1:4]
# Commands that are named to the user keep the pack's path: it is to be alike everywhere.
os.chdir(pathlib.Path(pack).parent)
pack = pathlib.Path(pack).name
update = "--update" in sys.argv
golden = pathlib.Path(golden)
folder = pathlib.Path(tempfile.mkdtemp())
faults = []

UNDO, LEAVE, KEYS, REDRAW, CLEAR = "\x1a", "\x03", "\x0b", "\x0c", "\x15"
# As xterm sends them with its keypad in use.
UP, DOWN, BACK_TAB, PASTE, PASTE_END = "\x1bOA", "\x1bOB", "\x1b[Z", "\x1b[200~", "\x1b[201~"


def call(*arguments, **settings):
    return Terminal([program, "call", "--pack", pack, *arguments], **settings)


def compare(name, text):
    path = golden / f"{name}.txt"
    if update:
        path.write_text(text, encoding="utf-8")
        return
    wanted = path.read_text(encoding="utf-8") if path.exists() else ""
    if text != wanted:
        faults.append(f"{name}:\n" + "".join(
            difflib.unified_diff(wanted.splitlines(True), text.splitlines(True), "wanted", "seen")))


def answers_of(path):
    return path.read_text(encoding="utf-8").split("  species: dog\n")[-1]


def expect(fact, what):
    if not fact:
        faults.append(what)


# A whole call at 80 x 24: every page, undo, the note on leaving.
case = folder / "bramble.yaml"
t = call("--save", str(case))
compare("start", t.marked())
compare("search", t.press("bloat").marked())
compare("marked", t.press("1").marked())
compare("raised", t.press("retch").press("1").marked())
compare("undone", t.press(UNDO).marked())
t.press("retch").press("1")
compare("details", t.press("\tJo Alder\r555 0142\rBramble\r10 years\r31 kg\r").marked())
compare("answers", t.press("\x1b").press("\t\t").marked())
compare("advice", t.press("\x1b").press("!1").marked())
compare("keys", t.press(KEYS).marked())
t.press("q").press(LEAVE)
expect(t.end() == 0, "leaving a call that is kept is fine")
expect(b"HAND-OVER NOTE" in t.sent.split(b"\x1b[?1049l")[-1], "the note is printed on the plain screen")
expect(b"\x1b[?2004h" in t.sent and b"\x1b[?2004l" in t.sent, "pastes are marked, and no longer afterwards")
compare("saved", case.read_text(encoding="utf-8"))
fixed = {"LC_ALL": "C", "SOURCE_DATE_EPOCH": "1795618800", "TZ": "UTC"}
for name, options in (("handover", ()), ("handover-markdown", ("--markdown",))):
    compare(name, subprocess.run([program, "handover", "--pack", pack, *options, str(case)], check=True,
                                 capture_output=True, text=True, env=fixed).stdout)

# A hurried hand: what was said is what is recorded, on the pack that ships.
def hurried(keys, recorded, name=None):
    case = folder / "hurried.yaml"
    case.unlink(missing_ok=True)
    t = Terminal([program, "call", "--save", str(case)])
    for key in keys:
        t.press(key)
    if name:
        compare(name, t.marked())
    text = answers_of(case).split("answers:\n")[-1]
    expect(text == "".join(f"  {line}\n" for line in recorded), f"{keys}: recorded {text!r}")
    t.press(LEAVE)
    t.end()


hurried(["gums look pale", "\r", "\r"], ["gum_colour: pale"], "hurried-pale")
hurried(["not eating", "\r", "\r"], ["appetite: nothing"], "hurried-not-eating")
hurried(["colour of his gums", "\r", "not eating", "\r"], ["appetite: nothing"])
hurried(["colour of his gums", "\r", "yelps", "\r"], [], "hurried-at-a-choice")
hurried(["yes", "\r"], ["collapsed: yes"], "hurried-yes")
hurried(["no", "\r"], ["collapsed: no"])
for words in ("big bell", "weak", "left", "nsaid", "nauseous", "yorkie"):
    hurried([words, "\r", "\r"], [], "hurried-weak" if words == "weak" else None)
hurried(["1", "0"], ["collapsed: yes"], "hurried-ten")
hurried(["not drooling", "1"], [], "hurried-not-drooling")
hurried(["\t", "Jo!"], [])
# A digit that was meant for the list is no choice of the question that hangs on what was found; two letters that begin
# another word are no sex.
case = folder / "vomiting.yaml"
t = Terminal([program, "call", "--save", str(case)])
t.press("vomiting").press("\r").press("1")
expect("vomited_times" not in answers_of(case), "a digit of the list stored how often it vomited")
t.press("spayed").press("\r").press("fi").press("\r")
expect("neutered: yes" in case.read_text(encoding="utf-8"), "what was told of neutering stands")
expect("sex: female" not in case.read_text(encoding="utf-8"), "\"fi\" of \"fits\" told the sex")
t.kill()

# A tier that was told stands until its fall has been seen.
case = folder / "fall.yaml"
t = Terminal([program, "call", "--save", str(case)])
t.press("collapsed").press("\r").press("\t\t").press("0")
compare("fell", t.press("\x1b").marked())
t.press("\r")
expect("FELL" not in t.text(), "Enter acknowledges the fall")
t.kill()

# Words for the sex are a fact of the patient, at any time; what cannot be together is told as soon as it is said; what
# was denied stands in whole names on its line.
case = folder / "told.yaml"
t = Terminal([program, "call", "--save", str(case)])
compare("sex-searched", t.press("spayed female").marked())
compare("sex-told", t.press("\r").marked())
compare("clash-told", t.press("sore scrotum").press("1").marked())
expect("cannot apply" in t.text(), "a clash is told at the desk")
compare("denied", t.press("\x1b").press("0").press("0").marked())
t.kill()

# A large screen; then the same call on others, in its middle.
t = call(columns=120, rows=40)
compare("large", t.press("limp").press("1").marked())
compare("resized-smaller", t.resize(80, 24).marked())
compare("resized-too-small", t.resize(40, 10).text())
compare("resized-back", t.resize(120, 40).marked())
t.kill()

# The keys that terminals send as sequences.
t = call()
first = t.text().split("> ")[1].split("\n")[0]
t.press(DOWN)
expect(t.text().split("> ")[1].split("\n")[0] != first, "Down goes to the next line")
t.press(UP)
expect(t.text().split("> ")[1].split("\n")[0] == first, "Up goes back")
t.press(BACK_TAB)
expect("[note]" in t.text(), "Shift-Tab goes to the page before")
t.press("\t").press("/bloat").press(CLEAR).press("limp")
expect("FIND  limp" in t.text(), "Ctrl-U empties the line")
t.kill()

# Where pastes come without marks, what comes at once is no answer.
case = folder / "burst.yaml"
t = call("--save", str(case), TERM="screen")
t.press("nothing yet")
expect("answers:\n" == answers_of(case), "a paste without marks gives no answer")
expect("FIND  nothing yet" in t.text(), "it is searched for")
t.kill()

# Plain terminals.
t = call(NO_COLOR="1")
compare("no-colour", t.press("floppy").press("1").marked())
t.kill()
expect(not re.search(rb"\x1b\[[0-9;]*3[0-8][0-9;]*m", t.sent), "no hue with NO_COLOR")
t = call(LC_ALL="C", TERM="vt100")
compare("vt100-ascii", t.press("floppy").press("1").text())
t.kill()
expect(t.sent.isascii(), "no byte above 127 without a UTF-8 locale")

# The one hue, on the tier alone.
t = call()
t.press("floppy").press("1")
expect(b"38;5;30" in t.sent, "the tier is in the one hue")
t.kill()

# Hostile bytes, typed and pasted.
case = folder / "hostile.yaml"
t = call("--save", str(case))
t.press(b"\xff\xfe\xc3(\x80\xf0\x9f")
t.press("\x1b[99;99H\x1b]0;title\x07\x1bP\x1b\\")
expect(t.process.poll() is None, "bytes that are no text do not end the call")
expect("answers:\n" == answers_of(case), "sequences that no key sends give no answer")
t.press("\x1b").press(PASTE + "y\ny\n0\n123\x1b[2J\x07" + PASTE_END)
compare("pasted-answers-nothing", t.press(REDRAW).marked())
expect("answers:\n" == answers_of(case), "a paste gives no answer")
t.press("\x1b").press("\t")
t.press(PASTE + "Z\u00f6e \x1b]0;x\x07\x1b[31m<b>=1+1\r\nx\u202e" + "long " * 200 + PASTE_END)
compare("pasted-details", t.press("\r").marked())
t.kill()
expect(all(c == "\n" or c >= " " for c in case.read_text()), "no control character in the case file")

# kill -9 loses nothing; the call goes on where it was.
case = folder / "killed.yaml"
t = call("--save", str(case))
t.press("limp").press("1").press("no\r").press("\tJo\r").press("\x1b")
t.kill()
before = case.read_text()
expect("lame: yes" in before and 'caller: "Jo"' in before, "every answer was on the disk")
expect(not list(folder.glob("*.new-*")), "no half-written file is left")
t = call("--save", str(case))
compare("resumed", t.marked())
expect(case.read_text() == before, "taking a call up again changes nothing")
t.press("floppy").press("1").press(LEAVE)
expect(t.end() == 0, "a resumed call ends as any other")
expect("collapsed: yes" in case.read_text() and "lame: yes" in case.read_text(), "old and new answers")

# The line drops.
t = call("--save", str(case))
t.press("breath").press("2")
kept = case.read_text()
t.hang_up()
expect(case.read_text() == kept, "a hang-up leaves the file whole")

# Saving fails while the call goes on: it is said until it works, tried again, and told at the end.
gone = folder / "gone"
gone.mkdir()
case = gone / "case.yaml"
t = call("--save", str(case))
case.unlink()
t.press("no\r")
(gone / "case.yaml").unlink()
gone.rename(folder / "moved")
t.press("no\r").press("\t")
expect("NOT SAVED" in t.text(), "what is not saved stays on the screen")
(folder / "moved").rename(gone)
t.press("\t")
expect("NOT SAVED" not in t.text() and "collapsed: no" in case.read_text(), "saving is tried again")
case.unlink()
gone.rename(folder / "moved")
t.press("\x1b").press("no\r").press(LEAVE)
expect(t.end() == 2, "a call that is not saved ends so")
expect(b"NOT SAVED in" in t.sent and b"collapsed: no" in t.sent, "the case is printed")
expect(b"Saved in" not in t.sent, "nothing is claimed")

# One case, one call.
case = folder / "open.yaml"
t = call("--save", str(case))
t.press("no\r")
other = call("--save", str(case))
expect(other.end() == 2 and "open in another flinch" in other.text(), "a case that is open is refused")
t.press(LEAVE)
expect(t.end() == 0 and not list(folder.glob("open.yaml.*")), "nothing is left beside the case")

# Without a file, a call that was cut off is offered again.
home = folder / "home"
home.mkdir()
t = call(HOME=str(home))
t.press("no\r").press("\tJo").kill()
t = call(HOME=str(home))
expect("A call was broken off" in t.text(), "a call that was cut off is offered")
t.press("yes\r")
expect("1 > collapsed" not in t.text(), "it goes on")
t.press(LEAVE).press(LEAVE)
expect(t.end() == 0 and not list(home.rglob("*.yaml")), "left on purpose, it is gone")

# Leaving a call that nothing keeps asks twice.
t = call()
t.press("limp").press("1")
compare("leave-asks", t.press(LEAVE).marked())
t.press(LEAVE)
expect(t.end() == 0, "the second time it leaves")

# Where it cannot work it says so in one line and names what does.
def refused(result, what):
    expect(result.returncode == 2, f"{what}: exit status {result.returncode}")
    expect(result.stderr.count("\n") == 1 and "flinch ask" in result.stderr, f"{what}: {result.stderr!r}")
    expect(result.stdout == "", f"{what}: nothing on standard output")


refused(subprocess.run([program, "call"], stdin=subprocess.DEVNULL, capture_output=True, text=True), "no terminal")
for name, settings in (("dumb", {"TERM": "dumb"}), ("unknown", {"TERM": "no-such-terminal"}), ("small", {"columns": 59})):
    t = call(**settings)
    expect(t.end() == 2, f"{name}: exit status")
    compare(f"refused-{name}", t.text().strip("\n") + "\n")
bad = folder / "bad.yaml"
bad.write_text("answers: {nonsense: yes}\n")
t = call("--save", str(bad))
expect(t.end() == 2 and bad.read_text() == "answers: {nonsense: yes}\n", "a bad file is refused and left alone")
t = call("--save", str(folder / "missing" / "x.yaml"))
expect(t.end() == 2, "a file that cannot be written is found out before the call")

print("\n".join(faults) or "calls as they should be")
sys.exit(1 if faults else 0)
