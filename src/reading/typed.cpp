#include "reading/typed.h"

#include <algorithm>
#include <charconv>

#include "base/edit_distance.h"
#include "base/text.h"

namespace saggar::reading {

using records::Entry;
using records::Field;
using records::FieldSpec;
using records::FieldType;
using records::Kind;
using records::Value;
using records::ValueType;

bool isId(std::string_view text) {
  if (text.empty() || text[0] == '-') return false;
  return std::all_of(text.begin(), text.end(), [](char c) { return base::isLower(c) || base::isDigit(c) || c == '-'; });
}

std::string asId(std::string_view text) {
  std::string id;
  for (char c : base::foldedForFinding(text)) {
    if (base::isLower(c) || base::isDigit(c)) {
      id += c;
    } else if (!id.empty() && id.back() != '-') {
      id += '-';
    }
  }
  while (!id.empty() && id.back() == '-') id.pop_back();
  return id;
}

Value TypedReader::start(const Node& node, ValueType type) const {
  Value value;
  value.type = type;
  value.quoted = node.quoted();
  value.place = {node.begin, std::max(node.begin, node.end)};
  if (node.isScalar()) value.text = node.text;
  return value;
}

std::string TypedReader::fieldInQuotes() const { return '`' + std::string(fieldName_) + '`'; }

void TypedReader::report(diagnostics::Rule rule, std::uint32_t begin, std::uint32_t end, std::string message,
                         std::string hint) {
  findings_.add({.rule = rule,
                 .span = {file_, begin, std::max(end, begin)},
                 .message = std::move(message),
                 .hint = std::move(hint),
                 .record = recordName_,
                 .field = std::string(fieldName_)});
}

Value TypedReader::unfit(const Node& node, std::string message, std::string hint) {
  report("value-unfit"_rule, node.begin, node.end, std::move(message), std::move(hint));
  return start(node, ValueType::unfit);
}

bool TypedReader::keyOnce(const Node& mapping, const Node& key) {
  for (const Node* other = mapping.first; other != nullptr && other != &key && other->next != nullptr; other = other->next->next) {
    if (other->text != key.text || !other->isScalar()) continue;
    const std::string name(key.text);
    findings_.add({.rule = "field-twice"_rule,
                   .span = {file_, key.begin, key.end},
                   .message = "`" + name + "` is typed twice here, and only the first counts",
                   .hint = "keep one; several values of one field go into a list, `" + name + ": [one, two]`",
                   .record = recordName_,
                   .field = name,
                   .related = {{{file_, other->begin, other->end}, "the first stands here"}}});
    return false;
  }
  return true;
}

Value TypedReader::mappingOf(const Node& node, const std::vector<Entry>& entries) {
  Value value = start(node, ValueType::mapping);
  const auto kept = arena_.copy(entries);
  value.entries_ = kept.data();
  value.count_ = static_cast<std::uint32_t>(kept.size());
  return value;
}

Value TypedReader::readTree(const Node& node) {
  switch (node.type) {
    case NodeType::scalar: {
      Value value = start(node, ValueType::text);
      if (!value.quoted && value.text == "unknown") value.type = ValueType::unknown;
      if (!value.quoted && value.text == "none") value.type = ValueType::none;
      return value;
    }
    case NodeType::empty:
      return unfit(node, "a value is missing here", "type the value, or take the line out");
    case NodeType::sequence: {
      std::vector<Value> items;
      for (const Node* child = node.first; child != nullptr; child = child->next) items.push_back(readTree(*child));
      Value value = start(node, ValueType::list);
      const auto kept = arena_.copy(items);
      value.items_ = kept.data();
      value.count_ = static_cast<std::uint32_t>(kept.size());
      return value;
    }
    case NodeType::mapping: {
      std::vector<Entry> entries;
      forEachPair(node, [&](const Node& key, const Node& child) {
        if (!key.isScalar()) {
          unfit(key, "a key must be a word", "write `word: value`");
          return;
        }
        if (!keyOnce(node, key)) return;
        Entry entry;
        entry.key = key.text;
        entry.keyPlace = {key.begin, key.end};
        if (const auto field = records::fieldNamed(key.text)) {
          entry.field = *field;
          entry.known = true;
        }
        entry.value = readTree(child);
        entries.push_back(entry);
      });
      return mappingOf(node, entries);
    }
  }
  return start(node, ValueType::unfit);
}

Value TypedReader::readValue(const Node& node, const FieldSpec& spec) {
  const bool keptAsTyped = spec.type == FieldType::where || spec.type == FieldType::tree;
  if (keptAsTyped) return readTree(node);
  if (node.type == NodeType::empty)
    return unfit(node, fieldInQuotes() + " has no value",
                 "type the value; leave the line out if nothing is recorded, or write `unknown` if you looked and do not know");
  if (spec.type == FieldType::citations) {
    // Kept as evidence of a value that is the list itself.
    Value value = start(node, ValueType::list);
    auto* evidence = arena_.make<records::Evidence>();
    evidence->cite = arena_.copy(readCitations(node));
    evidence->place = value.place;
    value.evidence = evidence;
    return value;
  }
  if (node.type == NodeType::mapping) {
    bool hasIs = false;
    bool hasEvidence = false;
    forEachPair(node, [&](const Node& key, const Node&) {
      hasIs |= key.text == "is";
      hasEvidence |= isEvidenceKey(key.text);
    });
    const bool isMapping = spec.type == FieldType::look || spec.type == FieldType::headings ||
                           spec.type == FieldType::structureMap || spec.type == FieldType::madeIn;
    const bool ownsIs = spec.type == FieldType::structure && !spec.inner.empty() && spec.inner[0].field == "is"_f;
    if (hasIs && !ownsIs) {
      const Node* inner = nullptr;
      forEachPair(node, [&](const Node& key, const Node& child) {
        if (key.text == "is" && inner == nullptr) inner = &child;
      });
      const records::Evidence* evidence = readEvidence(node, spec, {});
      Value value = inner->type == NodeType::empty
                        ? unfit(*inner, fieldInQuotes() + " has no value after `is:`", "type the value after `is:`")
                        : readBare(*inner, spec, true);
      value.evidence = evidence;
      return value;
    }
    if (!isMapping && spec.type != FieldType::structure) {
      if (hasEvidence)
        return unfit(node, fieldInQuotes() + " has evidence but no value", "write the value as `is: …` beside `cite`");
      return unfit(node, fieldInQuotes() + " takes a plain value, here is a mapping with keys of its own",
                   "write `" + std::string(fieldName_) + ": value`, or the value as `is: …` with `cite: …` beside it");
    }
  }
  return readBare(node, spec, true);
}

Value TypedReader::readBare(const Node& node, const FieldSpec& spec, bool listAllowed) {
  if (node.type == NodeType::sequence) {
    const bool takesList = spec.has(records::kMany) || spec.type == FieldType::madeIn;
    if (takesList && listAllowed) return readList(node, spec);
    if (spec.type == FieldType::moment || spec.type == FieldType::span)
      return unfit(node, "a set of dates must be quoted, or YAML takes it for a list",
                   "write `" + std::string(fieldName_) + ": \"" +
                       std::string(text_.substr(node.begin, std::min<std::size_t>(40, node.end + 1 - node.begin))) + "\"`");
    return unfit(node, fieldInQuotes() + " takes one value, here is a list", "keep one value; put the rest into `note`");
  }
  if (node.isScalar() && !node.quoted()) {
    if (node.text == "unknown") return start(node, ValueType::unknown);
    const bool noneIsWord = spec.type == FieldType::choice &&
                            std::find(spec.words.begin(), spec.words.end(), "none") != spec.words.end();
    if (node.text == "none" && !noneIsWord && spec.type != FieldType::prose) return start(node, ValueType::none);
  }
  switch (spec.type) {
    case FieldType::structure: return readStructure(node, spec);
    case FieldType::structureMap: return readStructureMap(node, spec);
    case FieldType::look: return readLook(node, spec);
    case FieldType::headings: return readHeadings(node, spec);
    case FieldType::madeIn: return readMadeIn(node, spec);
    default: break;
  }
  if (!node.isScalar())
    return unfit(node, fieldInQuotes() + " takes a plain value, here is a mapping", "write `" + std::string(fieldName_) + ": value`");
  return readScalar(node, spec);
}

Value TypedReader::readList(const Node& node, const FieldSpec& spec) {
  std::vector<Value> items;
  items.reserve(node.count);
  for (const Node* child = node.first; child != nullptr; child = child->next) {
    if (child->type == NodeType::empty) {
      items.push_back(unfit(*child, "an item of " + fieldInQuotes() + " is empty", "type the item, or take the line out"));
    } else if (child->type == NodeType::sequence) {
      items.push_back(unfit(*child, "a list stands inside the list of " + fieldInQuotes(), "write one list"));
    } else {
      items.push_back(readValue(*child, spec));
    }
  }
  Value value = start(node, ValueType::list);
  const auto kept = arena_.copy(items);
  value.items_ = kept.data();
  value.count_ = static_cast<std::uint32_t>(kept.size());
  return value;
}

Value TypedReader::readStructure(const Node& node, const FieldSpec& spec) {
  std::vector<Entry> entries;
  const std::string_view outer = fieldName_;
  if (node.type != NodeType::mapping) {  // a plain value stands for the first field
    const FieldSpec& first = spec.inner[0];
    Entry entry;
    entry.key = first.field.name();
    entry.field = first.field;
    entry.known = true;
    entry.keyPlace = {node.begin, node.begin};
    fieldName_ = first.field.name();
    entry.value = readBare(node, first, false);
    fieldName_ = outer;
    if (entry.value.type == ValueType::unknown || entry.value.type == ValueType::none) return entry.value;
    return mappingOf(node, {entry});
  }
  bool evidence = false;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!key.isScalar()) {
      unfit(key, "a key must be a word", "write `word: value`");
      return;
    }
    if (!keyOnce(node, key)) return;
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
      report("field-unknown"_rule, key.begin, key.end,
             "`" + std::string(key.text) + "` is no part of `" + std::string(outer) + "`",
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
    entries.push_back(entry);
  });
  Value value = mappingOf(node, entries);
  if (evidence) value.evidence = readEvidence(node, spec, spec.inner);
  for (const FieldSpec& field : spec.inner) {
    if (!field.has(records::kRequired)) continue;
    const bool there = std::any_of(entries.begin(), entries.end(), [&](const Entry& e) { return e.field == field.field; });
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
    return unfit(node, fieldInQuotes() + " takes a mapping", "write it as `" + std::string(spec.example) + "`");
  std::vector<Entry> entries;
  const std::string_view outer = fieldName_;
  FieldSpec one = spec;
  one.type = FieldType::structure;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!key.isScalar() || !keyOnce(node, key)) return;
    Entry entry;
    entry.key = key.text;
    entry.keyPlace = {key.begin, key.end};
    entry.value = child.type == NodeType::empty
                      ? unfit(child, "`" + std::string(key.text) + "` has no value", "type the value after the colon")
                      : readBare(child, one, false);
    entries.push_back(entry);
  });
  fieldName_ = outer;
  return mappingOf(node, entries);
}

Value TypedReader::readLook(const Node& node, const FieldSpec& spec) {
  if (node.type != NodeType::mapping)
    return unfit(node, fieldInQuotes() + " takes features with their values", "write it as `look: " + std::string(spec.example.empty() ? "{edge-line: gold}" : spec.example) + "`");
  static constexpr FieldSpec kValue[] = {
      {.field = "is"_f, .type = FieldType::text, .flags = records::kMany | records::kRequired, .meaning = "the value"},
      {.field = "used"_f, .type = FieldType::span, .meaning = "from when to when"},
  };
  static constexpr FieldSpec kPlain{.field = "is"_f, .type = FieldType::text, .flags = records::kMany};
  static constexpr FieldSpec kDated{.field = "is"_f, .type = FieldType::structure, .flags = records::kMany, .inner = kValue};
  std::vector<Entry> entries;
  const std::string_view outer = fieldName_;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!key.isScalar()) {
      unfit(key, "a feature must be a word", "write `feature: value`");
      return;
    }
    if (!keyOnce(node, key)) return;
    if (!isId(key.text)) {
      unfit(key, "`" + std::string(key.text) + "` cannot be a feature", "a feature is named by its id, as `" + asId(key.text) + "`");
      return;
    }
    auto isDated = [](const Node& one) {
      bool dated = false;
      if (one.type == NodeType::mapping) forEachPair(one, [&](const Node& k, const Node&) { dated |= k.text == "used"; });
      return dated;
    };
    bool dated = isDated(child);
    for (const Node* item = child.first; child.type == NodeType::sequence && item != nullptr; item = item->next) dated |= isDated(*item);
    Entry entry;
    entry.key = key.text;
    entry.keyPlace = {key.begin, key.end};
    fieldName_ = key.text;
    entry.value = readValue(child, dated ? kDated : kPlain);
    entries.push_back(entry);
  });
  fieldName_ = outer;
  return mappingOf(node, entries);
}

Value TypedReader::readHeadings(const Node& node, const FieldSpec&) {
  if (node.type != NodeType::mapping)
    return unfit(node, fieldInQuotes() + " takes headings of your own, each with its value", "write it as `more: {Body: hard and white}`");
  static constexpr FieldSpec kAny{.field = "is"_f, .type = FieldType::text, .flags = records::kMany};
  std::vector<Entry> entries;
  const std::string_view outer = fieldName_;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (!key.isScalar() || !keyOnce(node, key)) return;
    Entry entry;
    entry.key = key.text;
    entry.keyPlace = {key.begin, key.end};
    fieldName_ = key.text;
    entry.value = readValue(child, kAny);
    entries.push_back(entry);
  });
  fieldName_ = outer;
  return mappingOf(node, entries);
}

Value TypedReader::readMadeIn(const Node& node, const FieldSpec& spec) {
  static constexpr FieldSpec kShapes{
      .field = "shapes"_f, .type = FieldType::reference, .flags = records::kMany, .kinds = records::KindSet(Kind::shape)};
  if (node.isScalar()) {
    if (node.text == "all" && !node.quoted()) return start(node, ValueType::all);
    return readReference(node, kShapes);
  }
  if (node.type == NodeType::sequence) return readList(node, kShapes);
  std::vector<Entry> entries;
  forEachPair(node, [&](const Node& key, const Node& child) {
    if (key.text != "all-but") {
      if (!isEvidenceKey(key.text))
        report("field-unknown"_rule, key.begin, key.end, "`" + std::string(key.text) + "` is no part of `made-in`",
               "it takes a list of shapes, `all`, or `{all-but: [one, two]}`");
      return;
    }
    Entry entry;
    entry.key = key.text;
    entry.field = "all-but"_f;
    entry.known = true;
    entry.keyPlace = {key.begin, key.end};
    entry.value = readValue(child, kShapes);
    entries.push_back(entry);
  });
  Value value = mappingOf(node, entries);
  static constexpr FieldSpec kOwn[] = {{.field = "all-but"_f}};
  value.evidence = readEvidence(node, spec, kOwn);
  return value;
}

}  // namespace saggar::reading
