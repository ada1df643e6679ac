#include "support.h"

// What yaml-cpp 0.7 does that authors must not notice: texts stay as they were typed, and what would be dropped in
// silence is told.
using namespace reading_test;
using namespace saggar;
using records::Kind;
using records::Record;
using records::Value;

namespace {

// The text of one field of the only record.
std::string fieldText(const Read& read, records::Field field) {
  REQUIRE(read.guide.records.size() == 1);
  const Value* value = read.guide.records[0].find(field);
  REQUIRE(value != nullptr);
  return std::string(value->text);
}

}  // namespace

TEST_CASE("plain values stay as typed") {
  for (const char* typed :
       {"0203", "9:40",       "no",   "yes",        "Null",       "null", "NULL", "~",
        "true", "1e3",        "0x1F", "1_000",      ".5",         "-",    "--",   "-x",
        "?x",   ":x",         "a#b",  "JM-203-C/1", "2001-02-30", "=",    "<<",   "x?",
        "x: ",  "Who? What?", "it's", "W&S",        "100%",       "a*b",  "5!",   "caf\xC3\xA9"}) {
    CAPTURE(std::string(typed));
    const Read read = readText("- specimen: a\n  condition: " + std::string(typed) + "\n");
    if (std::string_view(typed) == "-" || std::string_view(typed) == "x: ")
      continue;  // a list; a second colon
    CHECK_MESSAGE(read.all().empty(), read.report());
    CHECK(fieldText(read, "condition"_f) == typed);
  }
}

TEST_CASE("the same inside brackets and braces, and as an item") {
  for (const char* typed : {"0203", "9:40", "no", "Null", "~", "true", "-x", "1936?", "Is there a line?",
                            "https://example.org/?a=b", "x?y", "a#b", "W&S", "5!"}) {
    CAPTURE(std::string(typed));
    const std::string word(typed);
    for (const std::string& text : {"- specimen: a\n  my-box: [" + word + ", " + word + "]\n",
                                    "- specimen: a\n  my-box: {one: " + word + ", two: " + word + "}\n",
                                    "- specimen: a\n  my-box:\n    - " + word + "\n    - " + word + "\n"}) {
      const Read read = readText(text);
      CHECK_MESSAGE(read.all().empty(), read.report());
      REQUIRE(read.guide.records.size() == 1);
      const Record& record = read.guide.records[0];
      REQUIRE(record.fields.size() == 1);
      const Value& value = record.fields[0].value;
      std::vector<std::string> found;
      for (const Value& item : value.items()) found.emplace_back(item.text);
      for (const records::Entry& entry : value.entries()) found.emplace_back(entry.value.text);
      CHECK(found == std::vector<std::string>{word, word});
    }
  }
}

TEST_CASE("a question mark in brackets ends nothing") {
  const Read read = readText("- shape: a\n  introduced: {is: 1936?, cite: books}\n  link-not: x\n");
  REQUIRE(read.guide.records.size() == 1);
  const Value* introduced = read.guide.records[0].find("introduced"_f);
  REQUIRE(introduced != nullptr);
  CHECK(introduced->text == "1936?");
  CHECK(introduced->is(records::ValueType::date));
  CHECK(read.text(read.guide.records[0], *introduced) == "1936?");
  REQUIRE(introduced->evidence != nullptr);
  CHECK(introduced->evidence->cite.size() == 1);
  const Read ask = readText(
      "- feature: a\n  of: shape\n  values: {x: {is: Is there a line? Or two?}, \"why?\": {is: 'no?'}}\n");
  CHECK_MESSAGE(ask.all().empty(), ask.report());
  const Value* values = ask.guide.records[0].find("values"_f);
  REQUIRE(values != nullptr);
  CHECK(values->entries()[0].value.find("is"_f)->text == "Is there a line? Or two?");
  CHECK(values->entries()[1].key == "why?");
  CHECK(values->entries()[1].value.find("is"_f)->text == "no?");
}

TEST_CASE("an escape that stands for a character nobody can print is told") {
  const Read read = readText(
      "- shape: a\n  name: \"one? \\x01\"\n  note: \"tab \\t, line \\n, quote \\\", e \\u00e9, back "
      "\\\\\"\n");
  CHECK(read.places() == "2:15 text-unfit\n");
  CHECK(read.guide.records[0].find("note"_f)->text == "tab \t, line \n, quote \", e \xC3\xA9, back \\");
  for (const char* escape : {"\\0", "\\a", "\\e", "\\x07", "\\u0085\\x7f", "\\ufeff", "\\x9b"}) {
    const Read one = readText("- shape: a\n  name: \"x" + std::string(escape) + "\"\n");
    CAPTURE(one.report());
    CHECK(one.all().size() == 1);
  }
  CHECK(readText("- shape: a\n  name: \"x\\uD800\"\n").all().size() == 1);
  CHECK(readText("- shape: a\n  name: \"x\\xZZ\"\n").all().size() == 1);
}

TEST_CASE("a field typed twice is told once, and the first counts") {
  const Read read = readText(
      "- shape: a\n  name: One\n  maker: m\n  name: Two\n  look: {rim: yes, rim: no}\n  introduced: {is: "
      "1936, is: 1937, cite: s, cite: t}\n");
  CHECK(read.places() == "4:3 field-twice\n5:20 field-twice\n6:26 field-twice\n6:45 field-twice\n");
  REQUIRE(read.all()[0].related.size() == 1);
  CHECK(read.guide.sources.place(read.all()[0].related[0].span).line == 2);
  const Record& record = read.guide.records[0];
  CHECK(record.text("name"_f) == "One");
  CHECK(record.find("introduced"_f)->text == "1936");
  CHECK(record.find("introduced"_f)->evidence->cite[0].id == "s");
}

TEST_CASE("many fields typed twice take no time") {
  std::string text = "- shape: a\n  more:\n";
  for (int i = 0; i < 40'000; ++i) text += "    Heading " + std::to_string(i % 20'000) + ": x\n";
  const Read read = readText(text);
  CHECK(read.all().size() == 20'000);
}

TEST_CASE("line ends of every system give the same record") {
  const std::string unixText =
      "# first\n- shape: a\n  name: One two\n    three\n  note: |\n    Line one\n\n    line two\n  also: "
      "[x,\n    y]\n\n- shape: b\n  name: \"q\n    r\"\n";
  const Read plain = readText(unixText);
  REQUIRE_MESSAGE(plain.all().empty(), plain.report());
  for (const char* end : {"\r\n", "\r"}) {
    std::string text;
    for (char c : unixText) text += c == '\n' ? std::string(end) : std::string(1, c);
    const Read read = readText(text);
    CHECK_MESSAGE(read.all().empty(), read.report());
    REQUIRE(read.guide.records.size() == 2);
    for (int i : {0, 1}) {
      const Record& a = plain.guide.records[static_cast<std::size_t>(i)];
      const Record& b = read.guide.records[static_cast<std::size_t>(i)];
      CHECK(a.id == b.id);
      REQUIRE(a.fields.size() == b.fields.size());
      for (std::size_t k = 0; k < a.fields.size(); ++k)
        CHECK(a.fields[k].value.text == b.fields[k].value.text);
      CHECK(read.guide.sources.place(b.span()).line == plain.guide.sources.place(a.span()).line);
      CHECK(read.guide.sources.place(b.span()).column == plain.guide.sources.place(a.span()).column);
    }
    const Read broken = readText(text + "  rim: yes" + end);
    REQUIRE(broken.all().size() == 1);
    CHECK(broken.place(0).line == 15);
  }
}

TEST_CASE("a byte order mark moves nothing, and inside a file it is told") {
  const Read read = readText("\xEF\xBB\xBF- shape: a\n  nmae: x\n");
  CHECK(read.places() == "2:3 field-unknown\n");
  CHECK(read.guide.sources.text(read.guide.records[0].span()) == "a");
  CHECK(read.guide.sources.place(read.guide.records[0].span()).column == 10);
  const Read joined = readText("- shape: a\n  name: x\n\xEF\xBB\xBF- shape: b\n  name: y\n- shape: c\n");
  CHECK(joined.places() == "3:1 text-unfit\n");
  CHECK(joined.find(Kind::shape, "c") != nullptr);
  CHECK(readText("\xEF\xBB\xBF").all().empty());
}

TEST_CASE("text in another encoding is one finding, and the other records are read") {
  std::string text;
  for (int i = 0; i < 20; ++i)
    text += "- shape: s" + std::to_string(i) + "\n  name: " + (i % 4 == 1 ? "Caf\xE9" : "Plain") + "\n";
  const Read read = readText(text);
  CHECK(read.places() == "4:12 text-unfit\n");
  CHECK(read.all()[0].message.find("5 records") != std::string::npos);
  CHECK(read.guide.records.size() == 20);
  CHECK(read.find(Kind::shape, "s1")->broken);
  CHECK_FALSE(read.find(Kind::shape, "s2")->broken);
  for (const std::string& wide : {std::string("\xFF\xFE-\0 \0s\0", 8), std::string("\xFE\xFF\0-\0 \0s", 8),
                                  std::string("-\0 \0s\0h\0a\0", 10), std::string("\0-\0 \0s\0h\0a", 10)}) {
    const Read utf16 = readText(wide);
    CHECK(utf16.all().size() == 1);
    CHECK(utf16.all()[0].rule == "text-unfit"_rule);
    CHECK(utf16.guide.lostFiles);
  }
}

TEST_CASE("a NUL and other control characters are told where they stand") {
  std::string text =
      "- shape: a\n  name: x@y\n- shape: b\n  name: \x1B[1m\n- shape: c\n  name: z\x7F\n- shape: d\n";
  text[text.find('@')] = '\0';
  const Read read = readText(text);
  CHECK(read.places() == "2:10 text-unfit\n4:9 text-unfit\n6:10 text-unfit\n");
  CHECK(read.find(Kind::shape, "a")->broken);
  CHECK_FALSE(read.find(Kind::shape, "d")->broken);
}

TEST_CASE("files with nothing in them") {
  for (const char* text : {"", "\n", "\n\n  \n", "# only a comment\n", "# one\n\n# two", "---\n",
                           "---\n...\n", "---\n# x\n---\n", "%YAML 1.2\n---\n"}) {
    const Read read = readText(text);
    CHECK_MESSAGE(read.all().empty(), text);
    CHECK(read.guide.records.empty());
  }
}

TEST_CASE("several documents, one mapping, indented and bracketed lists") {
  const Read several = readText(
      "---\n- shape: a\n- shape: b\n---\nshape: c\nname: C\nforms:\n- x\n- y\n...\n---\n# nothing\n---\n  - "
      "shape: d\n    name: D\n  - shape: e\n--- {shape: f}\n");
  CHECK_MESSAGE(several.all().empty(), several.report());
  std::string ids;
  for (const Record& record : several.guide.records) ids += record.id;
  CHECK(ids == "abcdef");
  CHECK(several.find(Kind::shape, "c")->fields.size() == 2);
  const Read json = readText("[{\"shape\": \"a\", \"name\": \"A\"}, {\"shape\": \"b\"}]");
  CHECK_MESSAGE(json.all().empty(), json.report());
  CHECK(json.guide.records.size() == 2);
  const Read spaced = readText("-   shape: a\n    name: A\n-   shape: b\n    name: B\n");
  CHECK_MESSAGE(spaced.all().empty(), spaced.report());
  const Read alone = readText("-\n  shape: a\n  name: A\n-\n  shape: b\n");
  CHECK_MESSAGE(alone.all().empty(), alone.report());
  CHECK(alone.guide.records.size() == 2);
}

TEST_CASE("aliases repeat within a record, and no more than that") {
  const Read fine = readText(
      "- set: a\n  pieces:\n    - &one {form: teapot, how-many: 1}\n    - *one\n- set: b\n  note: x\n");
  CHECK_MESSAGE(fine.all().empty(), fine.report());
  CHECK(fine.guide.records[0].find("pieces"_f)->items().size() == 2);
  CHECK(fine.guide.records[0].find("pieces"_f)->items()[1].find("form"_f)->text == "teapot");
  const Read across = readText("- set: a\n  note: &n x\n- set: b\n  note: *n\n");
  CHECK(across.places() == "2:9 value-lost\n4:9 yaml-broken\n");
  const Read own = readText("- set: a\n  more: &m\n    Heading: *m\n");
  CHECK(own.all().size() == 1);
  const Read wrong = readText("- set: a\n  pieces:\n    - &one {form: teapot, how-mny: 1}\n    - *one\n");
  CHECK(diagnostics::makeReport(wrong.findings, {}, wrong.guide.sources).findings.size() == 1);
  std::string bomb = "- set: a\n  my-a: &a0 [x, x, x, x, x, x, x, x, x, x]\n";
  for (int i = 1; i < 12; ++i) {
    const std::string alias = "*a" + std::to_string(i - 1);
    bomb += "  my-" + std::string(1, static_cast<char>('a' + i)) + ": &a" + std::to_string(i) + " [" + alias;
    for (int k = 0; k < 9; ++k) bomb += ", " + alias;
    bomb += "]\n";
  }
  const Read big = readText(bomb + "- set: b\n");
  REQUIRE(big.all().size() == 1);
  CHECK(big.all()[0].rule == "yaml-too-big"_rule);
  CHECK(big.find(Kind::set, "a")->broken);
  CHECK(big.find(Kind::set, "b") != nullptr);
}

TEST_CASE("nesting without end") {
  for (const std::string& deep :
       {std::string(10'000, '['), std::string(10'000, '[') + std::string(10'000, ']'),
        [] {
          std::string braces;
          for (int i = 0; i < 10'000; ++i) braces += "{a: ";
          return braces;
        }(),
        [] {
          std::string dashes;
          for (int i = 0; i < 10'000; ++i) dashes += "- ";
          return "\n    " + dashes;
        }(),
        [] {
          std::string keys;
          for (std::size_t i = 0; i < 2'000; ++i) keys += "\n" + std::string(i + 3, ' ') + "a:";
          return keys;
        }()}) {
    const Read read = readText("- set: a\n  my-a: " + deep + "\n- set: b\n  note: x\n");
    REQUIRE(read.all().size() == 1);
    CHECK(read.all()[0].rule == "yaml-too-deep"_rule);
    CHECK(read.find(Kind::set, "a")->broken);
    CHECK_FALSE(read.find(Kind::set, "b")->broken);
  }
}

TEST_CASE("a record beyond all measure is told, not read") {
  const Read read =
      readText("- term: a\n  means: " + std::string(5'000'000, 'x') + "\n- term: b\n  means: y\n");
  CHECK(read.places() == "1:1 yaml-too-big\n");
  CHECK(read.find(Kind::term, "a")->broken);
  CHECK(read.find(Kind::term, "b") != nullptr);
}

TEST_CASE("comments are comments") {
  const Read read = readText(
      "# #1 of the list\n- shape: a # 3 of them\n  name: A  #  and more\n  #x: y\n  note: a#b and \"#3\" "
      "too\n  also: [one, # first\n    two]\n  more:\n    Body: 'no. #3'\n    #9\n");
  CHECK_MESSAGE(read.all().empty(), read.report());
  CHECK(readText("- shape: a\n  name: A #\xC3\xA9"
                 "dition\n")
            .places() == "2:11 value-lost\n");
  CHECK(readText("- shape: a #3 #4\n").places() == "1:12 value-lost\n");
  CHECK(readText("- shape: a\n  also: [x #3\n    ]\n").places() == "2:12 value-lost\n");
}

TEST_CASE("several thousand slips at once are several thousand findings") {
  std::string text;
  for (int i = 0; i < 10'000; ++i) text += "- shape: s" + std::to_string(i) + "\n  name: one: two\n";
  const Read read = readText(text);
  CHECK(read.all().size() == 10'000);
  CHECK(read.guide.records.size() == 10'000);
}
