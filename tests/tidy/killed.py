"""`flinch tidy` killed at any moment leaves the old file or the new one, whole. FLINCH_KILL_ROUNDS
sets how often it is tried."""

import os
import pathlib
import random
import signal
import subprocess
import sys
import tempfile
import time

program = str(pathlib.Path(sys.argv[1]).resolve())
rounds = int(os.environ.get("FLINCH_KILL_ROUNDS", sys.argv[2]))
chance = random.Random(7)
statement = b'sign  lame%d   "lame"\r\n  ask  "Is it?"   # %s\r\n  answer yes   or no\r\n'
before = b"".join(statement % (i, b"x" * 40) for i in range(20_000))

with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    file = folder / "a.flinch"

    def run(kill_after=None, stop_at=None):
        """Whether it was killed; after a time, or once `stop_at` finds something."""
        child = subprocess.Popen([program, "tidy", str(file)], stdout=subprocess.DEVNULL)
        if stop_at is not None:
            while child.poll() is None and not stop_at():
                pass
        if kill_after is not None:
            time.sleep(kill_after)
            child.send_signal(signal.SIGKILL)
        return child.wait() == -signal.SIGKILL

    file.write_bytes(before)
    file.chmod(0o644)
    began = time.monotonic()
    assert not run()
    duration = time.monotonic() - began
    after = file.read_bytes()
    assert after != before

    def remains():
        return sorted(folder.glob("a.flinch.new-*"))

    killed = half = 0
    for number in range(rounds):
        file.write_bytes(before)
        # Every second time at the very moment when the new file is being written.
        if number % 2:
            was_killed = run(kill_after=chance.uniform(0, 0.004), stop_at=remains)
        else:
            was_killed = run(kill_after=chance.uniform(0, duration))
        killed += was_killed
        content = file.read_bytes()
        assert content in (before, after), f"round {number}: half a file"
        assert file.stat().st_mode & 0o777 == 0o644
        others = {path.name for path in folder.iterdir()} - {"a.flinch"}
        assert all(name.startswith("a.flinch.new-") for name in others), others
        half += bool(others)
        # What a killed run leaves beside is no rule file, and does not keep the next run from its work.
        assert not run() and file.read_bytes() == after
        for path in remains():
            path.unlink()
    assert killed >= rounds / 4, f"only {killed} of {rounds} runs were killed in time"
    assert rounds < 20 or half > 0, "none was killed while it wrote"
print(f"{rounds} rounds, {killed} killed, {half} of them while writing: always a whole file")
