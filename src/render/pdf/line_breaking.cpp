#include "render/pdf/line_breaking.h"

#include <algorithm>
#include <cmath>
#include <limits>

// Problem: a break that suits one line may spoil the next three. Choice: the total-fit method of Knuth and
// Plass: all feasible breakpoints are kept as nodes with the best way to reach them, so the cheapest path is
// found in one pass. Lines after the first have one measure, so nodes of one item need to be kept apart by
// fitness class only, and by line number only when another number of lines is asked for. Cost: work grows
// with words times words a line.
namespace saggar::render {
namespace {

constexpr double kWidest = 1e12;
constexpr double kSlack = 1e-4;  // widths are sums of floats
constexpr std::uint32_t kNone = 0xFFFFFFFF;

struct Node {
  std::uint32_t item = 0;
  std::uint32_t line = 0;
  std::uint8_t fitness = 1;
  double width = 0, stretch = 0,
         shrink = 0;  // totals up to the first item after the break that is not dropped
  double demerits = 0;
  double ratio = 0;
  std::uint32_t previous = kNone;
  bool flagged = false;
};

int fitnessOf(double ratio) {
  return ratio < -0.5 ? 0 : ratio <= 0.5 ? 1 : ratio <= 1 ? 2 : 3;
}

class Breaker {
 public:
  Breaker(std::span<const LineItem> items, const BreakSettings& settings, bool rescue)
      : items_(items), settings_(settings), rescue_(rescue) {}

  Breaks run() {
    nodes_.push_back({});
    active_.push_back(0);
    for (std::uint32_t i = 0; i < items_.size(); ++i) {
      const LineItem& item = items_[i];
      switch (item.kind) {
        case LineItem::Kind::box: width_ += item.width; break;
        case LineItem::Kind::glue:
          if (i > 0 && items_[i - 1].kind == LineItem::Kind::box) tryBreak(i);
          width_ += item.width;
          stretch_ += item.stretch;
          shrink_ += item.shrink;
          break;
        case LineItem::Kind::penalty:
          if (item.penalty < LineItem::kNever) tryBreak(i);
          break;
      }
      if (active_.empty()) return {};
    }
    return chosen();
  }

 private:
  double ratio(const Node& from, const LineItem& at) const {
    const double measure = from.line == 0 ? settings_.firstLine : settings_.otherLines;
    double natural = width_ - from.width;
    if (at.kind == LineItem::Kind::penalty) natural += at.width;
    const double room = measure - natural;
    const double stretch = stretch_ - from.stretch;
    if (settings_.ragged > 0) {
      if (room < -kSlack) return -kWidest;
      return stretch >= LineItem::kFill ? 0 : std::max(room, 0.0) / settings_.ragged;
    }
    if (std::fabs(room) < kSlack) return 0;
    if (room > 0) return stretch > 0 ? room / stretch : kWidest;
    const double shrink = shrink_ - from.shrink;
    return shrink > 0 ? room / shrink : -kWidest;
  }

  void tryBreak(std::uint32_t i) {
    const LineItem& item = items_[i];
    const bool forced = item.kind == LineItem::Kind::penalty && item.penalty <= LineItem::kForced;
    fresh_.clear();
    std::size_t kept = 0;
    for (std::size_t a = 0; a < active_.size(); ++a) {
      const std::uint32_t index = active_[a];
      double r = ratio(nodes_[index], item);
      bool feasible = r >= -1 && r <= settings_.tolerance;
      const bool last = a + 1 == active_.size() && kept == 0 && fresh_.empty();
      if (!feasible && rescue_ && last && r < -1) {
        r = -1;  // nothing else is left: the line sticks out
        feasible = true;
      }
      if (feasible) consider(i, index, std::min(r, 1e3), item, forced);
      if (r >= -1 && !forced && !(rescue_ && last && r == -1)) active_[kept++] = index;
    }
    active_.resize(kept);
    if (fresh_.empty()) return;
    Node totals = afterBreak(i);
    for (Node& one : fresh_) {
      one.width = totals.width;
      one.stretch = totals.stretch;
      one.shrink = totals.shrink;
      active_.push_back(static_cast<std::uint32_t>(nodes_.size()));
      nodes_.push_back(one);
    }
  }

  void consider(std::uint32_t i, std::uint32_t index, double r, const LineItem& item, bool forced) {
    const Node& from = nodes_[index];
    const double badness = 1 + 100 * std::fabs(r * r * r);
    const double penalty = item.kind == LineItem::Kind::penalty ? item.penalty : 0;
    double demerits = badness * badness;
    if (penalty >= 0)
      demerits = (badness + penalty) * (badness + penalty);
    else if (!forced)
      demerits = badness * badness - penalty * penalty;
    const bool flagged = item.kind == LineItem::Kind::penalty && item.flagged;
    if (flagged && from.flagged) demerits += settings_.twoHyphens;
    const int fitness = fitnessOf(r);
    if (std::abs(fitness - static_cast<int>(from.fitness)) > 1) demerits += settings_.mismatch;
    demerits += from.demerits;
    for (Node& one : fresh_) {
      if (one.fitness != fitness || (settings_.looseness != 0 && one.line != from.line + 1)) continue;
      if (demerits < one.demerits) {
        one.demerits = demerits;
        one.line = from.line + 1;
        one.ratio = r;
        one.previous = index;
      }
      return;
    }
    Node node;
    node.item = i;
    node.line = from.line + 1;
    node.fitness = static_cast<std::uint8_t>(fitness);
    node.demerits = demerits;
    node.ratio = r;
    node.previous = index;
    node.flagged = flagged;
    fresh_.push_back(node);
  }

  // What follows a break and is dropped: glue and penalties, up to a box or a forced break.
  Node afterBreak(std::uint32_t i) const {
    Node totals;
    totals.width = width_;
    totals.stretch = stretch_;
    totals.shrink = shrink_;
    for (std::uint32_t k = i; k < items_.size(); ++k) {
      const LineItem& item = items_[k];
      if (item.kind == LineItem::Kind::box) break;
      if (item.kind == LineItem::Kind::glue) {
        totals.width += item.width;
        totals.stretch += item.stretch;
        totals.shrink += item.shrink;
      } else if (item.penalty <= LineItem::kForced && k > i) {
        break;
      }
    }
    return totals;
  }

  Breaks chosen() const {
    const std::uint32_t end = static_cast<std::uint32_t>(items_.size()) - 1;
    const Node* best = nullptr;
    for (std::uint32_t index : active_)
      if (nodes_[index].item == end && (!best || nodes_[index].demerits < best->demerits))
        best = &nodes_[index];
    if (!best) return {};
    if (settings_.looseness != 0) {
      const int wanted = static_cast<int>(best->line) + settings_.looseness;
      const Node* nearest = best;
      for (std::uint32_t index : active_) {
        const Node& one = nodes_[index];
        if (one.item != end) continue;
        const int off = std::abs(static_cast<int>(one.line) - wanted);
        const int offNow = std::abs(static_cast<int>(nearest->line) - wanted);
        if (off < offNow || (off == offNow && one.demerits < nearest->demerits)) nearest = &one;
      }
      best = nearest;
    }
    Breaks out;
    out.demerits = best->demerits;
    for (const Node* one = best; one->previous != kNone; one = &nodes_[one->previous]) {
      out.at.push_back(one->item);
      out.ratios.push_back(one->ratio);
    }
    std::reverse(out.at.begin(), out.at.end());
    std::reverse(out.ratios.begin(), out.ratios.end());
    return out;
  }

  std::span<const LineItem> items_;
  const BreakSettings& settings_;
  bool rescue_;
  std::vector<Node> nodes_;
  std::vector<Node> fresh_;
  std::vector<std::uint32_t> active_;
  double width_ = 0, stretch_ = 0, shrink_ = 0;
};

}  // namespace

Breaks breakLines(std::span<const LineItem> items, const BreakSettings& settings) {
  if (items.empty()) return {};
  return Breaker(items, settings, false).run();
}

Breaks breakLinesAnyhow(std::span<const LineItem> items, BreakSettings settings) {
  if (items.empty()) return {};
  Breaks out = Breaker(items, settings, false).run();
  if (!out.at.empty()) return out;
  settings.looseness = 0;
  settings.tolerance = std::max(settings.tolerance * 3, 6.0);
  out = Breaker(items, settings, false).run();
  if (!out.at.empty()) return out;
  settings.tolerance = std::numeric_limits<double>::infinity();
  return Breaker(items, settings, true).run();
}

}  // namespace saggar::render
