"""The JSON of `flinch assess --json` follows docs/assessment.schema.json, and the schema refuses what
it should."""

import copy
import json
import pathlib
import subprocess
import sys

import jsonschema

program, schema_path, *cases = sys.argv[1:]
schema = json.loads(pathlib.Path(schema_path).read_text())
jsonschema.Draft201909Validator.check_schema(schema)
validator = jsonschema.Draft201909Validator(schema)

checked = 0
for case in cases:
    done = subprocess.run([program, "assess", "--json", case], capture_output=True, text=True, check=True)
    output = json.loads(done.stdout)
    validator.validate(output)
    assert abs(sum(cause["posterior"] for cause in output[0]["causes"]) - 1) < 1e-9, case
    checked += 1

for path, wrong in ((("tier",), 3), (("causes", 0, "posterior"), 1.5), (("surplus",), True)):
    spoilt = copy.deepcopy(output)
    target = spoilt[0]
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = wrong
    assert not validator.is_valid(spoilt), f"the schema lets {path} = {wrong} pass"

print(f"{checked} outputs follow the schema")
sys.exit(0 if checked else 1)
