"""Eight desks save at once, four of them in one call: no answer is lost, none is there twice. FLINCH_DESK_EVENTS
sets how many answers each desk saves."""

import os
import subprocess
import sys
import tempfile
import time

import desk_book

program = sys.argv[1]
count = int(os.environ.get("FLINCH_DESK_EVENTS", sys.argv[2]))
with tempfile.TemporaryDirectory(prefix="flinch-desks-") as scratch:
    book = desk_book.place(scratch)
    shared = desk_book.begin(program, book)
    calls = [shared] * 4 + [desk_book.begin(program, book) for _ in range(4)]
    begun = time.monotonic()
    desks = [subprocess.Popen([program, "write", book, call, f"desk{i}", str(count)], stdout=subprocess.PIPE,
                              stderr=subprocess.PIPE, text=True) for i, call in enumerate(calls)]
    confirmed = []
    for i, desk in enumerate(desks):
        out, err = desk.communicate()
        assert desk.returncode == 0, f"desk {i}: {err}"
        confirmed.append(out.split())
    took = time.monotonic() - begun
    for call in set(calls):
        wanted = sorted(answer for i, its in enumerate(calls) if its == call for answer in confirmed[i])
        kept = sorted(desk_book.kept_answers(program, book, call))
        assert kept == wanted, f"call {call}: {len(kept)} answers kept of {len(wanted)}"
    total = sum(map(len, confirmed))
    assert total == 8 * count, total
    print(f"8 desks x {count} answers: none lost, {total / took:.0f} saves a second")
