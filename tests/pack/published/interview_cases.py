#!/usr/bin/env python3
"""interview_cases.py FLINCH PROGRAM PAGE: runs PROGRAM PAGE CASES, the published cases as their keepers told them,
one a line with what they came for; those of which nothing told unasked is left in this pack are left out."""
import json
import pathlib
import subprocess
import sys
import tempfile

from published_page import kinds, line, load


def main():
    flinch, program, page = sys.argv[1:]
    known = kinds(flinch)
    lines = [line(case, case["mapped_told"], known) for case in load("cases.yaml")]
    with tempfile.TemporaryDirectory() as folder:
        cases = pathlib.Path(folder) / "cases.jsonl"
        cases.write_text("".join(one + "\n" for one in lines if "came for" in json.loads(one)), encoding="utf-8")
        sys.exit(subprocess.run([program, page, cases], check=False).returncode)


if __name__ == "__main__":
    main()
