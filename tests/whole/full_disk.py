#!/usr/bin/python3
"""The whole program on a disk that fills up: it says so, and what stood there before stands there still.

full_disk.py PROGRAM GUIDE LIBRARY

Three ways to have no room: a disk that is played by LIBRARY (full_disk_library.cpp), which needs no rights and can end
anywhere; a limit on the size of a file; and, where one may be mounted, a disk that is really that small.
"""
import hashlib
import json
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import tempfile

program, guide, library = (os.path.abspath(word) for word in sys.argv[1:4])
environment = dict(os.environ, NO_COLOR="1", LC_ALL="C.UTF-8")
passed = 0


def picture(folder):
    """Every name beneath, with what is in it and which file on the disk it is."""
    out = {}
    for path in sorted(folder.rglob("*")):
        info = path.lstat()
        inside = hashlib.sha256(path.read_bytes()).hexdigest() if path.is_file() else ""
        out[path.relative_to(folder).as_posix()] = (info.st_mode, info.st_ino, info.st_mtime_ns, inside)
    return out


def make(disk, *words, room=None, limit=None):
    own = dict(environment)
    if room is not None:
        own |= {"LD_PRELOAD": library, "FULL_DISK": str(disk), "FULL_DISK_ROOM": str(room), "ASAN_OPTIONS": "verify_asan_link_order=0"}
    limited = (lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (limit, limit))) if limit is not None else None
    # Python ignores the signal of a file that grew too long; a shell does not.
    return subprocess.run([program, "-C", guide, "make", *words, "-o", "out", "--own", "own"], cwd=disk, env=own, preexec_fn=limited,
                          restore_signals=True, capture_output=True, text=True, timeout=300)


def fails_whole(disk, done, why, before):
    global passed
    assert done.returncode == 2, (done.returncode, done.stdout, done.stderr)
    lines = done.stderr.splitlines()
    assert lines[0].startswith("saggar: cannot ") and re.search(r"\b(out|own)\b", lines[0]), done.stderr
    assert lines[0].endswith(": " + why), done.stderr
    assert lines[1] in (f"  hint: make room, or choose a folder on another disk with {option}" for option in ("-o", "--own")), done.stderr
    assert len(lines) == 2 and done.stdout == "", (done.stdout, done.stderr)
    after = picture(disk)
    assert after == before, "what stood there changed: " + ", ".join(sorted(name for name in before.keys() | after.keys() if before.get(name) != after.get(name))[:8])
    passed += 1


with tempfile.TemporaryDirectory(prefix="saggar-full-disk-") as work:
    work = pathlib.Path(work).resolve()

    # How much a whole build writes.
    whole = work / "whole"
    whole.mkdir()
    done = make(whole)
    assert done.returncode == 0, done.stderr
    size = sum(path.stat().st_size for path in whole.rglob("*") if path.is_file())
    longest = max(path.stat().st_size for path in whole.rglob("*") if path.is_file())

    disk = work / "disk"
    disk.mkdir()
    # Nothing there yet: nothing is there afterwards.
    fails_whole(disk, make(disk, room=size // 2), "the disk is full", {})

    # The last good build: talks, in out/ and own/, and a file of the author's. A whole build writes nearly everything anew.
    assert make(disk, "talks").returncode == 0
    (disk / "out/mine.txt").write_text("mine")
    before = picture(disk)
    same = (path for path in whole.rglob("*") if path.is_file() and (disk / path.relative_to(whole)).exists() and (disk / path.relative_to(whole)).read_bytes() == path.read_bytes())
    fresh = size - sum(path.stat().st_size for path in same)
    for room in sorted({0, 1, 4096, fresh // 7, fresh // 3, fresh // 2, 4 * fresh // 5, fresh - 1}):
        fails_whole(disk, make(disk, room=room), "the disk is full", before)

    # The same as JSON.
    done = make(disk, "--format", "json", room=4096)
    assert done.returncode == 2 and done.stderr == "", done
    answer = json.loads(done.stdout)
    assert list(answer) == ["error", "hint"] and answer["error"].endswith(": the disk is full"), answer
    assert picture(disk) == before
    passed += 1

    # No file may grow so long: the program is told by a signal, which would end it.
    for limit in (longest // 2, 100):
        fails_whole(disk, make(disk, limit=limit), "the file is larger than this system allows", before)

    # With room enough the same folder is made.
    done = make(disk, room=2 * size)
    assert done.returncode == 0, done.stderr
    assert (disk / "out/mine.txt").read_text() == "mine"
    for path in whole.rglob("*"):
        if path.is_file():
            assert path.read_bytes() == (disk / path.relative_to(whole)).read_bytes(), path
    passed += 1

    # An answer that cannot be written out is not taken for given.
    if os.path.exists("/dev/full"):
        for words in (["-C", guide, "check"], ["schema"], ["--version"]):
            with open("/dev/full", "w") as full:
                done = subprocess.run([program, *words], stdout=full, stderr=subprocess.PIPE, text=True, env=environment)
            assert done.returncode == 2, (words, done.returncode)
            assert done.stderr == "saggar: the answer could not be written out: the disk is full\n", done.stderr
            passed += 1

    # A disk that is really so small.
    small = work / "small"
    small.mkdir()
    script = f"""set -e
mount -t tmpfs -o size={max(size // 2, 65536)} none {small}
cd {small}
{program} -C {guide} make corrections -o out >/dev/null 2>&1
find . -type f -exec sha256sum {{}} + | sort > {work}/before
set +e
{program} -C {guide} make -o out --own own > {work}/said 2> {work}/told
echo $? > {work}/status
find . -type f -exec sha256sum {{}} + | sort > {work}/after
"""
    for way in (["unshare", "-m"], ["unshare", "-rm"]):
        if shutil.which("unshare") and subprocess.run([*way, "bash", "-c", script], capture_output=True, env=environment).returncode == 0 and (work / "after").exists():
            assert (work / "status").read_text() == "2\n"
            assert (work / "told").read_text().splitlines()[0].endswith(": the disk is full"), (work / "told").read_text()
            assert (work / "before").read_text() == (work / "after").read_text() != ""
            passed += 1
            break
    else:
        print("no small disk may be mounted here: only the played one was filled")

print(f"{passed} passed, 0 failed")
