"""What README.md shows and counts is what the program prints."""

import pathlib
import re
import subprocess
import sys

program, root = sys.argv[1], pathlib.Path(sys.argv[2])
readme = (root / "README.md").read_text(encoding="utf-8")
environment = {"LC_ALL": "C.UTF-8"}


def output(*arguments, typed=""):
    return subprocess.run([program, *arguments], input=typed, capture_output=True, encoding="utf-8", check=True,
                          cwd=root, env=environment).stdout


faults = []
if output("assess", "docs/cases/bramble.yaml").strip("\n") not in readme:
    faults.append("the screen in README.md is not what the program prints")
session = re.search(r"How `flinch ask` begins.*?```\n(.*?)```", readme, re.DOTALL).group(1)
typed = "".join(line[2:] + "\n" for line in session.splitlines() if line.startswith("> "))
if typed.count("\n") < 5 or not output("ask", typed=typed).startswith(session):
    faults.append("the session in README.md is not how `flinch ask` answers")
summary = output("check")
causes = re.search(r"(\d+) causes", summary).group(1)
counted, judged = re.search(r"(\d+) frequencies counted in published samples, (\d+) judged", summary).groups()
mimics = sum(len(re.findall(r"^  not pain$", path.read_text(), re.MULTILINE))
             for path in (root / "rules/canine").glob("*.flinch"))
words = " ".join(readme.split())
for claim in (f"{causes} causes over", f"{mimics} of them mimics", f"{counted} of its frequencies", f"the other {judged} are"):
    if claim not in words:
        faults.append(f"README.md should say: {claim}")
print("\n".join(faults) or "README.md says what is so")
sys.exit(bool(faults))
