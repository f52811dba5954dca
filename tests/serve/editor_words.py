"""The words that docs/editors colours are those of the language: statements and clauses as the
program offers them, the others as the grammar in docs/language_reference.md writes them."""

import json
import pathlib
import re
import subprocess
import sys

program, root = str(pathlib.Path(sys.argv[1]).resolve()), pathlib.Path(sys.argv[2])


def framed(message):
    body = json.dumps({"jsonrpc": "2.0", **message}).encode()
    return b"Content-Length: %d\r\n\r\n" % len(body) + body


def completions(text, places):
    """What the program offers at each (line, character) of a text."""
    document = {"uri": "untitled:words"}
    messages = [{"id": 0, "method": "initialize", "params": {"capabilities": {}}},
                {"method": "textDocument/didOpen", "params": {"textDocument": {**document, "text": text}}}]
    messages += [{"id": number, "method": "textDocument/completion",
                  "params": {"textDocument": document, "position": {"line": line, "character": character}}}
                 for number, (line, character) in enumerate(places, 1)]
    messages += [{"id": "end", "method": "shutdown"}, {"method": "exit"}]
    done = subprocess.run([program, "serve"], input=b"".join(map(framed, messages)), capture_output=True,
                          timeout=60, check=True)
    answers = {}
    rest = done.stdout
    while rest:
        header, _, rest = rest.partition(b"\r\n\r\n")
        length = int(header.split(b":")[1])
        answer, rest = json.loads(rest[:length]), rest[length:]
        answers[answer.get("id")] = answer.get("result")
    return [{item["label"] for item in answers[number]["items"]} for number in range(1, len(places) + 1)]


page = (root / "docs/language_reference.md").read_text(encoding="utf-8")
grammar = re.sub(r"\(\*.*?\*\)", "", re.search(r"```ebnf\n(.*?)```", page, re.DOTALL).group(1))
spoken = set(re.findall(r'"([A-Za-z]+)"', grammar))
reserved = set(re.findall(r"`(\w+)`", page.rsplit("Words that the conditions use", 1)[1].split("are no names")[0]))

statements = completions("", [(0, 0)])[0]
ordered = sorted(statements)
text = "".join(f"{word} x\n  \n" for word in ordered)
offered = completions(text, [(2 * i + 1, 2) for i in range(len(ordered))])
# A statement without clauses of its own offers what may go on with it; that is no clause.
with_clauses = {"pack", "source", "tier", "sign", "cause", "rule", "alarm", "care", "example"}
clauses = set().union(*(words for word, words in zip(ordered, offered) if word in with_clauses))
clauses.remove("patient")  # the species, as it is called where no pack says otherwise: a name of the pack
assert len(statements) >= 14 and len(clauses) >= 50, (statements, clauses)
of_grammar = {word.strip() for word in re.search(r"statement\s*=(.*?);", grammar, re.DOTALL).group(1).split("|")}
assert statements == of_grammar, statements ^ of_grammar
phrase_words = {word for phrase in clauses for word in phrase.split()}
assert phrase_words <= spoken, phrase_words - spoken


def plain(alternatives):
    return {re.sub(r"\[ \\t\]\+|\\s\\\+", " ", one) for one in alternatives}


def of_textmate():
    rules = json.loads((root / "docs/editors/flinch.tmLanguage.json").read_text(encoding="utf-8"))["repository"]
    for name in ("statement", "clause", "word"):
        yield plain(re.search(r"\((?!\?)([^()]*)\)", rules[name]["match"]).group(1).split("|"))


def of_vim():
    lines = (root / "docs/editors/flinch.vim").read_text(encoding="utf-8")
    for name in ("Statement", "Clause", "Word"):
        match = re.search(rf"^syn match flinch{name} .*?\\%\((.*)\\\)", lines, re.MULTILINE)
        yield plain(match.group(1).split(r"\|"))


def of_emacs():
    lines = (root / "docs/editors/flinch-mode.el").read_text(encoding="utf-8")
    for name in ("statements", "clauses", "words"):
        listed = re.search(rf"\(defconst flinch-mode-{name}\s+'\((.*?)\)", lines, re.DOTALL).group(1)
        yield set(re.findall(r'"([^"]+)"', listed))


least = (spoken - statements - phrase_words) | reserved
for editor in (of_textmate, of_vim, of_emacs):
    in_statements, in_clauses, in_words = editor()
    assert in_statements == statements, (editor.__name__, in_statements ^ statements)
    assert in_clauses == clauses, (editor.__name__, in_clauses ^ clauses)
    assert least <= in_words <= spoken, (editor.__name__, least - in_words, in_words - spoken)
print(f"{len(statements)} statements, {len(clauses)} clauses and {len(least)} further words in three files")
