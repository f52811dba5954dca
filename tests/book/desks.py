"""Eight desks save at once, four of them in the same calls: no answer is lost, none is there twice. FLINCH_DESK_EVENTS
sets how many answers each desk saves; a call holds fifty of a desk, as a long one does."""

import os
import subprocess
import sys
import tempfile
import time

import desk_book

program = sys.argv[1]
count = int(os.environ.get("FLINCH_DESK_EVENTS", sys.argv[2]))
a_call = min(50, count)
with tempfile.TemporaryDirectory(prefix="flinch-desks-") as scratch:
    book = desk_book.place(scratch)
    shared = desk_book.begin(program, book, count // a_call)
    calls = [shared] * 4 + [desk_book.begin(program, book, count // a_call) for _ in range(4)]
    begun = time.monotonic()
    desks = [subprocess.Popen([program, "write", book, ",".join(its), str(i), f"desk{i}", str(a_call)],
                              stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, env={**os.environ, "HOME": scratch})
             for i, its in enumerate(calls)]
    confirmed = []
    for i, desk in enumerate(desks):
        out, err = desk.communicate()
        assert desk.returncode == 0, f"desk {i}: {err}"
        confirmed += out.split()
    took = time.monotonic() - begun
    kept = desk_book.kept_answers(program, book, [call for its in calls[3:] for call in its])
    assert sorted(kept) == sorted(confirmed), f"{len(kept)} answers kept of {len(confirmed)}"
    assert len(set(confirmed)) == 8 * (count // a_call) * a_call, len(confirmed)
    print(f"8 desks x {count} answers, 4 in the same calls: none lost, {len(confirmed) / took:.0f} saves a second")
