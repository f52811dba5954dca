"""Long work shows on a terminal behind standard error how far it is, and takes its line away again; short work
shows nothing, and through a pipe nobody sees anything but mistakes."""

import os
import pty
import re
import subprocess
import sys
import tempfile
import threading
import time

program, cases, closed, pack = sys.argv[1:]
ENVIRONMENT = {"PATH": os.environ["PATH"], "TERM": "xterm", "LC_ALL": "C.UTF-8"}
LINE = b'{"name":"Ash","answers":{"lame":true}}\n'


def watched(*arguments, feed=None):
    """Exit status, what a terminal behind standard error got, and standard output."""
    primary, secondary = pty.openpty()
    process = subprocess.Popen([program, *arguments], stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                               stderr=secondary, env=ENVIRONMENT, close_fds=True)
    os.close(secondary)
    out = []
    reader = threading.Thread(target=lambda: out.append(process.stdout.read()))
    reader.start()
    if feed:
        feed(process.stdin)
    process.stdin.close()
    seen = b""
    while True:
        try:
            piece = os.read(primary, 4096)
        except OSError:
            break
        if not piece:
            break
        seen += piece
    reader.join()
    os.close(primary)
    return process.wait(), seen.decode(), out[0]


def slowly(pipe):
    """More than a block, twice, and more than a second between."""
    for _ in range(2):
        pipe.write(LINE * 60000)
        pipe.flush()
        time.sleep(1.3)


def is_sound(shown, words):
    assert re.search(words, shown), f"{words} in {shown[:300]!r}"
    assert shown.endswith("\r\x1b[K"), f"the line stays: {shown[-80:]!r}"
    for line in shown.split("\r"):
        assert len(line.replace("\x1b[K", "")) < 80, line


many = [cases] * 100  # some 17,000 cases
status, shown, _ = watched("audit", *many)
is_sound(shown, r"(reading|assessing) cases: \d+ of \d+, \d+ %")
is_sound(watched("check", "--cases", *many)[1], r"(reading|assessing) cases: \d+ of \d+, \d+ %")
is_sound(watched("compare", pack, pack, *many)[1], r"(reading|comparing) cases: \d+ of \d+, \d+ %")
with tempfile.TemporaryDirectory() as folder:
    is_sound(watched("book", "import", *many, "--book", folder + "/book.db")[1],
             r"(reading|assessing) cases: \d+ of \d+, \d+ %")
status, shown, told = watched("batch", "--causes", "1", feed=slowly)
is_sound(shown, r"lines answered: \d+")
assert told.count(b"\n") == 120000

for short in (["audit", closed], ["compare", pack, pack, closed]):
    assert watched(*short)[1] == "", short

piped = subprocess.run([program, "audit", *many], capture_output=True, env=ENVIRONMENT)
assert piped.returncode == 0 and piped.stderr == b"", piped.stderr
print("long work shows itself on a terminal, and there alone")
