"""Where the vet comes to the patient no text sends anybody anywhere; where it is brought they do. The pack says which,
and the practice may say otherwise. The pack's own "Leave now." is told only where it is brought.

    vet_comes.py PROGRAM FOLDER CASE

FOLDER holds a pack that does not say who travels, and CASE is a patient of it that is to be seen at once.
"""

import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
TRAVEL = re.compile(r"on the way|straight to|before you leave|leave (at once|now|for)|take this page|travel|come to us",
                    re.IGNORECASE)
AT_HOME = re.compile(r"vet is there|come out|comes out|to the vet", re.IGNORECASE)


def written(pack, case, scratch, *of):
    """What keeper, nurse and vet read of the case."""
    page = scratch / "page.html"
    for arguments in (("assess", case), ("handover", case), ("care", case), ("care", case, "--for", "nurse"),
                      ("care", case, "--for", "clinician"), ("care", case, "--json"),
                      ("report", case, "-o", page, "--for", "keeper"), ("report", case, "-o", page, "--all")):
        done = subprocess.run([program, *map(str, arguments), "--pack", pack, *map(str, of)], capture_output=True,
                              text=True, timeout=60, env={"PATH": os.environ["PATH"], "HOME": str(scratch)})
        assert done.returncode == 0, (arguments, done.stderr)
        text = page.read_text() if arguments[0] == "report" else done.stdout
        yield " ".join(map(str, arguments)), " ".join(text.split())


with tempfile.TemporaryDirectory() as folder:
    scratch = pathlib.Path(folder)
    case = scratch / "case.yaml"
    shutil.copy(sys.argv[3], case)
    open_always = "name: Far Lane\ntelephone: 555 0100\naddress: 4 Far Lane\n"
    practices = {}
    for name, more in (("silent", ""), ("home", "seen at: home\n"), ("clinic", "seen at: clinic\n")):
        practices[name] = scratch / f"{name}.yaml"
        practices[name].write_text(open_always + more)
    brought = scratch / "brought"
    visited = scratch / "visited"
    for pack in (brought, visited):
        shutil.copytree(sys.argv[2], pack)
        for file in pack.glob("*.flinch"):
            # What goes on of food says more than who travels, and stays as it is written.
            file.write_text(file.read_text().replace(", also on the way", ""))
    head = visited / "pack.flinch"
    head.write_text(head.read_text().replace("  version", "  seen at home\n  version", 1))
    for pack, of, comes in ((brought, (), False), (visited, (), True),
                            (brought, ("--practice", practices["silent"]), False),
                            (visited, ("--practice", practices["silent"]), True),
                            (brought, ("--practice", practices["home"]), True),
                            (visited, ("--practice", practices["clinic"]), False)):
        texts = list(written(pack, case, scratch, *of))
        wrong = TRAVEL if comes else AT_HOME
        for what, text in texts:
            found = wrong.search(text)
            assert not found, f"{pack.name} {of} {what}: {text[max(found.start() - 80, 0):found.end() + 80]}"
        told = AT_HOME if comes else TRAVEL
        assert sum(bool(told.search(text)) for _, text in texts) >= 3, (pack.name, of, "is silent on who travels")
print("who travels is told alike in all texts")
