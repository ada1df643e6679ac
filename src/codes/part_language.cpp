#include "codes/part_language.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "base/edit_distance.h"
#include "base/text.h"
#include "base/utf8.h"
#include "codes/signs.h"
#include "codes/when.h"

namespace saggar::codes {
namespace {

constexpr std::string_view kForms =
    "a part is `2 digits`, `2 or 3 digits`, `2 letters`, `1 to 2880`, a path such as `shape.prefix`, `last 3 "
    "of "
    "motif.supplier-number`, `year 19YY`, `month`, `quarter`, `week`, `day`, a table, or a text; `text ...` "
    "says that it "
    "is a text";
constexpr std::size_t kLongestText = 2000;

using Words = std::vector<std::string_view>;

Parsed<PartSpec> fault(std::string message, std::string hint = std::string(kForms)) {
  return {std::nullopt, std::move(message), std::move(hint)};
}

std::string lower(std::string_view text) {
  std::string small(text);
  for (char& c : small) {
    if (base::isUpper(c)) c = static_cast<char>(c + 32);
  }
  return small;
}

Words wordsOf(std::string_view text) {
  Words words;
  for (std::size_t i = 0; i < text.size();) {
    while (i < text.size() && base::isBlank(text[i])) ++i;
    const std::size_t begin = i;
    while (i < text.size() && !base::isBlank(text[i])) ++i;
    if (i > begin) words.push_back(text.substr(begin, i - begin));
  }
  return words;
}

bool allDigits(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), base::isDigit);
}

// Up to 18 digits; so every sum of two fits in 64 bits.
std::optional<std::int64_t> number(std::string_view text) {
  if (!allDigits(text) || text.size() > 18) return std::nullopt;
  std::int64_t value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

std::optional<std::int64_t> count(std::string_view word) {
  if (const auto figure = number(word)) return figure;
  const std::string small = lower(word);
  for (int n = 1; n <= 12; ++n) {
    if (small == numberWord(n)) return n;
  }
  return std::nullopt;
}

bool isCountedNoun(std::string_view word) {
  return word == "digit" || word == "digits" || word == "letter" || word == "letters";
}

// `2 digits`, `2 or 3 digits`, `2 to 5 letters`; the last word is known to be the noun.
Parsed<PartSpec> parseCounted(const Words& words) {
  const std::string noun = lower(words.back());
  const auto least = count(words[0]);
  const auto most = words.size() == 4 ? count(words[2]) : least;
  const std::string between = words.size() == 4 ? lower(words[1]) : std::string("to");
  if ((words.size() != 2 && words.size() != 4) || !least || !most || (between != "or" && between != "to")) {
    return fault(fmt::format("this does not say how many {} there are", noun),
                 fmt::format("write `2 {0}`, `2 or 3 {0}` or `2 to 5 {0}`", noun));
  }
  if (*least < 1 || *most > kMostSigns || *most < *least) {
    return fault(fmt::format("{} {} {} is no count", words[0], between, *most),
                 fmt::format("the smaller number first, from 1 to {}", kMostSigns));
  }
  Counts counts;
  if (between == "or") {
    counts.allow(static_cast<int>(*least));
    counts.allow(static_cast<int>(*most));
  } else {
    counts = Counts(static_cast<int>(*least), static_cast<int>(*most));
  }
  if (noun.starts_with("digit")) return {DigitsPart{counts}, {}, {}};
  return {LettersPart{counts}, {}, {}};
}

Parsed<PartSpec> parseRange(std::string_view low, std::string_view high) {
  const auto from = number(low);
  const auto to = number(high);
  if (!from || !to)
    return fault("a number of a range has at most 18 digits", "write the range as `1 to 2880`");
  if (*from > *to) {
    return fault(fmt::format("the range runs backwards: {} is more than {}", low, high),
                 fmt::format("write `{} to {}`", high, low));
  }
  RangePart part{*from, *to, 0};
  if (low.size() > 1 && low[0] == '0') {
    if (low.size() != high.size()) {
      return fault(fmt::format("`{}` begins with a nought, but `{}` has another number of digits", low, high),
                   "give both ends as many digits (`001 to 999`), or leave the noughts away (`1 to 999`)");
    }
    part.width = static_cast<int>(low.size());
  }
  return {part, {}, {}};
}

// Four figures or Ys, the Ys at the end: 19YY, 193Y, YYYY.
bool isYearForm(std::string_view form) {
  if (form.size() != 4 || form.back() != 'Y') return false;
  const std::size_t ys = form.find('Y');
  return allDigits(form.substr(0, ys)) != (ys == 0) &&
         form.find_first_not_of('Y', ys) == std::string_view::npos;
}

Parsed<PartSpec> parseYear(const Words& words) {
  YearPart part;
  for (std::size_t i = 1; i < words.size(); ++i) {
    if (i % 2 == 0) {
      if (lower(words[i]) != "or") part.templates.clear();
    } else {
      std::string form(words[i]);
      std::replace(form.begin(), form.end(), 'y', 'Y');
      if (!isYearForm(form)) {
        return fault(
            fmt::format("`{}` does not say which year the signs stand for", words[i]),
            "write the figures that are not typed and a Y for each that is: `year 19YY`, `year 193Y`, `year "
            "YYYY`, `year 18YY or 19YY`");
      }
      if (std::find(part.templates.begin(), part.templates.end(), form) == part.templates.end()) {
        part.templates.push_back(form);
      }
    }
  }
  const bool sameLength =
      std::all_of(part.templates.begin(), part.templates.end(),
                  [&](const std::string& form) { return form.find('Y') == part.templates[0].find('Y'); });
  if (part.templates.empty() || words.size() % 2 != 0 || !sameLength) {
    return fault("this does not say which year the signs stand for",
                 "write `year 19YY`, or `year 18YY or 19YY` for one or another");
  }
  return {part, {}, {}};
}

std::optional<Unit> unitOf(std::string_view word) {
  for (const Unit unit : {Unit::quarter, Unit::month, Unit::week, Unit::day}) {
    if (word == unitName(unit)) return unit;
  }
  return std::nullopt;
}

// `day`, `day DD`, `day 1 to 19`, `day DD 1 to 19`.
Parsed<PartSpec> parseUnit(Unit unit, const Words& words) {
  UnitPart part{unit, 1, unitMost(unit), unit != Unit::week, unit != Unit::quarter};
  const char letter = static_cast<char>(unitName(unit)[0] - 32);
  const std::string forms = fmt::format(
      "write `{0}`, `{0} 1 to {1}`, `{0} {2}` (no nought before it) or `{0} {2}{2}` "
      "(always two digits)",
      unitName(unit), unitMost(unit), letter);
  std::size_t next = 1;
  if (next < words.size() &&
      (words[next] == std::string(1, letter) || words[next] == std::string(2, letter))) {
    part.oneDigit = words[next].size() == 1;
    part.padded = !part.oneDigit;
    ++next;
  }
  if (next == words.size()) return {part, {}, {}};
  const auto low = next + 3 == words.size() ? number(words[next]) : std::nullopt;
  const auto high = low ? number(words[next + 2]) : std::nullopt;
  if (!high || lower(words[next + 1]) != "to") {
    return fault(fmt::format("`{}` is not understood after `{}`", words[next], words[0]), forms);
  }
  if (*low < 1 || *low > *high || *high > unitMost(unit)) {
    return fault(fmt::format("there is no {} from {} to {}", unitName(unit), *low, *high),
                 fmt::format("the numbers lie between 1 and {}", unitMost(unit)));
  }
  part.low = static_cast<int>(*low);
  part.high = static_cast<int>(*high);
  return {part, {}, {}};
}

bool isPathName(std::string_view name) {
  return !name.empty() && base::isLower(name[0]) && name.back() != '-' &&
         std::all_of(name.begin(), name.end(),
                     [](char c) { return base::isLower(c) || base::isDigit(c) || c == '-'; });
}

bool isPath(std::string_view text) {
  const std::vector<std::string_view> names = base::split(text, '.');
  return names.size() > 1 && std::all_of(names.begin(), names.end(), isPathName);
}

Parsed<PartSpec> parseLast(const Words& words) {
  const auto signs = words.size() == 4 ? count(words[1]) : std::nullopt;
  if (!signs || lower(words[2]) != "of" || *signs < 1 || *signs > kMostSigns) {
    return fault("this does not say how many signs of what", "write `last 3 of motif.supplier-number`");
  }
  Parsed<std::string> path = parsePath(words[3]);
  if (!path.value) return fault(std::move(path.message), std::move(path.hint));
  return {PathPart{{std::move(*path.value)}, static_cast<int>(*signs)}, {}, {}};
}

// A text that looks like one of the other forms, mistyped: taken as a text it would never fit a code, and
// nobody would be told why.
std::optional<Parsed<PartSpec>> nearMiss(std::string_view text, const Words& words) {
  const std::string first = lower(words[0]);
  for (const std::string_view separator : {"-", "..", "–", "—", "/"}) {
    const std::size_t at = text.find(separator);
    if (at == std::string_view::npos) continue;
    const std::string_view low = base::trimmed(text.substr(0, at));
    const std::string_view high = base::trimmed(text.substr(at + separator.size()));
    if (allDigits(low) && allDigits(high)) {
      return fault(
          fmt::format("`{}` is taken for a text, not for a range", text),
          fmt::format("write `{} to {}`; if the code has it as it stands, `text {}`", low, high, text));
    }
  }
  for (const std::string_view word : words) {
    const std::string small = lower(word);
    constexpr std::array<std::string_view, 12> kNouns = {"digit",  "digits",  "letter",    "letters",
                                                         "number", "numbers", "figure",    "figures",
                                                         "sign",   "signs",   "character", "characters"};
    const bool named = std::find(kNouns.begin(), kNouns.end(), small) != kNouns.end();
    const auto near = words.size() > 1 && count(words[0])
                          ? base::nearest(small, std::span<const std::string_view>(kNouns.data(), 4))
                          : std::nullopt;
    if (named || near) {
      return fault(fmt::format("`{}` is not understood", text),
                   near && words.size() == 2
                       ? fmt::format("did you mean `{} {}`?", words[0], *near)
                       : "write `2 digits`, `2 or 3 digits` or `2 letters`; if the code has these "
                         "words, `text ...`");
    }
  }
  constexpr std::array<std::string_view, 6> kWords = {"month", "quarter", "week", "year", "last", "day"};
  const bool small = first == words[0] && std::all_of(first.begin(), first.end(), base::isLower);
  if (small && first.size() > 3 &&
      (words.size() == 1 || base::isUpper(words[1][0]) || base::isDigit(words[1][0]))) {
    for (const std::string_view word : kWords) {
      if (base::editDistance(first, word, 2) <= (first.size() > 5 ? 2U : 1U)) {
        return fault(
            fmt::format("`{}` is not understood", text),
            fmt::format("did you mean `{}`? If the code has it as it stands, write `text {}`", word, text));
      }
    }
  }
  if (text.find('.') != std::string_view::npos) {
    std::size_t paths = 0;
    for (std::string_view word : words) {
      while (word.ends_with(',')) word.remove_suffix(1);
      paths += isPath(word) ? 1 : 0;
    }
    if (paths > 0) {
      return fault(fmt::format("`{}` is not understood", text),
                   "for one path or another write a list: `[shape.prefix, for.prefix]`");
    }
    if (words.size() == 1 && isPath(lower(text))) {
      return fault(fmt::format("`{}` is no path: fields are written small", text),
                   fmt::format("write `{}`; if the code has it as it stands, `text {}`", lower(text), text));
    }
  }
  return std::nullopt;
}

Parsed<PartSpec> parseText(std::string_view text) {
  const std::u32string signs = foldedSigns(text);
  if (signs.empty()) return fault("a text with no sign in it");
  if (signs.size() > kMostSigns) {
    return fault(fmt::format("a text of {} signs is too long", signs.size()),
                 fmt::format("a part has at most {} signs", kMostSigns));
  }
  if (signs.find(kBrokenSign) != std::u32string::npos)
    return fault("the text is not UTF-8", "save the file as UTF-8");
  return {TextPart{std::string(text)}, {}, {}};
}

}  // namespace

Parsed<PartSpec> parsePart(std::string_view typed) {
  const std::string_view text = base::trimmed(typed);
  if (text.empty()) return fault("nothing is said about this part");
  if (text.size() > kLongestText) return fault("a part of so many signs is not read");
  const Words words = wordsOf(text);
  const std::string first = lower(words[0]);
  if (first == "text" && words.size() > 1) return parseText(base::trimmed(text.substr(words[0].size())));
  if (words.size() > 1 && isCountedNoun(lower(words.back()))) return parseCounted(words);
  if (words.size() == 3 && lower(words[1]) == "to" && allDigits(words[0]) && allDigits(words[2])) {
    return parseRange(words[0], words[2]);
  }
  if (first == "year") return parseYear(words);
  if (const auto unit = unitOf(first)) return parseUnit(*unit, words);
  if (first == "last" && words.size() > 1) return parseLast(words);
  if (words.size() == 1 && isPath(text)) return {PathPart{{std::string(text)}, 0}, {}, {}};
  if (auto miss = nearMiss(text, words)) return *miss;
  return parseText(text);
}

Parsed<PartSpec> parsePartList(std::span<const std::string> texts) {
  if (texts.empty()) return fault("an empty list says nothing about this part");
  std::vector<PartSpec> parts;
  for (const std::string& text : texts) {
    Parsed<PartSpec> part = parsePart(text);
    if (!part.value) return part;
    parts.push_back(std::move(*part.value));
  }
  const auto mixed = [] {
    return fault("this list mixes different things",
                 "a list holds paths only (`[shape.prefix, for.prefix]`), or `last N of` with one N, or "
                 "years, or texts");
  };
  PartSpec whole = parts[0];
  if (auto* text = std::get_if<TextPart>(&parts[0])) whole = TablePart{{TableRow{text->text, {}, {}, {}}}};
  for (std::size_t i = 1; i < parts.size(); ++i) {
    if (auto* path = std::get_if<PathPart>(&parts[i]); path && std::holds_alternative<PathPart>(whole)) {
      PathPart& all = std::get<PathPart>(whole);
      if (all.last != path->last) return mixed();
      all.paths.insert(all.paths.end(), path->paths.begin(), path->paths.end());
    } else if (auto* year = std::get_if<YearPart>(&parts[i]);
               year && std::holds_alternative<YearPart>(whole)) {
      YearPart& all = std::get<YearPart>(whole);
      if (all.templates[0].find('Y') != year->templates[0].find('Y')) return mixed();
      all.templates.insert(all.templates.end(), year->templates.begin(), year->templates.end());
    } else if (auto* text = std::get_if<TextPart>(&parts[i]);
               text && std::holds_alternative<TablePart>(whole)) {
      std::get<TablePart>(whole).rows.push_back(TableRow{text->text, {}, {}, {}});
    } else {
      return mixed();
    }
  }
  const bool mayBeMany =
      !std::holds_alternative<DigitsPart>(whole) && !std::holds_alternative<LettersPart>(whole) &&
      !std::holds_alternative<RangePart>(whole) && !std::holds_alternative<UnitPart>(whole);
  if (parts.size() == 1 && !mayBeMany) return {parts[0], {}, {}};
  return {whole, {}, {}};
}

Parsed<std::string> parsePath(std::string_view typed) {
  const std::string_view text = base::trimmed(typed);
  if (isPath(text)) return {std::string(text), {}, {}};
  if (isPathName(text)) {
    return {std::nullopt, fmt::format("`{}` is one field, not a path", text),
            "a path says whose field it is: `shape.prefix`, `motif.supplier-number`"};
  }
  return {std::nullopt, fmt::format("`{}` is no path", base::shortened(text, 60)),
          "a path is field names with dots between, written small: `motif.supplier-number`"};
}

Parsed<int> parseFact(std::string_view key, std::string_view typed) {
  const std::string_view text = base::trimmed(typed);
  const bool year = key == "year";
  const auto unit = unitOf(key);
  if (!year && !unit) {
    return {std::nullopt, fmt::format("`{}` says nothing about a date", base::shortened(key, 40)),
            "a row may have `year`, `quarter`, `month`, `week` and `day`"};
  }
  const int most = year ? kLastYear : unitMost(*unit);
  if (const auto value = number(text); value && *value >= 1 && *value <= most)
    return {static_cast<int>(*value), {}, {}};
  if (unit == Unit::month) {
    for (int month = 1; month <= 12; ++month) {
      if (lower(text) == lower(monthName(month))) return {month, {}, {}};
    }
  }
  return {std::nullopt, fmt::format("there is no {} `{}`", key, base::shortened(text, 40)),
          year ? "write the year in figures: `year: 1842`; several as a list: `year: [1842, 1843]`"
               : fmt::format("write a number from 1 to {0}: `{1}: {0}`; several as a list: `{1}: [1, 2]`",
                             most, key)};
}

Parsed<std::vector<std::string>> parseAlike(std::string_view typed) {
  std::vector<std::string> group;
  for (std::string_view word : wordsOf(base::trimmed(typed))) {
    while (word.ends_with(',')) word.remove_suffix(1);
    if (word.empty()) continue;
    const bool known = std::any_of(group.begin(), group.end(), [&](const std::string& sign) {
      return foldedKey(sign) == foldedKey(word);
    });
    if (!known) group.emplace_back(word);
  }
  if (group.size() < 2) {
    return {std::nullopt, "one sign alone is like nothing",
            "name at least two signs with a blank between: `[4 9]`"};
  }
  if (group.size() > 20 ||
      std::any_of(group.begin(), group.end(), [](const std::string& sign) { return sign.size() > 16; })) {
    return {std::nullopt, "too many or too long signs that are alike",
            "at most twenty, each of a few letters"};
  }
  return {group, {}, {}};
}

}  // namespace saggar::codes
