"""Public headers include the standard library and each other, nothing else; and a lower room of the
engine or of the program never includes a higher one."""

import pathlib
import re
import sys

root = pathlib.Path(sys.argv[1])
# From low to high.
ENGINE = ["text", "yaml", "json", "syntax", "model", "casefile", "assess", "explain", "interview", "care", "proofread", "telling",
          "audit"]
PROGRAM = ["look", "files", "book", "exchange", "care", "assess", "desk", "ask", "call", "review", "report", "describe", "batch", "audit",
           "check", "serve", "complete", "manual"]
# Of the files that lie in no room, what every command is handed; the rest stands above all rooms.
HANDED_TO_ALL = ("about.hpp", "command.hpp", "options.hpp", "run.hpp")
faults = []


def includes(path):
    return re.findall(r'#include (["<])([^">]+)[">]', path.read_text())


def look_at(inside, room, used, rooms):
    if used not in rooms:
        faults.append(f"{inside}: unknown room {used}")
    elif rooms.index(used) > rooms.index(room):
        faults.append(f"{inside}: {room} includes {used}, a higher room")


def sources(folder):
    return sorted([*(root / folder).rglob("*.hpp"), *(root / folder).rglob("*.cpp")])


for path in sources("engine"):
    inside = path.relative_to(root / "engine")
    public = inside.parts[0] == "include"
    room = inside.parts[2] if public else inside.parts[0]
    for quote, name in includes(path):
        if public and quote == "<" and ("/" in name or name.endswith(".h")):
            faults.append(f"engine/{inside}: public header includes {name}")
        if quote == '"':
            used = name.split("/")[1] if name.startswith("flinch/") else name.split("/")[0]
            look_at(f"engine/{inside}", room, used, ENGINE)

for path in sources("cli"):
    inside = path.relative_to(root / "cli")
    if len(inside.parts) == 1:
        continue
    for quote, name in includes(path):
        if quote == "<" or name.startswith("flinch/") or name in HANDED_TO_ALL:
            continue
        look_at(f"cli/{inside}", inside.parts[0], name.split("/")[0], PROGRAM)

count = len(sources("engine")) + len(sources("cli"))
print("\n".join(faults) or f"{count} files keep to their rooms")
sys.exit(1 if faults or not count else 0)
