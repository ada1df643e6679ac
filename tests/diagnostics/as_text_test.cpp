// How a finding is printed: place, words, source line, caret, hint; and what a terminal is never sent.
#include <doctest/doctest.h>

#include "base/terminal.h"
#include "diagnostics/report.h"

using namespace saggar;
using diagnostics::Finding;

namespace {

// The source line and the line of the caret, of the piece of text between « and ».
std::string shown(std::string text) {
  const std::size_t begin = text.find("«");
  REQUIRE(begin != std::string::npos);
  text.erase(begin, 2);
  const std::size_t end = text.find("»");
  REQUIRE(end != std::string::npos);
  text.erase(end, 2);
  source::SourceSet sources;
  const source::FileId file = sources.add("a.yaml", text);
  const Finding finding{.rule = "uncited"_rule,
                        .span = {file, static_cast<std::uint32_t>(begin), static_cast<std::uint32_t>(end)},
                        .message = "seen"};
  const std::string printed = diagnostics::asText(finding, sources);
  return printed.substr(printed.find('\n') + 1);
}

}  // namespace

TEST_CASE("place, weight, words, rule, line, caret, related places, hint") {
  source::SourceSet sources;
  const source::FileId file = sources.add("shapes/ivory.yaml", "- shape: linnavere\n  introduced: 1936\n");
  Finding finding{.rule = "date-before-shape"_rule,
                  .span = {file, 33, 37},
                  .message = "dated too early",
                  .hint = "look again",
                  .related = {{{file, 9, 18}, "the shape stands here"}}};
  CHECK(diagnostics::asText(finding, sources) ==
        "shapes/ivory.yaml:2:15: error: dated too early [date-before-shape]\n"
        "      introduced: 1936\n"
        "                  ^~~~\n"
        "  shapes/ivory.yaml:1:10: the shape stands here\n"
        "  hint: look again\n");
  finding.waived = diagnostics::WaivedBy{"an open question", {file, 0, 1}};
  finding.hint.clear();
  finding.related.clear();
  CHECK(diagnostics::asText(finding, sources).ends_with("\n  waived: an open question\n"));
}

TEST_CASE("colour only where it is asked for") {
  source::SourceSet sources;
  const source::FileId file = sources.add("a.yaml", "abc\n");
  const Finding finding{.rule = "uncited"_rule, .span = {file, 0, 3}, .message = "seen", .hint = "do so"};
  CHECK(diagnostics::asText(finding, sources).find('\x1b') == std::string::npos);
  CHECK(diagnostics::asText(finding, sources, {.colour = true}) ==
        "\x1b[1ma.yaml:1:1\x1b[0m: \x1b[1;33mwarning\x1b[0m: seen [uncited]\n    abc\n    "
        "\x1b[1;33m^~~\x1b[0m\n"
        "  \x1b[32mhint:\x1b[0m do so\n");
}

TEST_CASE("ten related places, and how many more there are") {
  source::SourceSet sources;
  const source::FileId file = sources.add("a.yaml", "abc\n");
  Finding finding{.rule = "uncited"_rule, .span = {file, 0, 3}, .message = "seen"};
  auto places = [&](std::size_t count) {
    finding.related.assign(count, {{file, 1, 2}, "another"});
    return diagnostics::asText(finding, sources);
  };
  auto times = [](const std::string& text) {
    std::size_t count = 0;
    for (std::size_t at = text.find("another"); at != std::string::npos; at = text.find("another", at + 1))
      ++count;
    return count;
  };
  CHECK(times(places(10)) == 10);
  CHECK(places(10).find("more place") == std::string::npos);
  CHECK(times(places(11)) == 10);
  CHECK(places(11).ends_with("  … and 1 more place\n"));
  CHECK(places(25).ends_with("  … and 15 more places\n"));
}

TEST_CASE("the caret stands below what it means, however wide the letters before it are") {
  CHECK(shown("name: «Quince» Bough\n") == "    name: Quince Bough\n          ^~~~~~\n");
  // e and a combining acute accent (U+0301) take one column.
  CHECK(shown("cafe\u0301 «noir»") == "    cafe\u0301 noir\n         ^~~~\n");
  CHECK(shown("na\u0308her «e\u0301e\u0301» x") == "    na\u0308her e\u0301e\u0301 x\n          ^~\n");
  // Two columns each (UAX 11, wide and fullwidth).
  CHECK(shown("陶器 «皿» x") == "    陶器 皿 x\n         ^~\n");
  CHECK(shown("ＡＢ«Ｃ»") == "    ＡＢＣ\n        ^~\n");
  // A joiner (U+200D) takes none.
  CHECK(shown("a\u200Db «c»") == "    a\u200Db c\n       ^\n");
}

TEST_CASE("a place on a mark is shown on its letter; at the end of a line behind it") {
  CHECK(shown("cafe«\u0301» x") == "    cafe\u0301 x\n       ^\n");
  CHECK(shown("name:«»\n  x") == "    name:\n         ^\n");
  CHECK(shown("«»name") == "    name\n    ^\n");
  CHECK(shown("name: one«\n  two»\n") == "    name: one\n             ^\n");
  CHECK(shown("name: «one\n  two»\n") == "    name: one\n          ^~~\n");
}

TEST_CASE("a tab is one blank, a carriage return no part of the line") {
  CHECK(shown("\tname:\t«x»\r\n") == "     name: x\n           ^\n");
  CHECK(shown("name: «x»\rnext") == "    name: x\n          ^\n");
}

TEST_CASE("a byte order mark takes no column") {
  source::SourceSet sources;
  const source::FileId file = sources.add("a.yaml", "\xEF\xBB\xBFname: x\n");
  const Finding finding{.rule = "uncited"_rule, .span = {file, 9, 10}, .message = "seen"};
  CHECK(diagnostics::asText(finding, sources) ==
        "a.yaml:1:7: warning: seen [uncited]\n    name: x\n          ^\n");
}

TEST_CASE("an empty line is not shown") {
  CHECK(shown("«»\nx") == "");
}

TEST_CASE("of a long line what stands around the place is shown") {
  const std::string head(300, 'a');
  const std::string tail(300, 'b');
  const std::string text = shown(head + "«here»" + tail);
  const std::size_t lineEnd = text.find('\n');
  const std::string line = text.substr(4, lineEnd - 4);
  const std::string caret = text.substr(lineEnd + 5);
  CHECK(line == "…" + std::string(100, 'a') + "here" + std::string(55, 'b') + "…");
  CHECK(caret == std::string(101, ' ') + "^~~~\n");
  // A line of 160 columns is shown whole.
  CHECK(shown("«here»" + std::string(156, 'b')) == "    here" + std::string(156, 'b') + "\n    ^~~~\n");
  CHECK(shown("«here»" + std::string(157, 'b')) == "    here" + std::string(156, 'b') + "…\n    ^~~~\n");
  // What runs past the end of what is shown is underlined to there.
  CHECK(shown("«" + std::string(200, 'b') + "»") ==
        "    " + std::string(160, 'b') + "…\n    ^" + std::string(159, '~') + "\n");
}

TEST_CASE("a line of marks without end, and one of many megabytes, are shown in part") {
  std::string marks = "x";
  for (int i = 0; i < 100'000; ++i) marks += "\u0301";
  CHECK(shown(marks + "«y»").size() < 4000);
  CHECK(shown("«y»" + marks).size() < 8000);
  source::SourceSet sources;
  const source::FileId file = sources.add("long.yaml", std::string(20'000'000, 'x'));
  for (int i = 0; i < 100; ++i) {
    const Finding finding{.rule = "uncited"_rule, .span = {file, 10, 11}, .message = "seen"};
    CHECK(diagnostics::asText(finding, sources).size() < 600);
  }
}

TEST_CASE("nothing that a terminal would obey is sent to it") {
  CHECK(shown("a\x1b[31m«x»\x07") == "    a·[31mx·\n          ^\n");
  CHECK(shown("a\xC2\x9B«x»") == "    a·x\n      ^\n");   // U+009B, the one-byte form of ESC [
  CHECK(shown("a\u202Eb«x»") == "    a·bx\n       ^\n");  // turns the direction of writing
  CHECK(shown("a\u2067b«x»\u2069") == "    a·bx·\n       ^\n");
  CHECK(shown("a\xFF«x»") == "    a·x\n      ^\n");  // no UTF-8
  CHECK(shown("a\u2028«x»") == "    a·x\n      ^\n");

  source::SourceSet sources;
  const source::FileId file = sources.add("evil\x1b]0;x\x07.yaml", "abc\n");
  Finding finding{.rule = "uncited"_rule,
                  .span = {file, 0, 1},
                  .message = "`\x1b[2J` seen",
                  .hint = "no \u202E more\nof this",
                  .related = {{{file, 0, 1}, "\x07 here"}},
                  .waived = diagnostics::WaivedBy{"be\x1b"
                                                  "cause",
                                                  {file, 0, 1}}};
  CHECK(diagnostics::asText(finding, sources) ==
        "evil·]0;x·.yaml:1:1: warning: `·[2J` seen [uncited]\n    abc\n    ^\n"
        "  evil·]0;x·.yaml:1:1: · here\n  hint: no · more of this\n  waived: be·cause\n");
}

TEST_CASE("an accented letter, an emoji and a sign of the replacement are printed as they are") {
  CHECK(base::forTerminal("café 🦉 陶器 \uFFFD") == "café 🦉 陶器 \uFFFD");
  CHECK(base::forTerminal("a\tb\r\nc") == "a b  c");
  CHECK(base::columnsOf(U'é') == 1);
  CHECK(base::columnsOf(U'🦉') == 2);
  CHECK(base::columnsOf(0x0301) == 0);
}
