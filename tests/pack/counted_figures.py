#!/usr/bin/env python3
"""counted_figures.py PACK FIGURES.tsv: each figure of the pack with a sample stands in the table of published counts,
with the same number, sample and source, and each count that the table says is used stands in the pack. Pooled
figures are reckoned anew from their parts: the sum of the dogs with the sign over the sum of the dogs."""
import csv
import pathlib
import re
import sys

OPPOSITE = {"able to walk at first examination"}  # printed for the dogs without the sign
ALLOWED_ROUNDING = 0.06  # percentages are printed with one decimal place


def in_pack(folder):
    out = {}
    for path in sorted(pathlib.Path(folder).glob("*.flinch")):
        for rule in re.split(r"\n(?=\S)", path.read_text(encoding="utf-8")):
            if not (name := re.match(r"rule (\w+)", rule)):
                continue
            for cause, percent, dogs, source in re.findall(r"(\w+) ([\d.]+)% of (\d+) from (\w+)", rule):
                out[name[1], cause] = (float(percent), int(dogs), source)
    return out


def in_table(path):
    single, pooled = {}, {}
    with open(path, encoding="utf-8") as file:
        for row in csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE):
            if row["used"] != "counted":
                continue
            figure = re.match(r"([\d.]+)% of (\d+) from (\w+)$", row["figure"] or "")
            if not figure:
                continue
            key = row["rule"], row["cause"]
            single[key] = (float(figure[1]), int(figure[2]), figure[3])
            if figure[3].startswith("pooled_"):
                counted = 100 - float(row["percent"]) if row["sign"] in OPPOSITE else float(row["percent"])
                pooled.setdefault(key, []).append((counted, int(float(row["sample"]))))
    return single, pooled


def main(folder, table):
    ours, (theirs, pooled) = in_pack(folder), in_table(table)
    wrong = []
    for key in sorted(ours.keys() | theirs.keys()):
        if ours.get(key) != theirs.get(key):
            wrong.append(f"{key[0]} in {key[1]}: the pack has {ours.get(key)}, the table {theirs.get(key)}")
    for key, parts in pooled.items():
        dogs = sum(sample for _, sample in parts)
        with_sign = sum(round(percent * sample / 100) for percent, sample in parts)
        percent, sample, _ = theirs[key]
        if dogs != sample or abs(100 * with_sign / dogs - percent) > max(ALLOWED_ROUNDING, 100.5 / dogs):
            wrong.append(f"{key[0]} in {key[1]}: {with_sign} of {dogs} make {100 * with_sign / dogs:.1f} %, not {percent} of {sample}")
    print("\n".join(wrong) or f"{len(ours)} counted figures, each as published")
    return bool(wrong)


if __name__ == "__main__":
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    sys.exit(main(sys.argv[1], sys.argv[2]))
