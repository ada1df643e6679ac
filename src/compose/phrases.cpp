#include "compose/phrases.h"

#include <algorithm>
#include <iterator>

#include "base/text.h"
#include "codes/part.h"
#include "evidence/seen.h"

namespace saggar::compose {

using document::InlineKind;

void put(Inlines& out, std::string_view words) {
  if (words.empty()) return;
  if (!out.empty() && out.back().kind == InlineKind::text) {
    out.back().text += words;
  } else {
    out.push_back(document::text(std::string(words)));
  }
}

void put(Inlines& out, Inlines more) {
  if (out.empty()) {
    out = std::move(more);
    return;
  }
  auto first = more.begin();
  if (first != more.end() && first->kind == InlineKind::text && out.back().kind == InlineKind::text) {
    out.back().text += first->text;
    ++first;
  }
  out.insert(out.end(), std::make_move_iterator(first), std::make_move_iterator(more.end()));
}

void putInBrackets(Inlines& out, Inlines note) {
  if (note.empty()) return;
  put(out, " (");
  put(out, std::move(note));
  put(out, ")");
}

Inlines listed(std::vector<Inlines> parts, std::string_view last) {
  Inlines out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i != 0) put(out, i + 1 == parts.size() ? ' ' + std::string(last) + ' ' : std::string(", "));
    put(out, std::move(parts[i]));
  }
  return out;
}

Inlines separated(std::vector<Inlines> parts, std::string_view between) {
  Inlines out;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i != 0) put(out, between);
    put(out, std::move(parts[i]));
  }
  return out;
}

std::string kindInWords(Kind kind, bool several) {
  switch (kind) {
    case Kind::treatment: return several ? "decorations" : "decoration";
    case Kind::form: return several ? "pieces" : "piece";
    case Kind::specimen: return several ? "pieces seen" : "piece seen";
    case Kind::claim: return several ? "statements" : "statement";
    case Kind::person: return several ? "people" : "person";
    case Kind::photo: return several ? "pictures" : "picture";
    case Kind::term: return several ? "words" : "word";
    default: return std::string(several ? plural(kind) : name(kind));
  }
}

std::string withArticle(const std::string& words) {
  const bool vowel = !words.empty() && std::string_view("aeioAEIO").find(words[0]) != std::string_view::npos;
  return (vowel ? "an " : "a ") + words;
}

std::string holderInWords(std::string_view typed) {
  std::string words(base::trimmed(typed));
  const bool bare = !words.empty() && base::isLower(words[0]) && words.ends_with("collection");
  for (const char* own : {"the ", "a ", "an ", "my ", "our ", "his ", "her ", "their ", "one "})
    if (words.starts_with(own)) return words;
  return bare ? withArticle(words) : words;
}

std::string_view howSeenInWords(const records::Value& sighting) {
  switch (evidence::howSeen(sighting)) {
    case evidence::Seen::inHand: return "seen in hand";
    case evidence::Seen::pictured: return "seen in a photograph";
    default: return "reported";
  }
}

std::string whereHeld(std::string_view holder) {
  const std::string words = holderInWords(holder);
  if (base::folded(words) == "author") return "held by the author";
  return (words.ends_with("collection") ? "in " : "held by ") + words;
}

std::string statusInWords(std::string_view status) {
  constexpr std::pair<std::string_view, std::string_view> kWords[] = {
      {"sample", "a sample; it is not known that any was sold"},
      {"premium", "premium ware, given away"},
      {"pick-up", "a pick-up piece, to fill out an assortment"},
      {"unrecorded", "seen on pieces, but in no book"},
      {"doubtful", "doubtful"},
  };
  for (const auto& [word, meaning] : kWords)
    if (word == status) return std::string(meaning);
  return {};
}

std::string asClause(std::string_view sentence) {
  constexpr std::string_view kSmall[] = {
      "a",  "all",  "an",   "as",  "at",    "both",   "but",  "by",   "for", "from", "he",    "her", "his",
      "if", "in",   "it",   "its", "no",    "nobody", "none", "not",  "of",  "on",   "one",   "our", "she",
      "so", "some", "that", "the", "their", "there",  "they", "this", "two", "we",   "which", "with"};
  std::string words(base::trimmed(sentence));
  if (words.ends_with('.') && !words.ends_with("..")) words.pop_back();
  const std::string first = base::folded(std::string_view(words).substr(0, words.find_first_of(" ,;:")));
  if (!words.empty() && base::isUpper(words[0]) &&
      std::binary_search(std::begin(kSmall), std::end(kSmall), first))
    words[0] = static_cast<char>(words[0] - 'A' + 'a');
  return words;
}

std::string capitalised(std::string words) {
  if (!words.empty() && base::isLower(words[0])) words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

Inlines capitalised(Inlines words) {
  Inlines* level = &words;
  while (!level->empty()) {
    Inline* first = &level->front();
    for (std::size_t i = 1; first->kind == InlineKind::anchor && i < level->size(); ++i) first = &(*level)[i];
    if (first->kind == InlineKind::text) {
      first->text = capitalised(std::move(first->text));
      break;
    }
    level = &first->children;
  }
  return words;
}

std::string countedInWords(std::size_t number, std::string_view one, std::string_view many) {
  std::string figures = codes::numberWord(static_cast<std::int64_t>(number));
  if (base::isDigit(figures[0]))
    for (std::size_t i = figures.size(); i > 3; i -= 3) figures.insert(i - 3, ",");
  return figures + ' ' + std::string(number == 1 ? one : many);
}

Inlines sentence(Inlines words) {
  const Inline* last = words.empty() ? nullptr : &words.back();
  while (last != nullptr && last->kind != InlineKind::text && !last->children.empty())
    last = &last->children.back();
  const bool ended = last != nullptr && last->kind == InlineKind::text && !last->text.empty() &&
                     std::string_view(".!?").find(last->text.back()) != std::string_view::npos;
  if (!ended && !words.empty()) put(words, ".");
  return words;
}

Inlines sentenceWithNote(Inlines words, Inlines note) {
  if (note.empty()) return sentence(std::move(words));
  words = sentence(std::move(words));
  // "W.S.P.CO." keeps its stop.
  Inline* last = words.empty() ? nullptr : &words.back();
  const bool stop = last != nullptr && last->kind == InlineKind::text && last->text.ends_with('.') &&
                    !(last->text.size() > 1 && base::isUpper(last->text[last->text.size() - 2]));
  if (stop) last->text.pop_back();
  put(words, words.empty() ? "(" : " (");
  put(words, std::move(note));
  put(words, stop ? ")." : ")");
  return words;
}

void joinLines(Inlines& inlines) {
  for (Inline& one : inlines) {
    if (one.kind == InlineKind::softBreak) one = document::text(" ");
    joinLines(one.children);
  }
}

Blocks item(Inlines words) {
  return {document::paragraph(std::move(words))};
}

Blocks labelled(std::string_view label, Inlines words) {
  Inlines line{document::strong({document::text(std::string(label) + ':')})};
  put(line, " ");
  put(line, std::move(words));
  return item(std::move(line));
}

document::Table tableOf(std::vector<std::string> head) {
  document::Table table;
  for (std::string& one : head) {
    table.head.push_back(document::cell(std::move(one)));
    table.align.push_back(document::Align::left);
  }
  return table;
}

void addRow(document::Table& table, std::vector<Inlines> cells) {
  document::Row row;
  row.cells.reserve(cells.size());
  for (Inlines& one : cells) row.cells.push_back(document::cell(std::move(one)));
  table.rows.push_back(std::move(row));
}

void addGroupHead(document::Table& table, Inlines words) {
  document::Row row;
  row.groupHead = true;
  row.cells.push_back(document::cell(std::move(words)));
  table.rows.push_back(std::move(row));
}

}  // namespace saggar::compose
