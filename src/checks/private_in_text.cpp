#include <algorithm>
#include <cstring>
#include <deque>
#include <span>
#include <string>

#include "base/text.h"
#include "base/utf8.h"
#include "checks/rules.h"
#include "reading/text_map.h"
#include "records/tables.h"

// A shelf, a price or an owner's name that stands word for word in a text that is published.
//
// The problem: tens of thousands of private values against tens of megabytes of published text. The choice: every value
// has at least six bytes; the first six of a text at each place where a word can begin are looked up in a small bit
// table, and what passes is looked up whole, in each length that a value with that beginning has; all values are one
// sorted list. The cost: values under six characters are not looked for (SEMANTICS).
namespace saggar::checks {

using records::Entry;
using records::Evidence;
using records::Record;
using records::Value;
using records::ValueType;

namespace {

constexpr std::size_t kShortest = 6;

struct Private {
  std::string_view text;  // with one blank between its words
  std::uint64_t start;    // its first six bytes, hashed
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

// A text with one blank for each run of blanks and line ends, as it is printed, and where each byte was typed.
struct Spaced {
  std::string text;
  std::vector<std::uint32_t> from;

  explicit Spaced(std::string_view typed) {
    for (std::size_t i = 0; i < typed.size(); ++i) {
      const bool blank = base::isBlank(typed[i]);
      if (blank && (text.empty() || text.back() == ' ')) continue;
      text += blank ? ' ' : typed[i];
      from.push_back(static_cast<std::uint32_t>(i));
    }
  }
};

bool isSpaced(std::string_view text) {
  return text.find_first_of("\n\r\t") == std::string_view::npos && text.find("  ") == std::string_view::npos;
}

class Search {
 public:
  // All values of the entry.
  void add(const Record& record, const Entry& entry) { add(record, entry, entry.value); }

  // Before anything is looked for.
  void finish() {
    std::stable_sort(all_.begin(), all_.end(), before);
    all_.erase(std::unique(all_.begin(), all_.end(),
                           [](const Private& a, const Private& b) { return a.text == b.text; }),
               all_.end());
    for (const Private& one : all_) bits_[(one.start >> 44) / 64] |= 1ULL << ((one.start >> 44) % 64);
  }
  bool empty() const { return all_.empty(); }

  // The first private value that stands in the text from `from` on, and where; of several the longest.
  const Private* in(std::string_view text, std::size_t from, std::size_t& at) const {
    for (std::size_t i = from; i + kShortest <= text.size(); ++i) {
      if (i != 0 && isWordByte(text[i - 1]) && isWordByte(text[i])) continue;
      const std::uint64_t start = firstSix(text.data() + i);
      if ((bits_[(start >> 44) / 64] >> ((start >> 44) % 64) & 1) == 0) continue;
      if (const Private* found = startingAt(text, i, start)) {
        at = i;
        return found;
      }
    }
    return nullptr;
  }

 private:
  // By how they start, the longest first.
  static bool before(const Private& a, const Private& b) {
    if (a.start != b.start) return a.start < b.start;
    return a.text.size() != b.text.size() ? a.text.size() > b.text.size() : a.text < b.text;
  }

  void add(const Record& record, const Entry& entry, const Value& value) {
    if (value.type == ValueType::text || value.type == ValueType::prose) {
      std::string_view text = base::trimmed(value.text);
      if (!isSpaced(text)) text = kept_.emplace_back(Spaced(text).text);
      if (base::countCodePoints(text) >= kShortest)
        all_.push_back({text, firstSix(text.data()), &record, &entry});
    }
    for (const Value& item : value.items()) add(record, entry, item);
    for (const Entry& inner : value.entries()) add(record, entry, inner.value);
  }

  const Private* startingAt(std::string_view text, std::size_t i, std::uint64_t start) const {
    auto next =
        std::partition_point(all_.begin(), all_.end(), [&](const Private& one) { return one.start < start; });
    while (next != all_.end() && next->start == start) {
      const std::size_t length = next->text.size();
      const std::size_t end = i + length;
      if (end <= text.size() &&
          (end == text.size() || !isWordByte(text[end]) || !isWordByte(text[end - 1]))) {
        const Private wanted{text.substr(i, length), start, nullptr, nullptr};
        next = std::lower_bound(next, all_.end(), wanted, before);
        if (next == all_.end() || next->start != start) return nullptr;
        if (next->text == wanted.text) return &*next;
      }
      next = std::partition_point(next, all_.end(), [&](const Private& one) {
        return one.start == start && one.text.size() >= length;
      });
    }
    return nullptr;
  }

  std::vector<Private> all_;
  std::deque<std::string> kept_;  // of which the words stood further apart
  std::vector<std::uint64_t> bits_ = std::vector<std::uint64_t>((1u << 20) / 64);
};

bool isPrivate(const Record& record, const Entry& entry) {
  if (!entry.known) return true;  // my-…
  const records::FieldSpec* spec = records::specOf(record.kind, entry.field);
  return spec != nullptr && spec->has(records::kPrivate);
}

class Reader {
 public:
  Reader(const Context& context, const Search& search, diagnostics::Findings& findings)
      : sources_(context.collection.sources()), search_(search), findings_(findings) {}

  void read(const Record& record, const Entry& entry, const Value& value) {
    if (!value.text.empty() && value.type != ValueType::date && value.type != ValueType::reference) {
      const reading::YamlTextMap places(sources_.text(record.file), record.span(value.place), value.text);
      look(value.text, places, &record, entry.key);
    }
    if (value.evidence != nullptr) read(record, entry.key, *value.evidence);
    for (const Value& item : value.items()) read(record, entry, item);
    for (const Entry& inner : value.entries()) {
      if (!inner.known)
        look(inner.key, record.span(inner.keyPlace), &record, entry.key);  // a heading of the author's own
      read(record, inner, inner.value);
    }
  }

  void read(const Record& record, std::string_view field, const Evidence& evidence) {
    for (const records::Citation& citation : evidence.cite)
      look(citation.at, record.span(citation.place), &record, field);
    look(evidence.judged(), record.span(evidence.place), &record, field);
    look(evidence.doubted(), record.span(evidence.place), &record, field);
    if (evidence.note() != nullptr)
      look(evidence.note()->text, record.span(evidence.note()->place), &record, field);
    for (const records::Alternative& one : evidence.but()) {
      look(one.is.text, record.span(one.place), &record, field);
      look(one.setAside, record.span(one.place), &record, field);
      for (const records::Citation& citation : one.cite)
        look(citation.at, record.span(citation.place), &record, field);
    }
  }

  // A file of prose, paragraph by paragraph.
  void read(source::FileId file) {
    const std::string_view text = sources_.text(file);
    for (std::size_t begin = 0; begin < text.size();) {
      const std::size_t end = std::min(text.find("\n\n", begin), text.size());
      look(text.substr(begin, end - begin), reading::FileTextMap(file, begin), nullptr, {});
      begin = end + 2;
    }
  }

 private:
  // Somewhere within the span.
  void look(std::string_view text, source::Span span, const Record* in, std::string_view field) {
    struct Whole final : reading::TextMap {
      explicit Whole(source::Span place) : span(place) {}
      source::Span at(std::size_t, std::size_t) const override { return span; }
      source::Span span;
    };
    look(text, Whole(span), in, field);
  }

  void look(std::string_view text, const reading::TextMap& places, const Record* in, std::string_view field) {
    if (text.size() < kShortest) return;
    if (isSpaced(text)) return lookIn(text, nullptr, places, in, field);
    const Spaced spaced(text);
    lookIn(spaced.text, &spaced, places, in, field);
  }

  void lookIn(std::string_view text, const Spaced* spaced, const reading::TextMap& places, const Record* in,
              std::string_view field) {
    std::size_t at = 0;
    const Private* found = nullptr;
    for (std::size_t from = 0; (found = search_.in(text, from, at)) != nullptr;
         from = at + found->text.size()) {
      if (told_ == kMostTold) return;
      ++told_;
      const std::size_t last = at + found->text.size() - 1;
      const source::Span span =
          spaced == nullptr ? places.at(at, last + 1) : places.at(spaced->from[at], spaced->from[last] + 1);
      findings_.add(
          {.rule = "private-in-text"_rule,
           .span = span,
           .message = "this text is published, and holds the private `" + std::string(found->entry->key) +
                      "` of `" + found->record->reference() + "` word for word",
           .hint = "say it in other words, or leave it out",
           .record = in == nullptr ? found->record->reference() : in->reference(),
           .field = std::string(field),
           .related = {{found->record->span(found->entry->value.place), "the private value stands here"}}});
    }
  }

  static constexpr std::size_t kMostTold = 10'000;
  const source::SourceSet& sources_;
  const Search& search_;
  diagnostics::Findings& findings_;
  std::size_t told_ = 0;
};

}  // namespace

void privateInText(const Context& context, diagnostics::Findings& findings) {
  Search search;
  for (const Record& record : context.collection.records())
    for (const Entry& entry : record.fields)
      if (isPrivate(record, entry)) search.add(record, entry);
  search.finish();
  if (search.empty()) return;
  Reader reader(context, search, findings);
  for (const Record& record : context.collection.records()) {
    if (record.evidence != nullptr) reader.read(record, "cite", *record.evidence);
    for (const Entry& entry : record.fields)
      if (!isPrivate(record, entry)) reader.read(record, entry, entry.value);
  }
  for (const records::ProseFile& prose : context.collection.read().prose) reader.read(prose.file);
}

}  // namespace saggar::checks
