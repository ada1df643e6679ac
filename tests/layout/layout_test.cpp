#include "layout/layout.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>

#include "layout/built_in.h"

using namespace saggar::layout;

namespace {

PageLayout fit() {
  PageLayout layout;
  layout.paper = *paperNamed("A4");
  layout.faces.push_back({"text", "Some.ttf", "", "", "", ""});
  for (Style& style : layout.styles) style.face = "text";
  return layout;
}

}  // namespace

TEST_CASE("papers have their published sizes") {
  // ISO 216: A4 is 210 by 297 mm. ANSI/ASME Y14.1: A (letter) is 8.5 by 11 in, B (tabloid) 11 by 17 in.
  CHECK(paperNamed("a4")->width == doctest::Approx(210 / 25.4 * 72));
  CHECK(paperNamed("A4")->height == doctest::Approx(297 / 25.4 * 72));
  CHECK(paperNamed("LETTER")->width == 612);
  CHECK(paperNamed("Letter")->height == 792);
  CHECK(paperNamed("Tabloid")->height == 1224);
  CHECK_FALSE(paperNamed("foolscap").has_value());
  CHECK_FALSE(paperNamed("").has_value());
  // Halving an A size gives the next: each is as wide as half the one before is high, to the millimetre.
  for (const auto& [large, small] : {std::pair{"A3", "A4"}, {"A4", "A5"}, {"A5", "A6"}}) {
    CHECK(std::fabs(paperNamed(large)->width - paperNamed(small)->height) < 0.01);
    CHECK(std::fabs(paperNamed(large)->height / 2 - paperNamed(small)->width) < 1 / 25.4 * 72);
  }
}

TEST_CASE("the same layout on another paper keeps its margins") {
  PageLayout upright = fit();
  const double margins = upright.left + upright.right;
  const PageLayout letter = onPaper(upright, *paperNamed("Letter"));
  CHECK(letter.measure() == doctest::Approx(612 - margins));
  PageLayout wide = letter;
  wide.landscape = true;
  CHECK(wide.pageWidth() == 792);
  CHECK(wide.measure() == doctest::Approx(792 - margins));
}

TEST_CASE("every role and place has a name that finds it") {
  for (int i = 0; i < kRoles; ++i) CHECK(roleNamed(nameOf(static_cast<Role>(i))) == static_cast<Role>(i));
  for (int i = 0; i < kPlaces; ++i) CHECK(placeNamed(nameOf(static_cast<Place>(i))) == static_cast<Place>(i));
  CHECK_FALSE(roleNamed("").has_value());
}

TEST_CASE("a layout that nothing can be set with is told apart from one that can") {
  CHECK(whatIsUnfit(fit()).empty());
  PageLayout layout = fit();
  layout.left = 500;
  CHECK(whatIsUnfit(layout).size() == 1);
  layout = fit();
  layout.style(Role::cell).size = 0;
  CHECK(whatIsUnfit(layout).size() == 1);
  layout = fit();
  layout.style(Role::cell).leading = std::numeric_limits<double>::quiet_NaN();
  CHECK(whatIsUnfit(layout).size() == 1);
  layout = fit();
  layout.faces.clear();
  CHECK_FALSE(whatIsUnfit(layout).empty());
  layout = fit();
  layout.faces.front().substitute = "nowhere";
  CHECK(whatIsUnfit(layout).size() == 1);
  layout = fit();
  layout.paper.height = -1;
  CHECK(whatIsUnfit(layout).size() == 1);
}

TEST_CASE("a notice of a kind that is not named follows the one without a kind") {
  PageLayout layout = fit();
  layout.notices.push_back({"", 3, 1, 1, NoticeRules::beside});
  layout.notices.push_back({"caution", 7, 1, 1, NoticeRules::around});
  CHECK(layout.notice("caution").inset == 7);
  CHECK(layout.notice("legend").inset == 3);
  CHECK(fit().notice("legend").rules == NoticeRules::none);
}

TEST_CASE("the project's layouts are inside the program") {
  REQUIRE(builtInLayout("checklist").has_value());
  CHECK(builtInLayout("checklist") == builtInLayout("checklist.xml"));
  CHECK(builtInLayout("checklist")->find("<layout name=\"checklist\"") != std::string_view::npos);
  CHECK(builtInLayout("checklist")->ends_with("</layout>\n"));
  CHECK(builtInLayout("trade-words.txt")->find("cream-ware\n") != std::string_view::npos);
  CHECK_FALSE(builtInLayout("../secret").has_value());
  const auto names = builtInLayoutNames();
  CHECK(std::find(names.begin(), names.end(), "checklist-wide") != names.end());
}
