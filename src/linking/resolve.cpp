#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"
#include "linking/linker.h"

// Names become records: references, events, citations and the features of a look.
namespace saggar::linking {

using records::Citation;
using records::Entry;
using records::Evidence;
using records::FieldSpec;
using records::FieldType;
using records::KindSet;
using records::Value;
using records::ValueType;

namespace {

std::string kindsInWords(KindSet kinds) {
  std::vector<std::string> names;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    if (kinds.has(static_cast<Kind>(i))) names.emplace_back(records::kKindNames[i].one);
  return names.size() > 5 ? "record" : base::listedInWords(names, "or");
}

}  // namespace

bool Linker::isLost(std::string_view id) const {
  return collection_.guide_->lostFiles || collection_.guide_->lostIds.contains(id);
}

std::string Linker::suggestion(std::string_view id, KindSet kinds) {
  std::string key(id);
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
    key += kinds.has(static_cast<Kind>(i)) ? '+' : '-';
  if (const auto known = suggestions_.find(key); known != suggestions_.end()) return known->second;
  if (suggestions_.size() == kMostSuggestions) return {};
  std::vector<std::string_view> ids;
  for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) {
    if (!kinds.has(static_cast<Kind>(i))) continue;
    for (RecordIndex one : collection_.byKind_[i]) ids.push_back(collection_[one].id);
  }
  const auto near = base::nearest(id, ids);
  return suggestions_[key] = near ? std::string(*near) : std::string();
}

// Suggestions come when all threads are done, in the order of the records: so they are the same in every run.
void Linker::suggestAll(Resolved& resolved) {
  for (const Resolved::Missing& one : resolved.missing) {
    const std::string near = suggestion(one.id, one.kinds);
    if (!near.empty()) resolved.findings.all()[one.finding].hint = "did you mean `" + near + "`?";
  }
}

void Linker::missing(std::string_view id, KindSet kinds, source::Span span, const Record& from,
                     std::string_view field, Resolved& out) {
  if (isLost(id)) return;
  const std::string what = kindsInWords(kinds);
  out.missing.push_back({out.findings.all().size(), std::string(id), kinds});
  out.findings.add({.rule = "reference-missing"_rule,
                    .span = span,
                    .message = "there is no " + what + " `" + base::shortened(id, 60) + "`",
                    .hint = kinds.single()
                                ? "add the record `- " + what + ": " + std::string(id) + "`, or mend the id"
                                : "add the record, or mend the id",
                    .record = from.reference(),
                    .field = std::string(field)});
}

void Linker::resolveRecord(RecordIndex index, Resolved& out) {
  Record& record = collection_.guide_->records[index];
  Walk walk{index, &record, {}, out};
  const std::size_t firstReference = out.references.size();
  if (record.evidence != nullptr) {
    walk.field = "cite"_f;
    resolveEvidence(*record.evidence, nullptr, walk);
  }
  for (Entry& entry : record.fields) {
    if (!entry.known) continue;
    const FieldSpec* spec = records::specOf(record.kind, entry.field);
    if (spec == nullptr) continue;
    walk.field = entry.field;
    resolveValue(entry.value, *spec, walk);
  }
  // Each field names a target once, however often it stands in it.
  auto begin = out.references.begin() + static_cast<std::ptrdiff_t>(firstReference);
  std::stable_sort(begin, out.references.end(), [](const auto& a, const auto& b) {
    return std::pair(a.target, a.from.field) < std::pair(b.target, b.from.field);
  });
  out.references.erase(std::unique(begin, out.references.end(),
                                   [](const auto& a, const auto& b) {
                                     return a.target == b.target && a.from.field == b.from.field;
                                   }),
                       out.references.end());
}

void Linker::resolveValue(Value& value, const FieldSpec& spec, Walk& walk) {
  if (value.evidence != nullptr) resolveEvidence(*value.evidence, &spec, walk);
  switch (value.type) {
    case ValueType::reference:
      resolveReference(value, spec.kinds.empty() ? KindSet(Kind::shape) : spec.kinds, walk);
      return;
    case ValueType::event: resolveEvent(value, walk); return;
    case ValueType::between:
      for (std::uint32_t i = 0; i < value.count(); ++i)
        if (value.items_[i].type == ValueType::event) resolveEvent(value.items_[i], walk);
      return;
    case ValueType::list:
      if (records::isKeptAsTyped(spec.type)) return;
      for (std::uint32_t i = 0; i < value.count(); ++i) resolveValue(value.items_[i], spec, walk);
      return;
    case ValueType::mapping: break;
    default: return;
  }
  if (records::isKeptAsTyped(spec.type)) return;
  static constexpr FieldSpec kShapes{
      .field = "shapes"_f, .type = FieldType::reference, .kinds = KindSet(Kind::shape)};
  static constexpr FieldSpec kText{.field = "is"_f, .type = FieldType::text};
  for (std::uint32_t i = 0; i < value.count(); ++i) {
    Entry& entry = value.entries_[i];
    switch (spec.type) {
      case FieldType::look: resolveLook(entry, walk); break;
      case FieldType::madeIn: resolveValue(entry.value, kShapes, walk); break;
      case FieldType::headings: resolveValue(entry.value, kText, walk); break;
      case FieldType::structureMap: {
        FieldSpec one = spec;
        one.type = FieldType::structure;
        resolveValue(entry.value, one, walk);
        break;
      }
      default:
        for (const FieldSpec& inner : spec.inner)
          if (entry.known && inner.field == entry.field) resolveValue(entry.value, inner, walk);
    }
  }
}

void Linker::resolveReference(Value& value, KindSet kinds, Walk& walk) {
  const std::string_view text = value.text;
  const std::size_t colon = text.find(':');
  if (colon != std::string_view::npos) {
    const auto kind = records::kindNamed(text.substr(0, colon));
    if (!kind) return;
    const std::string_view id = text.substr(colon + 1);
    if (const auto found = collection_.find(*kind, id)) {
      value.target_ = *found;
    } else {
      missing(id, KindSet(*kind), walk.record->span(value.place), *walk.record, walk.field.name(), walk.out);
    }
  } else {
    std::vector<RecordIndex> found;
    for (std::size_t i = 0; i + 1 < records::kKindCount; ++i)
      if (kinds.has(static_cast<Kind>(i)))
        if (const auto one = collection_.find(static_cast<Kind>(i), text)) found.push_back(*one);
    if (found.empty()) {
      missing(text, kinds, walk.record->span(value.place), *walk.record, walk.field.name(), walk.out);
    } else if (found.size() > 1) {
      std::vector<std::string> names;
      for (RecordIndex one : found) names.push_back('`' + collection_[one].reference() + '`');
      walk.out.findings.add(
          {.rule = "reference-ambiguous"_rule,
           .span = walk.record->span(value.place),
           .message = "`" + std::string(text) + "` could be " + base::listedInWords(names, "or"),
           .hint = "write the kind in front of the id",
           .record = walk.record->reference(),
           .field = std::string(walk.field.name())});
    } else {
      value.target_ = found[0];
    }
  }
  if (value.target_ != records::kNoRecord)
    walk.out.references.push_back({value.target_, {walk.from, walk.field}});
}

void Linker::resolveEvent(Value& value, Walk& walk) {
  const std::size_t colon = value.text.find(':');
  if (colon == std::string_view::npos) return;
  const auto kind = records::kindNamed(value.text.substr(0, colon));
  if (!kind) return;
  std::string_view id = value.text.substr(colon + 1);
  std::string_view fieldName;
  if (const std::size_t dot = id.find('.'); dot != std::string_view::npos) {
    fieldName = id.substr(dot + 1);
    id = id.substr(0, dot);
  }
  const source::Span span = walk.record->span(value.place);
  const auto found = collection_.find(*kind, id);
  if (!found) {
    missing(id, KindSet(*kind), span, *walk.record, walk.field.name(), walk.out);
    return;
  }
  value.target_ = *found;
  walk.out.references.push_back({*found, {walk.from, walk.field}});
  std::string_view base = fieldName.substr(0, fieldName.find('.'));
  const std::string_view end =
      fieldName.size() > base.size() ? fieldName.substr(base.size() + 1) : std::string_view();
  std::vector<std::string_view> dated;
  for (const FieldSpec* one : records::fieldsOf(*kind))
    if (one->has(records::kDated))
      dated.push_back(one->field.name());
    else if (one->field == "seen"_f)
      dated.push_back("seen.on");
  if (fieldName.empty()) {
    if (const auto own = records::spec(*kind).standsFor) {
      value.eventField = *own;
      return;
    }
    std::string hint =
        dated.empty() ? "a " + std::string(name(*kind)) + " has no date of its own"
                      : "name the field, as `" + std::string(value.text) + "." + std::string(dated[0]) + "`";
    walk.out.findings.add({.rule = "value-unfit"_rule,
                           .span = span,
                           .message = "`" + std::string(value.text) + "` is no event",
                           .hint = hint,
                           .record = walk.record->reference(),
                           .field = std::string(walk.field.name())});
    return;
  }
  const auto field = records::fieldNamed(base);
  const FieldSpec* spec = field ? records::specOf(*kind, *field) : nullptr;
  const bool fits =
      spec != nullptr &&
      (*field == "seen"_f
           ? end == "on"
           : spec->has(records::kDated) &&
                 (end.empty() || (spec->type == FieldType::span && (end == "from" || end == "until"))));
  if (fits) {
    value.eventField = *field;
    value.eventFieldTyped = true;
    return;
  }
  const auto near = base::nearest(base == "seen" ? fieldName : base, dated);
  std::vector<std::string> shown;
  for (std::string_view one : dated) shown.push_back('`' + std::string(one) + '`');
  walk.out.findings.add(
      {.rule = "value-unfit"_rule,
       .span = span,
       .message = "a " + std::string(name(*kind)) + " has no date `" + std::string(fieldName) + "`",
       .hint = near ? "did you mean `" + std::string(value.text.substr(0, colon + 1)) + std::string(id) +
                          "." + std::string(*near) + "`?"
                    : "its dates are " + base::listedInWords(shown),
       .record = walk.record->reference(),
       .field = std::string(walk.field.name())});
}

void Linker::resolveLook(Entry& entry, Walk& walk) {
  const auto feature = collection_.find(Kind::feature, entry.key);
  if (entry.value.evidence != nullptr) resolveEvidence(*entry.value.evidence, nullptr, walk);
  if (!feature) {
    missing(entry.key, KindSet(Kind::feature), walk.record->span(entry.keyPlace), *walk.record,
            walk.field.name(), walk.out);
    return;
  }
  entry.feature = *feature;
  walk.out.references.push_back({*feature, {walk.from, walk.field}});
  for (const Value& value : entry.value.each()) {
    if (&value != &entry.value && value.evidence != nullptr) resolveEvidence(*value.evidence, nullptr, walk);
    checkLookValue(entry, value, walk);
  }
}

// A value that the feature does not list is mistyped, or the feature wants it added.
void Linker::checkLookValue(const Entry& entry, const Value& value, Walk& walk) {
  if (value.type == ValueType::mapping) {
    if (const Value* is = value.find("is"_f))
      for (const Value& one : is->each()) checkLookValue(entry, one, walk);
    return;
  }
  if (value.type != ValueType::text && value.type != ValueType::none) return;
  const Record& feature = collection_[entry.feature];
  const Value* values = feature.find("values"_f);
  if (values == nullptr || values->type != ValueType::mapping || feature.broken) return;
  std::vector<std::string_view> words;
  for (const Entry& one : values->entries()) {
    if (one.key == value.text) return;
    words.push_back(one.key);
  }
  if (value.type == ValueType::none) return;
  const auto near = base::nearest(value.text, words);
  std::vector<std::string> shown;
  for (std::string_view one : words) shown.push_back('`' + std::string(one) + '`');
  walk.out.findings.add({.rule = "value-unfit"_rule,
                         .span = walk.record->span(value.place),
                         .message = "`" + base::shortened(value.text, 40) + "` is no value of the feature `" +
                                    std::string(entry.key) + "`",
                         .hint = near ? "did you mean `" + std::string(*near) + "`?"
                                      : "its values are " + base::listedInWords(shown) +
                                            "; a new one is added to the feature's `values`",
                         .record = walk.record->reference(),
                         .field = std::string(walk.field.name()),
                         .related = {{feature.span(), "the feature stands here"}}});
}

void Linker::resolveEvidence(const Evidence& evidence, const FieldSpec* spec, Walk& walk) {
  for (Citation& citation : evidence.cite) resolveCitation(citation, walk);
  for (records::Alternative& one : evidence.but()) {
    for (Citation& citation : one.cite) resolveCitation(citation, walk);
    if (spec != nullptr) resolveValue(one.is, *spec, walk);
  }
}

void Linker::resolveCitation(Citation& citation, Walk& walk) {
  if (const auto found = collection_.find(citation.kind, citation.id)) {
    citation.target = *found;
    walk.out.citations.push_back({*found, {walk.from, walk.field}});
  } else {
    missing(citation.id, KindSet(citation.kind), walk.record->span(citation.idPlace), *walk.record,
            walk.field.name(), walk.out);
  }
}

}  // namespace saggar::linking
