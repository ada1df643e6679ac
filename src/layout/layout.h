#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// How a page looks, as data: what a printer would call the specification. A layout is written in XML, in the
// words of the trade, and read by reading/layout_xml.h; the writers see only the types below. All lengths in
// the types are points (1/72 inch).
//
//   <layout name="checklist" paper="A4" orientation="portrait">
//     <margins top="22mm" right="18mm" bottom="24mm" left="18mm"/>
//     <face name="text" roman="GentiumBookPlus-Regular.ttf" italic="…" bold="…" bold-italic="…"
//           substitute="serif"/>
//     <fallback face="signs" scale="90%" raise="0pt"/>   for what a style's own face lacks; tried in order
//     <style role="body" face="text" size="10pt" leading="13.5pt" align="justify" hyphenate="yes"
//            weight="bold" slope="italic" caps="small" tracking="20" ink="70%" measure="120mm" indent="10pt"
//            before="6pt" after="3pt"/>
//     <running-head gap="7mm" first-page="no" left="{title}" centre="" right="{group}"/>
//     <running-foot gap="9mm" first-page="yes" left="{edition}" right="{page} of {pages}"/>
//     <table gutter="4mm" row-above="2.4pt" row-below="2.4pt" continued="{group}, continued" write-in="24mm"/>
//     <tick sign="☐" size="11pt" raise="-1pt"/>
//     <notice kind="caution" inset="4mm" rules="beside"/>    rules: none, beside, above-below, around
//     <rule place="below-head" weight="0.5pt" ink="100%"/>
//     <draft-mark words="Draft" angle="54" ink="8%"/>
//     <breaking tolerance="2" hyphen-penalty="50" widows="2" orphans="2" group-rows="2"/>
//   </layout>
//
// A layout may say like="checklist": then it begins as that built-in layout, and only what differs is written;
// a style, notice or face of the same role, kind or name takes over what is not said again.
//
// Lengths take pt, pc, mm, cm or in. An ink is a percentage of black or a colour such as #2a4a52. In running
// heads and feet {title} {edition} {authors} {page} {pages} {group} {section} stand for what is on the page.
namespace saggar::layout {

struct Paper {
  std::string name;
  double width = 0;  // upright
  double height = 0;
};
// "A3" to "A6" (ISO 216), "Letter", "Legal", "Tabloid" (ANSI Y14.1 A and B, and legal); letter case does not
// matter.
std::optional<Paper> paperNamed(std::string_view name);
std::vector<std::string_view> paperNames();

struct Ink {
  double red = 0;
  double green = 0;
  double blue = 0;
  friend bool operator==(const Ink&, const Ink&) = default;
};

// One family, as names of font files.
struct Face {
  std::string name;
  std::string roman;
  std::string italic;  // empty: the roman serves
  std::string bold;
  std::string boldItalic;
  std::string substitute;  // the name of another face, for files that are not on the machine
};

struct Fallback {
  std::string face;
  double scale = 1;
  double raise = 0;  // share of the size, upward
};

enum class Role {
  body,
  title,
  heading,
  subheading,
  notice,
  caption,
  code,
  footnote,
  tableHead,
  groupHead,
  continued,
  cell,
  runningHead,
  runningFoot,
};
inline constexpr int kRoles = 14;
std::string_view nameOf(Role role);
std::optional<Role> roleNamed(std::string_view name);
std::vector<std::string_view> roleNames();

enum class Setting { left, right, centre, justify };
enum class Caps { asTyped, small, smallOnly };  // smallOnly: capitals become small capitals too

struct Style {
  std::string face;  // empty: the body's
  double size = 10;
  double leading = 13.5;
  bool bold = false;
  bool italic = false;
  Caps caps = Caps::asTyped;
  double tracking = 0;  // thousandths of the size between letters
  Setting align = Setting::left;
  bool hyphenate = false;
  double measure = 0;  // lines are no longer than this; 0: as long as there is room
  double indent = 0;   // of the first line of a paragraph that follows another
  double before = 0;   // space above; dropped at the head of a page
  double after = 0;
  Ink ink;
};

// A running line; empty texts are left out.
struct RunningLine {
  double gap = 0;  // from the type area to the line's base
  bool onFirstPage = true;
  std::string left;
  std::string centre;
  std::string right;
};

enum class Place {
  aboveHead,
  belowHead,
  betweenRows,
  belowGroup,
  belowTable,
  runningHead,
  runningFoot,
  notice,
  rule,
  footnotes
};
inline constexpr int kPlaces = 10;
std::string_view nameOf(Place place);
std::optional<Place> placeNamed(std::string_view name);
std::vector<std::string_view> placeNames();

struct RuleLine {
  double weight = 0;  // 0: none
  Ink ink;
};

struct TableSpec {
  double gutter = 11;
  double rowAbove = 2.4;
  double rowBelow = 2.4;
  double groupAbove = 8;  // more air before a group's heading
  double before = 8;
  double after = 10;
  double writeIn = 0;  // width of a column to write in, for tables that ask for one and have room; 0: none
  std::string continued = "{group}, continued";
};

struct Tick {
  std::string sign = "☐";
  double size = 11;
  double raise = 0;
};

enum class NoticeRules { none, beside, aboveBelow, around };
struct NoticeSpec {
  std::string kind;  // empty: every kind that is not named
  double inset = 0;
  double before = 8;
  double after = 8;
  NoticeRules rules = NoticeRules::none;
};

struct DraftMark {
  std::string words = "Draft";
  double angle = 54;
  Ink ink{0.92, 0.92, 0.92};
};

struct Breaking {
  double tolerance = 2;  // largest stretch of a line, in units of its stretchability
  double hyphenPenalty = 50;
  int hyphenLeft = 2;   // letters that stay
  int hyphenRight = 3;  // letters that go
  int widows = 2;
  int orphans = 2;
  int groupRows = 2;  // rows that must follow a group's heading on its page, and rows never left alone
};

struct PageLayout {
  std::string name;
  Paper paper;
  bool landscape = false;
  double top = 60, right = 50, bottom = 60, left = 50;
  std::vector<Face> faces;
  std::vector<Fallback> fallbacks;
  Style styles[kRoles];
  RunningLine head;
  RunningLine foot;
  TableSpec table;
  Tick tick;
  std::vector<NoticeSpec> notices;
  RuleLine rules[kPlaces];
  DraftMark draft;
  Breaking breaking;
  std::vector<std::string> hyphenation;  // words with their breaks: "cream-ware"

  double pageWidth() const { return landscape ? paper.height : paper.width; }
  double pageHeight() const { return landscape ? paper.width : paper.height; }
  double measure() const { return pageWidth() - left - right; }
  double depth() const { return pageHeight() - top - bottom; }
  const Style& style(Role role) const { return styles[static_cast<int>(role)]; }
  Style& style(Role role) { return styles[static_cast<int>(role)]; }
  const RuleLine& rule(Place place) const { return rules[static_cast<int>(place)]; }
  RuleLine& rule(Place place) { return rules[static_cast<int>(place)]; }
  const NoticeSpec& notice(std::string_view kind) const;
  const Face* face(std::string_view faceName) const;
};

// The same layout on another paper: margins stay, the measure follows.
PageLayout onPaper(PageLayout layout, const Paper& paper);

// What makes a layout unfit to set anything with, in words, one a line; empty if it is fit. Every writer may
// rely on a layout that passed: the measure and depth hold some lines, sizes are above zero, faces that are
// named exist.
std::vector<std::string> whatIsUnfit(const PageLayout& layout);

}  // namespace saggar::layout
