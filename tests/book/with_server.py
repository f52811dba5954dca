"""Runs a program with a database of its own on the server that all these tests share (`scratch_server.py up FILE`):
FLINCH_TEST_SERVER holds its address."""

import os
import pathlib
import subprocess
import sys

from scratch_server import SKIPPED, Server

file = pathlib.Path(sys.argv[1])
if not file.exists():
    print("SKIPPED: there is no server")
    sys.exit(SKIPPED)
server = Server(file.read_text())
name = f"book_{os.getpid()}"
try:
    address = server.make_database(name)
    sys.exit(subprocess.run(sys.argv[2:], env={**os.environ, "FLINCH_TEST_SERVER": address}).returncode)
finally:
    server.drop_database(name)
