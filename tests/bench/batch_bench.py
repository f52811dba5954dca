"""Measures `flinch batch` on one file of drawn cases: against simdjson parsing the same bytes and doing
nothing, against Python's json with scikit-learn's naive Bayes, with one and two threads, and its memory
at several lengths. Run by hand:

    python3 tests/bench/batch_bench.py build/release/cli/flinch build/release/tests/bench/parse_lines 1000000

`--beside PROGRAM` measures another `flinch` in the same run. Everything is run in turn, `--times` times, and
the median taken, in seconds of processor time (which other programs disturb less) and of the clock."""

import argparse
import os
import pathlib
import statistics
import sys
import tempfile
import time

here = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(here.parent / "batch"))
from make_lines import write_lines  # noqa: E402

arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
arguments.add_argument("program")
arguments.add_argument("parse_lines")
arguments.add_argument("count", type=int)
arguments.add_argument("--lengths", default="10000,100000", help="in lines, at which memory is measured")
arguments.add_argument("--beside", help="another flinch")
arguments.add_argument("--times", type=int, default=3)
given = arguments.parse_args()
program, count = given.program, given.count


def measured(arguments, output=os.devnull):
    """Processor seconds, clock seconds, peak of memory in MB."""
    began = time.monotonic()
    child = os.fork()
    if child == 0:
        os.dup2(os.open(output, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), 1)
        os.execvpe(arguments[0], arguments, {**os.environ, "OMP_NUM_THREADS": "1", "OPENBLAS_NUM_THREADS": "1"})
    _, status, usage = os.wait4(child, 0)
    if status != 0:
        sys.exit(f"{arguments}: status {status}")
    return usage.ru_utime + usage.ru_stime, time.monotonic() - began, usage.ru_maxrss / 1024


def repeated(source, target, times):
    with open(target, "wb") as out:
        for _ in range(times):
            with open(source, "rb") as data:
                while block := data.read(1 << 20):
                    out.write(block)


with tempfile.TemporaryDirectory() as folder:
    cases, answers = os.path.join(folder, "cases.jsonl"), os.path.join(folder, "answers.jsonl")
    write_lines(program, cases, count)
    size = os.path.getsize(cases)
    print(f"{count} cases, {size / 1e6:.0f} MB, load {os.getloadavg()[0]:.1f} on {os.cpu_count()} cores\n")
    print("| what | processor s | clock s | cases a second of one core | peak MB |\n|---|---|---|---|---|")

    runs = {"simdjson, parsing alone": ([given.parse_lines, cases], os.devnull),
            "`flinch batch --threads 1`": ([program, "batch", "--threads", "1", cases], answers),
            "`flinch batch --threads 2`": ([program, "batch", "--threads", "2", cases], os.devnull)}
    if given.beside:
        runs["the other, `--threads 1`"] = ([given.beside, "batch", "--threads", "1", cases], os.devnull)
    runs["json and scikit-learn's BernoulliNB"] = (
        [sys.executable, str(here / "bernoulli_lines.py"), cases, answers], os.devnull)
    taken = {what: [] for what in runs}
    for _ in range(given.times):
        for what, (command, output) in runs.items():
            taken[what].append(measured(command, output))
    medians = {what: [statistics.median(column) for column in zip(*all_of_it)] for what, all_of_it in taken.items()}
    for what, (processor, clock, peak) in medians.items():
        print(f"| {what} | {processor:.2f} | {clock:.2f} | {count / processor:,.0f} | {peak:.0f} |", flush=True)
    bare, one, two, *others = [processor for processor, _, _ in medians.values()]
    one_clock, two_clock = (medians[f"`flinch batch --threads {threads}`"][1] for threads in (1, 2))
    print(f"\nbatch runs at 1/{one / bare:.1f} of the rate of parsing alone, and {others[-1] / one:.1f} times that of Python")
    if given.beside:
        print(f"{others[0] / one:.1f} times that of the other")
    print(f"two threads take 1/{one_clock / two_clock:.2f} of the clock of one, and {two / one:.2f} of its processor time\n")
    print("| lines | peak MB |\n|---|---|")
    os.unlink(answers)
    for length in map(int, given.lengths.split(",")):
        part = os.path.join(folder, "part.jsonl")
        if length <= count:
            with open(cases, encoding="utf-8") as source, open(part, "w", encoding="utf-8") as out:
                out.writelines(line for _, line in zip(range(length), source))
        else:
            repeated(cases, part, length // count)
        print(f"| {length:,} | {measured([program, 'batch', '--threads', '2', part])[2]:.1f} |", flush=True)
        os.unlink(part)
