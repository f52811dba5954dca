"""A line of `flinch batch` says what `flinch assess` says of the same case, whatever the threads and
however the input arrives."""

import json
import pathlib
import re
import subprocess
import sys
import tempfile

from make_lines import Maker, signs_of

program, schema_path = str(pathlib.Path(sys.argv[1]).resolve()), sys.argv[2]
COUNT = int(sys.argv[3])


def batch(data, *arguments):
    return subprocess.run([program, "batch", *arguments], input=data, capture_output=True, timeout=300)


lines = list(Maker(signs_of(program), 7).lines(COUNT))
data = "".join(lines).encode()
with tempfile.TemporaryDirectory() as folder:
    files = []
    for number, line in enumerate(lines):
        files.append(pathlib.Path(folder) / f"{number:04}.yaml")
        files[-1].write_text(line)
    done = subprocess.run([program, "assess", "--json", *map(str, files)], capture_output=True, check=True)
    one_by_one = json.loads(done.stdout)

done = batch(data, "--causes", "7")
assert done.returncode == 0 and not done.stderr, done.stderr
answers = [json.loads(line) for line in done.stdout.splitlines()]
assert len(answers) == len(one_by_one) == COUNT
for number, (answer, full) in enumerate(zip(answers, one_by_one), 1):
    assert answer["line"] == number
    for key in ("case", "tier", "alarm_tier", "ranking_tier", "ceiling", "nothing_told", "pack"):
        assert answer[key] == full[key], (number, key, answer[key], full[key])
    assert answer["contradictions"] == len(full["contradictions"])
    assert answer["alarms"] == [alarm["name"] for alarm in full["alarms"]]
    assert len(answer["causes"]) == 7
    for short, long in zip(answer["causes"], full["causes"]):
        assert short["name"] == long["name"]
        assert abs(short["posterior"] - long["posterior"]) <= 0.5000001e-6
assert len({answer["tier"] for answer in answers}) > 2, "the dogs are too much alike to say anything"
assert any(answer["alarms"] for answer in answers)

# Order and bytes do not hang on the number of threads, nor on how the pipe is cut; also with bad
# lines, blank lines, Windows line breaks, a line too long to be read, and no break at the end.
mixed = b""
for number, line in enumerate(lines):
    mixed += line.encode().replace(b"\n", b"\r\n" if number % 5 == 0 else b"\n")
    if number % 7 == 0:
        mixed += b"  \n"
    if number % 11 == 0:
        mixed += b'{"answers": {"lame": maybe}}\n'
mixed += b'{"name": "' + b"x" * 700_000 + b'"}\n' + data * 20 + b'{"name": "last"}'
wanted = batch(mixed, "--threads", "1")
assert wanted.returncode == 1
numbers = [json.loads(line)["line"] for line in wanted.stdout.splitlines()]
assert numbers == sorted(set(numbers))
bad = sum("errors" in json.loads(line) for line in wanted.stdout.splitlines())
assert bad == len(range(0, COUNT, 11)) + 1, bad
assert f"{bad} of {len(numbers)} lines".encode() in wanted.stderr, wanted.stderr
for threads in ("2", "3", "8"):
    other = batch(mixed, "--threads", threads)
    assert (other.stdout, other.stderr) == (wanted.stdout, wanted.stderr), threads
with tempfile.TemporaryDirectory() as folder:
    path = pathlib.Path(folder) / "in.jsonl"
    path.write_bytes(mixed)
    assert batch(b"", str(path)).stdout == wanted.stdout
    result = pathlib.Path(folder) / "out.jsonl"
    done = batch(b"", str(path), "-o", str(result))
    assert done.returncode == 1 and not done.stdout
    assert result.read_bytes() == wanted.stdout
    assert sorted(entry.name for entry in pathlib.Path(folder).iterdir()) == ["in.jsonl", "out.jsonl"]
# A byte order mark, as some editors put before a file, is no part of the first line.
marked = batch(b"\xef\xbb\xbf" + lines[0].encode(), "--causes", "7")
assert marked.returncode == 0 and json.loads(marked.stdout) == answers[0], marked
wrong = b'{"name": "one", "answers": {"lamee": true}}\n'
assert batch(b"\xef\xbb\xbf" + wrong).stdout == batch(wrong).stdout, "columns count from behind the mark"
assert batch(lines[0].encode() + b"\xef\xbb\xbf" + lines[1].encode()).returncode == 1
slow = subprocess.Popen([program, "batch"], stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL)
# A filter answers a line before the next one comes.
for line in lines[:20]:
    slow.stdin.write(line.encode())
    slow.stdin.flush()
    assert json.loads(slow.stdout.readline())["case"] == json.loads(line)["name"]
slow.stdin.close()
assert slow.stdout.read() == b"" and slow.wait() == 0

import jsonschema  # noqa: E402  (last: the rest needs no library)

schema = json.loads(pathlib.Path(schema_path).read_text())
jsonschema.Draft201909Validator.check_schema(schema)
validator = jsonschema.Draft201909Validator(schema)
for line in wanted.stdout.splitlines()[:400] + wanted.stdout.splitlines()[-3:]:
    validator.validate(json.loads(line))
good, wrong = answers[0], next(json.loads(line) for line in wanted.stdout.splitlines() if b'"errors"' in line)
for spoilt in ({**good, "tier": 3}, {**good, "surplus": 1}, {**wrong, "tier": None}, {**wrong, "errors": []},
               {key: value for key, value in good.items() if key != "ceiling"}):
    assert not validator.is_valid(spoilt), f"the schema lets {spoilt} pass"
# The page shows what is so.
page = pathlib.Path(schema_path).with_name("batch.md").read_text(encoding="utf-8")
example, answer, mistake = re.findall(r"```json\n(.*?)\n```", page, re.DOTALL)
done = batch(f'{example}\n{{"name": "Otto", "answers": {{"lamee": true}}}}\n'.encode(), "--causes", "2")
assert done.stdout.decode().splitlines() == [answer, mistake], "docs/batch.md is not what the program prints"

print(f"{COUNT} cases as by assess, {len(numbers)} lines in order, the schema followed")
