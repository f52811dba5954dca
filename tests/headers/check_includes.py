"""Public headers include the standard library and each other, nothing else; and a lower room of the
engine never includes a higher one."""

import pathlib
import re
import sys

engine = pathlib.Path(sys.argv[1])
rooms = ["text", "yaml", "json", "syntax", "model", "casefile", "assess", "explain", "proofread", "interview", "care", "audit"]  # from low to high
faults = []
files = sorted(engine.rglob("*.hpp")) + sorted(engine.rglob("*.cpp"))
for path in files:
    inside = path.relative_to(engine)
    public = inside.parts[0] == "include"
    room = inside.parts[2] if public else inside.parts[0]
    for quote, name in re.findall(r'#include (["<])([^">]+)[">]', path.read_text()):
        if public and quote == "<" and ("/" in name or name.endswith(".h")):
            faults.append(f"{inside}: public header includes {name}")
        if quote == '"':
            used = name.split("/")[1] if name.startswith("flinch/") else name.split("/")[0]
            if used not in rooms:
                faults.append(f"{inside}: unknown room {used}")
            elif rooms.index(used) > rooms.index(room):
                faults.append(f"{inside}: {room} includes {used}, a higher room")
print("\n".join(faults) or f"{len(files)} files keep to their rooms")
sys.exit(1 if faults or not files else 0)
