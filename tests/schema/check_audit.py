"""What `flinch audit` writes for machines and browsers: its JSON follows docs/audit.schema.json, which
refuses what it should; its page stands alone, lets no script or foreign text act, and says in tables
what its pictures show."""

import copy
import json
import pathlib
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree

import jsonschema

program, schema_path, folder = sys.argv[1:]
schema = json.loads(pathlib.Path(schema_path).read_text())
jsonschema.Draft201909Validator.check_schema(schema)
validator = jsonschema.Draft201909Validator(schema)

HOSTILE = "\"><script>alert('x')<!-- & \x1b[31m.yaml"
MISSED = "answers: {lame: yes}\noutcome: {cause: none, needed: now}\n"


def audit(*arguments):
    return subprocess.run([program, "audit", *arguments], capture_output=True, text=True, check=True).stdout


with tempfile.TemporaryDirectory() as scratch:
    hostile = pathlib.Path(scratch) / HOSTILE.replace("/", "")
    hostile.write_text(MISSED)
    page_path = pathlib.Path(scratch) / "page.html"
    output = json.loads(audit("--json", "--html", str(page_path), folder, str(hostile)))
    page = page_path.read_text()
    lonely = json.loads(audit("--json", str(hostile)))

for document in (output, lonely):
    validator.validate(document)
one = output["audits"][0]
assert sum(map(sum, one["triage"]["needed_by_given"])) == one["cases"] > 80
assert one["triage"]["under"]["count"] == sum(
    n for needed, row in enumerate(one["triage"]["needed_by_given"]) for n in row[needed + 1:])
assert lonely["audits"][0]["needs_now"]["roc"]["area"] is None

for path, wrong in ((("cases",), -1), (("triage", "under", "share"), 1.5), (("surplus",), True),
                    (("needs_now", "reliability"), []), (("worst", 0, "place"), 0)):
    spoilt = copy.deepcopy(output)
    target = spoilt["audits"][0]
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = wrong
    assert not validator.is_valid(spoilt), f"the schema lets {path} = {wrong} pass"

# Nothing of the caller's acts; tests/pages looks at the rest of the page.
assert not re.search(r"\son\w+=|javascript:|style=|src=|href=|url\(", re.sub(r">[^<]*<", "><", page))
assert "\x1b" not in page and page.count("alert(") == 1 and "&lt;script&gt;" in page
tree = ElementTree.fromstring(re.sub(r"<(meta|br)([^>]*)>", r"<\1\2/>", page.replace("<!DOCTYPE html>", "")))

# Every picture has its words, and the numbers stand in a table as well.
pictures = [element for element in tree.iter() if element.tag.endswith("svg")]
assert len(pictures) == 4
for picture in pictures:
    words = {element.get("id"): element.text for element in picture if element.get("id")}
    assert all(words[part] for part in picture.get("aria-labelledby").split())
cells = ["".join(cell.itertext()) for cell in tree.iter("td")]
for needed, row in zip(one["triage"]["tiers"], one["triage"]["needed_by_given"]):
    shown = next("".join(line.itertext()) for line in tree.iter("tr") if line[0].text == needed)
    assert shown == needed + "".join(map(str, row)), shown
for curve in ("roc", "roc_with_alarms"):
    assert f"{one['needs_now'][curve]['area']:.3f}" in cells
for what in ("needs_now", "first_cause"):
    for band in one[what]["reliability"]:
        told = band["came_true"]
        if told["of"]:
            assert any(cell.startswith(f"{told['count']} of {told['of']}, ") for cell in cells)
dots = [element for element in pictures[1].iter() if element.tag.endswith("circle")]
assert len(dots) == sum(1 for band in one["needs_now"]["reliability"] if band["came_true"]["of"])
print(f"2 outputs follow the schema; a page of {len(page)} bytes with {len(pictures)} pictures stands alone")
