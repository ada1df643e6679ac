#!/usr/bin/python3
"""What the commands print for programs: every object has the keys that are promised, in the promised order.

json_shapes.py PROGRAM GUIDE
"""
import hashlib
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

program, guide = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()
faults = []
looked = {}

# Keys in their order; a `?` behind one: absent where it does not apply.
SHAPES = {
    "check": "findings doubts counts not_shown",
    "counts": "error warning note waived",
    "finding": "rule severity record? field? file? line? column? end_line? end_column? message hint? related facts short_by_days? waived",
    "related": "file? line? column? message",
    "fact": "record field value standing? file? line? column?",
    "waived": "because file line",
    "show": "record kind name facts known_as referred_to_by stated published",
    "shown fact": "record field value standing? file line column sources proven?",
    "source": "source at?",
    "reference": "record field",
    "published": "file anchor",
    "find": "query hits",
    "hit in a record": "record field file line column excerpt score",
    "hit in prose": "file line column excerpt score",
    "code": "code readings similar? unread?",
    "reading": "maker rule parts date? earliest? latest? possible against matches",
    "part": "text means?",
    "reason": "says record? field? standing? sources? file? line? column?",
    "make": "files counts",
    "made file": "path sha256 bytes",
    "make counts": "files bytes",
    "date": "expression level plain wide doubted says",
    "bounds": "earliest latest",
    "days": "earliest latest because open",
    "because": "earliest latest",
    "event": "event value? proven likely members? contradiction",
    "member": "date ruled_out",
    "order": "answer proven likely_answer first second because settle",
    "side": "event proven",
    "settling": "event bound day then",
    "unreadable": "expression error at",
    "error": "error hint",
}


def expect(condition, words):
    if not condition:
        faults.append(words)


def shape(name, value, where):
    """`value` is an object of that name: every key known, in order, none missing."""
    looked[name] = looked.get(name, 0) + 1
    keys = SHAPES[name].split()
    order = [key.rstrip("?") for key in keys]
    needed = [key for key in keys if not key.endswith("?")]
    if not isinstance(value, dict):
        return expect(False, f"{where}: a {name} is no object: {value!r}")
    had = list(value)
    expect(all(key in order for key in had), f"{where}: a {name} has keys that it should not have: {had}")
    expect([key for key in order if key in value] == had, f"{where}: the keys of a {name} are out of order: {had}")
    expect(all(key in value for key in needed), f"{where}: a {name} has not all keys: {had}")


def run(*words, folder=None, status=0, typed=None):
    done = subprocess.run([program, *words], cwd=folder, input=typed, capture_output=True, text=True, timeout=120)
    expect(done.returncode == status, f"{' '.join(words)}: exit status {done.returncode}, expected {status}: {done.stderr[:300]}")
    return done.stdout


def objects(*words, **more):
    """The lines of an answer; each must be one object, without blanks between."""
    out = []
    for line in run(*words, **more).splitlines():
        value = json.loads(line)
        expect(json.dumps(value, ensure_ascii=False, separators=(",", ":")) == line, f"{' '.join(words)}: not one plain line: {line[:80]}")
        out.append(value)
    return out


def one(*words, **more):
    answers = objects(*words, **more)
    expect(len(answers) == 1, f"{' '.join(words)}: {len(answers)} lines in place of one")
    return answers[0] if answers else {}


DAY = re.compile(r"-?\d{4,}-\d\d-\d\d")


def check(folder, status):
    answer = one("-C", str(folder), "check", "--format", "json", status=status)
    shape("check", answer, "check")
    shape("counts", answer["counts"], "check")
    found = dict(error=0, warning=0, note=0, waived=0)
    for finding in answer["findings"]:
        where = f"check, {finding.get('rule')}"
        shape("finding", finding, where)
        expect(finding["severity"] in ("error", "warning", "note"), f"{where}: severity {finding['severity']}")
        expect(not finding["message"].endswith("."), f"{where}: a full stop: {finding['message']}")
        if "file" in finding:
            expect((folder / finding["file"]).exists(), f"{where}: there is no {finding['file']}")
            expect(finding["line"] >= 1 and finding["column"] >= 1, f"{where}: line {finding['line']}, column {finding['column']}")
            expect((finding["end_line"], finding["end_column"]) >= (finding["line"], finding["column"]), f"{where}: ends before it begins")
        for other in finding["related"]:
            shape("related", other, where)
        for fact in finding["facts"]:
            shape("fact", fact, where)
        if finding["waived"] is not None:
            shape("waived", finding["waived"], where)
        found["waived" if finding["waived"] else finding["severity"]] += 1
    for doubted in answer["doubts"]:
        expect(1 <= len(doubted) <= 4, f"check: {len(doubted)} facts to doubt")
        for fact in doubted:
            shape("fact", fact, "check, doubts")
    expect(len(answer["doubts"]) <= 20, f"check: {len(answer['doubts'])} sets to doubt")
    if answer["not_shown"] == 0:
        expect(found == answer["counts"], f"check: counts are {answer['counts']}, and {found} are shown")
    return answer


def days(value, where):
    """Bounds of an event with the reasons for each."""
    shape("days", value, where)
    shape("because", value["because"], where)
    for end in ("earliest", "latest"):
        expect(value[end] is None or DAY.fullmatch(value[end]), f"{where}: {end} is {value[end]}")
        expect((value[end] is None) == (value["because"][end] == []), f"{where}: {end} is {value[end]}, and its reasons are {value['because'][end]}")
        for reason in value["because"][end]:
            shape("reason", reason, where)
    for fact in value["open"]:
        shape("fact", fact, where)


def events():
    for event in ("shape:jessamount", "treatment:lv-plain.withdrawn", "mark:k6.used.until", "specimen:jm-203-wreath-plate-7.made"):
        answer = one("-C", str(guide), "date", event, "--format", "json")
        shape("event", answer, f"date {event}")
        days(answer["proven"], f"date {event}, proven")
        days(answer["likely"], f"date {event}, likely")
        for member in answer.get("members", []):
            shape("member", member, f"date {event}")
    for pair in (["shape:dorrimere", "shape:brathermoor-no-9"], ["shape:kelderling", "shape:jessamount"]):
        answer = one("-C", str(guide), "first", *pair, "--format", "json")
        shape("order", answer, f"first {pair}")
        for side in ("first", "second"):
            shape("side", answer[side], f"first {pair}")
            days(answer[side]["proven"], f"first {pair}, {side}")
        for reason in answer["because"]:
            shape("reason", reason, f"first {pair}")
        for settling in answer["settle"]:
            shape("settling", settling, f"first {pair}")
        expect(answer["proven"] == (answer["settle"] == []), f"first {pair}: what is decided needs nothing to settle it")


def shows():
    references = re.findall(r"^([a-z]+:[a-z0-9-]+)  ", run("-C", str(guide), "stage", "records"), re.M)
    first_of_each = {reference.split(":")[0]: reference for reference in reversed(references)}
    expect(len(first_of_each) == 17, f"show: the guide has no record of some kinds: {sorted(first_of_each)}")
    for kind, reference in first_of_each.items():
        answer = one("-C", str(guide), "show", reference, "--format", "json")
        shape("show", answer, f"show {reference}")
        expect(answer["record"] == reference and answer["kind"] == kind, f"show {reference}: it shows {answer['record']}")
        for fact in answer["facts"]:
            shape("shown fact", fact, f"show {reference}")
            for source in fact["sources"]:
                shape("source", source, f"show {reference}")
            if "proven" in fact:
                days(fact["proven"], f"show {reference}, {fact['field']}")
        for other in answer["referred_to_by"]:
            shape("reference", other, f"show {reference}")
        for place in answer["published"]:
            shape("published", place, f"show {reference}")
        expect(all(isinstance(word, str) for word in answer["known_as"] + answer["stated"]), f"show {reference}: known_as and stated are words")


def finds():
    answer = one("-C", str(guide), "find", "quince", "bough", "--format", "json")
    shape("find", answer, "find")
    expect(answer["query"] == "quince bough", f"find: the query is {answer['query']}")
    for hit in answer["hits"]:
        shape("hit in a record" if "record" in hit else "hit in prose", hit, "find")
    scores = [hit["score"] for hit in answer["hits"]]
    expect(scores == sorted(scores, reverse=True), "find: not the best first")
    expect(one("-C", str(guide), "find", "umbrella", "--format", "json") == {"query": "umbrella", "hits": []}, "find: something mentions an umbrella")


def codes():
    for text, status in (("JM-045-C/0", 0), ("JM-203-C/1", 0), ("U341", 0), ("QQ-1", 1)):
        answer = one("-C", str(guide), "code", text, "--format", "json", status=status)
        shape("code", answer, f"code {text}")
        expect(answer["code"] == text, f"code {text}: it reads {answer['code']}")
        for reading in answer["readings"]:
            shape("reading", reading, f"code {text}")
            expect(isinstance(reading["possible"], bool), f"code {text}: possible is {reading['possible']}")
            expect(reading["possible"] != bool(reading["against"]), f"code {text}: a reading that is possible has something against it, or nothing rules one out")
            for part in reading["parts"].values():
                shape("part", part, f"code {text}")
            for reason in reading["against"]:
                shape("reason", reason, f"code {text}")
            for end in ("earliest", "latest"):
                day = reading.get(end)
                expect(day is None or DAY.fullmatch(day), f"code {text}: {end} is {day}")


def makes(work):
    answer = one("-C", str(guide), "make", "--format", "json", folder=work)
    shape("make", answer, "make")
    shape("make counts", answer["counts"], "make")
    size = 0
    for made in answer["files"]:
        shape("made file", made, "make")
        path = work / made["path"] if made["path"].startswith("own/") else work / "out" / made["path"]
        data = path.read_bytes()
        size += len(data)
        expect(len(data) == made["bytes"] and hashlib.sha256(data).hexdigest() == made["sha256"], f"make: {made['path']} is not as it is told")
    expect(answer["counts"] == {"files": len(answer["files"]), "bytes": size}, f"make: counts are {answer['counts']}")
    there = {p.relative_to(work).as_posix() for top in ("out", "own") for p in (work / top).rglob("*") if p.is_file() and p.name != "manifest.json"}
    told = {made["path"] if made["path"].startswith("own/") else "out/" + made["path"] for made in answer["files"]}
    expect(there == told, f"make: told and there differ: {sorted(there ^ told)[:5]}")


def dates():
    lines = ["1935", "by 1935", "1926/1935", "..1935", "1935/..", "1935/", "about 1932?", "-0100", "spring 1937", "Y170000002", ""]
    answers = objects("date", "--read", typed="\n".join(lines) + "\n", status=1)
    expect([answer["expression"] for answer in answers] == lines, "date: not one answer a line")
    for answer in answers:
        if "error" in answer:
            shape("unreadable", answer, "date")
            expect(answer["at"] >= 1, f"date: at is {answer['at']}")
            continue
        shape("date", answer, "date")
        for name in ("plain", "wide"):
            shape("bounds", answer[name], "date")
            for day in answer[name].values():
                expect(day in ("-inf", "+inf", "unknown") or DAY.fullmatch(day), f"date: a bound is {day}")
        expect(set(answer["doubted"]) <= {"earliest", "latest"}, f"date: doubted is {answer['doubted']}")


def errors(work):
    shutil.rmtree(work / "out")
    (work / "out").mkdir()
    (work / "out" / "letters.txt").write_text("mine")
    for words in (
        ["check", "--only", "umbrella"],
        ["check", "-C", str(work / "nowhere")],
        ["show", "umbrella", "-C", str(guide)],
        ["find", "?", "-C", str(guide)],
        ["code", "", "-C", str(guide)],
        ["make", "-C", str(guide)],
        ["umbrella"],
        ["check", "--umbrella"],
        ["make", "posters"],
        ["show"],
    ):
        shape("error", one(*words, "--format", "json", folder=work, status=2), " ".join(words))


def texts():
    schema = json.loads(run("schema"))
    expect(list(schema)[0] == "$schema" and schema["$schema"] == "https://json-schema.org/draft/2020-12/schema", f"schema: it begins with {list(schema)[:2]}")
    rules = run("why").splitlines()
    expect(len(rules) > 40 and rules == sorted(rules), "why: the rules are not listed in order")
    for line in rules:
        expect(re.fullmatch(r"[a-z-]+ +(error|warning|note) +\S.*", line), f"why: {line}")
    expect(re.fullmatch(r"saggar \d+\.\d+\n", run("--version")), "--version: no number")


with tempfile.TemporaryDirectory(prefix="saggar-shapes-") as folder:
    work = pathlib.Path(folder).resolve()
    expect(check(guide, 0)["findings"], "check: the demo gives no finding to look at")
    faulty = work / "faulty"
    shutil.copytree(guide, faulty)
    (faulty / "faulty.yaml").write_text(
        "- treatment: too-early\n  shape: jessamount\n  motif: sampler-posy\n  introduced: 1901\n\n"
        "- motif: unclear\n  name: Unclear: or not\n\n- shape: Capitals\n- source: nobody-needs-me\n  title: Nothing\n  type: book\n  date: 19x5\n"
    )
    expect(len(check(faulty, 1)["findings"]) > 5, "check: the faulty guide gives too few findings to look at")
    shows()
    finds()
    codes()
    makes(work)
    dates()
    events()
    errors(work)
    texts()

for name in SHAPES:
    expect(looked.get(name), f"no {name} was looked at")
for fault in faults[:40]:
    print("FAILED " + fault)
print(f"{sum(looked.values())} objects looked at, {len(faults)} faults")
sys.exit(1 if faults else 0)
