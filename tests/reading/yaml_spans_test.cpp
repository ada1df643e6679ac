#include "support.h"

// Where a value stands is what was typed there: the text under every place, for every way to write a value.
using namespace reading_test;
using namespace saggar;
using records::Record;
using records::Value;

namespace {

struct Written {
  const char* typed;  // as it stands behind the key
  const char* under;  // the text under its place; null: the same as typed
  const char* value;
};

}  // namespace

TEST_CASE("the text under a value's place is the value as typed") {
  const Written cases[] = {
      {"Linnavere", nullptr, "Linnavere"},
      {"\"Linnavere\"", nullptr, "Linnavere"},
      {"'it''s'", nullptr, "it's"},
      {"\"a \\\"b\\\" c\"", nullptr, "a \"b\" c"},
      {"Linnavere   ", "Linnavere", "Linnavere"},
      {"Linnavere  # the ribbed one", "Linnavere", "Linnavere"},
      {"one\n    two\n\n    three", nullptr, "one two\nthree"},
      {"\"one\n    two\"", nullptr, "one two"},
      {"\n    Linnavere", "Linnavere", "Linnavere"},
      {"\n    \"Linnavere\"", "\"Linnavere\"", "Linnavere"},
      {"caf\xC3\xA9 \xE2\x80\x9Cx\xE2\x80\x9D", nullptr, "caf\xC3\xA9 \xE2\x80\x9Cx\xE2\x80\x9D"},
      {"what? yes?", nullptr, "what? yes?"},
      {"|\n    one\n    two", nullptr, "one\ntwo\n"},
      {"|\n    one\n      two\n\n    three\n\n", "|\n    one\n      two\n\n    three",
       "one\n  two\n\nthree\n"},
      {"|-\n    one\n    two", nullptr, "one\ntwo"},
      {"|+\n    one\n\n", "|+\n    one", "one\n\n\n"},
      {">\n    one\n    two", nullptr, "one two\n"},
      {"|2\n      one\n    two", nullptr, "  one\ntwo\n"},
      {"| # a comment\n    one", nullptr, "one\n"},
      {"\n    |\n    one", "|\n    one", "one\n"},
      {"~", nullptr, "~"},
      {"null", nullptr, "null"},
      {"!word", nullptr, nullptr},
  };
  for (const char* before : {"- shape: a\n", "- shape: a\n  maker: m\n", "# \xC3\xA9\n\n- shape: a\n"})
    for (const char* after :
         {"", "\n", "\n  maker: n\n", "\n\n# end\n", "\n  # end\n  maker: n\n", "\n- shape: b\n  name: c\n"})
      for (const Written& one : cases) {
        if (one.value == nullptr) continue;
        std::string text = std::string(before) + "  note: " + one.typed + after;
        if (std::string_view(before).find("maker") != std::string_view::npos &&
            std::string_view(after).find("maker") != std::string_view::npos)
          continue;
        CAPTURE(text);
        const Read read = readText(text);
        REQUIRE_MESSAGE(read.all().empty(), read.report());
        const Record& record = read.guide.records[0];
        const Value* value = record.find("note"_f);
        REQUIRE(value != nullptr);
        CHECK(read.text(record, *value) == (one.under != nullptr ? one.under : one.typed));
        if (std::string_view(one.typed).starts_with("|+") && std::string_view(after).size() != 1) {
          CHECK(value->text.starts_with("one\n"));
        } else if (std::string_view(one.typed).starts_with("|+")) {
          CHECK(value->text == one.value);
        } else if (std::string_view(one.value).ends_with('\n') && std::string_view(after).empty() &&
                   !std::string_view(one.typed).ends_with('\n')) {
          CHECK(value->text == std::string_view(one.value).substr(
                                   0, std::string_view(one.value).size() - 1));  // no line end was typed
        } else {
          CHECK(value->text == one.value);
        }
        CHECK(read.text(record, record.idPlace) == "a");
        CHECK(read.text(record, record.entry("note"_f)->keyPlace) == "note");
      }
}

TEST_CASE("members of lists, mappings and evidence have their own places") {
  const std::string text =
      "- shape: a\n"
      "  forms: [plate-7, \"teapot\" , 'cup']\n"
      "  also:\n"
      "    - {name: Lin, by: collectors}\n"
      "    - Linny\n"
      "  look: {outline: round, rim: [yes, {is: no, cite: s}], handle: unknown}\n"
      "  introduced:\n"
      "    is: 1936\n"
      "    cite:\n"
      "      - decoration-books: vol. 4, May 1936\n"
      "      - {source: list-9, at: \"p. 2, left\", dated: 1936-05, says: indirect}\n"
      "      - \"list-17: p. 3\"\n"
      "      - specimen:a-plate\n"
      "    but: [{is: 1937, cite: t, set-aside: hearsay}]\n"
      "  withdrawn: ../shape:b.introduced\n"
      "  cite: books\n";
  const Read read = readText(text);
  REQUIRE_MESSAGE(read.all().empty(), read.report());
  const Record& a = read.guide.records[0];
  CHECK(read.text(a, a.place) == text.substr(2, text.size() - 3));
  const Value& forms = *a.find("forms"_f);
  CHECK(read.text(a, forms) == "[plate-7, \"teapot\" , 'cup']");
  CHECK(read.text(a, forms.items()[0]) == "plate-7");
  CHECK(read.text(a, forms.items()[1]) == "\"teapot\"");
  CHECK(read.text(a, forms.items()[2]) == "'cup'");
  const Value& also = *a.find("also"_f);
  CHECK(read.text(a, also.items()[0]) == "{name: Lin, by: collectors}");
  CHECK(read.text(a, also.items()[0].entries()[1].keyPlace) == "by");
  CHECK(read.text(a, *also.items()[0].find("by"_f)) == "collectors");
  CHECK(read.text(a, *also.items()[1].find("name"_f)) == "Linny");
  const Value& look = *a.find("look"_f);
  CHECK(read.text(a, look) == "{outline: round, rim: [yes, {is: no, cite: s}], handle: unknown}");
  CHECK(read.text(a, look.entries()[1].value.items()[1]) == "no");
  CHECK(read.text(a, look.entries()[1].value.items()[1].evidence->place) == "{is: no, cite: s}");
  CHECK(look.entries()[2].value.is(records::ValueType::unknown));
  const Value& introduced = *a.find("introduced"_f);
  CHECK(read.text(a, introduced) == "1936");
  const auto cite = introduced.evidence->cite;
  REQUIRE(cite.size() == 4);
  CHECK(read.text(a, cite[0].place) == "decoration-books: vol. 4, May 1936");
  CHECK(read.text(a, cite[0].idPlace) == "decoration-books");
  CHECK(cite[0].at == "vol. 4, May 1936");
  CHECK(read.text(a, cite[1].place) ==
        "{source: list-9, at: \"p. 2, left\", dated: 1936-05, says: indirect}");
  CHECK(read.text(a, cite[1].idPlace) == "list-9");
  CHECK(cite[1].at == "p. 2, left");
  REQUIRE(cite[1].dated != nullptr);
  CHECK(cite[1].says == records::Says::indirect);
  CHECK(read.text(a, cite[2].place) == "\"list-17: p. 3\"");
  CHECK(read.text(a, cite[2].idPlace) == "list-17");
  CHECK(cite[2].at == "p. 3");
  CHECK(cite[3].kind == records::Kind::specimen);
  CHECK(cite[3].id == "a-plate");
  const auto but = introduced.evidence->but();
  REQUIRE(but.size() == 1);
  CHECK(read.text(a, but[0].is) == "1937");
  CHECK(but[0].setAside == "hearsay");
  const Value& withdrawn = *a.find("withdrawn"_f);
  CHECK(read.text(a, withdrawn) == "../shape:b.introduced");
  REQUIRE(withdrawn.is(records::ValueType::between));
  CHECK(read.text(a, withdrawn.items()[0]) == "..");
  CHECK(read.text(a, withdrawn.items()[1]) == "shape:b.introduced");
  REQUIRE(a.evidence != nullptr);
  CHECK(read.text(a, a.evidence->cite[0].place) == "books");
}

TEST_CASE("an interval in quotes that ends in an event has its ends in place") {
  const Read read = readText("- shape: a\n  introduced: \"1936/shape:b\"\n");
  const Record& a = read.guide.records[0];
  CHECK(read.text(a, a.find("introduced"_f)->items()[0]) == "1936");
  CHECK(read.text(a, a.find("introduced"_f)->items()[1]) == "shape:b");
}

TEST_CASE("a missing value is told behind its colon or on its dash") {
  CHECK(readText("- shape: a\n  name:\n  maker: m\n").places() == "2:8 value-unfit\n");
  CHECK(readText("- shape: a\n  name:   # soon\n  maker: m\n").places() == "2:8 value-unfit\n");
  CHECK(readText("- shape: a\n  name:").places() == "2:8 value-unfit\n");
  CHECK(readText("- shape: a\n  name : \n").places() == "2:9 value-unfit\n");
  CHECK(readText("- shape: a\n  look: {rim: , verge: plain}\n").places() == "2:14 value-unfit\n");
  CHECK(readText("- shape: a\n  forms:\n    - x\n    -\n    - y\n").places() == "4:5 value-unfit\n");
  CHECK(readText("- shape: a\n  forms:\n    # - w\n    -\n    - y\n").places() == "4:5 value-unfit\n");
  CHECK(readText("- shape: a\n  introduced:\n    is:\n    cite: x\n").places() == "3:8 value-unfit\n");
  CHECK(readText("- shape:\n  name: x\n").places() == "1:9 value-unfit\n");
  CHECK(readText("- shape: a\n  name: ''\n").places() == "2:9 value-unfit\n");
}

TEST_CASE("an unreadable date is told at the letter that is wrong") {
  CHECK(readText("- shape: a\n  introduced: 1936-13\n").places() == "2:20 date-unreadable\n");
  CHECK(readText("- shape: a\n  introduced: [1932, 1934]\n").places() == "2:15 value-unfit\n");
  CHECK(readText("- shape: a\n  introduced: [1932, 1934]\n")
            .all()[0]
            .hint.find("`introduced: \"[1932, 1934]\"`") != std::string::npos);
}
