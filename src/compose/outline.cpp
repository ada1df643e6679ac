#include "compose/outline.h"

#include <algorithm>

#include "base/text.h"
#include "compose/talk_facts.h"
#include "compose/words.h"
#include "talks/timing.h"

namespace saggar::compose {

using document::heading;
using document::paragraph;
using document::strong;
using document::text;
using records::Value;
using talks::asClock;

namespace {

void put(Inlines& out, Inlines more) { out.insert(out.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end())); }

std::string wordsOf(const Value& mapping, records::Field field) {
  const Value* value = mapping.find(field);
  return value == nullptr || !value->said() ? std::string() : std::string(value->text);
}

std::vector<RecordIndex> targetsOf(const Value& mapping, records::Field field) {
  std::vector<RecordIndex> out;
  if (const Value* value = mapping.find(field); value != nullptr && value->said())
    for (const Value& one : value->each())
      if (one.target() != records::kNoRecord) out.push_back(one.target());
  return out;
}

std::string span(const talks::SegmentTime& segment) { return asClock(segment.start) + " to " + asClock(segment.start + segment.length); }

class Outline {
 public:
  Outline(const Materials& materials, RecordIndex talk)
      : materials_(materials), words_(materials, nullptr), talk_(materials.records[talk]), index_(talk), times_(talks::timesOf(materials.chooser.collection(), talk)) {}

  Composed make() {
    Document& document = made_.document;
    document.file = "outline";
    document.title = words_.plainName(index_);
    document.language = materials_.records.settings().language;
    document.authors = materials_.records.settings().authors;
    document.draft = materials_.draft;
    made_.madeFrom.insert(talk_.reference());
    head();
    runningTimes();
    onTheTable();
    notToBeSaid();
    for (const talks::SegmentTime& segment : times_.segments) segmentBlocks(segment);
    return std::move(made_);
  }

 private:
  Blocks& blocks() { return made_.document.blocks; }

  void head() {
    blocks().push_back(heading(1, {text(words_.plainName(index_))}));
    std::vector<std::string> parts;
    if (const std::string_view series = talk_.text("series"_f); !series.empty()) {
      std::string part(series);
      std::replace(part.begin(), part.end(), '-', ' ');
      if (const Value* number = talk_.find("number"_f)) part += ", talk " + std::string(number->text);
      parts.push_back("Series: " + part);
    }
    const Value* budget = talk_.find("budget"_f);
    if (budget != nullptr && budget->said()) parts.push_back("planned " + asClock(budget->number()));
    parts.push_back("segments come to " + asClock(times_.total) + (times_.allGiven ? "" : ", partly estimated"));
    parts.push_back("pace " + std::to_string(times_.pace) + " words a minute");
    if (const Value* recorded = talk_.find("recorded"_f)) parts.push_back("recorded " + words_.shortDate(recorded));
    blocks().push_back(paragraph({text(base::joined(parts, "; ") + ".")}));
    if (const Value* note = talk_.find("note"_f))
      for (Block& block : words_.prose(talk_, *note)) blocks().push_back(std::move(block));
  }

  void runningTimes() {
    blocks().push_back(heading(2, {text("Running times")}));
    document::Table table;
    table.head = {document::cell("From"), document::cell("To"), document::cell("Segment"), document::cell("Length"), document::cell("Keep"), document::cell("Words"), document::cell("Pieces")};
    table.align = {document::Align::right, document::Align::right, document::Align::left, document::Align::right, document::Align::left, document::Align::right, document::Align::right};
    for (const talks::SegmentTime& segment : times_.segments) {
      document::Row row;
      row.cells.push_back(document::cell(asClock(segment.start)));
      row.cells.push_back(document::cell(asClock(segment.start + segment.length)));
      row.cells.push_back(document::cell(wordsOf(*segment.segment, "title"_f)));
      row.cells.push_back(document::cell(asClock(segment.length) + (segment.given ? "" : " (estimated)")));
      const std::string keep = wordsOf(*segment.segment, "keep"_f);
      row.cells.push_back(document::cell(keep.empty() ? "must" : keep));
      row.cells.push_back(document::cell(std::to_string(segment.words)));
      row.cells.push_back(document::cell(std::to_string(segment.pieces)));
      table.rows.push_back(std::move(row));
    }
    blocks().push_back(document::table(std::move(table)));
  }

  void onTheTable() {
    std::vector<RecordIndex> pieces;
    std::vector<std::string> when;
    for (const talks::SegmentTime& segment : times_.segments)
      for (RecordIndex piece : targetsOf(*segment.segment, "show"_f)) {
        const auto at = std::find(pieces.begin(), pieces.end(), piece);
        const std::string start = asClock(segment.start);
        if (at == pieces.end()) {
          pieces.push_back(piece);
          when.push_back(start);
        } else {
          when[static_cast<std::size_t>(at - pieces.begin())] += ", again at " + start;
        }
      }
    blocks().push_back(heading(2, {text("On the table")}));
    if (pieces.empty()) {
      blocks().push_back(paragraph({text("No piece is shown.")}));
      return;
    }
    blocks().push_back(paragraph({text("In the order in which they are taken up:")}));
    std::vector<Blocks> items;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      made_.madeFrom.insert(materials_.records[pieces[i]].reference());
      items.push_back({paragraph({text(words_.plainName(pieces[i]) + " (" + when[i] + ")")})});
    }
    blocks().push_back(document::list(std::move(items), true));
  }

  void notToBeSaid() {
    const std::vector<Retired> retired = retiredAbout(materials_, recordsOfTalk(materials_, index_));
    if (retired.empty()) return;
    blocks().push_back(heading(2, {text("Not to be said any more")}));
    std::vector<Blocks> items;
    for (const Retired& one : retired) {
      const PublishedRecord claim = materials_.records[one.claim];
      made_.madeFrom.insert(claim.reference());
      Inline crossed;
      crossed.kind = document::InlineKind::struck;
      const Value* old = one.by == one.claim ? claim.find("was"_f) : claim.find("says"_f);
      if (old != nullptr) crossed.children = words_.proseLine(claim, *old);
      Inlines line{std::move(crossed)};
      if (one.by == records::kNoRecord) {
        line.push_back(text(" Withdrawn."));
      } else {
        const PublishedRecord now = materials_.records[one.by];
        made_.madeFrom.insert(now.reference());
        line.push_back(text(" Instead: "));
        if (const Value* says = now.find("says"_f)) put(line, words_.proseLine(now, *says));
        line.push_back(text(" ("));
        put(line, words_.evidenceOfRecord(now));
        line.push_back(text(")"));
      }
      items.push_back({paragraph(std::move(line))});
    }
    blocks().push_back(document::list(std::move(items)));
  }

  void segmentBlocks(const talks::SegmentTime& segment) {
    const std::string title = wordsOf(*segment.segment, "title"_f);
    blocks().push_back(heading(2, {text(span(segment) + "  " + title)}));
    const auto pieces = targetsOf(*segment.segment, "show"_f);
    if (!pieces.empty()) {
      blocks().push_back(paragraph({strong({text("Show")})}));
      factList(pieces);
    }
    const auto about = targetsOf(*segment.segment, "about"_f);
    if (!about.empty()) {
      blocks().push_back(paragraph({strong({text("Facts")})}));
      factList(about);
    }
    if (const Value* say = segment.segment->find("say"_f); say != nullptr && say->said()) {
      blocks().push_back(paragraph({strong({text("Say")})}));
      for (Block& block : words_.prose(talk_, *say)) blocks().push_back(std::move(block));
    }
  }

  void factList(const std::vector<RecordIndex>& records) {
    std::vector<Blocks> items;
    for (RecordIndex record : records) {
      made_.madeFrom.insert(materials_.records[record].reference());
      items.push_back({paragraph(factLine(words_, record))});
    }
    blocks().push_back(document::list(std::move(items)));
  }

  const Materials& materials_;
  Words words_;
  PublishedRecord talk_;
  RecordIndex index_;
  talks::TalkTimes times_;
  Composed made_;
};

}  // namespace

Composed composeOutline(const Materials& materials, RecordIndex talk) { return Outline(materials, talk).make(); }

std::string composeChapterTimes(const Materials& materials, RecordIndex talk) {
  std::string out;
  for (const talks::SegmentTime& segment : talks::timesOf(materials.chooser.collection(), talk).segments)
    out += asClock(segment.start) + ' ' + wordsOf(*segment.segment, "title"_f) + '\n';
  return out;
}

}  // namespace saggar::compose
