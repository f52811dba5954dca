"""The Debian packages: made twice, at other times, in other folders and with another umask, they are the same
bytes; lintian has nothing to say; they hold what they should, and no path of the machine that built them."""

import email.utils
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import time

cpack, build, root = sys.argv[1:]
# Of a member of the outer archive: it follows the umask, and nothing else does.
MODE = re.compile(rb"100[0-7]{3}( *\d+ *`\n)")


def run(*command, **settings):
    done = subprocess.run(command, capture_output=True, text=True, **settings)
    assert done.returncode == 0, f"{command}\n{done.stdout}\n{done.stderr}"
    return done.stdout


def make(folder, mask):
    settings = {name: value for name, value in os.environ.items() if name != "SOURCE_DATE_EPOCH"}
    run(cpack, "-G", "DEB", "-B", folder, "--config", f"{build}/CPackConfig.cmake", env=settings, umask=mask)
    return {path.name: path for path in pathlib.Path(folder).glob("*.deb")}


newest = re.search(r"^ -- .*>  (.*)$", (pathlib.Path(root) / "cli/package/changelog").read_text(), re.MULTILINE)
epoch = int(email.utils.parsedate_to_datetime(newest.group(1)).timestamp())
assert f"set(FLINCH_RELEASED {time.strftime('%Y-%m-%d', time.gmtime(epoch))})" in (
    pathlib.Path(root) / "CMakeLists.txt").read_text(), "another day stands in CMakeLists.txt"
assert f" {epoch})" in (pathlib.Path(root) / "cli/package/time.cmake").read_text(), f"time.cmake: {epoch}"

with tempfile.TemporaryDirectory() as one, tempfile.TemporaryDirectory() as other:
    first = make(one, 0o022)
    time.sleep(1.1)  # a time of its own for every file, as far as a second tells
    second = make(other, 0o077)
    assert len(first) == 2 and set(first) == set(second), (first, second)
    for name in first:
        one_way, other_way = (MODE.sub(rb"100644\1", where[name].read_bytes()) for where in (first, second))
        assert one_way == other_way, f"{name} is not the same bytes twice"
    contents = {name.split("_")[0]: run("dpkg-deb", "--contents", str(path)) for name, path in first.items()}
    for file in ("./usr/bin/flinch", "./usr/share/man/man1/flinch-ask.1.gz", "./usr/share/doc/flinch/changelog.gz",
                 "./usr/share/doc/flinch/copyright", "./usr/share/zsh/vendor-completions/_flinch",
                 "./usr/share/bash-completion/completions/flinch", "./usr/share/flinch/packs/canine/pack.flinch"):
        assert f" {file}\n" in contents["flinch"], file
    assert "/include/flinch/model/load.hpp\n" in contents["libflinch-dev"]
    fields = run("dpkg-deb", "--field", str(first[min(first)]))
    assert "libc6" in fields and "libyaml-cpp" in fields, fields
    for name, path in first.items():
        unpacked = pathlib.Path(one) / "unpacked" / name
        unpacked.mkdir(parents=True)
        run("dpkg-deb", "--extract", str(path), str(unpacked))
        for file in unpacked.rglob("*"):
            if file.is_file():
                assert root.encode() not in file.read_bytes(), f"{file} names the folder it was built in"
    if shutil.which("lintian"):
        said = subprocess.run(["lintian", "--allow-root", "--fail-on", "error,warning", *map(str, first.values())],
                              capture_output=True, text=True)
        assert said.returncode == 0 and not said.stdout, said.stdout + said.stderr
    else:
        print("no lintian here")
    print(", ".join(f"{name} {path.stat().st_size} bytes" for name, path in sorted(first.items())))
