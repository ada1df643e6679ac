#!/usr/bin/python3
"""The reference page is what the program prints now; it names every kind, field, word and block; its links lead
somewhere; and all its examples together are one guide, in which nothing is found and from which everything is made.

reference_page.py PROGRAM PROJECT
"""
import json
import pathlib
import re
import struct
import subprocess
import sys
import tempfile
import zlib

program, project = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
committed = project / "src/records/REFERENCE.md"
faults = []


def run(*words):
    return subprocess.run([program, *words], capture_output=True, text=True)


page = run("schema", "--page").stdout
if committed.read_text() != page:
    faults.append("src/records/REFERENCE.md is not what the program prints: run build-scripts/reference")

# Complete: every kind has its section, every field its row there, every word of a choice is shown.
schema = json.loads(run("schema").stdout)
sections = {title: text for title, text in re.findall(r"^#{2,3} (.*)\n((?:(?!#{2,3} ).*\n)*)", page, re.M)}
common = sections["In every record"]
EVIDENCE = {"is", "cite", "judged", "doubted", "but", "note", "complete"}
ELSEWHERE = {"codes": "Numbers and codes", "test": "Statements that test themselves"}
fields = words = 0


def mappings(spec):
    """The smaller fields that a field's value may have."""
    if not isinstance(spec, dict):
        return
    own = {name: part for name, part in spec.get("properties", {}).items() if name not in EVIDENCE and "description" in part}
    if own:
        yield own
        return
    for one in spec.get("anyOf", []):
        yield from mappings(one)
    yield from mappings(spec.get("additionalProperties"))


def choices(spec):
    if isinstance(spec, dict):
        yield from (word for word in spec.get("enum", []) if isinstance(word, str))
        for one in spec.get("anyOf", []):
            yield from choices(one)


def look(name, spec, section, where):
    global fields, words
    fields += 1
    row = re.search(rf"^\| \**`{re.escape(name)}`.*$", section, re.M)
    if not row:
        faults.append(f"{where}.{name} has no row")
        return
    for word in set(choices(spec)) - {"unknown", "none", "off"}:
        words += 1
        if f"`{word}`" not in row[0] and f"`{word}`" not in sections["Types of source"] and "a kind of record" not in row[0]:
            faults.append(f"{where}.{name}: `{word}` is not shown")


for title, definition in schema["$defs"].items():
    if not title.startswith("record-"):
        continue
    kind = title[len("record-"):]
    section = sections["The file `guide.yaml`" if kind == "guide" else kind]
    for name, spec in definition["properties"].items():
        if name == kind:
            continue
        own = section.split("\nIn `")[0]
        shared = rf"| `{name}`" in common and not re.search(rf"^\| \**`{re.escape(name)}`", own, re.M)
        look(name, spec, common if shared else own, kind)
        for inner in mappings(spec):
            inner_section = common if shared else sections[ELSEWHERE[name]] if name in ELSEWHERE else section
            for part, part_spec in inner.items():
                look(part, part_spec, inner_section, f"{kind}.{name}")
types = next(schema["$defs"]["record-source"]["properties"]["type"]["anyOf"][0]["anyOf"][0]["enum"] for _ in [0])
listed = re.findall(r"`([a-z-]+)`", "".join(re.findall(r"^\| (`.*?) \|", sections["Types of source"], re.M)))
if sorted(types) != sorted(listed):
    faults.append(f"types of source: {sorted(set(types) ^ set(listed))}")
blocks = re.search(r"kBlocks\[\] = \{(.*?)\}", (project / "src/records/tables.cpp").read_text(), re.S)[1]
for block in re.findall(r'"([a-z-]+)"', blocks):
    if f"`{block}`" not in sections["Blocks: lists in prose"]:
        faults.append(f"the block {block} is not explained")

# Its links: headings of the page, and files beside it.
anchors = set()
for heading in re.findall(r"^#{1,3} (.*)$", re.sub(r"^(`{3,}).*?^\1$", "", page, flags=re.M | re.S), re.M):
    anchors.add(re.sub(r"[^a-z0-9 -]", "", heading.lower()).replace(" ", "-"))
prose = re.sub(r"`[^`\n]*`", "", re.sub(r"^(`{3,}).*?^\1$", "", page, flags=re.M | re.S))
for address in re.findall(r"\]\(([^)]+)\)", prose):
    if address.startswith("#") and address[1:] not in anchors:
        faults.append(f"no heading for {address}")
    if not address.startswith("#") and not (committed.parent / address).exists():
        faults.append(f"no file {address}")

# The examples, taken together.
fences = re.findall(r"^(`{3,})([a-z]+)\n(.*?)^\1$", page, re.M | re.S)
records = "\n".join(text for _, kind, text in fences if kind == "yaml" and text.startswith("- "))
guide = [text for _, kind, text in fences if kind == "yaml" and text.startswith("guide:")]
chapters = [text for _, kind, text in fences if kind == "markdown"]
if (len(guide), len(chapters), sum(1 for f in fences if f[1] == "yaml")) != (1, 1, 1 + sum(1 for _, k, t in fences if k == "yaml" and t.startswith("- "))):
    faults.append("a fence of YAML is neither records nor the file guide.yaml")


def picture():
    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    rows = b"".join(b"\0" + b"\xee" * 8 for _ in range(8))
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 8, 8, 8, 0, 0, 0, 0)) + chunk(b"IDAT", zlib.compress(rows)) + chunk(b"IEND", b"")


with tempfile.TemporaryDirectory(prefix="saggar-reference-") as work:
    work = pathlib.Path(work).resolve()
    (work / "prose").mkdir()
    (work / "images").mkdir()
    (work / "guide.yaml").write_text(guide[0])
    (work / "records.yaml").write_text(records)
    (work / "prose/how-to-use.md").write_text(chapters[0])
    (work / "images/jm-018-plate.png").write_bytes(picture())
    checked = run("-C", str(work), "check")
    if checked.returncode != 0 or not checked.stdout.startswith("nothing found"):
        faults.append("the examples are not clean:\n" + checked.stdout + checked.stderr)
    made = run("-C", str(work), "make", "-o", str(work / "out"), "--own", str(work / "own"))
    published = "".join(p.read_text() for p in sorted((work / "out").rglob("*.md")))
    for wanted in ("Lattice Jessie", "JM-018-C/1", "Ferry boat", "A plate of [Jessamount]", "Breakfast set", "sprigging"):
        if made.returncode != 0 or wanted not in published:
            faults.append(f"{wanted!r} is in nothing made from the examples: {made.stdout}{made.stderr}")
    for code in re.findall(r"`saggar code \"([^\"]+)\"`", page):
        if run("-C", str(work), "code", code).returncode != 0:
            faults.append(f"the code {code} has no reading in the examples")
for date in re.findall(r"`saggar date --read \"([^\"]+)\"`", page):
    if run("date", "--read", date).returncode != 0:
        faults.append(f"the date {date} cannot be read")

for fault in faults:
    print("FAILED " + fault)
print(f"{fields} fields and {words} words of theirs on the page, {len(fences)} examples in one guide; {len(faults)} faults")
sys.exit(1 if faults or fields < 350 or words < 80 else 0)
