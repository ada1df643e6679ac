#include "evidence/witnesses.h"

#include <algorithm>
#include <iterator>

#include "base/text.h"
#include "evidence/seen.h"

namespace saggar::evidence {

using records::Kind;
using records::Record;
using records::Value;

// Rings are found as Tarjan does (Depth-first search and linear graph algorithms, 1972), on a stack of our own: a row of
// a hundred thousand sources must not exhaust the machine's. A ring is done when all it draws on is done, so that its
// roots can be put together at once.
class Witnesses::Search {
 public:
  explicit Search(Witnesses& own)
      : own_(own), order_(own.nodes_.size() - 1), low_(order_.size()), done_(order_.size()) {}

  void run() {
    rootsOf_.resize(order_.size());
    more_.resize(order_.size());
    for (std::uint32_t node = 0; node < order_.size(); ++node)
      if (order_[node] == 0) from(node);
    for (std::uint32_t node = 0; node < order_.size(); ++node) {
      own_.nodes_[node].roots = static_cast<std::uint32_t>(own_.roots_.size());
      own_.nodes_[node].more = more_[node];
      own_.roots_.insert(own_.roots_.end(), rootsOf_[node].begin(), rootsOf_[node].end());
    }
    own_.nodes_.back().roots = static_cast<std::uint32_t>(own_.roots_.size());
    std::sort(own_.rings_.begin(), own_.rings_.end());
  }

  std::vector<std::vector<RecordIndex>> rootsOf_;  // of photos: what they show, before the search

 private:
  struct Step {
    std::uint32_t node;
    std::uint32_t next;  // the edge to go along
  };

  void enter(std::uint32_t node) {
    order_[node] = low_[node] = ++count_;
    waiting_.push_back(node);
    path_.push_back({node, own_.nodes_[node].edges});
  }

  void from(std::uint32_t start) {
    enter(start);
    while (!path_.empty()) {
      Step& step = path_.back();
      const std::uint32_t node = step.node;
      if (step.next < own_.nodes_[node + 1].edges) {
        const std::uint32_t other = own_.edges_[step.next++];
        if (order_[other] == 0)
          enter(other);
        else if (!done_[other])
          low_[node] = std::min(low_[node], order_[other]);
        continue;
      }
      if (low_[node] == order_[node]) close(node);
      path_.pop_back();
      if (!path_.empty()) low_[path_.back().node] = std::min(low_[path_.back().node], low_[node]);
    }
  }

  // Everything that waits above `node`, and it itself, go back to one another.
  void close(std::uint32_t node) {
    if (!rootsOf_[node].empty()) {  // a photo: it draws on nothing, and all the pieces it shows are kept
      done_[node] = true;
      waiting_.pop_back();
      return;
    }
    const auto first = std::find(waiting_.rbegin(), waiting_.rend(), node).base() - 1;
    std::vector<RecordIndex> roots;
    std::vector<RecordIndex> members;
    bool more = false;
    bool itself = false;
    for (auto one = first; one != waiting_.end(); ++one) {
      members.push_back(own_.recordOf_[*one]);
      for (std::uint32_t other : own_.edgesOf(*one)) {
        itself |= other == *one;
        if (!done_[other]) continue;
        take(rootsOf_[other], roots, more);
        more |= more_[other];
      }
    }
    std::sort(members.begin(), members.end());
    if (roots.empty()) roots.push_back(members.front());
    for (auto one = first; one != waiting_.end(); ++one) {
      done_[*one] = true;
      rootsOf_[*one] = roots;
      more_[*one] = more;
    }
    waiting_.erase(first, waiting_.end());
    if (members.size() > 1 || itself) own_.rings_.push_back(std::move(members));
  }

  // The least of both.
  void take(const std::vector<RecordIndex>& others, std::vector<RecordIndex>& roots, bool& more) {
    together_.clear();
    std::set_union(roots.begin(), roots.end(), others.begin(), others.end(), std::back_inserter(together_));
    if (together_.size() > kKept) {
      together_.resize(kKept);
      more = true;
    }
    roots.swap(together_);
  }

  Witnesses& own_;
  std::vector<std::uint32_t> order_;  // from 1; 0: not entered yet
  std::vector<std::uint32_t> low_;
  std::vector<bool> done_;
  std::vector<bool> more_;
  std::vector<std::uint32_t> waiting_;
  std::vector<Step> path_;
  std::vector<RecordIndex> together_;
  std::uint32_t count_ = 0;
};

Witnesses::Witnesses(const Collection& collection)
    : collection_(collection), nodeOf_(collection.size(), kNoNode) {
  for (Kind kind : {Kind::source, Kind::photo})
    for (RecordIndex one : collection.ofKind(kind)) {
      nodeOf_[one] = static_cast<std::uint32_t>(recordOf_.size());
      recordOf_.push_back(one);
    }
  nodes_.resize(recordOf_.size() + 1);
  std::vector<std::vector<RecordIndex>> shown(recordOf_.size());
  for (std::size_t node = 0; node < recordOf_.size(); ++node) {
    nodes_[node].edges = static_cast<std::uint32_t>(edges_.size());
    const Record& record = collection[recordOf_[node]];
    const Value* from = record.find(record.kind == Kind::source ? "draws-on"_f : "shows"_f);
    if (from != nullptr)
      for (const Value& one : from->each()) {
        const RecordIndex target = one.target();
        if (target == records::kNoRecord) continue;
        if (collection[target].kind == Kind::source) edges_.push_back(nodeOf_[target]);
        if (collection[target].kind == Kind::specimen) shown[node].push_back(target);
      }
    if (record.kind == Kind::source) continue;
    for (const linking::BackReference& back : collection.referredBy(recordOf_[node]))
      if (collection[back.from].kind == Kind::specimen && back.field == "photo"_f)
        shown[node].push_back(back.from);
    std::sort(shown[node].begin(), shown[node].end());
    shown[node].erase(std::unique(shown[node].begin(), shown[node].end()), shown[node].end());
  }
  nodes_.back().edges = static_cast<std::uint32_t>(edges_.size());
  Search search(*this);
  search.rootsOf_ = std::move(shown);
  search.run();
  readPeople();
}

std::span<const std::uint32_t> Witnesses::edgesOf(std::uint32_t node) const {
  return std::span(edges_).subspan(nodes_[node].edges, nodes_[node + 1].edges - nodes_[node].edges);
}

std::span<const RecordIndex> Witnesses::rootsOf(const RecordIndex& thing) const {
  const std::uint32_t node = nodeOf_[thing];
  if (node == kNoNode) return {&thing, 1};
  return std::span(roots_).subspan(nodes_[node].roots, nodes_[node + 1].roots - nodes_[node].roots);
}

bool Witnesses::meet(RecordIndex one, RecordIndex other) const {
  const auto a = rootsOf(one);
  const auto b = rootsOf(other);
  for (std::size_t i = 0, j = 0; i < a.size() && j < b.size();) {
    if (a[i] == b[j]) return true;
    a[i] < b[j] ? ++i : ++j;
  }
  const auto isCut = [&](RecordIndex thing) {
    return nodeOf_[thing] != kNoNode && nodes_[nodeOf_[thing]].more;
  };
  if (!isCut(one) && !isCut(other)) return false;
  return commonTo(one, other) != records::kNoRecord;
}

std::vector<bool> Witnesses::reachedFrom(std::uint32_t start) const {
  std::vector<bool> reached(recordOf_.size());
  std::vector<std::uint32_t> open{start};
  reached[start] = true;
  while (!open.empty()) {
    const std::uint32_t node = open.back();
    open.pop_back();
    for (std::uint32_t next : edgesOf(node)) {
      if (!reached[next]) open.push_back(next);
      reached[next] = true;
    }
  }
  return reached;
}

RecordIndex Witnesses::commonTo(RecordIndex one, RecordIndex other) const {
  if (nodeOf_[one] == kNoNode || nodeOf_[other] == kNoNode || collection_[one].kind != Kind::source ||
      collection_[other].kind != Kind::source) {  // pieces, and photos of them
    const auto a = rootsOf(one);
    const auto b = rootsOf(other);
    const auto found = std::find_first_of(a.begin(), a.end(), b.begin(), b.end());
    return found == a.end() ? records::kNoRecord : *found;
  }
  const std::vector<bool> reached = reachedFrom(nodeOf_[one]);
  std::vector<bool> seen(recordOf_.size());
  std::vector<std::uint32_t> line{nodeOf_[other]};
  seen[line[0]] = true;
  for (std::size_t i = 0; i < line.size(); ++i) {
    if (reached[line[i]]) return recordOf_[line[i]];
    for (std::uint32_t next : edgesOf(line[i])) {
      if (!seen[next]) line.push_back(next);
      seen[next] = true;
    }
  }
  return records::kNoRecord;
}

void Witnesses::readPeople() {
  const auto add = [&](std::string_view name, std::uint32_t number) {
    names_.try_emplace(base::folded(name), number);
  };
  for (Kind kind : {Kind::person, Kind::maker})
    for (RecordIndex one : collection_.ofKind(kind)) {
      const Record& record = collection_[one];
      if (const std::string_view name = record.text("name"_f); !name.empty()) add(name, one);
      if (const Value* also = record.find("also"_f); also != nullptr && also->said())
        for (const Value& other : also->each()) {
          const Value* name = other.is(records::ValueType::mapping) ? other.find("name"_f) : &other;
          if (name != nullptr && name->said()) add(name->text, one);
        }
    }
  const auto learn = [&](const Value* by) {
    if (by == nullptr || !by->said()) return;
    for (const Value& one : by->each())
      if (one.said()) add(one.text, static_cast<std::uint32_t>(collection_.size() + names_.size()));
  };
  for (RecordIndex one : collection_.ofKind(Kind::source)) learn(collection_[one].find("by"_f));
  for (RecordIndex one : collection_.ofKind(Kind::specimen)) {
    const Value* seen = collection_[one].find("seen"_f);
    if (bestSeen(seen) == Seen::reported)
      for (const Value& sighting : seen->each()) learn(sighting.find("by"_f));
  }
  for (RecordIndex one : collection_.ofKind(Kind::source)) {
    nodes_[nodeOf_[one]].people = static_cast<std::uint32_t>(people_.size());
    addPeople(collection_[one].find("by"_f), people_);
  }
  for (std::size_t node = collection_.ofKind(Kind::source).size(); node < nodes_.size(); ++node)
    nodes_[node].people = static_cast<std::uint32_t>(people_.size());
}

void Witnesses::addPeople(const Value* by, std::vector<std::uint32_t>& people) const {
  if (by == nullptr || !by->said()) return;
  for (const Value& one : by->each()) {
    if (!one.said()) continue;
    const std::string_view typed = one.text;
    auto found = collection_.find(Kind::person, typed);
    if (!found) found = collection_.find(Kind::maker, typed);
    if (found) {
      people.push_back(*found);
    } else if (const auto name = names_.find(base::folded(typed)); name != names_.end()) {
      people.push_back(name->second);
    }
  }
}

bool Witnesses::shareSomebody(RecordIndex one, RecordIndex other) const {
  const auto peopleOf = [&](RecordIndex thing, std::vector<std::uint32_t>& own) {
    if (const std::uint32_t node = nodeOf_[thing]; node != kNoNode)
      return std::span(people_).subspan(nodes_[node].people, nodes_[node + 1].people - nodes_[node].people);
    const Value* seen = collection_[thing].find("seen"_f);
    if (collection_[thing].kind == Kind::specimen && bestSeen(seen) == Seen::reported)
      for (const Value& sighting : seen->each()) addPeople(sighting.find("by"_f), own);
    return std::span<const std::uint32_t>(own);
  };
  std::vector<std::uint32_t> first, second;
  const auto a = peopleOf(one, first);
  const auto b = peopleOf(other, second);
  return std::any_of(a.begin(), a.end(), [&](std::uint32_t somebody) {
    return std::find(b.begin(), b.end(), somebody) != b.end();
  });
}

bool Witnesses::independent(RecordIndex one, RecordIndex other) const {
  return one != other && !meet(one, other) && !shareSomebody(one, other);
}

}  // namespace saggar::evidence
