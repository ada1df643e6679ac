#include "talks/spoken.h"

#include <algorithm>
#include <array>

#include "base/text.h"
#include "base/utf8.h"
#include "document/document.h"
#include "linking/prose.h"
#include "talks/timing.h"

namespace saggar::talks {

using document::Block;
using document::BlockKind;
using document::Inline;
using document::InlineKind;
using records::Kind;
using records::Value;

namespace {

class Speaker {
 public:
  explicit Speaker(const linking::Collection& collection) : collection_(collection) {}

  void say(const document::Blocks& blocks) {
    for (const Block& block : blocks) {
      if (block.kind == BlockKind::code || block.kind == BlockKind::query || block.kind == BlockKind::figure)
        continue;
      begin_ = out.size();
      say(block.inlines);
      for (const document::Cell& cell : block.table->head) sayCell(cell);
      for (const document::Row& row : block.table->rows)
        for (const document::Cell& cell : row.cells) sayCell(cell);
      out += ' ';
      say(block.blocks);
    }
  }

  std::string out;

 private:
  void sayCell(const document::Cell& cell) {
    begin_ = out.size();
    say(cell.inlines);
    out += ' ';
  }

  void say(const document::Inlines& inlines) {
    for (const Inline& one : inlines) {
      switch (one.kind) {
        case InlineKind::text:
        case InlineKind::code: out += one.text; break;
        case InlineKind::softBreak:
        case InlineKind::hardBreak: out += ' '; break;
        case InlineKind::image:
        case InlineKind::footnote: break;
        case InlineKind::citation:
          if (citationIsWord(std::string_view(out).substr(begin_), !one.children.empty())) {
            say(one.children);
          } else {
            out += ' ';
          }
          break;
        case InlineKind::reference:
          if (one.children.empty()) {
            sayName(one.text);
          } else {
            say(one.children);
          }
          break;
        default: say(one.children);
      }
    }
  }

  void sayName(std::string_view reference) {
    const auto record = collection_.find(reference.substr(0, reference.find('.')));
    out += record ? spokenName(collection_, *record) : std::string(reference);
  }

  const linking::Collection& collection_;
  std::size_t begin_ = 0;  // of the paragraph
};

bool isPunctuation(char32_t c) {
  if (c < 0x80)
    return std::string_view("!\"'()*,-./:;<>?[\\]^_`{|}~").find(static_cast<char>(c)) !=
           std::string_view::npos;
  return (c >= 0x2010 && c <= 0x205E) || (c >= 0x3001 && c <= 0x3020) || c == 0xA1 || c == 0xAB ||
         c == 0xB7 || c == 0xBB || c == 0xBF || c == 0xFFFD;
}

bool isSpace(char32_t c) {
  return c == ' ' || (c >= 0x09 && c <= 0x0D) || c == 0x85 || c == 0xA0 || (c >= 0x2000 && c <= 0x200B) ||
         c == 0x2028 || c == 0x2029 || c == 0x202F || c == 0x3000;
}

std::string_view lastWord(std::string_view text) {
  text = base::trimmed(text);
  const std::size_t blank = text.find_last_of(" \n\t");
  return blank == std::string_view::npos ? text : text.substr(blank + 1);
}

// "9 1/8", "13½ x 10¼", "7": then "in" means inches. A year is no size ("in 1909 in the ledger"), nor is a number that
// counts leaves or pages ("leaf 12 in the book").
bool endsInSize(std::string_view text) {
  constexpr std::array<std::string_view, 12> kCounting = {
      "leaf", "leaves", "line", "no.", "nos.", "number", "page", "pages", "p.", "numbers", "row", "sheet"};
  const std::string_view number = lastWord(text);
  if (number.empty()) return false;
  constexpr std::string_view kFractions[] = {"/", "½", "¼", "¾", "⅓", "⅔", "⅛", "⅜", "⅝", "⅞"};
  for (std::string_view fraction : kFractions)
    if (number.find(fraction) != std::string_view::npos) return base::isDigit(number[0]) || fraction != "/";
  if (number.size() > 3 && number.find('.') == std::string_view::npos) return false;
  if (number.find_first_not_of("0123456789.") != std::string_view::npos) return false;
  const std::string before =
      base::folded(lastWord(text.substr(0, static_cast<std::size_t>(number.data() - text.data()))));
  return std::find(kCounting.begin(), kCounting.end(), before) == kCounting.end();
}

}  // namespace

std::size_t countWords(std::string_view text) {
  std::size_t count = 0;
  bool counted = false;  // the piece between blanks that we are in
  for (std::size_t at = 0; at < text.size();) {
    const char32_t c = base::nextCodePoint(text, at);
    if (isSpace(c)) {
      counted = false;
    } else if (!counted && !isPunctuation(c)) {
      counted = true;
      ++count;
    }
  }
  return count;
}

bool citationIsWord(std::string_view before, bool hasWords) {
  constexpr std::array<std::string_view, 28> kLeaning = {
      "about", "after", "also",  "and",  "as",   "at",    "before", "but",   "by",   "from",
      "if",    "in",    "like",  "of",   "on",   "or",    "see",    "since", "than", "that",
      "the",   "to",    "under", "what", "when", "where", "which",  "with"};
  if (!hasWords) return false;
  const std::string_view last = lastWord(before);
  if (last.empty()) return true;
  const std::string word = base::folded(last);
  if (word == "in" && endsInSize(before.substr(0, static_cast<std::size_t>(last.data() - before.data()))))
    return false;
  return std::find(kLeaning.begin(), kLeaning.end(), word) != kLeaning.end();
}

std::string spokenName(const linking::Collection& collection, linking::RecordIndex index) {
  const records::Record& record = collection[index];
  for (records::Field field : {"name"_f, "title"_f})
    if (const std::string_view own = record.text(field); !own.empty()) return std::string(own);
  std::string words;
  if (record.kind == Kind::treatment) {
    if (const Value* code = record.find("code"_f); code != nullptr && code->said() && !code->each().empty())
      words = std::string(code->each()[0].text);
    const Value* motif = record.find("motif"_f);
    if (motif != nullptr && motif->target() != records::kNoRecord && motif->target() != index)
      words += (words.empty() ? "" : " ") + spokenName(collection, motif->target());
  }
  if (!words.empty()) return words;
  words = std::string(record.id);
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

std::string spokenText(const linking::Collection& collection, const records::Record& talk, const Value& say) {
  Speaker speaker(collection);
  speaker.say(linking::parseProse(collection, talk, say).blocks);
  return std::move(speaker.out);
}

}  // namespace saggar::talks
