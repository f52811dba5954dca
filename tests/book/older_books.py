"""Books of every older version of the tables are opened, brought up to date, and hold what they held."""

import json
import os
import pathlib
import sqlite3
import subprocess
import sys
import tempfile

from flinch_home import Home, case, write

program, source = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:3])
here = pathlib.Path(__file__).parent
PACK = ("--pack", f"{source}/tests/call/desk.flinch")
NOW = 1795618800  # 25 November 2026, 15:00
VERSION = "3"


def check(home, book, held, version_of):
    def told(*args):
        return home.flinch("book", *args, "--book", book).out

    for name, answers in held.items():
        assert name in told("patient", name, *PACK)
        line = next(one for one in map(json.loads, told("export", "--with-names", *PACK).splitlines())
                    if one["name"] == name)
        assert line["answers"] == answers and line["call back"] == "555 0177", line
    assert version_of() == VERSION
    assert "Kim" in told("history", "1")
    if "Tansy" in held:
        due = told("due", *PACK)
        assert "2026-11-26 10:00" in due and "Moss, Al Berg, 555 0177" in due and "Tansy" not in due, due

    # It goes on like any book.
    told("import", home.folder / "cases", *PACK)
    moss = told("patient", "moss", *PACK)
    assert moss.count("call ") == 2, f"the same patient: {moss}"
    told("close", "1", "--needed", "visit", "--by", "Dr Hale", *PACK)
    assert "Moss" not in told("due", *PACK)
    copy = home.folder / "copy.db"
    told("backup", copy)
    assert home.flinch("book", "export", "--with-names", "--book", copy).out == told("export", "--with-names")
    copy.unlink()
    assert "1 client" in told("forget", "al", "berg", "--yes")
    assert "Moss" not in told("export", "--with-names")


def in_a_file(home, script, held):
    book = home.folder / "book.db"
    book.unlink(missing_ok=True)

    def rows(work):
        with sqlite3.connect(book) as connection:
            found = work(connection)
        connection.close()
        return found

    rows(lambda connection: connection.executescript(script.read_text()))
    check(home, book, held, lambda: str(rows(lambda one: one.execute("SELECT max(version) FROM book_version").fetchone()[0])))
    assert rows(lambda one: one.execute("PRAGMA foreign_key_check").fetchall()) == []
    assert rows(lambda one: one.execute("PRAGMA integrity_check").fetchone()) == ("ok",)


def on_a_server(home, address, script, held):
    def psql(*args):
        return subprocess.run(["psql", "-v", "ON_ERROR_STOP=1", "-Atq", address, *args], check=True,
                              capture_output=True, text=True).stdout.strip()

    psql("-f", script)
    check(home, address, held, lambda: psql("-c", "SELECT max(version) FROM flinch.book_version"))


with tempfile.TemporaryDirectory(prefix="flinch-older-") as made:
    home = Home(program, pathlib.Path(made), NOW)
    (home.folder / "cases").mkdir()
    write(home.folder / "cases", "moss.yaml", case("Moss", "Al Berg", "555 0177", "answers: {lame: no}\n"), NOW - 60)
    second = {"Moss": {"lame": "yes"}, "Tansy": {"collapsed": "no", "lame": "yes"}}
    server = os.environ.get("FLINCH_TEST_SERVER")
    if server:
        on_a_server(home, server, here / "version_2_server.sql", second)
    else:
        in_a_file(home, here / "version_1.sql", {"Moss": {"lame": "yes"}})
        in_a_file(home, here / "version_2.sql", second)
    print("books of older versions hold what they held")
