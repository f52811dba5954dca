#!/usr/bin/env python3
"""as_answers.py (told|whole) [--signs SIGNS.json] [--half learn|other] CASES.yaml: the cases as lines for `flinch batch`.

`told` gives what a keeper said alone, `whole` adds what was found at the first examination. SIGNS.json is the
output of `flinch signs --json` of the pack that is to read the lines: a place given for a sign that this pack
asks as yes or no becomes a plain yes, and a sign that it does not know is left out and counted on standard
error. Without it the places and signs stay as written. The outcome of a line is the case's cause (`none`
when the pack has no name for it) and the tier that it needed."""
import argparse
import json
import sys

import yaml


def plain(answer):
    """A place as a bare yes or no, for a sign that takes no places."""
    if isinstance(answer, dict):
        return None if not answer.get("found") else True
    return True if isinstance(answer, list) else answer


def answers_of(case, whole):
    answers = dict(case["mapped_told"])
    if whole:
        answers.update(case["mapped_found"])
    return answers


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("record", choices=["told", "whole"])
    parser.add_argument("--signs")
    parser.add_argument("--half", choices=["learn", "other"])
    parser.add_argument("cases")
    arguments = parser.parse_args()
    with open(arguments.cases, encoding="utf-8") as file:
        cases = yaml.safe_load(file)
    known = None
    if arguments.signs:
        with open(arguments.signs, encoding="utf-8") as file:
            known = {sign["name"]: sign["answer"] for sign in json.load(file)}
    left_out = {}
    for case in cases:
        if arguments.half and case["half"] != arguments.half:
            continue
        answers = {}
        for sign, answer in answers_of(case, arguments.record == "whole").items():
            if known is not None and sign not in known:
                left_out[sign] = left_out.get(sign, 0) + 1
                continue
            if known is not None and known[sign] != "sites":
                answer = plain(answer)
            if answer is not None:
                answers[sign] = answer if isinstance(answer, (bool, list, dict)) else str(answer)
        dog = {"species": "dog", **case["dog"]}
        outcome = {"cause": case["cause"], "needed": case["urgency"]}
        print(json.dumps({"name": case["id"], "dog": dog, "answers": answers, "outcome": outcome}))
    for sign, times in sorted(left_out.items()):
        print(f"left out, unknown to the pack: {sign} ({times})", file=sys.stderr)


if __name__ == "__main__":
    main()
