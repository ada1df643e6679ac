#include "layout/layout.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>

namespace saggar::layout {
namespace {

struct PaperSize {
  std::string_view name;
  double width, height, unit;
};
constexpr double kMillimetre = 72 / 25.4;
constexpr PaperSize kPapers[] = {
    {"A3", 297, 420, kMillimetre}, {"A4", 210, 297, kMillimetre}, {"A5", 148, 210, kMillimetre},
    {"A6", 105, 148, kMillimetre}, {"Letter", 8.5, 11, 72},       {"Legal", 8.5, 14, 72},
    {"Tabloid", 11, 17, 72},
};

constexpr std::string_view kRoleNames[kRoles] = {
    "body",     "title",      "heading",    "subheading", "notice", "caption",      "code",
    "footnote", "table-head", "group-head", "continued",  "cell",   "running-head", "running-foot",
};

constexpr std::string_view kPlaceNames[kPlaces] = {
    "above-head",   "below-head",   "between-rows", "below-group", "below-table",
    "running-head", "running-foot", "notice",       "break",       "footnotes",
};

bool sameLetters(std::string_view a, std::string_view b) {
  auto lower = [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return lower(x) == lower(y); });
}

template <class Enum>
std::optional<Enum> named(std::string_view name, const std::string_view* names, int count) {
  for (int i = 0; i < count; ++i)
    if (names[i] == name) return static_cast<Enum>(i);
  return std::nullopt;
}

}  // namespace

std::optional<Paper> paperNamed(std::string_view name) {
  for (const PaperSize& one : kPapers)
    if (sameLetters(one.name, name))
      return Paper{std::string(one.name), one.width * one.unit, one.height * one.unit};
  return std::nullopt;
}

std::vector<std::string_view> paperNames() {
  std::vector<std::string_view> names;
  for (const PaperSize& one : kPapers) names.push_back(one.name);
  return names;
}

std::string_view nameOf(Role role) {
  return kRoleNames[static_cast<int>(role)];
}
std::optional<Role> roleNamed(std::string_view name) {
  return named<Role>(name, kRoleNames, kRoles);
}
std::vector<std::string_view> roleNames() {
  return {std::begin(kRoleNames), std::end(kRoleNames)};
}

std::string_view nameOf(Place place) {
  return kPlaceNames[static_cast<int>(place)];
}
std::optional<Place> placeNamed(std::string_view name) {
  return named<Place>(name, kPlaceNames, kPlaces);
}
std::vector<std::string_view> placeNames() {
  return {std::begin(kPlaceNames), std::end(kPlaceNames)};
}

const NoticeSpec& PageLayout::notice(std::string_view kind) const {
  static const NoticeSpec plain;
  const NoticeSpec* other = &plain;
  for (const NoticeSpec& one : notices) {
    if (one.kind == kind) return one;
    if (one.kind.empty()) other = &one;
  }
  return *other;
}

const Face* PageLayout::face(std::string_view faceName) const {
  for (const Face& one : faces)
    if (one.name == faceName) return &one;
  return nullptr;
}

PageLayout onPaper(PageLayout layout, const Paper& paper) {
  layout.paper = paper;
  return layout;
}

std::vector<std::string> whatIsUnfit(const PageLayout& layout) {
  std::vector<std::string> out;
  auto outside = [](double value, double least, double most) { return !(value >= least && value <= most); };
  if (outside(layout.paper.width, 72, 14400) || outside(layout.paper.height, 72, 14400)) {
    out.push_back("the paper has no usable size");
    return out;
  }
  for (double margin : {layout.top, layout.right, layout.bottom, layout.left})
    if (outside(margin, 0, 14400)) out.push_back("a margin is negative or larger than any paper");
  if (layout.measure() < 100)
    out.push_back(
        fmt::format("the margins leave lines of {:.0f} pt, and at least 100 are needed", layout.measure()));
  if (layout.depth() < 120)
    out.push_back(
        fmt::format("the margins leave {:.0f} pt of depth, and at least 120 are needed", layout.depth()));
  if (!out.empty()) return out;  // the rest is measured against these
  if (layout.faces.empty()) out.push_back("no face is named, so there is nothing to set with");
  for (const Face& one : layout.faces) {
    if (one.roman.empty()) out.push_back(fmt::format("the face \"{}\" names no roman", one.name));
    if (!one.substitute.empty() && !layout.face(one.substitute))
      out.push_back(fmt::format("the face \"{}\" names a substitute \"{}\", which is no face here", one.name,
                                one.substitute));
  }
  for (const Fallback& one : layout.fallbacks) {
    if (!layout.face(one.face)) out.push_back(fmt::format("the fallback \"{}\" is no face here", one.face));
    if (outside(one.scale, 0.1, 10))
      out.push_back(fmt::format("the scale of the fallback \"{}\" is unusable", one.face));
  }
  for (int i = 0; i < kRoles; ++i) {
    const Style& style = layout.styles[i];
    if (!style.face.empty() && !layout.face(style.face))
      out.push_back(fmt::format("the style \"{}\" asks for a face \"{}\", which is no face here",
                                kRoleNames[i], style.face));
    if (outside(style.size, 2, 200))
      out.push_back(fmt::format("the size of the style \"{}\" is not within 2 and 200 pt", kRoleNames[i]));
    if (outside(style.leading, 2, 400) || style.leading * 4 > layout.depth())
      out.push_back(
          fmt::format("the leading of the style \"{}\" is not within 2 pt and a quarter of the page's depth",
                      kRoleNames[i]));
    if (outside(style.before, 0, layout.depth() / 2) || outside(style.after, 0, layout.depth() / 2))
      out.push_back(fmt::format("the space around the style \"{}\" is negative or more than half a page",
                                kRoleNames[i]));
    if (outside(style.indent, 0, layout.measure() / 2))
      out.push_back(
          fmt::format("the indent of the style \"{}\" is negative or more than half a line", kRoleNames[i]));
    if (style.measure != 0 && outside(style.measure, 72, 14400))
      out.push_back(fmt::format("the measure of the style \"{}\" is less than an inch", kRoleNames[i]));
    if (outside(style.tracking, -200, 2000))
      out.push_back(fmt::format("the tracking of the style \"{}\" is unusable", kRoleNames[i]));
  }
  if (outside(layout.tick.size, 2, 200)) out.push_back("the size of the tick box is not within 2 and 200 pt");
  if (outside(layout.table.gutter, 0, layout.measure() / 4))
    out.push_back("the gutter is negative or more than a quarter of a line");
  for (double space : {layout.table.rowAbove, layout.table.rowBelow, layout.table.groupAbove,
                       layout.table.before, layout.table.after})
    if (outside(space, 0, layout.depth() / 4))
      out.push_back("a space of the table is negative or more than a quarter of a page");
  if (outside(layout.table.writeIn, 0, layout.measure() / 2))
    out.push_back("the column to write in is negative or more than half a line");
  for (const NoticeSpec& one : layout.notices) {
    if (outside(one.inset, 0, layout.measure() / 4))
      out.push_back("the inset of a notice is negative or more than a quarter of a line");
    if (outside(one.before, 0, layout.depth() / 4) || outside(one.after, 0, layout.depth() / 4))
      out.push_back("the space around a notice is negative or more than a quarter of a page");
  }
  for (const RuleLine& one : layout.rules)
    if (outside(one.weight, 0, 20)) out.push_back("a rule's weight is not within 0 and 20 pt");
  return out;
}

}  // namespace saggar::layout
