"""The JSON of `flinch review --json` follows docs/review.schema.json, its numbers add up, and the schema
refuses what it should."""

import copy
import json
import math
import pathlib
import subprocess
import sys

import jsonschema

program, schema_path, *cases = sys.argv[1:]
schema = json.loads(pathlib.Path(schema_path).read_text())
jsonschema.Draft201909Validator.check_schema(schema)
validator = jsonschema.Draft201909Validator(schema)

QUESTIONS = (
    [],
    ["--tier"],
    ["--cause", "hip_arthritis"],
    ["--rule", "stiff_after_rest"],
    ["--rule", "age"],
    ["--rule", "bloat"],
    ["--between", "elbow_arthritis", "twisted stomach"],
    ["--between", "hip_arthritis", "none"],
    ["--cause", "none"],
    ["--rule", "hip_both"],
    ["--what-if", "vomiting=yes, temperature=40.5 C, appetite=can't tell"],
    ["--changes"],
)

checked = 0
seen_ways = 0
for case in cases:
    for question in QUESTIONS:
        done = subprocess.run([program, "review", "--json", case, *question], capture_output=True, text=True, check=True)
        output = json.loads(done.stdout)
        validator.validate(output)
        for cause in output.get("causes", []):
            weights = sum(weight["decibans"] for weight in cause["weights"])
            assert math.isclose(weights, cause["evidence_decibans"], abs_tol=1e-9), (case, cause["name"])
            shown = 10 ** ((cause["base_decibans"] + weights - cause["all_causes_decibans"]) / 10)
            assert math.isclose(shown, cause["posterior"], rel_tol=1e-9), (case, cause["name"])
            interval = cause["interval"]
            assert interval["low"] <= cause["posterior"] <= interval["high"], (case, cause["name"])
            bits = [rule["bits"] for rule in cause["open"]]
            assert bits == sorted(bits, reverse=True), (case, cause["name"])
        if "tier" in output:
            for tier in output["tier"]["tiers"]:
                chances = [cause["posterior"] for cause in tier["causes"]]
                for before, after in zip(chances, chances[1:]):
                    assert after <= before * (1 + 1e-12), (case, tier["name"])
                assert math.isclose(sum(chances), tier["probability"], abs_tol=1e-9), (case, tier["name"])
                if tier["threshold"] is None:
                    assert not tier["only_just"], (case, tier["name"])
                    continue
                assert tier["reached"] == (tier["probability"] >= tier["threshold"] * (1 - 1e-12)), (case, tier["name"])
                interval = tier["interval"]
                within = interval["low"] <= tier["threshold"] <= interval["high"]
                assert tier["only_just"] == within, (case, tier["name"])
            fired = {one["tier"] for one in output["tier"]["fired"] + output["tier"]["taken"]}
            assert output["tier"]["by_alarm"] == (output["result"]["tier"] in fired), case
        thing = output.get("rule") or output.get("alarm")
        if thing:
            assert not (thing["truth"] == "yes" and thing["would_fire"]), (case, thing["name"])
            sizes = [len(way) for way in thing["would_fire"]]
            assert sizes == sorted(sizes), (case, thing["name"])
            for way in thing["would_fire"]:
                assert all(change["answer"] != change["now"] for change in way), (case, thing["name"])
                seen_ways += 1
        if "between" in output:
            between = output["between"]
            total = between["base_decibans"] + sum(
                rule["first_decibans"] - rule["second_decibans"] for rule in between["rules"])
            assert math.isclose(total, between["total_decibans"], abs_tol=1e-9), case
            interval = between["interval_decibans"]
            assert interval["low"] <= total <= interval["high"], case
            assert between["told_apart"] == (not interval["low"] <= 0 <= interval["high"]), case
        checked += 1

for path, wrong in ((("result", "tier"), 3), (("smallest_changes", "higher_tier"), {}), (("surplus",), True)):
    spoilt = copy.deepcopy(output)
    target = spoilt
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = wrong
    assert not validator.is_valid(spoilt), f"the schema lets {path} = {wrong} pass"

print(f"{checked} outputs follow the schema")
sys.exit(0 if checked and seen_ways else 1)
