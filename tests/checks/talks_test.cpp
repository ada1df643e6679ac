// Times of talks against their budget, and the order of their segments.
#include "small_guide.h"

using namespace saggar::checks::testing;

namespace {

std::string talk(const std::string& budget, const std::string& segments, const std::string& more = "") {
  return "- talk: t\n  title: T\n  budget: " + budget + "\n  segments:\n" + segments + more;
}

const std::string kTwo = "    - {title: Opening, time: 2:00}\n    - {title: Six marks, time: 20:00}\n";

std::string words(int count) {
  std::string all;
  for (int i = 0; i < count; ++i) all += "word ";
  return all;
}

}  // namespace

TEST_CASE("segments that all have a time, and their sum") {
  silent(talk("22:00", kTwo));
  caught(talk("24:00", kTwo), "3:11", "talk-sum");
  caught(talk("20:00", kTwo), "3:11", "talk-sum");
  const Small bad(talk("24:00", kTwo));
  CHECK(bad.one().message == "the segments of `t` add up to 22:00, the budget is 24:00");
  CHECK(bad.one().hint == "there are 2:00 to spare: give them to a segment, or lower the budget");
  REQUIRE(bad.one().related.size() == 2);
  CHECK(bad.one().related[0].message == "`Opening` takes 2:00");
  CHECK(Small(talk("20:00", kTwo)).one().hint == "shorten a segment by 2:00, or raise the budget");
  CHECK(Small(talk("1:22:00", kTwo)).one().message ==
        "the segments of `t` add up to 22:00, the budget is 1:22:00");
}

TEST_CASE("a talk without a budget or without segments has no sum") {
  silent("- talk: t\n  title: T\n  segments:\n" + kTwo);
  silent("- talk: t\n  title: T\n  budget: unknown\n  segments:\n" + kTwo);
  silent("- {talk: t, title: T, budget: 10:00, segments: unknown}\n");
}

TEST_CASE("a segment without a time is estimated by words and pieces, and may leave room") {
  // 130 words a minute, and 8 seconds a piece.
  auto closing = [](const std::string& rest) {
    return talk("10:00", "    - {title: A, time: 9:00}\n    - {title: B" + rest + "}\n");
  };
  silent(closing(", say: " + words(130)));
  caught(closing(", say: " + words(140)), "3:11", "talk-over-budget");
  const Small bad(closing(", say: " + words(195)));
  CHECK(bad.one().message == "given and estimated times of `t` come to 10:30, the budget is 10:00");
  CHECK(bad.one().related[1].message == "`B` takes 1:30 (estimated)");
  CHECK(bad.one().hint ==
        "shorten what is said, or drop a segment that is `keep: may`; estimates take 130 words a minute and "
        "8 seconds a piece");
  silent(closing(""));
  const std::string piece = "- {specimen: p, form: plate, seen: 2019}\n- {form: plate}\n";
  CHECK(Small(closing(", show: p, say: " + words(115)) + piece).found == "3:11 talk-over-budget");
  CHECK(Small(closing(", show: specimen:p, say: " + words(112)) + piece).found == "");
}

TEST_CASE("the pace of the talk goes before that of the guide") {
  const std::string segments =
      "    - {title: A, time: 9:00}\n    - title: B\n      say: " + words(130) + "\n";
  CHECK(Small(talk("10:00", segments, "  pace: 120\n")).found == "3:11 talk-over-budget");
  const FilesOfGuide slow{{"records.yaml", talk("10:00", segments)},
                          {"guide.yaml", "guide: G\nsettings: {pace: 120}\n"}};
  CHECK(Small(slow).found == "3:11 talk-over-budget");
  const FilesOfGuide own{{"records.yaml", talk("10:00", segments, "  pace: 140\n")},
                         {"guide.yaml", "guide: G\nsettings: {pace: 120}\n"}};
  silent(own);
}

TEST_CASE("segments in the order in which one builds on the other") {
  const std::string first = "    - {title: Prefix and serial}\n";
  const std::string then = "    - title: Copied serials\n      after: Prefix and serial\n";
  const std::string head = "- talk: t\n  title: T\n  segments:\n";
  silent(head + first + then);
  caught(head + then + first, "5:14", "talk-order");
  CHECK(Small(head + then + first).one().message ==
        "the segment `Copied serials` is to come after `Prefix and serial`, which comes only at 0:00");
  CHECK(Small(head + then).one().message ==
        "the segment `Copied serials` is to come after `Prefix and serial`, and no segment has that title");
  CHECK(Small(head + then + "    - {title: Prefix and serials}\n").one().hint ==
        "did you mean `Prefix and serials`?");
  CHECK(Small(head + "    - title: Opening\n      after: Opening\n").one().message ==
        "the segment `Opening` is to come after itself");
  CHECK(Small(head + first +
              "    - {title: Numbers}\n    - title: X\n      after: [Numbers, Prefix and serial, Nobody]\n")
            .found == "7:43 talk-order");
}
