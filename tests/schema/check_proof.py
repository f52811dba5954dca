"""What `flinch check --json` prints follows docs/check.schema.json, for packs that load and for one that
does not; the schema refuses what it should; and the coverage adds up."""

import copy
import json
import pathlib
import shutil
import subprocess
import sys
import tempfile

import jsonschema

program, schema_path, golden, cases = sys.argv[1:]
schema = json.loads(pathlib.Path(schema_path).read_text())
jsonschema.Draft201909Validator.check_schema(schema)
validator = jsonschema.Draft201909Validator(schema)


def check(*arguments, status=0):
    done = subprocess.run([program, "check", "--json", *arguments], capture_output=True, text=True)
    assert done.returncode == status, done
    output = json.loads(done.stdout)
    validator.validate(output)
    return output


def golden_pack(name, folder):
    shutil.copytree(pathlib.Path(golden) / "cases" / name, folder, dirs_exist_ok=True)
    shutil.copy(pathlib.Path(golden) / "shared/frame.flinch", folder)
    return str(folder)


shipped = check("--cases", cases)
examples, both = shipped["coverage"]["examples"], shipped["coverage"]["examples_and_cases"]
assert examples["cases"] == shipped["examples"] < both["cases"]
assert set(both["silent_rules"]) <= set(examples["silent_rules"])
assert len(examples["silent_rules"]) < shipped["rules"]
with tempfile.TemporaryDirectory() as scratch:
    scratch = pathlib.Path(scratch)
    accepted = check(golden_pack("check-accepted", scratch / "accepted"))
    assert {one["code"] for one in accepted["accepted"]} >= {"strong-judgement", "idle-figure", "unused-site"}
    broken = check(golden_pack("check-unknown-name", scratch / "broken"), status=2)
    warned = check(golden_pack("check-said-twice", scratch / "warned"), "--strict", status=1)
assert set(broken) == {"schema", "diagnostics"}
assert [one["severity"] for one in warned["diagnostics"]] == ["warning"]

for path, wrong in ((("coverage", "examples", "cases"), -1), (("accepted", 0, "reason"), ""), (("surplus",), True),
                    (("diagnostics",), [{"code": "x"}]), (("coverage",), {})):
    spoilt = copy.deepcopy(accepted)
    target = spoilt
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = wrong
    assert not validator.is_valid(spoilt), f"the schema lets {path} = {wrong} pass"
print("4 outputs follow the schema")
