#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "layout/layout.h"
#include "render/pdf/fount.h"

// A page is filled with slabs: a line of text, a row of a table. A slab knows nothing of its page; what it
// draws is measured from its own upper left corner, downward.
namespace saggar::render {

struct Stroke {
  double x = 0, y = 0;  // of its left or upper end
  double length = 0;
  bool upright = false;
  layout::RuleLine rule;
};

struct LinkArea {
  double x = 0, y = 0, width = 0, height = 0;  // y of the upper edge
  std::uint32_t target = 0;                    // the document's list of targets
};

struct OutlineMark {
  static constexpr int kBelowHeading = 0;  // one level below the last heading
  std::string words;
  int level = 1;
};

struct TableFrame;  // what is repeated when a table goes on on another page

struct Slab {
  double above = 0;  // air before it, dropped at the head of a page
  double height = 0;
  bool mayBreakBefore = true;
  std::string text;               // text operators; the first fount is to be set before
  double startX = 0, startY = 0;  // where the text matrix must stand at first, from the corner, downward
  double endX = 0, endY = 0;      // where it stands after
  const Fount* first = nullptr;   // null: no text
  const Fount* last = nullptr;
  std::vector<Stroke> strokes;
  std::vector<LinkArea> links;
  std::vector<std::string> anchors;
  std::vector<OutlineMark> outline;
  std::shared_ptr<const TableFrame> table;
  std::shared_ptr<const std::string> group;    // of the row; null: none
  std::shared_ptr<const std::string> section;  // a heading's words: what {section} shall say from here
  bool isGroupHead = false;
  bool isTableHead = false;
};

using SlabSink = std::function<void(Slab&&)>;

// Moves everything a slab draws down by so much and makes it so much higher.
void padAbove(Slab& slab, double space);

// Where the base line stands in a line of that leading, from its upper edge: capitals stand in the middle,
// nearly.
inline double baseLine(double leading, double capHeight) {
  return (leading + capHeight * 0.92) / 2;
}

// Writes a slab's text: positions as steps from where the matrix stands, a fount only where it changes.
class SlabText {
 public:
  explicit SlabText(Slab& slab) : slab_(slab) {}
  ~SlabText();
  SlabText(const SlabText&) = delete;
  SlabText& operator=(const SlabText&) = delete;

  // The next words begin here: the base line's place, from the slab's corner, downward.
  void moveTo(double x, double y);
  void setFount(const Fount& fount);
  // What stands between "[(" and ")]TJ".
  void show(std::string_view code);
  // A gap that is no sign (thousandths of the size, to the right).
  void skip(double thousandths);

 private:
  void open();
  void close();

  Slab& slab_;
  const Fount* fount_ = nullptr;
  double x_ = 0, y_ = 0;
  bool moved_ = false;
  bool inArray_ = false;
};

void appendInk(std::string& out, const layout::Ink& ink, bool stroking);

}  // namespace saggar::render
