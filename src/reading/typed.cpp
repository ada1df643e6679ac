#include "reading/typed.h"

#include <algorithm>
#include <unordered_map>

#include "base/edit_distance.h"
#include "base/text.h"

namespace saggar::reading {

using records::Entry;
using records::FieldSpec;
using records::FieldType;
using records::Value;
using records::ValueType;

bool isId(std::string_view text) {
  if (text.empty() || text[0] == '-') return false;
  return std::all_of(text.begin(), text.end(),
                     [](char c) { return base::isLower(c) || base::isDigit(c) || c == '-'; });
}

std::string asId(std::string_view text) {
  std::string id;
  bool between = false;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const bool mark = text[at] == '\'' || text[at] == '.';  // "St. Anne's" gives "st-annes"
    if (static_cast<unsigned char>(text[at]) >= 0x80 || base::isLower(text[at]) || base::isUpper(text[at]) ||
        base::isDigit(text[at])) {
      std::size_t end = at + 1;
      while (end < text.size() && static_cast<unsigned char>(text[end]) >= 0x80) ++end;
      const std::string plain = base::foldedForFinding(text.substr(at, end - at));
      for (char c : plain) {
        if (!base::isLower(c) && !base::isDigit(c)) continue;
        if (between && !id.empty()) id += '-';
        between = false;
        id += c;
      }
      at = end - 1;
    } else if (!mark) {
      between = true;
    }
  }
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

std::string TypedReader::fieldInQuotes() const {
  return '`' + base::shortened(fieldName_, 40) + '`';
}

void TypedReader::report(diagnostics::Rule rule, std::uint32_t begin, std::uint32_t end, std::string message,
                         std::string hint) {
  findings_.add({.rule = rule,
                 .span = {file_, begin, std::max(end, begin)},
                 .message = std::move(message),
                 .hint = std::move(hint),
                 .record = record_ != nullptr ? record_->reference() : std::string(),
                 .field = std::string(fieldName_)});
}

Value TypedReader::unfit(const Node& node, std::string message, std::string hint) {
  if (!node.told) report("value-unfit"_rule, node.begin, node.end, std::move(message), std::move(hint));
  return start(node, ValueType::unfit);
}

// Reports keys that are typed twice; forEachPair then passes over all but the first.
void TypedReader::keysOnce(const Node& mapping) {
  auto twice = [&](const Node& first, const Node& key) {
    if (key.told) return;
    const std::string name = base::shortened(key.text, 40);
    findings_.add({.rule = "field-twice"_rule,
                   .span = {file_, key.begin, key.end},
                   .message = "`" + name + "` is typed twice here, and only the first counts",
                   .hint = "keep one; several values of one field go into a list, `" + name + ": [one, two]`",
                   .record = record_ != nullptr ? record_->reference() : std::string(),
                   .field = std::string(key.text),
                   .related = {{{file_, first.begin, first.end}, "the first stands here"}}});
    const_cast<Node&>(key).told = true;
  };
  constexpr std::uint32_t kFew = 64;
  if (mapping.count <= kFew) {
    for (const Node* key = mapping.first; key != nullptr && key->next != nullptr; key = key->next->next)
      for (const Node* other = mapping.first; other != key; other = other->next->next)
        if (other->text.size() == key->text.size() && other->isScalar() && key->isScalar() &&
            other->text == key->text) {
          twice(*other, *key);
          break;
        }
    return;
  }
  std::unordered_map<std::string_view, const Node*> seen;
  for (const Node* key = mapping.first; key != nullptr && key->next != nullptr; key = key->next->next) {
    if (!key->isScalar()) continue;
    const auto [slot, fresh] = seen.try_emplace(key->text, key);
    if (!fresh) twice(*slot->second, *key);
  }
}

bool TypedReader::isWord(const Node& key) {
  if (key.isScalar() && !key.text.empty()) return true;
  unfit(key, "a key must be a word", "write `word: value`");
  return false;
}

Value TypedReader::listOf(const Node& node, std::span<const Value> items) {
  Value value = start(node, ValueType::list);
  value.items_ = keptMembers(items);
  return value;
}

Value TypedReader::mappingOf(const Node& node, std::span<const Entry> entries) {
  Value value = start(node, ValueType::mapping);
  value.entries_ = keptMembers(entries);
  return value;
}

Value TypedReader::readTree(const Node& node) {
  if (node.told) return start(node, ValueType::unfit);
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
      Gathered<Value> items(values_);
      for (const Node* child = node.first; child != nullptr; child = child->next) items.add(readTree(*child));
      return listOf(node, items.all());
    }
    case NodeType::mapping: {
      keysOnce(node);
      Gathered<Entry> entries(entries_);
      forEachPair(node, [&](const Node& key, const Node& child) {
        if (!isWord(key)) return;
        Entry entry;
        entry.key = key.text;
        entry.keyPlace = {key.begin, key.end};
        if (const auto field = records::fieldNamed(key.text)) {
          entry.field = *field;
          entry.known = true;
        }
        entry.value = readTree(child);
        entries.add(entry);
      });
      return mappingOf(node, entries.all());
    }
  }
  return start(node, ValueType::unfit);
}

Value TypedReader::readValue(const Node& node, const FieldSpec& spec) {
  if (node.told) return start(node, ValueType::unfit);
  if (spec.type == FieldType::where && node.type != NodeType::empty && node.type != NodeType::mapping)
    return unfit(node,
                 fieldInQuotes() + " takes a condition: fields with the values they must have, here is a " +
                     (node.type == NodeType::sequence ? "list" : "plain value"),
                 "write it as `" + std::string(fieldName_) +
                     ": {shape: jessamount}`; several of which one is enough, as `{any: [{…}, {…}]}`");
  if (spec.type == FieldType::severities && node.type != NodeType::empty && node.type != NodeType::mapping)
    return unfit(node, fieldInQuotes() + " takes rules of findings, each with its weight",
                 "write it as `" + std::string(fieldName_) + ": " + std::string(spec.example) + "`");
  if (records::isKeptAsTyped(spec.type)) return readTree(node);
  if (node.type == NodeType::empty)
    return unfit(node, fieldInQuotes() + " has no value",
                 "type the value; leave the line out if nothing is recorded, or write `unknown` if you "
                 "looked and do not know");
  if (spec.type == FieldType::citations) {
    // Kept as evidence of a value that is the list itself.
    Value value = start(node, ValueType::list);
    auto* evidence = arena_.make<records::Evidence>();
    evidence->cite = readCitations(node);
    evidence->place = value.place;
    value.evidence = evidence;
    return value;
  }
  if (node.type != NodeType::mapping) return readBare(node, spec, true);
  const bool ownsIs =
      spec.type == FieldType::structure && !spec.inner.empty() && spec.inner[0].field == "is"_f;
  const Node* is = nullptr;
  if (!ownsIs)
    forEachPair(node, [&](const Node& key, const Node& child) {
      if (key.text == "is" && is == nullptr) is = &child;
    });
  if (is != nullptr) {
    keysOnce(node);
    const records::Evidence* evidence = readEvidence(node, spec, {});
    Value value;
    if (is->type == NodeType::empty) {
      value = unfit(*is, fieldInQuotes() + " has no value after `is:`", "type the value after `is:`");
    } else {
      value = readBare(*is, spec, true);
    }
    value.evidence = evidence;
    return value;
  }
  return readBare(node, spec, true);
}

// A plain value is wanted, and a mapping was found. Most often a text holds a colon and a blank, of which YAML makes a
// key and a value.
Value TypedReader::plainWanted(const Node& mapping, const FieldSpec& spec) {
  const std::string field(base::shortened(fieldName_, 40));
  const Node* key = mapping.first;
  bool hasEvidence = false;
  forEachPair(mapping, [&](const Node& one, const Node&) { hasEvidence |= isEvidenceKey(one.text); });
  if (hasEvidence)
    return unfit(mapping, '`' + field + "` has evidence but no value",
                 "write the value as `is: …` beside `cite`");
  const bool oneLine = key != nullptr && mapping.count == 2 && key->isScalar() && key->next->isScalar() &&
                       !key->quoted() && typed(mapping).find_first_of("\r\n") == std::string_view::npos;
  const bool words = spec.type == FieldType::text || spec.type == FieldType::prose;
  if (oneLine && (words || key->text.find(' ') != std::string_view::npos)) {
    std::string_view text = typed(mapping);
    if (text.starts_with('{')) text = text.substr(1, text.size() - 2);
    return unfit(mapping, "the colon in this text makes a key and a value of it",
                 "put the whole text in quotes: `\"" + base::shortened(base::trimmed(text), 80) + "\"`");
  }
  return unfit(mapping, '`' + field + "` takes a plain value, here is a mapping with keys of its own",
               "write `" + field + ": value`, or the value as `is: …` with `cite: …` beside it");
}

Value TypedReader::readBare(const Node& node, const FieldSpec& spec, bool listAllowed) {
  if (node.told) return start(node, ValueType::unfit);
  if (node.type == NodeType::sequence) {
    const bool takesList = spec.has(records::kMany) || spec.type == FieldType::madeIn;
    if (takesList && listAllowed) return readList(node, spec);
    if (spec.type == FieldType::moment || spec.type == FieldType::span)
      return unfit(node, "a set of dates must be quoted, or YAML takes it for a list",
                   "write `" + std::string(fieldName_) + ": \"" + base::shortened(typed(node), 60) + "\"`");
    return unfit(node, fieldInQuotes() + " takes one value, here is a list",
                 "keep one value; put the rest into `note`");
  }
  if (node.isScalar() && !node.quoted()) {
    if (node.text == "unknown") return start(node, ValueType::unknown);
    const bool noneIsWord = spec.type == FieldType::choice &&
                            std::find(spec.words.begin(), spec.words.end(), "none") != spec.words.end();
    if (node.text == "none" && !noneIsWord && spec.type != FieldType::prose) {
      const bool date = spec.type == FieldType::moment || spec.type == FieldType::span;
      if (!date || spec.has(records::kMayBeNone)) return start(node, ValueType::none);
      return unfit(
          node, fieldInQuotes() + " takes a date, and cannot be `none`",
          "leave the line out if nothing is recorded, or write `unknown` if you looked and do not know");
    }
  }
  switch (spec.type) {
    case FieldType::structure: return readStructure(node, spec);
    case FieldType::structureMap: return readStructureMap(node, spec);
    case FieldType::look: return readLook(node, spec);
    case FieldType::headings: return readHeadings(node);
    case FieldType::madeIn: return readMadeIn(node, spec);
    default: break;
  }
  if (node.type == NodeType::empty)
    return unfit(node, fieldInQuotes() + " has no value", "type the value, or take the line out");
  if (!node.isScalar()) return plainWanted(node, spec);
  if (base::trimmed(node.text).empty())
    return unfit(node, fieldInQuotes() + " is empty",
                 "type the value, or leave the line out if nothing is recorded");
  return readScalar(node, spec);
}

Value TypedReader::readList(const Node& node, const FieldSpec& spec) {
  Gathered<Value> items(values_);
  for (const Node* child = node.first; child != nullptr; child = child->next) {
    if (child->type == NodeType::empty) {
      items.add(unfit(*child, "an item of " + fieldInQuotes() + " is empty",
                      "type the item, or take the dash or comma out"));
    } else if (child->type == NodeType::sequence) {
      items.add(unfit(*child, "a list stands inside the list of " + fieldInQuotes(), "write one list"));
    } else {
      items.add(readValue(*child, spec));
    }
  }
  return listOf(node, items.all());
}

}  // namespace saggar::reading
