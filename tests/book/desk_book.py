"""Books for tests that start `book_desk`: in a scratch folder, or on the server of FLINCH_TEST_SERVER."""

import os
import subprocess


def place(scratch):
    return os.environ.get("FLINCH_TEST_SERVER") or f"{scratch}/book.db"


def printed(*command):
    return subprocess.run(command, check=True, capture_output=True, text=True).stdout.split()


def begin(program, book, count):
    """The numbers of so many new calls."""
    return printed(program, "begin", book, str(count))


def kept_answers(program, book, calls):
    """Every answer of the calls' entries, each as often as it stands there."""
    return printed(program, "list", book, ",".join(calls))
