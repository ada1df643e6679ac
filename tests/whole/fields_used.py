#!/usr/bin/python3
"""Every field of every kind does something: taken away from a record that has it, what is made or what the checks find
is no longer the same. The records are the examples of the reference page and those of GUIDE together with fields.yaml
beside this script, which has what neither has.

fields_used.py PROGRAM PROJECT
"""
import json
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program, project = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
# Fields that nothing prints and no check wants, each with its reason.
WITHOUT = {
    "checklist.layout": "the example names the layout that is the default; the layouts' own tests have others",
    "claim.after": "the example names an event that binds it no closer",
    "specimen.after": "the example names an event that binds it no closer",
    "specimen.before": "likewise",
}
PRIVATE = {"owner", "paid", "kept"}  # never published; tests/whole/private_values.py sees to it


def run(*words):
    return subprocess.run([program, *words], capture_output=True, text=True)


def result(folder, out):
    """All that is made and found, as one value."""
    for name in ("out", "own"):
        shutil.rmtree(out / name, ignore_errors=True)
    found = run("-C", str(folder), "check", "--format", "json").stdout
    made = run("-C", str(folder), "make", "--draft", "-o", str(out / "out"), "--own", str(out / "own"))
    files = {str(p.relative_to(out)): p.read_bytes() for name in ("out", "own") for p in sorted((out / name).rglob("*")) if p.is_file() and p.name != "manifest.json"}
    return found, made.stderr, files


FIRST = re.compile(r"^- ([a-z]+): *([a-z0-9][a-z0-9-]*) *(?:#.*)?$")
FIELD = re.compile(r"^  ([a-z-]+):")


def places(text):
    """(kind, id, field, first line, line after the last) of every field of every record of a file."""
    lines = text.split("\n")
    kind = identity = None
    for at, line in enumerate(lines):
        if line.startswith("- "):
            match = FIRST.match(line)
            kind, identity = match.groups() if match else (None, None)
        field = FIELD.match(line)
        if field and kind:
            end = at + 1
            while end < len(lines) and (lines[end].startswith("   ") or not lines[end].strip()):
                end += 1
            yield kind, identity, field[1], at, end


def without(text, at, end):
    lines = text.split("\n")
    lines[at:end] = ["#"] * (end - at)  # later places stay where they are
    return "\n".join(lines)


schema = json.loads(run("schema").stdout)
wanted = {}
for title, definition in schema["$defs"].items():
    kind = title.removeprefix("record-")
    if title.startswith("record-") and kind != "guide":
        for field in definition["properties"]:
            if field != kind and field not in PRIVATE:
                wanted[f"{kind}.{field}"] = False
faults = []
tried = 0
with tempfile.TemporaryDirectory(prefix="saggar-fields-") as work:
    work = pathlib.Path(work).resolve()
    folder = work / "guide"
    shutil.copytree(project / "content", folder)
    shutil.copy(project / "tests/whole/fields.yaml", folder / "fields.yaml")
    before = result(folder, work)
    files = sorted(folder.rglob("*.yaml"), key=lambda p: (p.name != "fields.yaml", str(p)))
    for path in files:
        if path.name == "guide.yaml":
            continue
        text = path.read_text()
        attempts = {}
        for kind, identity, field, at, end in places(text):
            name = f"{kind}.{field}"
            if wanted.get(name, True) or attempts.get(name, 0) >= 3:
                continue
            attempts[name] = attempts.get(name, 0) + 1
            tried += 1
            path.write_text(without(text, at, end))
            if result(folder, work) != before:
                wanted[name] = True
            path.write_text(text)
for name, used in sorted(wanted.items()):
    if not used and name not in WITHOUT:
        faults.append(name)
    if used and name in WITHOUT:
        faults.append(f"{name} is used, and need not be listed")
for fault in faults:
    print("FAILED " + fault)
print(f"{sum(wanted.values())} of {len(wanted)} fields used, {tried} tried; {len(faults)} faults")
sys.exit(1 if faults or len(wanted) < 250 else 0)
