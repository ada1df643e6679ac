#!/usr/bin/python3
"""Same input, same bytes: whatever the locale, the time zone, the number of threads or the order of folder entries.

same_bytes.py PROGRAM GUIDE
"""
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

program, guide = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()


def made(work, source, **environment):
    out = work / "out"
    shutil.rmtree(out, ignore_errors=True)
    shutil.rmtree(work / "own", ignore_errors=True)
    done = subprocess.run([program, "-C", str(source), "make"], cwd=work, env={**os.environ, **environment}, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return {str(p.relative_to(work)): p.read_bytes() for top in ("out", "own") for p in sorted((work / top).rglob("*")) if p.is_file()}


with tempfile.TemporaryDirectory() as folder:
    work = pathlib.Path(folder)
    first = made(work, guide, LC_ALL="C")
    assert len(first) > 30, "too few files to compare"
    turkish = made(work, guide, LC_ALL="tr_TR.UTF-8", TZ="Pacific/Kiritimati")
    copy = work / "copy"
    copy.mkdir()
    for file in sorted((p for p in guide.rglob("*") if p.is_file()), reverse=True):  # made in another order
        target = copy / file.relative_to(guide)
        target.parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(file, target)
    moved = made(work, copy, LC_ALL="C.UTF-8", TZ="UTC")
    alone = subprocess.run(["taskset", "-c", "0", program, "-C", str(guide), "make", "-o", "alone/out", "--own", "alone/own"], cwd=work, capture_output=True)
    assert alone.returncode == 0, alone.stderr
    one = {str(p.relative_to(work / "alone")): p.read_bytes() for p in sorted((work / "alone").rglob("*")) if p.is_file()}
    faults = []
    for name, other in (("locale and time zone", turkish), ("order of files", moved), ("one thread", one)):
        faults += [f"{name}: {path}" for path in sorted(set(first) | set(other)) if first.get(path) != other.get(path)]
    print("\n".join(faults) or f"{len(first)} files, byte for byte the same four times")
    sys.exit(1 if faults else 0)
