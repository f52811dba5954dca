"""What `flinch tidy` does to files: permissions, links, times, and what it must leave alone."""

import os
import pathlib
import subprocess
import sys
import tempfile

program = str(pathlib.Path(sys.argv[1]).resolve())
UNTIDY, TIDY = b"site   paw\r\n", b"site paw\n"
BROKEN = b"site paw\nrule r\n  if and\n"


def tidy(*arguments, stdin=b""):
    return subprocess.run([program, "tidy", *map(str, arguments)], input=stdin, capture_output=True, timeout=60)


with tempfile.TemporaryDirectory() as name:
    folder = pathlib.Path(name)
    file = folder / "a.flinch"

    # The permissions stay, wider or narrower than what a new file would get.
    for mode in (0o600, 0o640, 0o644, 0o664, 0o755):
        file.write_bytes(UNTIDY)
        file.chmod(mode)
        done = tidy(file)
        assert done.returncode == 0 and done.stdout == f"tidied {file}\n".encode(), done
        assert file.read_bytes() == TIDY
        assert file.stat().st_mode & 0o777 == mode, oct(file.stat().st_mode)
        assert file.stat().st_uid == os.getuid()

    # Tidy already: not touched, nothing said.
    os.utime(file, ns=(10**18, 10**18))
    before = file.stat()
    done = tidy(file)
    assert (done.returncode, done.stdout, done.stderr) == (0, b"", b""), done
    assert (file.stat().st_mtime_ns, file.stat().st_ino) == (before.st_mtime_ns, before.st_ino)

    # --check names what is not tidy and writes nothing.
    other = folder / "b.flinch"
    other.write_bytes(UNTIDY)
    os.utime(other, ns=(10**18, 10**18))
    done = tidy("--check", file, other)
    assert (done.returncode, done.stdout, done.stderr) == (1, f"{other}\n".encode(), b""), done
    assert other.read_bytes() == UNTIDY and other.stat().st_mtime_ns == 10**18

    # A file with errors stays; the others are tidied all the same.
    broken = folder / "c.flinch"
    broken.write_bytes(BROKEN)
    done = tidy(broken, other)
    assert done.returncode == 2 and b"c.flinch:3:6: error:" in done.stderr, done
    assert broken.read_bytes() == BROKEN and other.read_bytes() == TIDY

    # A link stays a link, however long the chain; what it names is tidied.
    (folder / "deep").mkdir()
    target = folder / "deep" / "target.flinch"
    target.write_bytes(UNTIDY)
    (folder / "one.flinch").symlink_to("deep/target.flinch")
    (folder / "two.flinch").symlink_to("one.flinch")
    done = tidy(folder / "two.flinch")
    assert done.returncode == 0, done
    assert (folder / "one.flinch").is_symlink() and (folder / "two.flinch").is_symlink()
    assert target.read_bytes() == TIDY and not target.is_symlink()
    (folder / "lost.flinch").symlink_to("nowhere.flinch")
    done = tidy(folder / "lost.flinch")
    assert done.returncode == 2 and b"no such file" in done.stderr, done
    assert not (folder / "nowhere.flinch").exists()

    # What cannot be read or written is said, and stays.
    for what, why in ((folder / "nothing.flinch", b"no such file"), (folder, b"this is a folder"),
                      ("/dev/null", b"no plain file and no pipe")):
        done = tidy(what)
        assert done.returncode == 2 and why in done.stderr and not done.stdout, (what, done)
    if os.getuid() != 0:  # nothing is forbidden to the superuser
        other.write_bytes(UNTIDY)
        other.chmod(0o444)
        done = tidy(other)
        assert done.returncode == 2 and b"may not be written" in done.stderr, done
        assert other.read_bytes() == UNTIDY

    # Standard input to standard output.
    for arguments in ((), ("-",)):
        done = tidy(*arguments, stdin=b"\xef\xbb\xbf" + UNTIDY)
        assert (done.returncode, done.stdout, done.stderr) == (0, TIDY, b""), done
    done = tidy(stdin=BROKEN)
    assert done.returncode == 2 and not done.stdout and b"standard input:3:6" in done.stderr, done
    done = tidy("--check", stdin=UNTIDY)
    assert (done.returncode, done.stdout) == (1, b"standard input\n"), done
    assert tidy("--check", stdin=TIDY).returncode == 0
    done = tidy("-", file)
    assert done.returncode == 2 and b"goes alone" in done.stderr, done
    done = tidy(stdin=b"site \xff\n")
    assert done.returncode == 2 and b"not valid UTF-8" in done.stderr and not done.stdout, done

    left = sorted(path.name for path in folder.rglob("*.new-*"))
    assert not left, left
print("files stay what they were")
