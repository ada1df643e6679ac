#include <doctest/doctest.h>

#include <cmath>
#include <fstream>
#include <limits>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "base/text.h"
#include "render/pdf/line_breaking.h"

using namespace saggar;
using render::LineItem;

namespace {

std::vector<std::vector<std::string>> rowsOf(const std::string& name) {
  std::ifstream file(std::string(TEST_DATA) + "/" + name);
  REQUIRE(file.good());
  std::vector<std::vector<std::string>> out;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#')) continue;
    std::vector<std::string> cells;
    for (std::string_view cell : base::split(line, '\t')) cells.emplace_back(cell);
    out.push_back(std::move(cells));
  }
  out.erase(out.begin());  // the names of the columns
  return out;
}

double number(const std::string& text) {
  return text.empty() ? 0 : std::stod(text);
}

std::vector<LineItem> frogKing() {
  std::vector<LineItem> items;
  for (auto& cells : rowsOf("line-breaking-items.tsv")) {
    cells.resize(7);
    if (cells[1] == "box")
      items.push_back(LineItem::box(number(cells[2])));
    else if (cells[1] == "glue")
      items.push_back(LineItem::glue(number(cells[2]), number(cells[3]), number(cells[4])));
    else
      items.push_back(LineItem::breakHere(number(cells[2]), number(cells[5]), cells[6] == "1"));
  }
  return items;
}

// The cheapest of all ways to break, by trying every one; the demerits are written out anew from the paper.
struct Exhaustive {
  const std::vector<LineItem>& items;
  const render::BreakSettings& settings;
  double best = std::numeric_limits<double>::infinity();
  std::vector<std::uint32_t> way = {}, bestWay = {};

  bool legal(std::size_t i) const {
    if (items[i].kind == LineItem::Kind::penalty) return items[i].penalty < LineItem::kNever;
    return items[i].kind == LineItem::Kind::glue && i > 0 && items[i - 1].kind == LineItem::Kind::box;
  }
  void search(std::size_t from, double sum, int fitnessBefore, bool flaggedBefore) {
    std::size_t start = from;
    while (start < items.size() && items[start].kind != LineItem::Kind::box &&
           !(items[start].kind == LineItem::Kind::penalty && items[start].penalty <= LineItem::kForced))
      ++start;
    for (std::size_t to = start; to < items.size(); ++to) {
      if (!legal(to) || (to <= from && from > 0)) continue;
      const bool forced = items[to].kind == LineItem::Kind::penalty && items[to].penalty <= LineItem::kForced;
      double width = 0, stretch = 0, shrink = 0;
      for (std::size_t i = start; i < to; ++i) {
        if (items[i].kind == LineItem::Kind::penalty) continue;
        width += items[i].width;
        stretch += items[i].stretch;
        shrink += items[i].shrink;
      }
      if (items[to].kind == LineItem::Kind::penalty) width += items[to].width;
      const double measure = way.empty() ? settings.firstLine : settings.otherLines;
      double r = 0;
      if (std::fabs(measure - width) > 1e-4) {
        if (measure > width)
          r = stretch > 0 ? (measure - width) / stretch : 1e12;
        else
          r = shrink > 0 ? (measure - width) / shrink : -1e12;
      }
      if (r >= -1 && r <= settings.tolerance) {
        const double bad = 1 + 100 * std::pow(std::fabs(r), 3);
        const double penalty = items[to].kind == LineItem::Kind::penalty ? items[to].penalty : 0;
        double cost = forced         ? bad * bad
                      : penalty >= 0 ? (bad + penalty) * (bad + penalty)
                                     : bad * bad - penalty * penalty;
        const bool flagged = items[to].kind == LineItem::Kind::penalty && items[to].flagged;
        if (flagged && flaggedBefore) cost += settings.twoHyphens;
        const int fitness = r < -0.5 ? 0 : r <= 0.5 ? 1 : r <= 1 ? 2 : 3;
        if (std::abs(fitness - fitnessBefore) > 1) cost += settings.mismatch;
        way.push_back(static_cast<std::uint32_t>(to));
        if (to + 1 == items.size()) {
          if (sum + cost < best) {
            best = sum + cost;
            bestWay = way;
          }
        } else {
          search(to, sum + cost, fitness, flagged);
        }
        way.pop_back();
      }
      if (forced) break;
    }
  }
};

std::vector<LineItem> randomParagraph(std::mt19937& random, int words) {
  std::vector<LineItem> items;
  auto pick = [&](int most) { return static_cast<int>(random() % static_cast<unsigned>(most)); };
  for (int i = 0; i < words; ++i) {
    if (i > 0) items.push_back(LineItem::glue(6, 2 + pick(3), 1 + pick(2)));
    items.push_back(LineItem::box(10 + pick(60)));
    if (pick(3) == 0) {
      items.push_back(LineItem::breakHere(6, 50, true));
      items.push_back(LineItem::box(10 + pick(30)));
    }
    if (pick(9) == 0) items.push_back(LineItem::breakHere(0, pick(200) - 100, false));
  }
  items.push_back(LineItem::breakHere(0, LineItem::kNever, false));
  items.push_back(LineItem::glue(0, LineItem::kFill, 0));
  items.push_back(LineItem::breakHere(0, LineItem::kForced, false));
  return items;
}

}  // namespace

TEST_CASE("the published paragraph breaks where it was published to break") {
  const auto items = frogKing();
  REQUIRE(items.size() == 263);
  const auto cases = rowsOf("line-breaking-cases.tsv");
  REQUIRE(cases.size() == 4);
  for (const auto& one : cases) {
    CAPTURE(one[0]);
    render::BreakSettings settings;
    settings.firstLine = number(one[1]);
    settings.otherLines = number(one[2]);
    settings.tolerance = number(one[3]);
    settings.twoHyphens = number(one[4]);
    settings.mismatch = number(one[5]);
    settings.looseness = std::stoi(one[6]);
    const render::Breaks breaks = render::breakLines(items, settings);
    std::vector<std::uint32_t> expected;
    for (std::string_view at : base::split(one[8], ' '))
      if (!at.empty()) expected.push_back(static_cast<std::uint32_t>(std::stoul(std::string(at))));
    CHECK(breaks.at == expected);
    CHECK(breaks.at.size() == std::stoul(one[7]));
    CHECK(breaks.demerits == doctest::Approx(number(one[10])).epsilon(0.0001));
    const auto ratios = base::split(one[9], ' ');
    REQUIRE(ratios.size() == breaks.ratios.size());
    for (std::size_t i = 0; i < ratios.size(); ++i)
      CHECK(std::fabs(breaks.ratios[i] - std::stod(std::string(ratios[i]))) < 0.0006);
  }
}

TEST_CASE("the published paragraph set one line longer than its best") {
  // Digital Typography p. 113 (measure 500, looseness +1), source as in line-breaking-cases.tsv.
  render::BreakSettings settings;
  settings.firstLine = 482;
  settings.otherLines = 500;
  settings.tolerance = 2.5;
  settings.looseness = 1;
  const auto breaks = render::breakLines(frogKing(), settings);
  CHECK(breaks.at == std::vector<std::uint32_t>{21, 47, 77, 101, 129, 158, 182, 208, 234, 258, 262});
  CHECK(breaks.demerits == doctest::Approx(2242318.0).epsilon(0.0001));
}

TEST_CASE("a measure too small for the tolerance has no way, and one is found anyhow") {
  const auto items = frogKing();
  render::BreakSettings settings;
  settings.firstLine = 82;
  settings.otherLines = 100;
  settings.tolerance = 1;
  CHECK(render::breakLines(items, settings).at.empty());
  const auto anyhow = render::breakLinesAnyhow(items, settings);
  REQUIRE_FALSE(anyhow.at.empty());
  CHECK(anyhow.at.back() == items.size() - 1);
  settings.firstLine = settings.otherLines = 3;  // narrower than any word
  CHECK(render::breakLinesAnyhow(items, settings).at.back() == items.size() - 1);
  settings.firstLine = settings.otherLines = 0;
  CHECK(render::breakLinesAnyhow(items, settings).at.back() == items.size() - 1);
}

TEST_CASE("no way is cheaper than the one found, tried against every way there is") {
  std::mt19937 random(20260101);
  int solved = 0;
  for (int round = 0; round < 400; ++round) {
    const auto items = randomParagraph(random, 4 + static_cast<int>(random() % 12));
    render::BreakSettings settings;
    settings.otherLines = 120 + static_cast<int>(random() % 120);
    settings.firstLine = settings.otherLines - (random() % 2 ? 18 : 0);
    settings.tolerance = 1 + static_cast<int>(random() % 4);
    Exhaustive all{items, settings};
    all.search(0, 0, 1, false);
    const auto found = render::breakLines(items, settings);
    CAPTURE(round);
    CHECK(found.at.empty() == all.bestWay.empty());
    if (all.bestWay.empty()) continue;
    ++solved;
    CHECK(found.demerits == doctest::Approx(all.best));
  }
  CHECK(solved > 100);
}

TEST_CASE("ragged lines are as even as can be and never too wide") {
  std::vector<LineItem> items;
  for (int i = 0; i < 7; ++i) {
    if (i > 0) items.push_back(LineItem::glue(5, 0, 0));
    items.push_back(LineItem::box(30));
  }
  items.push_back(LineItem::breakHere(0, LineItem::kNever, false));
  items.push_back(LineItem::glue(0, LineItem::kFill, 0));
  items.push_back(LineItem::breakHere(0, LineItem::kForced, false));
  render::BreakSettings settings;
  settings.firstLine = settings.otherLines = 140;
  settings.ragged = 40;
  const auto breaks = render::breakLinesAnyhow(items, settings);
  CHECK(breaks.at.size() == 2);
}

TEST_CASE("nothing gives nothing") {
  CHECK(render::breakLines({}, {}).at.empty());
  CHECK(render::breakLinesAnyhow({}, {}).at.empty());
}
