"""Measures `book_bench` on a PostgreSQL server of its own, with the book that `book_bench` drew in a file:

    book_on_server.py BOOK_BENCH BOOK.db
"""

import os
import pathlib
import subprocess
import sys

sys.path.append(str(pathlib.Path(__file__).parents[1] / "book"))
from scratch_server import Server  # noqa: E402

bench, book = sys.argv[1:3]
TABLES = ("client", "patient", "call", "event", "wording", "search_word")
server = Server.new()
try:
    address = server.make_database("bench")
    # It makes the tables; what it measures of a few calls is of no use.
    subprocess.run([bench, address, "300"], check=True, stdout=subprocess.DEVNULL)
    psql = ["psql", "-q", "-v", "ON_ERROR_STOP=1", "-h", server.folder, "-U", "flinch", "bench", "-c"]
    subprocess.run([*psql, "TRUNCATE " + ", ".join(f"flinch.{name}" for name in TABLES) + " CASCADE"], check=True)
    for name in TABLES:
        columns = subprocess.run(["sqlite3", book, f"SELECT group_concat(name) FROM pragma_table_info('{name}')"],
                                 check=True, capture_output=True, text=True).stdout.strip()
        rows = subprocess.Popen(["sqlite3", "-csv", book, f"SELECT {columns} FROM {name}"], stdout=subprocess.PIPE)
        subprocess.run([*psql, f"COPY flinch.{name} ({columns}) FROM STDIN CSV"], stdin=rows.stdout, check=True)
        assert rows.wait() == 0
    # What the server does by itself within minutes.
    subprocess.run([*psql, "VACUUM ANALYZE"], check=True)
    subprocess.run([bench, address, "0"], check=True)
finally:
    server.remove()
