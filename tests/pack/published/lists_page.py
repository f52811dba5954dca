#!/usr/bin/env python3
"""lists_page.py RULES PAGE: writes docs/pack/lists.md, what published lists say of a sign told alone and what became of it.

`lists.tsv` holds one floor a line; each must stand so in the rule files of the folder RULES (exit status 1 if not).
`below` says whether the floor is lower than what most lists for the public give."""
import csv
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).parent


def entries():
    with open(HERE / "lists.tsv", encoding="utf-8") as file:
        return list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))


def below_lists():
    """Signs whose floor stands below what most lists give, with the reason in lists.tsv."""
    return {entry["sign"] for entry in entries() if entry["below"] == "yes"}


def statements(folder):
    signs, sources, alarms = {}, {}, []
    for path in sorted(pathlib.Path(folder).glob("*.flinch")):
        for statement in re.split(r"\n(?=\S)", path.read_text(encoding="utf-8")):
            if name := re.match(r"sign (\w+)", statement):
                signs[name[1]] = statement
            elif name := re.match(r'source (\w+)\n  text "([^"]*)"', statement):
                sources[name[1]] = name[2]
            elif re.match(r"alarm ", statement):
                alarms.append(statement)
    return signs, sources, alarms


def holds(entry, signs, alarms):
    """Whether the sign alone is seen so, by its floor or by an alarm on nothing else."""
    condition = "" if entry["if"] == "-" else f" if {entry['if']}"
    if re.search(rf"  alone see {entry['see']}{re.escape(condition)}( unless [^\"]*?)?\s+because", signs[entry["sign"]]):
        return True
    return any(re.search(rf"\n  if {entry['sign']}\n  see {entry['see']}\n", alarm) for alarm in alarms)


def main(folder, page):
    signs, sources, alarms = statements(folder)
    rows = {"yes": [], "no": []}
    for entry in entries():
        if entry["sign"] not in signs or not holds(entry, signs, alarms):
            sys.exit(f"lists.tsv: {entry['sign']} is not seen {entry['see']} (if {entry['if']}) in the pack")
        names = [name.strip() for name in entry["sources"].split(",")]
        if unknown := [name for name in names if name not in sources]:
            sys.exit(f"lists.tsv: {entry['sign']} names sources that the pack has not: {', '.join(unknown)}")
        label = re.match(r'sign \w+ "([^"]*)"', signs[entry["sign"]])[1]
        answer = "" if entry["if"] == "-" else f" ({entry['if'].replace('_', ' ')})"
        rows[entry["below"]].append(f"| **{label}**{answer} `{entry['sign']}` | {entry['see']} | "
                                    f"{entry['what the lists say, and what was weighed']} | {', '.join(names)} |")
    head = ["| sign | floor | what the lists say, and what was weighed | sources |", "|---|---|---|---|"]
    out = ["# Floors and published lists", "",
           "How soon a dog with one sign and nothing else is seen, where lists for the public were counted both ways. The rule: the",
           "most urgent tier on which two independent lists agree for the sign told alone, unless published advice lets that sign",
           "wait. Lists that copy one another (many copy one association's list of thirteen) count once. `judgement` stands for the",
           "authors of the pack; all floors are in [floors.md](floors.md). This page is written by the test suite from",
           "[lists.tsv](../../tests/pack/published/lists.tsv), and fails if the pack sees the sign otherwise.", "",
           "## Floors below most lists", ""] + head + rows["yes"] + ["", "## Floors as the lists give them", ""] + head + rows["no"]
    out += ["", "## What a known fact lets wait", "",
            "`unless` in the pack: the floor stands while the fact is unknown, denied or in a clash, and waits once it is known. Only a lesser",
            "degree or kind of the very same thing may do so (a few drops, a streak, specks of milk teeth), and that a bitch is spayed. Behind",
            "each stand the worst causes that it could hide. Any answer but a measured number that is seen within a day by itself and makes",
            "one of these three times as likely is as urgent beside the fact as without it; the test suite tries them all. Left below: those",
            "that may wait with it: in a spayed bitch, a trouble that is seen the same day.",
            "From [mild_facts.tsv](../../tests/pack/published/mild_facts.tsv).", "",
            "| what sets the tier | waits once it is known | the worst that could hide behind it | left below |", "|---|---|---|---|"]
    with open(HERE / "mild_facts.tsv", encoding="utf-8") as file:
        for entry in csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE):
            out.append(f"| `{entry['alarm']}` | {entry['what lets it wait']} | {entry['worst causes behind it']} | {entry['left below']} |")
    pathlib.Path(page).write_text("\n".join(out) + "\n", encoding="utf-8")


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    main(*sys.argv[1:])
