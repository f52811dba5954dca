"""docs/batch_array.sh, the script of a Slurm job array: its tasks together answer every line once, in
order. Where `sbatch` reaches a running Slurm the array is sent to it; everywhere the tasks are also run
one by one by a stand-in that only sets the variables which Slurm would set."""

import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

from make_lines import write_lines

program, script = (str(pathlib.Path(path).resolve()) for path in sys.argv[1:3])
TASKS = 5


def answers(output):
    """Without the line numbers, which count from the beginning of a share."""
    return [{key: value for key, value in json.loads(line).items() if key != "line"}
            for line in output.splitlines()]


def joined(folder):
    parts = sorted(pathlib.Path(folder).glob("part-*.jsonl"))
    assert len(parts) == TASKS and all(part.stat().st_size for part in parts), parts
    return b"".join(part.read_bytes() for part in parts)


def stand_in_for_slurm(source, folder):
    for task in range(10, 10 + TASKS):  # an array need not begin at 0
        done = subprocess.run(["bash", script, source, folder, program], stdin=subprocess.DEVNULL, env={
            **os.environ, "SLURM_ARRAY_TASK_ID": str(task), "SLURM_ARRAY_TASK_COUNT": str(TASKS),
            "SLURM_ARRAY_TASK_MIN": "10"}, stderr=subprocess.DEVNULL)
        assert done.returncode in (0, 1), done.returncode


def slurm_is_running():
    return shutil.which("sbatch") and shutil.which("scontrol") and subprocess.run(
        ["scontrol", "ping"], capture_output=True, timeout=30).returncode == 0


with tempfile.TemporaryDirectory() as name:
    source = os.path.join(name, "in.jsonl")
    write_lines(program, source, 3000, seed=9, bad_every=700)
    alone = answers(subprocess.run([program, "batch", source], capture_output=True).stdout)
    stand_in_for_slurm(source, os.path.join(name, "by_hand"))
    assert answers(joined(os.path.join(name, "by_hand"))) == alone
    how = "a stand-in for Slurm"
    if slurm_is_running():
        subprocess.run(["sbatch", "--wait", f"--array=0-{TASKS - 1}", "--chdir", name, "--output", "/dev/null", script,
                        source, "by_slurm", program], capture_output=True, timeout=600)
        assert answers(joined(os.path.join(name, "by_slurm"))) == alone
        how += " and by Slurm"
    without = {key: value for key, value in os.environ.items() if not key.startswith("SLURM_ARRAY")}
    assert subprocess.run(["bash", script, source, name, program], capture_output=True, env=without).returncode == 2
print(f"3000 lines in {TASKS} shares by {how}, answered as by one run")
