#include "render/markdown_escape.h"

#include <algorithm>

#include "base/text.h"

namespace saggar::render {
namespace {

constexpr std::size_t npos = std::string_view::npos;

bool isLetter(char c) {
  return base::isLower(c) || base::isUpper(c);
}
bool isWordSign(char c) {
  return isLetter(c) || base::isDigit(c);
}

// Does a character reference begin at this `&`?
bool beginsReference(std::string_view text, std::size_t at) {
  std::size_t end = at + 1;
  if (end < text.size() && text[end] == '#') ++end;
  const std::size_t first = end;
  while (end < text.size() && end < first + 40 && (isLetter(text[end]) || base::isDigit(text[end]))) ++end;
  // No name of a reference has one letter alone (HTML, "Named character references"): "W&S;" is read as it stands.
  const std::size_t least = first == at + 1 ? 2 : 1;
  return end >= first + least && end < text.size() && text[end] == ';';
}

// Where a backslash must go so that a line does not begin a list, heading, quotation, rule or table; npos for
// nowhere.
std::size_t lineStartSign(std::string_view line) {
  // The rows of tables are found behind vertical tabs and form feeds as well.
  const std::size_t begin = line.find_first_not_of(" \t\v\f");
  if (begin == npos) return npos;
  if (begin > 0) {
    const std::size_t sign = lineStartSign(line.substr(begin));
    return sign == npos ? npos : begin + sign;
  }
  const char first = line[0];
  auto endsAt = [&](std::size_t at) { return at >= line.size() || base::isBlank(line[at]); };
  if (first == '>') return 0;
  if (first == '#') return endsAt(std::min(line.find_first_not_of('#'), line.size())) ? 0 : npos;
  if (first == '=') return line.find_first_not_of("= \t\v\f") == npos ? 0 : npos;
  if ((first == '-' || first == '+') && endsAt(1)) return 0;
  if (first == '-' || first == ':' || first == '|')
    return line.find_first_not_of("-:| \t\v\f") == npos ? 0 : npos;
  std::size_t figures = 0;
  while (figures < line.size() && figures < 9 && base::isDigit(line[figures])) ++figures;
  const bool numbered =
      figures > 0 && figures < line.size() && (line[figures] == '.' || line[figures] == ')');
  return numbered && endsAt(figures + 1) ? figures : npos;
}

bool isPlainDestination(std::string_view address) {
  return !address.empty() && std::all_of(address.begin(), address.end(), [](char c) {
    return static_cast<unsigned char>(c) > 0x20 && c != 0x7F && c != '(' && c != ')' && c != '<' && c != '>';
  });
}

void appendReference(std::string& out, char c) {
  out += "&#" + std::to_string(static_cast<int>(c)) + ';';
}

}  // namespace

std::string escapedMarkdown(std::string_view words, const Surroundings& around) {
  std::string out;
  out.reserve(words.size() + 8);
  const std::size_t size = words.size();
  const std::size_t sign = around.lineStart ? lineStartSign(words) : npos;
  auto before = [&](std::size_t i) { return i > 0 ? words[i - 1] : ' '; };
  auto after = [&](std::size_t i) { return i + 1 < size ? words[i + 1] : ' '; };
  for (std::size_t i = 0; i < size; ++i) {
    const char c = words[i];
    const bool last = i + 1 == size;
    bool escape = i == sign;
    switch (c) {
      case '\n':
      case '\r': appendReference(out, c); continue;
      case '\0': out += "\xEF\xBF\xBD"; continue;
      case ' ':
      case '\t':
        if ((i == 0 && around.lineStart) || (last && around.lineEnd)) {
          appendReference(out, c);
        } else {
          out += c;
        }
        continue;
      case '\\':
      case '*':
      case '`':
      case '[':
      case '~': escape = true; break;
      case ']': escape = escape || around.inBrackets; break;
      case '^': escape = escape || (i == 0 && around.inBrackets); break;
      case '_': escape = escape || !isWordSign(before(i)) || !isWordSign(after(i)); break;
      case '<': escape = escape || last || !(base::isBlank(after(i)) || base::isDigit(after(i))); break;
      case '&': escape = escape || beginsReference(words, i); break;
      case '!': escape = escape || (last && around.beforeBracket); break;
      case '#': escape = escape || (last && around.heading); break;
      case '(': escape = escape || (i == 0 && around.afterMark); break;
      case ':':
        escape =
            escape || (i == 0 && around.afterMark) || (isLetter(before(i)) && words.substr(i, 3) == "://");
        break;
      case '.': escape = escape || (i >= 3 && words.substr(i - 3, 3) == "www"); break;
      default: break;
    }
    if (escape) out += '\\';
    out += c;
  }
  return out;
}

std::string markdownDestination(std::string_view address) {
  const bool plain = isPlainDestination(address);
  if (address.empty()) return {};
  std::string out = plain ? "" : "<";
  for (std::size_t i = 0; i < address.size(); ++i) {
    const char c = address[i];
    if (c == '\n' || c == '\r') {
      appendReference(out, c);
      continue;
    }
    if (c == '\\' || c == '<' || c == '>' || (c == '&' && beginsReference(address, i))) out += '\\';
    out += c;
  }
  return plain ? out : out + '>';
}

std::string markdownTitle(std::string_view title) {
  std::string out = "\"";
  for (std::size_t i = 0; i < title.size(); ++i) {
    const char c = title[i];
    if (c == '\n' || c == '\r') {
      appendReference(out, c);
      continue;
    }
    if (c == '\\' || c == '"' || (c == '&' && beginsReference(title, i))) out += '\\';
    out += c;
  }
  return out + '"';
}

std::string markdownInfo(std::string_view info) {
  std::string out;
  for (std::size_t i = 0; i < info.size(); ++i) {
    const char c = info[i] == '\n' || info[i] == '\r' ? ' ' : info[i];
    if (c == '\\' || (c == '&' && beginsReference(info, i))) out += '\\';
    out += c;
  }
  return out;
}

std::string anchorTag(std::string_view name) {
  std::string out = "<a id=\"";
  for (char c : name) {
    switch (c) {
      case '"': out += "&quot;"; break;
      case '&': out += "&amp;"; break;
      case '<': out += "&lt;"; break;
      case '>': out += "&gt;"; break;
      case '|': out += "&#124;"; break;
      default: out += base::isBlank(c) ? '-' : c;
    }
  }
  return out + "\"></a>";
}

std::string markdownCode(std::string_view words) {
  if (words.empty()) return {};
  std::string text(words);
  std::replace_if(
      text.begin(), text.end(), [](char c) { return c == '\n' || c == '\r'; }, ' ');
  std::size_t ticks = 1;
  while (true) {  // the shortest run of backquotes that does not stand in the words
    bool taken = false;
    for (std::size_t i = 0; i < text.size() && !taken;) {
      const std::size_t begin = std::min(text.find('`', i), text.size());
      const std::size_t end = std::min(text.find_first_not_of('`', begin), text.size());
      taken = end - begin == ticks;
      i = end;
    }
    if (!taken) break;
    ++ticks;
  }
  const bool blankEnds = text.front() == ' ' && text.back() == ' ' && text.find_first_not_of(' ') != npos;
  const char* pad = text.front() == '`' || text.back() == '`' || blankEnds ? " " : "";
  const std::string fence(ticks, '`');
  return fence + pad + text + pad + fence;
}

std::size_t longestRun(std::string_view text, char sign) {
  std::size_t longest = 0;
  std::size_t run = 0;
  for (char c : text) {
    run = c == sign ? run + 1 : 0;
    longest = std::max(longest, run);
  }
  return longest;
}

}  // namespace saggar::render
