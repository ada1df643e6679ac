#!/usr/bin/python3
"""Command-line tests: every folder of cases/ is one.

  args       the words after `saggar`, one a line; `@input` stands for the input folder's copy, `@out` for a fresh folder
  input/     the guide (optional); a copy of it is used
  prepare    a shell script run in the copy first (optional): what git cannot hold
  stdin      what is typed in (optional)
  stand      the folder to stand in, from the one that holds `input` (optional)
  expected   standard output, then, behind a line `--- stderr`, standard error, then, behind `--- files`, the files made
  status     the exit status (0 unless given)
  absent     regular expressions, one a line, that may fit nowhere in the files made (optional)
  nobody     an empty file: run by a user for whom permissions hold, whoever runs the tests

`run_cases.py PROGRAM` runs them; `--update` rewrites what is expected (a person reads the difference); names behind it choose.
"""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile



def readable(file):
    """What a file says: of a PDF its objects (links are there) and the text on its pages, not its packed streams."""
    data = file.read_bytes()
    if file.suffix != ".pdf":
        return data
    text = subprocess.run(["pdftotext", str(file), "-"], capture_output=True, check=True).stdout
    return re.sub(rb"stream\r?\n.*?endstream", b"", data, flags=re.DOTALL) + text


here = pathlib.Path(__file__).resolve().parent / "cases"
program = os.path.abspath(sys.argv[1])
update = "--update" in sys.argv
names = [word for word in sys.argv[2:] if not word.startswith("--")]
failed = []
cases = sorted(folder for folder in here.iterdir() if (folder / "args").exists() and (not names or folder.name in names))

for case in cases:
    with tempfile.TemporaryDirectory(prefix="saggar-case-") as work:
        work = pathlib.Path(work).resolve()
        copy = work / "input"
        if (case / "input").exists():
            shutil.copytree(case / "input", copy, symlinks=True)
        else:
            copy.mkdir()
        if (case / "prepare").exists():
            subprocess.run(["bash", "-e", str(case / "prepare")], cwd=copy, check=True)
        words = [line.replace("@input", "input").replace("@out", "out").replace("@work", str(work)) for line in (case / "args").read_text().splitlines() if line]
        typed = (case / "stdin").read_bytes() if (case / "stdin").exists() else b""
        stand = work / ((case / "stand").read_text().strip() if (case / "stand").exists() else ".")
        by = []
        if (case / "nobody").exists() and os.geteuid() == 0:
            work.chmod(0o755)
            by = ["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups"]
        environment = dict(os.environ, NO_COLOR="1", **{"LC_ALL": "C.UTF-8"})
        try:
            done = subprocess.run([*by, program, *words], cwd=stand, input=typed, capture_output=True, timeout=60, env=environment)
        except subprocess.TimeoutExpired:
            failed.append(f"{case.name}: took longer than a minute")
            continue
        text = done.stdout.decode("utf-8", "replace")
        if done.stderr:
            text += "--- stderr\n" + done.stderr.decode("utf-8", "replace")
        if (work / "out").exists() or (work / "own").exists():
            made = sorted(p.relative_to(work).as_posix() for top in ("out", "own") for p in (work / top).rglob("*") if p.is_file())
            text += "--- files\n" + "".join(path + "\n" for path in made)
        text = text.replace(str(work), "@work")
        unwanted = (case / "absent").read_text().splitlines() if (case / "absent").exists() else []
        for file in (p for top in ("out", "own") for p in sorted((work / top).rglob("*")) if p.is_file()):
            failed += [f"{case.name}: {word} fits something in {file.name}" for word in unwanted if re.search(word.encode(), readable(file), re.IGNORECASE)]
        status = str(done.returncode)
        if update:
            (case / "expected").write_text(text)
            if status != "0":
                (case / "status").write_text(status + "\n")
            elif (case / "status").exists():
                (case / "status").unlink()
            continue
        wanted = (case / "expected").read_text() if (case / "expected").exists() else ""
        wanted_status = (case / "status").read_text().strip() if (case / "status").exists() else "0"
        if status != wanted_status:
            failed.append(f"{case.name}: exit status {status}, expected {wanted_status}\n{text}")
        elif text != wanted:
            import difflib
            difference = "".join(difflib.unified_diff(wanted.splitlines(True), text.splitlines(True), "expected", "was"))
            failed.append(f"{case.name}:\n{difference}")

for words in failed:
    print("FAILED " + words)
print(f"{len(cases) - len(failed)} passed, {len(failed)} failed")
sys.exit(1 if failed or not cases else 0)
