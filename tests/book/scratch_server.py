"""A PostgreSQL server of Debian's package in a scratch folder, reached by a socket in it alone.

    scratch_server.py up FILE      starts one; FILE holds its folder
    scratch_server.py down FILE    ends it
"""

import glob
import os
import pathlib
import pwd
import shutil
import subprocess
import sys
import tempfile

SKIPPED = 77


def programs():
    """The folder of the server's programs; without the package the test is skipped."""
    found = sorted(glob.glob("/usr/lib/postgresql/*/bin/initdb"))
    if not found:
        print("SKIPPED: no PostgreSQL is installed (tests/run installs it)")
        sys.exit(SKIPPED)
    return pathlib.Path(found[-1]).parent


class Server:
    def __init__(self, folder):
        self.folder, self.data, self.programs = pathlib.Path(folder), pathlib.Path(folder) / "data", programs()
        self.who = {}
        if os.geteuid() == 0:  # PostgreSQL refuses to run as root
            names = {user.pw_name for user in pwd.getpwall()}
            user = pwd.getpwnam(next(name for name in ("postgres", "nobody") if name in names))
            os.chown(self.folder, user.pw_uid, user.pw_gid)
            self.who = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}

    @classmethod
    def new(cls):
        programs()
        server = cls(tempfile.mkdtemp(prefix="flinch-pg-"))
        server.run("initdb", "-D", server.data, "-U", "flinch", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8",
                   "--no-sync")
        server.start()
        return server

    def run(self, name, *args):
        subprocess.run([self.programs / name, *args], check=True, stdout=subprocess.DEVNULL, cwd=self.folder,
                       env={"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "HOME": str(self.folder)}, **self.who)

    def start(self):
        self.run("pg_ctl", "-D", self.data, "-w", "-t", "60", "-l", self.folder / "log", "-o",
                 f"-c listen_addresses='' -k {self.folder}", "start")

    def stop(self):
        """At once, as when its machine loses power: nobody is told, nothing is tidied up."""
        if (self.data / "postmaster.pid").exists():
            self.run("pg_ctl", "-D", self.data, "-m", "immediate", "-w", "stop")

    def remove(self):
        self.stop()
        shutil.rmtree(self.folder, ignore_errors=True)

    def make_database(self, name):
        """An empty one; its address."""
        self.run("createdb", "-h", self.folder, "-U", "flinch", "-T", "template0", name)
        return f"postgresql://flinch@/{name}?host={str(self.folder).replace('/', '%2F')}"

    def drop_database(self, name):
        self.run("dropdb", "-h", self.folder, "-U", "flinch", "--force", name)


if __name__ == "__main__":
    what, file = sys.argv[1], pathlib.Path(sys.argv[2])
    if file.exists():  # also one that a broken off run left
        if pathlib.Path(file.read_text()).is_dir():
            Server(file.read_text()).remove()
        file.unlink()
    if what == "up":
        file.write_text(str(Server.new().folder))
