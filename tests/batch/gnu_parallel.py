"""GNU parallel cuts a file into blocks of lines and pipes each through `flinch batch`: joined in
order, the cases are answered as by one run."""

import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

from make_lines import write_lines

program = str(pathlib.Path(sys.argv[1]).resolve())
if not shutil.which("parallel") or "GNU" not in subprocess.run(
        ["parallel", "--version"], capture_output=True, text=True).stdout:
    print("GNU parallel is not installed")
    sys.exit(77)


def answers(output):
    """Without the line numbers, which count from the beginning of a block."""
    out = []
    for line in output.splitlines():
        answer = json.loads(line)
        del answer["line"]
        out.append(answer)
    return out


with tempfile.TemporaryDirectory() as folder:
    path = os.path.join(folder, "in.jsonl")
    write_lines(program, path, 4000, seed=3, bad_every=500)
    alone = subprocess.run([program, "batch", path], capture_output=True)
    assert alone.returncode == 1
    environment = {**os.environ, "HOME": folder}
    with open(path, "rb") as source:
        spread = subprocess.run(["parallel", "--pipe", "--keep-order", "--block", "200k", "-j2", program, "batch",
                                 "--threads", "1"], stdin=source, capture_output=True, env=environment)
blocks = sum(json.loads(line)["line"] == 1 for line in spread.stdout.splitlines())
assert blocks > 3, "the file was not cut"
assert spread.returncode > 0, "bad lines must show in the exit status"
assert answers(spread.stdout) == answers(alone.stdout)
print(f"4000 lines in {blocks} blocks, answered as by one run")
