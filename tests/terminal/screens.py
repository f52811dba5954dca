"""What the program shows on a real terminal, and what it must not send through a pipe."""

import fcntl
import os
import pathlib
import pty
import re
import struct
import subprocess
import sys
import termios

program = pathlib.Path(sys.argv[1]).resolve()
# The file's name stands on the screen, unbroken: where the checkout lies must not matter.
folder, case = os.path.split(sys.argv[2])
os.chdir(folder)


def on_terminal(columns, *options, command="assess", **settings):
    primary, secondary = pty.openpty()
    fcntl.ioctl(secondary, termios.TIOCSWINSZ, struct.pack("HHHH", 24, columns, 0, 0))
    environment = {"PATH": os.environ["PATH"], "TERM": "xterm-256color", "LC_ALL": "C.UTF-8"} | settings
    process = subprocess.Popen([program, command, *options, case], stdin=secondary, stdout=secondary, stderr=secondary,
                               env=environment, close_fds=True)
    os.close(secondary)
    output = b""
    while True:
        try:
            piece = os.read(primary, 4096)
        except OSError:  # the other end is closed
            break
        if not piece:
            break
        output += piece
    os.close(primary)
    assert process.wait() == 0, output
    return output.decode().replace("\r\n", "\n")


def plain(text):
    return re.sub(r"\x1b\[[0-9;]*m", "", text)


coloured = on_terminal(80)
assert "\x1b[1;7;38;5;30m" in coloured, "the tier is reversed, in the one hue"
hues = set(re.findall(r"38;5;(\d+)", coloured))
assert hues == {"30"}, f"one hue only, not {hues}"
assert re.fullmatch(r"[^\x1b]*(\x1b\[[0-9;]*m[^\x1b]*)*", coloured), "nothing but weight and hue is sent"
for columns in (40, 80, 100):
    widest = max(len(line) for line in plain(on_terminal(columns)).splitlines())
    assert widest <= columns, f"{widest} columns on a screen of {columns}"
    for reader in ("keeper", "clinician"):
        care = plain(on_terminal(columns, "--for", reader, command="care"))
        widest = max(len(line) for line in care.splitlines())
        assert widest <= columns, f"care: {widest} columns on a screen of {columns}"
assert on_terminal(80, command="care", LC_ALL="C").isascii(), "no Unicode without a UTF-8 locale"

uncoloured = on_terminal(80, NO_COLOR="1")
assert "38;5" not in uncoloured and "\x1b[1;7m" in uncoloured, "weight stays, hue goes"
assert plain(uncoloured) == plain(coloured), "colour only repeats what the words say"

ascii_only = on_terminal(80, LC_ALL="C")
assert ascii_only.isascii(), "no Unicode without a UTF-8 locale"
assert "\x1b" not in on_terminal(80, TERM="dumb")

piped = subprocess.run([program, "assess", case], capture_output=True, text=True, check=True,
                       env={"PATH": os.environ["PATH"], "TERM": "xterm-256color", "LC_ALL": "C.UTF-8"}).stdout
assert "\x1b" not in piped, "no escape sequences through a pipe"
assert piped == plain(coloured), "the same words through a pipe"
print("screens as they should be")
