#include "code_guide.h"

#include <algorithm>
#include <cstring>
#include <random>
#include <set>

using saggar::checks::testing::decoration;
using saggar::checks::testing::Planted;

namespace {

std::string booked(const std::string& number, const std::string& introduced) {
  return decoration("lv-" + number, "linnavere", "none", "LV-" + number + "-A/0",
                    "{edge-line: none, verge-line: gold}", introduced);
}

std::string baseOf(const std::string& order) {
  return "- maker: m\n  codes:\n    - {rule: number, written: N, parts: {N: 1 to 999999}, order: " + order +
         "}\n  cite:\n    - books: x\n- shape: s\n  maker: m\n  cite:\n    - books: x\n"
         "- source: books\n  type: decoration-book\n  title: Books\n  date: 1800/1999\n";
}

std::string recordsOf(const std::vector<std::pair<int, std::string>>& series) {
  std::string records;
  int id = 0;
  for (const auto& [number, year] : series)
    records += "- treatment: t" + std::to_string(id++) +
               "\n  shape: s\n  motif: none\n  code: " + std::to_string(number) + "\n  introduced: " + year +
               "\n  cite:\n    - books: x\n";
  return records;
}

// A guide of one series: numbers and the years they were booked in; gives the places of those that are reported.
std::vector<std::size_t> reported(const std::vector<std::pair<int, std::string>>& series,
                                  const std::string& order = "N") {
  const Planted planted(recordsOf(series), {}, baseOf(order));
  std::vector<std::size_t> out;
  for (const auto& one : planted.report.findings)
    if (one.rule.id() == "code-out-of-order")
      out.push_back(std::stoul(one.record.substr(std::strlen("treatment:t"))));
  return out;
}

std::string offenders(const std::vector<std::pair<int, std::string>>& series,
                      const std::string& order = "N") {
  std::string out;
  for (std::size_t i : reported(series, order))
    out += (out.empty() ? "" : " ") + std::to_string(series[i].first);
  return out;
}

}  // namespace

TEST_CASE("a higher number booked before a lower one") {
  const Planted bad(booked("13", "1936"));
  CHECK(bad.found == "planted.yaml:6 error code-out-of-order");
  CHECK(bad.only().message ==
        "`LV-13-A/0` was booked 1936, before the lower number `LV-12-C/0` (1938): at least 1 year too early");
  CHECK(bad.only().records == std::vector<std::string>{"treatment:lv-13", "treatment:lv-12"});
  CHECK(bad.only().shortByDays == 366 - 365 + 365);
  CHECK(Planted(booked("13", "1938")).found == "");
  CHECK(Planted(booked("13", "1938-01-01")).found == "");  // not strict: the same day would do
  CHECK(Planted(booked("11", "1939")).found == "planted.yaml:6 error code-out-of-order");
  CHECK(Planted(booked("11", "1939")).only().message ==
        "`LV-11-A/0` was booked 1939, after the higher number `LV-12-C/0` (1938): at least 1 day too late");
  CHECK(Planted(booked("11", "1938")).found == "");
}

TEST_CASE("doubted and approximate dates, and dates left out, put nothing out of order") {
  CHECK(Planted(booked("13", "1936?")).found == "planted.yaml:6 warning date-at-face-value");
  CHECK(Planted(booked("13", "about 1936")).found == "planted.yaml:6 warning date-at-face-value");
  CHECK(Planted(booked("13", "{is: 1936, doubted: blotted}")).found == "");
  CHECK(Planted(booked("13", "unknown")).found == "");
  CHECK(Planted(booked("13", "by 1936")).found == "planted.yaml:6 error code-out-of-order");
}

TEST_CASE("rules that share an order are one series; a rule of its own order, or of none, is not") {
  // Serials of Jessamount count in the order of `decoration code`, within their prefix.
  CHECK(
      Planted(decoration("new", "jessamount", "barrow-of-blooms", "JM-050-C/1", "{edge-line: gold}", "1935"))
          .found == "planted.yaml:6 error code-out-of-order");
  CHECK(
      Planted(decoration("new", "jessamount", "barrow-of-blooms", "JM-050-C/1", "{edge-line: gold}", "1933"))
          .found == "");
  // JM-203 may be copied: it binds nothing.
  CHECK(
      Planted(decoration("new", "jessamount", "barrow-of-blooms", "JM-204-C/1", "{edge-line: gold}", "1936"))
          .found == "");
  CHECK(offenders({{1, "1920"}, {2, "1910"}}) == "2");
  CHECK(offenders({{1, "1920"}, {2, "1910"}}, "none") == "");
}

TEST_CASE("numbers under two prefixes do not order each other") {
  CHECK(Planted(decoration("new", "jessamount", "none", "QM-113-A/0", "{edge-line: none}", "1936") +
                "  for: quennock\n")
            .found == "");
  CHECK(Planted(decoration("new", "jessamount", "none", "QM-113-A/0", "{edge-line: none}", "1933") +
                "  for: quennock\n")
            .found == "planted.yaml:6 error code-out-of-order");
}

TEST_CASE("one wrong number among many is one finding, at that number") {
  std::vector<std::pair<int, std::string>> series;
  for (int i = 0; i < 40; ++i) series.emplace_back(100 + i, std::to_string(1900 + i));
  CHECK(offenders(series) == "");
  series[30].second = "1905";
  CHECK(offenders(series) == "130");
  series[30].second = "1930";
  series[5].second = "1935";
  CHECK(offenders(series) == "105");
  series[20].second = "1901";
  CHECK(offenders(series) == "105 120");
}

TEST_CASE("of two that contradict each other the later in the file") {
  CHECK(offenders({{1, "1920"}, {2, "1910"}}) == "2");
  CHECK(offenders({{2, "1910"}, {1, "1920"}}) == "1");
}

TEST_CASE(
    "every number that takes part in a contradiction is reported, and none that fits: compared with trying "
    "all pairs") {
  std::mt19937 random(20240214);
  for (int round = 0; round < 60; ++round) {
    const int size = 2 + static_cast<int>(random() % 14);
    std::vector<std::pair<int, std::string>> series;
    std::vector<std::pair<int, int>> spans;
    for (int i = 0; i < size; ++i) {
      const int from = 1900 + static_cast<int>(random() % 12);
      const int until = from + static_cast<int>(random() % 4);
      series.emplace_back(1 + static_cast<int>(random() % 9),
                          std::to_string(from) + "/" + std::to_string(until));
      spans.emplace_back(from, until);
    }
    std::set<std::size_t> told;
    const Planted planted(recordsOf(series), {}, baseOf("N"));
    for (const auto& one : planted.report.findings)
      for (const auto& fact : one.facts)
        if (fact.field == "introduced")
          told.insert(std::stoul(fact.record.substr(std::strlen("treatment:t"))));
    std::set<std::size_t> clashing;
    for (std::size_t i = 0; i < series.size(); ++i)
      for (std::size_t j = 0; j < series.size(); ++j)
        if (series[i].first < series[j].first && spans[j].second < spans[i].first) clashing.insert({i, j});
    CHECK(told == clashing);
  }
}

TEST_CASE("a series of thousands, wrong all over, takes no longer than it must") {
  std::vector<std::pair<int, std::string>> series;
  for (int i = 0; i < 20000; ++i) series.emplace_back(1 + i, std::to_string(1999 - i % 190));
  CHECK(offenders(series) != "");
}

TEST_CASE("what the rule's tables say of a number binds its own date") {
  auto old = [](const std::string& number, const std::string& introduced) {
    return Planted(decoration("new", "orrinstead", "none", number, "{edge-line: none}", introduced));
  };
  CHECK(old("1187", "1909").found == "");
  const Planted bad = old("1187", "1915");
  CHECK(bad.found == "planted.yaml:6 error code-out-of-order");
  CHECK(bad.only().message ==
        "`new` was introduced in 1915, but `new` has the number `1187` and by `on-date` of `old decoration "
        "number`, "
        "1187 is of 1909: at least 5 years short; 2 more contradictions with it");
  CHECK(bad.only().records.front() == "treatment:new");
  // Between 1187 (1909) and 1422 (1911).
  CHECK(old("1300", "1910").found == "");
  CHECK(old("1300", "1912").found == "planted.yaml:6 error code-out-of-order");
  CHECK(old("1300", "1908").found == "planted.yaml:6 error code-out-of-order");
  CHECK(old("1300", "1908~").found == "planted.yaml:6 warning date-at-face-value");
  CHECK(old("2880", "1926").found == "");
}

TEST_CASE("the first number of a date is strict, and the last one ends the series") {
  const std::string base =
      "- maker: m\n  codes:\n    - {rule: number, written: N, parts: {N: 1 to 9999}, order: N, first-of: "
      "{100: 1910}, last-of: {500: 1920}}\n"
      "  cite:\n    - books: x\n- shape: s\n  maker: m\n  cite:\n    - books: x\n- source: books\n  type: "
      "decoration-book\n  title: Books\n  date: 1800/1999\n";
  auto found = [&](const std::string& number, const std::string& year) {
    return Planted("- treatment: t\n  shape: s\n  motif: none\n  code: " + number +
                       "\n  introduced: " + year + "\n  cite:\n    - books: x\n",
                   {}, base)
        .found;
  };
  CHECK(found("99", "1909") == "");
  CHECK(found("99", "1910-01-01") == "planted.yaml:5 error code-out-of-order");
  CHECK(found("100", "1910") == "");
  CHECK(found("101", "1909") == "planted.yaml:5 error code-out-of-order");
  CHECK(found("500", "1920") == "");
  CHECK(found("500", "1921") == "planted.yaml:5 error code-out-of-order");
  CHECK(found("501", "1919") == "planted.yaml:4 error code-out-of-order");
}

TEST_CASE("a further number of a treatment was booked while that was offered") {
  const std::string later =
      "- treatment: new\n  shape: linnavere\n  motif: none\n  code: [LV-10-A/0, LV-40-A/0]\n  look: "
      "{edge-line: none, verge-line: none}\n  introduced: 1936\n  withdrawn: 1950\n  cite:\n    - books: x\n";
  CHECK(Planted(later).found == "");
  CHECK(Planted(later + booked("30", "1951")).found == "planted.yaml:15 error code-out-of-order");
  CHECK(Planted(later + booked("30", "1949")).found == "");
}

TEST_CASE("a registered number: what bears it was designed by then and made from then on") {
  const std::string office =
      "- maker: office\n  trade: office\n  codes:\n    - {rule: registered number, on: registered, written: "
      "N, parts: {N: 1 to 999999}, order: N, first-of: {351202: 1900, 368154: 1901}}\n  cite:\n    - books: "
      "x\n";
  auto shape = [&](const std::string& designed) {
    return Planted(office + "- shape: new\n  maker: unknown\n  registered: 360000\n  designed: " + designed +
                   "\n  cite:\n    - books: x\n")
        .found;
  };
  CHECK(shape("1899") == "");
  CHECK(shape("1900") == "");
  CHECK(shape("1901") == "planted.yaml:10 error code-out-of-order");
  auto made = [&](const std::string& day) {
    return Planted(office + "- specimen: new\n  registered: 360000\n  made: " + day + "\n").found;
  };
  CHECK(made("1925") == "");
  CHECK(made("1899").find("code-out-of-order") != std::string::npos);
}
