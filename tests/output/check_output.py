"""Output that cannot be written ends with status 2 and says so; a file is replaced only by the whole
of the new one, and nothing that is not its own is touched."""

import os
import pathlib
import stat
import subprocess
import sys
import tempfile
import threading

# Pages carry the time they were written at: a minute that ends between two of them is no fault.
os.environ["SOURCE_DATE_EPOCH"] = "1795600000"

program, bramble = (str(pathlib.Path(one).resolve()) for one in sys.argv[1:])


def run(*arguments, **options):
    return subprocess.run([program, *map(str, arguments)], capture_output=True, text=True, timeout=120, **options)


# A full disk behind standard output.
for arguments in (["assess", bramble], ["assess", "--json", bramble], ["review", bramble], ["care", bramble],
                  ["describe", "bloat"], ["list", "causes"], ["signs"], ["check"], ["handover", bramble],
                  ["report", bramble, "-o", "-"], ["--help"], ["--version"]):
    with open("/dev/full", "wb") as full:
        done = subprocess.run([program, *arguments], stdout=full, stderr=subprocess.PIPE, text=True, timeout=120)
    assert done.returncode == 2, (arguments, done.returncode)
    assert "cannot write the output" in done.stderr, (arguments, done.stderr)
    assert run(*arguments).returncode == 0, arguments


def mode(path):
    return stat.S_IMODE(os.stat(path).st_mode)


with tempfile.TemporaryDirectory() as folder:
    os.chdir(folder)
    page = run("report", bramble, "-o", "-").stdout
    assert page.startswith("<!DOCTYPE html>")

    def report(name):
        return run("report", bramble, "-o", name)

    # A file of a like name is nobody's business.
    pathlib.Path("page.html.new").write_text("precious")
    assert report("page.html").returncode == 0
    assert pathlib.Path("page.html").read_text() == page and pathlib.Path("page.html.new").read_text() == "precious"
    assert sorted(os.listdir(".")) == ["page.html", "page.html.new"]

    # A page may be read by whom the umask lets; one that is replaced keeps its mode.
    assert mode("page.html") == 0o666 & ~(os.umask(0o027) | 0), oct(mode("page.html"))
    assert report("close.html").returncode == 0 and mode("close.html") == 0o640
    os.chmod("close.html", 0o604)
    assert report("close.html").returncode == 0 and mode("close.html") == 0o604
    os.umask(0o022)
    # What is said of a dog is its owner's alone.
    assert run("ask", "--save", "dog.yaml", input="quit\n").returncode in (0, 2)
    assert mode("dog.yaml") == 0o600, oct(mode("dog.yaml"))

    # A link is followed, and stays one.
    pathlib.Path("real.html").write_text("old")
    os.symlink("real.html", "link.html")
    assert report("link.html").returncode == 0
    assert os.path.islink("link.html") and pathlib.Path("real.html").read_text() == page

    # What is no regular file is refused and stays what it is.
    os.mkfifo("pipe")
    os.mkdir("folder")
    os.symlink("nowhere", "lost")
    for name, words in (("pipe", "no regular file"), ("folder", "this is a folder"), ("lost", "leads nowhere"),
                        ("missing/page.html", "No such file"), ("", "name of a file is expected")):
        done = report(name)
        assert done.returncode == 2 and words in done.stderr, (name, done.stderr)
    assert stat.S_ISFIFO(os.stat("pipe").st_mode) and os.path.islink("lost")
    for arguments in (["batch", "-o", "pipe"], ["batch", "-o", "-"], ["batch", "-o", ""],
                      ["ask", "--save", "pipe"], ["ask", "--save", ""],
                      ["describe", "--html", ""]):
        done = run(*arguments, input="")
        assert done.returncode == 2 and done.stderr, (arguments, done)
    assert stat.S_ISFIFO(os.stat("pipe").st_mode) and not os.path.exists("-")

    # Two runs at once: each writes a whole page, nothing is left beside it.
    both = [threading.Thread(target=report, args=("both.html",)) for _ in range(8)]
    for one in both:
        one.start()
    for one in both:
        one.join()
    assert pathlib.Path("both.html").read_text() == page
    assert not [name for name in os.listdir(".") if ".new-" in name], os.listdir(".")

print("output arrives, or it is told")
