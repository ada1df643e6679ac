#!/usr/bin/python3
"""`saggar blank KIND` for every kind, used as an author would: with the open lines filled in and the rest left as it
stands it is accepted; every other line is accepted with its example when its `#` is taken away; and an open line that
was forgotten is told at its place.

blank_kinds.py PROGRAM GUIDE
"""
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program, guide = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()
KINDS = "maker person shape form motif treatment set mark specimen source feature claim question term photo talk checklist".split()
FILLED = {
    "name": "A name", "title": "A title", "maker": "wesperling", "ware": "flat", "shape": "jessamount", "motif": "none", "form": "plate-7",
    "on": "14 May 2019", "type": "letter", "values": "{gold: a thin gold line}", "says": "It is so.", "asks": "Is it so?",
    "means": "A word.", "file": "images/heron-plate.png", "show": "treatment", "trade": "pottery",
}
OF_READING = {"yaml-broken", "quote-open", "value-lost", "value-unfit", "field-unknown", "field-twice", "date-unreadable", "kind-unknown", "text-unfit", "yaml-too-deep", "id-twice"}
OPEN = re.compile(r"^( +(?:- )?)([a-z-]+):( *)(#.*)?$")
BEHIND = re.compile(r"^( +)# ([a-z-]+: .*)$")
faults = []


def blank(kind, name):
    return subprocess.run([program, "blank", kind, name], capture_output=True, text=True, check=True).stdout


def check(folder, files):
    for name, text in files.items():
        (folder / name).write_text(text)
    done = subprocess.run([program, "-C", str(folder), "check", "--format", "json"], capture_output=True, text=True)
    found = json.loads(done.stdout)["findings"]
    for name in files:
        (folder / name).unlink()
    return [one for one in found if one.get("file") in files]


def told(found):
    return "; ".join(f"{one['file']}:{one['line']} {one['message']} [{one['rule']}]" for one in found[:3])


def is_group(lines, at):
    """An open line whose own lines follow, further in."""
    indent = len(lines[at]) - len(lines[at].lstrip())
    following = lines[at + 1] if at + 1 < len(lines) else ""
    inner = len(following) - len(following.lstrip())
    return indent < inner < 20 and OPEN.match(following) is not None


def filled(text):
    lines = text.splitlines()
    out = []
    for at, line in enumerate(lines):
        match = OPEN.match(line)
        if match and not is_group(lines, at):
            line = f"{match[1]}{match[2]}: {FILLED[match[2]]}  {match[4] or ''}"
        out.append(line)
    return "\n".join(out) + "\n"


with tempfile.TemporaryDirectory(prefix="saggar-blank-") as folder:
    folder = pathlib.Path(folder).resolve() / "guide"
    shutil.copytree(guide, folder)
    (folder / "blank-letter.yaml").write_text("- source: source-id\n  title: A letter\n  type: letter\n")
    accepted = uncommented = forgotten = 0
    for kind in KINDS:
        text = blank(kind, "filled-in")
        found = [one for one in check(folder, {"blank.yaml": filled(text)}) if one["severity"] == "error"]
        if found:
            faults.append(f"{kind}, filled in: {told(found)}")
        accepted += 1

        lines = filled(text).splitlines()
        files = {}
        for at, line in enumerate(lines):
            match = BEHIND.match(line)
            if not match:
                continue
            changed = list(lines)
            if match[2].startswith("cite:"):
                changed[at + 1] = changed[at + 1].replace("# ", "", 1)
            changed[at] = match[1] + match[2]
            files[f"blank-{at}.yaml"] = "\n".join(changed).replace(f"- {kind}: filled-in", f"- {kind}: filled-in-{at}", 1) + "\n"
        wrong = [one for one in check(folder, files) if one["rule"] in OF_READING]
        if len(files) < 8:
            faults.append(f"{kind}: only {len(files)} lines stand behind a #")
        if wrong:
            faults.append(f"{kind}, a line uncommented: {told(wrong)}")
        uncommented += len(files)

        lines = text.splitlines()
        open_lines = [at for at, line in enumerate(lines) if OPEN.match(line) and not is_group(lines, at)]
        found = check(folder, {"blank.yaml": text})
        missed = [lines[at] for at in open_lines if not any(one["line"] == at + 1 and one["severity"] == "error" for one in found)]
        if missed:
            faults.append(f"{kind}, left open and not told: {missed}")
        forgotten += len(open_lines)

for fault in faults:
    print("FAILED " + fault)
print(f"{accepted} kinds filled in, {uncommented} lines uncommented, {forgotten} lines left open; {len(faults)} faults")
sys.exit(1 if faults or uncommented < 200 or forgotten < 17 else 0)
