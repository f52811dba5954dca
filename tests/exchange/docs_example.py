"""The worked example of docs/exchange.md is what the program writes; --update rewrites it."""

import os
import pathlib
import re
import subprocess
import sys
import tempfile

program, root = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2])
page = root / "docs/exchange.md"
text = page.read_text(encoding="utf-8")
with tempfile.TemporaryDirectory() as folder:
    (pathlib.Path(folder) / "key").write_text("00000000-0000-4000-8000-000000000001\n")
    environment = {**os.environ, "LC_ALL": "C.UTF-8", "SOURCE_DATE_EPOCH": "1764000000"}

    def shown(match):
        done = subprocess.run(match.group(1), shell=True, cwd=folder, capture_output=True, encoding="utf-8",
                              env={**environment, "PATH": f"{pathlib.Path(program).parent}:{os.environ['PATH']}",
                                   "HERE": str(root)})
        if done.returncode not in (0, 2):
            sys.exit(f"{match.group(1)}: {done.stderr}")
        return f"<!-- {match.group(1)} -->\n```{match.group(2)}\n{(done.stdout + done.stderr).strip(chr(10))}\n```"

    wanted, count = re.subn(r"<!-- ([^\n]+) -->\n```(\w*)\n(?:.*?\n)??```(?=\n)", shown, text, flags=re.DOTALL)
if "--update" in sys.argv:
    page.write_text(wanted, encoding="utf-8")
if not count or (wanted != text and "--update" not in sys.argv):
    sys.exit("docs/exchange.md does not show what the program writes: build update-exchange and read the difference")
print(f"{count} examples")
