#include "render/pdf/table.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/text.h"

namespace saggar::render {
namespace {

using document::Cell;
using document::Row;
using layout::Place;
using layout::Role;
using layout::Setting;

constexpr std::size_t kSample = 300;      // rows that the widths of columns are taken from
constexpr double kNarrow = 36;            // a column of this width or less gets no share of what is left over
constexpr std::size_t kMostWeighed = 24;  // columns; beyond, the plan is not improved row by row
constexpr int kMostRounds = 8;
constexpr std::size_t kMostWishes = 16;    // widths tried for a column in a round
constexpr double kRaggedLoss = 1.06;       // a text on several lines fills them a little less than full
constexpr int kFewRows = 2;                // of the last group: they do not stand alone on a page
constexpr int kTallRow = 14;               // lines; a taller row may be broken
constexpr std::size_t kMostColumns = 200;  // what is beyond goes into the last
constexpr double kWriteInCost = 1.1;       // lines that a column to write in may cost, as a share

Setting settingOf(document::Align align) {
  switch (align) {
    case document::Align::right: return Setting::right;
    case document::Align::centre: return Setting::centre;
    default: return Setting::left;
  }
}

double usableGutter(std::size_t columns, double measure, double gutter) {
  return columns < 2 ? 0 : std::min(gutter, measure / 3 / static_cast<double>(columns - 1));
}

// About how many lines the rows take in columns of these widths.
double linesOf(const std::vector<float>& rows, const std::vector<double>& widths) {
  const std::size_t n = widths.size();
  double sum = 0;
  for (std::size_t row = 0; row + n <= rows.size(); row += n) {
    double most = 1;
    for (std::size_t i = 0; i < n; ++i)
      if (rows[row + i] > widths[i])
        most = std::max(most, std::ceil(rows[row + i] * kRaggedLoss / widths[i]));
    sum += most;
  }
  return sum;
}

ColumnPlan placed(std::vector<double> widths, double gutter) {
  ColumnPlan plan;
  double x = 0;
  for (const double width : widths) {
    plan.x.push_back(x);
    x += width + gutter;
  }
  plan.width = std::move(widths);
  return plan;
}

}  // namespace

ColumnPlan planColumns(const std::vector<Widths>& columns, double measure, double gutter) {
  const std::size_t n = columns.size();
  if (n == 0) return {};
  gutter = usableGutter(n, measure, gutter);
  const double room = measure - gutter * static_cast<double>(n - 1);
  std::vector<double> widths(n);
  double natural = 0, wide = 0;
  for (std::size_t i = 0; i < n; ++i) {
    widths[i] = std::min(columns[i].natural, room);
    natural += widths[i];
    if (widths[i] > kNarrow) wide += widths[i];
  }
  if (natural <= room) {
    for (double& width : widths) {
      if (wide > 0)
        width += width > kNarrow ? (room - natural) * width / wide : 0;
      else
        width += (room - natural) / static_cast<double>(n);
    }
    return placed(std::move(widths), gutter);
  }
  // Columns that ask for no more than an equal share get what they ask for, and the shares are worked out
  // again.
  std::vector<bool> settled(n, false);
  double left = room;
  std::size_t open = n;
  for (bool changed = true; changed && open > 0;) {
    changed = false;
    const double fair = left / static_cast<double>(open);
    for (std::size_t i = 0; i < n; ++i)
      if (!settled[i] && widths[i] <= fair) {
        settled[i] = changed = true;
        left -= widths[i];
        --open;
      }
  }
  const double fair = open > 0 ? left / static_cast<double>(open) : 0;
  std::vector<double> weight(n, 0);
  double weights = 0;
  for (std::size_t i = 0; i < n; ++i)
    if (!settled[i]) weights += weight[i] = std::min(widths[i], 3 * fair);
  // The widest word of each must fit, where all such words together do.
  double least = 0;
  for (std::size_t i = 0; i < n; ++i)
    if (!settled[i]) least += std::min(columns[i].least, widths[i]);
  const bool wordsFit = least < left;
  for (bool changed = wordsFit; changed;) {
    changed = false;
    for (std::size_t i = 0; i < n; ++i) {
      const double need = std::min(columns[i].least, widths[i]);
      if (settled[i] || weights <= 0 || left * weight[i] / weights >= need) continue;
      widths[i] = need;
      settled[i] = changed = true;
      left -= need;
      weights -= weight[i];
    }
  }
  for (std::size_t i = 0; i < n; ++i)
    if (!settled[i]) widths[i] = std::max(left * weight[i] / std::max(weights, 1e-9), 0.5);
  return placed(std::move(widths), gutter);
}

ColumnPlan planColumns(const std::vector<Widths>& columns, const std::vector<float>& rows, double measure,
                       double gutter) {
  ColumnPlan plan = planColumns(columns, measure, gutter);
  const std::size_t n = columns.size();
  double natural = 0, given = 0;
  for (std::size_t i = 0; i < n; ++i) {
    natural += columns[i].natural;
    given += plan.width[i];
  }
  if (n < 2 || n > kMostWeighed || natural <= given) return plan;
  std::vector<double>& widths = plan.width;
  auto lines = [&] { return linesOf(rows, widths); };
  double best = lines();
  auto moved = [&](std::size_t from, std::size_t to, double amount) {
    if (from == to || amount <= 0 || widths[from] - amount < std::min(columns[from].least, widths[from]))
      return false;
    widths[from] -= amount;
    widths[to] += amount;
    if (const double now = lines(); now < best) {
      best = now;
      return true;
    }
    widths[from] += amount;
    widths[to] -= amount;
    return false;
  };
  // A wider column saves a line only where some cell comes to fit, so it is widened to what its cells ask for.
  std::vector<float> asked;
  bool changed = true;
  for (int round = 0; changed && round < kMostRounds; ++round) {
    changed = false;
    for (std::size_t to = 0; to < n; ++to) {
      asked.clear();
      for (std::size_t row = 0; row + n <= rows.size(); row += n)
        for (const float share : {1.0F, 0.53F, 0.36F})  // on one line, on two, on three
          if (rows[row + to] * share > widths[to]) asked.push_back(rows[row + to] * share);
      std::sort(asked.begin(), asked.end());
      const std::size_t step = std::max<std::size_t>(asked.size() / kMostWishes, 1);
      for (std::size_t wish = 0; wish < asked.size(); wish += step)
        for (std::size_t from = 0; from < n; ++from)
          changed = moved(from, to, asked[wish] - widths[to]) || changed;
    }
  }
  return placed(std::move(widths), usableGutter(n, measure, gutter));
}

ColumnPlan planColumnsByShare(const std::vector<double>& shares, double measure, double gutter) {
  const std::size_t n = shares.size();
  if (n == 0) return {};
  gutter = usableGutter(n, measure, gutter);
  const double room = measure - gutter * static_cast<double>(n - 1);
  double sum = 0;
  for (const double share : shares) sum += share > 0 && share < 1e9 ? share : 0;
  std::vector<double> widths;
  for (const double share : shares) {
    const double usable = share > 0 && share < 1e9 ? share : 0;
    widths.push_back(std::max(sum > 0 ? room * usable / sum : room / static_cast<double>(n), 0.5));
  }
  return placed(std::move(widths), gutter);
}

class TableSetter::Frame final : public TableFrame {
 public:
  Frame(const layout::PageLayout& layout, TextSetter& texts, double inset, double measure)
      : layout_(layout), texts_(texts), inset_(inset), measure_(measure) {}

  Slab continued(const std::string& group) const override {
    std::string words = layout_.table.continued;
    if (const std::size_t at = words.find("{group}"); at != std::string::npos) words.replace(at, 7, group);
    return line(words, layout_.style(Role::continued));
  }

 private:
  Slab line(const std::string& words, const layout::Style& style) const {
    SetText text;
    texts_.set({document::text(words)}, style, measure_, 0, text);
    Slab slab;
    slab.height = layout_.table.rowAbove + layout_.table.rowBelow + style.leading;
    if (!text.lines.empty()) {
      SlabText to(slab);
      TextSetter::draw(text, text.lines.front(), inset_,
                       layout_.table.rowAbove + baseLine(style.leading, texts_.fount(style).capHeight()), to,
                       slab);
    }
    const auto& rule = layout_.rule(Place::belowGroup);
    slab.strokes.push_back({inset_, slab.height, measure_, false, rule});
    return slab;
  }

  const layout::PageLayout& layout_;
  TextSetter& texts_;
  double inset_, measure_;
};

TableSetter::TableSetter(const layout::PageLayout& layout, TextSetter& texts, SlabSink sink,
                         const document::Table& head, double inset, double measure, double above,
                         bool isFirstKept)
    : layout_(layout),
      texts_(texts),
      sink_(std::move(sink)),
      inset_(inset),
      measure_(measure),
      above_(above),
      isFirstKept_(isFirstKept) {
  head_.head = head.head;
  head_.align = head.align;
  head_.width = head.width;
  head_.writeIn = head.writeIn;
  columns_ = std::max({head_.head.size(), head_.align.size(), head_.width.size()});
}

TableSetter::~TableSetter() = default;

void TableSetter::add(const Row& row) {
  if (begun_) {
    row.groupHead ? setGroupHead(row) : setRow(row);
    return;
  }
  sample_.push_back(row);
  if (!head_.width.empty() || sample_.size() >= kSample) begin();
}

void TableSetter::finish() {
  if (!begun_) begin();
  closeGroup(true);
}

void TableSetter::planFromSample() {
  std::vector<Widths> columns(columns_);
  std::vector<float> rows;
  auto look = [&](const std::vector<Cell>& cells, Role role) {
    rows.resize(rows.size() + columns_);
    for (std::size_t i = 0; i < cells.size() && i < columns_; ++i) {
      const Widths one = texts_.measure(cells[i].inlines, layout_.style(role));
      columns[i].natural = std::max(columns[i].natural, one.natural + 0.02);
      columns[i].least = std::max(columns[i].least, one.least + 0.02);
      rows[rows.size() - columns_ + i] = static_cast<float>(one.natural + 0.02);
    }
  };
  look(head_.head, Role::tableHead);
  for (const Row& row : sample_)
    if (!row.groupHead) look(row.cells, Role::cell);
  plan_ = planColumns(columns, rows, measure_, layout_.table.gutter);
  if (!head_.writeIn.empty() && layout_.table.writeIn > 0) planWriteIn(columns, rows);
}

// A column to write in stands last, if the others can do without its room: their words still fit, and the table grows by
// no more than a tenth.
void TableSetter::planWriteIn(const std::vector<Widths>& columns, const std::vector<float>& rows) {
  const double extra = layout_.table.writeIn;
  const double gutter = usableGutter(columns_ + 1, measure_, layout_.table.gutter);
  const double left = measure_ - extra - gutter;
  if (columns_ == 0 || columns_ >= kMostWeighed || left < measure_ / 2) return;
  ColumnPlan narrow = planColumns(columns, rows, left, gutter);
  for (std::size_t i = 0; i < columns_; ++i)
    if (narrow.width[i] < columns[i].least - 0.01) return;
  if (linesOf(rows, narrow.width) > kWriteInCost * linesOf(rows, plan_.width)) return;
  plan_ = std::move(narrow);
  plan_.x.push_back(left + gutter);
  plan_.width.push_back(extra);
  head_.head.resize(columns_);
  head_.head.push_back(document::cell(head_.writeIn));
  ++columns_;
}

void TableSetter::begin() {
  begun_ = true;
  for (const Row& row : sample_)
    if (!row.groupHead) columns_ = std::max(columns_, row.cells.size());
  columns_ = std::clamp<std::size_t>(columns_, 1, kMostColumns);
  if (head_.width.empty()) {
    planFromSample();
  } else {
    head_.width.resize(columns_, 0);
    plan_ = planColumnsByShare(head_.width, measure_, layout_.table.gutter);
  }
  for (std::size_t i = 0; i < columns_; ++i) {
    const Setting setting = i < head_.align.size() ? settingOf(head_.align[i]) : Setting::left;
    for (const auto& [role, styles] :
         {std::pair{Role::cell, &columnStyles_}, {Role::tableHead, &headStyles_}}) {
      styles->push_back(layout_.style(role));
      styles->back().align = setting;
    }
  }
  frame_ = std::make_shared<Frame>(layout_, texts_, inset_, measure_);
  addHead();
  const std::vector<Row> rows = std::exchange(sample_, {});
  for (const Row& row : rows) row.groupHead ? setGroupHead(row) : setRow(row);
}

void TableSetter::addHead() {
  const bool hasWords =
      std::any_of(head_.head.begin(), head_.head.end(), [](const Cell& one) { return !one.inlines.empty(); });
  std::vector<Slab> slabs;
  if (hasWords)
    slabs = rowSlabs(head_.head, headStyles_);
  else
    slabs.emplace_back();
  slabs.front().above = above_;
  slabs.front().strokes.push_back({inset_, 0, measure_, false, layout_.rule(Place::aboveHead)});
  if (hasWords)
    slabs.back().strokes.push_back(
        {inset_, slabs.back().height, measure_, false, layout_.rule(Place::belowHead)});
  for (std::size_t i = 0; i < slabs.size(); ++i) {
    slabs[i].isTableHead = true;
    slabs[i].mayBreakBefore = i == 0 && !isFirstKept_;
  }
  // A head that would fill half a page is not worth repeating.
  double height = 0;
  for (const Slab& slab : slabs) height += slab.height;
  if (height < layout_.depth() / 3) {
    frame_->head = slabs;
    for (Slab& slab : frame_->head) slab.anchors.clear();
  }
  for (Slab& slab : slabs) sink_(std::move(slab));
}

std::vector<Slab> TableSetter::rowSlabs(const std::vector<Cell>& cells,
                                        const std::vector<layout::Style>& styles) {
  cellTexts_.resize(columns_);
  std::size_t lines = 1;
  for (std::size_t i = 0; i < columns_; ++i) {
    SetText& text = cellTexts_[i];
    text.clear();
    if (i >= cells.size()) continue;
    if (i + 1 == columns_ && cells.size() > columns_) {
      // More cells than the table has columns: their words must not be lost.
      document::Inlines all = cells[i].inlines;
      for (std::size_t k = i + 1; k < cells.size(); ++k) {
        all.push_back(document::text(" "));
        all.insert(all.end(), cells[k].inlines.begin(), cells[k].inlines.end());
      }
      texts_.set(all, styles[i], plan_.width[i], 0, text);
    } else {
      texts_.set(cells[i].inlines, styles[i], plan_.width[i], 0, text);
    }
    lines = std::max(lines, text.lines.size());
  }
  const layout::Style& style = styles.front();
  const double base = baseLine(style.leading, texts_.fount(style).capHeight());
  const bool whole = lines <= static_cast<std::size_t>(kTallRow);
  std::vector<Slab> out(whole ? 1 : lines);
  for (std::size_t part = 0; part < out.size(); ++part) {
    Slab& slab = out[part];
    const std::size_t from = whole ? 0 : part;
    const std::size_t to = whole ? lines : part + 1;
    const double top = from == 0 ? layout_.table.rowAbove : 0;
    slab.height =
        top + static_cast<double>(to - from) * style.leading + (to == lines ? layout_.table.rowBelow : 0);
    slab.mayBreakBefore = part == 0 || (part >= 2 && part + 2 <= lines);
    SlabText writer(slab);
    for (std::size_t i = 0; i < columns_; ++i)
      for (std::size_t k = from; k < to && k < cellTexts_[i].lines.size(); ++k)
        TextSetter::draw(cellTexts_[i], cellTexts_[i].lines[k], inset_ + plan_.x[i],
                         top + static_cast<double>(k - from) * style.leading + base, writer, slab);
  }
  for (std::size_t i = 0; i < columns_; ++i) {
    for (std::string& anchor : cellTexts_[i].anchors) out.front().anchors.push_back(std::move(anchor));
    if (i < cells.size() && !cells[i].anchor.empty()) out.front().anchors.push_back(cells[i].anchor);
  }
  return out;
}

void TableSetter::setRow(const Row& row) {
  std::vector<Slab> slabs = rowSlabs(row.cells, columnStyles_);
  slabs.front().mayBreakBefore = !afterHeading_ && rowsInGroup_ >= layout_.breaking.groupRows;
  afterHeading_ = false;
  ++rowsInGroup_;
  for (Slab& slab : slabs) {
    slab.table = frame_;
    slab.group = group_;
  }
  held_.push_back(std::move(slabs));
  const auto most = static_cast<std::size_t>(std::max(kFewRows, layout_.breaking.groupRows - 1));
  while (held_.size() > most) {
    giveGroupHead(false);
    std::vector<Slab> first = std::move(held_.front());
    held_.pop_front();
    first.back().strokes.push_back(
        {inset_, first.back().height, measure_, false, layout_.rule(Place::betweenRows)});
    for (Slab& slab : first) sink_(std::move(slab));
  }
}

// Where the last group has few rows, its heading is not parted from the rows before it: alone they would be all there is
// on a page.
void TableSetter::giveGroupHead(bool isOfLastRows) {
  if (groupHead_.empty()) return;
  if (isOfLastRows) groupHead_.front().mayBreakBefore = false;
  for (Slab& slab : groupHead_) sink_(std::move(slab));
  groupHead_.clear();
}

void TableSetter::closeGroup(bool isLastOfTable) {
  giveGroupHead(isLastOfTable);
  while (!held_.empty()) {
    std::vector<Slab> one = std::move(held_.front());
    held_.pop_front();
    const bool isLast = held_.empty();
    if (static_cast<int>(held_.size()) + 1 < layout_.breaking.groupRows) one.front().mayBreakBefore = false;
    if (!isLast || isLastOfTable)
      one.back().strokes.push_back({inset_, one.back().height, measure_, false,
                                    layout_.rule(isLast ? Place::belowTable : Place::betweenRows)});
    for (Slab& slab : one) sink_(std::move(slab));
  }
  rowsInGroup_ = 0;
}

void TableSetter::setGroupHead(const Row& row) {
  closeGroup(false);
  document::Inlines words;
  std::string anchor;
  for (const Cell& cell : row.cells) {
    if (!words.empty()) words.push_back(document::text(" "));
    words.insert(words.end(), cell.inlines.begin(), cell.inlines.end());
    if (anchor.empty()) anchor = cell.anchor;
  }
  group_ = std::make_shared<const std::string>(base::trimmed(document::plainText(words)));
  const layout::Style& style = layout_.style(Role::groupHead);
  SetText text;
  texts_.set(words, style, measure_, 0, text);
  const double base = baseLine(style.leading, texts_.fount(style).capHeight());
  const bool first = afterHeading_;
  for (std::size_t i = 0; i < std::max<std::size_t>(text.lines.size(), 1); ++i) {
    Slab slab;
    slab.mayBreakBefore = i == 0 && !first;
    if (i == 0) slab.above = first ? layout_.table.groupAbove / 3 : layout_.table.groupAbove;
    slab.height = style.leading + (i == 0 ? layout_.table.rowAbove : 0);
    {
      SlabText to(slab);
      if (i < text.lines.size())
        TextSetter::draw(text, text.lines[i], inset_, base + (i == 0 ? layout_.table.rowAbove : 0), to, slab);
    }
    if (i == 0) {
      slab.anchors = std::move(text.anchors);
      if (!anchor.empty()) slab.anchors.push_back(anchor);
      if (!group_->empty()) slab.outline.push_back({*group_, OutlineMark::kBelowHeading});
    }
    if (i + 1 >= text.lines.size()) {
      slab.height += layout_.table.rowBelow;
      slab.strokes.push_back({inset_, slab.height, measure_, false, layout_.rule(Place::belowGroup)});
    }
    slab.table = frame_;
    slab.group = group_;
    slab.isGroupHead = true;
    groupHead_.push_back(std::move(slab));
  }
  afterHeading_ = true;
}

}  // namespace saggar::render
