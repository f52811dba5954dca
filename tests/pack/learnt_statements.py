"""The statements that `flinch learn` proposes, put in place of those of the shipped pack, make a pack that
`flinch check` reads without a remark and whose figures count more dogs; `flinch compare` then says what
they move, and nothing was written by any of it."""

import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program, pack, cases = sys.argv[1:]


def flinch(*arguments, status):
    done = subprocess.run([program, *arguments], capture_output=True, text=True)
    assert done.returncode in status, (arguments, done.returncode, done.stdout[-2000:], done.stderr[-2000:])
    return done


def bytes_of(folder):
    return {path.name: path.read_bytes() for path in pathlib.Path(folder).iterdir()}


def counted(folder, status):
    # Figures that were judged and now are counted leave an `accept` behind: a warning, not an error.
    checked = flinch("check", str(folder), status=status)
    assert " error: " not in checked.stderr, checked.stderr
    return int(re.search(r"(\d+) figures counted", checked.stdout).group(1))


before = bytes_of(pack) | bytes_of(cases)
proposed = flinch("learn", "--pack", pack, cases, "--statements", "--at-least", "1", status=[0]).stdout
statements = re.split(r"\n(?=rule |source )", proposed)
rules = {text.split()[1]: text.rstrip() + "\n" for text in statements if text.startswith("rule ")}
source = next(text for text in statements if text.startswith("source "))
assert len(rules) > 100

with tempfile.TemporaryDirectory() as scratch:
    learnt = pathlib.Path(scratch) / "learnt"
    shutil.copytree(pack, learnt)
    replaced = 0
    for path in learnt.glob("*.flinch"):
        parts = re.split(r"(?m)^(?=\w)", path.read_text(encoding="utf-8"))
        for number, part in enumerate(parts):
            if part.startswith("rule ") and part.split()[1] in rules:
                parts[number] = rules[part.split()[1]] + "\n"
                replaced += 1
        path.write_text("".join(parts), encoding="utf-8")
    with open(learnt / "sources.flinch", "a", encoding="utf-8") as sources:
        sources.write(source + "\n")
    assert replaced == len(rules), (replaced, len(rules))
    # Examples may break: the proposal is not to be taken unread.
    assert counted(learnt, [0, 1]) > counted(pack, [0])
    moved = flinch("compare", pack, str(learnt), cases, status=[1]).stdout
    assert re.search(r"rule `\w+` ", moved), moved[:2000]
flinch("compare", pack, pack, cases, status=[0])
assert bytes_of(pack) | bytes_of(cases) == before
print(f"{replaced} proposed rules read; nothing was written")
