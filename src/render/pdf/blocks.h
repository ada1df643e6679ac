#pragma once
#include <memory>
#include <string>
#include <vector>

#include "document/document.h"
#include "render/pdf/setting.h"
#include "render/pdf/slab.h"
#include "render/pdf/table.h"

// Blocks as slabs: the space around each, what may not be parted, what is set apart.
namespace saggar::render {

class BlockSetter {
 public:
  BlockSetter(const layout::PageLayout& layout, TextSetter& texts, Shared& shared, SlabSink sink);

  void add(const document::Block& block);
  void beginTable(const document::Table& head);
  void addRow(const document::Row& row);
  // Ends an open table and sets the notes that were met. Nothing can follow.
  void finish();

  const std::vector<std::string>& picturesLeftOut() const { return pictures_; }

 private:
  // Where a block stands: how far from the left edge of the type area, how wide, in what style.
  struct Room {
    double left = 0;
    double width = 0;
    layout::Role role = layout::Role::body;
    int depth = 0;
  };

  struct Marker {
    std::string sign;
    double left = 0;
  };

  void block(const document::Block& block, const Room& room);
  void blocks(const document::Blocks& blocks, const Room& room);
  void paragraph(const document::Inlines& inlines, const Room& room, const layout::Style& style);
  void heading(const document::Block& block, const Room& room);
  void list(const document::Block& block, const Room& room);
  void quote(const document::Blocks& blocks, const Room& room);
  void code(const document::Block& block, const Room& room);
  void rule(const Room& room);
  void table(const document::Table& table, const Room& room);
  void openTable(const document::Table& head, const Room& room);
  void endTable();
  void figure(const document::Block& block, const Room& room);
  void notice(const document::Block& block, const Room& room);
  void define(const document::Block& block, const Room& room);
  void footnotes();
  void emit(Slab slab, double before);

  Room whole() const { return {0, layout_.measure(), layout::Role::body, 0}; }

  const layout::PageLayout& layout_;
  TextSetter& texts_;
  Shared& shared_;
  SlabSink sink_;
  SetText text_;
  std::unique_ptr<TableSetter> table_;
  double space_ = 0;       // asked for by what came last
  bool keepNext_ = false;  // what comes next is not to be parted from what came last
  bool afterParagraph_ = false;
  int headingLevel_ = 0;
  std::vector<std::string> pendingAnchors_;
  std::vector<Marker> markers_;  // of list items whose first line has not been set
  std::vector<std::string> pictures_;
};

}  // namespace saggar::render
