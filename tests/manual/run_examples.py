"""Every example of the manual works, in a folder such as the manual describes."""

import fcntl
import os
import pathlib
import pty
import select
import shlex
import shutil
import struct
import subprocess
import sys
import tempfile
import termios
import time

program, writer, root = sys.argv[1:]
NEED_A_TERMINAL = {"call"}
MAY_SAY_NO = {"compare", "tidy", "check"}  # exit status 1 is an answer


PATIENCE = 60  # seconds for a program to draw its screen, or to leave it


def read_within(terminal, seconds):
    """What comes next; nothing when the other end is closed, or the time is over."""
    if not select.select([terminal], [], [], seconds)[0]:
        return b""
    try:
        return os.read(terminal, 4096)
    except OSError:  # the other end is closed
        return b""


def on_terminal(arguments, folder, environment):
    primary, secondary = pty.openpty()
    fcntl.ioctl(secondary, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    process = subprocess.Popen(arguments, stdin=secondary, stdout=secondary, stderr=secondary, cwd=folder,
                               env=environment | {"TERM": "xterm"}, close_fds=True, start_new_session=True)
    os.close(secondary)
    try:
        seen = b""
        while b"\x1b[?1049h" not in seen and b"\x1b[H" not in seen:
            more = read_within(primary, PATIENCE)
            assert more, f"{shlex.join(arguments)}: it ended, or drew no screen within {PATIENCE} seconds: {seen!r}"
            seen += more
        os.write(primary, b"\x03")  # Ctrl-C leaves the telephone desk
        begun = time.monotonic()
        while read_within(primary, PATIENCE):
            assert time.monotonic() - begun < PATIENCE, f"{shlex.join(arguments)}: Ctrl-C does not leave it"
        return process.wait(timeout=PATIENCE)
    finally:
        process.kill()
        os.close(primary)


lines = subprocess.run([writer, "--examples"], capture_output=True, text=True, check=True).stdout.splitlines()
assert len(lines) >= 25, lines
with tempfile.TemporaryDirectory() as scratch:
    folder = pathlib.Path(scratch) / "work"
    shutil.copytree(pathlib.Path(root) / "docs/cases", folder)
    for pack in ("present", "changed"):
        shutil.copytree(pathlib.Path(root) / "rules/canine", folder / pack)
    environment = {"PATH": os.environ["PATH"], "HOME": scratch, "LC_ALL": "C.UTF-8"}
    for line in lines:
        name, command, *rest = shlex.split(line)
        assert name == "flinch", line
        arguments = [program, command, *rest]
        if command in NEED_A_TERMINAL:
            status, said = on_terminal(arguments, folder, environment), ""
        else:
            done = subprocess.run(arguments, stdin=subprocess.DEVNULL, capture_output=True, text=True, cwd=folder,
                                  env=environment)
            status, said = done.returncode, done.stderr
            assert done.stdout or command in ("batch", "tidy"), f"{line}: no output"
        assert status == 0 or (status == 1 and command in MAY_SAY_NO), f"{line}: {status}\n{said}"
        assert "error" not in said, f"{line}\n{said}"
print(f"{len(lines)} examples work")
