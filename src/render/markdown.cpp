#include "render/markdown.h"

#include <algorithm>
#include <vector>

#include "base/text.h"
#include "base/utf8.h"
#include "document/address.h"
#include "render/markdown_escape.h"
#include "render/markdown_inlines.h"

namespace saggar::render {
namespace {

using document::Block;
using document::BlockKind;
using document::Blocks;
using document::Cell;
using document::Inline;
using document::Inlines;

std::string indented(const std::string& text, std::string_view first, std::string_view rest) {
  std::string out(first);
  bool lineStart = false;
  for (char c : text) {
    if (lineStart && c != '\n') out += rest;
    if (lineStart && c == '\n' && rest.front() == '>') out += '>';
    lineStart = c == '\n';
    out += c;
  }
  return out;
}

class MarkdownWriter {
 public:
  explicit MarkdownWriter(const document::Document& document) : document_(document) {}

  std::string write() {
    std::vector<std::string> parts;
    if (document_.draft) {
      parts.push_back("**Draft:** this copy was made before every fault in it was mended.");
    }
    const Blocks& blocks = document_.blocks;
    const bool headed = std::any_of(blocks.begin(), blocks.end(), [](const Block& block) {
      return block.kind == BlockKind::heading && block.level <= 1;
    });
    if (!document_.title.empty() && !headed) {
      parts.push_back("# " + inlines({document::text(document_.title)}, MarkdownPlace::heading));
    }
    if (std::string text = written(blocks, false, 0); !text.empty()) parts.push_back(std::move(text));
    for (std::size_t i = 0; i < footnotes_.size(); ++i) {
      const std::string words = inlines(footnotes_[i], MarkdownPlace::paragraph);
      parts.push_back(indented(words, "[^" + std::to_string(i + 1) + "]: ", "    "));
    }
    return parts.empty() ? std::string() : base::joined(parts, "\n\n") + '\n';
  }

 private:
  std::string inlines(const Inlines& words, MarkdownPlace place) {
    return markdownInlines(words, place, footnotes_, document_.file);
  }

  // Blocks one below the other. `outer` is the sign of the list that these blocks are an item of, 0 for none.
  std::string written(const Blocks& blocks, bool tight, char outer) {
    std::string out;
    const Block* before = nullptr;
    char listSign = 0;
    for (const Block& block : blocks) {
      if (block.kind == BlockKind::list) {
        const bool next =
            before != nullptr && before->kind == BlockKind::list && before->ordered == block.ordered;
        listSign = signOf(block, next ? listSign : before == nullptr ? outer : char(0));
      }
      std::string text = written(block, listSign, tight);
      if (text.empty()) continue;
      if (before != nullptr) out += tight && mayFollow(*before, block) ? "\n" : "\n\n";
      out += text;
      before = &block;
    }
    return out;
  }

  static char signOf(const Block& list, char avoided) {
    if (list.ordered) return avoided == '.' ? ')' : '.';
    return avoided == '-' ? '*' : '-';
  }

  static bool isWords(const Block& block) {
    return block.kind == BlockKind::paragraph || block.kind == BlockKind::figure ||
           block.kind == BlockKind::definition;
  }
  static bool beginsWithWords(const Block& block) { return isWords(block) || !block.anchor.empty(); }

  // May a block follow another on the very next line without becoming part of it?
  static bool mayFollow(const Block& before, const Block& block) {
    const bool runsOn = isWords(before) || before.kind == BlockKind::quote ||
                        before.kind == BlockKind::notice || before.kind == BlockKind::list ||
                        before.kind == BlockKind::table;
    if (beginsWithWords(block) && runsOn) return false;
    const bool quoted = before.kind == BlockKind::quote || before.kind == BlockKind::notice;
    if ((block.kind == BlockKind::quote || block.kind == BlockKind::notice) && quoted) return false;
    if (block.kind == BlockKind::table) return before.kind == BlockKind::paragraph || !runsOn;
    if (block.kind == BlockKind::list && isWords(before)) {
      const bool emptyFirst = block.blocks.empty() || block.blocks[0].blocks.empty();
      return !emptyFirst && (!block.ordered || block.start == 1);
    }
    return true;
  }

  std::string written(const Block& block, char listSign, bool tight) {
    const bool inFront = block.kind == BlockKind::paragraph || block.kind == BlockKind::definition ||
                         block.kind == BlockKind::item || block.anchor.empty();
    std::string text = bare(block, listSign);
    if (inFront) return text;
    const bool close = tight && (block.kind == BlockKind::heading || block.kind == BlockKind::code);
    return anchorTag(block.anchor) + (text.empty() ? "" : close ? "\n" : "\n\n") + text;
  }

  std::string bare(const Block& block, char listSign) {
    switch (block.kind) {
      case BlockKind::heading: return heading(block);
      case BlockKind::paragraph: return paragraph(block.inlines, block.anchor);
      case BlockKind::list: return list(block, listSign);
      case BlockKind::item: return written(block.blocks, true, 0);
      case BlockKind::quote: return indented(written(block.blocks, false, 0), "> ", "> ");
      case BlockKind::code:
      case BlockKind::query: return code(block);
      case BlockKind::rule: return "___";
      case BlockKind::table: return table(block.table);
      case BlockKind::figure: return figure(block);
      case BlockKind::notice: return notice(block);
      case BlockKind::definition: return definition(block);
    }
    return {};
  }

  std::string paragraph(const Inlines& words, const std::string& anchor) {
    if (anchor.empty()) return inlines(words, MarkdownPlace::paragraph);
    Inlines all{document::anchorAt(anchor)};
    all.insert(all.end(), words.begin(), words.end());
    return inlines(all, MarkdownPlace::paragraph);
  }

  std::string heading(const Block& block) {
    const std::string signs(static_cast<std::size_t>(std::clamp(block.level, 1, 6)), '#');
    const std::string words = inlines(block.inlines, MarkdownPlace::heading);
    return words.empty() ? signs : signs + ' ' + words;
  }

  std::string list(const Block& block, char sign) {
    std::string out;
    long number = std::max(0, block.start);
    for (const Block& item : block.blocks) {
      if (&item != &block.blocks.front()) out += block.tight ? "\n" : "\n\n";
      std::string marker =
          block.ordered ? std::to_string(std::min(number, 999999999L)) + sign : std::string(1, sign);
      ++number;
      std::string text = itemText(item, block.tight, block.ordered ? char(0) : sign);
      if (text.empty()) {
        out += marker;
        continue;
      }
      marker += ' ';
      out += indented(text, marker, std::string(marker.size(), ' '));
    }
    return out;
  }

  std::string itemText(const Block& item, bool tight, char sign) {
    if (item.anchor.empty()) return written(item.blocks, tight, sign);
    Blocks blocks = item.blocks;
    if (blocks.empty() || blocks[0].kind != BlockKind::paragraph) blocks.insert(blocks.begin(), Block());
    blocks[0].inlines.insert(blocks[0].inlines.begin(), document::anchorAt(item.anchor));
    return written(blocks, tight, sign);
  }

  static std::string code(const Block& block) {
    const std::string text = base::sanitizedUtf8(block.text);
    const std::string info = markdownInfo(base::sanitizedUtf8(block.info));
    const char sign = info.find('`') == std::string::npos ? '`' : '~';
    const std::string fence(std::max<std::size_t>(3, longestRun(text, sign) + 1), sign);
    std::string out = fence + info + '\n' + text;
    if (!text.empty()) out += '\n';
    return out + fence;
  }

  std::string figure(const Block& block) {
    Inline image;
    image.kind = document::InlineKind::image;
    image.text = block.text;
    image.target = block.target;
    Inlines all{std::move(image)};
    if (!block.inlines.empty()) {
      all.push_back(document::hardBreak());
      all.insert(all.end(), block.inlines.begin(), block.inlines.end());
    }
    return inlines(all, MarkdownPlace::paragraph);
  }

  std::string notice(const Block& block) {
    std::string lead = block.info.empty() ? "note" : block.info;
    std::replace(lead.begin(), lead.end(), '-', ' ');
    if (base::isLower(lead[0])) lead[0] = static_cast<char>(lead[0] - 'a' + 'A');
    Blocks blocks = block.blocks;
    prependLead(blocks, {document::text(lead)}, ":");
    return indented(written(blocks, false, 0), "> ", "> ");
  }

  std::string definition(const Block& block) {
    Blocks blocks = block.blocks;
    prependLead(blocks, block.inlines, ":");
    if (!block.anchor.empty()) {
      blocks[0].inlines.insert(blocks[0].inlines.begin(), document::anchorAt(block.anchor));
    }
    return written(blocks, false, 0);
  }

  // Bold words in front of the first paragraph.
  static void prependLead(Blocks& blocks, Inlines lead, const char* sign) {
    lead.push_back(document::text(sign));
    Inlines words{document::strong(std::move(lead))};
    if (blocks.empty() || blocks[0].kind != BlockKind::paragraph || !blocks[0].anchor.empty()) {
      blocks.insert(blocks.begin(), Block());
    } else {
      words.push_back(document::text(" "));
    }
    blocks[0].inlines.insert(blocks[0].inlines.begin(), words.begin(), words.end());
  }

  std::string table(const document::Table& table) {
    std::size_t columns = std::max(table.head.size(), table.align.size());
    for (const document::Row& row : table.rows) columns = std::max(columns, row.cells.size());
    if (columns == 0) return {};
    std::string out = rowOf(table.head, columns, false) + "\n|";
    for (std::size_t i = 0; i < columns; ++i) {
      const document::Align align = i < table.align.size() ? table.align[i] : document::Align::left;
      out += align == document::Align::right    ? " --: |"
             : align == document::Align::centre ? " :-: |"
                                                : " --- |";
    }
    for (const document::Row& row : table.rows) out += '\n' + rowOf(row.cells, columns, row.groupHead);
    return out;
  }

  std::string rowOf(const std::vector<Cell>& cells, std::size_t columns, bool groupHead) {
    std::string out = "|";
    for (std::size_t i = 0; i < columns; ++i) {
      const std::string text = i < cells.size() ? cellText(cells[i], groupHead && i == 0) : std::string();
      out += text.empty() ? " |" : ' ' + text + " |";
    }
    return out;
  }

  std::string cellText(const Cell& cell, bool bold) {
    const std::string words = bold ? inlines({document::strong(cell.inlines)}, MarkdownPlace::cell)
                                   : inlines(cell.inlines, MarkdownPlace::cell);
    return cell.anchor.empty() ? words : anchorTag(cell.anchor) + words;
  }

  const document::Document& document_;
  MarkdownFootnotes footnotes_;
};

}  // namespace

std::string renderMarkdown(const document::Document& document) {
  return MarkdownWriter(document).write();
}

}  // namespace saggar::render
