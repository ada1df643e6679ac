#include "records/tables.h"

#include <vector>

#include "records/table_parts.h"

namespace saggar::records {
namespace {

using enum FieldType;

constexpr FieldSpec kAlso[] = {
    tables::of("name"_f, text, kRequired, "the other name", "Lattice Jessie"),
    tables::oneOf("by"_f, tables::kNamedByWords, kOne, "who uses it", "collectors"),
};
constexpr FieldSpec kRelation[] = {
    tables::of("event"_f, event, kRequired, "the event", "shape:linnavere.introduced"),
    tables::of("within"_f, length, kOne, "at most so long apart", "2y"),
    tables::of("at-least"_f, length, kOne, "at least so long apart", "6m"),
};
constexpr FieldSpec kCommon[] = {
    tables::of("name"_f, text, kOne, "its name in print", "Jessamount"),
    tables::of("title"_f, text, kOne, "its title in print", "Decoration Book 1"),
    tables::group("also"_f, kAlso, kMany, "other names, and who uses them",
                  "{name: Lattice Jessie, by: collectors}"),
    tables::of("note"_f, prose, kOne, "a note, published", "Often found with worn gold."),
    tables::ref("see"_f, KindSet::any(), kMany, "records to look up beside it", "[treatment:jm-045]"),
    tables::of("more"_f, headings, kOne, "the author's own headings, printed as they stand",
               "{Body: hard and white}"),
    tables::group("after"_f, kRelation, kMany, "an event that it came after", "shape:linnavere"),
    tables::group("before"_f, kRelation, kMany, "an event that it came before", "shape:linnavere"),
    tables::of("kept"_f, text, kPrivate, "shelf or box; private", "cabinet 2"),
    tables::of("owner"_f, text, kPrivate, "who owns it; private", "Mrs Quilldrake"),
    tables::of("paid"_f, text, kPrivate, "what was paid; private", "12.50 at a fair"),
};
constexpr FieldSpec kEvidence[] = {
    tables::of("is"_f, tree, kOne, "the value itself", "1932"),
    tables::of("cite"_f, citations, kMany, "the sources that show it",
               "{source: decoration-books, at: \"vol. 3, May 1932\"}"),
    tables::of("judged"_f, text, kOne, "the author's own inference, and why",
               "the handle is of the later mould"),
    tables::of("doubted"_f, text, kOne, "why it is doubted; kept and printed, binds nothing",
               "the last figure is worn"),
    tables::of("but"_f, tree, kMany, "what another source says instead: {is, cite, set-aside}",
               "{is: 1933, cite: dunnavick-1974, set-aside: it cites nothing}"),
    tables::of("note"_f, prose, kOne, "a note on the value", "Read from a photograph."),
    tables::of("complete"_f, yesNo, kOne, "yes: the list leaves nothing out", "yes"),
};

constexpr std::string_view kBlocks[] = {
    "treatments",  "forms",     "marks",       "codes",       "timeline", "tell-apart",
    "look-alikes", "questions", "help-wanted", "corrections", "claims",   "makers",
    "glossary",    "sources",   "measures",    "cautions",    "credits"};

std::vector<KindSpec> makeSpecs() {
  return {
      {Kind::maker,
       "a pottery, decal supplier, decorating shop, wholesaler, retailer, premium giver, or an office that "
       "gives numbers",
       R"(- maker: brathermoor
  name: Brathermoor China Company
  also: [BCC]
  trade: pottery
  place: Braskerwick
  founded: 1893
  closed: 1957
  note: The rival across the river.
  cite:
    - trade-directories: 1932 to 1958, Braskerwick)",
       "name"_f, "founded"_f, false, tables::maker()},
      {Kind::person, "somebody who is named: a modeller, a decorator, an author, a witness",
       R"(- person: ismerelda-quoyne
  name: Ismerelda Quoyne
  part: modeller and head of the design room
  active: 1928/1947)",
       "name"_f, "born"_f, false, tables::person()},
      {Kind::shape, "a line of ware, modelled together and named",
       R"(- shape: linnavere
  name: Linnavere
  maker: wesperling
  prefix: LV
  introduced: 1935
  withdrawn: by 1950
  forms: [plate-7, teapot]
  look: {outline: round, handle: ring}
  cite:
    - decoration-books: vol. 4, Linnavere)",
       "name"_f, "introduced"_f, false, tables::shape()},
      {Kind::form, "a kind of piece: a 7-inch plate, a teapot",
       R"(- form: plate-7
  name: plate 7-inch (dinner)
  ware: flat
  nominal: 7 in
  actual: 9 1/8 in
  made-in: all
  cite:
    - price-list-17: p. 3)",
       "name"_f, std::nullopt, false, tables::form()},
      {Kind::motif, "a decoration image, by any method",
       R"(- motif: teasel-row
  name: Teasel Row
  method: decal
  supplier: vandermoyle
  supplier-number: 402
  introduced: 1930
  cite:
    - decoration-books: vol. 2, Teasel Row)",
       "name"_f, "introduced"_f, false, tables::motif()},
      {Kind::treatment, "a motif (or none) as put on a shape, with its lines, glaze and number",
       R"(- treatment: jm-018
  shape: jessamount
  motif: teasel-row
  code: JM-018-C/1
  look: {edge-line: gold, glaze: ivory}
  introduced: 1932
  withdrawn: 1944
  forms: [plate-7, teapot]
  met: often
  cite:
    - decoration-books: vol. 3, JM-018)",
       "name"_f, "introduced"_f, false, tables::treatment()},
      {Kind::set, "pieces sold or given together",
       R"(- set: breakfast-set
  name: Breakfast set
  for: quennock
  offered: 1934/1941
  pieces:
    - {form: plate-7, of: treatment:jm-018, how-many: 6}
    - {form: teapot, of: treatment:jm-018}
  cite:
    - price-list-17: p. 5)",
       "name"_f, "offered"_f, false, tables::set()},
      {Kind::mark, "a backstamp: the mark of a maker or decorator on a piece",
       R"(- mark: ferry-boat
  name: Ferry boat
  maker: wesperling
  method: printed
  laid: underglaze
  colour: [brown, black]
  reads: TOLLIVANE WARE
  shows: a ferry boat in a circle
  used: 1925/1951
  cite:
    - trade-directories: 1934, marks)",
       "name"_f, "used"_f, false, tables::mark()},
      {Kind::specimen, "one real piece that somebody saw",
       R"(- specimen: jm-018-plate
  treatment: jm-018
  form: plate-7
  marks: ferry-boat
  code-seen: JM-018-C/1
  date-code: U341
  size: 9 1/8 in
  seen: {on: 14 May 2019, by: odile-marrenby, how: in-hand}
  photo: jm-018-plate
  kept: cabinet 2)",
       "name"_f, "made"_f, false, tables::specimen()},
      {Kind::source, "anything cited: a book, a price list, a talk with a witness, a photograph",
       R"(- source: decoration-books
  title: Decoration Books, volumes 2 to 6
  type: decoration-book
  by: wesperling
  date: 1926/1945
  holder: Sarrow Valley museum)",
       "title"_f, "date"_f, true, tables::source()},
      {Kind::feature, "something to look for on a piece",
       R"(- feature: edge-line
  of: treatment
  ask: Is there a line on the very edge?
  values:
    gold: a thin gold line
    coloured: a thin line in a colour
    none: no line
  effort: 1)",
       "name"_f, std::nullopt, false, tables::feature()},
      {Kind::claim, "a statement made to readers",
       R"(- claim: ring-handles
  says: At Wesperling & Sarnock ring handles came on one shape only.
  about: [shape:linnavere, feature:handle]
  stated:
    - {talk: numbers-on-the-back, at: Opening}
  test:
    - count: shape
      where: {maker: wesperling, look.handle: ring}
      makes: 1)",
       "name"_f, "issued"_f, false, tables::claim()},
      {Kind::question, "something nobody knows yet",
       R"(- question: linnavere-1934
  asks: Was [Linnavere](shape:linnavere) sold before 1935?
  about: shape:linnavere
  for:
    - {says: A cup is said to bear U344., cite: "dunnavick-1974: p. 61"}
  against:
    - says: The books have nothing before 1935.
      cite:
        - decoration-books: vol. 4
  would-settle: A piece with a date code of 1934, seen in hand.)",
       "name"_f, std::nullopt, false, tables::question()},
      {Kind::term, "a word of the glossary",
       R"(- term: verge
  name: verge
  means: The line where the rim of a plate meets the well.)",
       "name"_f, std::nullopt, false, tables::term()},
      {Kind::photo, "a picture, and who may print it",
       R"(- photo: jm-018-plate
  file: images/jm-018-plate.png
  shows: specimen:jm-018-plate
  alt: A round ivory plate with a gold edge and a row of teasels across the well.
  caption: A plate of [Jessamount](shape:jessamount).
  credit: Odile Marrenby
  rights: own)",
       "name"_f, std::nullopt, false, tables::photo()},
      {Kind::talk, "a planned or recorded talk",
       R"(- talk: numbers-on-the-back
  title: Numbers on the back
  series: reading-tollivane
  number: 3
  budget: 28:00
  segments:
    - title: Opening
      about: maker:wesperling
      time: 8:00
      say: Turn your plate over, and look for a number.
    - title: Copied serials
      about: treatment:jm-018
      show: specimen:jm-018-plate
      after: Opening
      keep: must
      time: 20:00
      say: |
        This is [JM-018](treatment:jm-018), and it was counted, not copied.)",
       "title"_f, "recorded"_f, false, tables::talk()},
      {Kind::checklist, "a list to print and tick",
       R"(- checklist: everything
  title: Every decoration in this guide
  show: treatment
  where: {shape.maker: wesperling}
  grouped: shape
  in-order-of: code
  columns: [code, motif, introduced, withdrawn])",
       "title"_f, std::nullopt, false, tables::checklist()},
      {Kind::guide, "the guide itself: the one mapping of `guide.yaml`",
       R"(guide: Tableware of Tollivane
by: Odile Marrenby
edition: 2
editions:
  1: {title: Tableware of Tollivane, date: 2019}
settings: {circa: 5y, units: both}
contents:
  - division: Before you begin
    holds: [prose/how-to-use.md]
  - division: The shapes
    holds:
      - a-chapter-for-every: shape
        where: {maker: wesperling}
        in-order-of: introduced
  - division: At the back
    holds: [marks, codes, questions, glossary, corrections])",
       "guide"_f, std::nullopt, false, tables::guide()},
  };
}

struct Lookup {
  std::vector<KindSpec> specs = makeSpecs();
  const FieldSpec* byField[kKindCount][kFieldCount] = {};
  std::vector<const FieldSpec*> all[kKindCount];

  Lookup() {
    for (const KindSpec& kind : specs) {
      const auto k = static_cast<std::size_t>(kind.kind);
      auto take = [&](const FieldSpec& field) {
        if (byField[k][field.field.index] != nullptr) return;
        byField[k][field.field.index] = &field;
        all[k].push_back(&field);
      };
      bool dated = false;
      for (const FieldSpec& field : kind.fields) {
        take(field);
        dated |= field.has(kDated);
      }
      if (kind.kind == Kind::guide) continue;
      for (const FieldSpec& field : kCommon) {
        const bool aTitle = field.field == "name"_f || field.field == "title"_f;
        if (aTitle && field.field != kind.title) continue;
        const bool relation = field.field == "after"_f || field.field == "before"_f;
        if (relation && !dated) continue;
        take(field);
      }
    }
  }
};

const Lookup& lookup() {
  static const Lookup table;
  return table;
}

}  // namespace

std::span<const KindSpec> kindSpecs() {
  return lookup().specs;
}
const KindSpec& spec(Kind kind) {
  return lookup().specs[static_cast<std::size_t>(kind)];
}
std::span<const FieldSpec> commonFields() {
  return kCommon;
}
const FieldSpec* specOf(Kind kind, Field field) {
  return lookup().byField[static_cast<std::size_t>(kind)][field.index];
}
std::span<const FieldSpec* const> fieldsOf(Kind kind) {
  return lookup().all[static_cast<std::size_t>(kind)];
}
std::span<const FieldSpec> evidenceFields() {
  return kEvidence;
}
std::span<const std::string_view> blockNames() {
  return kBlocks;
}

bool needsEvidence(Kind kind, Field field) {
  constexpr KindSet kKinds(Kind::maker, Kind::shape, Kind::motif, Kind::treatment, Kind::set, Kind::mark,
                           Kind::form);
  if (!kKinds.has(kind)) return false;
  const FieldSpec* found = specOf(kind, field);
  if (found == nullptr || found->has(kPrivate)) return false;
  for (Field free : {"name"_f, "also"_f, "note"_f, "see"_f, "more"_f, "prefix"_f, "resembles"_f, "named-by"_f,
                     "photo"_f, "status"_f, "met"_f})
    if (free == field) return false;
  return true;
}

}  // namespace saggar::records
