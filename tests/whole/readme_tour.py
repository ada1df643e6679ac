#!/usr/bin/python3
"""The README's ten-minute tour, followed to the letter: every block is copied as it stands, every command must succeed
where the tour says so, and what the tour says is printed must be printed.

readme_tour.py PROGRAM PROJECT
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

program, project = pathlib.Path(sys.argv[1]).resolve(), pathlib.Path(sys.argv[2]).resolve()
tour = (project / "README.md").read_text().split("## A ten-minute tour")[1].split("\n## ")[0]
steps = re.split(r"\n\*\*(\d)\. ", tour)
texts = {int(number): text for number, text in zip(steps[1::2], steps[2::2])}
assert sorted(texts) == [1, 2, 3, 4, 5, 6, 7], f"the tour has the steps {sorted(texts)}"
faults = []
said = {}


def blocks(step, kind):
    return re.findall(rf"^```{kind}\n(.*?)^```", texts[step], re.M | re.S)


with tempfile.TemporaryDirectory(prefix="saggar-tour-") as work:
    work = pathlib.Path(work).resolve()
    (work / "build").mkdir()
    (work / "build" / "saggar").symlink_to(program)
    (work / "content").symlink_to(project / "content")
    guide = work / "my-guide"

    def type_in(block, folder, wanted=0):
        """Every line in one shell, which stands where the last block left it."""
        done = subprocess.run(["bash", "-c", block], cwd=folder, capture_output=True, text=True, env={**os.environ, "PATH": f"{work}/build:{os.environ['PATH']}", "NO_COLOR": "1"})
        if done.returncode != wanted:
            faults.append(f"exit status {done.returncode}, expected {wanted}:\n{block}{done.stdout}{done.stderr}")
        return done.stdout + done.stderr

    def write_down(step):
        for block in blocks(step, "yaml"):
            with open(guide / "records.yaml", "a") as file:
                file.write(block)

    def expect(words, said, where):
        if words not in said:
            faults.append(f"{where}: {words!r} is not in\n{said}")

    def change(old, new):
        text = (guide / "records.yaml").read_text()
        assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in records.yaml"
        (guide / "records.yaml").write_text(text.replace(old, new))

    expect('PATH="$PWD/build:$PATH"', steps[0], "before the first step")
    expect("nothing found in 3 records", type_in(blocks(1, "")[0], work), "step 1")
    for name in re.findall(r"`([a-z]+\.yaml)`", texts[1]):
        expect(name, str([p.name for p in guide.iterdir()]), "step 1")
    write_down(2)
    expect("# shape: ", type_in("saggar blank shape", guide), "step 2")
    write_down(3)
    expect("date-at-face-value", type_in(blocks(4, "")[0], guide), "step 4")
    expect("change `about 1932` to `1932`", texts[4], "step 4")
    change("introduced: about 1932\n", "introduced: 1932\n")
    expect(blocks(4, "")[1], type_in("saggar check", guide, 1), "step 4")
    expect("## How to put it right", type_in("saggar why date-before-shape", guide), "step 4")
    expect("`introduced: 1933`", texts[4], "step 4")
    change("introduced: 1930\n", "introduced: 1933\n")
    write_down(5)
    expect("nothing found", type_in("saggar check", guide), "step 5")
    made = type_in(blocks(6, "")[0], guide)
    for name in re.findall(r"`(out/[^`]+)`", texts[6]):
        if not (guide / name).is_file():
            faults.append(f"step 6: there is no {name} after\n{made}")
    answers = {line: type_in(line, guide) for line in blocks(7, "")[0].splitlines()}
    for line, answer in answers.items():
        if not answer.strip():
            faults.append(f"step 7: `{line}` says nothing")
    expect("Blue Rim", answers["saggar show blue-rim"], "step 7")
    expect("blue-wren-on-blue-rim", answers["saggar find wren"], "step 7")
    published = "".join(p.read_text() for p in sorted((guide / "out").rglob("*.md")))
    for words in ("Blue Rim", "Blue Wren", "BR-12", "Price List No. 4"):
        expect(words, published, "what was made")

for fault in faults:
    print("FAILED " + fault)
print(f"the tour's {len(texts)} steps followed, {len(faults)} faults")
sys.exit(1 if faults else 0)
