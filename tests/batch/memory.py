"""Memory does not grow with the number of lines: a long file passes under a tight limit of address
space, and the peak is that of a short one. Takes the number of lines of the long file."""

import os
import pathlib
import resource
import subprocess
import sys
import tempfile

from make_lines import write_lines

program, long_count = str(pathlib.Path(sys.argv[1]).resolve()), int(sys.argv[2])
LIMIT = 512 << 20  # two threads' stacks and arenas reserve most of it, touched or not
GROWTH = 16 << 20  # the queue between reader and threads fills with a long file, and stays so


def peak(path):
    """Peak of resident memory in bytes."""
    def limited():
        resource.setrlimit(resource.RLIMIT_AS, (LIMIT, LIMIT))
    with open(os.devnull, "wb") as nowhere:
        child = subprocess.Popen([program, "batch", "--threads", "2", path], stdout=nowhere, preexec_fn=limited)
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode == 0, f"exit status {child.returncode}"
    return usage.ru_maxrss * 1024


with tempfile.TemporaryDirectory() as folder:
    path = os.path.join(folder, "short.jsonl")
    write_lines(program, path, 10_000)
    short = peak(path)
    longer = os.path.join(folder, "long.jsonl")
    with open(path, "rb") as source, open(longer, "wb") as out:
        data = source.read()
        for _ in range(long_count // 10_000):
            out.write(data)
    long = peak(longer)
print(f"peak {short / 2**20:.1f} MB over 10000 lines, {long / 2**20:.1f} MB over {long_count}")
assert long <= short + GROWTH, "memory grows with the number of lines"
