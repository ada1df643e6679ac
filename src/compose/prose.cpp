#include "compose/prose.h"

#include <algorithm>

#include "base/text.h"
#include "compose/phrases.h"
#include "document/address.h"
#include "document/document.h"
#include "linking/prose.h"
#include "reading/text_map.h"
#include "talks/spoken.h"

namespace saggar::compose {

using document::AddressKind;
using document::BlockKind;
using document::InlineKind;

namespace {

bool isBlankText(const Inline& one) {
  return (one.kind == InlineKind::text && base::trimmed(one.text).empty()) ||
         one.kind == InlineKind::softBreak;
}

// Most notes are a sentence or two without a sign that Markdown would make anything of: they need no parser.
bool isPlain(std::string_view text) {
  bool lineStart = true;
  for (const char c : text) {
    const bool letter = base::isLower(c) || base::isUpper(c) || (static_cast<unsigned char>(c) & 0x80) != 0;
    if (lineStart && !letter && c != '\n') return false;
    if (!letter && !base::isDigit(c) && std::string_view(" \n,.;()?'-").find(c) == std::string_view::npos)
      return false;
    if (lineStart && c == '\n') return false;
    lineStart = c == '\n';
  }
  return text.find("www.") == std::string_view::npos && text.find("\xE2\x98\x90") == std::string_view::npos &&
         text.find("  ") == std::string_view::npos;
}

// Whether the author has typed the brackets of a note already, "([p. 3](source:ledger))" or "(see [p. 3](source:ledger))":
// then they get no second pair. Words of any other kind make it an aside, in which a note stands as elsewhere.
class OwnBrackets {
 public:
  void pass(const Inline& one) {
    if (one.kind == InlineKind::citation) return;
    const std::string words = one.kind == InlineKind::text ? one.text
                              : one.kind == InlineKind::softBreak || one.kind == InlineKind::hardBreak
                                  ? std::string(" ")
                                  : "x" + document::plainText({one});
    for (const char c : words) {
      if (c == '(' || c == ')') {
        open_ = c == '(';
        inside_.clear();
      } else if (open_) {
        inside_ += c;
      }
    }
  }

  bool holdOnlyCitations() const {
    if (!open_) return false;
    std::string_view rest = inside_;
    while (!rest.empty()) {
      const std::size_t end = std::min(rest.find_first_of(" \n,;"), rest.size());
      const std::string word = base::folded(rest.substr(0, end));
      if (!word.empty() && word != "see" && word != "also" && word != "and") return false;
      rest.remove_prefix(std::min(end + 1, rest.size()));
    }
    return true;
  }

 private:
  bool open_ = false;
  std::string inside_;  // what stands behind the bracket, citations left out
};

class Resolver {
 public:
  Resolver(const Words& words, const ProseSetting& setting)
      : words_(words), places_(words.places()), setting_(setting) {}

  void inlines(Inlines& some) const {
    Inlines out;
    out.reserve(some.size());
    OwnBrackets brackets;
    for (std::size_t i = 0; i < some.size(); ++i) {
      Inline& one = some[i];
      brackets.pass(one);
      switch (one.kind) {
        case InlineKind::reference: add(out, reference(one)); break;
        case InlineKind::citation:
          if (isWord(out, one)) {
            add(out, sourceAsWord(one));
          } else {
            i = citations(some, i, out, brackets.holdOnlyCitations());
          }
          break;
        case InlineKind::index:
          if (setting_.indexed)
            out.push_back(document::anchorAt(
                setting_.indexed(one.text.empty() ? document::plainText(one.children) : one.text)));
          inlines(one.children);
          add(out, std::move(one.children));
          break;
        case InlineKind::link: link(one, out); break;
        case InlineKind::image: picture(one, out); break;
        default: inlines(one.children); out.push_back(std::move(one));
      }
    }
    some = std::move(out);
  }

  void blocks(Blocks& some) const {
    for (Block& block : some) {
      inlines(block.inlines);
      if (document::Table* table = block.table.given()) {
        for (document::Cell& head : table->head) inlines(head.inlines);
        for (document::Row& row : table->rows)
          for (document::Cell& one : row.cells) inlines(one.inlines);
      }
      if (block.kind == BlockKind::figure) figure(block);
      blocks(block.blocks);
    }
  }

 private:
  // Keeps the pieces of a sentence apart: an author's words may hold signs that ours must not join.
  static void add(Inlines& out, Inlines more) {
    out.insert(out.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
  }

  Inlines reference(Inline& one) const {
    const auto target =
        words_.materials().records.find(std::string_view(one.text).substr(0, one.text.find('.')));
    inlines(one.children);
    if (!target) return one.children.empty() ? Inlines{document::text(one.text)} : std::move(one.children);
    return one.children.empty() ? words_.name(*target) : words_.linked(*target, std::move(one.children));
  }

  // "It is in [the ledger](source:ledger)", "which [the ledger](source:ledger) may show": nothing stands before it that it
  // could support.
  static bool isWord(const Inlines& before, const Inline& citation) {
    std::string words;
    for (std::size_t i = before.size(); i-- > 0 && words.size() < 24;)
      words.insert(0, before[i].kind == InlineKind::softBreak ? " " : document::plainText({before[i]}));
    return talks::citationIsWord(words, !citation.children.empty());
  }

  Inlines sourceAsWord(Inline& one) const {
    inlines(one.children);
    const auto source = words_.materials().records.find(Kind::source, one.text);
    return source ? words_.linked(*source, std::move(one.children)) : std::move(one.children);
  }

  Inlines citation(Inline& one) const {
    const auto source = words_.materials().records.find(Kind::source, one.text);
    Inlines out = !source          ? Inlines{document::text(one.text)}
                  : setting_.brief ? words_.linked(*source, {document::text(words_.shortName(*source))})
                                   : words_.name(*source);
    if (!one.children.empty()) {
      inlines(one.children);
      put(out, ", ");
      put(out, std::move(one.children));
    }
    return out;
  }

  // A run of citations from `i` on, as one note; gives the last inline that was used.
  std::size_t citations(Inlines& some, std::size_t i, Inlines& out, bool bracketed) const {
    Inlines note;
    if (!bracketed) {
      while (!out.empty() && isBlankText(out.back())) out.pop_back();
      if (!out.empty() && out.back().kind == InlineKind::text) {
        std::string& last = out.back().text;
        last.erase(last.find_last_not_of(" \t\n") + 1);
      }
      put(note, out.empty() ? "(" : " (");
    }
    std::string_view before = some[i].text;
    put(note, citation(some[i]));
    std::size_t next = i + 1;
    while (next < some.size()) {
      std::size_t after = next;
      while (after < some.size() && isBlankText(some[after])) ++after;
      if (after >= some.size() || some[after].kind != InlineKind::citation) break;
      Inline& one = some[after];
      if (one.text == before && !one.children.empty()) {  // two places in one source name it once
        inlines(one.children);
        put(note, " and ");
        put(note, std::move(one.children));
      } else {
        put(note, "; ");
        put(note, citation(one));
      }
      before = one.text;
      next = after + 1;
    }
    if (bracketed) {
      add(out, std::move(note));
      return next - 1;
    }
    put(note, ")");
    if (!out.empty() && out.back().kind == InlineKind::text && out.back().text.ends_with(',')) {
      out.back().text.pop_back();
      if (!stopFollows(some, next)) put(note, ",");
    }
    add(out, std::move(note));
    return next - 1;
  }

  static bool stopFollows(const Inlines& some, std::size_t next) {
    while (next < some.size() && isBlankText(some[next])) ++next;
    if (next == some.size()) return true;
    return some[next].kind == InlineKind::text &&
           std::string_view(",.;:!?)").find(some[next].text[0]) != std::string_view::npos;
  }

  void link(Inline& one, Inlines& out) const {
    inlines(one.children);
    if (document::addressKind(one.target->address) != AddressKind::relative || one.target->address.empty()) {
      out.push_back(std::move(one));
      return;
    }
    std::optional<Target> target;
    const auto found =
        places_ == nullptr ? std::nullopt : places_->resolve(setting_.path, one.target->address);
    if (found && found->chapter != SIZE_MAX) {
      target = Target{.file = places_->chapters()[found->chapter].file, .anchor = {}, .address = {}};
      if (!found->heading.empty() && places_->isLinked(found->chapter, found->heading))
        target->anchor = found->heading;
    } else if (found && found->record != records::kNoRecord) {
      target = places_->of(found->record);
    }
    if (!target) return add(out, std::move(one.children));
    one.target = std::move(*target);
    one.text.clear();
    out.push_back(std::move(one));
  }

  // True if the address is a picture of the guide, which is now told of and addressed from the guide's folder.
  bool shown(Target& target) const {
    if (document::addressKind(target.address) != AddressKind::relative) return true;
    const std::string path = picturePath(setting_.path, target.address);
    if (path.empty() || !setting_.picture) return false;
    setting_.picture(path);
    target.address = path;
    return true;
  }

  void picture(Inline& one, Inlines& out) const {
    if (shown(one.target.make())) {
      out.push_back(std::move(one));
    } else if (!one.text.empty()) {
      out.push_back(document::text(one.text));
    }
  }

  void figure(Block& block) const {
    if (shown(block.target.make())) return;
    if (block.inlines.empty() && !block.text.empty()) block.inlines.push_back(document::text(block.text));
    block.kind = BlockKind::paragraph;
    block.text.clear();
    block.target.clear();
  }

  const Words& words_;
  const Places* places_;
  const ProseSetting& setting_;
};

}  // namespace

void resolveInlines(Inlines& inlines, const Words& words, const ProseSetting& setting) {
  Resolver(words, setting).inlines(inlines);
}
void resolveBlocks(Blocks& blocks, const Words& words, const ProseSetting& setting) {
  Resolver(words, setting).blocks(blocks);
}

namespace {

void joinAllLines(Blocks& blocks) {
  for (Block& block : blocks) {
    joinLines(block.inlines);
    joinAllLines(block.blocks);
  }
}

}  // namespace

Blocks resolvedProse(const Words& words, const PublishedRecord& owner, const records::Value& value,
                     const ProseSetting& setting) {
  const std::string_view trimmed = base::trimmed(value.text);
  if (isPlain(trimmed)) {
    std::string text(trimmed);
    for (char& c : text)
      if (c == '\n') c = ' ';
    return {document::paragraph({document::text(std::move(text))})};
  }
  const reading::YamlTextMap map(words.materials().records.sources().text(owner.span().file),
                                 owner.span(value.place), value.text);
  Blocks blocks = linking::parseProse(value.text, map).blocks;
  std::erase_if(blocks, [](const Block& block) { return block.kind == BlockKind::query; });
  resolveBlocks(blocks, words, setting);
  joinAllLines(blocks);  // where a record's text is broken is a matter of the file's width
  return blocks;
}

Blocks Words::prose(const PublishedRecord& owner, const records::Value& value) const {
  return resolvedProse(*this, owner, value);
}

Inlines Words::proseLine(const PublishedRecord& owner, const records::Value& value) const {
  Inlines out;
  for (Block& block : resolvedProse(*this, owner, value)) {
    if (!out.empty()) put(out, " ");
    if (block.inlines.empty()) {
      put(out, document::plainText(Blocks{std::move(block)}));
    } else {
      put(out, std::move(block.inlines));
    }
  }
  return out;
}

}  // namespace saggar::compose
