"""Measures `flinch batch` on one file of drawn cases: against simdjson parsing the same bytes and doing
nothing, against Python's json with scikit-learn's naive Bayes, with one and two threads, and its memory
at several lengths. Run by hand:

    python3 tests/bench/batch_bench.py build/release/cli/flinch build/release/tests/bench/parse_lines 1000000

Prints seconds of processor time (which other programs disturb less) and of the clock."""

import os
import pathlib
import sys
import tempfile
import time

here = pathlib.Path(__file__).resolve().parent
sys.path.insert(0, str(here.parent / "batch"))
from make_lines import write_lines  # noqa: E402

program, parse_lines, count = sys.argv[1], sys.argv[2], int(sys.argv[3])
lengths = [int(length) for length in sys.argv[4].split(",")] if len(sys.argv) > 4 else [10_000, count]


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

    def row(what, arguments, output=os.devnull):
        processor, clock, peak = measured(arguments, output)
        print(f"| {what} | {processor:.2f} | {clock:.2f} | {count / processor:,.0f} | {peak:.0f} |", flush=True)
        return processor

    bare = row("simdjson, parsing alone", [parse_lines, cases])
    one = row("`flinch batch --threads 1`", [program, "batch", "--threads", "1", cases], answers)
    row("`flinch batch --threads 2`", [program, "batch", "--threads", "2", cases])
    naive = row("json and scikit-learn's BernoulliNB",
                [sys.executable, str(here / "bernoulli_lines.py"), cases, answers])
    print(f"\nbatch runs at 1/{one / bare:.0f} of the rate of parsing alone, and {naive / one:.1f} times that of Python\n")
    print("| lines | peak MB |\n|---|---|")
    os.unlink(answers)
    for length in lengths:
        part = os.path.join(folder, "part.jsonl")
        if length <= count:
            with open(cases, encoding="utf-8") as source, open(part, "w", encoding="utf-8") as out:
                out.writelines(line for _, line in zip(range(length), source))
        else:
            repeated(cases, part, length // count)
        print(f"| {length:,} | {measured([program, 'batch', '--threads', '2', part])[2]:.1f} |", flush=True)
        os.unlink(part)
