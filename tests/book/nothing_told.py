"""Names, numbers and notes are on the desk's own screen alone: planted ones are looked for in all that every command
prints, writes or says went wrong."""

import os
import pathlib
import re
import shutil
import sqlite3
import sys
import tempfile

from flinch_home import Home, case, write

program, source = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:3])
PACK = ("--pack", f"{source}/tests/book/clinic.flinch")
NOW = 1795618800  # 25 November 2026, 15:00
PLANTED = ("Zaphyra", "Quandary", "5550142", "555 0142", "sofa-gnawer")
WORDS = ("Zaphyra", "Jo Quandary", "555 0142")
REST = "note: a sofa-gnawer\ncame for: [lame]\nanswers: {lame: yes, pain_degree: mild}\n"
OUTCOME = "outcome: {cause: elbow_arthritis, needed: visit}\n"


def commands_in(help_text):
    return re.findall(r"^  ([a-z]+)  ", help_text.split("Subcommands:")[1], re.M)


def is_told(text):
    return [word for word in PLANTED if word in text]


class Desk(Home):
    def __init__(self, folder, book):
        super().__init__(program, folder, NOW, PLANTED, FLINCH_BOOK=str(book))  # no error may hold them, ever

    def silent(self, *args, **more):
        printed = self.flinch(*args, **more)
        assert not is_told(printed.out), f"{args}: {is_told(printed.out)}"

    def shows(self, *args, **more):
        """The desk's own screen, or what was asked for with names: what is looked for can be found."""
        printed = self.flinch(*args, **more)
        assert is_told(printed.out), f"{args}: {printed.out}"


def every_command(desk, scratch):
    """What is planted and every command of the program, by its name; a new one must be put in here."""
    one = scratch / "cases" / "open.yaml"
    page = scratch / "page.html"

    def report():
        desk.flinch("report", "--call", "2", *PACK, "-o", page)
        assert is_told(page.read_text()), "it is handed over with the patient, whose it is"
        page.unlink()

    def share():
        desk.silent("share", one, *PACK)
        desk.shows("share", one, "--with-names", *PACK)

    def ask():
        desk.shows("ask", *PACK, "--by", "Kim", "--book", desk.settings["FLINCH_BOOK"], typed=["zaph", "fresh", "lame", "q"])

    def audit():
        for more in (("--json",), ("--html", scratch / "audit.html"), ("--by-month",)):
            desk.silent("audit", *more, *PACK)
        assert not is_told((scratch / "audit.html").read_text())

    def batch():
        lines = desk.flinch("book", "export", *PACK).out.splitlines()
        desk.silent("batch", *PACK, typed=lines)

    # Of a case file that somebody names, the screen shows the name; its errors do not.
    def of_a_file(name, *more):
        return lambda: desk.flinch(name, one, *more, *PACK)

    # Without a case, or with one that needs a terminal.
    without_cases = {
        "call": lambda: desk.flinch("call", *PACK, status=2), "signs": lambda: desk.silent("signs", *PACK),
        "describe": lambda: desk.silent("describe", "lame", *PACK), "list": lambda: desk.silent("list", "causes", *PACK),
        "check": lambda: desk.silent("check", PACK[1]), "tidy": lambda: desk.silent("tidy", "--check", PACK[1]),
        "read": lambda: desk.flinch("read", "--help"), "serve": lambda: desk.flinch("serve", "--help"),
        "take": lambda: desk.flinch("take", "--help"), "complete": lambda: desk.flinch("complete", "--help")}
    return {**without_cases, "assess": of_a_file("assess"), "handover": of_a_file("handover"),
            "care": of_a_file("care"), "review": of_a_file("review"), "report": report, "share": share, "ask": ask,
            "audit": audit, "learn": lambda: desk.silent("learn", "--at-least", "1", *PACK),
            "compare": lambda: desk.silent("compare", PACK[1], PACK[1]), "batch": batch,
            "book": lambda: every_command_of_the_book(desk, scratch)}


def every_command_of_the_book(desk, scratch):
    def book(how, *args, **more):
        return lambda: getattr(desk, how)("book", *args, **more)

    def lists(name, *more):
        def check():
            desk.shows("book", name, *more, *PACK)
            desk.shows("book", name, *more, *PACK, "--json", "--with-names")
            desk.silent("book", name, *more, *PACK, "--json")
        return check

    def export():
        for more in ((), ("--csv",), ("--closed",), ("-o", scratch / "out.jsonl")):
            desk.silent("book", "export", *more, *PACK)
        assert not is_told((scratch / "out.jsonl").read_text())
        desk.shows("book", "export", "--with-names", *PACK)

    def history():
        desk.silent("book", "history", "1")
        desk.shows("book", "history", "1", "--with-names")

    def backup():
        desk.silent("book", "backup", scratch / "copy.db")
        desk.silent("book", "backup", scratch / "copy.db", status=2)

    def forget():
        desk.shows("book", "forget", "zaph", status=1)  # who fits: it was asked for
        desk.silent("book", "forget", "nobody", status=1)
        desk.silent("book", "forget", "--older-than", "1", status=1)

    known = {"due": lists("due"), "today": lists("today"), "open": lists("open"), "patient": lists("patient", "zaph"),
             "history": history, "export": export, "backup": backup, "forget": forget,
             "import": book("silent", "import", scratch / "cases", *PACK),
             "close": book("silent", "close", "2", "--needed", "visit", "--by", "Dr Hale", *PACK),
             "rung": book("silent", "rung", "2", "--by", "Kim"),
             "ring": book("silent", "ring", "1", *PACK, status=2),
             "restore": book("silent", "restore", scratch / "copy.db", "--book", scratch / "again.db")}
    names = commands_in(desk.flinch("book", "--help").out)
    assert sorted(names) == sorted(known), f"put in here: {set(names) ^ set(known)}"
    for name in ("due", "today", "open", "patient", "history", "export", "backup", "restore", "import", "ring", "rung",
                 "close", "forget"):
        known[name]()


def what_goes_wrong(desk, scratch):
    """No error text, whatever is wrong with the case file, the book, or the command line."""
    folder = scratch / "wrong"
    folder.mkdir()
    wrong = {"not_a_text": "call back: {a: 5550142}\nnote: [a sofa-gnawer]\n",
             "wrong_answer": case(*WORDS, "note: a sofa-gnawer\nanswers: {lame: yess}\n"),
             "in_a_line": "{name: Zaphyra, caller: Jo Quandary, call back: 5550142, answers: {lame: yess}}\n",
             "json": '{"name": "Zaphyra", "note": "a sofa-gnawer, {", "answers": {"lame": "yess"}}',
             "twice": "name: Zaphyra\nname: Zaphyra\ncaller: Quandary\nanswers: {}\n",
             "no_end": "name: [Zaphyra\nnote: sofa-gnawer\nanswers: {lame: yess}\n",
             "block": "note: |\n  a sofa-gnawer\n  Quandary\nanswers: {lame: yess}\n",
             "comment": "# before: Zaphyra, 5550142\nanswers: {lame: yess}\n"}
    for name, text in wrong.items():
        path = folder / f"{name}.yaml"
        path.write_text(text)
        for command in (("assess",), ("book", "import"), ("handover",), ("report", "-o", scratch / "page.html")):
            printed = desk.flinch(*command, path, *PACK, status=2)
            assert "error: " in printed.err and path.name in printed.err, printed.err
    desk.silent("book", "import", folder, *PACK, status=2)
    for args in (("history", "999"), ("rung", "x"), ("close", "1", "--cause", "elbow", "--by", "Kim", *PACK),
                 ("close", "1", "--by", "Kim", *PACK), ("due", "--jsn"), ("export", "--since", "x", *PACK)):
        desk.silent("book", *args, status=2)
    damaged = scratch / "damaged.db"
    whole = pathlib.Path(desk.settings["FLINCH_BOOK"]).read_bytes()
    damaged.write_bytes(whole[:4096] + b"\xff" * 8192 + whole[12288:])
    odd = scratch / "odd.db"
    shutil.copy(scratch / "copy.db", odd)
    with sqlite3.connect(odd) as connection:
        connection.execute("UPDATE wording SET changes = 'Zaphyra'")
        connection.execute("UPDATE event SET changes = 'Quandary'")
    connection.close()
    for place in (damaged, odd):
        for args in (("due", *PACK), ("export", *PACK), ("history", "1"), ("patient", "1", *PACK), ("backup", scratch / "x.db")):
            done = desk.flinch("book", *args, "--book", place, status=None)
            assert place != odd or args[0] in ("due", "backup") or "error: " in done.err, f"{args}: {done}"


with tempfile.TemporaryDirectory(prefix="flinch-nothing-") as made:
    scratch = pathlib.Path(made)
    cases = scratch / "cases"
    cases.mkdir()
    home = scratch / "home"
    home.mkdir()
    write(cases, "open.yaml", case(*WORDS, REST + "ring back at: '15:30'\n"), NOW - 3600)
    write(cases, "closed.yaml", case(*WORDS, REST + OUTCOME), NOW - 30 * 86400)
    desk = Desk(home, scratch / "book.db")
    desk.silent("book", "import", cases, *PACK)
    known = every_command(desk, scratch)
    names = commands_in(desk.flinch("--help").out)
    assert sorted(names) == sorted(set(known) - {"complete"}), f"put in here: {set(names) ^ set(known)}"
    for check in known.values():
        check()
    what_goes_wrong(desk, scratch)
    for file in home.rglob("*"):
        assert not file.is_file() or not any(word.encode() in file.read_bytes() for word in PLANTED), f"a log: {file}"
    print("what tells who somebody is stands on the desk's own screen alone")
