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


# Longest first: a shorter one must not be taken where a longer one begins with it.
def in_order(words):
    return sorted(words, key=lambda word: (-len(word.split()), -len(word), word))


# Words within clauses: those of the grammar that begin nothing, and of the others what is kept there.
least = (spoken - statements - phrase_words) | reserved
colours = {"statements": "Statement", "clauses": "Clause", "words": "Word"}


def textmate(text, name):
    start = text.index('"match"', text.index(f'"{colours[name].lower()}": {{'))
    opened = re.compile(r"\((?!\?)").search(text, start).end()
    return opened, text.index(")", opened), r"[ \\t]+", "|"


def vim(text, name):
    opened = text.index(r"\%(", text.index(f"syn match flinch{colours[name]} ")) + 3
    return opened, text.index(r"\)", opened), r"\s\+", r"\|"


def emacs(text, name):
    opened = text.index("'(", text.index(f"(defconst flinch-mode-{name}")) + 2
    return opened, text.index(")", opened), None, None


def read(listed, blank, between):
    if between is None:
        return set(re.findall(r'"([^"]+)"', listed))
    return {one.replace(blank, " ") for one in listed.split(between)}


def written(words, blank, between):
    if between is not None:
        return between.join(word.replace(" ", blank) for word in words)
    lines, line = [], ""
    for word in words:
        if line and len(line) + len(word) + 3 > 92:
            lines.append(line)
            line = ""
        line += f'{" " if line else ""}"{word}"'
    return "\n    ".join(lines + [line])


for file, find in (("flinch.tmLanguage.json", textmate), ("flinch.vim", vim), ("flinch-mode.el", emacs)):
    path = root / "docs/editors" / file
    kept = text = path.read_text(encoding="utf-8")
    for name in colours:
        begin, end, blank, between = find(text, name)
        words = {"statements": statements, "clauses": clauses,
                 "words": least | (read(text[begin:end], blank, between) & spoken)}[name]
        text = text[:begin] + written(in_order(words), blank, between) + text[end:]
    if "--update" in sys.argv:
        path.write_text(text, encoding="utf-8")
    assert "--update" in sys.argv or text == kept, f"{path} colours other words: build update-reports"
print(f"{len(statements)} statements, {len(clauses)} clauses and {len(least)} further words in three files")
