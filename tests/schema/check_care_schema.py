"""The JSON of `flinch care --json` follows docs/care.schema.json for every audience, the schema refuses
what it should, and no reader is told a dose that is not theirs."""

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
doses = 0
for case in cases:
    for audience in ("keeper", "nurse", "clinician"):
        done = subprocess.run([program, "care", "--json", "--for", audience, case], capture_output=True, text=True,
                              check=True)
        output = json.loads(done.stdout)
        validator.validate(output)
        assert output["audience"] == audience
        for measure in output["measures"]:
            told = measure["dose"] is not None and "amount" in measure["dose"]
            doses += told
            assert not (told and measure["advice"] == "withheld"), measure["name"]
            assert not (measure["for_clinician"] and audience != "clinician"), measure["name"]
            if audience == "keeper":
                assert not told or measure["advice"] == "offered", measure["name"]
            assert measure["cites"] and measure["because"], measure["name"]
        checked += 1

for path, wrong in ((("tier",), 3), (("measures", 0, "advice"), "urged"), (("surplus",), True)):
    spoilt = copy.deepcopy(output)
    target = spoilt
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = wrong
    assert not validator.is_valid(spoilt), f"the schema lets {path} = {wrong} pass"

assert doses > 20, "the cases must show doses"
print(f"{checked} outputs follow the schema, {doses} doses told")
sys.exit(0 if checked else 1)
