#include <algorithm>

#include "base/text.h"
#include "commands/command.h"
#include "dates/parse.h"
#include "dates/print.h"
#include "records/measure.h"
#include "records/tables.h"

// The reference of the record language, for authors, as one page of Markdown.
//
// The problem: a page written by hand forgets fields, and a page made from tables alone explains nothing. The choice:
// the chapters of reference/*.md are written by hand and have holes in double braces; what the tables know (kinds,
// fields, what they mean, their words and examples) and what the program can work out (what a date means, a size in the
// other unit) is filled in here. The cost: a hole that nobody fills is our mistake, and stops the program.
namespace saggar::commands {

std::span<const std::pair<std::string_view, std::string_view>> referenceFiles();

namespace {

using records::FieldSpec;
using records::FieldType;
using records::Kind;
using records::KindSpec;

std::string inTicks(std::string_view text) {
  return '`' + std::string(text) + '`';
}

// A cell of a table: no bar ends it early.
std::string cell(std::string_view text) {
  std::string out;
  for (char c : text) {
    if (c == '|') out += '\\';
    out += c;
  }
  return out;
}

std::string linkTo(std::string_view words, std::string_view anchor) {
  return '[' + std::string(words) + "](#" + std::string(anchor) + ')';
}

std::string kindsInWords(records::KindSet kinds) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    if (kinds.has(static_cast<Kind>(i)))
      names.push_back(linkTo(records::kKindNames[i].one, records::kKindNames[i].one));
  if (names.size() > 4) return linkTo("any record", "references") + ", as `kind:id`";
  return base::listedInWords(names, "or") + (names.size() == 1 ? "" : ", as `kind:id`");
}

std::string wordsOf(const FieldSpec& spec) {
  std::vector<std::string> words;
  for (std::string_view word : spec.words) words.push_back(inTicks(word));
  return base::listedInWords(words, "or");
}

// How a value of that field is written.
std::string formOf(const FieldSpec& spec) {
  switch (spec.type) {
    case FieldType::text: return linkTo("words", "words-and-prose");
    case FieldType::prose: return linkTo("prose", "words-and-prose");
    case FieldType::moment: return linkTo("a date", "dates");
    case FieldType::span: return linkTo("from when to when", "dates");
    case FieldType::reference: return kindsInWords(spec.kinds);
    case FieldType::event: return linkTo("an event", "events-and-order");
    case FieldType::choice:
      if (spec.field == "type"_f) return linkTo("a type of source", "types-of-source");
      return spec.words.size() > 12 ? "a kind of record" : wordsOf(spec);
    case FieldType::measure: return linkTo("a size", "sizes");
    case FieldType::number: return linkTo("a number", "numbers-times-and-lengths");
    case FieldType::clock: return linkTo("a running time", "numbers-times-and-lengths");
    case FieldType::length: return linkTo("a length of time", "numbers-times-and-lengths");
    case FieldType::yesNo: return "`yes` or `no`";
    case FieldType::path: return "a file of the guide";
    case FieldType::address: return "a web address";
    case FieldType::look: return linkTo("features and their values", "features-and-their-values");
    case FieldType::headings: return "headings of your own, each with words";
    case FieldType::structure: return "smaller fields, below";
    case FieldType::structureMap: return "words of your own, each with smaller fields, below";
    case FieldType::where: return linkTo("a condition", "choosing-records");
    case FieldType::columns:
      return linkTo("fields or paths", "choosing-records") + ", with or without headings";
    case FieldType::comparison: return "two records, and a " + linkTo("field or path", "choosing-records");
    case FieldType::dateTable: return "codes, each with " + linkTo("a date", "dates");
    case FieldType::reasons: return "texts, each with the reason";
    case FieldType::severities: return "rules, each with `off`, `note`, `warning` or `error`";
    case FieldType::route: return linkTo("a field or path", "choosing-records");
    case FieldType::citations: return linkTo("citations", "who-says-so-evidence");
    case FieldType::madeIn: return linkTo("shape", "shape") + "s, `all`, or all but some";
    case FieldType::tree: break;
  }
  if (spec.field == "parts"_f) return linkTo("parts", "numbers-and-codes") + ", by their names";
  if (spec.field == "contents"_f) return "chapters and divisions, see below";
  if (spec.field == "but"_f) return "`is`, `cite` and `set-aside: reason`";
  return "the value";
}

std::string formAndFlags(const FieldSpec& spec, std::string_view partsAnchor) {
  std::string form = formOf(spec);
  if (!partsAnchor.empty()) form = "smaller fields: " + linkTo("see there", partsAnchor);
  if (spec.has(records::kMany)) form += "; *one or a list*";
  if (spec.has(records::kMayBeNone)) form += "; `none` if there is none";
  if (spec.has(records::kPrivate)) form += "; *private*";
  return form;
}

// Where the smaller fields of a field have a table of their own, in a chapter of their own.
std::string_view chapterOf(const FieldSpec& spec) {
  if (spec.inner.data() == records::codeRuleFields().data()) return "numbers-and-codes";
  if (spec.inner.data() == records::testFields().data()) return "statements-that-test-themselves";
  return {};
}

std::string exampleOf(const FieldSpec& spec) {
  const std::string_view value = !spec.example.empty() || spec.words.empty() ? spec.example : spec.words[0];
  return inTicks(std::string(spec.field.name()) + ": " + std::string(value));
}

std::string row(const FieldSpec& spec, bool inner) {
  std::string name = inTicks(spec.field.name());
  const bool must = spec.has(records::kEssential) || (inner && spec.has(records::kRequired));
  if (must) name = "**" + name + "**";
  if (!must && spec.has(records::kRequired)) name += " ·";
  std::string meaning(spec.meaning);
  for (std::string_view tail : {"; private", " (private)"})
    if (meaning.ends_with(tail)) meaning.resize(meaning.size() - tail.size());
  return "| " + name + " | " + cell(meaning) + " | " + cell(formAndFlags(spec, chapterOf(spec))) + " | " +
         cell(exampleOf(spec)) + " |\n";
}

constexpr std::string_view kHead =
    "| Field | What it says | How it is written | For example |\n| --- | --- | --- | --- |\n";

template <class Fields>
std::string table(const Fields& fields, bool inner) {
  std::string out(kHead);
  for (const FieldSpec& spec : fields) out += row(spec, inner);
  return out;
}

// Fields with smaller fields have those in a table of their own.
std::string innerTables(std::span<const FieldSpec> fields) {
  std::string out;
  for (std::size_t i = 0; i < fields.size(); ++i) {
    const FieldSpec& spec = fields[i];
    const auto sharesTable = [&](const FieldSpec& other) { return other.inner.data() == spec.inner.data(); };
    const bool again =
        std::any_of(fields.begin(), fields.begin() + static_cast<std::ptrdiff_t>(i), sharesTable);
    if (spec.inner.empty() || !chapterOf(spec).empty() || again) continue;
    std::vector<std::string> names;
    for (const FieldSpec& other : fields.subspan(i))
      if (sharesTable(other)) names.push_back(inTicks(other.field.name()));
    const bool map = spec.type == FieldType::structureMap;
    out += "\nIn " + base::listedInWords(names) + (map ? ", behind each word of your own:" : ":") + "\n\n";
    out += table(spec.inner, true);
  }
  return out;
}

// "Events: …", "wants evidence …": what a kind's fields are to the program.
std::string sentencesOf(const KindSpec& kind) {
  std::vector<std::string> events;
  std::vector<std::string> free;
  bool wants = false;
  for (const FieldSpec* spec : records::fieldsOf(kind.kind)) {
    if (spec->has(records::kDated)) events.push_back(inTicks(spec->field.name()));
    if (records::needsEvidence(kind.kind, spec->field)) wants = true;
  }
  for (const FieldSpec& spec : kind.fields)
    if (!records::needsEvidence(kind.kind, spec.field)) free.push_back(inTicks(spec.field.name()));
  std::string out;
  if (!events.empty()) {
    const std::string name(records::name(kind.kind));
    out += "Dates that [events](#events-and-order) are made of: " + base::listedInWords(events) + ".";
    if (kind.standsFor) {
      const FieldSpec* spec = records::specOf(kind.kind, *kind.standsFor);
      std::string stands(kind.standsFor->name());
      if (spec->type == FieldType::span) stands += kind.standsForSpanEnd ? ".until" : ".from";
      out += " `" + name + ":id` alone stands for " + inTicks(stands) + ".";
    }
  }
  if (wants) {
    out += (out.empty() ? "" : " ");
    out += "Every field wants evidence";
    if (!free.empty()) out += " but " + base::listedInWords(free);
    out += ".";
  }
  return out;
}

std::string fence(std::string_view text) {
  return "```yaml\n" + std::string(text) + "\n```\n";
}

std::string kindSection(const KindSpec& kind) {
  std::string meaning(kind.meaning);
  meaning[0] = static_cast<char>(base::isLower(meaning[0]) ? meaning[0] - 'a' + 'A' : meaning[0]);
  std::string out = "### " + std::string(records::name(kind.kind)) + "\n\n" + meaning + ".\n\n" +
                    fence(kind.example) + '\n' + table(kind.fields, false) + innerTables(kind.fields);
  if (const std::string said = sentencesOf(kind); !said.empty()) out += '\n' + said + '\n';
  return out;
}

std::string kinds() {
  std::string out;
  for (const KindSpec& kind : records::kindSpecs())
    if (kind.kind != Kind::guide) out += (out.empty() ? "" : "\n") + kindSection(kind);
  return out;
}

std::string kindsLine() {
  std::vector<std::string> links;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    links.push_back(linkTo(records::kKindNames[i].one, records::kKindNames[i].one));
  return base::joined(links, " · ");
}

std::string dayRow(std::string_view typed) {
  const bool quoted = typed.starts_with('"');
  const dates::Result date = dates::parse(quoted ? typed.substr(1, typed.size() - 2) : typed);
  if (!date) std::abort();
  const std::string plain = dates::describeBounds(date->plain());
  const std::string wide = dates::describeBounds(date->wide());
  return "| " + inTicks(typed) + " | " + plain + (plain == wide ? "" : "; at its widest " + wide) + " | " +
         dates::inTable(*date) + " |";
}

std::string sizeRow(std::string_view typed) {
  const auto measure = records::readMeasure(typed);
  if (!measure) std::abort();
  const std::string other = records::inOtherUnit(*measure);
  return "| " + inTicks(typed) + " | " + std::string(typed) + (other.empty() ? "" : " (" + other + ")") +
         " |";
}

std::string withInner(std::span<const FieldSpec> fields, bool inner) {
  return table(fields, inner) + innerTables(fields);
}

// What goes into a hole.
std::string filled(std::string_view hole) {
  const std::size_t blank = hole.find(' ');
  const std::string_view what = hole.substr(0, blank);
  const std::string_view rest = blank == std::string_view::npos ? std::string_view() : hole.substr(blank + 1);
  std::string out;
  if (what == "kinds") out = kinds();
  if (what == "kinds-line") out = kindsLine();
  if (what == "day") out = dayRow(rest);
  if (what == "size") out = sizeRow(rest);
  if (what == "example") out = std::string(records::spec(Kind::guide).example);
  if (rest == "common") {
    std::vector<FieldSpec> fields(records::commonFields().begin(), records::commonFields().end());
    FieldSpec cite = records::evidenceFields()[1];
    cite.meaning = "the sources of every field that has none of its own";
    fields.insert(fields.begin() + 3, cite);
    out = table(fields, false) + innerTables(records::commonFields());
  }
  if (rest == "evidence") out = table(records::evidenceFields(), false);
  if (rest == "codes") out = withInner(records::codeRuleFields(), true);
  if (rest == "test") out = withInner(records::testFields(), true);
  if (rest == "guide" && what == "table") out = withInner(records::spec(Kind::guide).fields, false);
  if (out.empty()) std::abort();
  while (out.ends_with('\n')) out.pop_back();
  return out;
}

}  // namespace

std::string referencePage() {
  std::string out;
  for (const auto& [name, text] : referenceFiles()) {
    std::size_t at = 0;
    while (at < text.size()) {
      const std::size_t hole = text.find("{{", at);
      const std::size_t end = hole == std::string_view::npos ? hole : text.find("}}", hole);
      if (end == std::string_view::npos) break;
      out += text.substr(at, hole - at);
      out += filled(text.substr(hole + 2, end - hole - 2));
      at = end + 2;
    }
    out += text.substr(at);
  }
  return out;
}

}  // namespace saggar::commands
