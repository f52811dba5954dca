"""Writes every kind of page for each case and checks what needs no browser: the policy names the hashes
of the style sheets, nothing can be fetched or run, free text is inert and still there, each picture has
a title and a description, and the numbers in them stand in the text of their section as well; a page that
cannot be written leaves nothing behind, and pages of what a pack no longer has go, but nothing else does."""

import base64
import hashlib
import html
import html.parser
import os
import pathlib
import re
import shutil
import subprocess
import sys

os.environ |= {"SOURCE_DATE_EPOCH": "1795618800", "TZ": "UTC"}
# With --few, for the sanitised program: every tenth page of the pack is read, though all are written, and
# fewer of the examples'.
few = "--few" in sys.argv
every = 10 if few else 1
program, example_pages, closed_cases, folder, *cases = [one for one in sys.argv[1:] if one != "--few"]
folder = pathlib.Path(folder)
shutil.rmtree(folder, ignore_errors=True)
folder.mkdir(parents=True)
VOID = {"meta", "br", "link", "rect", "circle", "line", "path"}


class Reader(html.parser.HTMLParser):
    """Tags, attributes and text; complains of tags that are not closed."""

    def __init__(self):
        super().__init__()
        self.open, self.tags, self.texts, self.styles = [], [], [], []
        self.sections = []  # each open or closed part with a heading: what pictures say, what the text says
        self.inside = []    # the places of those that are open, None for other elements

    def handle_starttag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))
        if tag not in VOID:
            self.open.append(tag)
            is_part = tag == "section" and dict(attributes).get("class", "") != "table"
            self.inside.append(len(self.sections) if is_part else None)
            if is_part:
                self.sections.append(([], []))

    def handle_startendtag(self, tag, attributes):
        self.tags.append((tag, dict(attributes)))

    def handle_endtag(self, tag):
        assert self.open and self.open[-1] == tag, f"</{tag}> closes {self.open[-3:]}"
        self.open.pop()
        self.inside.pop()

    def handle_data(self, data):
        (self.styles if self.open and self.open[-1] == "style" else self.texts).append(data)
        parts = [place for place in self.inside if place is not None]
        if parts and "svg" not in self.open:
            self.sections[parts[-1]][1].append(data)
        elif parts and self.open[-1] == "desc":
            self.sections[parts[-1]][0].append(data)


def shown(text):
    """As a page shows free text: control and direction characters as question marks."""
    return re.sub("[\x00-\x08\x0a-\x1f\x7f-\x9f\u202a-\u202e\u2066-\u2069]", "?", text)


NUMBER = re.compile(r"[0-9][0-9,.]*[0-9]|[0-9]")


def is_in_a_list(number, told):
    """The numbers of places on the dog are those of the list beside it, which a page does not spell out."""
    return number.isdigit() and 1 <= int(number) <= 20 and "Found, by number:" in " ".join(told)


def check_page(path):
    text = path.read_text(encoding="utf-8")
    reader = Reader()
    reader.feed(text)
    reader.close()
    assert not reader.open, reader.open
    tags = [tag for tag, _ in reader.tags]
    assert text.startswith("<!DOCTYPE html>\n<html lang=\"en\">")
    for forbidden in ("script", "img", "iframe", "object", "embed", "link", "form", "base", "b", "i"):
        assert forbidden not in tags, f"{path}: <{forbidden}>"
    policy = next(a["content"] for t, a in reader.tags if t == "meta" and a.get("http-equiv"))
    hashes = re.findall(r"'sha256-([^']+)'", policy)
    made = [base64.b64encode(hashlib.sha256(style.encode()).digest()).decode() for style in reader.styles]
    assert hashes == made, f"{path}: the policy names {hashes}, the style sheets are {made}"
    rest = re.sub(r"'sha256-[^']+'", "", policy)
    assert re.sub(r"\s+", " ", rest) == "default-src 'none'; style-src ; base-uri 'none'; form-action 'none'", rest
    ids = [a["id"] for _, a in reader.tags if "id" in a]
    assert len(ids) == len(set(ids)), f"{path}: an id stands twice"
    for tag, attributes in reader.tags:
        for name, value in attributes.items():
            assert not name.startswith("on") and name not in ("style", "src"), f"{path}: {name}"
            if name == "href":
                assert re.fullmatch(r"(\.\./)?[a-z]+/[a-z0-9_]+\.html|(\.\./)?index\.html|#[a-z-]+", value), value
            if name == "aria-labelledby":
                assert set(value.split()) <= set(ids), f"{path}: {value}"
        if tag == "svg":
            assert attributes["role"] == "img" and attributes["aria-labelledby"]
    assert tags.count("svg") == tags.count("desc") and tags.count("h1") == 1
    for pictured, told in reader.sections:
        missing = [number for number in NUMBER.findall(" ".join(pictured))
                   if number not in NUMBER.findall(" ".join(told)) and not is_in_a_list(number, told)]
        assert not missing, f"{path}: pictures say {missing}, the text beside them does not: {pictured}"
        beside = " ".join(told)
        for said in pictured:
            for site in re.findall(r"\d+ at the ([^,.]+)", said):
                assert f"{site}: " in beside, f"{path}: {site}"
            for ringed in re.findall(r"Rings: ([^.]+)", said):
                for site in ringed.split(", "):
                    assert f"{site}: checked and clear of" in beside, f"{path}: {site}"
    spoken = re.sub(r"https?://\S+", "", " ".join(reader.texts))  # an address may spell anything,
    spoken = re.sub(r"mark\s+[0-9a-f]{8}\b", "", spoken)  # and so may the mark of a text that is read
    assert not re.search(r"[0-9]e[+-]?[0-9]", spoken), f"{path}: a power of ten"
    return reader, " ".join(reader.texts)


written = 0
for case in cases:
    stem = pathlib.Path(case).parent.name + "-" + pathlib.Path(case).stem
    for reader_name, paper in (("keeper", "a4"), ("clinician", "a4"), ("clinician", "letter")):
        page = folder / f"{stem}-{reader_name}-{paper}.html"
        subprocess.run([program, "report", case, "-o", page, "--for", reader_name, "--paper", paper],
                       check=True, capture_output=True)
        assert [p for p in folder.iterdir() if p.suffix != ".html"] == [], "something was left beside the page"
        reader, text = check_page(page)
        assert "does not diagnose" in text and "no human painkillers" in text.lower()
        assert ("size: A4" if paper == "a4" else "size: letter") in reader.styles[1]
        if "hostile" in case:
            assert "<script>window.broken=1</script><img src=x onerror=alert(1)>" in text
            # The note is the practice's own: no keeper reads it.
            assert ("=HYPERLINK(\"http://example.invalid\"" in text) == (reader_name == "clinician")
            assert ("javascript:alert(3)" in text) == (reader_name == "clinician")
            assert not re.search("[\x00-\x08\x0b-\x1f\x7f-\x9f\u202a-\u202e]", "".join(reader.texts).replace("\n", ""))
            assert "?[31m??evil" in text
        written += 1

# The pack as pages: every link leads to a page, every page is reached from the index.
pack = folder.parent / "pack"
shutil.rmtree(pack, ignore_errors=True)
subprocess.run([program, "describe", "--html", pack], check=True, capture_output=True)
pages = {p.relative_to(pack).as_posix() for p in pack.rglob("*") if p.is_file()}
linked = {"index.html"}
for page in ["index.html", *sorted(pages - {"index.html"})[::every]]:
    reader, text = check_page(pack / page)
    for tag, attributes in reader.tags:
        if tag == "a" and not attributes["href"].startswith("#"):
            target = os.path.normpath(os.path.join(os.path.dirname(page), attributes["href"]))
            assert target in pages, f"{page} leads to {target}, which is not there"
            if page == "index.html":
                linked.add(target)
    assert "does not diagnose" in text
    written += 1
assert linked == pages and len(pages) > 500, f"not reached from the index: {sorted(pages - linked)[:5]}"

# A pack whose texts mean harm.
evil = folder.parent / "evil"
evil.mkdir(exist_ok=True)
(evil / "pack.flinch").write_text(pathlib.Path(__file__).with_name("hostile.flinch").read_text())
shutil.rmtree(evil / "pages", ignore_errors=True)
subprocess.run([program, "describe", "--html", evil / "pages", "--pack", evil], check=True, capture_output=True)
for page in (evil / "pages").rglob("*.html"):
    reader, text = check_page(page)
    written += 1
assert "<script>alert(1)</script> cause" in check_page(evil / "pages" / "cause" / "c.html")[1]
shutil.copy(evil / "pages" / "cause" / "c.html", folder / "evil-cause.html")

# Over the pages of another pack: those of its things go, whatever else lies there stays.
reused = folder.parent / "reused"
shutil.rmtree(reused, ignore_errors=True)
shutil.copytree(pack, reused)
theirs = {"cause/my_notes.html": b"<!DOCTYPE html>\n<html lang=\"en\">\n<p>Kept by hand</p>\n",
          "sign/table.csv": b"a,b\n", "readme.txt": b"mine\n", "cause/short.html": b"", "old.html": b"<p>old\n"}
for name, kept_bytes in theirs.items():
    (reused / name).write_bytes(kept_bytes)
shutil.copy(pack / "cause" / "stomach_torsion.html", reused / "stomach_torsion.html")  # no page of ours lies there
(reused / "cause" / "linked.html").symlink_to(pack / "cause" / "stomach_torsion.html")
(reused / "cause" / "folder.html").mkdir()
stays = set(theirs) | {"stomach_torsion.html", "cause/linked.html"}
gone = {page for page in pages if not (evil / "pages" / page).exists()}
assert len(gone) > 400
done = subprocess.run([program, "describe", "--html", reused, "--pack", evil], check=True, capture_output=True, text=True)
assert f"removed: {len(gone)} of what the pack no longer has" in done.stdout, done.stdout
ours = {p.relative_to(evil / "pages").as_posix() for p in (evil / "pages").rglob("*") if p.is_file()}
left = {p.relative_to(reused).as_posix() for p in reused.rglob("*") if not p.is_dir()}
assert left == ours | stays, left ^ (ours | stays)
assert (reused / "cause" / "folder.html").is_dir()
assert all((reused / name).read_bytes() == kept_bytes for name, kept_bytes in theirs.items())
again = subprocess.run([program, "describe", "--html", reused, "--pack", evil], check=True, capture_output=True, text=True)
assert "removed" not in again.stdout, again.stdout
for sample in ("index.html", "cause/elbow_arthritis.html", "rule/age.html", "sign/tender.html",
               "alarm/bloat.html", "source/hess1998.html"):
    shutil.copy(pack / sample, folder / ("pack-" + sample.replace("/", "-")))

# Sheets to read: each statement of the pack on one of them, every sheet reached from the index.
sheets = folder.parent / "sheets"
shutil.rmtree(sheets, ignore_errors=True)
subprocess.run([program, "read", "--sheets", sheets], check=True, capture_output=True)
linked = {attributes["href"] for tag, attributes in check_page(sheets / "index.html")[0].tags if tag == "a"}
assert linked == {f"sheet/{p.name}" for p in (sheets / "sheet").iterdir()} and len(linked) > 20, linked
to_tick = 0
for name in sorted(linked)[::every]:
    reader, text = check_page(sheets / name)
    assert "does not diagnose" in text and "size: A4" in reader.styles[1]
    ticks = "".join(reader.texts).count("\u2610")
    assert 1 <= ticks <= 60 and text.count("Remarks:") == ticks, name
    to_tick += ticks
    written += 1
if not few:
    listed = subprocess.run([program, "list", "unread"], check=True, capture_output=True, text=True).stdout
    assert to_tick == len(re.findall("^- ", listed, re.MULTILINE)) > 2000, to_tick
shutil.copy(sorted((sheets / "sheet").iterdir())[0], folder / "sheet-to-read.html")
shutil.copy(sheets / "index.html", folder / "sheets-to-read.html")
subprocess.run([program, "read", "--sheets", evil / "sheets", "--pack", evil], check=True, capture_output=True)
for page in (evil / "sheets").rglob("*.html"):
    check_page(page)
    written += 1

# Of the pack's examples each fourth, for both readers: a page for the clinic takes half a second.
examples = folder.parent / "examples"
shutil.rmtree(examples, ignore_errors=True)
examples.mkdir()
subprocess.run([example_pages, examples, str(40 if few else 12)], check=True, capture_output=True)
made = sorted(examples.iterdir())
assert len(made) > (15 if few else 50), made
for page in made:
    check_page(page)
    written += 1

# The audit's page.
subprocess.run([program, "audit", closed_cases, "--html", folder / "audit.html"], check=True, capture_output=True)
assert "does not diagnose" in check_page(folder / "audit.html")[1]
written += 1

# The same input gives the same bytes.
again = folder.parent / "again.html"
subprocess.run([program, "report", cases[0], "-o", again], check=True, capture_output=True)
first = folder / (pathlib.Path(cases[0]).parent.name + "-" + pathlib.Path(cases[0]).stem + "-clinician-a4.html")
assert again.read_bytes() == first.read_bytes()
again.unlink()

# A folder that does not exist, a folder in the place of the file, a bad case: status 2, nothing written.
before = sorted(os.listdir(folder))
for output in (folder / "missing" / "page.html", folder):
    done = subprocess.run([program, "report", cases[0], "-o", output], capture_output=True, text=True)
    assert done.returncode == 2 and "cannot write" in done.stderr, done
bad = folder.parent / "bad.yaml"
bad.write_text("answers: {no_such_sign: yes}\n")
kept = folder / before[0]
bytes_before = kept.read_bytes()
done = subprocess.run([program, "report", bad, "-o", kept], capture_output=True, text=True)
assert done.returncode == 2 and kept.read_bytes() == bytes_before
bad.unlink()
assert sorted(os.listdir(folder)) == before, "something was left behind"

print(f"{written} pages checked")
