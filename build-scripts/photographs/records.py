"""What a piece looks like, read from the guide's YAML and from nowhere else.

Every scalar stays the text that was typed (`yes`, `1187`), as in the record language itself.
"""
import pathlib

import yaml


class Unfit(Exception):
    """The records do not say enough for a picture, or say what cannot be drawn; the text is for the author."""


def plain(value):
    """A value without the evidence beside it."""
    if isinstance(value, dict) and "is" in value:
        return plain(value["is"])
    if isinstance(value, list):
        return [plain(member) for member in value]
    return value


class Guide:
    def __init__(self, folder):
        self.folder = pathlib.Path(folder)
        self.records = {}
        for path in sorted(self.folder.rglob("*.yaml")):
            with open(path, encoding="utf-8") as file:
                for document in yaml.load_all(file, Loader=yaml.BaseLoader):
                    for record in document if isinstance(document, list) else []:
                        kind = next(iter(record))
                        self.records[kind, record[kind]] = record

    def get(self, kind, id):
        if (kind, id) not in self.records:
            raise Unfit(f"there is no {kind} `{id}`")
        return self.records[kind, id]

    def photos(self):
        return [record for (kind, _), record in sorted(self.records.items()) if kind == "photo"]


def references(photo):
    """(kind, id) of everything the photo shows, in order."""
    shows = photo.get("shows", [])
    return [tuple(text.split(":", 1)) for text in ([shows] if isinstance(shows, str) else shows)]


class Piece:
    """One specimen with all that is recorded of its looks: its own, its treatment's, its shape's, in that order."""

    def __init__(self, guide, id):
        self.record = guide.get("specimen", id)
        self.id = id
        treatment = self.record.get("treatment")
        self.treatment = guide.get("treatment", treatment) if treatment else {}
        self.shape_id = plain(self.treatment.get("shape") or self.record.get("shape"))
        self.shape = guide.get("shape", self.shape_id)
        self.form = plain(self.record.get("form"))
        self.motif = plain(self.treatment.get("motif") or self.record.get("motif") or "none")
        self.actual = self._inches(guide.get("form", self.form).get("actual"))
        self.code_seen = plain(self.record.get("code-seen", "none"))
        self.date_code = plain(self.record.get("date-code", "none"))
        self.marks = [plain(m.get("mark")) if isinstance(m, dict) else m for m in plain(self.record.get("marks")) or []]
        self.looks = [plain_look(r.get("look")) for r in (self.record, self.treatment, self.shape)]

    def look(self, feature, otherwise=None):
        for look in self.looks:
            if feature in look:
                return look[feature]
        return otherwise

    @staticmethod
    def _inches(measure):
        """`13 1/2 x 10 1/4 in` as [13.5, 10.25]; nothing where no measure is recorded."""
        if not measure or not plain(measure).endswith(" in"):
            return []
        sides = []
        for side in plain(measure)[:-3].split(" x "):
            total = 0.0
            for word in side.split():
                over, _, under = word.partition("/")
                total += float(over) / float(under or 1)
            sides.append(total)
        return sides


def plain_look(look):
    """Feature: value. Of a value that varies the first is drawn."""
    drawn = {}
    for feature, value in (look or {}).items():
        value = plain(value)
        drawn[feature] = plain(value[0]) if isinstance(value, list) else value
    return {feature: value for feature, value in drawn.items() if value != "unknown"}
