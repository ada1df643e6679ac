#include "codes/written.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/edit_distance.h"
#include "base/text.h"

namespace saggar::codes {
namespace {

constexpr std::size_t kLongestWritten = 300;

bool isWordByte(char c) {
  return base::isLower(c) || base::isUpper(c) || base::isDigit(c) || c == '_' ||
         static_cast<unsigned char>(c) >= 0x80;
}

// A name that begins here and ends with its word; the longest, or npos.
std::size_t nameAt(std::string_view rest, std::span<const std::string> names) {
  std::size_t best = std::string_view::npos;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const std::string& name = names[i];
    if (name.empty() || !rest.starts_with(name)) continue;
    const bool cut = rest.size() > name.size() && isWordByte(rest[name.size()]) && isWordByte(name.back());
    if (!cut && (best == std::string_view::npos || names[best].size() < name.size())) best = i;
  }
  return best;
}

std::string_view wordAt(std::string_view rest) {
  std::size_t end = 0;
  while (end < rest.size() && isWordByte(rest[end])) ++end;
  return rest.substr(0, end);
}

// `YYWW` where the parts are YY and WW: `YY WW`. Empty if the word is not made of names alone.
std::string spaced(std::string_view word, std::span<const std::string> names) {
  std::vector<std::string> from(word.size() + 1);
  std::vector<bool> reached(word.size() + 1, false);
  reached[0] = true;
  for (std::size_t i = 0; i < word.size(); ++i) {
    if (!reached[i]) continue;
    for (const std::string& name : names) {
      const std::size_t end = i + name.size();
      if (name.empty() || !word.substr(i).starts_with(name) || reached[end]) continue;
      reached[end] = true;
      from[end] = from[i].empty() ? name : from[i] + " " + name;
    }
  }
  return from.back();
}

std::string unknownWordHint(std::string_view word, std::span<const std::string> names) {
  if (const std::string apart = spaced(word, names); !apart.empty()) {
    return fmt::format("write `{}`: a blank in `written` needs none in the code", apart);
  }
  const std::vector<std::string_view> views(names.begin(), names.end());
  if (const auto near = base::nearest(word, views)) return fmt::format("did you mean `{}`?", *near);
  return fmt::format(
      "say under `parts` what it is (`{0}: 3 digits`), or, if the code has these letters, `{0}: text {0}`",
      word);
}

Parsed<std::vector<WrittenPiece>> fault(std::string message, std::string hint) {
  return {std::nullopt, std::move(message), std::move(hint)};
}

}  // namespace

Parsed<std::vector<WrittenPiece>> parseWritten(std::string_view written, std::span<const std::string> names) {
  if (written.size() > kLongestWritten) {
    return fault("`written` is too long for a code", fmt::format("at most {} letters", kLongestWritten));
  }
  std::vector<WrittenPiece> pieces;
  const auto addText = [&](std::string_view text) {
    if (text.empty()) return;
    if (!pieces.empty() && pieces.back().kind == WrittenPiece::Kind::text) {
      pieces.back().text += text;
    } else {
      pieces.push_back({WrittenPiece::Kind::text, std::string(text)});
    }
  };
  const std::string_view text = base::trimmed(written);
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = text.substr(i);
    if (base::isBlank(rest[0])) {
      if (!pieces.empty() && pieces.back().kind != WrittenPiece::Kind::join)
        pieces.push_back({WrittenPiece::Kind::join, {}});
      ++i;
      continue;
    }
    if (rest[0] == '"') {
      const std::size_t close = rest.find('"', 1);
      if (close == std::string_view::npos) {
        return fault("a quote in `written` is not closed", "close it, or leave it away");
      }
      addText(rest.substr(1, close - 1));
      i += close + 1;
      continue;
    }
    const std::size_t found = nameAt(rest, names);
    if (found != std::string_view::npos) {
      const WrittenPiece piece{WrittenPiece::Kind::part, names[found]};
      if (std::find(pieces.begin(), pieces.end(), piece) != pieces.end()) {
        return fault(fmt::format("`{}` stands twice in `written`", names[found]),
                     "give each place a name of its own, each with what it may be");
      }
      pieces.push_back(piece);
      i += names[found].size();
      continue;
    }
    const std::string_view word = wordAt(rest);
    if (std::count_if(word.begin(), word.end(), base::isUpper) > 1) {
      return fault(fmt::format("`{}` in `written` is no part of this rule", word),
                   unknownWordHint(word, names));
    }
    addText(word.empty() ? rest.substr(0, 1) : word);
    i += std::max<std::size_t>(word.size(), 1);
  }
  if (pieces.empty())
    return fault("`written` is empty", "write the parts in order: `PREFIX-SERIAL-GROUP/LINING`");
  return {std::move(pieces), {}, {}};
}

bool isNamedIn(std::string_view written, std::string_view name) {
  const std::string whole(name);
  const std::span<const std::string> names(&whole, 1);
  for (std::size_t i = 0; i < written.size(); ++i) {
    const bool starts = i == 0 || !isWordByte(written[i - 1]) || !isWordByte(written[i]);
    if (starts && nameAt(written.substr(i), names) == 0) return true;
  }
  return false;
}

}  // namespace saggar::codes
