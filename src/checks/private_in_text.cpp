#include <cstring>
#include <unordered_map>

#include "base/text.h"
#include "base/utf8.h"
#include "checks/rules.h"
#include "records/tables.h"

// A shelf, a price or an owner's name that stands word for word in a text that is published.
//
// The problem: tens of thousands of private values against tens of megabytes of published text. The choice: every value
// has at least six bytes; the first six of a text at each place where a word can begin are looked up in a small bit
// table, and only what passes is compared. The cost: values under six characters are not looked for (SEMANTICS).
namespace saggar::checks {

using records::Entry;
using records::Evidence;
using records::Record;
using records::Value;
using records::ValueType;

namespace {

constexpr std::size_t kShortest = 6;

struct Private {
  std::string_view text;
  const Record* record;
  const Entry* entry;
};

bool isWordByte(char c) {
  return base::isDigit(c) || base::isLower(c) || base::isUpper(c) || static_cast<unsigned char>(c) >= 0x80;
}

std::uint64_t firstSix(const char* at) {
  std::uint64_t six = 0;
  std::memcpy(&six, at, kShortest);
  return six * 0x9E3779B97F4A7C15ULL;
}

class Search {
 public:
  void add(const Private& one) {
    if (base::countCodePoints(one.text) < kShortest || one.text.size() < kShortest) return;
    const std::uint64_t hash = firstSix(one.text.data());
    bits_[(hash >> 44) / 64] |= 1ULL << ((hash >> 44) % 64);
    byStart_[hash].push_back(one);
  }
  bool empty() const { return byStart_.empty(); }

  // The first private value that stands in the text, and where.
  const Private* in(std::string_view text, std::size_t& at) const {
    if (text.size() < kShortest) return nullptr;
    for (std::size_t i = 0; i + kShortest <= text.size(); ++i) {
      if (i != 0 && isWordByte(text[i - 1]) && isWordByte(text[i])) continue;
      const std::uint64_t hash = firstSix(text.data() + i);
      if ((bits_[(hash >> 44) / 64] >> ((hash >> 44) % 64) & 1) == 0) continue;
      const auto found = byStart_.find(hash);
      if (found == byStart_.end()) continue;
      for (const Private& one : found->second) {
        if (!text.substr(i).starts_with(one.text)) continue;
        const std::size_t end = i + one.text.size();
        if (end < text.size() && isWordByte(text[end]) && isWordByte(text[end - 1])) continue;
        at = i;
        return &one;
      }
    }
    return nullptr;
  }

 private:
  std::vector<std::uint64_t> bits_ = std::vector<std::uint64_t>((1u << 20) / 64);
  std::unordered_map<std::uint64_t, std::vector<Private>> byStart_;
};

void addPrivate(Search& search, const Record& record, const Entry& entry, const Value& value) {
  if (value.type == ValueType::text || value.type == ValueType::prose) search.add({base::trimmed(value.text), &record, &entry});
  for (const Value& item : value.items()) addPrivate(search, record, entry, item);
  for (const Entry& inner : value.entries()) addPrivate(search, record, entry, inner.value);
}

bool isPrivate(const Record& record, const Entry& entry) {
  if (!entry.known) return true;  // my-…
  const records::FieldSpec* spec = records::specOf(record.kind, entry.field);
  return spec != nullptr && spec->has(records::kPrivate);
}

class Reader {
 public:
  Reader(const Search& search, diagnostics::Findings& findings) : search_(search), findings_(findings) {}

  void read(const Record& record, const Entry& entry, const Value& value) {
    if (!value.text.empty() && value.type != ValueType::date && value.type != ValueType::reference)
      look(value.text, record.span(value.place), &record, entry.key);
    if (value.evidence != nullptr) read(record, entry.key, *value.evidence);
    for (const Value& item : value.items()) read(record, entry, item);
    for (const Entry& inner : value.entries()) read(record, inner, inner.value);
  }

  void read(const Record& record, std::string_view field, const Evidence& evidence) {
    for (const records::Citation& citation : evidence.cite) look(citation.at, record.span(citation.place), &record, field);
    look(evidence.judged, record.span(evidence.place), &record, field);
    look(evidence.doubted, record.span(evidence.place), &record, field);
    if (evidence.note != nullptr) look(evidence.note->text, record.span(evidence.note->place), &record, field);
    for (const records::Alternative& one : evidence.but) {
      look(one.is.text, record.span(one.place), &record, field);
      look(one.setAside, record.span(one.place), &record, field);
    }
  }

  void look(std::string_view text, source::Span span, const Record* in, std::string_view field) {
    std::size_t at = 0;
    const Private* found = search_.in(text, at);
    if (found == nullptr) return;
    if (in == nullptr) {
      span.begin += static_cast<std::uint32_t>(at);
      span.end = span.begin + static_cast<std::uint32_t>(found->text.size());
    }
    findings_.add({.rule = "private-in-text"_rule,
                   .span = span,
                   .message = "this text is published, and holds the private `" + std::string(found->entry->key) + "` of " + found->record->reference() + " word for word",
                   .hint = "say it in other words, or leave it out",
                   .record = in == nullptr ? found->record->reference() : in->reference(),
                   .field = std::string(field),
                   .related = {{found->record->span(found->entry->value.place), "the private value stands here"}}});
  }

 private:
  const Search& search_;
  diagnostics::Findings& findings_;
};

}  // namespace

void privateInText(const Context& context, diagnostics::Findings& findings) {
  Search search;
  for (const Record& record : context.collection.records())
    for (const Entry& entry : record.fields)
      if (isPrivate(record, entry)) addPrivate(search, record, entry, entry.value);
  if (search.empty()) return;
  Reader reader(search, findings);
  for (const Record& record : context.collection.records()) {
    if (record.evidence != nullptr) reader.read(record, "cite", *record.evidence);
    for (const Entry& entry : record.fields)
      if (!isPrivate(record, entry)) reader.read(record, entry, entry.value);
  }
  for (const records::ProseFile& prose : context.collection.read().prose)
    reader.look(context.collection.sources().text(prose.file), {prose.file, 0, 0}, nullptr, {});
}

}  // namespace saggar::checks
