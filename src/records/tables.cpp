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
       "a pottery, decal supplier, decorating shop, wholesaler, retailer, premium giver or office",
       "- maker: wesperling\n  name: Wesperling & Sarnock\n  trade: pottery\n  founded: 1889", "name"_f,
       "founded"_f, false, tables::maker()},
      {Kind::person, "somebody", "- person: ismerelda-quoyne\n  name: Ismerelda Quoyne\n  part: modeller",
       "name"_f, "born"_f, false, tables::person()},
      {Kind::shape, "a line of ware modelled together and named",
       "- shape: jessamount\n  name: Jessamount\n  maker: wesperling\n  introduced: 1932", "name"_f,
       "introduced"_f, false, tables::shape()},
      {Kind::form, "a kind of piece",
       "- form: plate-7\n  name: plate 7-inch (dinner)\n  ware: flat\n  nominal: 7 in", "name"_f,
       std::nullopt, false, tables::form()},
      {Kind::motif, "a decoration image, by any method",
       "- motif: teasel-row\n  name: Teasel Row\n  supplier: vandermoyle\n  supplier-number: 402", "name"_f,
       "introduced"_f, false, tables::motif()},
      {Kind::treatment, "a motif (or none) as put on a shape, with its lines, glaze and number",
       "- treatment: jm-045\n  shape: jessamount\n  motif: copper-pantry\n  code: JM-045-C/0", "name"_f,
       "introduced"_f, false, tables::treatment()},
      {Kind::set, "pieces sold or given together",
       "- set: tea-coupon-set\n  name: Tea coupon set\n  for: sunderwick", "name"_f, "offered"_f, false,
       tables::set()},
      {Kind::mark, "a backstamp", "- mark: k4\n  maker: wesperling\n  method: printed\n  used: 1925/1951",
       "name"_f, "used"_f, false, tables::mark()},
      {Kind::specimen, "one real piece that somebody saw",
       "- specimen: jm-045-baker\n  treatment: jm-045\n  form: baker-7\n  seen: {on: 2019-05-14, how: "
       "in-hand}",
       "name"_f, "made"_f, false, tables::specimen()},
      {Kind::source, "anything cited",
       "- source: decoration-books\n  title: Decoration Books 2-6\n  type: decoration-book\n  date: "
       "1926/1945",
       "title"_f, "date"_f, true, tables::source()},
      {Kind::feature, "something to look for on a piece",
       "- feature: edge-line\n  of: treatment\n  values:\n    gold: a thin gold line\n    none: no line",
       "name"_f, std::nullopt, false, tables::feature()},
      {Kind::claim, "a statement made to readers",
       "- claim: ring-handles\n  says: Ring handles came only with slot finials.", "name"_f, "issued"_f,
       false, tables::claim()},
      {Kind::question, "something nobody knows yet", "- question: tr-6\n  asks: What does TR-6 mean?",
       "name"_f, std::nullopt, false, tables::question()},
      {Kind::term, "a glossary entry", "- term: verge\n  means: The line where rim meets well.", "name"_f,
       std::nullopt, false, tables::term()},
      {Kind::photo, "an image file",
       "- photo: jm-045-baker\n  file: images/jm-045-baker.png\n  alt: A baker.\n  rights: own", "name"_f,
       std::nullopt, false, tables::photo()},
      {Kind::talk, "a planned or recorded talk",
       "- talk: numbers-on-the-back\n  title: Numbers on the back\n  budget: 28:00\n  segments:\n    - "
       "title: Opening\n      time: 2:00",
       "title"_f, "recorded"_f, false, tables::talk()},
      {Kind::checklist, "a list to print and tick",
       "- checklist: everything\n  title: Everything on record\n  show: treatment\n  grouped: shape",
       "title"_f, std::nullopt, false, tables::checklist()},
      {Kind::guide, "the guide itself: the one mapping of guide.yaml",
       "guide: Tableware of Tollivane\nby: Odile Marrenby\nedition: 1", "guide"_f, std::nullopt, false,
       tables::guide()},
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
