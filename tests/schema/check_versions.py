"""Every document says its schema and version, as docs/schemas.md and the schema do; each schema takes the kept
documents of every version of its first number; and a document of an unknown name is refused."""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

import jsonschema

program, root, kept = sys.argv[1], pathlib.Path(sys.argv[2]), pathlib.Path(sys.argv[3])
listed = dict(re.findall(r"\[(\w+)\.schema\.json\].*\| (\d+\.\d+\.\d+) \|$", (root / "docs/schemas.md").read_text(),
                         re.MULTILINE))
schemas = {path.name.split(".")[0]: json.loads(path.read_text()) for path in (root / "docs").glob("*.schema.json")}
assert set(listed) == set(schemas), listed
small = root / "tests/golden/cases/audit-cases"
ash = str(small / "cases/ash.yaml")
pack = ["--pack", str(small / "pack.flinch")]


def written(name, folder):
    """Documents that the program writes now."""
    if name == "batch":
        lines = folder / "lines.jsonl"
        lines.write_text('{"name":"Ash","answers":{"retching":true}}\n{"name":"Elm","answers":{"limping":true}}\n')
        command = ["batch", str(lines), *pack]
    elif name == "book":
        book = str(folder / "book.db")
        subprocess.run([program, "book", "import", str(small / "cases"), *pack, "--book", book], check=True,
                       capture_output=True)
        command = ["book", "patient", "1", "--with-names", "--json", "--book", book]
    else:
        command = {"assessment": ["assess", ash, *pack], "audit": ["audit", str(small / "cases"), *pack],
                   "care": ["care", ash, *pack], "check": ["check", str(small / "pack.flinch")],
                   "review": ["review", ash, "--tier", "--cause", "torsion", *pack]}[name] + ["--json"]
    out = subprocess.run([program, *command], capture_output=True, text=True).stdout
    return documents(name, out)


def documents(name, text):
    if name == "batch":
        return [json.loads(line) for line in text.splitlines()]
    read = json.loads(text)
    return read if name == "assessment" else [read]


def as_validated(name, document):
    return [document] if name == "assessment" else document


count = 0
with tempfile.TemporaryDirectory() as scratch:
    for name, version in listed.items():
        schema = schemas[name]
        assert schema["version"] == version, (name, schema["version"], version)
        validator = jsonschema.Draft201909Validator(schema)
        now = written(name, pathlib.Path(scratch))
        assert now, name
        for document in now:
            assert document["schema"] == {"name": name, "version": version}, (name, document.get("schema"))
            validator.validate(as_validated(name, document))
            assert not validator.is_valid(as_validated(name, document | {"schema": {"name": "other", "version": version}}))
        files = {path.name.split("-")[1].rsplit(".", 1)[0]: path for path in kept.glob(f"{name}-*")}
        assert {"1.0.0", version} <= set(files), f"keep a document of {name} {version}"
        for old, path in files.items():
            first = old.split(".")[0]
            its = validator if first == version.split(".")[0] else jsonschema.Draft201909Validator(
                json.loads((root / f"docs/{name}.schema.{first}.json").read_text()))
            for document in documents(name, path.read_text()):
                its.validate(as_validated(name, document))
                assert document.get("schema", {"version": "1.0.0"})["version"] == old, path
                count += 1
print(f"{count} kept documents of {len(schemas)} schemas are still valid")
