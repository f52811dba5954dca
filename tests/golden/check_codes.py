"""Every kind of mistake that the program can report has a golden case that shows it."""

import pathlib
import re
import sys

definitions, folder = map(pathlib.Path, sys.argv[1:])
codes = re.findall(r'FLINCH_(?:CODE|WARNING)\(\w+, "([\w-]+)"\)', definitions.read_text())
shown = set()
for messages in folder.glob("cases/*/err.txt"):
    shown.update(re.findall(r"\[([\w-]+)\]$", messages.read_text(), re.MULTILINE))
for lines in folder.glob("cases/*/out.txt"):  # of `batch`, whose mistakes stand in its output
    shown.update(re.findall(r'^{"line":.*"code":"([\w-]+)"', lines.read_text(), re.MULTILINE))
missing = [code for code in codes if code not in shown]
print(f"{len(codes)} kinds of mistake, {len(missing)} without a golden case: {' '.join(missing)}")
sys.exit(1 if missing or len(codes) < 40 else 0)
