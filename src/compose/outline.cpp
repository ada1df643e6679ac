#include "compose/outline.h"

#include <algorithm>

#include "base/text.h"
#include "compose/claims.h"
#include "compose/phrases.h"
#include "compose/prose.h"
#include "compose/talk_claims.h"
#include "compose/talk_facts.h"
#include "talks/order.h"
#include "talks/timing.h"

// The problem: somebody stands at a lectern with this page, in poor light, and has a second to find a number. The choice:
// short lines under bold names, the same few parts in the same order in every segment (show, say, facts), what is told
// twice told once. The cost: the page is long, and is meant to be scrolled or turned with the talk.
namespace saggar::compose {

using document::heading;
using document::paragraph;
using document::strong;
using document::text;
using records::Value;
using talks::asClock;
using talks::SegmentTime;

namespace {

std::string titleOf(const SegmentTime& segment) {
  const Value* title = segment.segment->find("title"_f);
  const std::string words = title == nullptr || !title->said() ? std::string() : base::onOneLine(title->text);
  return words.empty() ? "Without a title" : words;
}

std::vector<RecordIndex> targetsOf(const SegmentTime& segment, records::Field field) {
  std::vector<RecordIndex> out;
  if (const Value* value = segment.segment->find(field); value != nullptr && value->said())
    for (const Value& one : value->each())
      if (one.target() != records::kNoRecord && std::find(out.begin(), out.end(), one.target()) == out.end())
        out.push_back(one.target());
  return out;
}

std::string quoted(const std::string& words) {
  return "“" + words + "”";
}

// A moment that rests on an estimate says so.
std::string moment(std::int64_t seconds, bool given) {
  return (given ? "" : "about ") + asClock(seconds);
}
std::string startOf(const SegmentTime& one) {
  return moment(one.start, one.startGiven);
}
std::string endOf(const SegmentTime& one) {
  return moment(one.start + one.length, one.startGiven && one.given);
}
std::string lengthOf(const SegmentTime& one) {
  return asClock(one.length) + (one.given ? "" : " (estimated)");
}

// "reading-tollivane" is a title typed as an id: "Reading Tollivane". What is typed as words stays.
std::string seriesInWords(std::string_view typed) {
  std::string words(typed);
  if (words.find_first_of(" ABCDEFGHIJKLMNOPQRSTUVWXYZ") != std::string::npos) return words;
  std::string out;
  for (std::string_view word : base::split(typed, '-')) {
    constexpr std::string_view kSmall[] = {"a",  "an", "and", "at", "by",  "for", "from",
                                           "in", "of", "on",  "or", "the", "to",  "with"};
    const bool small =
        !out.empty() && std::find(std::begin(kSmall), std::end(kSmall), word) != std::end(kSmall);
    out += (out.empty() ? "" : " ") + (small ? std::string(word) : capitalised(std::string(word)));
  }
  return out;
}

struct Piece {
  RecordIndex record = records::kNoRecord;
  std::vector<std::size_t> segments;  // in which it is shown
  std::string tell;                   // behind its name, where another piece has the same
};

class Outline {
 public:
  Outline(const Materials& materials, RecordIndex talk)
      : materials_(materials),
        words_(materials, nullptr),
        talk_(materials.records[talk]),
        index_(talk),
        times_(talks::timesOf(materials.chooser.collection(), talk)),
        retired_(retiredIn(materials, talk)) {}

  Composed make() {
    Document& document = made_.document;
    document.file = "outline";
    document.title = words_.plainName(index_);
    document.language = materials_.records.settings().language;
    document.authors = materials_.records.settings().authors;
    document.draft = materials_.draft;
    uses(index_);
    gatherPieces();
    head();
    runningTimes();
    onTheTable();
    notToBeSaid();
    for (std::size_t i = 0; i < times_.segments.size(); ++i) segmentBlocks(i);
    return std::move(made_);
  }

 private:
  Blocks& blocks() { return made_.document.blocks; }
  void uses(RecordIndex record) { made_.madeFrom.insert(materials_.records[record].reference()); }
  void add(Blocks more) {
    for (Block& one : more) blocks().push_back(std::move(one));
  }

  void gatherPieces() {
    for (std::size_t i = 0; i < times_.segments.size(); ++i)
      for (RecordIndex record : targetsOf(times_.segments[i], "show"_f)) {
        auto at = std::find_if(pieces_.begin(), pieces_.end(),
                               [&](const Piece& one) { return one.record == record; });
        if (at == pieces_.end()) at = pieces_.insert(pieces_.end(), {record, {}, {}});
        at->segments.push_back(i);
      }
    std::vector<RecordIndex> all;
    for (const Piece& piece : pieces_) all.push_back(piece.record);
    const std::vector<std::string> tells = tellApart(words_, all);
    for (std::size_t i = 0; i < pieces_.size(); ++i) pieces_[i].tell = tells[i];
  }

  std::size_t numberOf(RecordIndex piece) const {
    const auto at =
        std::find_if(pieces_.begin(), pieces_.end(), [&](const Piece& one) { return one.record == piece; });
    return static_cast<std::size_t>(at - pieces_.begin()) + 1;
  }

  void head() {
    blocks().push_back(heading(1, {text(words_.plainName(index_))}));
    std::vector<std::string> parts;
    if (const std::string_view series = talk_.text("series"_f); !series.empty()) {
      std::string part = seriesInWords(series);
      if (const Value* number = talk_.find("number"_f); number != nullptr && number->said())
        part += ", talk " + std::string(number->text);
      parts.push_back(std::move(part));
    }
    parts.push_back(budgetInWords());
    parts.push_back("Estimates take " + std::to_string(times_.pace) + " words a minute and " +
                    std::to_string(talks::kSecondsAPiece) + " seconds a piece");
    parts.emplace_back("A fact without a word about how well it is known is documented");
    if (const Value* recorded = talk_.find("recorded"_f))
      parts.push_back("Recorded: " + words_.shortDate(recorded));
    if (const std::string_view link = talk_.text("link"_f); !link.empty())
      parts.push_back("To be seen at " + std::string(link));
    std::string line;
    for (const std::string& part : parts) line += (line.empty() ? "" : " ") + part + ".";
    blocks().push_back(paragraph({text(std::move(line))}));
    if (const Value* note = talk_.find("note"_f); note != nullptr && note->said())
      add(words_.prose(talk_, *note));
  }

  std::string budgetInWords() const {
    const Value* budget = talk_.find("budget"_f);
    const std::string total = moment(times_.total, times_.allGiven);
    if (budget == nullptr || !budget->said()) return "No budget; the segments come to " + total;
    const std::int64_t planned = budget->number();
    std::string out = "Planned for " + asClock(planned);
    if (times_.segments.empty()) return out + "; no segment is recorded";
    out += "; the segments come to " + total;
    if (times_.total > planned) out += ", " + moment(times_.total - planned, times_.allGiven) + " too long";
    if (times_.total < planned) out += ", " + moment(planned - times_.total, times_.allGiven) + " to spare";
    return out;
  }

  void runningTimes() {
    if (times_.segments.empty()) return;
    blocks().push_back(heading(2, {text("Running times")}));
    const bool kept = std::any_of(times_.segments.begin(), times_.segments.end(), [](const SegmentTime& one) {
      return talks::keepOf(one) != talks::Keep::must;
    });
    document::Table table = tableOf({"From", "To", "Segment", "Length", "Estimate", "Pieces"});
    table.align = {document::Align::right, document::Align::right, document::Align::left,
                   document::Align::right, document::Align::right, document::Align::right};
    if (kept) {
      table.head.push_back(document::cell("Keep"));
      table.align.push_back(document::Align::left);
    }
    for (const SegmentTime& one : times_.segments) {
      std::vector<Inlines> cells{{text(startOf(one))},          {text(endOf(one))},
                                 {text(titleOf(one))},          {text(lengthOf(one))},
                                 {text(asClock(one.estimate))}, {text(std::to_string(one.pieces))}};
      if (kept) cells.push_back({text(keepInWords(one))});
      addRow(table, std::move(cells));
    }
    blocks().push_back(document::table(std::move(table)));
    if (kept) blocks().push_back(paragraph({text(whatGoesFirst())}));
  }

  static std::string keepInWords(const SegmentTime& one) {
    const talks::Keep keep = talks::keepOf(one);
    return keep == talks::Keep::must ? "must" : keep == talks::Keep::should ? "should" : "may";
  }

  std::string whatGoesFirst() const {
    std::string out = "When time is short, leave out ";
    const std::vector<std::size_t> order = talks::whatGoesFirst(times_);
    std::int64_t saved = 0;
    for (std::size_t i = 0; i < order.size(); ++i) {
      const SegmentTime& one = times_.segments[order[i]];
      saved += one.length;
      out += (i == 0 ? "" : ", then ") + quoted(titleOf(one)) + " (" + lengthOf(one) + ")";
    }
    if (order.size() > 1) out += "; together " + asClock(saved);
    return out + ".";
  }

  void onTheTable() {
    blocks().push_back(heading(2, {text("On the table")}));
    if (pieces_.empty()) {
      blocks().push_back(paragraph({text("No piece is shown.")}));
      return;
    }
    std::vector<Blocks> items;
    for (const Piece& piece : pieces_) {
      const PublishedRecord record = materials_.records[piece.record];
      uses(piece.record);
      std::vector<std::string> notes;
      std::string when = "from ";
      for (std::size_t i = 0; i < piece.segments.size(); ++i)
        when += (i == 0 ? "" : ", again from ") + startOf(times_.segments[piece.segments[i]]);
      notes.push_back(std::move(when));
      if (record.kind() != Kind::specimen) {
        notes.push_back("a picture");
      } else if (!seenInHand(record)) {
        notes.push_back("not seen in hand: have its picture");
      }
      if (const std::string_view holder = record.text("holder"_f); !holder.empty() && !isAuthor(holder))
        notes.push_back(whereHeld(holder));
      Inlines line{strong({text(words_.plainName(piece.record))})};
      put(line, piece.tell + "; " + base::joined(notes, "; "));
      items.push_back(item(std::move(line)));
    }
    blocks().push_back(document::list(std::move(items), true));
  }

  void notToBeSaid() {
    if (retired_.empty()) return;
    blocks().push_back(heading(2, {text("Not to be said any more")}));
    std::vector<Blocks> items;
    for (const Retired& one : retired_) {
      uses(one.claim);
      Inlines line = oldWordsOf(one);
      if (one.now == records::kNoRecord) {
        put(line, " Withdrawn; nothing takes its place.");
      } else {
        const PublishedRecord now = materials_.records[one.now];
        uses(one.now);
        put(line, now.text("change"_f) == "withdrawal" ? " Withdrawn: " : " Instead: ");
        if (const Value* says = now.find("says"_f); says != nullptr && says->said())
          put(line, sentenceWithNote(lineOf(words_, now, *says), claimEvidence(words_, now, true)));
      }
      std::vector<std::string> where;
      for (std::size_t segment : one.segments) where.push_back(quoted(titleOf(times_.segments[segment])));
      if (!where.empty()) put(line, " Concerns " + base::listedInWords(where) + ".");
      if (!one.said.empty()) put(line, " It was said " + one.said + ".");
      items.push_back(item(std::move(line)));
    }
    blocks().push_back(document::list(std::move(items)));
  }

  // What the speaker has at home needs no errand.
  bool isAuthor(std::string_view holder) const {
    const std::vector<std::string>& authors = materials_.records.settings().authors;
    const std::string folded = base::folded(holder);
    return folded == "author" || folded == "the author" ||
           std::any_of(authors.begin(), authors.end(),
                       [&](const std::string& one) { return base::folded(one) == folded; });
  }

  // What no longer holds: the statement itself, or the words that it corrects.
  Inlines oldWordsOf(const Retired& one) const {
    const PublishedRecord claim = materials_.records[one.claim];
    const Value* old = claim.find(one.now == one.claim ? "was"_f : "says"_f);
    Inline crossed;
    crossed.kind = document::InlineKind::struck;
    if (old != nullptr && old->said()) crossed.children = lineOf(words_, claim, *old);
    if (crossed.children.empty()) crossed.children = {text(words_.plainName(one.claim))};
    return {std::move(crossed)};
  }

  void segmentBlocks(std::size_t number) {
    const SegmentTime& segment = times_.segments[number];
    blocks().push_back(heading(2, {text(startOf(segment) + "  " + titleOf(segment))}));
    std::string line = "Until " + endOf(segment) + "; takes " + lengthOf(segment) + ".";
    if (segment.given && segment.estimate > segment.length)
      line += " The words and pieces take " + asClock(segment.estimate) + ", which is " +
              asClock(segment.estimate - segment.length) + " too long.";
    if (const std::string order = orderInWords(number); !order.empty()) line += " " + order;
    blocks().push_back(paragraph({text(std::move(line))}));
    shown(segment);
    notHere(number);
    said(segment);
    facts(segment);
  }

  // Where it does not simply follow what it builds on.
  std::string orderInWords(std::size_t number) const {
    std::string out;
    for (std::size_t on : talks::buildsOn(times_, number))
      if (on + 1 < number)
        out += (out.empty() ? "" : " ") + ("Builds on " + quoted(titleOf(times_.segments[on])) + ", " +
                                           startOf(times_.segments[on]) + ".");
    for (const talks::OrderFault& fault : talks::orderFaults(times_)) {
      if (fault.segment != number) continue;
      const std::string named = quoted(std::string(base::trimmed(fault.after->text)));
      out += (out.empty() ? "" : " ") +
             ("Out of order: it should come after " + named +
              (fault.stands ? ", which stands at " + startOf(times_.segments[*fault.stands])
                            : ", and no segment is called so") +
              ".");
    }
    return out;
  }

  void shown(const SegmentTime& segment) {
    const std::vector<RecordIndex> pieces = targetsOf(segment, "show"_f);
    if (pieces.empty()) return;
    blocks().push_back(heading(3, {text("Show")}));
    std::vector<Blocks> items;
    for (RecordIndex piece : pieces) {
      const std::size_t number = numberOf(piece);
      items.push_back(cardOnce(piece, segment, std::to_string(number) + " · ", pieces_[number - 1].tell));
    }
    blocks().push_back(document::list(std::move(items)));
  }

  void notHere(std::size_t number) {
    std::vector<Blocks> items;
    for (const Retired& one : retired_)
      if (std::find(one.segments.begin(), one.segments.end(), number) != one.segments.end())
        items.push_back(item(oldWordsOf(one)));
    if (items.empty()) return;
    blocks().push_back(heading(3, {text("Do not say")}));
    blocks().push_back(document::list(std::move(items)));
  }

  void said(const SegmentTime& segment) {
    const Value* say = segment.segment->find("say"_f);
    if (say == nullptr || !say->said()) return;
    blocks().push_back(heading(3, {text("Say")}));
    add(resolvedProse(words_, talk_, *say, {.path = {}, .indexed = {}, .picture = {}, .brief = true}));
  }

  void facts(const SegmentTime& segment) {
    std::vector<RecordIndex> about = targetsOf(segment, "about"_f);
    for (RecordIndex claim : statedIn(materials_, index_, titleOf(segment)))
      if (std::find(about.begin(), about.end(), claim) == about.end()) about.push_back(claim);
    if (about.empty()) return;
    blocks().push_back(heading(3, {text("Facts")}));
    std::vector<Blocks> items;
    for (RecordIndex record : about) items.push_back(cardOnce(record, segment, {}));
    blocks().push_back(document::list(std::move(items)));
  }

  // In full the first time; afterwards the name, and where to look.
  Blocks cardOnce(RecordIndex record, const SegmentTime& segment, const std::string& lead,
                  const std::string& tell = {}) {
    uses(record);
    const auto before =
        std::find_if(carded_.begin(), carded_.end(), [&](const auto& one) { return one.first == record; });
    if (before == carded_.end()) {
      carded_.emplace_back(record, &segment);
      return factCard(words_, record, lead, tell);
    }
    return nameCard(words_, record, lead,
                    tell + (before->second == &segment
                                ? ": see above"
                                : ": see " + startOf(*before->second) + ", " + titleOf(*before->second)));
  }

  const Materials& materials_;
  Words words_;
  PublishedRecord talk_;
  RecordIndex index_;
  talks::TalkTimes times_;
  std::vector<Retired> retired_;
  std::vector<Piece> pieces_;
  std::vector<std::pair<RecordIndex, const SegmentTime*>> carded_;
  Composed made_;
};

}  // namespace

Composed composeOutline(const Materials& materials, RecordIndex talk) {
  return Outline(materials, talk).make();
}

std::string composeChapterTimes(const Materials& materials, RecordIndex talk) {
  std::string out;
  for (const SegmentTime& segment : talks::timesOf(materials.chooser.collection(), talk).segments)
    out += asClock(segment.start) + ' ' + titleOf(segment) + '\n';
  return out;
}

}  // namespace saggar::compose
