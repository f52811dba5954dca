"""Runs a program with a PostgreSQL server of its own: FLINCH_TEST_SERVER holds its address. The server lives in a
scratch folder, is reached by a socket in it alone, and ends with the program. Without Debian's postgresql package
the test is skipped."""

import glob
import os
import pathlib
import pwd
import shutil
import subprocess
import sys
import tempfile

found = sorted(glob.glob("/usr/lib/postgresql/*/bin/initdb"))
if not found:
    print("SKIPPED: no PostgreSQL is installed (tests/run installs it)")
    sys.exit(77)
programs = pathlib.Path(found[-1]).parent

scratch = pathlib.Path(tempfile.mkdtemp(prefix="flinch-pg-"))
data = scratch / "data"
who = {}
if os.geteuid() == 0:  # PostgreSQL refuses to run as root
    nobody = next((name for name in ("postgres", "nobody") if name in {u.pw_name for u in pwd.getpwall()}))
    user = pwd.getpwnam(nobody)
    os.chown(scratch, user.pw_uid, user.pw_gid)
    who = {"user": user.pw_uid, "group": user.pw_gid, "extra_groups": []}
plain = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "HOME": str(scratch)}
try:
    subprocess.run([programs / "initdb", "-D", data, "-U", "flinch", "-A", "trust", "-E", "UTF8",
                    "--locale=C.UTF-8", "--no-sync"], check=True, stdout=subprocess.DEVNULL, env=plain, cwd=scratch,
                   **who)
    subprocess.run([programs / "pg_ctl", "-D", data, "-w", "-t", "60", "-l", scratch / "log", "-o",
                    f"-c listen_addresses='' -k {scratch}", "start"], check=True, stdout=subprocess.DEVNULL,
                   env=plain, cwd=scratch, **who)
    address = f"postgresql://flinch@/postgres?host={str(scratch).replace('/', '%2F')}"
    print(subprocess.run([programs / "postgres", "--version"], capture_output=True, text=True).stdout.strip(),
          flush=True)
    done = subprocess.run(sys.argv[1:], env={**os.environ, "FLINCH_TEST_SERVER": address})
    sys.exit(done.returncode)
finally:
    if (data / "postmaster.pid").exists():
        subprocess.run([programs / "pg_ctl", "-D", data, "-m", "immediate", "stop"], stdout=subprocess.DEVNULL,
                       env=plain, cwd=scratch, **who)
    shutil.rmtree(scratch, ignore_errors=True)
