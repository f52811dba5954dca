"""A run that is killed at any moment leaves no half file, and --resume gives the bytes of an
uninterrupted run. FLINCH_KILL_ROUNDS sets how often it is tried."""

import os
import pathlib
import random
import signal
import subprocess
import sys
import tempfile
import time

from make_lines import write_lines

program = str(pathlib.Path(sys.argv[1]).resolve())
rounds = int(os.environ.get("FLINCH_KILL_ROUNDS", sys.argv[2] if len(sys.argv) > 2 else "5"))
chance = random.Random(20)
with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    source, result = folder / "in.jsonl", folder / "out.jsonl"
    part, progress = folder / "out.jsonl.partial", folder / "out.jsonl.progress"
    write_lines(program, source, 10_000, seed=5, bad_every=1000)
    source.write_bytes(source.read_bytes() * 4)

    def start(*arguments):
        with open(source, "rb") as stdin:
            return subprocess.Popen([program, "batch", "-o", str(result), *arguments], stdin=stdin,
                                    stderr=subprocess.DEVNULL)

    def end(child):
        """The exit status, or None when it was killed in time."""
        status = child.wait()
        return None if status == -signal.SIGKILL else status

    def run(*arguments):
        return end(start(*arguments))

    began = time.monotonic()
    assert run() == 1
    whole = result.read_bytes()
    duration = time.monotonic() - began
    result.unlink()

    def killed_at_random(*arguments):
        """Whether it was killed in time. A run that was not tells how long one takes by now: machines get busy."""
        global duration
        began = time.monotonic()
        child = start(*arguments)
        try:
            child.wait(timeout=chance.uniform(0, duration))
        except subprocess.TimeoutExpired:
            child.kill()
        if end(child) is None:
            return True
        if not arguments:
            duration = time.monotonic() - began
        return False

    def kill_past_progress():
        """Killed as soon as there is something to go on from."""
        while True:
            child = start()
            while child.poll() is None and not progress.exists():
                time.sleep(0.001)
            child.kill()
            if end(child) is None and progress.exists():
                return
            result.unlink(missing_ok=True)

    killed = gone_on = 0
    for number in range(rounds):
        arguments = ()
        while killed_at_random(*arguments):
            killed += 1
            # Killed: nothing under the name, or the whole of it.
            assert not result.exists() or result.read_bytes() == whole, "half a file"
            gone_on += progress.exists()
            arguments = ("--resume",)
            if chance.random() < 0.6:
                break
        status = run("--resume")
        assert status == 1, status
        assert result.read_bytes() == whole, f"round {number}: other bytes"
        assert not part.exists() and not progress.exists(), "remains"
        result.unlink()
    assert killed >= rounds / 3, f"only {killed} of {rounds} rounds were killed in time"
    assert rounds < 20 or gone_on > 0, "no run ever went on from the middle"

    # Through a pipe, which cannot be wound back: what is answered already is passed over.
    kill_past_progress()
    done = subprocess.run([program, "batch", "-o", str(result), "--resume"], input=source.read_bytes(),
                          capture_output=True)
    assert done.returncode == 1 and result.read_bytes() == whole

    # Another input, another pack or other options are refused, not mixed.
    result.unlink()
    kill_past_progress()
    kept = part.read_bytes()
    done = subprocess.run([program, "batch", "-o", str(result), "--resume", "--causes", "2"],
                          input=source.read_bytes(), capture_output=True, text=False)
    assert done.returncode == 2 and b"another --causes" in done.stderr, done.stderr
    done = subprocess.run([program, "batch", "-o", str(result), "--resume"],
                          input=b"x" * source.stat().st_size, capture_output=True)
    assert done.returncode == 2 and b"not the input" in done.stderr, done.stderr
    assert part.read_bytes()[:1000] == kept[:1000], "a refused run has written"
print(f"{rounds} rounds, {killed} runs killed, {gone_on} of them past a kept progress: always the same bytes")
