#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "document/document.h"
#include "layout/layout.h"
#include "render/pdf/fount.h"
#include "render/pdf/hyphenation.h"
#include "render/pdf/line_breaking.h"
#include "render/pdf/slab.h"

// Inlines set as lines.
namespace saggar::render {

inline constexpr std::uint32_t kNoLink = 0xFFFFFFFF;

struct Piece {
  const Fount* fount = nullptr;
  std::string_view code;  // valid until FontSet::trim
  double width = 0;
  double gap = -1;  // blank before it; below zero: none
  std::uint32_t link = kNoLink;
  bool struck = false;
  bool rightToLeft = false;
};

struct Line {
  std::uint32_t begin = 0, end = 0;  // of SetText::pieces
  double x = 0;                      // from the left of the measure, by alignment
  double width = 0;                  // as set, blanks included
};

struct SetText {
  std::vector<Piece> pieces;
  std::vector<Line> lines;
  std::vector<std::string> anchors;
  void clear();
};

struct Widths {
  double natural = 0;  // all on one line
  double least = 0;    // the widest part that must not be broken
};

// What the whole document knows and every text may add to.
struct Shared {
  std::vector<document::Target> targets;     // of links, by number
  std::vector<document::Inlines> footnotes;  // in order; the first is number 1
  std::string file;                          // the document's own
  std::uint32_t linksLeftOut = 0;            // targets in other files, or of a kind that is not passed on
};

class TextSetter {
 public:
  TextSetter(FontSet& fonts, const layout::PageLayout& layout, Hyphenator& hyphenator, Shared& shared);

  // Sets the inlines on lines of the measure. `firstIndent` shortens the first. Lines are as few as the
  // alignment needs; there is at least one, unless there is nothing to set.
  void set(const document::Inlines& inlines, const layout::Style& style, double measure, double firstIndent,
           SetText& out);
  Widths measure(const document::Inlines& inlines, const layout::Style& style);

  Fount& fount(const layout::Style& style, bool bold = false, bool italic = false);

  // Adds the line to a slab: `x`, `y` of the left end of the measure on the base line.
  static void draw(const SetText& text, const Line& line, double x, double y, SlabText& to, Slab& slab);

 private:
  enum class AtomKind : std::uint8_t { text, space, breakable, softHyphen, forced };
  struct Atom {
    AtomKind kind = AtomKind::text;
    bool struck = false;
    std::uint32_t begin = 0, end = 0;  // of buffer_
    std::uint32_t link = kNoLink;
    Fount* fount = nullptr;
  };
  struct Part {  // what a box or a penalty stands for
    std::uint32_t atom = 0;
    std::uint32_t begin = 0, end = 0;
    bool hyphen = false;
  };
  struct State {
    bool bold = false, italic = false, struck = false;
    std::uint32_t link = kNoLink;
  };

  Fount& tickFount(const layout::Style& style);
  void flatten(const document::Inlines& inlines, const layout::Style& style, State state, SetText* out);
  void addWords(std::string_view text, Fount& fount, const State& state);
  void addAtom(AtomKind kind, Fount& fount, const State& state);
  void addMark(Fount& fount, std::string_view sign, const State& state);
  std::uint32_t linkTo(const document::Target& target);

  bool setOnOneLine(double measure, const layout::Style& style, SetText& out);
  void makeItems(double measure, bool hyphenate, const layout::Style& style);
  void addWordItems(std::uint32_t atom, double measure, bool hyphenate);
  void cut(std::uint32_t atom, std::size_t at, double penalty, bool hyphen, double hyphenWidth);
  void makeLines(const Breaks& breaks, double measure, double firstIndent, const layout::Style& style,
                 SetText& out);
  static void turnRightToLeft(const Line& line, SetText& out);
  void align(Line& line, SetText& out, double measure, bool last, layout::Setting setting) const;

  FontSet& fonts_;
  const layout::PageLayout& layout_;
  Hyphenator& hyphenator_;
  Shared& shared_;
  const layout::Style* knownStyle_ = nullptr;  // the founts of the style last asked for
  Fount* known_[4] = {};
  const layout::Style* tickStyle_ = nullptr;
  Fount* tick_ = nullptr;
  std::string buffer_;
  std::vector<Atom> atoms_;
  std::vector<LineItem> items_;
  std::vector<Part> parts_;
  std::vector<Stop> stops_;
};

}  // namespace saggar::render
