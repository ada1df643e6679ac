#include <algorithm>

#include "linking/linker.h"
#include "linking/prose.h"

// Links to records in prose files and in fields that are Markdown.
namespace saggar::linking {

using document::Inline;
using document::InlineKind;
using records::Entry;
using records::Evidence;
using records::Field;
using records::Value;
using records::ValueType;

reading::MarkdownResult parseProse(std::string_view text, const reading::TextMap& places) {
  static const std::vector<std::string_view> kinds = [] {
    std::vector<std::string_view> names;
    for (std::size_t i = 0; i + 1 < records::kKindCount; ++i) names.push_back(records::kKindNames[i].one);
    return names;
  }();
  return reading::parseMarkdown(text, places, {kinds, records::blockNames()});
}

reading::MarkdownResult parseProse(const Collection& collection, const Record& record, const Value& value) {
  const reading::YamlTextMap places(collection.sources().text(record.file), record.span(value.place),
                                    value.text);
  return parseProse(value.text, places);
}

namespace {

constexpr Field kNote = "note"_f;

void forEachProse(const Value& value, Field field, auto&& visit) {
  if (value.type == ValueType::prose) visit(value, field);
  if (value.evidence != nullptr && value.evidence->note() != nullptr) visit(*value.evidence->note(), kNote);
  for (const Value& item : value.items()) forEachProse(item, field, visit);
  for (const Entry& entry : value.entries())
    forEachProse(entry.value, entry.known ? entry.field : field, visit);
}

}  // namespace

void Linker::findMentions(diagnostics::Findings& findings) {
  auto take = [&](reading::MarkdownResult result, RecordIndex from, std::size_t prose, Field field) {
    static const Record kNobody;
    const Record& record = from == records::kNoRecord ? kNobody : collection_[from];
    const std::string reference = from == records::kNoRecord ? std::string() : record.reference();
    for (reading::MarkdownNotice& notice : result.notices)
      findings.add({.rule = notice.rule,
                    .span = notice.span,
                    .message = std::move(notice.message),
                    .hint = std::move(notice.hint),
                    .record = reference,
                    .field = from == records::kNoRecord ? std::string() : std::string(field.name())});
    document::forEachInline(result.blocks, [&](const Inline& one) {
      if (one.kind != InlineKind::reference && one.kind != InlineKind::citation) return;
      const bool citation = one.kind == InlineKind::citation;
      const std::string_view whole = one.text;
      const std::size_t colon = whole.find(':');
      const auto kind = citation ? std::optional(Kind::source) : records::kindNamed(whole.substr(0, colon));
      if (!kind) return;
      std::string_view id = citation ? whole : whole.substr(colon + 1);
      id = id.substr(0, id.find('.'));
      const auto found = collection_.find(*kind, id);
      if (!found) {
        if (isLost(id)) return;
        const std::string near = suggestion(id, records::KindSet(*kind));
        findings.add({.rule = "reference-missing"_rule,
                      .span = one.span,
                      .message = "there is no " + std::string(name(*kind)) + " `" + std::string(id) + "`",
                      .hint = near.empty() ? "add the record, or mend the link"
                                           : "did you mean `" + std::string(name(*kind)) + ":" + near + "`?",
                      .record = reference});
        return;
      }
      collection_.mentions_.push_back({*found, from, prose, field, one.span, citation});
    });
  };
  for (RecordIndex i = 0; i < collection_.size(); ++i) {
    const Record& record = collection_[i];
    for (const Entry& entry : record.fields) {
      forEachProse(entry.value, entry.field, [&](const Value& value, Field field) {
        if (reading::scanForLinks(value.text))
          take(parseProse(collection_, record, value), i, SIZE_MAX, field);
      });
    }
  }
  const auto& prose = collection_.read().prose;
  for (std::size_t i = 0; i < prose.size(); ++i) {
    const reading::FileTextMap places(prose[i].file);
    take(parseProse(collection_.sources().text(prose[i].file), places), records::kNoRecord, i, {});
  }
  std::stable_sort(collection_.mentions_.begin(), collection_.mentions_.end(),
                   [](const Mention& a, const Mention& b) { return a.span < b.span; });
}

}  // namespace saggar::linking
