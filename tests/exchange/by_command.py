"""`flinch share` and `flinch take` as commands: round trips, identifiers, files that are not overwritten, hostile input."""

import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import time

program = str(pathlib.Path(sys.argv[1]).resolve())
cases = [pathlib.Path(one).resolve() for one in sys.argv[2:]]
faults = []


def check(fact, what):
    if not fact:
        faults.append(what)


with tempfile.TemporaryDirectory() as folder:
    home = pathlib.Path(folder)
    environment = {**os.environ, "LC_ALL": "C.UTF-8", "XDG_STATE_HOME": str(home / "state"), "SOURCE_DATE_EPOCH": "1764000000"}

    def run(*arguments, given=b""):
        return subprocess.run([program, *map(str, arguments)], input=given, capture_output=True, cwd=home,
                              env=environment, timeout=300)

    def patient(bundle):
        return next(e["resource"]["id"] for e in json.loads(bundle)["entry"] if e["resource"]["resourceType"] == "Patient")

    for case in cases:
        sent = run("share", case, "--with-names")
        check(sent.returncode == 0 and not sent.stderr, f"{case}: {sent.stderr}")
        taken = run("take", "-", given=sent.stdout)
        check(taken.returncode == 0, f"{case}: {taken.stderr}")
        # The case as it was read, and what was taken, are sent as the same bytes.
        (home / "again.yaml").write_bytes(taken.stdout)
        check(run("share", "again.yaml", "--with-names").stdout == sent.stdout, f"{case}: not the same case again")
        check(run("share", case, "--with-names").stdout == sent.stdout, f"{case}: not the same bytes")
        plain = run("share", case).stdout
        text = case.read_text(encoding="utf-8")
        for word in re.findall(r"^(?:name|caller|call back|note): \"?([^\"\n\\<]+)", text, re.MULTILINE):
            check(word.strip().encode() not in plain, f"{case}: {word} is sent without names")

    # The key is made once, for its owner alone; another key gives other identifiers, the same one the same.
    key = home / "state/flinch/share.key"
    check(key.stat().st_mode & 0o777 == 0o600, "the key may be read by others")
    first = patient(run("share", cases[0]).stdout)
    check(first == patient(run("share", cases[0]).stdout), "the identifier changes")
    check(first != patient(run("share", cases[0], "--key", "other.key").stdout), "the identifier does not need the key")
    check((home / "other.key").exists(), "a new key is not kept")
    (home / "bad.key").write_text("secret\n")
    bad = run("share", cases[0], "--key", "bad.key")
    check(bad.returncode == 2 and not bad.stdout and b"UUID" in bad.stderr, f"a bad key is taken: {bad}")
    # One dog, known by its name and the number, has one identifier; two dogs of a name have two.
    def dog(name, number, answers):
        return f"name: {name}\ncall back: '{number}'\nanswers: {{{answers}}}\n".encode()
    again = [patient(run("share", "-", given=dog(*one)).stdout)
             for one in (("Rex", "1", "vomiting: yes"), ("Rex", "1", "lame: yes"), ("Rex", "2", "vomiting: yes"))]
    check(again[0] == again[1] != again[2], "identifiers of the dog")

    # No file of another is overwritten, and none is left half written.
    sent = run("share", cases[0]).stdout
    check(run("take", "-", "--save", "new.yaml", given=sent).returncode == 0, "cannot save")
    before = (home / "new.yaml").read_bytes()
    refused = run("take", "-", "--save", "new.yaml", given=sent)
    check(refused.returncode == 2 and b"already" in refused.stderr, f"overwritten: {refused}")
    check((home / "new.yaml").read_bytes() == before, "changed")
    check(run("assess", "new.yaml").returncode == 0, "what was saved is no case")
    check(run("take", "-", "--save", "none.yaml", given=sent.replace(b'"Y"', b'"Z"')).returncode == 2, "Z is taken")
    check(not (home / "none.yaml").exists(), "a refused case is written")
    check(run("take", "-", "--save", "no/such/folder.yaml", given=sent).returncode == 2, "folder")
    check(run("take", "missing.json").returncode == 2 and run("share", "missing.yaml").returncode == 2, "missing file")

    # A contradiction is kept and told.
    clash = run("share", "-", given=b"answers: {breathing_trouble: no, belly_heaves: yes}\n").stdout
    clash = run("take", "-", given=clash)
    check(clash.returncode == 0 and b"belly_heaves: yes" in clash.stdout and b"warning" in clash.stderr,
          f"contradiction: {clash}")

    # A hundred megabytes, and nesting without end.
    huge = home / "huge.json"
    with huge.open("wb") as file:
        file.write(b'{"resourceType":"Bundle","entry":[')
        for _ in range(100):
            file.write(b"{}," * 350000)
    for given in (huge.read_bytes(), b'{"a":' * 3_000_000, b"[" * 50_000_000, b"\x00" * 1000, b"\xff" * 1000):
        began = time.monotonic()
        done = run("take", "-", given=given)
        check(done.returncode == 2 and done.stderr and not done.stdout, f"hostile: {done.returncode} {done.stderr[:200]}")
        check(len(done.stderr) < 20000, "a flood of messages")
        check(time.monotonic() - began < 60, "too slow")

print("\n".join(faults) or f"{len(cases)} cases went out and came back")
sys.exit(bool(faults))
