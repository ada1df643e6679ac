#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "compose/places.h"

// Values, evidence and names in the words a guide prints. One way to say each thing, wherever it is said.
namespace saggar::compose {

// Everything below may link to where a record is described; without places (talk outlines, checklists) names stand
// unlinked.
class Words {
 public:
  Words(const Materials& materials, const Places* places) : materials_(&materials), places_(places) {}

  const Materials& materials() const { return *materials_; }
  const Places* places() const { return places_; }

  // --- names (words_names.cpp)

  // What a record is called in print (linking/names.h).
  std::string plainName(RecordIndex record) const;
  Inlines name(RecordIndex record) const;                   // linked where it is described
  Inlines linked(RecordIndex record, Inlines words) const;  // other words for it, linked

  // Somebody as authors name them where any text will do (`by` of a source, `seen.by`): the id of a person or maker, or
  // a name.
  Inlines somebody(std::string_view typed) const;
  std::string plainSomebody(std::string_view typed) const;

  // --- values (words_values.cpp)

  // A value as typed for its field, in words: dates as authors print them ("by 1935"), measures with the other unit
  // ("9 1/8 in (232 mm)", as settings.units asks), references by name, lists joined, `unknown` as "not known", `none`
  // as "none", an absent value (null) as "not recorded". With `doubted` and `but` beside it where there are ("perhaps
  // 1932 (doubted: …)"; "1932 (or 1933)").
  Inlines value(const records::Value* value, const records::FieldSpec* spec,
                const PublishedRecord& owner) const;
  // The value without what stands beside it, and that alone: "doubted: the page is torn"; "or 1933, Price List, p. 3";
  // "not 1922, as in The First Guide: it cites nothing".
  Inlines bareValue(const records::Value* value, const records::FieldSpec* spec,
                    const PublishedRecord& owner) const;
  std::vector<Inlines> remarks(const records::Value& value, const records::FieldSpec* spec,
                               const PublishedRecord& owner) const;
  std::string plainValue(const records::Value* value, const records::FieldSpec* spec,
                         const PublishedRecord& owner) const;

  // Dates for tables: "1932", "by 1935", "about 1932", "1926 to 1935".
  std::string shortDate(const records::Value* value) const;
  // The day a span began, or ended: of 1925 to 1951 "1925" or "1951".
  std::string shortEnd(const records::Value& span, dates::End end) const;
  // When something began, as the beginning of a span: "from 1932", "by 1935", "not before 1926", "first between 1926 and
  // 1935"; and when it ended, as its end: "1955", "1955 at the latest", "1955 or later", "a date between 1950 and 1955".
  std::string beginning(const records::Value& value) const;
  std::string ending(const records::Value& value) const;
  // introduced and withdrawn as one: "1932 to 1955", "on sale by 7 October 1923, to 1938", "from 1932", "until 1955", "not
  // recorded"; and with what is doubted or said otherwise behind it.
  std::string plainDates(const PublishedRecord& record) const;
  // Further remarks, such as how the dates stand, share its bracket.
  Inlines dates(const PublishedRecord& record, Inlines further = {}) const;

  // --- looks (words_look.cpp)

  // A look: "round outline, embossing in panels, ivory glaze, or tinted since 1939", in the order of the features'
  // effort and place.
  Inlines look(const records::Value* look) const;
  std::string plainFeature(RecordIndex feature) const;  // "edge line"
  // One feature of it in the same words; empty if the look does not have it.
  std::string lookOf(const records::Value& look, RecordIndex feature) const;
  // Feature by feature, in the same order: {"subject", "fruit"}.
  std::vector<std::pair<std::string, std::string>> lookByFeature(const records::Value& look) const;
  // "gold edge line", "no edge line", "with a rim", "embossing in panels", "closed-knob finial".
  static std::string featureInWords(const std::string& feature, const std::vector<std::string>& values);

  // --- evidence (words_evidence.cpp)

  // How it is known: the citations of a value's evidence and of its record, each a link to its source's entry with the
  // locator: "Decoration Books 2-6, vol. 3, May 1932; Price List No. 17, p. 4"; or "the author's judgement: …"; or
  // "no source recorded". A specimen or photo cited is named: "a piece seen: …". What was looked for in a source and not
  // found is "not found in …", what only follows from it "by inference from …".
  Inlines evidence(const records::Value& value, const PublishedRecord& owner) const;
  Inlines evidenceOfRecord(
      const PublishedRecord& record) const;  // of the whole record: its own `cite` and every field's
  // For rows of tables, with the short names of sources: its own `cite`, or where there is none all others; and how what
  // rests on it stands, unless the table says it.
  Inlines rowEvidence(const PublishedRecord& record, bool withStanding = true) const;
  Inlines recordEvidence(const PublishedRecord& record) const;  // the same with full names
  Inlines ownEvidence(const records::Value& value,
                      bool brief = false) const;  // of the value alone; empty if it has none
  Inlines citation(const records::Citation& citation, bool brief = false) const;
  // What a source is called where there is little room: its id in words, if that is shorter than its title and each of
  // them stands in the title, in the name of a maker or as the year (else it would pass for another source); with the
  // capitals and hyphens that those words have in its title or in the names of who made it ("Ledger-Standard 1923").
  std::string shortName(RecordIndex source) const;
  Inlines citations(std::span<const records::Citation> cite) const;

  // --- standing (words_standing.cpp)

  // A value's own evidence and how the value stands by it: "Price List No. 17, p. 6; supported". Empty if it has none.
  Inlines evidenceBeside(const PublishedRecord& owner, const records::Value& value, bool brief = false) const;

  // How a value of a field stands, where its own evidence does not say so: "supported", "disputed; suggested", "no source
  // recorded". Empty for what is documented or judged, rests on the record's sources, or wants none.
  // `field`: none for a part of a value, of which nothing is said to be uncited.
  std::string standing(const PublishedRecord& owner, std::optional<records::Field> field,
                       const records::Value& value) const;
  // That, and what is doubted or said otherwise of the field: "disputed", "or 1934, Price List No. 17". Empty without it.
  std::vector<Inlines> standingAndRemarks(const PublishedRecord& owner, const records::FieldSpec& spec) const;
  // The same of a value by whatever evidence, where no source is printed beside it; "documented" for what is.
  std::string standingInFull(const PublishedRecord& owner, const records::Value& value) const;
  // How the dates of plainDates stand, where that is not `usual`: "first year disputed; last year supported".
  // `doubts`: a date that the author doubts is said to be doubted; not wanted where the doubt itself stands beside it.
  std::string standingOfDates(const PublishedRecord& record, std::string_view usual = "documented",
                              bool doubts = true) const;
  // How what rests on a record's own sources stands: the weakest of it.
  std::string standingOfSources(const PublishedRecord& record) const;

  // --- codes (words_codes.cpp)

  // A number or code with all its readings in words: "JM-203-C/1: JM for Jessamount, serial 203, C for three or more
  // decals, or one large centre, 1 for a gold edge line".
  Inlines codeReadings(RecordIndex record) const;
  // The readings of one code alone, without the code; empty if it has none that says anything.
  std::string readingsInWords(const choosing::CodeOnRecord& code) const;
  // The look that a part of a reading asks for: "a gold edge line and a gold verge line"; empty if it asks for none.
  std::string lookAskedFor(const codes::Reading& reading, std::size_t part) const;
  // Why a code that has a date is of none that it could be read as: "it would be of the 1st quarter of 1932, and Ferry Street works
  // was used from 1889 to 1931"; empty where that is not the reason.
  std::string whyRuledOut(const choosing::CodeOnRecord& code) const;

  // --- prose (prose.cpp)

  // Markdown of a field (prose) as inlines; blocks where it has several.
  Blocks prose(const PublishedRecord& owner, const records::Value& value) const;
  Inlines proseLine(const PublishedRecord& owner, const records::Value& value) const;

 private:
  const Materials* materials_;
  const Places* places_;
};

}  // namespace saggar::compose
