"""`flinch book` as a whole program: what goes in comes out again, and names only where they are asked for."""

import csv
import io
import json
import os
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

from flinch_home import Home, case, write

program, source = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:3])
PACK = ("--pack", f"{source}/tests/book/clinic.flinch")
csv.field_size_limit(1 << 24)
NOW = 1764000000  # 2025-11-24 16:00 UTC
HOUR, DAY = 3600, 86400
SECRETS = ("Bramble", "Jo Alder", "5550142", "555 0142", "Quartz", "SUM(A1)", "slower since")


# What reads a pack reads a small one: the shipped one is read a hundred times otherwise.
READ_A_PACK = ("import", "due", "today", "open", "patient", "close", "export")


class Book(Home):
    def __init__(self, place, scratch):
        super().__init__(program, scratch, NOW, SECRETS, FLINCH_BOOK=place)

    def __call__(self, *args, status=0):
        printed = self.flinch("book", *args, *(PACK if args[0] in READ_A_PACK else ()), status=status)
        self.err = printed.err
        return printed.out


def calls_of(book):
    return [json.loads(line) for line in book("export").splitlines()]


def check_taking_in_again(book, scratch):
    """A folder is taken in every evening, its files as they then are."""
    folder = scratch / "evenings"
    folder.mkdir()
    text = case("Sorrel", "Kit Ash", "555 0177", "answers: {lame: yes}\nring back at: '17:30'\n")
    write(folder, "sorrel.yaml", text, NOW - HOUR)
    for name in ("one", "two"):  # nobody was told whose they are
        write(folder, f"{name}.yaml", "answers: {vomiting: yes}\n", NOW - HOUR)
    before = len(calls_of(book))
    assert "3 calls taken" in book("import", folder), "files that hold the same are two calls"
    call = next(str(one["call"]) for one in json.loads(book("due", "--json", "--with-names"))["calls"]
                if "Sorrel" in json.dumps(one))
    assert "Sorrel" in book("due")

    # What a desk saved between stays, and what the file does not say otherwise is not said again.
    assert f"Call {call} is rung back" in book("rung", call, "--by", "Kim")
    assert "Sorrel" not in book("due") and "Sorrel" in book("open")
    assert "no ring-back" in book("rung", call, status=1)
    book("close", call, "--needed", "visit", "--by", "Dr Hale")
    entries = book("history", call)
    assert "0 calls taken" in book("import", folder)
    assert book("history", call) == entries and "Sorrel" not in book("open")
    write(folder, "sorrel.yaml", text.replace("lame: yes", "lame: yes, vomiting: no"), NOW)
    told = book("import", folder)
    assert "0 calls taken" in told and "1 in it brought up to date" in told and "2 in it already" in told, told
    assert "vomiting: no" in book("history", call) and "Sorrel" not in book("due")
    assert "Sorrel" not in book("open"), "the file does not know the outcome, and takes none back"

    # A file that gained an outcome closes its call.
    open_before = book("open").count("; call ")
    write(folder, "one.yaml", "answers: {vomiting: yes}\noutcome: {cause: none, needed: visit}\n", NOW)
    assert "1 in it brought up to date" in book("import", folder)
    assert book("open").count("; call ") == open_before - 1
    assert len(calls_of(book)) == before + 3

    # Moved, it is the same dog at the same number that began at the same time.
    write(folder, "moss.yaml", case("Moss", "Lee Fern", "555 0188", "answers: {lame: yes}\n"), NOW - HOUR)
    assert "1 call taken" in book("import", folder)
    moved = scratch / "moved"
    moved.mkdir()
    (folder / "moss.yaml").rename(moved / "renamed.yaml")
    assert "0 calls taken" in book("import", moved)
    # The same file for another dog is another call.
    write(moved, "renamed.yaml", case("Heath", "Lee Fern", "555 0189", "answers: {lame: no}\n"), NOW)
    assert "1 call taken" in book("import", moved)
    assert "Moss" in book("patient", "moss") and "Heath" in book("patient", "heath")


def check(place, scratch):
    book = Book(place, scratch)
    shape = jsonschema.Draft201909Validator(json.loads(pathlib.Path(source, "docs/book.schema.json").read_text()))
    folder = scratch / "cases"
    folder.mkdir()
    write(folder, "a.yaml", case("Bramble", "Jo Alder", "555 0142",
          "came for: [lame]\nanswers: {lame: yes, pain_degree: mild}\nnote: slower since autumn\n"), NOW - 30 * DAY)
    write(folder, "b.yaml", case("Bramble", "Jo Alder", "555 0142",
          "came for: [lame]\nanswers: {lame: yes, pain_degree: marked}\nring back at: '15:30'\n"), NOW - HOUR)
    write(folder, "c.yaml", case("=SUM(A1)", "a\u001b[2Jb", "+1'; DROP TABLE call", "answers: {vomiting: yes}\n"
          "ring back at: '17:00'\n"), NOW - 2 * HOUR)
    write(folder, "d.yaml", case("Quartz", "Al Berg", "555 0199",
          "answers: {lame: no}\noutcome: {cause: none, needed: visit}\nnote: long\n"), NOW - 3 * DAY)

    if place.startswith("/"):
        book("due", status=2)
        assert "there is no book here yet" in book.err, book.err
    assert "4 calls taken" in book("import", folder)
    assert "0 calls taken" in book("import", folder)
    out = book("due")
    assert out.index("30 minutes overdue") < out.index("in 60 minutes"), out
    assert "Bramble, Jo Alder, 555 0142" in out and "=SUM(A1), a?[2Jb" in out, out
    today = book("today")
    assert "Bramble" in today and "Quartz" not in today
    assert today.count("; call ") == 2, today
    assert "Bramble" in book("open") and "Quartz" not in book("open")
    assert book("open", "--days", 60).count("; call ") == 3

    dog = book("patient", "bram")
    assert "a little" in dog and "much" in dog and "31" in dog and dog.count("call ") == 2, dog
    assert dog.index("a little") < dog.index("much"), "oldest first"
    assert book("patient", "0142") == dog and book("patient", "bra", "ald") == dog
    number = dog.split("PATIENT ")[1].split(":")[0]
    assert book("patient", number) == dog
    assert "No patient" in book("patient", "nobody", status=1)

    # For programs, without names and with them.
    for args in (("due",), ("today",), ("open",), ("patient", "bram")):
        plain = book(*args, "--json")
        for document in (plain, book(*args, "--json", "--with-names")):
            shape.validate(json.loads(document))
        assert not any(secret in plain for secret in SECRETS), args
    assert "555 0142" in book("due", "--json", "--with-names")

    calls = json.loads(book("today", "--json"))["calls"]
    call = calls[-1]["call"]
    book("close", call, "--cause", "elbow_artritis", "--by", "Dr Hale", status=2)
    assert "unknown cause `elbow_artritis`" in book.err and "did you mean `elbow_arthritis`" in book.err
    book("close", call, "--by", "Dr Hale", status=2)
    book("close", "999999", "--cause", "none", "--by", "Dr Hale", status=2)
    assert "closed" in book("close", call, "--cause", "elbow_arthritis", "--needed", "visit", "--by", "Dr Hale")
    assert "Dr Hale" in book("history", call) and "Elbow" in book("patient", "bram")
    assert "Bramble" not in book("due"), "a closed call rings nobody"

    lines = book("export")
    assert len(lines.splitlines()) == 4 and not any(secret in lines for secret in SECRETS)
    batch = subprocess.run([program, "batch"], input=lines.encode(), capture_output=True)
    assert batch.returncode == 0 and batch.stdout.count(b"\n") == 4, batch.stderr
    assert len(book("export", "--closed").splitlines()) == 2
    assert len(book("export", "--since", "2025-11-24").splitlines()) == 2
    book("export", "--since", "2025-13-01", status=2)
    table = list(csv.DictReader(io.StringIO(book("export", "--csv", "--with-names"), newline="")))
    assert len(table) == 4 and {row["name"] for row in table} == {"Bramble", "'=SUM(A1)", "Quartz"}
    assert not any(value[:1] in "=+-@\t\r" for row in table for value in row.values() if value)
    assert not any(secret in book("export", "--csv") for secret in SECRETS)
    output = scratch / "calls.jsonl"
    book("export", "-o", output)
    assert output.read_text() == book("export") and output.stat().st_mode & 0o777 == 0o600

    # What goes through many cases goes through the book when it is given none.
    closed = scratch / "closed"
    closed.mkdir()
    for name, outcome in (("b", "{cause: elbow_arthritis, needed: visit}"), ("d", "{cause: none, needed: visit}")):
        text = (folder / f"{name}.yaml").read_text().split("outcome:")[0].split("note:")[0]
        (closed / f"{name}.yaml").write_text(text + f"outcome: {outcome}\n")

    def flinch(*args, **more):
        return book.flinch(*args, *PACK, **more).out

    def without_names(audit):
        return {key: value for key, value in json.loads(audit)["audits"][0].items() if key != "worst"}

    assert without_names(flinch("audit", "--json")) == without_names(flinch("audit", "--json", closed))
    assert not any(secret in flinch("audit", "--json") for secret in SECRETS)
    months = flinch("audit", "--by-month").splitlines()
    assert [line.split()[:2] for line in months if line.startswith("  2025-")] == [["2025-11", "2"]], months
    flinch("audit", closed, "--by-month", status=2)
    flinch("audit", "--until", "2020-01-01", status=2)
    flinch("audit", closed, "--since", "2020-01-01", status=2)
    assert flinch("learn", "--at-least", 1) == flinch("learn", "--at-least", 1, closed)
    assert "4 cases: 0 seen later" in " ".join(book.flinch("compare", PACK[1], PACK[1]).out.split())

    # A backup is a book, taken up again it is the same one.
    saved = scratch / "saved.db"
    own = scratch / "saved.db.part"
    own.write_text("somebody's own")
    book("backup", saved)
    assert own.read_text() == "somebody's own"
    own.unlink()
    assert saved.stat().st_mode & 0o777 == 0o600 and len(list(scratch.glob("saved.db*"))) == 1
    book("backup", saved, status=2)
    copy = Book(str(scratch / "copy.db"), scratch)
    copy("restore", saved)
    assert copy("export", "--with-names") == book("export", "--with-names")
    assert copy("patient", "bram") == book("patient", "bram")
    book("restore", saved, status=2)

    # A name is forgotten for good: only a whole one, or a number, and only with --yes.
    before = book("export", "--with-names")
    for few in ("jo", "555", "bramble", "alder"):
        fit = book("forget", few, "--yes", status=1)
        assert "none was forgotten" in fit and "client " in fit, fit
    would = book("forget", "Jo", "ALDER", status=1)
    assert "Jo Alder, 555 0142; with Bramble" in would and "--yes" in would, would
    assert book("forget", "5550142", status=1) == would
    client = would.split("client ")[1].split(":")[0]
    assert book("forget", client, status=1) == would
    assert "--yes" in book("forget", "--older-than", "0.005", status=1)
    assert book("export", "--with-names") == before, "nothing was to be forgotten yet"
    assert "1 client, 1 patient, what 2 calls said" in book("forget", "555-0142", "--yes")
    everything = book("export", "--with-names")
    assert not any(secret in everything for secret in ("Bramble", "Jo Alder", "0142", "slower since"))
    assert len(everything.splitlines()) == 4 and everything.count('"lame":"yes"') == 2
    assert "No client" in book("forget", "jo", "alder", "--yes", status=1)
    book("forget", status=2)
    assert "Quartz" in everything
    assert "1 client, 1 patient, what 1 call said" in book("forget", "--older-than", "0.005", "--yes")
    assert "Quartz" not in book("export", "--with-names")
    assert "0 calls taken" in book("import", folder), "what was forgotten does not come back with its file"

    text = (folder / "b.yaml").read_text().replace("lame: yes", "lame: yes, vomiting: yes")
    write(folder, "b.yaml", text.replace("Jo Alder", "Jo Alder-Berg"), NOW)
    assert "1 in it brought up to date" in book("import", folder)
    assert "Alder" not in book("export", "--with-names") and "Bramble" not in book("export", "--with-names")

    check_taking_in_again(book, scratch)

    # Long words are kept whole, and shown as far as a list has room.
    large = scratch / "large"
    large.mkdir()
    long = "=" + "x" * (1 << 20)
    write(large, "e.yaml", case(long, long, "1" * (1 << 16), f"note: {json.dumps(long)}\nanswers: {{lame: yes}}\n"), NOW)
    book("import", large)
    assert len(book("today")) < 10000
    row = list(csv.DictReader(io.StringIO(book("export", "--csv", "--with-names"), newline="")))[-1]
    assert row["name"] == row["caller"] == row["note"] == "'" + long

    # A command line that cannot be read.
    book("tody", status=2)
    assert "did you mean `today`" in book.err, book.err
    book("due", "--jsn", status=2)
    assert "did you mean `--json`" in book.err and "flinch book due --help" in book.err, book.err
    assert "Usage: book due" in book("due", "--help")


with tempfile.TemporaryDirectory(prefix="flinch-commands-") as made:
    scratch = pathlib.Path(made)
    check(os.environ.get("FLINCH_TEST_SERVER") or str(scratch / "data" / "book.db"), scratch)
    print("what goes in comes out again, and names only where they are asked for")
