// The reader against two plain implementations that share nothing with it: one writes down every text that a
// small rule allows, with all that it can mean; the other tries every way of cutting a text.
#include <algorithm>
#include <cctype>
#include <functional>
#include <map>
#include <set>

#include "making.h"

using namespace saggar::codes;

namespace {

// 1 January 1900 was a Monday; day 0 here.
bool isLeap(int year) {
  return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
}
int monthDays(int year, int month) {
  if (month == 2) return isLeap(year) ? 29 : 28;
  return month == 4 || month == 6 || month == 9 || month == 11 ? 30 : 31;
}

struct PlainDay {
  int year, month, day, isoYear, isoWeek;
};

// Every day from 1900 to 1960, counted one by one; a week belongs to the year that its Thursday is in.
const std::vector<PlainDay>& calendar() {
  static const std::vector<PlainDay> all = [] {
    std::vector<PlainDay> days;
    for (int year = 1900; year <= 1960; ++year) {
      for (int month = 1; month <= 12; ++month) {
        for (int day = 1; day <= monthDays(year, month); ++day) days.push_back({year, month, day, 0, 0});
      }
    }
    for (std::size_t monday = 0; monday + 7 <= days.size(); monday += 7) {
      const int year = days[monday + 3].year;
      const bool first = monday == 0 || days[monday - 4].year != year;
      const int week = first ? 1 : days[monday - 1].isoWeek + 1;
      for (std::size_t i = monday; i < monday + 7; ++i) {
        days[i].isoYear = year;
        days[i].isoWeek = week;
      }
    }
    return days;
  }();
  return all;
}

using Facts = std::map<char, int>;  // y q m w d

std::string written(const PlainDay& d) {
  const auto two = [](int n) { return (n < 10 ? "0" : "") + std::to_string(n); };
  return std::to_string(d.year) + "-" + two(d.month) + "-" + two(d.day);
}

// "FROM to UNTIL", "no date" without a year, "" if no day agrees.
std::string plainDays(const Facts& facts) {
  static std::map<Facts, std::string> known;
  if (const auto found = known.find(facts); found != known.end()) return found->second;
  const auto is = [&](char unit, int value) { return !facts.contains(unit) || facts.at(unit) == value; };
  std::string from;
  std::string until;
  for (const PlainDay& d : calendar()) {
    if (!facts.contains('y') && d.year != 1904) continue;  // a leap year stands for any
    const bool withWeek = facts.contains('w') && facts.contains('y');
    if (!is('y', withWeek ? d.isoYear : d.year) || (withWeek && !is('w', d.isoWeek))) continue;
    if (!is('m', d.month) || !is('q', (d.month - 1) / 3 + 1) || !is('d', d.day)) continue;
    if (from.empty()) from = written(d);
    until = written(d);
  }
  const std::string all = from.empty() ? "" : facts.contains('y') ? from + " to " + until : "no date";
  return known[facts] = all;
}

// One thing that a part can be.
struct Meaning {
  std::string text;
  std::string row;
  Facts facts;
};

struct PlainPart {
  std::string said;  // as an author says it; "table" for the table below
  std::vector<Meaning> all;
};

std::string figures(int value, int width) {
  std::string text = std::to_string(value);
  return std::string(static_cast<std::size_t>(std::max(0, width - static_cast<int>(text.size()))), '0') +
         text;
}

std::vector<Meaning> numbers(int low, int high, int width, char unit) {
  std::vector<Meaning> all;
  for (int n = low; n <= high; ++n)
    all.push_back({figures(n, width), "", unit == 0 ? Facts{} : Facts{{unit, n}}});
  return all;
}

std::vector<Meaning> joined(std::vector<Meaning> a, const std::vector<Meaning>& b) {
  for (const Meaning& m : b) {
    const bool known = std::any_of(a.begin(), a.end(), [&](const Meaning& o) {
      return o.text == m.text && o.row == m.row && o.facts == m.facts;
    });
    if (!known) a.push_back(m);
  }
  return a;
}

TablePart someTable() {
  TablePart table;
  table.rows = {
      {"A", "", {}, {}}, {"AB", "", {}, {}}, {"B", "", {}, {}}, {"1", "", {}, {}}, {"a", "", {}, {}}};
  table.rows[1].date.months = {2, 5};
  table.rows[2].date.years = {1904, 1905, 1906};
  table.rows[3].date.quarters = {1};
  table.rows[3].date.days = {29, 31};
  return table;
}

const std::vector<PlainPart>& pool() {
  static const std::vector<PlainPart> all = [] {
    std::vector<Meaning> table = {{"A", "0", {}},
                                  {"AB", "1", {{'m', 2}}},
                                  {"AB", "1", {{'m', 5}}},
                                  {"B", "2", {{'y', 1904}}},
                                  {"B", "2", {{'y', 1905}}},
                                  {"B", "2", {{'y', 1906}}},
                                  {"1", "3", {{'q', 1}, {'d', 29}}},
                                  {"1", "3", {{'q', 1}, {'d', 31}}},
                                  {"A", "4", {}}};
    std::vector<Meaning> years;
    for (int n = 0; n <= 9; ++n) {
      years.push_back({std::to_string(n), "", {{'y', 1900 + n}}});
      years.push_back({std::to_string(n), "", {{'y', 1950 + n}}});
    }
    return std::vector<PlainPart>{{"1 digit", numbers(0, 9, 1, 0)},
                                  {"1 or 2 digits", joined(numbers(0, 9, 1, 0), numbers(0, 99, 2, 0))},
                                  {"8 to 12", numbers(8, 12, 0, 0)},
                                  {"08 to 12", numbers(8, 12, 2, 0)},
                                  {"A", {{"A", "", {}}}},
                                  {"text 1-", {{"1-", "", {}}}},
                                  {"quarter", numbers(1, 4, 1, 'q')},
                                  {"month", joined(numbers(1, 12, 0, 'm'), numbers(1, 12, 2, 'm'))},
                                  {"month M", numbers(1, 12, 0, 'm')},
                                  {"week", numbers(1, 53, 2, 'w')},
                                  {"day", joined(numbers(1, 31, 0, 'd'), numbers(1, 31, 2, 'd'))},
                                  {"day DD 28 to 31", numbers(28, 31, 2, 'd')},
                                  {"year 190Y or 195Y", years},
                                  {"table", table}};
  }();
  return all;
}

class Random {
 public:
  explicit Random(std::uint32_t seed) : state_(seed) {}
  std::size_t below(std::size_t n) {
    state_ = state_ * 1664525U + 1013904223U;
    return (state_ >> 8) % n;
  }

 private:
  std::uint32_t state_;
};

struct SmallRule {
  std::vector<std::size_t> parts;    // of the pool
  std::vector<std::string> between;  // one more than parts: fixed text, or a blank for a join
  Rule rule;
};

const std::vector<std::string> kNames = {"P", "Q", "R"};

SmallRule randomRule(Random& random) {
  std::vector<std::size_t> chosen;
  std::vector<std::string> between = {random.below(3) == 0 ? "x" : ""};
  std::string form = between[0];
  std::vector<NamedPart> named;
  const std::size_t size = 1 + random.below(3);
  for (std::size_t i = 0; i < size; ++i) {
    chosen.push_back(random.below(pool().size()));
    const std::string& said = pool()[chosen.back()].said;
    named.push_back(said == "table" ? NamedPart{kNames[i], someTable()} : part(kNames[i], said));
    static const std::vector<std::string> kBetween = {" ", " ", "-", "/"};
    between.push_back(i + 1 < size ? kBetween[random.below(4)] : random.below(4) == 0 ? "-" : "");
    form += (form == "x" ? " " : "") + kNames[i] + between.back();
  }
  if (between[0] == "x") between[0] = "x ";
  return {chosen, between, compiled(saggar::codes::rule("small", form, named))};
}

// "P=A/0 Q=12 1904-01-01 to 1904-12-31", without the marks that an author sees.
std::string told(const Reading& reading) {
  std::string all;
  for (const PartReading& p : reading.parts) {
    all += std::string(p.name) + "=" + foldedKey(p.text) + (p.row ? "/" + std::to_string(*p.row) : "") + "@" +
           std::to_string(p.offset) + " ";
  }
  return all + days(reading.when);
}

std::multiset<std::string> told(const Readings& readings) {
  std::multiset<std::string> all;
  for (const Reading& reading : readings.all) all.insert(told(reading));
  return all;
}

using Told = std::multiset<std::string>;

// Every text of the rule with all its readings; joins both with and without a blank.
std::map<std::string, Told> everyText(const SmallRule& small) {
  std::map<std::string, Told> all;
  const std::function<void(std::size_t, std::string, std::string, Facts)> go =
      [&](std::size_t i, std::string text, std::string parts, Facts facts) {
        if (i == small.parts.size()) {
          const std::string when = plainDays(facts);
          if (!when.empty()) all[text].insert(parts + when);
          return;
        }
        for (const Meaning& m : pool()[small.parts[i]].all) {
          Facts sum = facts;
          bool agrees = true;
          for (const auto& [unit, value] : m.facts)
            agrees = sum.emplace(unit, value).first->second == value && agrees;
          if (!agrees) continue;
          const std::string own = parts + kNames[i] + "=" + foldedKey(m.text) +
                                  (m.row.empty() ? "" : "/" + m.row) + "@" + std::to_string(text.size()) +
                                  " ";
          const std::string& after = small.between[i + 1];
          go(i + 1, text + m.text + after, own, sum);
          if (after == " ") go(i + 1, text + m.text, own, sum);
        }
      };
  const std::string& start = small.between[0];
  go(0, start, "", {});
  if (!start.empty()) go(0, start.substr(0, 1), "", {});
  return all;
}

}  // namespace

TEST_CASE("every text that small rules allow is read in exactly the ways that were written down") {
  Random random(11);
  std::size_t texts = 0;
  std::size_t severalWays = 0;
  for (int round = 0; round < 70; ++round) {
    const SmallRule small = randomRule(random);
    std::size_t size = 1;
    for (const std::size_t p : small.parts) size *= pool()[p].all.size();
    if (size > 4000) continue;
    const std::map<std::string, Told> all = everyText(small);
    CAPTURE(*small.rule.spec().written);
    for (const auto& entry : all) {
      const std::string& text = entry.first;
      const Told& expected = entry.second;
      if (told(small.rule.read(text)) != expected) {
        CAPTURE(text);
        CHECK(told(small.rule.read(text)) == expected);
      }
      ++texts;
      severalWays += expected.size() > 1 ? 1 : 0;
      // One sign more, less or other: read only if that too is one of the texts.
      std::string changed = text;
      const std::size_t at = random.below(changed.size());
      const std::string signs = "019AB-/x";
      switch (random.below(3)) {
        case 0: changed.erase(at, 1); break;
        case 1: changed[at] = signs[random.below(signs.size())]; break;
        default: changed.insert(at, 1, signs[random.below(signs.size())]); break;
      }
      const auto known = all.find(changed);
      const bool edged = changed.empty() || changed.front() == ' ' || changed.back() == ' ' ||
                         changed.find("  ") != std::string::npos;
      if (!edged && small.rule.read(changed).all.size() != (known == all.end() ? 0 : known->second.size())) {
        CAPTURE(changed);
        CHECK(small.rule.read(changed).all.size() == (known == all.end() ? 0 : known->second.size()));
      }
    }
  }
  CHECK(texts > 10'000);
  CHECK(severalWays > 500);
}

namespace {

bool same(const std::string& a, const std::string& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](char x, char y) {
    return x == y ||
           (x != '-' && y != '-' && std::isalpha(static_cast<unsigned char>(x)) != 0 && (x ^ y) == 0x20);
  });
}

std::string saidOf(const Facts& facts) {
  std::string all = plainDays(facts);
  for (const auto& [unit, value] : facts) all += std::string(" ") + unit + std::to_string(value);
  return all;
}

// Every way of cutting the text into the rule's pieces, each compared with the list of what the part can be.
void cut(const SmallRule& small, const std::string& text, std::size_t at, std::size_t i,
         const std::string& parts, const Facts& facts, std::set<std::string>& found) {
  const auto skipFixed = [&](const std::string& fixed, std::size_t from,
                             const std::function<void(std::size_t)>& next) {
    std::string rest = fixed;
    std::size_t to = from;
    const bool join = !rest.empty() && rest.back() == ' ';
    if (join) rest.pop_back();
    if (text.compare(from, rest.size(), rest) != 0) return;
    to += rest.size();
    if (join && to < text.size() && text[to] == ' ') {
      next(to + 1);
    } else {
      next(to);
    }
  };
  if (i == small.parts.size()) {
    if (at == text.size() && !plainDays(facts).empty()) found.insert(parts + saidOf(facts));
    return;
  }
  for (std::size_t end = at + 1; end <= text.size(); ++end) {
    const std::string piece = text.substr(at, end - at);
    for (const Meaning& m : pool()[small.parts[i]].all) {
      if (!same(m.text, piece)) continue;
      Facts sum = facts;
      bool agrees = true;
      for (const auto& [unit, value] : m.facts)
        agrees = sum.emplace(unit, value).first->second == value && agrees;
      if (!agrees) continue;
      skipFixed(small.between[i + 1], end, [&](std::size_t to) {
        cut(small, text, to, i + 1,
            parts + kNames[i] + (m.row.empty() ? "" : "/" + m.row) + "@" + std::to_string(at) + "+" +
                std::to_string(piece.size()) + " ",
            sum, found);
      });
    }
  }
}

std::set<std::string> cutAll(const SmallRule& small, const std::string& text) {
  std::set<std::string> found;
  std::string start = small.between[0];
  const bool join = !start.empty();
  if (join) start.pop_back();
  if (text.compare(0, start.size(), start) != 0) return found;
  const std::size_t at =
      start.size() + (join && start.size() < text.size() && text[start.size()] == ' ' ? 1 : 0);
  cut(small, text, at, 0, "", {}, found);
  return found;
}

std::string saidOf(const DateChoice& date) {
  std::string all;
  const auto add = [&](char unit, const std::optional<int>& value) {
    if (value) all += std::string(" ") + unit + std::to_string(*value);
  };
  add('d', date.day);
  add('m', date.month);
  add('q', date.quarter);
  add('w', date.week);
  add('y', date.year);
  return all;
}

// With `?` for a sign: every sign put in its place.
std::set<std::string> cutUnread(const SmallRule& small, const std::string& text) {
  const std::size_t at = text.find('?');
  if (at == std::string::npos) return cutAll(small, text);
  std::set<std::string> found;
  for (const char sign : std::string("0123456789ABx-/")) {
    std::string read = text;
    read[at] = sign;
    found.merge(cutUnread(small, read));
  }
  return found;
}

}  // namespace

TEST_CASE("random texts are read as by trying every cut, signs that cannot be read among them") {
  Random random(5);
  std::size_t readable = 0;
  std::size_t unread = 0;
  for (int round = 0; round < 2000; ++round) {
    const SmallRule small = randomRule(random);
    CAPTURE(*small.rule.spec().written);
    for (int i = 0; i < 3; ++i) {
      std::string text = small.between[0] == "x " ? "x" : "";
      for (std::size_t p = 0; p < small.parts.size(); ++p) {
        const std::vector<Meaning>& all = pool()[small.parts[p]].all;
        text += all[random.below(all.size())].text + small.between[p + 1];
      }
      if (random.below(4) == 0) text[random.below(text.size())] = "01A-"[random.below(4)];
      int questions = 0;
      while (questions < 2 && random.below(2) == 0) {
        char& sign = text[random.below(text.size())];
        if (sign != ' ') sign = '?';
        ++questions;
      }
      while (!text.empty() && text.back() == ' ') text.pop_back();
      if (text.find("  ") != std::string::npos) continue;
      std::set<std::string> found;
      const Readings readings = small.rule.read(text);
      CHECK_FALSE(readings.more);
      for (const Reading& reading : readings.all) {
        std::string one;
        for (const PartReading& p : reading.parts) {
          one += std::string(p.name) + (p.row ? "/" + std::to_string(*p.row) : "") + "@" +
                 std::to_string(p.offset) + "+" + std::to_string(p.text.size()) + " ";
        }
        CHECK(found.insert(one + days(reading.when) + saidOf(reading.date)).second);  // each reading once
      }
      const std::set<std::string> expected = cutUnread(small, text);
      if (found != expected) {
        CAPTURE(text);
        CHECK(found == expected);
      }
      readable += expected.empty() ? 0 : 1;
      unread += text.find('?') != std::string::npos && !expected.empty() ? 1 : 0;
    }
  }
  CHECK(readable > 2'000);
  CHECK(unread > 1'000);
}
