"""What README.md and docs/pack show and count is what the program prints; --update rewrites them."""

import pathlib
import re
import subprocess
import sys

program, root = sys.argv[1], pathlib.Path(sys.argv[2])
update = "--update" in sys.argv[3:]
environment = {"LC_ALL": "C.UTF-8"}


def output(*arguments, typed=""):
    return subprocess.run([program, *arguments], input=typed, capture_output=True, encoding="utf-8", check=True,
                          cwd=root, env=environment).stdout


def session_as_it_runs(kept):
    """The interview that the kept lines after `> ` type, up to the answer to the last of them."""
    typed = [line[2:] for line in kept.splitlines() if line.startswith("> ")]
    lines = output("ask", typed="".join(line + "\n" for line in typed)).splitlines()
    prompts = [i for i, line in enumerate(lines) if line.startswith("> ")]
    end = prompts[len(typed) - 1]
    while lines[end]:
        end += 1
    return "\n".join(lines[:end]) + "\n"


def readme_as_it_should_be(text):
    """The demo screen is the first fenced block; the counts stand in sentences."""
    summary = output("check")
    causes = re.search(r"(\d+) causes", summary).group(1)
    counted, derived, judged = re.search(
        r"(\d+) figures counted in published samples, (\d+) derived from sources, (\d+) judged", summary).groups()
    mimics = sum(len(re.findall(r"^  not pain$", path.read_text(), re.MULTILINE))
                 for path in (root / "rules/canine").glob("*.flinch"))
    text = re.sub(r"```\n.*?\n```", lambda _: "```\n" + output("assess", "docs/cases/bramble.yaml").strip("\n") + "\n```",
                  text, count=1, flags=re.DOTALL)
    text = re.sub(r"(How `flinch ask` begins.*?```\n)(.*?)```",
                  lambda found: found.group(1) + session_as_it_runs(found.group(2)) + "```", text, count=1,
                  flags=re.DOTALL)
    for pattern, number in ((r"\d+( causes over)", causes), (r"\d+( of them\s+mimics)", mimics),
                            (r"\d+( of its figures)", counted), (r"\d+( were derived)", derived),
                            (r"\d+( are judgements)", judged)):
        text, found = re.subn(pattern, rf"{number}\1", text)
        if found != 1:
            sys.exit(f"README.md has lost the sentence with `{pattern}`")
    return text


wanted = {root / "README.md": readme_as_it_should_be((root / "README.md").read_text(encoding="utf-8"))}
for what in ("causes", "rules", "alarms", "floors", "care", "sources", "figures"):
    wanted[root / "docs/pack" / f"{what}.md"] = output("list", what)

stale = [path for path, text in wanted.items()
         if not path.exists() or path.read_text(encoding="utf-8") != text]
if update:
    for path in stale:
        path.parent.mkdir(exist_ok=True)
        path.write_text(wanted[path], encoding="utf-8")
    print(f"{len(wanted)} pages, {len(stale)} rewritten")
else:
    for path in stale:
        print(f"{path.relative_to(root)} is not what the program prints: build update-golden and read the difference")
    print("README.md and docs/pack say what is so" if not stale else f"{len(stale)} pages are stale")
    sys.exit(bool(stale))
