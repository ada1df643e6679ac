#include "chronology/order.h"

#include <algorithm>

// The problem: a search into the depth goes to and fro over the whole of a large network, and every step waits for
// memory; what follows its order waits again. The choice: points that nothing leads to any more are taken off first, and
// then those that lead nowhere any more, each in the order of their numbers as far as can be, since what belongs together
// has numbers near one another. Only what is left, on rings or between them, is searched.
namespace saggar::chronology {
namespace {

constexpr std::uint32_t kNowhere = 0xFFFFFFFF;

class Grouper {
 public:
  Grouper(const Network& network, const Selection& selection)
      : network_(network), selection_(selection), number_(network.nodes(), 0), low_(network.nodes(), 0) {
    order_.groupOf.assign(network.nodes(), kNowhere);
    order_.nodes.reserve(network.nodes());
    ends_.reserve(network.nodes());
  }

  Order run() {
    count();
    takeOffFirst();
    std::vector<Node> last = takeOffLast();
    std::fill(number_.begin(), number_.end(), 0);
    std::fill(low_.begin(), low_.end(), 0);
    searchRest();
    for (auto node = last.rbegin(); node != last.rend(); ++node) put(*node);
    const auto size = static_cast<std::uint32_t>(order_.nodes.size());
    order_.placeOf = std::move(low_);
    for (std::uint32_t i = 0; i < size; ++i) order_.placeOf[order_.nodes[i]] = i;
    order_.begins.assign(1, 0);
    order_.begins.insert(order_.begins.end(), ends_.begin(), ends_.end());
    return std::move(order_);
  }

 private:
  struct Step {
    Node node;
    std::uint32_t next;  // of the edges out of it
  };

  // A group of one, behind all others.
  void put(Node node) {
    order_.groupOf[node] = static_cast<std::uint32_t>(ends_.size());
    order_.nodes.push_back(node);
    ends_.push_back(static_cast<std::uint32_t>(order_.nodes.size()));
  }

  // Of an edge at a point that is not the origin.
  bool counts(const Arc& arc) const { return arc.other != kOrigin && selection_.has(arc.edge); }

  // How many edges lead to each point, in number_, and on from it, in low_.
  void count() {
    for (EdgeId id = 0; id < network_.edges(); ++id) {
      const Edge& edge = network_.edge(id);
      if (!selection_.has(id)) continue;
      if (edge.from == edge.to) order_.loops.push_back(edge.from);
      if (edge.from == kOrigin || edge.to == kOrigin) continue;
      ++number_[edge.to];
      ++low_[edge.from];
    }
  }

  void takeOffFirst() {
    std::vector<std::uint32_t>& leadHere = number_;
    for (Node start = 1; start < network_.nodes(); ++start) {
      if (leadHere[start] != 0 || order_.groupOf[start] != kNowhere) continue;
      waiting_.push_back(start);
      while (!waiting_.empty()) {
        const Node node = waiting_.back();
        waiting_.pop_back();
        put(node);
        for (const Arc& arc : network_.outOf(node)) {
          // What stands further on will be come to.
          if (counts(arc) && --leadHere[arc.other] == 0 && arc.other < start) waiting_.push_back(arc.other);
        }
      }
    }
  }

  std::vector<Node> takeOffLast() {
    std::vector<Node> taken;
    std::vector<std::uint32_t>& leadOn = low_;
    for (Node start = network_.nodes() - 1; start > 0; --start) {
      if (leadOn[start] != 0 || order_.groupOf[start] != kNowhere) continue;
      waiting_.push_back(start);
      while (!waiting_.empty()) {
        const Node node = waiting_.back();
        waiting_.pop_back();
        order_.groupOf[node] = kTaken;
        taken.push_back(node);
        for (const Arc& arc : network_.into(node)) {
          const Node from = arc.other;
          if (counts(arc) && --leadOn[from] == 0 && from > start && order_.groupOf[from] == kNowhere)
            waiting_.push_back(from);
        }
      }
    }
    return taken;
  }

  void searchRest() {
    const std::size_t before = order_.nodes.size();
    const std::size_t groupsBefore = ends_.size();
    for (Node node = 1; node < network_.nodes(); ++node)
      if (order_.groupOf[node] == kNowhere) visit(node);
    // Groups were closed last first.
    std::reverse(order_.nodes.begin() + static_cast<std::ptrdiff_t>(before), order_.nodes.end());
    const auto sum = static_cast<std::uint32_t>(before + order_.nodes.size());
    const auto first = ends_.begin() + static_cast<std::ptrdiff_t>(groupsBefore);
    std::vector<std::uint32_t> closed(first, ends_.end());
    closed.insert(closed.begin(), static_cast<std::uint32_t>(before));
    closed.pop_back();
    std::transform(closed.rbegin(), closed.rend(), first, [&](std::uint32_t end) { return sum - end; });
    for (std::uint32_t group = static_cast<std::uint32_t>(groupsBefore),
                       at = static_cast<std::uint32_t>(before);
         group < ends_.size(); ++group)
      for (; at < ends_[group]; ++at) order_.groupOf[order_.nodes[at]] = group;
  }

  void open(Node node) {
    number_[node] = low_[node] = ++last_;
    waiting_.push_back(node);
    path_.push_back({node, 0});
  }

  // Tarjan's search.
  void visit(Node start) {
    open(start);
    while (!path_.empty()) {
      Step& step = path_.back();
      const auto arcs = network_.outOf(step.node);
      if (step.next < arcs.size()) {
        const Arc& arc = arcs[step.next++];
        const Node to = arc.other;
        if (!counts(arc) || order_.groupOf[to] != kNowhere) continue;
        if (number_[to] == 0) {
          open(to);
        } else {
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
    const auto begin = static_cast<std::ptrdiff_t>(order_.nodes.size());
    Node node;
    do {
      node = waiting_.back();
      waiting_.pop_back();
      order_.groupOf[node] = kTaken;
      order_.nodes.push_back(node);
    } while (node != root);
    std::sort(order_.nodes.begin() + begin, order_.nodes.end(), std::greater<>());
    ends_.push_back(static_cast<std::uint32_t>(order_.nodes.size()));
  }

  static constexpr std::uint32_t kTaken = kNowhere - 1;

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
  return Grouper(network, selection).run();
}

}  // namespace saggar::chronology
