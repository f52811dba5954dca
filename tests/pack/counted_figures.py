#!/usr/bin/env python3
"""counted_figures.py PACK FIGURES.tsv: each figure of the pack with a sample stands in the table of published counts,
with the same number or bands, sample and source, and each count that the table says is used stands in the pack. Pooled
figures are reckoned anew from their parts: the sum of the dogs with the sign over the sum of the dogs."""
import csv
import pathlib
import re
import sys

OPPOSITE = {"able to walk at first examination", "no open wound"}  # printed for the dogs without the sign
ALLOWED_ROUNDING = 0.06  # percentages are printed with one decimal place


# One share with its sign, or the shares of a rule over bands, then the dogs and where they were counted.
SHARES = r"([\d.]+%|[\d.]+(?: [\d.]+)+)\s+of\s+(\d+)\s+from\s+(\w+)"
FIGURE_OF_CAUSE = r"(?<![\w.])([a-z]\w*)\s+" + SHARES


def shares_of(text):
    return tuple(float(share.rstrip("%")) for share in text.split())


def in_pack(folder):
    out = {}
    for path in sorted(pathlib.Path(folder).glob("*.flinch")):
        for rule in re.split(r"\n(?=\S)", path.read_text(encoding="utf-8")):
            if not (name := re.match(r"rule (\w+)", rule)):
                continue
            for cause, shares, dogs, source in re.findall(FIGURE_OF_CAUSE, rule):
                out[name[1], cause] = (shares_of(shares), int(dogs), source)
    return out


def in_table(path):
    single, pooled, parts = {}, {}, {}
    with open(path, encoding="utf-8") as file:
        for row in csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE):
            if row["used"] != "counted":
                continue
            figure = re.match(SHARES + "$", row["figure"] or "")
            if not figure:
                continue
            key = row["rule"], row["cause"]
            shares = shares_of(figure[1])
            single[key] = (shares, int(figure[2]), figure[3])
            if len(shares) > 1 and not figure[3].startswith("pooled_"):
                parts.setdefault(key, []).append(float(row["percent"]))
            if figure[3].startswith("pooled_"):
                counted = 100 - float(row["percent"]) if row["sign"] in OPPOSITE else float(row["percent"])
                pooled.setdefault(key, []).append((counted, int(float(row["sample"]))))
    return single, pooled, parts


def not_in_pack(folder, table):
    """What the table calls derived and the pack does not have so."""
    text = " ".join(path.read_text(encoding="utf-8") for path in sorted(pathlib.Path(folder).glob("*.flinch")))
    rules = {name: " ".join(body.split()) for name, body in re.findall(r"\brule (\w+)(.*?)(?=\n\S|$)", text, re.S)}
    with open(table, encoding="utf-8") as file:
        for row in csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE):
            figure = f"{row['cause']} {row['figure']}"
            if row["used"] == "derived" and figure not in rules.get(row["rule"], ""):
                yield f"{row['rule']}: the table has {figure}, the pack has not"


def main(folder, table):
    ours, (theirs, pooled, bands) = in_pack(folder), in_table(table)
    wrong = []
    for key in sorted(ours.keys() | theirs.keys()):
        if ours.get(key) != theirs.get(key):
            wrong.append(f"{key[0]} in {key[1]}: the pack has {ours.get(key)}, the table {theirs.get(key)}")
    for key, printed in bands.items():
        shares = theirs[key][0]
        # Of two bands one is printed, the other is the rest; of more each is printed.
        if set(printed) != ({shares[0]} if len(shares) == 2 else set(shares)):
            wrong.append(f"{key[0]} in {key[1]}: the shares {shares} are not those printed, {printed}")
    for key, parts in pooled.items():
        dogs = sum(sample for _, sample in parts)
        with_sign = sum(round(percent * sample / 100) for percent, sample in parts)
        (percent, *_), sample, _ = theirs[key]
        if dogs != sample or abs(100 * with_sign / dogs - percent) > max(ALLOWED_ROUNDING, 100.5 / dogs):
            wrong.append(f"{key[0]} in {key[1]}: {with_sign} of {dogs} make {100 * with_sign / dogs:.1f} %, not {percent} of {sample}")
    wrong += not_in_pack(folder, table)
    print("\n".join(wrong) or f"{len(ours)} counted figures, each as published")
    return bool(wrong)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1], sys.argv[2]))
