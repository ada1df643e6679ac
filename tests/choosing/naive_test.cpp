#include "naive.h"

#include "guide.h"

// Random conditions on random records, answered twice: by the room, and by the second implementation.
using namespace saggar;
using namespace saggar::choosing;
using namespace saggar::choosing::testing;

TEST_CASE("random conditions are answered as the second implementation answers them") {
  Random random(20260101);
  int counts[3] = {0, 0, 0};
  for (int round = 0; round < 12; ++round) {
    std::string records;
    const World world = anyWorld(random, records);
    Guide guide(records);
    REQUIRE(guide.faults() == "");
    for (int asked = 0; asked < 150; ++asked) {
      const std::string id = "t" + std::to_string(random.below(12));
      const Asked one = mapping(random, world, id, 3);
      CAPTURE(records);
      CAPTURE(one.text);
      CAPTURE(id);
      static const char* words[] = {"no", "maybe", "yes"};
      CHECK(guide.ask(one.text, "treatment:" + id) == words[one.answer]);
      ++counts[one.answer];
    }
  }
  for (int count : counts) CHECK(count > 100);
}

TEST_CASE("any text at all gives a path or a problem, a condition or findings") {
  Guide guide(saggar::choosing::testing::kRecords);
  Random random(7);
  const std::vector<std::string> bits = {
      "shape", "motif", ".",     "look", "edge", "more", "id", "treatment", "made-in", "forms", "values",
      "seen",  "how",   "marks", "gold", "not",  "any",  "..", "",          " ",       "é",     "form"};
  int good = 0;
  for (int i = 0; i < 4000; ++i) {
    std::string text;
    const int length = 1 + random.below(6);
    for (int j = 0; j < length; ++j)
      text += bits[static_cast<std::size_t>(random.below(static_cast<int>(bits.size())))];
    PathProblem problem;
    const Kind kind = static_cast<Kind>(random.below(static_cast<int>(records::kKindCount)));
    const Path path = Path::compile(text, kind, guide.collection, problem, random.oneIn(2));
    if (path.empty()) {
      CHECK(!problem.message.empty());
      CHECK(!problem.hint.empty());
      CHECK(problem.at + problem.length <= text.size() + 1);
      continue;
    }
    ++good;
    for (RecordIndex record : guide.collection.ofKind(kind))
      CHECK(!path.from(record, guide.collection).empty());
  }
  CHECK(good > 100);
}
