"""What is no plain file and no pipe is refused, and input that does not end is not read to its end."""

import os
import pathlib
import resource
import subprocess
import sys
import tempfile
import threading

program, bramble = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:])
MOST_MEMORY = 1 << 30


def run(*arguments, **options):
    return subprocess.run([program, *map(str, arguments)], capture_output=True, text=True, timeout=120,
                          preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_AS, (MOST_MEMORY, MOST_MEMORY)),
                          **options)


def refused(words, *arguments, **options):
    done = run(*arguments, **options)
    assert done.returncode == 2 and not done.stdout, (arguments, done)
    assert words in done.stderr, (arguments, done.stderr)


DEVICE = "no plain file and no pipe"
for arguments in (["assess", "/dev/zero"], ["care", "/dev/zero"], ["review", "/dev/zero"], ["handover", "/dev/zero"],
                  ["report", "/dev/zero", "-o", "-"], ["audit", "/dev/zero"], ["batch", "/dev/zero"],
                  ["check", "/dev/zero"], ["check", "--cases", "/dev/zero"], ["tidy", "/dev/zero"],
                  ["assess", "--pack", "/dev/zero", bramble], ["compare", "/dev/zero", "/dev/zero", bramble],
                  ["ask", "--save", "/dev/zero"]):
    refused(DEVICE if arguments[0] != "ask" else "no regular file", *arguments)

with open("/dev/zero", "rb") as endless:
    refused("more than 4194304 bytes", "assess", "-", stdin=endless)
    refused("more than 67108864 bytes", "tidy", "-", stdin=endless)


# A pipe with a name, into which bytes are written until nobody reads them any more.
def pour(path):
    try:
        with open(path, "wb", buffering=0) as pipe:
            while True:
                pipe.write(b"# on and on\n" * 4096)
    except BrokenPipeError:
        pass


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    pathlib.Path("pack.flinch").write_text('pack p "P"\n  breed table "breeds.yaml"\n  unlisted 1 per 10\n'
                                           'include "rules.flinch"\n')
    for pipe, words, arguments in (("case.yaml", "more than 4194304 bytes", ["assess", "case.yaml"]),
                                   ("breeds.yaml", "more than 4194304 bytes", ["check", "."]),
                                   ("rules.flinch", "more than 67108864 bytes", ["check", "."])):
        for name in ("case.yaml", "breeds.yaml", "rules.flinch"):
            pathlib.Path(name).unlink(missing_ok=True)
            pathlib.Path(name).write_text("")
        pathlib.Path(pipe).unlink()
        os.mkfifo(pipe)
        writer = threading.Thread(target=pour, args=(pipe,))
        writer.start()
        refused(words, *arguments)
        writer.join(timeout=60)
        assert not writer.is_alive(), pipe
    os.unlink("rules.flinch")
    os.symlink("/dev/zero", "rules.flinch")
    refused("cannot read `rules.flinch`: it is " + DEVICE, "check", ".")

print("devices are refused, endless input is cut short")
