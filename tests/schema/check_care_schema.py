"""The JSON of `flinch care --json` follows docs/care.schema.json for every audience, the schema refuses
what it should, and no reader is told a dose that is not theirs."""

import copy
import json
import pathlib
import re
import subprocess
import sys

import jsonschema

program, schema_path, *cases = sys.argv[1:]
schema = json.loads(pathlib.Path(schema_path).read_text())
jsonschema.Draft201909Validator.check_schema(schema)
validator = jsonschema.Draft201909Validator(schema)



def all_texts(value):
    """Each text of the output, whatever it hangs on."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, list):
        for one in value:
            yield from all_texts(one)
    elif isinstance(value, dict):
        for one in value.values():
            yield from all_texts(one)


def facts_in_json(page, output):
    """Sentences of the page, each of which stands in the output: of the headings here, all of them."""
    plain = " ".join(" ".join(all_texts(output)).split()).lower()
    headings = ("HOW SOON", "SAY TO THE CALLER", "BEFORE YOU LEAVE", "DO AT ONCE", "DO NOT", "FOOD, WATER", "NO SUPPLEMENTS",
                "RING AGAIN", "LOOK AGAIN")
    # What the page itself says around the facts.
    frame = re.compile(r"^(could be up to|for what is open, flinch|\.\.\. and|see also|or, if|why:|and |no single sign|no alarm asks)", re.I)
    found = 0
    inside = False
    paragraphs = []
    for line in page.splitlines():
        if line and line == line.upper() and line[0].isalpha():
            inside = line.startswith(headings)
            paragraphs.append("")
        elif inside and re.match(r"\s*[\u25a0\u25a1#-]{3}", line):
            assert output["telling"]["urgency"]["title"].lower() in line.lower(), line
            paragraphs.append("")
        elif inside and re.match(r"\s*([\u2022*\u25a0?]|\d+[. ])", line):
            paragraphs.append(re.sub(r"^\s*([\u2022*\u25a0?]+|\d+[. ])", "", line))
        elif inside and not line.strip():
            paragraphs.append("")
        elif inside and paragraphs:
            paragraphs[-1] += " " + line.strip()
    for paragraph in paragraphs:
        for sentence in re.split(r"(?<=[.!?:;])\s+", " ".join(paragraph.split())):
            bare = sentence.strip().rstrip(".:;").lower()
            if len(bare.split()) < 4 or frame.match(bare):
                continue
            assert bare in plain, f"not in the JSON: {sentence!r}"
            found += 1
    return found


checked = 0
doses = 0
told = 0
for case in cases:
    for audience in ("keeper", "nurse", "clinician"):
        done = subprocess.run([program, "care", "--json", "--for", audience, case], capture_output=True, text=True,
                              check=True)
        output = json.loads(done.stdout)
        validator.validate(output)
        assert output["audience"] == audience
        for measure in output["measures"]:
            has_dose = measure["dose"] is not None and "amount" in measure["dose"]
            doses += has_dose
            assert not (has_dose and measure["advice"] == "withheld"), measure["name"]
            assert not (measure["for_clinician"] and audience != "clinician"), measure["name"]
            if audience == "keeper":
                assert not has_dose or measure["advice"] == "offered", measure["name"]
            assert measure["cites"] and measure["because"], measure["name"]
        page = subprocess.run([program, "care", "--for", audience, case], capture_output=True, text=True, check=True).stdout
        told += facts_in_json(page, output)
        checked += 1

for path, wrong in ((("tier",), 3), (("measures", 0, "advice"), "urged"), (("surplus",), True)):
    spoilt = copy.deepcopy(output)
    target = spoilt
    for step in path[:-1]:
        target = target[step]
    target[path[-1]] = wrong
    assert not validator.is_valid(spoilt), f"the schema lets {path} = {wrong} pass"

assert doses > 20, "the cases must show doses"
assert told > 100, "the pages must tell something"
print(f"{checked} outputs follow the schema, {doses} doses and {told} facts told")
sys.exit(0 if checked else 1)
