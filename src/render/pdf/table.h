#pragma once
#include <deque>
#include <memory>
#include <string>
#include <vector>

#include "document/document.h"
#include "render/pdf/flow.h"
#include "render/pdf/setting.h"

// Rows of a table set one by one.
namespace saggar::render {

struct ColumnPlan {
  std::vector<double> x;  // left edges
  std::vector<double> width;
};

// Shares the measure out among columns of the given natural and least widths, a gutter between each two: each
// gets what it needs if there is room (what is left over goes to the wide ones); else the narrow ones keep
// theirs and the wide ones share the rest.
ColumnPlan planColumns(const std::vector<Widths>& columns, double measure, double gutter);
// The same, then moved about until the rows (natural widths, one after the other, as many a row as there are
// columns) take as few lines as can be had by widening one column at the cost of another.
ColumnPlan planColumns(const std::vector<Widths>& columns, const std::vector<float>& rows, double measure,
                       double gutter);
// By given shares of the measure.
ColumnPlan planColumnsByShare(const std::vector<double>& shares, double measure, double gutter);

class TableSetter {
 public:
  // `head` gives head cells, alignment and shares; its rows are ignored. `inset` is the distance of the
  // table's left edge from that of the type area, `above` the air before it; slabs go to `sink` in order.
  // With `isFirstKept` its head is not parted from what stands before.
  TableSetter(const layout::PageLayout& layout, TextSetter& texts, SlabSink sink, const document::Table& head,
              double inset, double measure, double above, bool isFirstKept);
  ~TableSetter();
  TableSetter(const TableSetter&) = delete;
  TableSetter& operator=(const TableSetter&) = delete;

  // The row is set at once, unless the widths of columns are still to be found from the first rows.
  void add(const document::Row& row);
  void finish();

 private:
  class Frame;

  void begin();
  void planFromSample();
  void planWriteIn(const std::vector<Widths>& columns, const std::vector<float>& rows);
  void addHead();
  void setRow(const document::Row& row);
  void setGroupHead(const document::Row& row);
  void giveGroupHead(bool isOfLastRows);
  void closeGroup(bool isLastOfTable);
  std::vector<Slab> rowSlabs(const std::vector<document::Cell>& cells,
                             const std::vector<layout::Style>& styles);

  const layout::PageLayout& layout_;
  TextSetter& texts_;
  SlabSink sink_;
  document::Table head_;
  double inset_, measure_, above_;
  bool isFirstKept_;
  bool begun_ = false;
  std::size_t columns_ = 0;
  ColumnPlan plan_;
  std::vector<layout::Style> columnStyles_;  // the cell style with each column's alignment
  std::vector<layout::Style> headStyles_;
  std::vector<document::Row> sample_;
  std::shared_ptr<Frame> frame_;
  std::vector<SetText> cellTexts_;
  std::vector<Slab> groupHead_;         // not given on yet, for its group may be the last and have few rows
  std::deque<std::vector<Slab>> held_;  // rows not given on yet, for they may end a group
  std::shared_ptr<const std::string> group_;
  int rowsInGroup_ = 0;
  bool afterHeading_ = true;  // the next row or group heading must not be parted from what stands before
};

}  // namespace saggar::render
