"""What cannot be done is refused in one line with exit status 2, and nothing is half written."""

import fcntl
import os
import pathlib
import subprocess
import sys
import tempfile

program = str(pathlib.Path(sys.argv[1]).resolve())
LINE = b'{"name": "one", "answers": {"lame": true}}\n'


def refused(words, *arguments, data=LINE, output=None):
    done = subprocess.run([program, "batch", *arguments], input=data, stdout=output or subprocess.PIPE,
                          stderr=subprocess.PIPE, timeout=60)
    assert done.returncode == 2, (arguments, done.returncode)
    assert not done.stdout, done.stdout
    assert words in done.stderr and done.stderr.count(b"\n") <= 2, done.stderr


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    refused(b"No such file", "missing.jsonl")
    refused(b"this is a folder", folder)
    refused(b"no plain file and no pipe", "/dev/zero")
    refused(b"No such file", "-o", "missing/out.jsonl")
    refused(b"name it with -o", "--resume")
    refused(b"--threads", "--threads", "0")
    pathlib.Path("out.jsonl.progress").write_text("not a progress\n")
    pathlib.Path("out.jsonl.partial").write_text("")
    refused(b"not the progress of a run", "-o", "out.jsonl", "--resume")
    pathlib.Path("out.jsonl.progress").write_text(
        '{"input_bytes":9,"output_bytes":9,"next_line":2,"lines":1,"bad":0,"settings":0,"tail_bytes":0,"tail":0}\n')
    refused(b"shorter than its progress", "-o", "out.jsonl", "--resume")
    pathlib.Path("out.jsonl.partial").write_text("x" * 9)
    refused(b"another pack", "-o", "out.jsonl", "--resume")
    with open("out.jsonl.partial", "ab") as other:
        fcntl.flock(other, fcntl.LOCK_EX)
        refused(b"another run is writing", "-o", "out.jsonl")
    assert not os.path.exists("out.jsonl")
    # A disk that is full, seen also while the reader still waits for input.
    with open("/dev/full", "wb") as full:
        refused(b"cannot write", data=LINE * 5000, output=full)
        waiting = subprocess.Popen([program, "batch"], stdin=subprocess.PIPE, stdout=full, stderr=subprocess.PIPE)
        waiting.stdin.write(LINE)
        waiting.stdin.flush()
        assert waiting.wait(timeout=60) == 2 and b"cannot write" in waiting.stderr.read()
        waiting.stdin.close()
    # An old output stays until the new one is whole, and then makes room for it.
    pathlib.Path("out.jsonl").write_text("old")
    refused(b"this is a folder", folder, "-o", "out.jsonl")
    assert pathlib.Path("out.jsonl").read_text() == "old"
    done = subprocess.run([program, "batch", "-o", "out.jsonl"], input=LINE, capture_output=True)
    assert done.returncode == 0 and pathlib.Path("out.jsonl").read_bytes().count(b"\n") == 1
    assert sorted(os.listdir(".")) == ["out.jsonl"], os.listdir(".")
    # Nothing in, nothing out.
    done = subprocess.run([program, "batch"], input=b"", capture_output=True)
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b"")
print("refusals are one line, and leave what was there")
