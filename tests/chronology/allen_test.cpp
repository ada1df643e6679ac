// Allen's relations between spans: what is known of the first and the third of three, when it is known how each stands
// to the second. allen-compositions.tsv names the paper, and what of it is from memory.
#include <array>
#include <map>
#include <set>

#include "../codes/making.h"
#include "chronology/precedence.h"
#include "chronology/suspects.h"
#include "reasoned.h"

using namespace saggar;
using namespace saggar::chronology;
using saggar::chronology::testing::Reasoned;

namespace {

// How the ends of two intervals stand: begin to begin, begin to end, end to begin, end to end; -1 is earlier.
using Ends = std::array<int, 4>;
struct Relation {
  std::string sign;
  Ends ends;
};
const std::vector<Relation> kRelations = {
    {"<", {-1, -1, -1, -1}}, {">", {1, 1, 1, 1}},   {"d", {1, -1, 1, -1}},  {"di", {-1, -1, 1, 1}},
    {"o", {-1, -1, 1, -1}},  {"oi", {1, -1, 1, 1}}, {"m", {-1, -1, 0, -1}}, {"mi", {1, 0, 1, 1}},
    {"s", {0, -1, 1, -1}},   {"si", {0, -1, 1, 1}}, {"f", {1, -1, 1, 0}},   {"fi", {-1, -1, 1, 0}},
    {"=", {0, -1, 1, 0}}};

using Cell = std::set<std::string>;
using Table = std::map<std::pair<std::string, std::string>, Cell>;

Table readTable() {
  const auto rows = codes::rowsOf("allen-compositions.tsv");  // without its head
  REQUIRE(rows.size() == kRelations.size());
  Table table;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    REQUIRE(rows[i].size() == kRelations.size() + 1);
    CHECK(rows[i][0] == kRelations[i].sign);
    for (std::size_t j = 0; j < kRelations.size(); ++j) {
      Cell& cell = table[{kRelations[i].sign, kRelations[j].sign}];
      for (const std::string_view sign : base::split(rows[i][j + 1], ' ')) cell.emplace(sign);
      if (!cell.contains("any")) continue;
      cell.clear();
      for (const Relation& one : kRelations) cell.insert(one.sign);
    }
  }
  return table;
}

struct Interval {
  int begin, end;
};
int compared(int a, int b) {
  return a < b ? -1 : a > b ? 1 : 0;
}
std::string relationOf(const Interval& a, const Interval& b) {
  const Ends ends{compared(a.begin, b.begin), compared(a.begin, b.end), compared(a.end, b.begin),
                  compared(a.end, b.end)};
  for (const Relation& one : kRelations)
    if (one.ends == ends) return one.sign;
  FAIL("no relation");
  return {};
}

std::string converse(const std::string& sign) {
  return sign == "<"        ? ">"
         : sign == ">"      ? "<"
         : sign == "="      ? "="
         : sign.size() == 2 ? sign.substr(0, 1)
                            : sign + 'i';
}

// Spans as points of a network, each at least a day long; relations as edges with a day's distance.
struct Spans {
  Network network;
  Node begin[3], end[3];

  Spans() {
    for (int i = 0; i < 3; ++i) {
      begin[i] = network.addNode();
      end[i] = network.addNode();
      network.atLeast(begin[i], end[i], 1, kNoFact);
    }
  }
  void state(int a, int b, const Ends& ends) {
    const FactId fact = network.addFact(0);
    const Node from[] = {begin[a], begin[a], end[a], end[a]};
    const Node to[] = {begin[b], end[b], begin[b], end[b]};
    for (int i = 0; i < 4; ++i) {
      if (ends[i] <= 0) network.atLeast(from[i], to[i], ends[i] == 0 ? 0 : 1, fact);
      if (ends[i] >= 0) network.atLeast(to[i], from[i], ends[i] == 0 ? 0 : 1, fact);
    }
  }
  bool canBe() {
    network.finish();
    return suspectsOf(network, network.all()).none();
  }
};

// Marks of which records state how their years of use stand, in the record language: `before` is a day or more; the same
// day is stated by two marks that lasted from the one event to the other, and from the other to the one.
class Marks {
 public:
  Marks() {
    for (const std::string mark : {"a", "b", "c"}) {
      add(mark, "");
      before(mark + ".used.from", mark + ".used.until");
    }
  }
  void state(const std::string& a, const std::string& b, const Ends& ends) {
    const std::string from[] = {a + ".used.from", a + ".used.from", a + ".used.until", a + ".used.until"};
    const std::string to[] = {b + ".used.from", b + ".used.until", b + ".used.from", b + ".used.until"};
    for (int i = 0; i < 4; ++i) {
      if (ends[i] < 0) before(from[i], to[i]);
      if (ends[i] > 0) before(to[i], from[i]);
      if (ends[i] == 0) lasted(from[i], to[i]), lasted(to[i], from[i]);
    }
  }
  std::string text = "- {source: books, title: Order books, type: trade-notice}\n";

 private:
  std::string fresh() { return "x" + std::to_string(++count_); }
  void add(const std::string& id, const std::string& fields) {
    text += "- mark: " + id + '\n' + fields + "  cite: books\n";
  }
  void lasted(const std::string& from, const std::string& until) {
    add(fresh(), "  used: mark:" + from + "/mark:" + until + '\n');
  }
  void before(const std::string& earlier, const std::string& later) {
    add(fresh(), "  used: mark:" + earlier + "/..\n  before: mark:" + later + '\n');
  }
  int count_ = 0;
};

// The relations that the order of two marks' ends leaves open, as proven or as likely.
Cell admitted(const Reasoned& guide, const Precedences& order, bool likely) {
  std::array<std::set<int>, 4> open;
  const auto node = [&](const char* mark, EventEnd end) { return guide.node(mark, "used"_f, end); };
  for (std::size_t i = 0; i < 4; ++i) {
    const Node a = node("mark:a", i < 2 ? EventEnd::from : EventEnd::until);
    const Node c = node("mark:c", i % 2 == 0 ? EventEnd::from : EventEnd::until);
    const Precedence ac = order.of(a, c);
    const WhichFirst answer = likely ? ac.likely : ac.answer;
    if (answer == WhichFirst::first) open[i] = {-1};
    if (answer == WhichFirst::second) open[i] = {1};
    if (answer == WhichFirst::sameDay) open[i] = {0};
    if (answer != WhichFirst::undecided) continue;
    open[i] = {-1, 0, 1};
    if (ac.notFirst) open[i].erase(-1);
    if (order.of(c, a).notFirst) open[i].erase(1);
  }
  Cell cell;
  for (const Relation& one : kRelations) {
    bool fits = true;
    for (std::size_t i = 0; i < 4; ++i) fits &= open[i].contains(one.ends[i]);
    if (fits) cell.insert(one.sign);
  }
  return cell;
}

}  // namespace

TEST_CASE("Allen's table: 169 cells, 409 entries, as every three intervals give it, and its own converse") {
  const Table table = readTable();
  std::size_t entries = 0;
  for (const auto& [pair, cell] : table) {
    entries += cell.size();
    // The converse of a composition is the composition of the converses, the other way round.
    Cell turned;
    for (const std::string& sign : cell) turned.insert(converse(sign));
    CHECK(turned == table.at({converse(pair.second), converse(pair.first)}));
  }
  CHECK(table.size() == 169);
  CHECK(entries == 409);
  for (const Relation& one : kRelations) {
    CHECK(table.at({"=", one.sign}) == Cell{one.sign});
    CHECK(table.at({one.sign, converse(one.sign)}).contains("="));
  }
  // Six ends are at most six different numbers.
  std::vector<Interval> intervals;
  for (int begin = 0; begin < 6; ++begin)
    for (int end = begin + 1; end < 6; ++end) intervals.push_back({begin, end});
  Table counted;
  for (const Interval& a : intervals)
    for (const Interval& b : intervals)
      for (const Interval& c : intervals)
        counted[{relationOf(a, b), relationOf(b, c)}].insert(relationOf(a, c));
  CHECK(counted == table);
}

TEST_CASE("Allen's table: the network admits exactly its entries") {
  for (const auto& [pair, cell] : readTable()) {
    CAPTURE(pair.first + ' ' + pair.second);
    Cell admits;
    for (const Relation& third : kRelations) {
      Spans spans;
      for (const Relation& one : kRelations) {
        if (one.sign == pair.first) spans.state(0, 1, one.ends);
        if (one.sign == pair.second) spans.state(1, 2, one.ends);
      }
      spans.state(0, 2, third.ends);
      if (spans.canBe()) admits.insert(third.sign);
    }
    CHECK(admits == cell);
  }
}

TEST_CASE("Allen's table: which came first, of marks whose records state how they stand") {
  for (const auto& [pair, cell] : readTable()) {
    CAPTURE(pair.first + ' ' + pair.second);
    Marks marks;
    for (const Relation& one : kRelations) {
      if (one.sign == pair.first) marks.state("a", "b", one.ends);
      if (one.sign == pair.second) marks.state("b", "c", one.ends);
    }
    const Reasoned guide(marks.text);
    REQUIRE(guide.findings.empty());
    REQUIRE(guide.chronology.clashes().empty());
    const Precedences order(guide.chronology);
    CHECK(admitted(guide, order, false) == cell);
    CHECK(admitted(guide, order, true) == cell);
  }
}
