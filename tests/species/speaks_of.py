"""With the pack of another species every command of the program runs, and none of its texts names the species of
the shipped pack; a case for another species is refused, with the remedy; hostile outlines stay inert.

    speaks_of.py PROGRAM FOLDER CASE ONE SCREEN_MODULE

FOLDER holds `pack.flinch` of a species that is called ONE, and CASE is a patient of it.
"""

import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program = pathlib.Path(sys.argv[1]).resolve()
pack = pathlib.Path(sys.argv[2]).resolve()
one = sys.argv[4]
sys.path.insert(0, sys.argv[5])
from screen import Terminal  # noqa: E402

FOREIGN = re.compile(r"\b(dogs?|pup(s|py|pies)?|bitch(es)?|canine|hounds?|paws?|muzzles?|elbows?)\b|canislf",
                     re.IGNORECASE)
scratch = pathlib.Path(tempfile.mkdtemp())
environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8", "HOME": str(scratch), "TERM": "xterm-256color",
               "XDG_STATE_HOME": str(scratch / "state")}
looked_at = 0


def check(text, where):
    global looked_at
    looked_at += 1
    found = FOREIGN.search(text)
    if found:
        line = next(line for line in text.splitlines() if FOREIGN.search(line))
        sys.exit(f"{where} says `{found.group()}`: {line.strip()[:300]}")


def run(*arguments, status=0, stdin=""):
    done = subprocess.run([program, *map(str, arguments)], input=stdin, capture_output=True, text=True, cwd=scratch,
                          env=environment, timeout=120)
    where = "flinch " + " ".join(map(str, arguments))
    check(done.stdout, where)
    check(done.stderr, where)
    if done.returncode not in (status if isinstance(status, tuple) else (status,)):
        sys.exit(f"{where} ended with {done.returncode}: {done.stderr or done.stdout}")
    return done.stdout + done.stderr


case = scratch / "case.yaml"
shutil.copy(sys.argv[3], case)
of = ("--pack", pack)
key = re.search(r"^(\w+):\s*\{", case.read_text(), re.MULTILINE).group(1)

# What a keeper, a nurse and a vet read.
said = run("assess", case, *of) + run("assess", case, "--numbers", *of)
run("assess", case, "--json", *of)
nothing = scratch / "nothing.yaml"
nothing.write_text("answers: {}\n")
assert f" {one}" in run("assess", nothing, *of)
for reader in ("keeper", "nurse", "clinician"):
    for told in (case, nothing):
        run("care", told, "--for", reader, *of)
        run("care", told, "--for", reader, "--json", *of)
for told in (case, nothing):
    run("handover", told, *of)
    run("handover", told, "--markdown", *of)
    run("review", told, "--tier", "--changes", *of)
    run("review", told, "--json", *of)
    for reader in ("keeper", "clinician"):
        page = scratch / "page.html"
        run("report", told, "-o", page, "--for", reader, "--all", *of)
        check(page.read_text(), f"the page for the {reader}")
    assert f"The {one} seen from the left" in page.read_text()
causes = re.findall(r"^cause (\w+)", "\n".join(path.read_text() for path in pack.glob("*.flinch")), re.MULTILINE)
alarms = re.findall(r"^alarm (\w+)", "\n".join(path.read_text() for path in pack.glob("*.flinch")), re.MULTILINE)
rules = re.findall(r"^rule (\w+)", "\n".join(path.read_text() for path in pack.glob("*.flinch")), re.MULTILINE)
measures = re.findall(r"^care (\w+)", "\n".join(path.read_text() for path in pack.glob("*.flinch")), re.MULTILINE)
for name in measures:
    run("describe", name, *of)
for name in causes[:3]:
    run("review", case, "--cause", name, *of)
    run("describe", name, *of)
for name in rules[:3] + alarms[:3]:
    run("review", case, "--rule", name, *of)
    run("describe", name, *of)
run("review", case, "--between", causes[0], "none", *of)

# The pack itself, as lists and for programs.
for what in ("causes", "rules", "alarms", "floors", "care", "sources", "figures"):
    run("list", what, *of)
for command in (("signs",), ("signs", "--json"), ("signs", "--questionnaire")):
    run(*command, *of)
run("check", pack, "--names", "--pairs", "--cases", case)
run("check", pack, "--json")
run("compare", pack, pack, case)
closed = scratch / "closed"
closed.mkdir()
(closed / "one.yaml").write_text(case.read_text() + f"outcome: {{cause: {causes[0]}}}\n")
run("audit", closed, *of, "--html", scratch / "audit.html")
check((scratch / "audit.html").read_text(), "the audit's page")
run("audit", closed, *of, "--json")
run("learn", closed, *of, "--at-least", "1")

# Lines, other programs, the day book.
lines = json.dumps({"name": "A", key: {"age": "2 years"}, "answers": {}}) + "\n"
run("batch", *of, stdin=lines)
bundle = scratch / "bundle.json"
bundle.write_text(run("share", case, "--with-names", *of))
run("take", bundle, *of)
book = ("--book", scratch / "day.db")
run("book", "import", closed, *of, *book)
for part in (("today",), ("open",), ("due",), ("patient", "1")):
    run("book", *part, *of, *book)
    run("book", *part, "--json", *book, *(of if part[0] != "patient" else ()), status=(0, 1))
assert "PATIENT 1" in run("book", "patient", "1", *of, *book)
run("book", "export", *of, *book)
run("book", "forget", "1", *book, status=(0, 1, 2))

# The desks. Every question is answered by what says nothing, then once by yes.
for answer in ("?", "yes", "?how", "no"):
    run("ask", *of, stdin="limping\nno\n" + (answer + "\n") * 60, status=(0, 1))
with_pack = [str(program), "call", "--pack", str(pack)]
terminal = Terminal(with_pack, 100, 40)
pages = [terminal.text() if hasattr(terminal, "text") else "\n".join(terminal.screen.display)]
for keys in ("\t", "\t", "\t", "\t", "?"):
    terminal.press(keys)
    pages.append("\n".join(terminal.screen.display))
for shown in pages:
    check(shown, "the telephone desk")
assert any("CALLER AND PATIENT" in shown for shown in pages), "the desk was seen"

# Help, manual, mistakes.
commands = re.findall(r"^  (\w+)  ", run("--help"), re.MULTILINE)
for command in commands:
    run(command, "--help")
run("--version")
foreign = scratch / "foreign.yaml"
foreign.write_text("gnu: {age: 2 years}\nanswers: {}\n")
refused = run("assess", foreign, *of, status=2)
assert "gnu" in refused and "--pack" in refused and one in refused, refused
foreign.write_text(f"{key}: {{species: gnu}}\nanswers: {{}}\n")
assert "--pack" in run("assess", foreign, *of, status=2)
foreign.write_text(f"{key}: {{age: 900 years, weight: 1 mg, sex: neither}}\nanwsers: {{}}\n")
run("assess", foreign, *of, status=2)
run("assess", scratch / "missing.yaml", *of, status=2)
run("check", scratch / "no_pack", status=2)

# An outline can bring no markup, and says where it is wrong.
hostile = scratch / "hostile"
shutil.copytree(pack, hostile)
for path, where in (("M0 0\\\"/><script>alert(1)</script>", "no path data"), ("M0 0 L1", "numbers are missing"),
                    ("M0 0 L1e999 2", "no path data"), ("url(#x)", "no path data"), ("", "no path data")):
    (hostile / "outline.yaml").write_text(f'width: 10\nheight: 10\nleft:\n  body: ["{path}"]\n  sites: {{}}\n')
    shown = run("check", hostile, status=2)
    assert "outline.yaml:4:" in shown and where in shown, (path, shown)
(hostile / "outline.yaml").write_text("width: 10\nheight: 10\nleft:\n  body: [\"M0 0 L5 5\"]\n  sites: {no_such: [1, 1]}\n")
assert "unknown site `no_such`" in run("check", hostile, status=2)
bare = scratch / "bare"
shutil.copytree(pack, bare)
head = (bare / "pack.flinch").read_text()
(bare / "pack.flinch").write_text(re.sub(r"^  outline .*\n", "", head, flags=re.MULTILINE))
run("report", case, "-o", page, "--for", "clinician", "--all", "--pack", bare)
assert "<path" not in page.read_text().split("<svg", 2)[1], "a plain sheet"
shutil.rmtree(scratch)
print(f"{looked_at} outputs, none names another species")
