#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "reading/typed.h"

// Values that have fields of their own: structures, looks, headings, `made-in`.
namespace saggar::reading {

using records::Entry;
using records::FieldSpec;
using records::FieldType;
using records::Kind;
using records::Value;
using records::ValueType;

namespace {

// A claim's test has one of the ways to test beside its conditions.
bool asksSomething(const Value& test) {
  return std::any_of(test.entries().begin(), test.entries().end(), [](const Entry& entry) {
    return entry.known && entry.field != "where"_f && entry.field != "has"_f && entry.field != "makes"_f;
  });
}

}  // namespace

// A plain value stands for a structure's first field.
Value TypedReader::readFirstOf(const Node& node, const FieldSpec& spec) {
  const std::string_view outer = fieldName_;
  const FieldSpec& first = spec.inner[0];
  if (spec.has(records::kMapping))
    return unfit(node, fieldInQuotes() + " takes a mapping, here is a plain value",
                 "write it as `" + std::string(spec.example) + "`");
  Entry entry;
  entry.key = first.field.name();
  entry.field = first.field;
  entry.known = true;
  entry.keyPlace = {node.begin, node.begin};
  entry.value = readBare(node, first, false);
  fieldName_ = outer;
  if (!entry.value.said()) return entry.value;
  for (const FieldSpec& other : spec.inner.subspan(1))
    if (other.has(records::kRequired))
      return unfit(node, "`" + std::string(outer) + "` needs `" + std::string(other.field.name()) + "`",
                   "write it whole: `{" + std::string(first.field.name()) + ": " +
                       base::shortened(typed(node), 40) + ", " + std::string(other.field.name()) + ": " +
                       std::string(other.example.empty() ? "…" : other.example) + "}`");
  return mappingOf(node, std::span<const Entry>(&entry, 1));
}

Value TypedReader::readStructure(const Node& node, const FieldSpec& spec) {
  if (node.type != NodeType::mapping) return readFirstOf(node, spec);
  const std::string_view outer = fieldName_;
  keysOnce(node);
  Gathered<Entry> entries(entries_);
  bool evidence = false;
  bool guess = false;  // an unknown key, or one that was lost, may be what was meant by a missing one
  for (const Node* key = node.first; key != nullptr && key->next != nullptr; key = key->next->next)
    guess |= key->told;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!isWord(key)) return;
    const FieldSpec* found = nullptr;
    for (const FieldSpec& field : spec.inner)
      if (field.field.name() == key.text) found = &field;
    if (found == nullptr) {
      if (isEvidenceKey(key.text)) {
        evidence = true;
        return;
      }
      std::vector<std::string_view> names;
      for (const FieldSpec& field : spec.inner) names.push_back(field.field.name());
      std::vector<std::string> shown;
      for (std::string_view name : names) shown.push_back('`' + std::string(name) + '`');
      const auto near = base::nearest(key.text, names);
      guess = true;
      report("field-unknown"_rule, key.begin, key.end,
             "`" + base::shortened(key.text, 40) + "` is no part of `" + std::string(outer) + "`",
             near ? "did you mean `" + std::string(*near) + "`?" : "it takes " + base::listedInWords(shown));
      return;
    }
    Entry entry;
    entry.key = key.text;
    entry.field = found->field;
    entry.known = true;
    entry.keyPlace = {key.begin, key.end};
    fieldName_ = found->field.name();
    entry.value = readValue(child, *found);
    fieldName_ = outer;
    entries.add(entry);
  });
  Value value = mappingOf(node, entries.all());
  if (evidence) value.evidence = readEvidence(node, spec, spec.inner);
  if (guess) return value;
  if (spec.inner.data() == records::testFields().data() && !asksSomething(value))
    report("value-unfit"_rule, node.begin, std::min(node.end, node.begin + 1), "this test asks nothing",
           "write one of `every`, `no`, `some`, `count`, `before`, `same` and `differ`");
  for (const FieldSpec& field : spec.inner) {
    if (!field.has(records::kRequired)) continue;
    const bool there = std::any_of(entries.all().begin(), entries.all().end(),
                                   [&](const Entry& e) { return e.known && e.field == field.field; });
    if (!there)
      report("value-unfit"_rule, node.begin, std::min(node.end, node.begin + 1),
             "`" + std::string(outer) + "` needs `" + std::string(field.field.name()) + "`",
             "add `" + std::string(field.field.name()) + ": " +
                 (field.example.empty() ? std::string("…") : std::string(field.example)) + "`");
  }
  return value;
}

Value TypedReader::readStructureMap(const Node& node, const FieldSpec& spec) {
  if (node.type != NodeType::mapping)
    return unfit(node, fieldInQuotes() + " takes a mapping",
                 "write it as `" + std::string(spec.example) + "`");
  FieldSpec one = spec;
  one.type = FieldType::structure;
  keysOnce(node);
  Gathered<Entry> entries(entries_);
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!isWord(key)) return;
    Entry entry;
    entry.key = key.text;
    entry.keyPlace = {key.begin, key.end};
    entry.value = child.type == NodeType::empty
                      ? unfit(child, "`" + base::shortened(key.text, 40) + "` has no value",
                              "type the value after the colon")
                      : readBare(child, one, false);
    entries.add(entry);
  });
  return mappingOf(node, entries.all());
}

Value TypedReader::readLook(const Node& node, const FieldSpec& spec) {
  if (node.type != NodeType::mapping)
    return unfit(
        node, fieldInQuotes() + " takes features with their values",
        "write it as `look: " + std::string(spec.example.empty() ? "{edge-line: gold}" : spec.example) + "`");
  static constexpr FieldSpec kValue[] = {
      {.field = "is"_f,
       .type = FieldType::text,
       .flags = records::kMany | records::kRequired,
       .meaning = "the value"},
      {.field = "used"_f, .type = FieldType::span, .meaning = "from when to when"},
  };
  static constexpr FieldSpec kPlain{.field = "is"_f, .type = FieldType::text, .flags = records::kMany};
  static constexpr FieldSpec kDated{
      .field = "is"_f, .type = FieldType::structure, .flags = records::kMany, .inner = kValue};
  auto isDated = [](const Node& one) {
    bool dated = false;
    if (one.type == NodeType::mapping)
      forEachPair(one, [&](const Node& key, const Node&) { dated |= key.text == "used"; });
    return dated;
  };
  const std::string_view outer = fieldName_;
  keysOnce(node);
  Gathered<Entry> entries(entries_);
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!isWord(key)) return;
    if (!isId(key.text)) {
      const std::string near = asId(key.text);
      unfit(key, "`" + base::shortened(key.text, 40) + "` cannot be a feature",
            near.empty() ? "a feature is named by its id, as `edge-line`"
                         : "a feature is named by its id, as `" + near + "`");
      return;
    }
    bool dated = isDated(child);
    if (child.type == NodeType::sequence)
      for (const Node* item = child.first; item != nullptr; item = item->next) dated |= isDated(*item);
    Entry entry;
    entry.key = key.text;
    entry.keyPlace = {key.begin, key.end};
    fieldName_ = key.text;
    entry.value = readValue(child, dated ? kDated : kPlain);
    entries.add(entry);
  });
  fieldName_ = outer;
  return mappingOf(node, entries.all());
}

Value TypedReader::readHeadings(const Node& node) {
  if (node.type != NodeType::mapping)
    return unfit(node, fieldInQuotes() + " takes headings of your own, each with its value",
                 "write it as `more: {Body: hard and white}`");
  static constexpr FieldSpec kAny{.field = "is"_f, .type = FieldType::text, .flags = records::kMany};
  const std::string_view outer = fieldName_;
  keysOnce(node);
  Gathered<Entry> entries(entries_);
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!isWord(key)) return;
    Entry entry;
    entry.key = key.text;
    entry.keyPlace = {key.begin, key.end};
    fieldName_ = key.text;
    entry.value = readValue(child, kAny);
    entries.add(entry);
  });
  fieldName_ = outer;
  return mappingOf(node, entries.all());
}

Value TypedReader::readMadeIn(const Node& node, const FieldSpec& spec) {
  static constexpr FieldSpec kShapes{.field = "shapes"_f,
                                     .type = FieldType::reference,
                                     .flags = records::kMany,
                                     .kinds = records::KindSet(Kind::shape)};
  static constexpr FieldSpec kOwn[] = {{.field = "all-but"_f}};
  if (node.isScalar()) {
    if (node.text == "all" && !node.quoted()) return start(node, ValueType::all);
    return readReference(node, kShapes);
  }
  if (node.type == NodeType::sequence) return readList(node, kShapes);
  if (node.type == NodeType::empty)
    return unfit(node, fieldInQuotes() + " has no value", "type the value, or take the line out");
  keysOnce(node);
  Gathered<Entry> entries(entries_);
  bool evidence = false;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (key.text != "all-but") {
      evidence |= isEvidenceKey(key.text);
      if (!isEvidenceKey(key.text))
        report("field-unknown"_rule, key.begin, key.end,
               "`" + base::shortened(key.text, 40) + "` is no part of `made-in`",
               "it takes a list of shapes, `all`, or `{all-but: [one, two]}`");
      return;
    }
    Entry entry;
    entry.key = key.text;
    entry.field = "all-but"_f;
    entry.known = true;
    entry.keyPlace = {key.begin, key.end};
    entry.value = readValue(child, kShapes);
    entries.add(entry);
  });
  Value value = mappingOf(node, entries.all());
  if (evidence) value.evidence = readEvidence(node, spec, kOwn);
  if (entries.all().empty() && evidence)
    return unfit(node, "`made-in` has evidence but no value", "write the value as `is: …` beside `cite`");
  return value;
}

}  // namespace saggar::reading
