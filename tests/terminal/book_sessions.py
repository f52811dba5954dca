"""Calls kept in the book, on a pseudo-terminal: found, broken off, taken over, failed, rung back."""

import difflib
import json
import os
import pathlib
import re
import sqlite3
import subprocess
import sys
import tempfile

from screen import Terminal

program, pack, golden = sys.argv[1:4]
program, golden = str(pathlib.Path(program).resolve()), pathlib.Path(golden).resolve()
os.chdir(pathlib.Path(pack).parent)
pack = pathlib.Path(pack).name
update = "--update" in sys.argv
home = pathlib.Path(tempfile.mkdtemp())
book = home / "book.db"
NOW = 1795618800  # 25 November 2026, 15:00
DAY = 86400
machine = os.uname().nodename
faults = []

UNDO, LEAVE = "\x1a", "\x03"


def call(*arguments, by="Kim", now=NOW, **settings):
    return Terminal([program, *(arguments or ("call",)), "--pack", pack, "--by", by, "--book", str(book)],
                    HOME=str(home), SOURCE_DATE_EPOCH=str(now), **settings)


def in_book(*arguments, now=NOW):
    return subprocess.run([program, "book", *arguments, "--book", str(book)], capture_output=True, text=True,
                          env={"LC_ALL": "C.UTF-8", "TZ": "UTC", "HOME": str(home), "SOURCE_DATE_EPOCH": str(now)}).stdout


def expect(fact, what):
    if not fact:
        faults.append(what)


def compare(name, text):
    path = golden / f"{name}.txt"
    if update:
        path.parent.mkdir(exist_ok=True)
        path.write_text(text, encoding="utf-8")
        return
    wanted = path.read_text(encoding="utf-8") if path.exists() else ""
    if text != wanted:
        faults.append(f"{name}:\n" + "".join(
            difflib.unified_diff(wanted.splitlines(True), text.splitlines(True), "wanted", "seen")))


def plain(terminal):
    """All that was sent, without what moves the cursor."""
    return re.sub(r"\x1b[\[(][0-9;?]*[A-Za-z]", "", terminal.sent.decode(errors="replace"))


def calls():
    return [json.loads(line) for line in in_book("export", "--with-names").splitlines()]


# The first call begins the book: five weeks ago, with name, number and what was seen.
t = call(now=NOW - 35 * DAY)
compare("who", t.text())
t.press("\r").press("lame").press("1").press("no\r")
t.press("\tJo Alder\r555 0142\rBramble\r9 years\r31 kg\r")
expect(len(calls()) == 1, "one call is begun")
words = [line for line in in_book("history", "1", "--with-names").splitlines() if "Bra" in line]
expect(len(words) == 1 and "Bramble" in words[0], f"words are kept whole, not letter by letter: {words}")
t.press("\x1b").press("!1").press(LEAVE)
expect(t.end() == 0 and "In the book as call 1." in plain(t), "it is told where the call is")
expect("Bramble" in in_book("due", "--pack", pack), "the time that was agreed is due")

# Found by letters; last visits; what lasts.
t = call()
compare("found", t.press("bra\r").text())
t.press("fresh\r")
compare("begins", t.marked())
compare("known", t.press("\t").marked())
expect(len(calls()) == 1, "nothing is begun before something is said")
compare("before", t.press("\x1b").press("lame").press("1").marked())
expect(len(calls()) == 2 and calls()[1]["name"] == "Bramble", "the patient's second call")

# A second desk is told who has it; it may look, or take it over.
other = call("call", "--call", "2", by="Alex")
said = " ".join(other.text().split())
expect(f"Kim at {machine} has call 2 open since 2026-11-25 15:00" in said and "take to take it over" in said, said)
other.press("look\r")
expect(other.end() == 0 and "HAND-OVER NOTE" in plain(other), "it may look")
other = call("call", "--call", "2", by="Alex")
other.press("take\r").press("retch").press("1")
t.press("gum").press("1").press("2")
said = " ".join(t.text().split())
expect(f"Alex at {machine} took this call over at" in said and "What you record is kept too" in said, said)
answers = calls()[1]["answers"]
expect(answers.get("retching_dry") == "yes" and answers.get("gum_colour") == "pale", f"no answer is lost: {answers}")
other.press(LEAVE)
other.end()
t.press(LEAVE)
t.end()

# Gone on with: what came from the book is still shown as that.
t = call("call", "--call", "2")
expect("(from the book)" in t.press("\t").text(), t.text())
t.press(LEAVE)
t.end()

# kill -9: the claim holds nobody up, and the same person is asked whether to go on.
t = call()
t.press("\r").press("retch").press("1").kill()
expect(len(calls()) == 3 and calls()[2]["answers"] == {"retching_dry": "yes"}, "what was answered is there")
other = call("call", "--call", "3", by="Alex")
expect("[questions]" in other.text(), "another desk gets it at once")
other.kill()
t = call(by="Alex")
compare("broken-off", t.text())
t.press("no\r")
expect("Who is it about?" in t.text(), "it stays in the book")
t.press("\r").kill()

# The book fails in the middle of a call: one sentence, the call goes on in a file, and is taken in once.
t = call()
t.press("\r").press("retch").press("1")
whole = {one: one.read_bytes() for one in home.glob("book.db*")}
with sqlite3.connect(book) as connection:
    connection.execute("ALTER TABLE event RENAME TO lost")
connection.close()
t.press("collapsed").press("\r")
said = " ".join(t.text().split())
expect("this book refused a step" in said and "goes on in a case file" in said and "COLLAPSED: YES" in said, said)
waiting = list(home.glob(".local/state/flinch/waiting-*.yaml"))
expect(len(waiting) == 1 and "collapsed: yes" in waiting[0].read_text(), "the call goes on in a case file")
t.kill()
with sqlite3.connect(book) as connection:
    connection.execute("ALTER TABLE lost RENAME TO event")
connection.close()
t = call(by="Alex")
expect("1 call that waited in case files is in the book now" in plain(t), plain(t))
t.press("\x04")
t.end()
expect(calls()[3]["answers"] == {"retching_dry": "yes", "collapsed": "yes"}, f"{calls()[3]}")
expect(not list(home.glob(".local/state/flinch/waiting-*")), "it is taken in once")

# Ringing back: what it had is asked first, nothing of it is today's before it is said.
t = call("book", "ring", "1", now=NOW)
compare("ring-back", t.marked())
expect(not t.text().count("= yes"), "nothing is taken over")
t.press("no\r")
compare("ring-back-better", t.marked())
t.press("collapsed").press("\r")
compare("ring-back-worse", t.marked())
t.press("!1").press(LEAVE)
expect(t.end() == 0 and "SINCE LAST TIME" in plain(t), "how it fares is told at the end")
expect("worse than in call 1 of 2026-10-21 15:00" in " ".join(plain(t).split()), plain(t)[-900:])
last = calls()[-1]
expect(last["answers"] == {"lame": "no", "collapsed": "yes"}, f"only what was said today: {last['answers']}")
due = [one["call"] for one in json.loads(in_book("due", "--json"))["calls"]]
expect(due == [len(calls())], f"the next time is due, and the call that was rung back for no more: {due}")

print("\n".join(faults) or "calls in the book as they should be")
sys.exit(1 if faults else 0)
