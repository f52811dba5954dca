"""docs/first_pack.md, done as it says: what a reader types is typed, and what the page shows must come out.

The page is read from top to bottom, in an empty folder:

- a block ```` ```flinch FILE ```` goes into that rule file: a statement takes the place of the one of the same
  kind and name, any other is put at the end;
- a block ```` ```yaml FILE ```` is that file;
- a block ```` ```console ```` holds a command behind `$ ` and all that it prints. A line `...` stands for lines
  that are not shown. What is typed into the program stands behind `> `;
- a block ```` ```screen ```` below a comment `<!-- COMMAND | keys | keys -->` is what the terminal shows then.

With --update the commands' output is written anew; where lines are left out, each shown stretch is found again
by its first line.
"""

import os
import pathlib
import re
import subprocess
import sys
import tempfile

HERE = pathlib.Path(__file__).parent
sys.path.insert(0, str(HERE.parent / "terminal"))
from screen import Terminal  # noqa: E402

BLOCK = re.compile(r"(?:<!-- (?P<keys>[^\n]+) -->\n)?```(?P<kind>flinch|yaml|console|screen)(?: (?P<file>\S+))?\n"
                   r"(?P<body>.*?)```(?=\n)", re.DOTALL)
STATEMENT = re.compile(r"^(?=[a-z])", re.MULTILINE)
LEFT_OUT = "..."


def statements(text):
    """The statements of a rule file, each under its kind and name; what stands before the first under nothing."""
    found = {}
    for part in STATEMENT.split(text):
        words = part.split()
        key = tuple(words[:2]) if part[:1].isalpha() else ()
        assert key not in found, f"two statements {' '.join(key)} in one block"
        found[key] = part
    return found


def put(path, text):
    """Writes statements into a rule file, each in the place of its namesake."""
    path.parent.mkdir(exist_ok=True)
    kept = statements(path.read_text(encoding="utf-8")) if path.exists() else {}
    for key, part in statements(text).items():
        if key or not kept:
            kept[key] = part
    path.write_text("".join(kept.values()), encoding="utf-8")


def stretches(lines):
    """Shown lines, cut where lines are left out."""
    cut = [[]]
    for line in lines:
        if line == LEFT_OUT:
            cut.append([])
        else:
            cut[-1].append(line)
    return cut


def place_of(stretch, output, begin):
    """Where the stretch stands in the output, at or behind a line; none if it does not."""
    for at in range(begin, len(output) - len(stretch) + 1):
        if output[at:at + len(stretch)] == stretch:
            return at
    return None


def shows(shown, output):
    """Whether the shown lines are the output, but for what they leave out."""
    cut = stretches(shown)
    if len(cut) == 1:
        return shown == output
    if output[:len(cut[0])] != cut[0]:
        return False
    at = len(cut[0])
    for stretch in cut[1:-1]:
        found = place_of(stretch, output, at)
        if found is None:
            return False
        at = found + len(stretch)
    last = cut[-1]
    return len(output) - len(last) >= at and output[len(output) - len(last):] == last


def shown_anew(shown, output):
    """The output, with the same stretches shown as before."""
    cut = stretches(shown)
    if len(cut) == 1:
        return output
    anew, at = [], 0
    for number, stretch in enumerate(cut):
        is_last = number == len(cut) - 1
        if number:
            anew.append(LEFT_OUT)
        if not stretch:
            continue
        begin = 0 if number == 0 else place_of(stretch[:1], output, at)
        assert begin is not None, f"no line `{stretch[0]}` any more: choose anew what is shown"
        end = len(output) if is_last else begin + len(stretch)
        anew += output[begin:end]
        at = end
    return anew


class Reader:
    """Someone who does what the page says."""

    def __init__(self, program, folder):
        self.folder = folder
        tools = folder.parent / "bin"
        tools.mkdir()
        (tools / "flinch").symlink_to(program)
        self.environment = {"PATH": f"{tools}:{os.environ['PATH']}", "HOME": str(folder.parent), "LC_ALL": "C.UTF-8",
                            "TZ": "UTC", "SOURCE_DATE_EPOCH": "1795618800"}

    def run(self, command, typed):
        done = subprocess.run(["bash", "-c", command], cwd=self.folder, input=typed, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT, encoding="utf-8", env=self.environment, timeout=120)
        assert done.returncode in (0, 1, 2), f"{command}: status {done.returncode}\n{done.stdout}"
        return done.returncode, done.stdout.splitlines()

    def look(self, described):
        command, *pressed = described.split(" | ")
        program, *arguments = command.split()
        os.chdir(self.folder)
        settings = {name: value for name, value in self.environment.items() if name != "SOURCE_DATE_EPOCH"}
        terminal = Terminal([program, *arguments], **settings)
        for keys in pressed:
            before = terminal.text()
            if terminal.press(keys).text() == before:
                terminal.kill()
                sys.exit(f"{described}: `{keys}` changes nothing on the screen\n{before}")
        seen = terminal.text().rstrip("\n").splitlines()
        terminal.kill()
        return seen

    def console(self, body):
        """The block as it should be: each command, and what it prints."""
        anew, wrong = [], []
        assert body.startswith("$ "), f"a command begins with `$ `, not as `{body[:40]}`"
        for part in re.split(r"^(?=\$ )", body, flags=re.MULTILINE)[1:]:
            first, *shown = part.splitlines()
            typed = "".join(line[2:] + "\n" for line in shown if line.startswith("> "))
            _, output = self.run(first[2:], typed)
            if shows(shown, output):
                anew += [first, *shown]
                continue
            wrong.append(f"{first}\n" + "\n".join(output))
            try:
                anew += [first, *shown_anew(shown, output)]
            except AssertionError as lost:
                sys.exit(f"{first}: {lost}\n" + "\n".join(output))
        return anew, wrong


def main():
    program, page = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
    update = "--update" in sys.argv[3:]
    text = page.read_text(encoding="utf-8")
    wrong, counted = [], {"flinch": 0, "yaml": 0, "console": 0, "screen": 0}
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch) / "evening"
        folder.mkdir()
        reader = Reader(program, folder)

        def done(block):
            kind, body = block["kind"], block["body"]
            counted[kind] += 1
            if kind == "flinch":
                put(folder / block["file"], body)
            elif kind == "yaml":
                (folder / block["file"]).write_text(body, encoding="utf-8")
            elif kind == "console":
                anew, differs = reader.console(body)
                wrong.extend(differs)
                return "```console\n" + "\n".join(anew) + "\n```"
            else:
                anew = reader.look(block["keys"])
                if anew != body.splitlines():
                    wrong.append(f"{block['keys']}\n" + "\n".join(anew))
                return f"<!-- {block['keys']} -->\n```screen\n" + "\n".join(anew) + "\n```"
            return block[0]

        anew = BLOCK.sub(done, text)
        # Whatever the page shows: what the reader ends with has no mistake, warning or broken promise.
        for pack in sorted(folder.glob("*/pack.flinch")):
            status, said = reader.run(f"flinch check --strict {pack.parent.name}", "")
            if status:
                sys.exit("the last state of the pack is not clean:\n" + "\n".join(said))
    if update:
        page.write_text(anew, encoding="utf-8")
        print(f"{len(wrong)} outputs written anew")
        return
    assert min(counted.values()) >= 1 and counted["console"] >= 10, f"the page has lost its steps: {counted}"
    for output in wrong:
        print(f"the program says something else:\n{output}\n")
    if wrong:
        sys.exit(f"{page.name} does not show what the program says: build update-first_pack and read the difference")
    print(f"{counted['console']} steps")


if __name__ == "__main__":
    main()
