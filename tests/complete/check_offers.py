"""What `flinch complete` offers: every command, every option that its help names, and the pack's names."""

import re
import subprocess
import sys

program, root = sys.argv[1:]


def offers(*words):
    done = subprocess.run([program, "complete", "--", *words], capture_output=True, text=True)
    assert done.returncode == 0 and not done.stderr, (words, done)
    return [line.split("\t")[0] for line in done.stdout.splitlines()]


def help_of(*words):
    return subprocess.run([program, *words, "--help"], capture_output=True, text=True, check=True).stdout


commands = re.findall(r"^  (\w+) ", help_of().split("Subcommands:")[1], re.MULTILINE)
assert offers("") == commands and len(commands) >= 17, offers("")
assert "complete" not in commands, "what a shell calls is not for people"
for command in commands:
    told = help_of(command).split("Examples:")[0]
    assert set(offers(command, "--")) == set(re.findall(r"(--[a-z-]+)", "\n".join(
        line[:26] for line in told.splitlines() if line.startswith("  -")))), command

for words, wanted in (
        (["re"], ["review", "report", "read"]),
        (["list", "u"], ["unread"]),
        (["read", "stomach_tors"], ["stomach_torsion"]),
        (["--v"], ["--version"]),
        (["review", "dog.yaml", "--cause", "elbow_art"], ["elbow_arthritis"]),
        (["review", "dog.yaml", "--cause=elbow_art"], ["--cause=elbow_arthritis"]),
        (["review", "dog.yaml", "--cause", "=", "elbow_art"], ["elbow_arthritis"]),
        (["review", "dog.yaml", "--between", "elbow_arthritis", "elbow_art"], ["elbow_arthritis"]),
        (["review", "--tier", "--t"], []),
        (["report", "--for", ""], ["keeper", "clinician"]),
        (["report", "--for=k"], ["--for=keeper"]),
        (["report", "--for", "="], ["keeper", "clinician"]),
        (["report", "--pack", ""], ["/"]),
        (["list", "s"], ["sources"]),
        (["list", "causes", ""], []),
        (["audit", "one", "two", ""], ["/"]),
        (["describe", "elbow_art", "--pack", f"{root}/no/such/pack"], ["/"]),
        (["describe", "--pack", f"{root}/no/such/pack", "elb"], []),
        (["describe", "--pack", f"{root}/tests/call/desk.flinch", "elb"], ["elbow"]),
        (["nothing", ""], []),
        (["serve", ""], []),
        (["book", "to"], ["today"]),
        (["book", "today", "--with"], ["--with-names"]),
        (["book", "close", "7", "--cause", "elbow_art"], ["elbow_arthritis"]),
        (["book", "nothing", ""], []),
        (["assess", "--", "--js"], ["/"])):
    assert offers(*words) == wanted, (words, offers(*words))
assert {"elbow_arthritis", "elbow_dysplasia"} <= set(offers("describe", "elb"))
assert "cold_pack" in offers("describe", "cold")
assert "care" in offers("list", "ca")
assert all(word.startswith("elb") for word in offers("describe", "elb"))
print(f"{len(commands)} commands and their options are offered")
