"""Runs the program on golden cases and compares its output, byte for byte.

A case is a folder with `args` (one argument a line), the files that the program reads, and what must
come out: `out.txt`, `err.txt` (each missing when empty) and `code`. The files of `shared/` that its rule
files name lie beside those of the case, the second pack as `rabbits`; `env` holds settings, `stdin` what
is piped in, `pad` a file and by how many bytes it is made longer. With --update the expectations are
written anew instead. Cases are named, or all are taken.
"""

import argparse
import difflib
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

EXPECTED = ("args", "out.txt", "err.txt", "code", "env", "stdin", "pad")


SECOND_PACK = pathlib.Path(__file__).resolve().parents[1] / "second_pack"


def run(program, case, shared):
    with tempfile.TemporaryDirectory() as folder:
        if "rabbits" in (case / "args").read_text().splitlines():
            shutil.copytree(SECOND_PACK, pathlib.Path(folder) / "rabbits")
        rules = "".join(file.read_text("utf-8", "replace") for file in case.rglob("*.flinch"))
        for source in [*shared.iterdir(), *case.iterdir()]:
            if source.name in EXPECTED:
                continue
            if source.parent == shared and source.name not in rules:
                continue  # a rule file that nothing includes would be remarked on
            if source.is_dir():
                shutil.copytree(source, pathlib.Path(folder) / source.name)
            else:
                shutil.copy(source, folder)
        if (case / "pad").exists():
            name, size = (case / "pad").read_text().split()
            with open(pathlib.Path(folder) / name, "a", encoding="utf-8") as padded:
                padded.write("# " + "x" * int(size) + "\n")
        environment = {"PATH": os.environ["PATH"], "LC_ALL": "C.UTF-8"}
        for name in ("ASAN_OPTIONS", "UBSAN_OPTIONS"):
            if name in os.environ:
                environment[name] = os.environ[name]
        if (case / "env").exists():
            for line in (case / "env").read_text().splitlines():
                name, value = line.split("=", 1)
                environment[name] = value
        stdin = (case / "stdin").read_bytes() if (case / "stdin").exists() else b""
        done = subprocess.run([program, *(case / "args").read_text().splitlines()], cwd=folder,
                              input=stdin, capture_output=True, env=environment, timeout=120)
    return {"out.txt": done.stdout, "err.txt": done.stderr, "code": b"%d\n" % done.returncode}


def differences(case, actual):
    for name, content in actual.items():
        path = case / name
        expected = path.read_bytes() if path.exists() else b""
        if expected != content:
            yield from difflib.unified_diff(
                expected.decode("utf-8", "replace").splitlines(keepends=True),
                content.decode("utf-8", "replace").splitlines(keepends=True),
                f"{case.name}/{name} as promised", f"{case.name}/{name} as it is")


def update(case, actual):
    for name, content in actual.items():
        path = case / name
        if content:
            path.write_bytes(content)
        elif path.exists():
            path.unlink()


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("program")
    parser.add_argument("folder", type=pathlib.Path)
    parser.add_argument("cases", nargs="*")
    parser.add_argument("--update", action="store_true")
    options = parser.parse_args()
    program = str(pathlib.Path(options.program).resolve())
    names = options.cases or sorted(path.name for path in (options.folder / "cases").iterdir())
    cases = [options.folder / "cases" / name for name in names]
    wrong = 0
    for case in cases:
        actual = run(program, case, options.folder / "shared")
        if options.update:
            update(case, actual)
            continue
        shown = list(differences(case, actual))
        sys.stdout.writelines(shown)
        wrong += bool(shown)
    print(f"{len(cases)} golden cases, {wrong} differ")
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
