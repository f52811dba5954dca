"""One page a command, naming all its options; groff and mandoc have nothing to say against them."""

import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program, writer, root = sys.argv[1:]


def output(*command, **settings):
    return subprocess.run(command, capture_output=True, text=True, check=True, **settings).stdout


commands = re.findall(r"^  (\w+) ", output(program, "--help").split("Subcommands:")[1], re.MULTILINE)
readers = [reader for reader in (["man", "--warnings=w", "-l"], ["mandoc", "-T", "lint", "-W", "warning"])
           if shutil.which(reader[0])]
assert readers, "neither man nor mandoc is here"
with tempfile.TemporaryDirectory() as folder:
    output(writer, folder)
    pages = {path.name: path for path in pathlib.Path(folder).iterdir()}
    assert set(pages) == {"flinch.1"} | {f"flinch-{command}.1" for command in commands}, pages.keys()
    for name, page in pages.items():
        for reader in readers:
            done = subprocess.run([*reader, page], capture_output=True, text=True,
                                  env={"PATH": "/usr/bin:/bin", "LC_ALL": "C.UTF-8", "MANWIDTH": "80"})
            complaints = done.stderr + (done.stdout if reader[0] == "mandoc" else "")
            assert done.returncode == 0 and not complaints, (name, complaints)
    plain = {name: page.read_text().replace("\\-", "-") for name, page in pages.items()}
for command in commands:
    assert f"flinch-{command}" in plain["flinch.1"], f"flinch(1) does not name {command}"
    told = output(program, command, "--help").split("Examples:")[0]
    for option in re.findall(r"^  (?:-\w,)?(--[a-z-]+)", told, re.MULTILINE):
        assert f"\\fB{option}\\fR" in plain[f"flinch-{command}.1"], f"flinch-{command}(1) does not name {option}"

readme = (pathlib.Path(root) / "README.md").read_text()
for command in commands:
    assert f"cli/run {command}" in readme, f"README.md does not name {command}"
versions = output(program, "--version").splitlines()
language = re.search(r"This is version (\S+) of the language",
                     (pathlib.Path(root) / "docs/language_reference.md").read_text())
pack = re.search(r"^pack (\S+).*?^  version (\S+)", (pathlib.Path(root) / "rules/canine/pack.flinch").read_text(),
                 re.MULTILINE | re.DOTALL)
assert versions[1:] == [f"pack {pack.group(1)} {pack.group(2)}", f"language {language.group(1)}"], versions
assert re.fullmatch(r"flinch \d+\.\d+", versions[0]), versions
print(f"{len(pages)} pages, read by {', '.join(reader[0] for reader in readers)}")
