"""A server that dies in the middle of a call: one clear sentence, the call goes on in a file, and is taken in later."""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

from flinch_home import Home
from scratch_server import Server

program, source = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:3])
pack = f"{source}/tests/call/desk.flinch"
NOW = 1795618800  # 25 November 2026, 15:00


class Interview:
    """`flinch ask`, a line at a time."""

    def __init__(self, home, book):
        self.process = subprocess.Popen([program, "ask", "--pack", pack, "--by", "Kim", "--book", book],
                                        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.STDOUT,
                                        env=home.environment())
        self.shown()

    def shown(self):
        """All until it waits for the next line."""
        out = b""
        while not out.endswith(b"\n> ") and out != b"> ":
            one = self.process.stdout.read(1)
            assert one, f"it ended: {out.decode()}"
            out += one
        return " ".join(out.decode().split())

    def type(self, line):
        self.process.stdin.write(f"{line}\n".encode())
        self.process.stdin.flush()
        return self.shown()

    def end(self):
        self.process.stdin.write(b"q\n")
        out = " ".join(self.process.communicate(timeout=60)[0].decode().split())
        assert self.process.returncode == 0, out
        return out


def check(server, home):
    book = server.make_database("dies")
    waiting = home.folder / ".local/state/flinch"

    def calls():
        return [json.loads(line) for line in home.flinch("book", "export", "--book", book).out.splitlines()]

    # It dies, and is away when the call ends: the next start takes the call in.
    interview = Interview(home, book)
    interview.type("new")
    interview.type("lame")
    server.stop()
    said = interview.type("off its food")
    assert said.count("the server no longer answers") + said.count("cannot be reached") == 1, said
    assert said.count("goes on in a case file, and is taken into the book later") == 1, said
    files = list(waiting.glob("waiting-*.yaml"))
    assert len(files) == 1 and "lame: yes" in files[0].read_text() and "off_food: yes" in files[0].read_text(), files
    said = interview.end()
    assert said.count("NOT YET IN THE BOOK") == 1 and "cannot be reached" in said, said
    server.start()
    assert calls()[-1]["answers"] == {"lame": "yes"}, "what was confirmed is there"
    out = " ".join(home.flinch("ask", "--pack", pack, "--book", book).out.split())
    assert "1 call that waited in case files is in the book now" in out, out
    assert len(calls()) == 1 and calls()[0]["answers"] == {"lame": "yes", "off_food": "yes"}, calls()
    assert not list(waiting.glob("waiting-*"))

    # It is back before the call ends: the end takes the call in.
    interview = Interview(home, book)
    interview.type("new")
    interview.type("lame")
    server.stop()
    said = interview.type("off its food")
    assert "goes on in a case file" in said, said
    server.start()
    said = interview.type("no")
    assert "case file" not in said, f"told once: {said}"
    assert re.search(r"In the book as call \d+\.", interview.end())
    assert len(calls()) == 2 and calls()[1]["answers"] == {"lame": "yes", "off_food": "yes"}, calls()
    assert not list(waiting.glob("waiting-*"))

    # `flinch book` says it in one sentence.
    server.stop()
    err = home.flinch("book", "due", "--pack", pack, "--book", book, status=2).err
    assert err.count("\n") == 1 and "cannot be reached" in err, err


with tempfile.TemporaryDirectory(prefix="flinch-dies-") as made:
    server = Server.new()
    try:
        check(server, Home(program, pathlib.Path(made), NOW))
    finally:
        server.remove()
    print("a server that dies loses no answer")
