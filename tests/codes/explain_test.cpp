#include "tollivane.h"

using namespace saggar::codes;

TEST_CASE("the furthest place, and what was wanted there") {
  const Rule code = compiled(decorationCode());
  const Rule three = compiled(onJessamount());
  const Rule old = compiled(oldNumber());
  const Rule date = compiled(dateCode());
  const Rule week = compiled(batch());
  CHECK(code.explain("JM-203-C/1").fits);
  CHECK(code.explain("JM-203-C/1").message.empty());

  const Explanation two = three.explain("JM-61-C/1");
  CHECK(two.message == "after \"JM-\" three digits are wanted (SERIAL), here are two: \"61\"");
  CHECK(two.part == "SERIAL");
  CHECK(two.offset == 3);
  CHECK_FALSE(two.fits);

  CHECK(code.explain("TR-6").message ==
        "after \"TR-\" two or three digits are wanted (SERIAL), here is one: \"6\"");
  CHECK(code.explain("JM-2031-C/1").message ==
        "after \"JM-\" two or three digits are wanted (SERIAL), here are four: \"2031\"");
  CHECK(code.explain("JM-203").message == "after \"JM-203\" \"-\" is wanted, the code ends there");
  CHECK(code.explain("JM-203-F/1").message ==
        "after \"JM-203-\" one of A, B, C, D or E is wanted (GROUP), here is \"F\"");
  CHECK(code.explain("JM-203-F/1").offset == 7);
  CHECK(code.explain("JM-203-C-1").message == "after \"JM-203-C\" \"/\" is wanted, here is \"-\"");
  CHECK(code.explain("JM-203-C/1x").message ==
        "after \"JM-203-C/1\" the code is at its end, here follows \"x\"");
  CHECK(code.explain("JM").message == "after \"JM\" \"-\" is wanted, the code ends there");
  CHECK(code.explain("").message == "nothing is written there");
  CHECK(old.explain("2881").message == "a number from 1 to 2880 is wanted (NUMBER), here is \"2881\"");
  CHECK(old.explain("X-771").message == "a number from 1 to 2880 is wanted (NUMBER), here is \"X\"");
  CHECK(date.explain("U345").message ==
        "after \"U34\" a quarter from 1 to 4 is wanted (QUARTER), here is \"5\"");
  CHECK(date.explain("U34").message ==
        "after \"U34\" a quarter from 1 to 4 is wanted (QUARTER), the code ends there");
  CHECK(week.explain("5654").message == "after \"56\" a week from 01 to 53 is wanted (WEEK), here is \"54\"");
  CHECK(week.explain("5653").message == "1956 has no week 53: it ends with week 52 (ISO 8601)");
  CHECK(week.explain("5653").part == "WEEK");
  CHECK(week.explain("5653").offset == 2);
  CHECK(compiled(experimental()).explain("Y-771").message == "\"X-\" is wanted, here is \"Y\"");
  CHECK(code.explain(std::string(500, '1')).message == "a text of 500 signs is no code: 120 are the most");
  CHECK(code.explain("JM-\xFF").message == "the text has bytes that are not UTF-8");
}

TEST_CASE("of several rules the one that came furthest explains") {
  const Rule code = compiled(onJessamount());
  const Rule old = compiled(oldNumber());
  const Rule date = compiled(dateCode());
  const Rule* which = nullptr;
  const Explanation told = furthest({&old, &date, &code}, "JM-61-C/1", &which);
  CHECK(which == &code);
  CHECK(told.part == "SERIAL");
  CHECK(furthest({}, "JM-61-C/1").message.empty());
}

TEST_CASE("a text is explained if and only if it has no reading") {
  for (const RuleSpec& spec : {decorationCode(), oldNumber(), dateCode(), batch(), experimental()}) {
    const Rule rule = compiled(spec);
    for (const char* text :
         {"JM-203-C/1", "1187", "U341", "5614", "X-771", "TR-6", "5653", "??", "-", "?", "1-1-1/1"}) {
      CAPTURE(text);
      const Explanation told = rule.explain(text);
      CHECK(told.fits == !rule.read(text).all.empty());
      CHECK(told.fits == told.message.empty());
      CHECK(told.offset <= std::string_view(text).size());
    }
  }
}
