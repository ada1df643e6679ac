#include "codes/part_match.h"

#include <fmt/format.h>

#include <algorithm>
#include <functional>

#include "base/text.h"

namespace saggar::codes {
namespace {

using Signs = std::span<const Sign>;

bool digitOrAny(const Sign& sign) {
  return sign.folded == kAnySign || isDigitSign(sign);
}
bool letterOrAny(const Sign& sign) {
  return sign.folded == kAnySign || isLetterSign(sign);
}

template <class Test>
std::size_t run(Signs signs, std::size_t from, std::size_t most, Test test) {
  std::size_t n = 0;
  while (n < most && from + n < signs.size() && test(signs[from + n])) ++n;
  return n;
}

std::size_t common(Signs signs, std::size_t from, std::u32string_view text) {
  std::size_t n = 0;
  while (n < text.size() && from + n < signs.size() && fits(signs[from + n], text[n])) ++n;
  return n;
}

std::size_t digitsOf(std::int64_t number) {
  std::size_t digits = 1;
  while (number >= 10) {
    number /= 10;
    ++digits;
  }
  return digits;
}

// Whether some number within the bounds has these digits (`?` for any); both bounds are written with as many.
bool someNumberFits(Signs signs, const std::string& low, const std::string& high) {
  bool onLow = true;  // the digits so far can be those of the bound itself
  bool onHigh = true;
  bool both = true;      // of both bounds at once
  bool between = false;  // or lie truly between them
  for (std::size_t i = 0; i < signs.size(); ++i) {
    const bool any = signs[i].folded == kAnySign;
    const char32_t d = signs[i].folded;
    const auto l = static_cast<char32_t>(low[i]);
    const auto h = static_cast<char32_t>(high[i]);
    const auto canBe = [&](char32_t digit) { return any || d == digit; };
    const auto canLie = [&](char32_t above, char32_t below) {  // some digit truly between
      return any ? below > above + 1 : d > above && d < below;
    };
    const bool lowOnly = onLow && !both;
    const bool highOnly = onHigh && !both;
    const bool nextBetween = between || (both && canLie(l, h)) || (lowOnly && (any ? l < U'9' : d > l)) ||
                             (highOnly && (any ? h > U'0' : d < h));
    const bool nextLow = (lowOnly && canBe(l)) || (both && l != h && canBe(l));
    const bool nextHigh = (highOnly && canBe(h)) || (both && l != h && canBe(h));
    const bool nextBoth = both && l == h && canBe(l);
    both = nextBoth;
    onLow = nextLow || nextBoth;
    onHigh = nextHigh || nextBoth;
    between = nextBetween;
    if (!both && !onLow && !onHigh && !between) return false;
  }
  return true;
}

bool rangeFits(const RangePart& part, Signs signs) {
  if (signs.empty() || !std::all_of(signs.begin(), signs.end(), digitOrAny)) return false;
  const std::size_t digits = signs.size();
  if (part.width != 0) {
    return digits == static_cast<std::size_t>(part.width) &&
           someNumberFits(signs, fmt::format("{:0{}}", part.low, part.width),
                          fmt::format("{:0{}}", part.high, part.width));
  }
  if (digits < digitsOf(part.low) || digits > digitsOf(part.high)) return false;
  const std::string least = digits == 1 ? "0" : "1" + std::string(digits - 1, '0');
  const std::string low = digits == digitsOf(part.low) ? fmt::format("{}", part.low) : least;
  const std::string high =
      digits == digitsOf(part.high) ? fmt::format("{}", part.high) : std::string(digits, '9');
  return someNumberFits(signs, low, high);
}

template <class Each>
void eachUnitValue(const UnitPart& part, Signs signs, Each each) {
  const bool two = signs.size() == 2;
  if (!two && !part.oneDigit) return;
  const auto fitsDigit = [](const Sign& sign, int digit) {
    return fits(sign, static_cast<char32_t>(U'0' + digit));
  };
  const int low = two && !part.padded ? std::max(part.low, 10) : part.low;
  for (int value = low; value <= (two ? part.high : std::min(part.high, 9)); ++value) {
    if (fitsDigit(signs.back(), value % 10) && (!two || fitsDigit(signs[0], value / 10))) each(value);
  }
}

std::size_t yearDigits(const YearPart& part) {
  return part.templates[0].size() - part.templates[0].find('Y');
}

// Calls `each` with every year, rising within a template.
template <class Each>
void eachYear(const YearPart& part, Signs signs, Each each) {
  for (const std::string& form : part.templates) {
    const std::size_t ys = form.find('Y');
    int known = 0;
    for (std::size_t i = 0; i < ys; ++i) known = known * 10 + (form[i] - '0');
    const std::function<void(std::size_t, int)> go = [&](std::size_t at, int year) {
      for (; at < signs.size() && signs[at].folded != kAnySign; ++at) {
        year = year * 10 + static_cast<int>(signs[at].folded - U'0');
      }
      if (at == signs.size()) {
        if (year >= kFirstYear) each(year);
        return;
      }
      for (int digit = 0; digit <= 9; ++digit) go(at + 1, year * 10 + digit);
    };
    go(0, known);
  }
}

struct Ends {
  const PartMatcher& part;
  Signs signs;
  std::size_t from;
  std::vector<std::size_t>& out;
  std::size_t base;  // what is in `out` already

  std::size_t left() const { return signs.size() - from; }

  void counted(const Counts& counts, std::size_t found) const {
    for (std::size_t n = 1; n <= found; ++n) {
      if (counts.allows(n)) out.push_back(from + n);
    }
  }

  void operator()(const DigitsPart& p) const { counted(p.counts, run(signs, from, kMostSigns, digitOrAny)); }
  void operator()(const LettersPart& p) const {
    counted(p.counts, run(signs, from, kMostSigns, letterOrAny));
  }
  void operator()(const RangePart& p) const {
    const std::size_t most = run(signs, from, 18, digitOrAny);
    for (std::size_t n = 1; n <= most; ++n) {
      if (rangeFits(p, signs.subspan(from, n))) out.push_back(from + n);
    }
  }
  void operator()(const TextPart&) const {
    if (common(signs, from, part.text) == part.text.size()) out.push_back(from + part.text.size());
  }
  void operator()(const TablePart&) const {
    if (left() == 0) return;
    auto first = part.rows.begin();
    auto last = part.rows.end();
    if (signs[from].folded != kAnySign) {
      const char32_t start = signs[from].folded;
      first = std::lower_bound(first, last, start,
                               [](const PartMatcher::Row& r, char32_t c) { return r.folded[0] < c; });
      last = std::upper_bound(first, last, start,
                              [](char32_t c, const PartMatcher::Row& r) { return c < r.folded[0]; });
    }
    for (auto row = first; row != last; ++row) {
      if (common(signs, from, row->folded) == row->folded.size()) out.push_back(from + row->folded.size());
    }
    const auto added = out.begin() + static_cast<std::ptrdiff_t>(base);
    std::sort(added, out.end());
    out.erase(std::unique(added, out.end()), out.end());
  }
  void operator()(const PathPart& p) const {
    const auto need = static_cast<std::size_t>(p.last);
    if (need == 0) {
      anything();
    } else if (left() >= need &&
               run(signs, from, need, [](const Sign& s) { return s.folded != U' '; }) == need) {
      out.push_back(from + need);
    }
  }
  void operator()(const YearPart& p) const {
    const std::size_t digits = yearDigits(p);
    if (run(signs, from, digits, digitOrAny) == digits) {
      bool some = false;
      const Signs typed = signs.subspan(from, digits);
      const bool allAny =
          digits == 4 && typed[0].folded == kAnySign;  // some year fits, without trying ten thousand
      if (!allAny) eachYear(p, typed, [&](int) { some = true; });
      if (some || allAny) out.push_back(from + digits);
    }
  }
  void operator()(const UnitPart& p) const {
    for (std::size_t n = 1; n <= std::min<std::size_t>(2, left()); ++n) {
      bool some = false;
      eachUnitValue(p, signs.subspan(from, n), [&](int) { some = true; });
      if (some) out.push_back(from + n);
    }
  }

  // Blanks inside, but not at the ends.
  void anything() const {
    if (left() == 0 || signs[from].folded == U' ') return;
    const std::size_t most = std::min<std::size_t>(left(), kMostSigns);
    for (std::size_t n = 1; n <= most; ++n) {
      if (signs[from + n - 1].folded != U' ') out.push_back(from + n);
    }
  }
};

struct Begun {
  const PartMatcher& part;
  Signs signs;
  std::size_t from;

  std::size_t operator()(const DigitsPart&) const { return run(signs, from, kMostSigns, digitOrAny); }
  std::size_t operator()(const LettersPart&) const { return run(signs, from, kMostSigns, letterOrAny); }
  std::size_t operator()(const RangePart&) const { return run(signs, from, kMostSigns, digitOrAny); }
  std::size_t operator()(const TextPart&) const { return common(signs, from, part.text); }
  std::size_t operator()(const TablePart&) const {
    std::size_t best = 0;
    for (const PartMatcher::Row& row : part.rows) best = std::max(best, common(signs, from, row.folded));
    return best;
  }
  std::size_t operator()(const PathPart&) const {
    return run(signs, from, kMostSigns, [](const Sign& s) { return s.folded != U' '; });
  }
  std::size_t operator()(const YearPart&) const { return run(signs, from, 4, digitOrAny); }
  std::size_t operator()(const UnitPart&) const { return run(signs, from, 2, digitOrAny); }
};

// Every way to take one value of each list; an empty list gives none.
template <class Each>
void eachDate(const DateFacts& facts, Each each) {
  using Values = std::vector<std::optional<int>>;
  const auto orNone = [](const std::vector<int>& values) {
    return values.empty() ? Values{std::nullopt} : Values(values.begin(), values.end());
  };
  for (const auto& year : orNone(facts.years)) {
    for (const auto& quarter : orNone(facts.quarters)) {
      for (const auto& month : orNone(facts.months)) {
        for (const auto& week : orNone(facts.weeks)) {
          for (const auto& day : orNone(facts.days)) {
            if (!each(DateChoice{year, quarter, month, week, day})) return;
          }
        }
      }
    }
  }
}

PartMatcher::RowMeaning meaningOf(const TableRow& row) {
  std::string words = row.means;
  if (words.empty()) {
    for (const LookNeed& need : row.look) {
      if (!words.empty()) words += ", ";
      words += need.feature + ": " + base::listedInWords(need.values, "or");
    }
  }
  const bool several = row.date.years.size() > 1 || row.date.quarters.size() > 1 ||
                       row.date.months.size() > 1 || row.date.weeks.size() > 1 || row.date.days.size() > 1;
  const bool withDate = words.empty() || several;
  return {std::move(words), withDate};
}

bool merge(std::optional<int>& into, const std::optional<int>& from) {
  if (into && from && *into != *from) return false;
  if (!into) into = from;
  return true;
}

}  // namespace

PartMatcher::PartMatcher(std::string partName, std::optional<PartSpec> partSpec)
    : name(std::move(partName)), spec(std::move(partSpec)) {
  if (!spec) return;
  if (const auto* fixed = std::get_if<TextPart>(&*spec)) text = foldedSigns(fixed->text);
  if (std::holds_alternative<PathPart>(*spec)) fixedMeaning = wanted(*spec);
  if (const auto* table = std::get_if<TablePart>(&*spec)) {
    for (const TableRow& row : table->rows) meanings.push_back(meaningOf(row));
    rows.reserve(table->rows.size());
    for (std::size_t i = 0; i < table->rows.size(); ++i)
      rows.push_back({foldedSigns(table->rows[i].text), i});
    std::sort(rows.begin(), rows.end(), [](const Row& a, const Row& b) {
      return a.folded != b.folded ? a.folded < b.folded : a.row < b.row;
    });
  }
}

void PartMatcher::ends(Signs signs, std::size_t from, std::vector<std::size_t>& out) const {
  const Ends find{*this, signs, from, out, out.size()};
  if (spec) {
    std::visit(find, *spec);
  } else {
    find.anything();
  }
}

bool PartMatcher::fitsAll(Signs signs) const {
  if (!spec) return !signs.empty();
  std::vector<std::size_t> found;
  ends(signs, 0, found);
  return std::find(found.begin(), found.end(), signs.size()) != found.end();
}

std::size_t PartMatcher::begun(Signs signs, std::size_t from) const {
  return spec ? std::visit(Begun{*this, signs, from}, *spec) : 0;
}

std::vector<Choice> choices(const PartMatcher& part, Signs signs, std::size_t most, bool& more) {
  std::vector<Choice> found;
  const auto add = [&](Choice choice) {
    if (found.size() >= most) {
      more = true;
      return false;
    }
    found.push_back(std::move(choice));
    return true;
  };
  if (part.spec && std::holds_alternative<TablePart>(*part.spec)) {
    const TablePart& table = std::get<TablePart>(*part.spec);
    std::vector<std::size_t> rows;
    auto row = part.rows.begin();
    if (signs[0].folded != kAnySign) {
      row = std::lower_bound(row, part.rows.end(), signs[0].folded,
                             [](const PartMatcher::Row& r, char32_t c) { return r.folded[0] < c; });
    }
    for (; row != part.rows.end() && fits(signs[0], row->folded[0]); ++row) {
      if (row->folded.size() == signs.size() && common(signs, 0, row->folded) == signs.size())
        rows.push_back(row->row);
    }
    std::sort(rows.begin(), rows.end());
    for (const std::size_t index : rows) {
      eachDate(table.rows[index].date, [&](const DateChoice& date) { return add({index, date}); });
    }
  } else if (const auto* year = part.spec ? std::get_if<YearPart>(&*part.spec) : nullptr) {
    eachYear(*year, signs, [&](int value) {
      DateChoice date;
      date.year = value;
      add({std::nullopt, date});
    });
  } else if (const auto* unit = part.spec ? std::get_if<UnitPart>(&*part.spec) : nullptr) {
    eachUnitValue(*unit, signs, [&](int value) {
      DateChoice date;
      (unit->unit == Unit::quarter ? date.quarter
       : unit->unit == Unit::month ? date.month
       : unit->unit == Unit::week  ? date.week
                                   : date.day) = value;
      add({std::nullopt, date});
    });
  } else {
    add({});
  }
  return found;
}

std::string meaning(const PartMatcher& part, const Choice& choice) {
  if (!choice.row) return choice.date.empty() ? part.fixedMeaning : inWords(choice.date);
  const PartMatcher::RowMeaning& row = part.meanings[*choice.row];
  if (choice.date.empty() || !row.withDate) return row.words;
  return row.words.empty() ? inWords(choice.date) : row.words + ", " + inWords(choice.date);
}

std::optional<DateChoice> together(const DateChoice& a, const DateChoice& b) {
  DateChoice both = a;
  if (merge(both.year, b.year) && merge(both.quarter, b.quarter) && merge(both.month, b.month) &&
      merge(both.week, b.week) && merge(both.day, b.day)) {
    return both;
  }
  return std::nullopt;
}

}  // namespace saggar::codes
