#include "chronology/order.h"

#include <algorithm>

namespace saggar::chronology {
namespace {

class Tarjan {
 public:
  Tarjan(const Network& network, const Selection& selection)
      : network_(network), selection_(selection), number_(network.nodes(), 0), low_(network.nodes(), 0) {
    order_.groupOf.assign(network.nodes(), 0xFFFFFFFF);
    order_.nodes.reserve(network.nodes());
  }

  Order run() {
    for (Node node = 1; node < network_.nodes(); ++node)
      if (number_[node] == 0) visit(node);
    // Groups were closed last first.
    std::reverse(order_.nodes.begin(), order_.nodes.end());
    const auto size = static_cast<std::uint32_t>(order_.nodes.size());
    order_.placeOf = std::move(low_);
    for (std::uint32_t i = 0; i < size; ++i) order_.placeOf[order_.nodes[i]] = i;
    for (std::uint32_t& end : ends_) end = size - end;
    order_.begins.assign(ends_.rbegin(), ends_.rend());
    order_.begins.push_back(size);
    const auto groups = static_cast<std::uint32_t>(ends_.size());
    for (Node node = 1; node < network_.nodes(); ++node)
      order_.groupOf[node] = groups - 1 - order_.groupOf[node];
    return std::move(order_);
  }

 private:
  struct Step {
    Node node;
    std::uint32_t next;  // of the edges out of it
  };

  void open(Node node) {
    number_[node] = low_[node] = ++last_;
    waiting_.push_back(node);
    path_.push_back({node, 0});
  }

  void visit(Node start) {
    open(start);
    while (!path_.empty()) {
      Step& step = path_.back();
      const auto edges = network_.outOf(step.node);
      if (step.next < edges.size()) {
        const EdgeId edge = edges[step.next++];
        const Node to = network_.edge(edge).to;
        if (to == kOrigin || !selection_.has(edge)) continue;
        if (number_[to] == 0) {
          open(to);
        } else if (order_.groupOf[to] == 0xFFFFFFFF) {
          low_[step.node] = std::min(low_[step.node], number_[to]);
        }
        continue;
      }
      const Node node = step.node;
      path_.pop_back();
      if (!path_.empty()) low_[path_.back().node] = std::min(low_[path_.back().node], low_[node]);
      if (low_[node] == number_[node]) close(node);
    }
  }

  void close(Node root) {
    Node node;
    do {
      node = waiting_.back();
      waiting_.pop_back();
      order_.groupOf[node] = static_cast<std::uint32_t>(ends_.size());
      order_.nodes.push_back(node);
    } while (node != root);
    ends_.push_back(static_cast<std::uint32_t>(order_.nodes.size()));
  }

  const Network& network_;
  const Selection& selection_;
  std::vector<std::uint32_t> number_, low_;
  std::vector<Node> waiting_;
  std::vector<Step> path_;
  std::vector<std::uint32_t> ends_;
  std::uint32_t last_ = 0;
  Order order_;
};

}  // namespace

Order orderOf(const Network& network, const Selection& selection) {
  return Tarjan(network, selection).run();
}

}  // namespace saggar::chronology
