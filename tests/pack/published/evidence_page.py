#!/usr/bin/env python3
"""evidence_page.py [--check] FOLDER PAGE: the page on how published counts became figures of the pack.

FOLDER holds `figures.tsv`, one published count a line with what became of it, and `figure_sources.tsv`, where each
was read. Both are checked: columns, names, shares, and that a counted figure names its dogs. Without --check PAGE
is written; with it PAGE is only compared (exit status 1 if it differs)."""
import collections
import csv
import pathlib
import re
import sys

COLUMNS = ["source", "cause", "sign", "percent", "sample", "used", "rule", "figure", "why"]
NAME = re.compile(r"[a-z][a-z0-9_]*\Z")
# A share of the dogs with the sign, or the shares of the bands of a rule that has them (sex, size, degree).
SHARES = r"(\d+(?:\.\d+)?)(?:%|(?: \d+(?:\.\d+)?)+)"
COUNTED = re.compile(SHARES + r" of (\d+) from ([a-z][a-z0-9_]*)\Z")
DERIVED = re.compile(SHARES + r" derived from ([a-z][a-z0-9_]*)\Z")

HEAD = """# How published counts became figures

A series of dogs with one disorder prints how many of them showed a sign. This page says which of these counts the
pack uses and, for every other one that was looked at, why not. What stands in the pack is listed in
[figures.md](figures.md); the lines behind this page are in `tests/pack/published/figures.tsv`.

## How a count is chosen

- **Counted** it is called when the rule asks exactly the sign that was counted, in dogs, with a sample that is known,
  and when the dogs were not chosen for that very sign. An operated or referred series still counts, although it makes
  a disorder look worse than it is at first sight.
- **Derived** it is called when something had to be translated: the sign is near but not the same, the sample was not
  printed, the unit was not dogs, the dogs had only one form of the disorder, or the share was worked out from others.
- **The words are taken as printed.** "Anorexia" is read as eating nothing, "reduced appetite" or "anorexia or reduced
  appetite" as eating less or nothing; authors may use the first word more loosely. "Lethargy" and "depression" are
  read as dull. "Dehydration" is a vet's judgement and is only derived for dry gums.
- **Several series** that count the same thing alike are pooled: the dogs with the sign over all dogs. Numbers of dogs
  are worked out from printed percentages, so a pooled count may be one dog off. Series that count it differently are
  not mixed; then the largest one that fits is taken.
- **Sex, size, breed and how bad the limp is** are counted like any sign where a rule has the same bands or breeds. Of
  the two sexes the share of males is given here; it may be what is left of a printed share of females.
- **The same dogs** are counted once for one figure, even if two pages print them.
- A sign that makes up the diagnosis, or by which the dogs were chosen, says nothing about how often it is missing and
  is not used. Neither is an outcome, a finding under sedation, or a share of a caseload.
- A share of 100 % stands only if the dogs were not chosen for it; the engine keeps it away from certainty by its sample.
"""


def rows_of(path, columns):
    with open(path, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))
    if not rows or list(rows[0]) != columns:
        sys.exit(f"{path}: the first line must name {', '.join(columns)}")
    for number, row in enumerate(rows, 2):
        if None in row or None in row.values():
            sys.exit(f"{path}:{number}: {len(columns)} columns are needed")
    return rows


def fault_of(row, sources):
    if row["source"] not in sources:
        return f"no source {row['source']}"
    if row["percent"] and not 0 <= float(row["percent"]) <= 100:
        return f"{row['percent']} is no share"
    if not row["why"]:
        return "the reason is missing"
    if row["used"] == "no":
        return "a count that is not used has no rule" if row["rule"] or row["figure"] else ""
    if not NAME.match(row["rule"]) or not NAME.match(row["cause"]):
        return "a count that is used needs a rule and a cause"
    form = {"counted": COUNTED, "derived": DERIVED}.get(row["used"])
    if form is None:
        return f"'{row['used']}' is none of counted, derived, no"
    found = form.match(row["figure"])
    if not found:
        return f"'{row['figure']}' is no {row['used']} figure"
    if not 0 < float(found[1]) <= 100:
        return f"{found[1]} is no share that can stand in the pack"
    return "" if row["used"] == "derived" or row["sample"] else "a counted figure needs its sample"


def check(folder):
    sources = {row["source"]: row for row in rows_of(folder / "figure_sources.tsv", ["source", "citation", "read"])}
    path = folder / "figures.tsv"
    rows = rows_of(path, COLUMNS)
    stands = {}
    for number, row in enumerate(rows, 2):
        if fault := fault_of(row, sources):
            sys.exit(f"{path}:{number}: {fault}")
        if row["used"] == "no":
            continue
        place = (row["rule"], row["cause"])
        if stands.setdefault(place, row["figure"]) != row["figure"]:
            sys.exit(f"{path}:{number}: {' '.join(place)} has two figures: {stands[place]}; {row['figure']}")
    return rows, sources


def shown(row):
    share = f"{row['percent']} %" if row["percent"] else ""
    return " of ".join(part for part in (share, row["sample"]) if part)


def cell(text):
    return text.replace("|", "/")


def table(head, lines):
    return ["| " + " | ".join(head) + " |", "|" + "---|" * len(head),
            *("| " + " | ".join(cell(part) for part in line) + " |" for line in lines), ""]


def page(rows, sources):
    used = {(row["rule"], row["cause"]): row for row in rows if row["used"] != "no"}
    numbers = collections.Counter(row["used"] for row in used.values())
    reasons = collections.Counter(row["why"] for row in rows if row["used"] == "no")
    out = [HEAD, f"{len(rows)} counts of {len(sources)} sources were looked at. They give {numbers['counted']} counted and "
           f"{numbers['derived']} derived figures; {sum(reasons.values())} counts are not used:", ""]
    out += table(["counts", "why not used"], [(str(n), why) for why, n in sorted(reasons.items(), key=lambda r: (-r[1], r[0]))])
    pools = collections.defaultdict(list)
    for row in rows:
        if "pooled_" in row["figure"]:
            pools[row["cause"], row["rule"], row["figure"]].append(row)
    out += ["## Pooled", ""]
    out += table(["cause", "rule", "figure", "from"], [
        (cause, rule, figure.split(" from ")[0], "; ".join(f"{row['sign']} {shown(row)} ({row['source']})" for row in members))
        for (cause, rule, figure), members in sorted(pools.items())])
    out += ["## Used", ""]
    out += table(["cause", "rule", "sign as printed", "printed", "figure", "how"], [
        (row["cause"], row["rule"], row["sign"], shown(row), row["figure"], row["why"])
        for row in rows if row["used"] != "no" and "pooled_" not in row["figure"]])
    out += ["## Not used", "", "Grouped by the cause under which the count was filed; `outside` are disorders for which the "
            "pack has no cause or had none when the count was filed.", ""]
    groups = collections.defaultdict(list)
    for row in rows:
        if row["used"] == "no":
            groups[row["cause"]].append(row)
    for cause in sorted(groups, key=lambda name: (name.startswith("outside"), name)):
        out += [f"### {cause}", ""]
        out += table(["sign as printed", "printed", "source", "why not"],
                     [(row["sign"], shown(row), row["source"], row["why"]) for row in groups[cause]])
    out += ["## Sources", ""]
    out += table(["name", "citation, as far as it was visible", "read"],
                 [(name, row["citation"], row["read"]) for name, row in sorted(sources.items())])
    return "\n".join(out).rstrip("\n") + "\n"


def main(arguments):
    only_check = arguments[:1] == ["--check"]
    if len(arguments) != 2 + only_check:
        sys.exit(__doc__)
    folder, target = (pathlib.Path(name) for name in arguments[-2:])
    text = page(*check(folder))
    if not only_check:
        target.write_text(text, encoding="utf-8")
    elif not target.exists() or target.read_text(encoding="utf-8") != text:
        sys.exit(f"{target} is not what figures.tsv gives now; run evidence_page.py without --check")


if __name__ == "__main__":
    main(sys.argv[1:])
