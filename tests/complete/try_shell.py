"""Tab in a real shell on a pseudo-terminal: commands, options, values, names of the pack, files. Exit status
77: that shell is not here."""

import os
import pty
import select
import shutil
import subprocess
import sys
import tempfile
import time

import pyte

shell, folder, scripts = sys.argv[1:]
if not shutil.which(shell):
    print(f"no {shell} here")
    sys.exit(77)

START = {"bash": ["bash", "--norc", "--noprofile", "-i"], "zsh": ["zsh", "-f", "-i"],
         "fish": ["fish", "--no-config", "-i"]}
SETTING = {
    "bash": f"source {scripts}/flinch.bash",
    "zsh": f"fpath=({scripts} $fpath); autoload -Uz compinit; compinit -u -D; PROMPT='%# '",
    "fish": f"source {scripts}/flinch.fish",
}


def on_screen(sent):
    screen = pyte.Screen(200, 24)
    pyte.Stream(screen).feed(sent)
    return "\n".join(screen.display)


class Shell:
    def __init__(self, home):
        self.primary, secondary = pty.openpty()
        environment = {"PATH": f"{folder}:{os.environ['PATH']}", "HOME": home, "TERM": "xterm", "LC_ALL": "C.UTF-8"}
        self.process = subprocess.Popen(START[shell], stdin=secondary, stdout=secondary, stderr=secondary,
                                        cwd=home, env=environment, close_fds=True, start_new_session=True)
        os.close(secondary)

    def type(self, keys):
        os.write(self.primary, keys.encode())

    def read_until(self, done, seconds=60):
        seen, end = "", time.monotonic() + seconds
        while time.monotonic() < end and not done(seen):
            if select.select([self.primary], [], [], 0.2)[0]:
                seen += os.read(self.primary, 65536).decode(errors="replace")
        return seen

    def leave(self):
        self.process.kill()
        self.process.wait()
        os.close(self.primary)


def completed(line, wanted):
    """Types the beginning of a line and Tab; the shell writes the rest."""
    with tempfile.TemporaryDirectory() as home:
        for name in ("bramble.yaml", "bracken.yaml"):
            open(os.path.join(home, name), "w").close()
        one = Shell(home)
        one.type(SETTING[shell] + "\n")
        one.type("printf 'rea%s\\n' dy\n")
        begin = one.read_until(lambda seen: "ready" in seen)
        assert "ready" in begin, begin
        one.type(line + "\t")
        seen = one.read_until(lambda seen: wanted in on_screen(seen))
        one.leave()
        assert wanted in on_screen(seen), f"{shell}: {line!r} and Tab gave {seen!r}, not {wanted!r}"


if shell == "fish":
    # fish draws its line piece by piece; it can be asked instead.
    for line, wanted in (("flinch hando", "handover"), ("flinch review x --wh", "--what-if"),
                         ("flinch report x --for k", "keeper"), ("flinch describe elbow_arth", "elbow_arthritis"),
                         ("flinch care bram", "bramble.yaml")):
        with tempfile.TemporaryDirectory() as home:
            open(os.path.join(home, "bramble.yaml"), "w").close()
            told = subprocess.run(["fish", "--no-config", "-c", f"{SETTING['fish']}; complete -C '{line}'"],
                                  capture_output=True, text=True, cwd=home, check=True,
                                  env={"PATH": f"{folder}:{os.environ['PATH']}", "HOME": home}).stdout
        assert wanted in [offer.split("\t")[0] for offer in told.splitlines()], (line, told)
else:
    completed("flinch hando", "handover ")
    completed("flinch review x --wh", "--what-if ")
    completed("flinch report x --for k", "keeper ")
    completed("flinch report x --for=k", "--for=keeper ")
    completed("flinch describe elbow_arth", "elbow_arthritis ")
    completed("flinch care bram", "bramble.yaml ")
print(f"{shell} completes commands, options, values, names and files")
