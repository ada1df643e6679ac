#include "codes/series.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>

#include "base/text.h"

namespace saggar::codes {
namespace {

using dates::Day;
constexpr std::size_t kNone = static_cast<std::size_t>(-1);

// What an entry says of every higher number.
std::optional<Day> floorFor(const Series::Entry& entry, bool ordered) {
  const bool says = entry.table == SeriesTable::firstOf || (ordered && entry.table == SeriesTable::onDate);
  return says && entry.when.earliest.isFinite() ? std::optional(entry.when.earliest) : std::nullopt;
}

// And of every lower one.
std::optional<Day> ceilingFor(const Series::Entry& entry, bool ordered) {
  if (entry.table == SeriesTable::firstOf) {
    return entry.when.earliest.isFinite() ? std::optional(entry.when.earliest.plusDays(-1)) : std::nullopt;
  }
  return ordered && entry.when.latest.isFinite() ? std::optional(entry.when.latest) : std::nullopt;
}

void raise(std::optional<NumberBound>& bound, Day day, const Series::Entry& by, bool byOrder) {
  if (!bound || day > bound->day) bound = NumberBound{day, by.table, by.at.number, by.code, byOrder};
}

void lower(std::optional<NumberBound>& bound, Day day, const Series::Entry& by, bool byOrder) {
  if (!bound || day < bound->day) bound = NumberBound{day, by.table, by.at.number, by.code, byOrder};
}

bool byOrder(const Series::Entry& entry) {
  return entry.table != SeriesTable::firstOf;
}

}  // namespace

std::string_view tableName(SeriesTable table) {
  constexpr std::array<std::string_view, 3> kNames = {"first-of", "on-date", "last-of"};
  return kNames[static_cast<std::size_t>(table)];
}

Series::Series(const std::vector<Entry>& entries, const std::vector<Lost>& lost) {
  for (const Entry& entry : entries) tables_[entry.at.series].entries.push_back(entry);
  for (const Lost& stretch : lost) tables_[stretch.series].lost.push_back(stretch.range);
  for (auto& [series, table] : tables_) {
    std::stable_sort(table.entries.begin(), table.entries.end(),
                     [](const Entry& a, const Entry& b) { return a.at.number < b.at.number; });
    std::stable_sort(table.lost.begin(), table.lost.end(),
                     [](const MissingRange& a, const MissingRange& b) { return a.first < b.first; });
    for (const Entry& entry : table.entries) {
      if (entry.table == SeriesTable::lastOf && !table.last) table.last = entry.at.number;
    }
    for (const MissingRange& stretch : table.lost) {
      const std::size_t here = table.reach.size();
      const bool further = table.reach.empty() || stretch.last > table.lost[table.reach.back()].last;
      table.reach.push_back(further ? here : table.reach.back());
    }
    for (const bool ordered : {false, true}) {
      Tightest& tightest = ordered ? table.all : table.strict;
      const std::size_t size = table.entries.size();
      tightest.below.assign(size + 1, kNone);
      tightest.above.assign(size + 1, kNone);
      Day best = Day::minusInfinity();
      for (std::size_t i = 0; i < size; ++i) {
        const auto day = floorFor(table.entries[i], ordered);
        const bool better = day && *day >= best;
        if (better) best = *day;
        tightest.below[i + 1] = better ? i : tightest.below[i];
      }
      best = Day::plusInfinity();
      for (std::size_t i = size; i-- > 0;) {
        const auto day = ceilingFor(table.entries[i], ordered);
        const bool better = day && *day <= best;
        if (better) best = *day;
        tightest.above[i] = better ? i : tightest.above[i + 1];
      }
    }
  }
}

NumberBounds Series::bounds(const CodeNumber& number, bool ordered) const {
  NumberBounds result;
  const auto found = tables_.find(number.series);
  if (found == tables_.end()) return result;
  const Table& table = found->second;
  const auto begin = table.entries.begin();
  const auto [low, high] =
      std::equal_range(begin, table.entries.end(), Entry{number, {}, {}, {}},
                       [](const Entry& a, const Entry& b) { return a.at.number < b.at.number; });
  for (auto own = low; own != high; ++own) {
    if (own->table != SeriesTable::lastOf && own->when.earliest.isFinite()) {
      raise(result.earliest, own->when.earliest, *own, false);
    }
    if (own->when.latest.isFinite()) lower(result.latest, own->when.latest, *own, false);
  }
  const Tightest& tightest = ordered ? table.all : table.strict;
  if (const std::size_t below = tightest.below[static_cast<std::size_t>(low - begin)]; below != kNone) {
    const Entry& entry = table.entries[below];
    raise(result.earliest, *floorFor(entry, ordered), entry, byOrder(entry));
  }
  if (const std::size_t above = tightest.above[static_cast<std::size_t>(high - begin)]; above != kNone) {
    const Entry& entry = table.entries[above];
    lower(result.latest, *ceilingFor(entry, ordered), entry, byOrder(entry));
  }
  if (table.last && number.number > *table.last) result.beyondLast = table.last;
  return result;
}

const MissingRange* Series::missing(const CodeNumber& number) const {
  const auto found = tables_.find(number.series);
  if (found == tables_.end()) return nullptr;
  const std::vector<MissingRange>& lost = found->second.lost;
  const auto after =
      std::upper_bound(lost.begin(), lost.end(), number.number,
                       [](std::int64_t n, const MissingRange& range) { return n < range.first; });
  if (after == lost.begin()) return nullptr;
  const MissingRange& furthest =
      lost[found->second.reach[static_cast<std::size_t>(after - lost.begin()) - 1]];
  return furthest.last >= number.number ? &furthest : nullptr;
}

std::span<const MissingRange> Series::lostOf(const std::string& series) const {
  const auto found = tables_.find(series);
  return found == tables_.end() ? std::span<const MissingRange>() : found->second.lost;
}

std::optional<std::int64_t> Series::lastOf(const std::string& series) const {
  const auto found = tables_.find(series);
  return found == tables_.end() ? std::nullopt : found->second.last;
}

std::span<const Series::Entry> Series::entriesOf(const std::string& series) const {
  const auto found = tables_.find(series);
  return found == tables_.end() ? std::span<const Entry>() : found->second.entries;
}

std::int64_t Series::presentBetween(const CodeNumber& low, std::int64_t high) const {
  if (high - low.number <= 1) return 0;
  std::int64_t present = high - low.number - 1;
  const auto found = tables_.find(low.series);
  if (found == tables_.end()) return present;
  std::int64_t next = low.number + 1;  // the first number not yet looked at
  for (const MissingRange& range : found->second.lost) {
    const std::int64_t from = std::max(range.first, next);
    const std::int64_t to = std::min(range.last, high - 1);
    if (from > to) continue;
    present -= to - from + 1;
    next = to + 1;
  }
  return present;
}

std::vector<Series::Clash> Series::clashes(bool ordered) const {
  std::vector<Clash> found;
  for (const auto& named : tables_) {
    const Table& table = named.second;
    const auto entryOf = [&](const NumberBound& bound) -> const Entry& {
      return *std::find_if(table.entries.begin(), table.entries.end(), [&](const Entry& entry) {
        return entry.at.number == bound.number && entry.table == bound.table;
      });
    };
    for (const Entry& entry : table.entries) {
      const NumberBounds all = bounds(entry.at, ordered);
      std::optional<Clash> clash;
      if (all.beyondLast) {
        clash = Clash{entryOf({{}, SeriesTable::lastOf, *all.beyondLast, {}, false}), entry};
      } else if (all.clash()) {
        clash = Clash{entryOf(*all.earliest), entryOf(*all.latest)};
      }
      if (!clash) continue;
      if (clash->lower.at.number > clash->higher.at.number) std::swap(clash->lower, clash->higher);
      const bool known = std::any_of(found.begin(), found.end(), [&](const Clash& other) {
        return other.lower.at == clash->lower.at && other.higher.at == clash->higher.at;
      });
      if (!known) found.push_back(*clash);
    }
  }
  std::sort(found.begin(), found.end(), [](const Clash& a, const Clash& b) {
    return a.lower.at.series != b.lower.at.series   ? a.lower.at.series < b.lower.at.series
           : a.lower.at.number != b.lower.at.number ? a.lower.at.number < b.lower.at.number
                                                    : a.higher.at.number < b.higher.at.number;
  });
  return found;
}

Parsed<MissingRange> parseMissing(std::string_view typed) {
  const std::string_view text = base::trimmed(typed);
  for (const std::string_view between : {" to ", "-", "–", "—"}) {
    const std::size_t at = text.find(between);
    if (at == std::string_view::npos) continue;
    const auto first = plainNumber(base::trimmed(text.substr(0, at)));
    const auto last = plainNumber(base::trimmed(text.substr(at + between.size())));
    if (!first || !last) break;
    if (*first > *last) {
      return {std::nullopt,
              fmt::format("the missing numbers run backwards: {} is more than {}", *first, *last),
              fmt::format("write `{}-{}`", *last, *first)};
    }
    return {MissingRange{*first, *last, {}}, {}, {}};
  }
  if (const auto one = plainNumber(text)) return {MissingRange{*one, *one, {}}, {}, {}};
  return {std::nullopt, fmt::format("`{}` is no number and no stretch of numbers", base::shortened(text, 40)),
          "write `1601-1688: why they are missing`"};
}

std::optional<std::int64_t> plainNumber(std::string_view text) {
  if (text.empty() || text.size() > 18 || !std::all_of(text.begin(), text.end(), base::isDigit))
    return std::nullopt;
  std::int64_t number = 0;
  std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

}  // namespace saggar::codes
