"""A desk that is killed at any moment has lost nothing that was confirmed, and the book opens. FLINCH_KILL_ROUNDS
sets how often it is tried."""

import os
import random
import signal
import subprocess
import sys
import tempfile
import time

import desk_book

program = sys.argv[1]
rounds = int(os.environ.get("FLINCH_KILL_ROUNDS", sys.argv[2]))
seed = 1907
chance = random.Random(seed)
with tempfile.TemporaryDirectory(prefix="flinch-killed-") as scratch:
    book = desk_book.place(scratch)
    calls = desk_book.begin(program, book, (rounds + 9) // 10)
    confirmed = []
    for i in range(rounds):
        desk = subprocess.Popen([program, "write", book, calls[i // 10], "0", f"r{i}", "100000"],
                                stdout=subprocess.PIPE, text=True, env={**os.environ, "HOME": scratch})
        first = desk.stdout.readline()  # it has begun to save
        time.sleep(chance.uniform(0, 0.05))
        desk.send_signal(signal.SIGKILL)
        rest, _ = desk.communicate()
        told = (first + rest).split()
        if told and not (first + rest).endswith("\n"):
            told.pop()  # cut while it was printed
        confirmed += told
    kept = desk_book.kept_answers(program, book, calls)
    assert len(kept) == len(set(kept)), "an answer stands there twice"
    missing = set(confirmed) - set(kept)
    assert not missing, f"seed {seed}: confirmed and not kept: {sorted(missing)[:10]}"
    assert len(kept) - len(confirmed) <= rounds, "more than the save that was under way"
    print(f"{rounds} kills: {len(confirmed)} confirmed answers, all kept; {len(kept) - len(confirmed)} more")
