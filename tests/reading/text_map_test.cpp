#include "reading/text_map.h"

#include <doctest/doctest.h>

#include <string>
#include <string_view>

using namespace saggar;

namespace {

// The source of `sought` in a scalar that begins at the first `begin` of `yaml`.
std::string found(const std::string& yaml, std::string_view begin, const std::string& value,
                  std::string_view sought) {
  const std::size_t at = yaml.find(begin);
  REQUIRE(at != std::string::npos);
  const reading::YamlTextMap map(
      yaml, {7, static_cast<std::uint32_t>(at), static_cast<std::uint32_t>(yaml.size())}, value);
  const std::size_t offset = value.find(sought);
  REQUIRE(offset != std::string::npos);
  const source::Span span = map.at(offset, offset + sought.size());
  CHECK(span.file == 7);
  return yaml.substr(span.begin, span.end - span.begin);
}

}  // namespace

TEST_CASE("a file's text stands where it stands") {
  const reading::FileTextMap map(3, 10);
  CHECK(map.at(2, 5) == source::Span{3, 12, 15});
  CHECK_FALSE(reading::NoTextMap().at(2, 5).known());
}

TEST_CASE("scalars in every style, the values as YAML 1.2 reads them") {
  CHECK(found("a: |\n  one\n   two x\n", "|", "one\n two x\n", "two x") == "two x");
  CHECK(found("a: |2-\n   one\n  two", "|", " one\ntwo", "two") == "two");
  CHECK(found("a: | # note one\n  one\n", "|", "one\n", "one") == "one");
  CHECK(found("a: >\n  one\n  two\n\n  three\n", ">", "one two\nthree\n", "two\nthree") == "two\n\n  three");
  CHECK(found("a: >\r\n  one\r\n  two\r\n", ">", "one two\n", "two") == "two");
  CHECK(found("a: one\n  two\n\n  three\n", "one", "one two\nthree", "three") == "three");
  CHECK(found("a: 'it''s one\n  two'\n", "'", "it's one two", "s one") == "s one");
  CHECK(found("a: 'it''s one'\n", "'", "it's one", "it's") == "it''s");
  CHECK(found("a: \"x\\ty\\n z \\u00e9\\\"q\\\" \\\n   on\"\n", "\"", "x\ty\n z é\"q\" on", "é\"q\"") ==
        "\\u00e9\\\"q\\\"");
  CHECK(found("a: \"x\\ty\\n z \\u00e9\\\"q\\\" \\\n   on\"\n", "\"", "x\ty\n z é\"q\" on", "on") == "on");
  CHECK(found("a: \"tab\\x41\\U0001F600b\"\n", "\"", "tabA😀b", "A😀") == "\\x41\\U0001F600");
  CHECK(found("a: !!str &x |\n  one\n", "!!", "one\n", "one") == "one");
  CHECK(found("a: |\n  ümlaut [x](y)\n", "|", "ümlaut [x](y)\n", "[x]") == "[x]");
}

TEST_CASE("a value that does not stand in its source is placed as a whole") {
  const std::string yaml = "a: one two";
  const reading::YamlTextMap map(yaml, {1, 3, 10}, "one three");
  CHECK(map.at(0, 3) == source::Span{1, 3, 6});
  CHECK(map.at(4, 9) == source::Span{1, 3, 10});
  CHECK(map.at(4, 400) == source::Span{1, 3, 10});
  CHECK(map.at(400, 401) == source::Span{1, 10, 10});
  const reading::YamlTextMap past(yaml, {1, 30, 40}, "x");
  CHECK(past.at(0, 1) == source::Span{1, 30, 40});
  const reading::YamlTextMap unknown(yaml, {}, "one");
  CHECK_FALSE(unknown.at(0, 1).known());
}

TEST_CASE("lines in a quotation or a list") {
  const std::string text = "> ```marks\n> where: {a: b}\n>   c: >\n> ```\n";
  const reading::LinesTextMap map(text, {0, 11, 36}, "where: {a: b}\n  c: >");
  CHECK(map.at(7, 13) == source::Span{0, 20, 26});
  CHECK(map.at(16, 17) == source::Span{0, 31, 32});
  CHECK(map.at(19, 20) == source::Span{0, 34, 35});
}
