#!/usr/bin/python3
"""Every date that is printed as proven or likely can be traced: to an event that `saggar date` gives the same bound for,
with a chain of reasons, each of which stands in its file where it is said to, with sources that are on record.

dates_traced.py PROGRAM GUIDE
"""
import calendar
import collections
import concurrent.futures
import copy
import datetime
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

import yaml

program, content = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()
MONTHS = list(calendar.month_name)[1:]
DAY = rf"(?:(?:\d{{1,2}} )?(?:{'|'.join(MONTHS)}) )?\d{{4}}"
DAYS = rf"(?:by (?:the end of )?{DAY}|{DAY} or later|{DAY}(?: to {DAY})?)"
PRINTED = re.compile(rf"({DAYS}), (proven)\b|\b(proven|likely) (?:begun |ended )?({DAYS})|\b(Proven): ({DAYS})")

LINK = r"\[[^\]]*\]\([^)#]*#([a-z]+)-([^)]+)\)"
# A row of a timeline: what is proven stands there without the word.
DATED = re.compile(rf"\| ({DAYS})?(?:, )?(?:likely ({DAYS}))? \| {LINK}, ")


def run(*arguments):
    return subprocess.run([program, "-C", str(content), *arguments], capture_output=True, text=True)


# --- what is printed

def first_and_last(words):
    """`October 1934`: its first and its last day."""
    *day, year = words.split()
    year, month = int(year), MONTHS.index(day[-1]) + 1 if day else 0
    if len(day) == 2:
        return (f"{year:04}-{month:02}-{int(day[0]):02}",) * 2
    last = calendar.monthrange(year, month or 12)[1]
    return f"{year:04}-{month or 1:02}-01", f"{year:04}-{month or 12:02}-{last:02}"


def days_in(words):
    """The earliest and the latest day that a reader takes from the words; None for an end that they leave open."""
    if words.startswith("by "):
        return None, first_and_last(words.removeprefix("by ").removeprefix("the end of "))[1]
    if words.endswith(" or later"):
        return first_and_last(words.removesuffix(" or later"))[0], None
    ends = words.split(" to ")
    return first_and_last(ends[0])[0], first_and_last(ends[-1])[1]


def printed_in(text, records, names):
    """Each bound in words, with the records that it can be meant of: of a row of a table or an item of a list the one that
    it begins with, else the one whose anchor or heading stands last before it."""
    last = []
    for line in text.splitlines():
        row = re.match(rf"(?:\||\s*-) {LINK}", line)
        dated = DATED.match(line)
        heading = re.match(r"- (?:[\d–]+ · )?\*\*(.+?)\*\*", line)
        anchors = list(re.finditer(r'<a id="([a-z]+)-([^"]+)"></a>', line))
        if heading and heading[1] in names:
            last = names[heading[1]]
        if dated:
            for words, standing in ((dated[1], "proven"), (dated[2], "likely")):
                if words:
                    yield words, standing, [f"{dated[3]}:{dated[4]}"], line
            continue
        for at in PRINTED.finditer(line):
            before = [one for one in anchors if one.start() < at.start()]
            if before:
                last = [f"{before[-1][1]}:{before[-1][2]}"]
            owners = [f"{row[1]}:{row[2]}"] if row else last
            yield at[1] or at[4] or at[6], (at[2] or at[3] or at[5]).lower(), [one for one in owners if one in records], line
        if anchors:
            last = [f"{anchors[-1][1]}:{anchors[-1][2]}"]


def untraced(printed, answers):
    """What is printed of no event of its record; and the events of which the rest is printed."""
    faults, events = [], set()
    for words, standing, owners, line in printed:
        days = days_in(words)
        of = {event for owner in owners for event, answer in answers.items() if event.startswith(owner + ".")
              if all(day is None or answer[standing][end] == day for day, end in zip(days, ("earliest", "latest")))}
        if not of:
            faults.append(f"{words} ({standing}) is no bound of {' or '.join(owners) or 'any record'}: {line.strip()[:200]}")
        events |= of
    return faults, events


# --- where the reasons stand

class Files:
    """Where each field of each record stands, by another reader of YAML."""

    def __init__(self, folder):
        self.fields, self.records = collections.defaultdict(set), set()
        for path in sorted(folder.rglob("*.yaml")):
            for document in yaml.compose_all(path.read_text()):
                for record in document.value if isinstance(document, yaml.SequenceNode) else []:
                    kind, name = record.value[0]
                    reference = f"{kind.value}:{name.value}"
                    self.records.add(reference)
                    for key, value in record.value:
                        self.fields[reference, key.value] |= set(self.places(str(path.relative_to(folder)), value))

    def places(self, path, node):
        yield path, node.start_mark.line + 1, node.start_mark.column + 1
        if isinstance(node, yaml.SequenceNode):
            for item in node.value:
                yield from self.places(path, item)
        elif isinstance(node, yaml.MappingNode):
            for key, value in node.value:
                yield from self.places(path, key)
                yield from self.places(path, value)


def untold(event, answer, files):
    """What is wrong with the reasons of an event's bounds."""
    for which in ("proven", "likely"):
        for end in ("earliest", "latest"):
            chain, where = answer[which]["because"][end], f"{event}, {which} {end}"
            if (answer[which][end] is None) != (not chain):
                yield f"{where}: {answer[which][end]} with {len(chain)} reasons"
            for reason in chain:
                place = reason["file"], reason["line"], reason["column"]
                if place not in files.fields[reason["record"], reason["field"]]:
                    yield f"{where}: `{reason['field']}` of {reason['record']} does not stand at {place}: {reason['says']}"
                for source in reason["sources"]:
                    if source["source"] not in files.records:
                        yield f"{where}: {source['source']} is not on record"
                own = reason["record"].split(":")[0] in ("specimen", "source")  # a piece and a source speak for themselves
                if reason["standing"] in ("documented", "supported", "suggested") and not reason["sources"] and not own:
                    yield f"{where}: {reason['standing']}, without a source: {reason['says']}"


# --- the demo

def bounds_of_all():
    """The bounds of every event, as the stage that reasons hands them on."""
    bounds, record = {}, None
    for line in run("stage", "bounds").stdout.splitlines():
        if not line.startswith(" "):
            record = line.split("  ")[0]
        elif at := re.match(r"  (\S+) +proven (\S+)/(\S+) +likely (\S+)/(\S+)", line):
            days = [None if day == ".." else day for day in at.groups()[1:]]
            bounds[f"{record}.{at[1]}"] = dict(proven=tuple(days[:2]), likely=tuple(days[2:]))
    return bounds


def answer_for(event):
    done = run("date", event, "--format", "json")
    assert done.returncode in (0, 1), f"{event}: {done.stdout}{done.stderr}"
    return event, json.loads(done.stdout)


def name_of(reference):
    return reference, json.loads(run("show", reference, "--format", "json").stdout)["name"]


files = Files(content)
all_bounds = bounds_of_all()
dated = [event for event, of in all_bounds.items() if any(of["proven"] + of["likely"])]
names = collections.defaultdict(list)
with concurrent.futures.ThreadPoolExecutor(2) as workers:
    answers = dict(workers.map(answer_for, dated))
    for reference, name in workers.map(name_of, sorted({event.split(".")[0] for event in dated})):
        names[name].append(reference)
with tempfile.TemporaryDirectory() as folder:
    made = run("make", "-o", f"{folder}/out", "--own", f"{folder}/own")
    assert made.returncode == 0, made.stderr
    pages = {path.relative_to(folder): path.read_text() for path in sorted(pathlib.Path(folder).rglob("*.md"))}
printed = [one for text in pages.values() for one in printed_in(text, files.records, names)]

faults, events = untraced(printed, answers)
for event, answer in answers.items():
    for which in ("proven", "likely"):
        if (answer[which]["earliest"], answer[which]["latest"]) != all_bounds[event][which]:
            faults.append(f"{event}: `saggar date` gives other {which} days than the stage that reasons")
    faults += untold(event, answer, files)


# Each of these must be noticed.
def must_fail(what, broken):
    if not broken:
        faults.append(f"not noticed: {what}")


event = sorted(event for event in events if answers[event]["proven"]["latest"])[0]
wrong = copy.deepcopy(answers)
day = datetime.date.fromisoformat(wrong[event]["proven"]["latest"]) + datetime.timedelta(1)
wrong[event]["proven"]["latest"] = day.isoformat()
must_fail("a bound a day later than it is printed", untraced(printed, wrong)[0])
for key, value in (("line", 1), ("column", 99), ("field", "note"), ("sources", [{"source": "source:no-such-book"}])):
    wrong = copy.deepcopy(answers[event])
    wrong["proven"]["because"]["latest"][0][key] = value
    must_fail(f"a reason with another {key}", list(untold(event, wrong, files)))
wrong = copy.deepcopy(answers[event])
wrong["proven"]["because"]["latest"] = []
must_fail("a bound without a reason", list(untold(event, wrong, files)))

if len(printed) < 80 or len(events) < 50 or len(answers) < 300:
    faults.append("too few to be worth comparing")
for fault in faults:
    print("FAILED " + fault)
print(f"{len(printed)} printed bounds of {len(events)} events; {len(answers)} events with their reasons, {len(faults)} faults")
sys.exit(1 if faults else 0)
