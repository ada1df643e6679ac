#pragma once
#include <algorithm>
#include <array>
#include <cstdint>
#include <optional>
#include <string_view>

namespace saggar::records {

// Every key the language knows, sorted. Code names a field by its own word, `"introduced"_f`; a word that is not
// listed does not compile. What a field means where is said in tables.cpp, once.
inline constexpr std::array kFieldNames = std::to_array<std::string_view>({
    "about",        "active",
    "actual",       "after",
    "against",      "alike",
    "all-but",      "alone",
    "also",         "alt",
    "answer",       "artist",
    "ask",          "asks",
    "at",           "at-least",
    "because",      "before",
    "belongs",      "born",
    "broader",      "budget",
    "but",          "by",
    "caption",      "carries",
    "caution",      "change",
    "circa",        "cite",
    "closed",       "code",
    "code-seen",    "codes",
    "colour",       "columns",
    "complete",     "condition",
    "contents",     "continues",
    "count",        "covers",
    "credit",       "date",
    "date-code",    "dated",
    "decorated-by", "designed",
    "died",         "differ",
    "doubted",      "draws-on",
    "edition",      "editions",
    "effort",       "event",
    "every",        "family",
    "file",         "first",
    "first-of",     "for",
    "form",         "forms",
    "founded",      "grouped",
    "guide",        "has",
    "hemisphere",   "holder",
    "holds",        "how",
    "how-many",     "in",
    "in-order-of",  "information",
    "introduced",   "is",
    "issued",       "judged",
    "keep",         "kept",
    "laid",         "language",
    "last-of",      "layout",
    "letter",       "like",
    "link",         "look",
    "made",         "made-in",
    "maker",        "makes",
    "mark",         "marks",
    "means",        "measured",
    "met",          "method",
    "missing",      "modeller",
    "more",         "motif",
    "name",         "named-by",
    "no",           "nominal",
    "note",         "number",
    "of",           "offered",
    "on",           "on-date",
    "order",        "owner",
    "pace",         "paid",
    "part",         "parts",
    "pattern",      "permission",
    "photo",        "pieces",
    "place",        "prefix",
    "publisher",    "reads",
    "record",       "recorded",
    "records",      "registered",
    "related",      "replaces",
    "resembles",    "rights",
    "rule",         "rules",
    "same",         "say",
    "says",         "see",
    "seen",         "segments",
    "series",       "set-aside",
    "settings",     "shape",
    "shapes",       "show",
    "shows",        "size",
    "some",         "source",
    "stated",       "status",
    "supplier",     "supplier-number",
    "sure",         "talk",
    "tell",         "test",
    "time",         "title",
    "took-over",    "trade",
    "transcript",   "treatment",
    "type",         "units",
    "unlike",       "used",
    "usual",        "values",
    "viewed",       "waivers",
    "ware",         "was",
    "weighs",       "what",
    "where",        "withdrawn",
    "within",       "works",
    "would-settle", "written",
});

struct Field {
  std::uint8_t index = 0;

  constexpr std::string_view name() const { return kFieldNames[index]; }
  friend constexpr bool operator==(Field, Field) = default;
  friend constexpr auto operator<=>(Field, Field) = default;
};

static_assert(kFieldNames.size() < 255);
inline constexpr std::size_t kFieldCount = kFieldNames.size();

consteval Field operator""_f(const char* word, std::size_t length) {
  const std::string_view wanted(word, length);
  for (std::size_t i = 0; i < kFieldNames.size(); ++i)
    if (kFieldNames[i] == wanted) return Field{static_cast<std::uint8_t>(i)};
  throw "no such field: add it to kFieldNames";
}

// The field of that name, or nullopt.
std::optional<Field> fieldNamed(std::string_view word);

}  // namespace saggar::records

namespace saggar {
using records::operator""_f;
}
