#include "codes/pattern.h"
#include "tollivane.h"

using namespace saggar::codes;

namespace {

RuleSpec patterned(std::string pattern, std::vector<NamedPart> named) {
  RuleSpec spec;
  spec.name = "patterned";
  spec.pattern = std::move(pattern);
  spec.parts = std::move(named);
  return spec;
}

}  // namespace

TEST_CASE("a pattern's named groups are the parts") {
  RuleSpec spec =
      patterned("(?P<WORKS>[FUT])(?P<YY>\\d\\d)(?P<QUARTER>[1-4])(?P<CIPHER>[a-z]*)",
                {part("WORKS", "maker.works.letter"), part("YY", "year 19YY"), part("QUARTER", "quarter")});
  const Rule rule = compiled(spec);
  const Readings readings = rule.read("u341");
  REQUIRE(readings.all.size() == 1);
  CHECK(days(readings.all[0].when) == "1934-01-01 to 1934-03-31");
  CHECK(readings.all[0].paths.at(0).metBy("U"));
  CHECK(readings.all[0].parts.size() == 3);
  CHECK(rule.read("U341xy").all.at(0).part("CIPHER")->text == "xy");
  CHECK(rule.read("U341xy").all.at(0).part("CIPHER")->offset == 4);
  CHECK(rule.read("X341").all.empty());
  CHECK(rule.read("U3411").all.empty());
  CHECK(rule.read("U3?1").all.size() == 10);
  CHECK(rule.read("?341").all.size() == 1);
  CHECK(rule.explain("U341").fits);
  CHECK(rule.explain("U345").message ==
        "\"U345\" does not have the form that the pattern of this rule wants");
}

TEST_CASE("a group's text must be what its part may be") {
  RuleSpec spec =
      patterned("(?P<YY>\\d\\d)(?P<WEEK>\\d\\d)", {part("YY", "year 19YY"), part("WEEK", "week")});
  const Rule rule = compiled(spec);
  CHECK(rule.read("5614").all.size() == 1);
  CHECK(rule.read("5654").all.empty());
  CHECK(rule.explain("5654").message == "a week from 01 to 53 is wanted (WEEK), here is \"54\"");
  CHECK(rule.explain("5653").message == "1956 has no week 53: it ends with week 52 (ISO 8601)");
  spec.order = order("WEEK");
  CHECK(problemsOf(spec).at(0).message == "`WEEK` does not count: it is no number");
}

TEST_CASE("order and the part that stands alone under a pattern") {
  RuleSpec spec =
      patterned("(?P<PREFIX>[A-Z]{2})-(?P<SERIAL>[0-9]{2,3})(-.*)?", {part("SERIAL", "2 or 3 digits")});
  spec.order = order("SERIAL within PREFIX");
  spec.alone = "PREFIX-SERIAL";
  const Rule rule = compiled(spec);
  const Readings readings = rule.read(
      "JM\xE2\x80\x93"
      "203-C/1");
  REQUIRE(readings.all.size() == 1);
  CHECK(readings.all[0].number == CodeNumber{"jm", 203});
  CHECK(readings.all[0].alone == "jm-203");
  CHECK(readings.all[0].parts[1].offset == 5);
  CHECK(readings.all[0].key == "jm-203-c/1");
  CHECK(rule.readAlone("jm-203").all.size() == 1);
}

TEST_CASE("a broken pattern is told in an author's words") {
  const auto problem = [](std::string pattern, std::vector<NamedPart> named = {}) {
    const std::vector<Problem> problems = problemsOf(patterned(std::move(pattern), std::move(named)));
    return problems.empty() ? std::string("fine") : problems[0].message;
  };
  CHECK(problem("[0-9") == "the pattern is broken: a `[` is not closed, at `[0-9`");
  CHECK(problem("(a") == "the pattern is broken: a `(` or `)` has no partner, at `(a`");
  CHECK(problem("*a").starts_with("the pattern is broken: there is nothing to repeat"));
  CHECK(problem("(?<N>a)").find("a named group is written `(?P<NAME>...)`") != std::string::npos);
  CHECK(problem("a{1001}").starts_with("the pattern is broken: a repetition is too long"));
  CHECK(problem("((a{100}){100}){100}").starts_with("the pattern is broken"));
  CHECK(problem("") == "the pattern is empty");
  CHECK(problem(std::string(1001, 'a')) == "the pattern is too long");
  CHECK(problem("a\xFF") == "the pattern is broken: it is not UTF-8");
  CHECK(problem("(?P<N>\\d)", {part("M", "1 digit")}) == "the pattern has no group called `M`");
}

TEST_CASE("the pattern that also takes question marks") {
  CHECK(withQuestionMarks("a[bc]\\d") == "(?:a|\\?)(?:[bc]|\\?)(?:\\d|\\?)");
  CHECK(withQuestionMarks("(?P<N>x{2,3})+") == "(?P<N>(?:x|\\?){2,3})+");
  CHECK(withQuestionMarks("(?i:a)|b") == "(?i:(?:a|\\?))|(?:b|\\?)");
  CHECK(withQuestionMarks("[]^-]x{") == "(?:[]^-]|\\?)(?:x|\\?)(?:{|\\?)");
  CHECK(withQuestionMarks("[[:alpha:]\\]]\\pL\\p{Greek}\\x41\\x{e9}\\101") ==
        "(?:[[:alpha:]\\]]|\\?)(?:\\pL|\\?)(?:\\p{Greek}|\\?)(?:\\x41|\\?)(?:\\x{e9}|\\?)(?:\\101|\\?)");
  CHECK(withQuestionMarks("\\Qa.\\E\\b$") == "(?:a|\\?)(?:\\.|\\?)\\b$");
  CHECK(withQuestionMarks("\xC3\xA9.") == "(?:\xC3\xA9|\\?).");
}

TEST_CASE("a question mark stands for each sign of a text that fits") {
  struct Row {
    const char *pattern, *text;
  };
  for (const Row& row : {Row{"(?P<A>[A-F])-?(?P<B>\\d{2,3})", "C-123"}, Row{"\\QX-\\E(?P<A>\\pL+)", "X-abc"},
                         Row{"(?:no|nr)\\. (?P<A>[[:digit:]]+)", "no. 77"},
                         Row{"(?P<A>(?:ab|cd){2})\\x41", "abcda"}, Row{"(?i:rd)(?P<A>[^0-9])", "RDx"}}) {
    const Rule rule = compiled(patterned(row.pattern, {}));
    CAPTURE(row.pattern);
    CHECK(rule.read(row.text).all.size() == 1);
    const std::string text = row.text;
    for (std::size_t i = 0; i < text.size(); ++i) {
      std::string unread = text;
      unread[i] = '?';
      CAPTURE(unread);
      CHECK(rule.read(unread).all.size() == 1);
    }
  }
}

TEST_CASE("patterns that would take others forever") {
  const Rule rule = compiled(patterned("(?P<A>(a*)*)b", {}));
  CHECK(rule.read(std::string(100, 'a')).all.empty());
  CHECK(rule.read(std::string(100, 'a') + "b").all.size() == 1);
  CHECK(rule.read(std::string(60, '?') + "b").all.size() == 1);
}
