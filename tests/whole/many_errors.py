#!/usr/bin/python3
"""Ten thousand mistakes of many kinds at once: all are counted, the first hundred of a rule and a thousand in all are
printed, the same in words and as JSON, in bounded time; nothing is made of such a guide.

many_errors.py PROGRAM
"""
import collections
import json
import os
import pathlib
import re
import resource
import subprocess
import sys
import tempfile
import time

program = os.path.abspath(sys.argv[1])
EACH = 850
MOST_OF_A_RULE, MOST_IN_ALL = 100, 1000

# A mistake of each rule; `{n}` tells them apart.
MISTAKES = {
    "reference-missing": "- person: a{n}\n  name: Person {n}\n  see: shape:none-{n}\n",
    "field-unknown": "- person: b{n}\n  name: Person {n}\n  colour-of-eyes: blue\n",
    "kind-unknown": "- locomotive: c{n}\n  name: Engine {n}\n",
    "id-twice": "- person: d{n}\n  name: Person {n}\n- person: d{n}\n  name: Person {n} again\n",
    "field-twice": "- person: e{n}\n  name: Person {n}\n  name: Person {n} again\n",
    "value-unfit": "- person: f{n}\n  name: [Person, {n}]\n",
    "date-unreadable": "- person: g{n}\n  name: Person {n}\n  born: in the {n}th year of the works\n",
    "yaml-broken": "- person: h{n}\n  name: Person: the {n}th\n",
    "photo-missing": "- photo: i{n}\n  file: images/i{n}.png\n  alt: A plate.\n  rights: own\n",
    "path-outside": "- photo: j{n}\n  file: ../j{n}.png\n  alt: A plate.\n  rights: own\n",
    "link-unsafe": "- person: k{n}\n  name: Person {n}\n  note: See [this](javascript:alert({n})).\n",
    "link-missing": None,
}
PROSE = "See [number {n}](no-such-chapter-{n}.md).\n\n"


def write(guide):
    (guide / "prose").mkdir(parents=True)
    (guide / "guide.yaml").write_text("guide: Everything is wrong\ncontents: [prose/links.md]\n")
    (guide / "prose/links.md").write_text("# Links\n\n" + "".join(PROSE.format(n=n) for n in range(EACH)))
    for rule, record in MISTAKES.items():
        if record:
            (guide / (rule + ".yaml")).write_text("".join(record.format(n=n) for n in range(EACH)))


def run(*words):
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    done = subprocess.run([program, *words], capture_output=True, text=True, timeout=120, env=dict(os.environ, NO_COLOR="1"))
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return done, after.ru_utime - before.ru_utime + after.ru_stime - before.ru_stime


with tempfile.TemporaryDirectory() as work:
    work = pathlib.Path(work)
    guide = work / "guide"
    write(guide)

    done, seconds = run("-C", str(guide), "check", "--format", "json")
    assert done.returncode == 1, done
    # The demo's thousand records take a fraction of a second; sanitizers are ten times slower.
    assert seconds < 20, f"{seconds:.1f} s of processor time for {EACH * len(MISTAKES)} mistakes"
    answer = json.loads(done.stdout)
    shown = collections.Counter(one["rule"] for one in answer["findings"])
    total = sum(answer["counts"][severity] for severity in ("error", "warning", "note"))
    assert answer["counts"]["error"] >= 10000, answer["counts"]
    assert answer["counts"]["error"] == EACH * len(MISTAKES), answer["counts"]
    assert sum(shown.values()) == MOST_IN_ALL, shown
    assert max(shown.values()) == MOST_OF_A_RULE, shown
    assert answer["not_shown"] == total - MOST_IN_ALL, (answer["not_shown"], total)
    assert set(shown) <= set(MISTAKES), shown

    words, _ = run("-C", str(guide), "check")
    assert words.returncode == 1
    printed = collections.Counter(re.findall(r"^\S+:\d+:\d+: error: .* \[([a-z-]+)\]$", words.stdout, re.MULTILINE))
    assert printed == shown, (printed, shown)
    assert f"{total - MOST_IN_ALL} further findings not shown" in words.stdout, words.stdout[-300:]
    again, _ = run("-C", str(guide), "check")
    assert again.stdout == words.stdout, "two runs say different things"

    # One rule alone: its first hundred; each rule finds all that is its own.
    for rule in MISTAKES:
        alone, _ = run("-C", str(guide), "check", "--only", rule, "--format", "json")
        one = json.loads(alone.stdout)
        assert one["counts"]["error"] == EACH, (rule, one["counts"])
        assert [finding["rule"] for finding in one["findings"]] == [rule] * MOST_OF_A_RULE, rule
        assert one["not_shown"] == EACH - MOST_OF_A_RULE, rule

    made, _ = run("-C", str(guide), "make", "-o", str(work / "out"), "--own", str(work / "own"))
    assert made.returncode == 1, made
    assert f"the guide has {EACH * len(MISTAKES)} errors, and nothing was written" in made.stderr, made.stderr[-300:]
    assert sorted(path.name for path in work.iterdir()) == ["guide"], list(work.iterdir())

print(f"{len(MISTAKES)} passed, 0 failed")
