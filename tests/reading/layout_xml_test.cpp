#include "reading/layout_xml.h"

#include <doctest/doctest.h>

#include <random>
#include <string>

#include "layout/built_in.h"
#include "source/source_set.h"

using namespace saggar;
using layout::Role;
using reading::readLayout;

namespace {

const std::string kFace = "<face name='text' roman='Some.ttf'/>";

std::string layoutOf(const std::string& inside) {
  return "<layout name='mine' paper='A4'>\n" + kFace + "\n" + inside + "\n</layout>\n";
}

// The one problem of a layout, as "line:column message (hint)".
std::string problemOf(const std::string& xml) {
  source::SourceSet files;
  const auto file = files.add("layouts/mine.xml", xml);
  const auto read = readLayout(file, xml);
  REQUIRE(read.problems.size() == 1);
  const auto& one = read.problems.front();
  const auto place = files.place(one.span);
  return std::to_string(place.line) + ":" + std::to_string(place.column) + " " + one.message +
         (one.hint.empty() ? "" : " (" + one.hint + ")");
}

}  // namespace

TEST_CASE("the built-in layouts are read without a word") {
  for (const auto name : layout::builtInLayoutNames()) {
    CAPTURE(name);
    const auto read = readLayout(0, *layout::builtInLayout(name));
    for (const auto& problem : read.problems) MESSAGE(problem.message);
    CHECK(read.problems.empty());
    REQUIRE(read.layout.has_value());
    CHECK(read.layout->name == name);
    CHECK(layout::whatIsUnfit(*read.layout).empty());
  }
}

TEST_CASE("everything a layout may say is taken in") {
  const auto read = readLayout(0, R"xml(<?xml version="1.0"?>
<layout name="mine" paper="Letter" orientation="landscape">
  <margins top="1in" right="2cm" bottom="30mm" left="6pc"/>
  <style role="title" size="20pt" weight="bold" slope="italic" caps="small-only" tracking="30" ink="#336699"
         align="centre" before="3pt" after="4pt" indent="5pt" hyphenate="yes" measure="100mm"/>
  <style role="body" face="text" size="9pt" leading="12pt"/>
  <face name="text" roman="A.ttf" italic="B.ttf" bold="C.ttf" bold-italic="D.ttf" substitute="other"/>
  <face name="other" roman="E.ttf"/>
  <fallback face="other" scale="90%" raise="-5%"/>
  <running-head gap="5mm" first-page="no" left="{title}" centre="x" right="{group} {section}"/>
  <running-foot gap="6mm" left="{edition} {authors}" right="{page} of {pages}"/>
  <table gutter="3mm" row-above="1pt" row-below="2pt" group-above="7pt" before="3pt" after="4pt"
         continued="{group} (more)"/>
  <tick sign="○" size="9pt" raise="1pt"/>
  <notice kind="caution" inset="3pt" before="1pt" after="2pt" rules="around"/>
  <rule place="notice" weight="1pt" ink="50%"/>
  <draft-mark words="Not yet" angle="10" ink="5%"/>
  <breaking tolerance="3" hyphen-penalty="70" hyphen-left="3" hyphen-right="4" widows="3" orphans="1"
            group-rows="3"/>
  <hyphenation>pot-tery
    glost-oven</hyphenation>
</layout>)xml");
  for (const auto& problem : read.problems) MESSAGE(problem.message);
  CHECK(read.problems.empty());
  REQUIRE(read.layout);
  const layout::PageLayout& it = *read.layout;
  CHECK(it.name == "mine");
  CHECK(it.pageWidth() == 792);
  CHECK(it.top == 72);
  CHECK(it.right == doctest::Approx(720 / 25.4 * 2));
  CHECK(it.bottom == doctest::Approx(30 * 72 / 25.4));
  CHECK(it.left == 72);
  const auto& title = it.style(Role::title);
  CHECK(title.size == 20);
  CHECK(title.leading == doctest::Approx(26));  // 1.3 of a size without a leading of its own
  CHECK(title.bold);
  CHECK(title.italic);
  CHECK(title.caps == layout::Caps::smallOnly);
  CHECK(title.tracking == 30);
  CHECK(title.ink == layout::Ink{0.2, 0.4, 0.6});
  CHECK(title.align == layout::Setting::centre);
  CHECK(title.before == 3);
  CHECK(title.after == 4);
  CHECK(title.indent == 5);
  CHECK(title.hyphenate);
  CHECK(title.measure == doctest::Approx(100 * 72 / 25.4));
  CHECK(title.face == "text");
  CHECK(it.style(Role::cell).size == 9);  // as the body, wherever that is written
  CHECK(it.style(Role::cell).leading == 12);
  REQUIRE(it.faces.size() == 2);
  CHECK(it.faces[0].boldItalic == "D.ttf");
  CHECK(it.faces[0].substitute == "other");
  REQUIRE(it.fallbacks.size() == 1);
  CHECK(it.fallbacks[0].scale == doctest::Approx(0.9));
  CHECK(it.fallbacks[0].raise == doctest::Approx(-0.05));
  CHECK_FALSE(it.head.onFirstPage);
  CHECK(it.head.centre == "x");
  CHECK(it.foot.onFirstPage);
  CHECK(it.foot.right == "{page} of {pages}");
  CHECK(it.table.gutter == doctest::Approx(3 * 72 / 25.4));
  CHECK(it.table.groupAbove == 7);
  CHECK(it.table.continued == "{group} (more)");
  CHECK(it.tick.sign == "○");
  CHECK(it.notice("caution").rules == layout::NoticeRules::around);
  CHECK(it.rule(layout::Place::notice).weight == 1);
  CHECK(it.rule(layout::Place::notice).ink == layout::Ink{0.5, 0.5, 0.5});
  CHECK(it.draft.words == "Not yet");
  CHECK(it.breaking.widows == 3);
  CHECK(it.breaking.groupRows == 3);
  CHECK(it.breaking.hyphenRight == 4);
  CHECK(it.hyphenation == std::vector<std::string>{"pot-tery", "glost-oven"});
}

TEST_CASE("a layout like another says only what differs") {
  const auto base = readLayout(0, *layout::builtInLayout("checklist"));
  const auto read = readLayout(0, R"(<layout name="mine" like="checklist" paper="Letter">
  <style role="cell" size="12pt" leading="15pt"/>
  <face name="signs" roman="Mine.ttf"/>
  <notice kind="legend" inset="9pt"/>
</layout>)");
  CHECK(read.problems.empty());
  REQUIRE(read.layout);
  CHECK(read.layout->paper.name == "Letter");
  CHECK(read.layout->style(Role::cell).size == 12);
  CHECK(read.layout->style(Role::title).size == base.layout->style(Role::title).size);
  CHECK(read.layout->faces.size() == base.layout->faces.size());
  CHECK(read.layout->face("signs")->roman == "Mine.ttf");
  CHECK(read.layout->notice("legend").inset == 9);
  CHECK(read.layout->notice("legend").before == base.layout->notice("legend").before);
  CHECK(read.layout->notices.size() == base.layout->notices.size());
}

TEST_CASE("a slip is reported at its place, with what to type instead") {
  CHECK(problemOf(layoutOf("<style role=\"body\" leeding=\"12pt\"/>")) ==
        "3:20 <style> has no attribute \"leeding\", so it has no effect (did you mean \"leading\"?)");
  CHECK(problemOf(layoutOf("<style role=\"boddy\" size=\"9pt\"/>")) ==
        "3:8 there is no role \"boddy\" (did you mean \"body\"?)");
  CHECK(problemOf(layoutOf("<stile role=\"body\"/>")) ==
        "3:2 a layout has no <stile>, so it has no effect (did you mean \"style\"?)");
  CHECK(problemOf(layoutOf("<style role='body' size='12'/>")) ==
        "3:20 size of <style> is \"12\", which is not a length (give a number with its unit, such as 12mm, "
        "10.5pt or "
        "0.5in)");
  CHECK(problemOf(layoutOf("<rule place='notice' ink='dark'/>")) ==
        "3:22 ink of <rule> is \"dark\", which is not an ink (give a share of black such as 60%, or a colour "
        "such as "
        "#2a4a52)");
  CHECK(problemOf(layoutOf("<style role='body' align='center'/>")) ==
        "3:20 \"center\" is no value of align (did you mean \"centre\"?)");
  CHECK(problemOf(layoutOf("<running-foot right='{pagse}'/>")) ==
        "3:15 {pagse} stands for nothing here and would be printed as it is (did you mean \"pages\"?)");
  CHECK(problemOf(layoutOf("<tick size='9pt' size='8pt'/>")).find("3:7 size is given twice") == 0);
  CHECK(problemOf("<layout paper='A44'>" + kFace + "</layout>") ==
        "1:9 no paper is called \"A44\" (did you mean \"A4\"?)");
  CHECK(problemOf("<layout like='cheklist'>" + kFace + "</layout>").find("did you mean \"checklist\"?") !=
        std::string::npos);
  CHECK(problemOf(layoutOf("<breaking widows='2.5'/>")).find("give a whole number from 1 to 5") !=
        std::string::npos);
  CHECK(problemOf(layoutOf("<margins left='100mm' right='100mm'/>")).find("at least 100 are needed") !=
        std::string::npos);
  CHECK(problemOf(layoutOf("stray words")).find("text between the elements") != std::string::npos);
  CHECK(problemOf(layoutOf("<table><row/></table>")).find("<table> holds nothing inside") !=
        std::string::npos);
  CHECK(problemOf("<layout paper='A4'></layout>").find("names no face") != std::string::npos);
}

TEST_CASE("a layout with a slip can be worked with all the same") {
  const auto read = readLayout(0, layoutOf("<style role='body' size='enormous' leading='13pt'/>"));
  CHECK(read.problems.size() == 1);
  REQUIRE(read.layout);
  CHECK(read.layout->style(Role::body).size == 10);
  CHECK(read.layout->style(Role::body).leading == 13);
}

TEST_CASE("what is no layout at all says so once and gives none") {
  for (const std::string& xml :
       {std::string(), std::string("plain words"), std::string("<layout"), std::string("<layout></laoyut>"),
        std::string("<book/>"), std::string("<layout a='1' b=></layout>"), std::string("<layout><!-- open"),
        std::string("<layout name='\xFF'/>"), std::string(2 << 20, ' '), std::string("\xEF\xBB\xBF")}) {
    CAPTURE(xml.substr(0, 40));
    const auto read = readLayout(0, xml);
    CHECK(read.problems.size() == 1);
    CHECK_FALSE(read.layout.has_value());
  }
}

TEST_CASE("a mark at the file's beginning shifts no place") {
  CHECK(problemOf("\xEF\xBB\xBF<layout paper='A44'>" + kFace + "</layout>").find("no paper is called") !=
        std::string::npos);
  const std::string xml = "\xEF\xBB\xBF<layout paper='A44'>" + kFace + "</layout>";
  const auto read = readLayout(0, xml);
  const auto span = read.problems.front().span;
  CHECK(xml.substr(span.begin, span.end - span.begin) == "paper");
}

TEST_CASE("lengths and inks") {
  CHECK(reading::readLength("12pt") == 12.0);
  CHECK(reading::readLength(" 1.5 in ") == 108.0);
  CHECK(reading::readLength("0") == 0.0);
  CHECK(reading::readLength("25.4mm").value() == doctest::Approx(72));
  CHECK_FALSE(reading::readLength("12").has_value());
  CHECK_FALSE(reading::readLength("pt").has_value());
  CHECK_FALSE(reading::readLength("1e999pt").has_value());
  CHECK_FALSE(reading::readLength("nanpt").has_value());
  CHECK_FALSE(reading::readLength("1,5mm").has_value());
  CHECK(reading::readInk("100%") == layout::Ink{0, 0, 0});
  CHECK(reading::readInk("#fff") == layout::Ink{1, 1, 1});
  CHECK_FALSE(reading::readInk("101%").has_value());
  CHECK_FALSE(reading::readInk("#12345").has_value());
  CHECK_FALSE(reading::readInk("#12345g").has_value());
}

TEST_CASE("ten thousand spoilt layouts neither crash nor give one that is unfit") {
  const std::string good(*layout::builtInLayout("checklist"));
  std::mt19937 random(7);
  int kept = 0;
  for (int round = 0; round < 10000; ++round) {
    std::string xml = good;
    for (unsigned edits = random() % 4 + 1; edits > 0; --edits) {
      const std::size_t at = random() % xml.size();
      switch (random() % 3) {
        case 0: xml[at] = static_cast<char>(random() % 256); break;
        case 1: xml.erase(at, random() % 20 + 1); break;
        default: xml.insert(at, xml.substr(random() % xml.size(), random() % 30)); break;
      }
    }
    const auto read = readLayout(0, xml);
    if (read.layout) {
      ++kept;
      REQUIRE(layout::whatIsUnfit(*read.layout).empty());
    } else {
      REQUIRE_FALSE(read.problems.empty());
    }
  }
  CHECK(kept > 500);
}

TEST_CASE("elements nested without end are refused, not followed") {
  std::string xml = "<layout>";
  for (int i = 0; i < 100000; ++i) xml += "<b>";
  const auto read = readLayout(0, xml);
  CHECK_FALSE(read.layout.has_value());
  std::string closed = "<layout>" + kFace;
  for (int i = 0; i < 20000; ++i) closed += "<b>";
  for (int i = 0; i < 20000; ++i) closed += "</b>";
  CHECK(readLayout(0, closed + "</layout>").problems.size() == 1);
}
