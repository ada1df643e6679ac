#include "records/table_parts.h"

// What is said to readers: claims, questions, terms, talks, checklists, and the guide itself.
namespace saggar::records {
namespace {

using enum FieldType;
using tables::group;
using tables::groupMap;
using tables::of;
using tables::oneOf;
using tables::ref;

constexpr std::string_view kClaimStatus[] = {"held", "supposed", "doubted", "withdrawn"};
constexpr std::string_view kChanges[] = {"erratum", "corrigendum", "addendum", "update", "withdrawal"};
constexpr std::string_view kWeighs[] = {"misleading", "minor"};
constexpr std::string_view kQuestionStatus[] = {"open", "settled"};
constexpr std::string_view kKeep[] = {"must", "should", "may"};
constexpr std::string_view kHemispheres[] = {"north", "south"};
constexpr std::string_view kUnits[] = {"both", "inches", "metric"};
constexpr std::string_view kKinds[] = {"maker",    "person", "shape",    "form",   "motif",    "treatment",
                                       "set",      "mark",   "specimen", "source", "feature",  "claim",
                                       "question", "term",   "photo",    "talk",   "checklist"};

constexpr FieldSpec kStated[] = {
    of("edition"_f, number, kOne, "the edition it stood in", "1"),
    ref("talk"_f, KindSet(Kind::talk), kOne, "the talk it was said in", "twelve-shapes"),
    of("at"_f, text, kOne, "the exact place", "p. 41"),
};
constexpr FieldSpec kBelongs[] = {
    of("edition"_f, number, kRequired, "the edition it belongs in", "1"),
    of("at"_f, text, kOne, "the exact place", "p. 102"),
};
constexpr FieldSpec kTest[] = {
    oneOf("every"_f, kKinds, kOne, "every record of the kind that is `where` must be `has`", "shape"),
    oneOf("no"_f, kKinds, kOne, "no record of the kind that is `where` may be `has`", "treatment"),
    oneOf("some"_f, kKinds, kOne, "some record of the kind must be both", "specimen"),
    oneOf("count"_f, kKinds, kOne, "how many records of the kind are both", "treatment"),
    of("makes"_f, text, kOne, "the number or range that `count` must give", "3 to 5"),
    of("where"_f, where, kOne, "the records looked at", "{maker: wesperling}"),
    of("has"_f, where, kOne, "what they must be", "{look.finial: slot}"),
    of("before"_f, event, kMany, "two events, of which the first must be the earlier", "[shape:a, shape:b]"),
    of("same"_f, comparison, kOne, "two records and a field that must be alike", "[shape:a, shape:b, maker]"),
    of("differ"_f, comparison, kOne, "two records and a field that must differ",
       "[shape:a, shape:b, look.handle]"),
};
constexpr FieldSpec kSays[] = {
    of("says"_f, prose, kRequired, "what speaks for it or against it", "The book has it in a later hand."),
};
constexpr FieldSpec kSegment[] = {
    of("title"_f, text, kRequired, "the segment's title", "Copied serials"),
    ref("about"_f, KindSet::any(), kMany, "the records it is about", "[treatment:jm-045, shape:jessamount]"),
    ref("show"_f, KindSet::any(), kMany, "the pieces to hold up: specimens, or any record with a photo",
        "[specimen:jm-045-baker]"),
    of("after"_f, text, kMany, "segments that must come before, by title", "[Opening]"),
    oneOf("keep"_f, kKeep, kOne, "what goes first when time is short; must unless written", "should"),
    of("time"_f, clock, kOne, "how long; left out, it is estimated", "6:00"),
    of("say"_f, prose, kOne, "the words, or notes for them", "Turn the plate over and look for the boat."),
};
constexpr FieldSpec kEdition[] = {
    of("title"_f, text, kOne, "the title it had", "Tableware of Tollivane"),
    of("date"_f, moment, kRequired, "when it came out", "2019"),
};
constexpr FieldSpec kSettings[] = {
    of("circa"_f, length, kOne, "how far `about` reaches either way; 5y unless written", "5y"),
    oneOf("hemisphere"_f, kHemispheres, kOne, "whose seasons; north unless written", "north"),
    of("language"_f, text, kOne, "the guide's language; en-GB unless written", "en-GB"),
    oneOf("units"_f, kUnits, kOne, "both unless written", "both"),
    of("pace"_f, number, kOne, "spoken words a minute; 130 unless written", "130"),
    of("layout"_f, text, kOne, "the checklists' layout", "checklist"),
};
constexpr FieldSpec kWaiver[] = {
    of("rule"_f, text, kRequired, "the rule of the finding", "code-shared"),
    ref("record"_f, KindSet::any(), kOne, "the record it names", "treatment:jm-045"),
    ref("records"_f, KindSet::any(), kMany, "or all the records it names",
        "[treatment:jm-203-wreath, treatment:jm-203-wren]"),
    of("file"_f, path, kOne, "or, where it stands at no record, the file of prose it stands in",
       "prose/the-firm.md"),
    of("because"_f, text, kRequired, "why it may stand", "an open question; see the chapter on numbers"),
};

constexpr FieldSpec kClaim[] = {
    of("says"_f, prose, kRequired | kEssential, "the statement", "Ring handles came only with slot finials."),
    ref("about"_f, KindSet::any(), kMany, "the records it is about", "[shape:linnavere, shape:sorrendale]"),
    oneOf("status"_f, kClaimStatus, kOne, "held unless written (supposed is likely, and no more)",
          "supposed"),
    of("was"_f, prose, kOne, "the words it corrects", "Ring handles are found on all coupe shapes."),
    ref("replaces"_f, KindSet(Kind::claim), kMany, "the claim it corrects", "handles-of-1974"),
    oneOf("change"_f, kChanges, kOne,
          "what kind of correction it is (an erratum mends a slip in the making, a corrigendum the author's "
          "own error)",
          "corrigendum"),
    of("because"_f, prose, kOne, "why", "A cup of 1936 turned up."),
    of("against"_f, citations, kMany, "sources that speak against it", "[dunnavick-1974]"),
    oneOf("weighs"_f, kWeighs, kOne, "whether the old words misled anybody, or matter little", "minor"),
    of("issued"_f, moment, kDated, "when it was made known", "2 May 2020"),
    group("stated"_f, kStated, kMany, "where it was said", "{edition: 1, at: p. 41}"),
    group("belongs"_f, kBelongs, kMany, "where an addendum would have stood", "{edition: 1, at: p. 102}"),
    group("test"_f, kTest, kMany | kMapping, "how the program can test it",
          "{every: shape, where: {maker: wesperling}, has: {withdrawn: ../1968}}"),
};
constexpr FieldSpec kQuestion[] = {
    of("asks"_f, prose, kRequired | kEssential, "the question", "What does TR-6 mean?"),
    ref("about"_f, KindSet::any(), kMany, "the records it is about", "[specimen:jm-045-baker]"),
    group("for"_f, kSays, kMany, "what speaks for it", "{says: the book has it, cite: decoration-books}"),
    group("against"_f, kSays, kMany, "what speaks against it",
          "{says: no book has it, cite: decoration-book-7}"),
    of("would-settle"_f, prose, kMany, "what would settle it",
       "[The trade weekly for January to March 1923.]"),
    oneOf("status"_f, kQuestionStatus, kOne, "open unless written", "settled"),
    ref("answer"_f, KindSet(Kind::claim), kOne, "the claim that answers it", "ring-handles"),
    of("first"_f, event, kMany, "two events: which was first?", "[shape:a, shape:b]"),
};
constexpr FieldSpec kTerm[] = {
    of("means"_f, prose, kRequired | kEssential, "what the word means",
       "The line where the rim meets the well."),
    ref("broader"_f, KindSet(Kind::term), kMany, "the wider word", "lining"),
    ref("related"_f, KindSet(Kind::term), kMany, "words to look up beside it", "[edge-line]"),
};
constexpr FieldSpec kTalk[] = {
    of("series"_f, text, kOne, "the series it belongs to", "reading-tollivane"),
    of("number"_f, number, kOne, "its number in the series", "3"),
    of("budget"_f, clock, kOne, "how long it may be", "28:00"),
    of("pace"_f, number, kOne, "spoken words a minute, when not the guide's", "130"),
    group("segments"_f, kSegment, kMany | kRequired, "its parts, in order", "[{title: Opening, time: 2:00}]"),
    of("recorded"_f, moment, kDated, "when it was recorded", "18 May 2024"),
    of("transcript"_f, path, kOne, "a timed transcript, from the guide's folder", "recordings/t2.vtt"),
    of("link"_f, address, kOne, "where it can be seen", "https://example.org/talks/3"),
};
constexpr FieldSpec kChecklist[] = {
    oneOf("show"_f, kKinds, kRequired | kEssential, "what is listed: a kind", "treatment"),
    of("where"_f, where, kOne, "which of them", "{shape.maker: wesperling}"),
    of("sure"_f, yesNo, kOne, "yes: leave out what is only perhaps meant", "yes"),
    of("grouped"_f, route, kOne, "by which field", "shape"),
    of("in-order-of"_f, route, kMany, "sorted by which field", "code"),
    of("columns"_f, columns, kOne, "the fields to print, or heading: field", "[code, motif, introduced]"),
    of("layout"_f, text, kOne, "a layout, the guide's own or built in", "checklist"),
};
constexpr FieldSpec kGuide[] = {
    of("by"_f, text, kMany, "the authors", "Odile Marrenby"),
    of("edition"_f, number, kOne, "the edition being prepared", "2"),
    groupMap("editions"_f, kEdition, kOne, "editions that came out", "{1: {title: …, date: 2019}}"),
    group("settings"_f, kSettings, kOne, "circa, hemisphere, language, units, pace",
          "{circa: 5y, pace: 130}"),
    of("rules"_f, severities, kOne, "findings to raise or lower: error, warning, note or off",
       "{source-unused: off}"),
    of("contents"_f, tree, kMany, "the divisions and chapters in order",
       "[{division: Before you begin, holds: [prose/the-firm.md]}]"),
    group("waivers"_f, kWaiver, kMany, "findings that may stand, and why",
          "[{rule: code-shared, records: [treatment:a, treatment:b], because: an open question}]"),
};

}  // namespace

std::span<const FieldSpec> testFields() {
  return kTest;
}
std::span<const FieldSpec> segmentFields() {
  return kSegment;
}

namespace tables {
std::span<const FieldSpec> claim() {
  return kClaim;
}
std::span<const FieldSpec> question() {
  return kQuestion;
}
std::span<const FieldSpec> term() {
  return kTerm;
}
std::span<const FieldSpec> talk() {
  return kTalk;
}
std::span<const FieldSpec> checklist() {
  return kChecklist;
}
std::span<const FieldSpec> guide() {
  return kGuide;
}
}  // namespace tables

}  // namespace saggar::records
