#pragma once
#include <memory>
#include <string>
#include <vector>

#include "layout/layout.h"
#include "render/pdf/deflate.h"
#include "render/pdf/slab.h"

// Slabs poured into pages.
namespace saggar::render {

// What a table repeats where it goes on: its head, and the heading of the group that was broken.
struct TableFrame {
  std::vector<Slab> head;
  // The line "Jessamount, continued".
  virtual Slab continued(const std::string& group) const = 0;
  virtual ~TableFrame() = default;
};

struct PlacedLink {
  double left = 0, bottom = 0, right = 0, top = 0;  // page measure, from the lower left corner
  std::uint32_t target = 0;
};

// A page that is full. Its body is already with the deflater; the rest waits until the number of pages is
// known.
struct Page {
  std::string firstGroup;
  std::string lastGroup;
  std::string section;
  std::vector<PlacedLink> links;
};

struct PlacedAnchor {
  std::string name;
  std::uint32_t page = 0;  // from 0
  double top = 0;          // from the lower edge
};

struct PlacedOutline {
  OutlineMark mark;
  std::uint32_t page = 0;
  double top = 0;
};

class Flow {
 public:
  Flow(const layout::PageLayout& layout, Deflater& deflater);

  // Slabs come in reading order. Those that may not be parted from the one before stay on one page if they
  // fit on one.
  void add(Slab slab);
  // Ends the last page. There is always one.
  void finish();

  const std::vector<Page>& pages() const { return pages_; }
  const std::vector<PlacedAnchor>& anchors() const { return anchors_; }
  const std::vector<PlacedOutline>& outline() const { return outline_; }

 private:
  void placeHeld();
  void place(const Slab& slab, bool isRepeated);
  void openPage();
  void closePage();
  void repeatFrame(const Slab& next);

  const layout::PageLayout& layout_;
  Deflater& deflater_;
  std::vector<Slab> held_;  // a run that must not be parted
  double heldHeight_ = 0;

  bool open_ = false;
  bool empty_ = true;  // nothing on the page yet but what is repeated
  double y_ = 0;       // from the top of the type area, downward
  std::string text_;
  std::string strokes_;
  double textX_ = 0, textY_ = 0;  // where the text matrix stands, from the lower left corner of the page
  int font_ = 0;
  double size_ = 0, raise_ = 0;
  layout::Ink ink_;
  layout::RuleLine rule_;
  Page page_;
  std::string section_;

  std::vector<Page> pages_;
  std::vector<PlacedAnchor> anchors_;
  std::vector<PlacedOutline> outline_;
};

}  // namespace saggar::render
