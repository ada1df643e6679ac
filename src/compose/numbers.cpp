#include "compose/numbers.h"

#include <algorithm>
#include <memory>

#include "base/text.h"

namespace saggar::compose {

using document::text;

namespace {

bool samePrefix(std::string_view a, std::string_view b) {
  return base::folded(prefixOf(a)) == base::folded(prefixOf(b));
}

// What the numbers from `begin` to `end` are called: by prefix, unless one stands on both sides of a cut.
std::string titleOf(const std::vector<std::string_view>& codes, std::size_t begin, std::size_t end) {
  const std::string_view first = codes[begin];
  const std::string_view last = codes[end - 1];
  const bool cutBefore = begin > 0 && samePrefix(codes[begin - 1], first);
  const bool cutBehind = end < codes.size() && samePrefix(last, codes[end]);
  const bool whole = !cutBefore && !cutBehind && !prefixOf(first).empty() && !prefixOf(last).empty();
  const std::string from(whole ? prefixOf(first) : first);
  const std::string to(whole ? prefixOf(last) : last);
  return base::folded(from) == base::folded(to) ? from : from + " to " + to;
}

Blocks partPage(Page& page, const std::vector<NumberPart>& parts, std::size_t number,
                const std::function<Blocks(Page&, const NumberPart&)>& compose) {
  const Chapter& chapter = page.chapter();
  const auto linkTo = [&](std::size_t other) {
    return document::link(
        {text(parts[other].title)},
        {.file = page.book().places().partFile(page.number(), other), .anchor = {}, .address = {}});
  };
  Inlines way{text("These numbers belong to the chapter ")};
  way.push_back(document::link({text(chapter.title)}, {.file = chapter.file, .anchor = {}, .address = {}}));
  if (number > 0) {
    put(way, "; before them come ");
    way.push_back(linkTo(number - 1));
  }
  if (number + 1 < parts.size()) {
    put(way, number > 0 ? ", after them " : "; after them come ");
    way.push_back(linkTo(number + 1));
  }
  put(way, ".");
  Blocks out{document::heading(1, {text(page.made.document.title)}), document::paragraph(std::move(way))};
  for (Block& block : compose(page, parts[number])) out.push_back(std::move(block));
  return out;
}

}  // namespace

Blocks cutIntoFiles(Page& page, const std::vector<NumberPart>& parts, std::string words,
                    const std::function<Blocks(Page&, const NumberPart&)>& compose) {
  const auto shared = std::make_shared<const std::vector<NumberPart>>(parts);
  std::vector<Blocks> items;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    std::string file = page.book().places().partFile(page.number(), i);
    Inlines line{document::link({text(parts[i].title)}, {.file = file, .anchor = {}, .address = {}})};
    put(line, ", " + countedInWords(parts[i].end - parts[i].begin, "number", "numbers"));
    items.push_back(item(std::move(line)));
    page.further.push_back(
        [&book = page.book(), chapter = page.number(), file = std::move(file), shared, i, compose] {
          Page part(book, chapter);
          part.made.document.file = file;
          part.made.document.title += ": " + (*shared)[i].title;
          part.made.document.blocks = partPage(part, *shared, i, compose);
          return std::move(part.made);
        });
  }
  return {document::paragraph({text(std::move(words))}), document::list(std::move(items))};
}

std::string_view prefixOf(std::string_view code) {
  std::size_t end = 0;
  while (end < code.size() && !base::isDigit(code[end]) && code[end] != '-' && code[end] != ' ' &&
         code[end] != '/')
    ++end;
  return code.substr(0, end);
}

std::vector<NumberPart> partsOf(const std::vector<std::string_view>& codes, std::size_t most) {
  if (codes.size() <= most) return {{0, codes.size(), {}}};
  std::vector<NumberPart> parts;
  std::size_t open = 0;  // of the part that is being filled
  const auto close = [&](std::size_t end) {
    if (end > open) parts.push_back({open, end, titleOf(codes, open, end)});
    open = end;
  };
  for (std::size_t begin = 0; begin < codes.size();) {
    std::size_t end = begin + 1;
    while (end < codes.size() && samePrefix(codes[begin], codes[end])) ++end;
    if (end - open > most) close(begin);
    const std::size_t pieces = (end - begin + most - 1) / most;
    for (std::size_t piece = 1; pieces > 1 && piece <= pieces; ++piece)
      close(begin + (end - begin) * piece / pieces);
    begin = end;
  }
  close(codes.size());
  return parts;
}

}  // namespace saggar::compose
