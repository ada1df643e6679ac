// How long a talk takes: given times, estimates, and where each segment begins.
#include "small_talk.h"

namespace saggar::talks::testing {
namespace {

TEST_CASE("a segment with a time takes it, whatever is said in it") {
  const Small one(
      talk("    - {title: A, time: 2:00, say: " + words(1300) + "}\n    - {title: B, time: 1:05:30}\n"));
  REQUIRE(one.times.segments.size() == 2);
  const SegmentTime& first = one.times.segments[0];
  CHECK(first.given);
  CHECK(first.start == 0);
  CHECK(first.length == 120);
  CHECK(first.words == 1300);
  CHECK(first.estimate == 600);
  CHECK(one.times.segments[1].start == 120);
  CHECK(one.times.segments[1].length == 3930);
  CHECK(one.times.total == 4050);
  CHECK(one.times.allGiven);
}

TEST_CASE("a segment without one: words at 130 a minute, and 8 seconds a piece") {
  const std::string pieces =
      "- {specimen: a, form: plate, seen: 2019}\n- {specimen: b, form: plate, seen: 2019}\n- {form: plate}\n";
  auto estimate = [&](const std::string& rest) {
    return Small(talk("    - {title: A" + rest + "}\n") + pieces).times.segments[0].length;
  };
  CHECK(estimate("") == 0);
  CHECK(estimate(", say: " + words(130)) == 60);
  CHECK(estimate(", say: " + words(13)) == 6);
  CHECK(estimate(", show: specimen:a") == 8);
  CHECK(estimate(", show: [specimen:a, specimen:b]") == 16);
  CHECK(estimate(", show: [specimen:a, specimen:b], say: " + words(130)) == 76);
  // Rounded to the nearest second: 1 word is 0.46 s, 2 words are 0.92 s, 3 words 1.38 s.
  CHECK(estimate(", say: " + words(1)) == 0);
  CHECK(estimate(", say: " + words(2)) == 1);
  CHECK(estimate(", say: " + words(3)) == 1);
}

TEST_CASE("times given and estimated run on, and what rests on an estimate is known") {
  const Small one(talk("    - {title: A, time: 1:00}\n    - {title: B, say: " + words(65) +
                       "}\n    - {title: C, time: 2:00}\n    - {title: D, time: 0}\n"));
  REQUIRE(one.times.segments.size() == 4);
  CHECK(one.times.segments[1].start == 60);
  CHECK(one.times.segments[1].startGiven);
  CHECK_FALSE(one.times.segments[1].given);
  CHECK(one.times.segments[2].start == 90);
  CHECK_FALSE(one.times.segments[2].startGiven);
  CHECK(one.times.segments[2].given);
  CHECK(one.times.segments[3].start == 210);
  CHECK(one.times.segments[3].length == 0);
  CHECK(one.times.total == 210);
  CHECK_FALSE(one.times.allGiven);
}

TEST_CASE("the pace: the talk's own, else the guide's, else 130") {
  const std::string segments = "    - {title: A, say: " + words(120) + "}\n";
  const std::string slow = "guide: G\nsettings: {pace: 100}\n";
  CHECK(Small(talk(segments)).times.pace == 130);
  CHECK(Small(talk(segments), slow).times.pace == 100);
  CHECK(Small(talk(segments), slow).times.total == 72);
  CHECK(Small(talk(segments, "  pace: 120\n"), slow).times.pace == 120);
  CHECK(Small(talk(segments, "  pace: 120\n"), slow).times.total == 60);
}

TEST_CASE("times and paces that nobody can mean give numbers all the same") {
  const Small endless(talk("    - {title: A, time: 99999999999}\n    - {title: B, time: 1:00}\n"));
  CHECK(endless.times.total <= std::int64_t{367} * 24 * 3600 + 60);
  CHECK(Small(talk("    - {title: A, say: a word}\n", "  pace: 0\n")).times.pace == 130);
  CHECK(Small(talk("    - {title: A, say: a word}\n", "  pace: -5\n")).times.pace >= 1);
  CHECK(Small("- {talk: t, title: T}\n").times.segments.empty());
  CHECK(Small("- {talk: t, title: T, segments: unknown}\n").times.total == 0);
  const Small titles("- {talk: t, title: T, segments: [Opening, {title: Close}]}\n");
  REQUIRE(titles.times.segments.size() == 2);
  CHECK(titles.times.segments[0].segment->find("title"_f)->text == "Opening");
}

TEST_CASE("seconds on a clock") {
  CHECK(asClock(0) == "0:00");
  CHECK(asClock(9) == "0:09");
  CHECK(asClock(65) == "1:05");
  CHECK(asClock(600) == "10:00");
  CHECK(asClock(3599) == "59:59");
  CHECK(asClock(3600) == "1:00:00");
  CHECK(asClock(3930) == "1:05:30");
}

}  // namespace
}  // namespace saggar::talks::testing
