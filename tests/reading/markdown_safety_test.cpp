#include <cmark-gfm-core-extensions.h>
#include <cmark-gfm.h>
#include <doctest/doctest.h>

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <random>
#include <string>
#include <thread>
#include <vector>

#include "document/address.h"
#include "document/document.h"
#include "markdown_words.h"
#include "reading/markdown.h"
#include "render/markdown.h"
#include "source/source_set.h"

// Whatever is typed: nothing that could run is passed on, and reading ends soon.
using namespace saggar;
using document::AddressKind;
using document::Inline;
using document::InlineKind;

namespace {

reading::MarkdownResult parse(const std::string& text) {
  return reading::parseMarkdown(text, reading::FileTextMap(0), kTestWords);
}

std::string times(std::size_t count, const std::string& text) {
  std::string out;
  out.reserve(count * text.size());
  for (std::size_t i = 0; i < count; ++i) out += text;
  return out;
}

bool has(const reading::MarkdownResult& result, std::string_view rule) {
  return std::any_of(result.notices.begin(), result.notices.end(),
                     [&](const auto& notice) { return notice.rule.id() == rule; });
}

// The page that a viewer without any caution of its own makes of our Markdown.
std::string carelessPage(const document::Blocks& blocks) {
  document::Document document;
  document.blocks = blocks;
  const std::string markdown = render::renderMarkdown(document);
  char* text =
      cmark_markdown_to_html(markdown.data(), markdown.size(), CMARK_OPT_UNSAFE | CMARK_OPT_FOOTNOTES);
  std::string out = text;
  free(text);
  return out;
}

// Where the page leads to, but for footnotes and back.
std::vector<std::string> addressesOf(const std::string& page) {
  std::vector<std::string> out;
  for (const std::string name : {"href=\"", "src=\""}) {
    for (std::size_t at = page.find(name); at != std::string::npos; at = page.find(name, at + 1)) {
      const std::size_t begin = at + name.size();
      const std::string address = page.substr(begin, page.find('"', begin) - begin);
      if (!address.starts_with("#fn")) out.push_back(address);
    }
  }
  return out;
}

// Links that run or open something, or seem to, in the ways one can be typed.
const std::vector<std::string> kDisguises = {
    "[x](javascript:alert(1))",
    "[x](JavaScript:alert(1))",
    "[x](JAVASCRIPT:alert(1))",
    "[x](<javascript:alert(1)>)",
    "[x](< javascript:alert(1)>)",
    "[x](java&#115;cript:alert(1))",
    "[x](java&#x73;cript:alert(1))",
    "[x](java&#0000115;cript:alert(1))",
    "[x](javascript&colon;alert(1))",
    "[x](javascript&#58;alert(1))",
    "[x](javascript\\:alert(1))",
    "[x](<java&Tab;script:alert(1)>)",
    "[x](<java&NewLine;script:alert(1)>)",
    "[x](<java&#9;script:alert(1)>)",
    "[x](<java&#10;script:alert(1)>)",
    "[x](<java&#13;script:alert(1)>)",
    "[x](<&#1;javascript:alert(1)>)",
    "[x](<&#32;javascript:alert(1)>)",
    "[x](<java script:alert(1)>)",
    "[x](javascript%3Aalert(1))",
    "[x](%6Aavascript:alert(1))",
    "[x](java%0ascript:alert(1))",
    "[x](javascript%253Aalert(1))",
    "[x](&amp;#106;avascript:alert(1))",
    "[x](javascript&amp;colon;alert(1))",
    "[x](javascript:alert(1) \"title\")",
    "[x][y]\n\n[y]: javascript:alert(1)",
    "[x]\n\n[x]: <JavaScript&#58;alert(1)>",
    "![x](javascript:alert(1))",
    "[![x](javascript:alert(1))](vbscript:y)",
    "![x][y]\n\n[y]: data:text/html,<script>alert(1)</script>",
    "<javascript:alert(1)>",
    "<JaVaScRiPt:alert(1)>",
    "[x](vbscript:msgbox(1))",
    "[x](VBScript:msgbox(1))",
    "[x](data:text/html;base64,PHNjcmlwdD4=)",
    "![x](data:image/svg+xml;base64,PHN2Zz4=)",
    "<data:text/html,x>",
    "[x](file:///etc/passwd)",
    "[x](FILE:/etc/passwd)",
    "<file:///etc/passwd>",
    "[x](//example.org/x)",
    "[x](/\\example.org/x)",
    "[x](\\\\\\\\host\\\\share)",
    "[x](<\t//example.org>)",
    "[x](ftp://example.org)",
    "ftp://example.org/x",
    "[x](feed:javascript:alert(1))",
    "[x](view-source:javascript:alert(1))",
    "[x](jar:http://example.org!/x)",
    "[x](blob:http://example.org/x)",
    "[x](intent:x)",
    "[x](about:blank)",
    "[x](C:\\\\x)",
    "[x](http:javascript:alert(1))",
    "| [x](javascript:alert(1)) |\n|---|\n| ![x](vbscript:y) |",
    "text[^1]\n\n[^1]: [x](javascript:alert(1))",
    "# [x](javascript:alert(1))",
    "- > [x](javascript:alert(1))",
    "*[**x**](javascript:alert(1))*",
};

}  // namespace

TEST_CASE("a link that could run something is not passed on in any disguise, and its words stay") {
  CHECK(kDisguises.size() >= 30);
  for (const std::string& typed : kDisguises) {
    CAPTURE(typed);
    const auto result = parse(typed);
    CHECK(has(result, "link-unsafe"));
    std::size_t links = 0;
    document::forEachInline(result.blocks, [&](const Inline& one) {
      links += one.kind == InlineKind::link || one.kind == InlineKind::image;
    });
    for (const document::Block& block : result.blocks) links += block.kind == document::BlockKind::figure;
    CHECK(links == 0);
    CHECK(addressesOf(carelessPage(result.blocks)).empty());
    CHECK_FALSE(document::plainText(result.blocks).empty());
    if (typed.find("[x]") != std::string::npos || typed.find("[**x**]") != std::string::npos) {
      CHECK(document::plainText(result.blocks).find('x') != std::string::npos);
    }
  }
}

TEST_CASE("the place of a refused link is its destination") {
  source::SourceSet set;
  const std::string text = "One [x](java&#115;cript:a) and\n> ![y](< data:b>) <vbscript:c> ftp://d.e/f";
  const source::FileId file = set.add("a.md", text);
  const auto result = reading::parseMarkdown(set.text(file), reading::FileTextMap(file), kTestWords);
  std::vector<std::string> places;
  for (const auto& notice : result.notices) places.push_back(std::string(set.text(notice.span)));
  const std::vector<std::string> wanted{"java&#115;cript:a", "data:b", "vbscript:c", "ftp://d.e/f"};
  CHECK(places == wanted);
}

TEST_CASE("HTML is never passed on") {
  for (const std::string typed :
       {"<script>alert(1)</script>", "a <img src=x onerror=alert(1)> b", "<a href=\"javascript:x\">y</a>",
        "<iframe src=\"//x\"></iframe>", "<style>*{}</style>", "<!-- <b> --> <i>x</i>", "<?php x ?>",
        "<!DOCTYPE html>", "<![CDATA[ <b> ]]>", "- <div>\n  <b>x</b>", "| <b> |\n|---|\n| <br> |",
        "> <svg onload=alert(1)>", "a[^1]\n\n[^1]: <u>x</u>", "## <em>x</em>", "*<b>*"}) {
    CAPTURE(typed);
    const auto result = parse(typed);
    CHECK(has(result, "html-in-prose"));
    document::Document document;
    document.blocks = result.blocks;
    const std::string written = render::renderMarkdown(document);
    CHECK(reading::parseMarkdown(written, reading::NoTextMap(), kOwnWords).notices.empty());
    const std::string page = carelessPage(result.blocks);
    for (const char* tag : {"<script", "<img", "<a href=\"j", "<iframe", "<style", "<i>", "<?php", "<!",
                            "<div", "<b>", "<br>", "<svg", "<u>"}) {
      CHECK_MESSAGE(page.find(tag) == std::string::npos, page);
    }
  }
}

TEST_CASE("addresses") {
  for (const char* safe :
       {"http://example.org", "HTTPS://example.org/a?b=c:d#e", "mailto:a@example.org", "MailTo:a@b.c"}) {
    CHECK_MESSAGE(document::addressKind(safe) == AddressKind::outside, safe);
  }
  for (const char* relative : {"", "a.md", "a.md#b", "#b", "../images/a%20b.png", "a/b:c.md", "?x=y:z",
                               "./x:y", "a&b.md", "photos/50%.png", "café.md", "/absolute"}) {
    CHECK_MESSAGE(document::addressKind(relative) == AddressKind::relative, relative);
  }
  for (const char* unsafe : {"javascript:x",
                             " javascript:x",
                             "java\nscript:x",
                             "\x01javascript:x",
                             "data:,x",
                             "//host/x",
                             "\\\\host\\x",
                             "/\\host",
                             "http:x",
                             "https:/x",
                             "ftp://x",
                             "shape:x",
                             "c:/x",
                             ":x",
                             "x%3Ay",
                             "x%253Ay",
                             "&#106;avascript:x",
                             "javascript&colon;x",
                             "%2F%2Fhost",
                             "a:b/c"}) {
    CHECK_MESSAGE(document::addressKind(unsafe) == AddressKind::unsafe, unsafe);
  }
}

TEST_CASE("a document that was made with an unsafe address is written as its words") {
  document::Document document;
  Inline image;
  image.kind = InlineKind::image;
  image.text = "picture";
  image.target.make().address = "data:image/png;base64,x";
  document.blocks = {
      document::paragraph({document::link({document::text("words")}, {"", "", "javascript:alert(1)"}),
                           document::text(" "), image})};
  CHECK(render::renderMarkdown(document) == "words picture\n");
}

TEST_CASE("bytes that are no text are told and replaced") {
  for (const std::string& typed :
       {std::string("caf\xE9"), std::string("a\0b", 3), std::string("\xF0\x9F\x98"),
        std::string("\xED\xA0\x80 x"), std::string("\xC0\xAF[x](shape:a)")}) {
    const auto result = parse(typed);
    CHECK(has(result, "text-unfit"));
    CHECK(document::plainText(result.blocks).find("\xEF\xBF\xBD") != std::string::npos);
  }
}

TEST_CASE("nesting ten thousand deep is flattened and told") {
  const std::size_t deep = 10000;
  for (const std::string& typed : {
           times(deep, ">") + " word",
           times(deep, "- ") + "word",
           times(deep, "1. ") + "word",
           times(deep / 2, "> - ") + "word",
           times(deep, "*a ") + "word" + times(deep, " a*"),
           times(deep, "*a **b ") + "word" + times(deep, " b** a*"),
           times(deep, "![") + "word" + times(deep, "](x)"),
           times(deep / 2, "~~*a ") + "word" + times(deep / 2, " a*~~"),
           times(deep, ">") + " word\n" + times(deep, "word\n"),
       }) {
    CAPTURE(typed.substr(0, 20));
    const auto result = parse(typed);
    CHECK(document::plainText(result.blocks).find("word") != std::string::npos);
    CHECK(has(result, "text-unfit"));
    CHECK(result.notices.size() <= 1);
    document::Document document;
    document.blocks = result.blocks;
    CHECK(render::renderMarkdown(document).find("word") != std::string::npos);
    CHECK(document::dump(document).find("word") != std::string::npos);
  }
}

TEST_CASE("footnotes that hold themselves or each other end") {
  CHECK(has(parse("a[^a]\n\n[^a]: b[^a]\n"), "text-unfit"));
  CHECK(has(parse("a[^a]\n\n[^a]: b[^b]\n\n[^b]: c[^a]\n"), "text-unfit"));
  std::string bomb = "x[^0]\n\n";
  for (int i = 0; i < 40; ++i) {
    const std::string next = "[^" + std::to_string(i + 1) + "]";
    bomb += "[^" + std::to_string(i) + "]: " + next + next + "\n\n";
  }
  const auto result = parse(bomb + "[^40]: y\n");
  CHECK(has(result, "text-unfit"));
  CHECK(document::plainText(result.blocks).size() < 100000);
}

TEST_CASE("texts that are hard on the parser end in time that grows no faster than they do") {
  // A cap far above what they take, so that a busy machine does not fail; the ones that would take the parser itself
  // minutes are not given to it.
  const std::size_t n = 60000;
  const std::vector<std::pair<std::string, bool>> texts = {
      {times(n, "![[]()"), true},
      {times(n, "a <![CDATA["), true},
      {times(n, "www.a_"), true},
      {times(n, "http://a<"), true},
      {times(n * 6, "a@"), true},
      {times(n, "|") + '\n' + times(n, "-|") + '\n', true},
      {times(2000, "a|") + '\n' + times(2000, "-|") + '\n' + times(n, "a\n"), true},
      {times(n, "- ") + "a\n" + times(n, "a\n"), true},
      {times(n, ">") + "a\n" + times(n, "a\n"), true},
      {times(n, "*a "), false},
      {times(n, "a_ "), false},
      {times(n, "["), false},
      {times(n, "]("), false},
      {times(n, "[a]("), false},
      {times(n, "[a](<b"), false},
      {times(n, "](x "), false},
      {times(n, "`](x "), false},
      {times(n, "[a](shape:x) "), false},
      {times(n, "[a](b?x&amp;y) "), false},
      {times(n, "&"), false},
      {times(n, "<!"), true},
      {times(n, "# notes\n"), false},
      {times(n, "[^a]") + "\n\n[^a]: x", false},
      {times(n, "`a``b"), false},
  };
  for (const auto& hard : texts) {
    const std::string& text = hard.first;
    CAPTURE(text.substr(0, 16));
    const auto begin = std::chrono::steady_clock::now();
    const auto result = parse(text);
    document::Document document;
    document.blocks = result.blocks;
    const std::string written = render::renderMarkdown(document);
    const std::chrono::duration<double> took = std::chrono::steady_clock::now() - begin;
    CHECK(took.count() < 10);
    CHECK(has(result, "text-unfit") == hard.second);
    CHECK_FALSE(written.empty());
  }
}

TEST_CASE("any bytes at all are read and written, and what was written is read again") {
  std::mt19937 random(7);
  const std::string signs = "*_`[]()<>!#-+=~|&;:\\\"'\n\n \t0123.abcxyz/@^{}\r\0\xC3\xA9\xFF";
  for (int round = 0; round < 4000; ++round) {
    std::string text;
    const std::size_t length = random() % 120;
    for (std::size_t i = 0; i < length; ++i) text += signs[random() % signs.size()];
    document::Document first;
    first.blocks = parse(text).blocks;
    const std::string written = render::renderMarkdown(first);
    const auto again = parse(written);
    for (const auto& notice : again.notices) {
      CHECK_MESSAGE((notice.rule.id() != "link-unsafe" && notice.rule.id() != "text-unfit"), text, "\n---\n",
                    written);
    }
  }
}

TEST_CASE("several threads read the same as one") {
  const std::string text =
      times(50, "A ~~struck~~ word, https://example.org, www.example.org and *more* [x](shape:a)\n\n");
  auto dumped = [&] {
    document::Document document;
    document.blocks = parse(text).blocks;
    return document::dump(document);
  };
  const std::string wanted = dumped();
  std::vector<int> same(4);
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < same.size(); ++i) {
    threads.emplace_back([&, i] {
      for (int round = 0; round < 40; ++round) same[i] += dumped() == wanted;
    });
  }
  for (std::thread& thread : threads) thread.join();
  for (int count : same) CHECK(count == 40);
}
