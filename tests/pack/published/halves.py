#!/usr/bin/env python3
"""halves.py [--write] FILE: which half each case of FILE belongs to, by a fixed hash of its identifier.

The first hex digit of sha256(id) even is `learn`, odd is `other`; nothing else enters, so that no case can be
moved by what it says. Without --write the `half:` lines are checked (exit status 1 if one is missing or wrong);
with it they are set, each below its `- id:` line."""
import hashlib
import re
import sys


def half(identifier):
    return "other" if int(hashlib.sha256(identifier.encode()).hexdigest()[0], 16) % 2 else "learn"


def with_halves(lines):
    kept = [line for line in lines if not re.match(r"  half: ", line)]
    out = []
    for line in kept:
        out.append(line)
        if entry := re.match(r"- id: (\S+)$", line):
            out.append(f"  half: {half(entry[1])}")
    return out


def main(arguments):
    write = "--write" in arguments
    paths = [a for a in arguments if a != "--write"]
    if len(paths) != 1:
        print(__doc__, file=sys.stderr)
        return 2
    with open(paths[0], encoding="utf-8") as file:
        lines = file.read().splitlines()
    identifiers = [m[1] for line in lines if (m := re.match(r"- id: (\S+)$", line))]
    if twice := {i for i in identifiers if identifiers.count(i) > 1}:
        print("identifier used twice:", ", ".join(sorted(twice)), file=sys.stderr)
        return 2
    wanted = with_halves(lines)
    if write:
        with open(paths[0], "w", encoding="utf-8") as file:
            file.write("\n".join(wanted) + "\n")
    elif wanted != lines:
        print("a half is missing or wrong; set them with --write", file=sys.stderr)
        return 1
    print(f"{len(identifiers)} cases, {sum(half(i) == 'learn' for i in identifiers)} of them in learn")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
