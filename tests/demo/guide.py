#!/usr/bin/python3
"""The demo guide, made and read again with another reader of Markdown (cmark-gfm): every link leads somewhere, every
record is described once, and every row of a table and every statement names its source or says that it has none.

guide.py PROGRAM GUIDE
"""
import collections
import html.parser
import pathlib
import re
import subprocess
import sys
import tempfile
import urllib.parse

import yaml

program, content = sys.argv[1], pathlib.Path(sys.argv[2])
faults = []

# Types whose citations want a place in the source (the record language's table of source types).
WANTS_PLACE = {"decoration-book", "factory-record", "ledger", "price-list", "catalogue", "leaflet", "interview", "letter", "observation",
               "newspaper", "directory", "copy", "book", "article", "museum-object", "newsletter", "sale", "post", "website",
               "recording", "hearsay"}


class Page(html.parser.HTMLParser):
    """What a reader's program finds on a page: anchors, links, pictures, rows of tables, items of lists."""

    def __init__(self, text):
        super().__init__()
        self.anchors, self.links, self.pictures, self.rows, self.items, self.tables = [], [], [], [], [], 0
        self.open, self.in_head = [], False
        self.feed(text)

    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        if tag == "a" and "id" in attributes:
            self.anchors.append(attributes["id"])
            for block in self.open:
                block["anchors"].append(attributes["id"])
        elif tag == "a" and "href" in attributes:
            self.links.append(attributes["href"])
            for block in self.open:
                block["links"].append((attributes["href"], len(block["text"])))
        elif tag == "img":
            self.pictures.append((attributes.get("src", ""), attributes.get("alt", "")))
        elif tag == "table":
            self.tables += 1
        elif tag == "thead":
            self.in_head = True
        elif tag in ("tr", "li"):
            self.open.append({"tag": tag, "head": self.in_head, "text": "", "links": [], "anchors": [], "cells": []})
        elif tag in ("td", "th") and self.open:
            self.open[-1]["cells"].append("")

    def handle_endtag(self, tag):
        if tag == "thead":
            self.in_head = False
        elif tag in ("tr", "li") and self.open:
            block = self.open.pop()
            (self.rows if tag == "tr" else self.items).append(block)

    def handle_data(self, data):
        for block in self.open:
            block["text"] += data
        if self.open and self.open[-1]["cells"]:
            self.open[-1]["cells"][-1] += data


def fault(file, words):
    faults.append(f"{file}: {words}")


def records_of(folder):
    for file in sorted(folder.rglob("*.yaml")):
        if file.name == "guide.yaml":
            continue
        for record in yaml.load(file.read_text(encoding="utf-8"), Loader=yaml.BaseLoader) or []:
            kind = next(iter(record))
            yield kind, record[kind], record


with tempfile.TemporaryDirectory() as work:
    work = pathlib.Path(work)
    done = subprocess.run([program, "-C", str(content.resolve()), "make", "guide", "-o", "out"], cwd=work, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    folder = work / "out" / "guide"
    pages = {}
    for file in sorted(folder.glob("*.md")):
        made = subprocess.run(["cmark-gfm", "--unsafe", "-e", "table", "-e", "strikethrough", "-e", "footnotes", str(file)],
                              capture_output=True, check=True)
        pages[file.name] = Page(made.stdout.decode("utf-8"))
    for needed in ("README.md", "sources.md", "index.md"):
        assert needed in pages, f"{needed} was not made"

    # Every link, and every picture.
    links = 0
    for name, page in pages.items():
        for anchor, count in collections.Counter(page.anchors).items():
            if count > 1:
                fault(name, f"the anchor {anchor} stands {count} times")
        for href in page.links:
            if re.match(r"(https?|mailto):", href):
                continue
            links += 1
            path, _, anchor = urllib.parse.unquote(href).partition("#")
            target = pages.get(path or name)
            if target is None:
                fault(name, f"a link to {href}: no such file")
            elif anchor and anchor not in target.anchors:
                fault(name, f"a link to {href}: no such place")
        for source, words in page.pictures:
            if not (folder / source).is_file():
                fault(name, f"the picture {source} is not there")
            if not words.strip():
                fault(name, f"the picture {source} has no words")
    assert links > 1000, f"only {links} links"

    # Every record has one home.
    known = {f"{kind}-{ident}": (kind, record) for kind, ident, record in records_of(content)}
    where = collections.defaultdict(list)
    for name, page in pages.items():
        for anchor in page.anchors:
            where[anchor].append(name)
    for anchor, (kind, _) in known.items():
        if len(where[anchor]) != 1:
            fault("guide", f"{anchor} is described {len(where[anchor])} times: {', '.join(where[anchor])}")
        if kind == "source" and where[anchor] != ["sources.md"]:
            fault("guide", f"{anchor} does not stand in sources.md")

    # Every row and every statement has a citation that leads to its source, with the place in it where the source has
    # places, or says that it has none.
    def evidence(name, what, text, links):
        said = re.search(r"no source recorded|the author’s judgement|the author's judgement|not recorded: no source", text) is not None
        cited = 0
        for href, at in links:
            path, _, anchor = urllib.parse.unquote(href).partition("#")
            kind, record = known.get(anchor, (None, None))
            if kind in ("specimen", "photo"):
                cited += 1
            if kind != "source":
                continue
            cited += 1
            if (path or name) != "sources.md":
                fault(name, f"{what}: the citation {href} does not lead to sources.md")
            title = re.match(r"[^;)]*", text[at:]).group(0)
            if record["type"] in WANTS_PLACE and "," not in title and " and " not in title:
                fault(name, f"{what}: no place in {anchor}: {text[at:at + 80]!r}")
        if not cited and not said:
            fault(name, f"{what}: no source, and no word of it: {text[:120]!r}")
        return cited

    rows = statements = cited_rows = 0
    for name, page in pages.items():
        for row in page.rows:
            if row["head"]:
                continue
            filled = [cell for cell in row["cells"] if cell.strip()]
            if len(filled) == 1 and len(row["cells"]) > 1:  # the heading of a group
                continue
            rows += 1
            cited_rows += evidence(name, "row " + row["text"][:30], row["text"], row["links"]) > 0
        for item in page.items:
            claims = [anchor for anchor in item["anchors"] if anchor.startswith("claim-")]
            if claims:
                statements += 1
                evidence(name, claims[0], item["text"], item["links"])
    corrections = re.split(r"(?m)^## ", (folder / "corrections.md").read_text(encoding="utf-8"))[1:]
    for one in corrections:
        shown = re.search(r"(?m)^\*\*Evidence\.\*\* (.*)$", one)
        if not shown or not re.search(r"\(sources\.md#source-|no source recorded|the author's judgement", shown.group(1)):
            fault("corrections.md", "a correction without evidence: " + one.splitlines()[0])
    assert len(corrections) >= 6, f"{len(corrections)} corrections"
    assert rows > 300 and cited_rows > 250, f"{rows} rows, {cited_rows} cited"
    assert statements >= 10, f"{statements} statements"

    print("\n".join(faults) or f"{len(pages)} pages, {links} links, {rows} rows and {statements} statements are sound")
    sys.exit(1 if faults else 0)
