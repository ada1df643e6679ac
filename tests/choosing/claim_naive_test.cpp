#include "naive.h"
#include "tested.h"

// Random tests of random records, run twice: by the room, and by a second implementation that answers for each record
// by itself and then says what the semantics say.
using namespace saggar;
using namespace saggar::choosing;
using namespace saggar::choosing::testing;

namespace {

struct Slow {
  std::string outcome;
  std::size_t looked = 0, fitting = 0, most = 0;
};

// Each record's answers: 0 no, 1 maybe, 2 yes.
struct Answers {
  int where, has;
  bool pieceAgainst;  // a piece of it is, and has not
};

Slow slowly(const std::string& way, const std::vector<Answers>& all, int low, int high) {
  Slow slow;
  bool noneBoth = true, someBoth = false, allHave = true, someLacks = false;
  for (const Answers& one : all) {
    slow.looked += one.where == 2 ? 1 : 0;
    slow.fitting += one.where == 2 && one.has == 2 ? 1 : 0;
    slow.most += one.where != 0 && one.has != 0 ? 1 : 0;
    someBoth |= one.where == 2 && one.has == 2;
    noneBoth &= one.where == 0 || one.has == 0;
    allHave &= one.where == 0 || one.has == 2;
    someLacks |= one.where == 2 && one.has == 0;
    someLacks |= one.where != 0 && one.pieceAgainst;
  }
  if (way == "every") slow.outcome = someLacks ? "broken" : allHave ? "holds" : "open";
  if (way == "no") slow.outcome = someBoth ? "broken" : noneBoth ? "holds" : "open";
  if (way == "some") slow.outcome = someBoth ? "holds" : noneBoth ? "broken" : "open";
  if (way == "count") {
    bool every = true, none = true;
    for (std::size_t number = slow.fitting; number <= slow.most; ++number) {
      const bool fits = static_cast<int>(number) >= low && static_cast<int>(number) <= high;
      every &= fits;
      none &= !fits;
    }
    slow.outcome = every ? "holds" : none ? "broken" : "open";
  }
  return slow;
}

}  // namespace

TEST_CASE("random tests come out as the second implementation says") {
  Random random(20260102);
  std::map<std::string, int> came;
  for (int round = 0; round < 40; ++round) {
    std::string records;
    World world = anyWorld(random, records);
    addPieces(random, world, records);
    std::vector<Slow> expected;
    for (int i = 0; i < 20; ++i) {
      static const std::vector<std::string> ways = {"every", "no", "some", "count"};
      const std::string& way = ways[static_cast<std::size_t>(random.below(4))];
      const int low = random.below(5);
      const int high = low + random.below(4);
      const bool hasWhere = !random.oneIn(5);
      const bool hasHas = way == "every" || !random.oneIn(3);
      const int depth = random.below(3);
      // The same text for each record: what is drawn does not depend on the record.
      std::vector<Answers> answers;
      std::string where, has;
      Random after = random;
      for (int record = 0; record < 12; ++record) {
        const std::string id = "t" + std::to_string(record);
        after = random;
        const Asked whereAsked = mapping(after, world, id, depth);
        const Asked hasAsked = mapping(after, world, id, depth);
        where = whereAsked.text;
        has = hasAsked.text;
        bool against = false;
        for (const Said& piece : world.pieces[id]) {
          Random again = random;
          const View whole{piece, false};
          const View news{piece, true};
          const int pieceWhere = mapping(again, world, id, depth, &whole).answer;
          const int pieceHas = mapping(again, world, id, depth, &news).answer;
          // A piece without a look shows nothing.
          against |= piece.what != Said::absent && (!hasWhere || pieceWhere == 2) && hasHas && pieceHas == 0;
        }
        answers.push_back({hasWhere ? whereAsked.answer : 2, hasHas ? hasAsked.answer : 2, against});
      }
      random = after;
      records +=
          "- claim: c" + std::to_string(i) + "\n  says: Something.\n  test:\n    - " + way + ": treatment\n" +
          (hasWhere ? "      where: " + where + '\n' : "") + (hasHas ? "      has: " + has + '\n' : "") +
          (way == "count" ? "      makes: " + std::to_string(low) + " to " + std::to_string(high) + '\n'
                          : "");
      expected.push_back(slowly(way, answers, low, high));
    }
    const Tested tested(records);
    REQUIRE(tested.guide.faults() == "");
    for (std::size_t i = 0; i < expected.size(); ++i) {
      CAPTURE(records);
      CAPTURE(i);
      const TestResult& result = tested.test("c" + std::to_string(i));
      CHECK(Tested::word(result.outcome) == expected[i].outcome);
      CHECK(result.looked == expected[i].looked);
      CHECK(result.fitting == expected[i].fitting);
      CHECK(result.most == expected[i].most);
      ++came[std::string(word(result.way)) + ' ' + Tested::word(result.outcome)];
      // Whatever breaks it or leaves it open is named, with what speaks.
      const bool open = result.outcome == Outcome::open;
      for (const TestedRecord& one : result.records)
        CHECK(std::any_of(one.facts.begin(), one.facts.end(),
                          [](const TestFact& fact) { return fact.missing; }) == open);
    }
  }
  for (const char* way : {"every", "no", "some", "count"})
    for (const char* outcome : {"holds", "open", "broken"}) {
      CAPTURE(way);
      CAPTURE(outcome);
      CHECK(came[std::string(way) + ' ' + outcome] > 5);
    }
}
