"""Prints every figure that DEVELOPERS.md quotes under "Measured", as its tables, in one run, with the machine
and its load. Run by hand on a machine with nothing else to do:

    python3 tests/bench/figures.py build/release [--lines 1000000]

Times are of the processor, medians; instructions are counted by valgrind, if it is installed."""

import argparse
import json
import os
import pathlib
import platform
import re
import shutil
import statistics
import subprocess
import sys
import tempfile

root = pathlib.Path(__file__).resolve().parents[2]
sys.path.insert(0, str(root / "tests/batch"))
from make_lines import write_lines  # noqa: E402

demo = "docs/cases/bramble.yaml"
arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
arguments.add_argument("build", type=pathlib.Path)
arguments.add_argument("--lines", type=int, default=1_000_000)
arguments.add_argument("--times", type=int, default=5)
given = arguments.parse_args()
build = given.build.resolve()
program = str(build / "cli/flinch")
has_valgrind = shutil.which("valgrind") is not None
units = {"ns": 1e-9, "us": 1e-6, "ms": 1e-3, "s": 1.0}


def written(seconds):
    """With two digits that count, in the unit that a person would say."""
    for unit, factor in (("seconds", 1), ("milliseconds", 1e-3), ("microseconds", 1e-6)):
        if seconds >= factor or unit == "microseconds":
            value = seconds / factor
            return f"{value:.0f} {unit}" if value >= 10 else f"{value:.2g} {unit}"
    return ""


def benchmarks():
    """Median seconds of the processor of each benchmark, by its name."""
    done = subprocess.run([build / "tests/bench/bench", "--benchmark_format=json",
                           f"--benchmark_repetitions={given.times}", "--benchmark_report_aggregates_only=true"],
                          cwd=root, check=True, capture_output=True)
    return {run["run_name"]: run["cpu_time"] * units[run["time_unit"]]
            for run in json.loads(done.stdout)["benchmarks"] if run["aggregate_name"] == "median"}


def cold(command):
    """Seconds of the processor, and MB, of a whole program, from its start."""
    seconds, peaks = [], []
    for _ in range(5 * given.times):
        child = os.fork()
        if child == 0:
            os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
            os.chdir(root)
            os.execv(command[0], command)
        _, status, usage = os.wait4(child, 0)
        if status != 0:
            sys.exit(f"{command}: status {status}")
        seconds.append(usage.ru_utime + usage.ru_stime)
        peaks.append(usage.ru_maxrss / 1024)
    return statistics.median(seconds), statistics.median(peaks)


def counted(command):
    """Instructions of a whole program, by callgrind."""
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run(["valgrind", "--tool=callgrind", f"--callgrind-out-file={folder}/out", *command],
                              cwd=root, check=True, capture_output=True, text=True)
    return int(re.search(r"Collected : ([0-9]+)", done.stderr)[1])


def instructions(command):
    return f", {counted(command) / 1e6:.0f} million instructions" if has_valgrind else ""


def instructions_a_case(command, count=10_000):
    """What `count` cases more cost, once the caches are warm."""
    with tempfile.TemporaryDirectory() as folder:
        sums = []
        for lines in (count, 2 * count):
            cases = os.path.join(folder, f"{lines}.jsonl")
            write_lines(program, cases, lines)
            sums.append(counted([*command, cases]))
    return f"{(sums[1] - sums[0]) / count:,.0f} instructions"


def each(runs, name, per, sizes, unit):
    return " / ".join(f"{runs[f'{name}/{size}'] / per(size) / units[unit]:.1f}" for size in sizes)


processor = next((line.split(":", 1)[1].strip() for line in open("/proc/cpuinfo", encoding="utf-8")
                  if line.startswith("model name")), platform.machine())
print(f"{processor}, {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} before, medians of {given.times}\n")
runs = benchmarks()
sizes = (1000, 10000, 100000)
rows = [
    ("parse a pack of 1,000 / 10,000 / 100,000 rules, per rule",
     each(runs, "ParsePack", int, sizes, "us") + " microseconds"),
    ("load it (parse, resolve, check), per rule", each(runs, "LoadPack", int, sizes, "us") + " microseconds"),
    ("the same rules as YAML through yaml-cpp, per rule",
     each(runs, "ParseSameAsYaml", int, sizes, "us") + " microseconds"),
    ("load the shipped pack from its folder", written(runs["LoadShippedPack"])),
    ("build the tables of the shipped pack", written(runs["BuildTables"])),
    ("read a case file", written(runs["ReadCase"])),
    ("assess the demo dog", written(runs["AssessDemo"])),
    ("list its open questions", written(runs["AskOpenQuestions"])),
    ("an overview of `flinch review` (tier, three causes, the first two compared, how sure)",
     written(runs["ReviewDemo"])),
    ("its smallest changes, `--changes`; under 150 milliseconds are aimed at", written(runs["SmallestChangesDemo"])),
    ("assess twelve answers in packs of 1,000 / 10,000 / 100,000 rules",
     each(runs, "AssessInPackOf", lambda _: 1, sizes, "us") + " microseconds"),
    ("first / next question of an interview on the shipped pack",
     " / ".join(written(runs[name]) for name in ("FirstQuestionOfShippedPack", "NextQuestionOfShippedPack"))),
]
for name, seconds in runs.items():
    if name.startswith("NextQuestionInPackOf/"):
        rows.append((f"next question with {name.split('/', 1)[1].replace('/', ' causes x ')} signs", written(seconds)))
for what, command in (("`flinch --help`, cold: the libraries are loaded, the pack is not", [program, "--help"]),
                      ("`flinch assess`, cold, whole program", [program, "assess", demo]),
                      ("the same with the pack read from its folder",
                       [program, "assess", "--pack", "rules/canine", demo]),
                      ("`flinch review` of the demo dog", [program, "review", demo]),
                      ("the same with `--changes`", [program, "review", demo, "--changes"])):
    seconds, peak = cold(command)
    rows.append((what, f"{written(seconds)}, {peak:.0f} MB{instructions(command)}"))
if has_valgrind:
    rows.append(("a case more of `flinch batch`", instructions_a_case([program, "batch", "--threads", "1"])))
    rows.append(("of which parsing its line, by simdjson", instructions_a_case([str(build / "tests/bench/parse_lines")])))
rows.append(("size of the program", f"{os.path.getsize(program) / 1e6:.1f} MB"))
print("| what | time |\n|---|---|")
for what, figure in rows:
    print(f"| {what} | {figure} |")
print(flush=True)
subprocess.run([sys.executable, root / "tests/bench/batch_bench.py", program, build / "tests/bench/parse_lines",
                str(given.lines), "--times", str(min(3, given.times))], check=True)
