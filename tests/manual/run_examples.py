"""Every example of the manual works, in a folder such as the manual describes."""

import fcntl
import os
import pathlib
import pty
import shlex
import shutil
import struct
import subprocess
import sys
import tempfile
import termios

program, writer, root = sys.argv[1:]
NEED_A_TERMINAL = {"call"}
MAY_SAY_NO = {"compare", "tidy", "check"}  # exit status 1 is an answer


def on_terminal(arguments, folder, environment):
    primary, secondary = pty.openpty()
    fcntl.ioctl(secondary, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    process = subprocess.Popen(arguments, stdin=secondary, stdout=secondary, stderr=secondary, cwd=folder,
                               env=environment | {"TERM": "xterm"}, close_fds=True, start_new_session=True)
    os.close(secondary)
    seen = b""
    while b"\x1b[?1049h" not in seen and b"\x1b[H" not in seen:
        seen += os.read(primary, 4096)
    os.write(primary, b"\x03")  # Ctrl-C leaves the telephone desk
    try:
        while os.read(primary, 4096):
            pass
    except OSError:  # the other end is closed
        pass
    os.close(primary)
    return process.wait(timeout=60)


lines = subprocess.run([writer, "--examples"], capture_output=True, text=True, check=True).stdout.splitlines()
assert len(lines) >= 25, lines
with tempfile.TemporaryDirectory() as scratch:
    folder = pathlib.Path(scratch) / "work"
    shutil.copytree(pathlib.Path(root) / "docs/cases", folder)
    for pack in ("canine", "changed"):
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
