#include "reading/markdown_html.h"

#include <array>
#include <utility>

#include "base/text.h"

namespace saggar::reading {
namespace {

constexpr auto kInstead = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"a", "`[words](address)` for a link; headings can be linked to without a mark of their own"},
    {"b", "`**words**`"},
    {"strong", "`**words**`"},
    {"i", "`*words*`"},
    {"em", "`*words*`"},
    {"cite", "`*words*`"},
    {"s", "`~~words~~`"},
    {"del", "`~~words~~`"},
    {"strike", "`~~words~~`"},
    {"br", "a backslash at the end of the line"},
    {"hr", "`---` on a line of its own"},
    {"p", "an empty line between paragraphs"},
    {"img", "`![what is to be seen](path)`"},
    {"code", "the words between two backquotes"},
    {"h1", "`# words`"},
    {"h2", "`## words`"},
    {"h3", "`### words`"},
    {"li", "`- words`"},
    {"ul", "`- words` for each item"},
    {"ol", "`1. words` for each item"},
    {"blockquote", "`> words`"},
    {"table", "`| words | words |` with `| --- | --- |` below the first row"},
});

}  // namespace

std::string withoutComments(std::string_view html, bool& comments) {
  std::string out;
  std::size_t at = 0;
  while (true) {
    const std::size_t begin = html.find("<!--", at);
    const std::size_t end = begin == std::string_view::npos ? begin : html.find("-->", begin + 4);
    if (end == std::string_view::npos) break;
    out += html.substr(at, begin - at);
    at = end + 3;
    comments = true;
  }
  out += html.substr(at);
  return out;
}

bool isClosingTag(std::string_view html) {
  return html.substr(0, 2) == "</";
}

std::string tagName(std::string_view html) {
  std::string out;
  for (std::size_t i = isClosingTag(html) ? 2 : 1; i < html.size() && html[0] == '<'; ++i) {
    const char c = html[i];
    if (base::isUpper(c)) {
      out += static_cast<char>(c - 'A' + 'a');
    } else if (base::isLower(c) || base::isDigit(c) || c == '-') {
      out += c;
    } else {
      break;
    }
  }
  return out;
}

std::string insteadOfTag(std::string_view html) {
  const std::string name = tagName(html);
  for (const auto& [tag, instead] : kInstead) {
    if (tag == name) return "type " + std::string(instead);
  }
  if (isClosingTag(html) || name.empty()) return "leave it out, or type `\\<` to print the sign itself";
  return "leave it out, type `\\<` to print the sign itself, or `<kind:id>` to name a record";
}

}  // namespace saggar::reading
