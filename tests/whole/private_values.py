#!/usr/bin/python3
"""No private value of the demo reaches anything published: every byte of out/ is searched, PDF streams inflated.

private_values.py PROGRAM GUIDE
"""
import pathlib
import subprocess
import sys
import tempfile

import yaml

program, guide = sys.argv[1], pathlib.Path(sys.argv[2])
PRIVATE = {"kept", "owner", "paid"}
values = set()


def texts(value):
    if isinstance(value, dict):
        for inner in value.values():
            yield from texts(inner)
    elif isinstance(value, list):
        for inner in value:
            yield from texts(inner)
    elif value is not None:
        yield str(value)


for file in sorted(guide.rglob("*.yaml")):
    document = yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader)
    for record in document if isinstance(document, list) else [document]:
        for key, value in (record or {}).items():
            if key in PRIVATE or key.startswith("my-"):
                values.update(text for text in texts(value) if len(text) >= 6)

assert len(values) >= 50, f"only {len(values)} private values in {guide}"
with tempfile.TemporaryDirectory() as work:
    work = pathlib.Path(work)
    done = subprocess.run([program, "-C", str(guide.resolve()), "make", "-o", "out", "--own", "own"], cwd=work, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    leaks = []
    count = 0
    for file in sorted((work / "out").rglob("*")):
        if not file.is_file():
            continue
        count += 1
        data = file.read_bytes()
        if file.suffix == ".pdf":
            plain = work / "plain.pdf"
            subprocess.run(["qpdf", "--qdf", "--object-streams=disable", str(file), str(plain)], check=True)
            data += plain.read_bytes()
            data += subprocess.run(["pdftotext", "-layout", str(file), "-"], check=True, capture_output=True).stdout
        for value in values:
            if value.encode() in data:
                leaks.append(f"{file.relative_to(work)}: {value}")
    shelves = "".join(file.read_text(encoding="utf-8") for file in (work / "own").rglob("pieces.md"))
    assert any(value in shelves for value in values), "no shelf reached own/: the search would find nothing"
    print("\n".join(leaks) or f"{len(values)} private values, none of them in {count} published files")
    sys.exit(1 if leaks else 0)
