#!/usr/bin/env python3
"""judging_page.py PAGE: writes docs/pack/judging.md, how far judged figures are from counted ones."""
import csv
import math
import pathlib
import statistics
import sys

HERE = pathlib.Path(__file__).parent
READINGS = ["second", "third"]


def log_odds(percent):
    held = min(max(percent, 0.5), 99.5)
    return math.log(held / (100 - held))


def line(judged, counted):
    """Least squares of counted log odds on judged ones: slope, intercept."""
    x, y = [log_odds(j) for j in judged], [log_odds(c) for c in counted]
    mean_x, mean_y = statistics.mean(x), statistics.mean(y)
    slope = sum((a - mean_x) * (b - mean_y) for a, b in zip(x, y)) / sum((a - mean_x) ** 2 for a in x)
    return slope, mean_y - slope * mean_x


def row(name, judged, counted):
    apart = [abs(j - c) for j, c in zip(judged, counted)]
    odds = [log_odds(c) - log_odds(j) for j, c in zip(judged, counted)]
    slope, intercept = line(judged, counted)
    pairs = statistics.correlation([log_odds(j) for j in judged], [log_odds(c) for c in counted])
    return (f"| {name} | {statistics.median(apart):.1f} | {statistics.mean(j - c for j, c in zip(judged, counted)):.1f} "
            f"| {pairs:.2f} | {statistics.stdev(odds):.2f} | {slope:.2f}, {intercept:.2f} |")


def page():
    with open(HERE / "seeds.tsv", encoding="utf-8") as file:
        seeds = list(csv.DictReader(file, delimiter="\t", quoting=csv.QUOTE_NONE))
    counted = [float(seed["counted"]) for seed in seeds]
    judged = {name: [float(seed[name]) for seed in seeds] for name in READINGS}
    both = [100 / (1 + math.exp(-(log_odds(a) + log_odds(b)) / 2)) for a, b in zip(*judged.values())]
    signs = sum(1 for one in (HERE / "third_reading.txt").read_text(encoding="utf-8").splitlines() if one)
    out = ["# How the figures were judged, and how good such a judgement is", "",
           "Where nothing was counted, a figure is a judgement. All judged figures of the pack were made together: whole rows, one",
           f"sign against every cause and against a dog brought for something else altogether, {signs} rows, in independent readings",
           "that saw disorder and sign alone: not the figure that stood in the pack, no case, not each other. Each asked, in natural",
           "frequencies: of 100 dogs with this cause, in how many is this so when a first-opinion vet first sees it? The readings",
           "([tests/pack/judging](../../tests/pack/judging)) are by readers with general veterinary knowledge, none of them a licensed vet. The",
           "first was made by the hand that also mapped counted figures to rules, so its answers to the seeds below are left out.",
           "An older single reading of 210 signs was a fourth voice where it had the sign. The median of the log odds is kept, rounded,",
           "raised by 0.15 where it lies above the usual frequency (the intercepts below), and dropped where it does not differ from it;",
           "counted and derived figures stand before judged ones. Fifty-six figures were then set apart from the median for a stated",
           "reason ([readings.md](readings.md)), and what could not be true together was mended (`flinch check --pairs`). The rows of",
           "seven broad questions (is anything wrong with an eye) were made from those of their parts.", "",
           f"Among the questions stood {len(seeds)} **seeds**: counted presenting signs with a sample of 20 dogs or more, drawn at random.", "",
           "| | median distance, points | mean difference, points | correlation of log odds | deviation, log odds | counted on judged: slope, intercept |",
           "|---|---|---|---|---|---|"]
    out += [row(f"{name} reading", judged[name], counted) for name in READINGS]
    out.append(row("mean of the two", both, counted))
    out += ["", "By size of the judgement (mean of the two):", "", "| judged | seeds | judged, mean | counted, mean | counted, median |",
            "|---|---|---|---|---|"]
    for low, high in ((0, 15), (15, 35), (35, 60), (60, 80), (80, 101)):
        inside = [(j, c) for j, c in zip(both, counted) if low <= j < high]
        out.append(f"| {low} to {min(high, 100)} % | {len(inside)} | {statistics.mean(j for j, _ in inside):.0f} % "
                   f"| {statistics.mean(c for _, c in inside):.0f} % | {statistics.median(c for _, c in inside):.0f} % |")
    out += ["", "So a judgement is about ten points off, neither timid nor bold, and too low for what is judged rare: its error in log",
            "odds is that of a figure in which the rarer answer came up in two dogs, and as such it is weighed",
            "([ranking.md](../ranking.md)). The seeds say nothing of usual frequencies, for which few counts exist."]
    return "\n".join(out) + "\n"


if __name__ == "__main__":
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    pathlib.Path(sys.argv[1]).write_text(page(), encoding="utf-8")
