"""Books for tests that start `book_desk`: in a scratch folder, or on the server of FLINCH_TEST_SERVER."""

import json
import os
import subprocess


def place(scratch):
    return os.environ.get("FLINCH_TEST_SERVER") or f"{scratch}/book.db"


def begin(program, book):
    return subprocess.run([program, "begin", book], check=True, capture_output=True, text=True).stdout.strip()


def kept_answers(program, book, call):
    """Every answer of the call's entries, each as often as it stands there."""
    lines = subprocess.run([program, "list", book, call], check=True, capture_output=True, text=True).stdout
    return [name for line in lines.splitlines() for name in json.loads(line).get("answers", {})]
