#pragma once
#include <span>
#include <string_view>

#include "records/field.h"
#include "records/kind.h"

// The language's fields, each declared once. Reading, suggestions, the JSON Schema, `saggar blank`, the reference page
// and editor help are all made from these tables.
namespace saggar::records {

enum class FieldType : std::uint8_t {
  text,
  prose,      // Markdown with our links
  moment,     // a date: one day somewhere within it
  span,       // a date: from its left part to its right part
  reference,  // to one of `kinds`
  event,      // kind:id or kind:id.field
  choice,     // one of `words`
  measure,    // "9 1/8 in", "36s"
  number,     // a whole number
  clock,      // m:ss or h:mm:ss: a number of seconds
  length,     // 2y, 6m, 10d
  yesNo,
  path,          // a file inside the guide
  address,       // a web address
  look,          // feature: value (or a list, or unknown), each with evidence and perhaps `used`
  headings,      // the author's own headings: value, each with evidence
  structure,     // a mapping with the fields of `inner`; a plain value stands for its first field
  structureMap,  // free keys, each with a structure of `inner` (a plain value stands for its first field)
  where,         // a condition: kept as typed, compiled by choosing
  columns,       // fields to print, each with a heading of its own or not: kept as typed, read by choosing
  comparison,    // two records and a route: kept as typed, read by choosing
  dateTable,     // numbers, each with a date: kept as typed, read with the rules of codes
  reasons,     // numbers or texts, each with words; also without: kept as typed, read with the rules of codes
  severities,  // rules of findings, each with off, note, warning or error: kept as typed, read with the settings
  route,       // a field of what is listed, or a path as `motif.supplier`
  tree,        // kept as typed: tables of codes, contents
  citations,  // a list of citations
  madeIn,     // shapes: a list, `all`, or {all-but: […]}
};

// Values of this type are kept as typed; who uses them reads them.
constexpr bool isKeptAsTyped(FieldType type) {
  switch (type) {
    case FieldType::where:
    case FieldType::columns:
    case FieldType::comparison:
    case FieldType::dateTable:
    case FieldType::reasons:
    case FieldType::severities:
    case FieldType::tree: return true;
    default: return false;
  }
}

// What a table says of a field beside its type.
enum FieldFlag : std::uint16_t {
  kOne = 0,
  kMany = 1,        // one value or a list of them
  kPrivate = 2,     // never reaches anything published
  kDated = 4,       // an event of its record (moments and spans)
  kRequired = 8,    // `saggar blank` writes it; in a structure, it must be there
  kMayBeNone = 16,  // `none` is a sensible answer
  kMapping = 32,  // a structure of which the first field alone says too little: no plain value stands for it
  // It holds what was counted up, which is seldom all there was: one value without brackets is a list of one.
  kInventory = 128,
  kEssential = 64,  // a record of the kind says nothing without it: reading reports that it is missing
};

struct FieldSpec {
  Field field;
  FieldType type = FieldType::text;
  std::uint16_t flags = kOne;
  std::string_view meaning{};                 // one line, for the schema, the reference and the editor
  std::string_view example{};                 // what an author would type
  KindSet kinds{};                            // reference: the kinds it may name
  std::span<const std::string_view> words{};  // choice: the words allowed
  std::span<const FieldSpec> inner{};         // structure

  bool has(FieldFlag flag) const { return (flags & flag) != 0; }
};

struct KindSpec {
  Kind kind;
  std::string_view meaning;           // one line
  std::string_view example;           // a short record as an author would type it
  Field title;                        // the field that names it in print: name or title
  std::optional<Field> standsFor;     // the event that kind:id alone names
  bool standsForSpanEnd = false;      // … and of a span, its end (a source's date)
  std::span<const FieldSpec> fields;  // without those every kind takes
};

// Every kind, in the order of `Kind`.
std::span<const KindSpec> kindSpecs();
const KindSpec& spec(Kind kind);

// The fields that every kind takes (name or title, also, cite, note, see, more, before, after, kept, owner, paid).
std::span<const FieldSpec> commonFields();

// What `field` means in a record of that kind, or null if the kind does not take it. O(1).
const FieldSpec* specOf(Kind kind, Field field);

// All fields a kind takes, its own first; for suggestions, the schema and the reference.
std::span<const FieldSpec* const> fieldsOf(Kind kind);

// A fact of this field wants evidence (an `uncited` finding without): SEMANTICS "Needs evidence".
bool needsEvidence(Kind kind, Field field);

// Fields of evidence: may stand beside any value.
std::span<const FieldSpec> evidenceFields();

// The fields of one code rule, one test, one segment …: named so that others can read them without going through
// the table of their kind.
std::span<const FieldSpec> codeRuleFields();
std::span<const FieldSpec> testFields();
std::span<const FieldSpec> segmentFields();

// Block names: a fence in prose whose info string is one of these is filled in by the program.
std::span<const std::string_view> blockNames();

}  // namespace saggar::records
