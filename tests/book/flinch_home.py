"""Flinch as a desk runs it: in a home of its own, at a fixed time. Whatever it prints is looked at."""

import collections
import json
import os
import pathlib
import re
import shutil
import subprocess

Printed = collections.namedtuple("Printed", "out err")
SIGNALMENT = "dog: {species: dog, age: 9 years, weight: 31 kg, sex: male, neutered: yes}\n"


def case(name, caller, number, rest):
    """A case file; whatever the words hold, YAML reads them as they are."""
    return (f"name: {json.dumps(name)}\ncaller: {json.dumps(caller)}\ncall back: {json.dumps(number)}\n"
            f"{SIGNALMENT}{rest}")


def write(folder, name, text, written):
    path = pathlib.Path(folder) / name
    path.write_text(text, encoding="utf-8")
    os.utime(path, (written, written))


def copied(program, folder):
    """The program with what it loads while it runs, below a folder that a user who is nobody may read."""
    program = pathlib.Path(program)
    drivers = pathlib.Path("lib/flinch/drivers")
    shutil.copytree(program.parent.parent / drivers, pathlib.Path(folder) / drivers)
    place = pathlib.Path(folder) / "bin" / program.name
    place.parent.mkdir()
    return shutil.copy(program, place)


class Home:
    """`secrets` are words that no error text may hold; `settings` go into the environment. A status of None: any."""

    def __init__(self, program, folder, now, secrets=(), **settings):
        self.program, self.folder, self.now, self.secrets, self.settings = program, folder, now, secrets, settings

    def environment(self, now=None):
        return {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "TZ": "UTC", "HOME": str(self.folder),
                "SOURCE_DATE_EPOCH": str(now or self.now), **self.settings,
                **{k: v for k, v in os.environ.items() if k.endswith("SAN_OPTIONS")}}

    def flinch(self, *args, status=0, typed=None, now=None, **more):
        done = subprocess.run([self.program, *map(str, args)], capture_output=True, env=self.environment(now),
                              input="".join(f"{line}\n" for line in typed or ()).encode(), timeout=300, **more)
        printed = Printed(done.stdout.decode(), done.stderr.decode())
        said = f"{args}, typed {typed}: {done.returncode}\n{printed.out}\n{printed.err}"
        assert status is None or done.returncode == status, said
        assert not re.search(r"[\x00-\x09\x0b\x0c\x0e-\x1f]", printed.out + printed.err), f"a control character: {said}"
        assert not any(secret in printed.err for secret in self.secrets), f"told in an error: {said}"
        return printed
