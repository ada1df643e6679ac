#include "study/twins.h"

#include <algorithm>
#include <map>
#include <numeric>
#include <unordered_map>
#include <unordered_set>

#include "study/likeness.h"
#include "study/variants.h"

namespace saggar::study {

using records::Value;
using records::ValueType;

namespace {

// What two records must have in common to be compared at all.
struct Place {
  Kind kind;
  RecordIndex of;     // the maker of a shape; a treatment's shape
  RecordIndex motif;  // of a treatment; kNoRecord for none
  RecordIndex record;
  bool samePlace(const Place& other) const {
    return kind == other.kind && of == other.of && motif == other.motif;
  }
  friend auto operator<=>(const Place&, const Place&) = default;
};

class Search {
 public:
  explicit Search(const Collection& collection) : all_(collection), looks_(collection) {}

  std::vector<Twins> run() {
    gatherPlaces();
    for (std::size_t begin = 0, end = 0; begin < places_.size(); begin = end) {
      while (end < places_.size() && places_[begin].samePlace(places_[end])) ++end;
      if (end - begin > 1) compare({places_.data() + begin, end - begin});
    }
    return groups();
  }

 private:
  void gatherPlaces() {
    for (const RecordIndex shape : all_.ofKind(Kind::shape)) {
      const Value* maker = all_[shape].find("maker"_f);
      if (all_[shape].broken || maker == nullptr || maker->target() == records::kNoRecord) continue;
      places_.push_back({Kind::shape, maker->target(), records::kNoRecord, shape});
    }
    for (const RecordIndex treatment : all_.ofKind(Kind::treatment)) {
      const Record& record = all_[treatment];
      const Value* shape = record.find("shape"_f);
      const Value* motif = record.find("motif"_f);
      if (record.broken || shape == nullptr || motif == nullptr) continue;
      if (motif->type != ValueType::none && motif->target() == records::kNoRecord) continue;
      for (const Value& one : shape->each())
        if (one.target() != records::kNoRecord)
          places_.push_back({Kind::treatment, one.target(), motif->target(), treatment});
    }
    std::sort(places_.begin(), places_.end());
    places_.erase(std::unique(places_.begin(), places_.end()), places_.end());
  }

  const Row& rowOf(RecordIndex record) {
    const auto [place, fresh] = rows_.emplace(record, Row());
    if (fresh) place->second = looks_.rowOf(record);
    return place->second;
  }

  // Those of a place with something recorded, each variant once.
  std::vector<RecordIndex> oneOfEach(std::span<const Place> places) {
    std::vector<RecordIndex> out;
    std::unordered_set<std::string> variants;
    for (const Place& place : places) {
      if (rowOf(place.record).empty()) continue;
      if (place.kind == Kind::treatment) {
        std::string variant = variantOf(all_, place.record);
        if (!variant.empty() && !variants.insert(std::move(variant)).second) continue;
        if (isRenumbered(place, places)) continue;
      }
      out.push_back(place.record);
    }
    return out;
  }

  // It continues another of the same place, from which nothing tells it.
  bool isRenumbered(const Place& place, std::span<const Place> places) {
    RecordIndex earlier = place.record;
    constexpr int kMostSteps = 100;
    for (int step = 0; step < kMostSteps; ++step) {
      const Value* before = all_[earlier].find("continues"_f);
      if (before == nullptr || before->target() == records::kNoRecord) return false;
      earlier = before->target();
      Place other = place;
      other.record = earlier;
      if (earlier == place.record || !std::binary_search(places.begin(), places.end(), other)) continue;
      const bool inRing = continues(all_, earlier, place.record);
      if ((!inRing || earlier < place.record) && alike(rowOf(earlier), rowOf(place.record))) return true;
    }
    return false;
  }

  void compare(std::span<const Place> places) {
    const std::vector<RecordIndex> records = oneOfEach(places);
    std::map<Row, RecordIndex> first;  // equal rows are alike
    for (const RecordIndex record : records) {
      const auto [same, fresh] = first.emplace(rowOf(record), record);
      if (!fresh) unite(same->second, record);
    }
    std::vector<RecordIndex> owners;
    std::vector<const Row*> rows;
    for (const auto& [row, record] : first) {
      owners.push_back(record);
      rows.push_back(&row);
    }
    if (rows.size() < 2) return;
    const Likeness likeness(rows);
    Bits left(rows.size(), true);
    std::vector<std::size_t> line;
    for (std::size_t start = 0; start < rows.size(); ++start) {
      if (!left.has(start)) continue;
      left.clear(start);
      line.assign(1, start);
      while (!line.empty()) {
        const std::size_t at = line.back();
        line.pop_back();
        Bits near = left;
        likeness.keepAlike(at, near);
        near.each([&](std::size_t other) {
          left.clear(other);
          line.push_back(other);
          unite(owners[at], owners[other]);
        });
      }
    }
  }

  RecordIndex headOf(RecordIndex record) {
    auto found = heads_.find(record);
    while (found != heads_.end() && found->second != found->first) {
      const auto next = heads_.find(found->second);
      found->second = next->second;  // the way is halved for who comes next
      found = next;
    }
    return found == heads_.end() ? record : found->first;
  }

  void unite(RecordIndex one, RecordIndex other) {
    const RecordIndex a = headOf(one);
    const RecordIndex b = headOf(other);
    heads_[a] = std::min(a, b);
    heads_[b] = std::min(a, b);
  }

  std::vector<Twins> groups() {
    std::map<RecordIndex, std::vector<RecordIndex>> byHead;
    for (const auto& [record, head] : heads_) byHead[headOf(record)].push_back(record);
    std::vector<Twins> out;
    for (auto& [head, records] : byHead) {
      std::sort(records.begin(), records.end());
      Twins one;
      one.records = std::move(records);
      sayTies(one);
      sayFeatures(one);
      out.push_back(std::move(one));
    }
    std::sort(out.begin(), out.end(),
              [](const Twins& a, const Twins& b) { return a.records.back() < b.records.back(); });
    return out;
  }

  bool inOnePlace(RecordIndex one, RecordIndex other) const {
    const Value* a = all_[one].find("shape"_f);
    const Value* b = all_[other].find("shape"_f);
    if (a == nullptr || b == nullptr) return true;  // shapes of a maker
    if (all_[one].find("motif"_f)->target() != all_[other].find("motif"_f)->target()) return false;
    const auto shapes = b->each();
    return std::any_of(a->each().begin(), a->each().end(), [&](const Value& shape) {
      return std::any_of(shapes.begin(), shapes.end(),
                         [&](const Value& same) { return same.target() == shape.target(); });
    });
  }

  void sayTies(Twins& twins) {
    const auto& records = twins.records;
    constexpr std::size_t kMostCompared = 40;
    if (records.size() > kMostCompared) {
      const Row& first = rowOf(records[0]);
      const bool same = std::all_of(records.begin(), records.end(), [&](RecordIndex one) {
        return inOnePlace(records[0], one) && rowOf(one) == first;
      });
      twins.ties = same ? Twins::Ties::all : Twins::Ties::some;
      if (same) return;
      // Of whom least is recorded.
      const RecordIndex least =
          *std::min_element(records.begin(), records.end(),
                            [&](RecordIndex a, RecordIndex b) { return rowOf(a).size() < rowOf(b).size(); });
      if (!std::all_of(records.begin(), records.end(), [&](RecordIndex one) {
            return one == least || (inOnePlace(least, one) && alike(rowOf(least), rowOf(one)));
          }))
        return;
      twins.ties = Twins::Ties::one;
      twins.hub = least;
      return;
    }
    std::vector<std::size_t> with(records.size(), 0);
    for (std::size_t i = 0; i < records.size(); ++i)
      for (std::size_t j = i + 1; j < records.size(); ++j)
        if (inOnePlace(records[i], records[j]) && alike(rowOf(records[i]), rowOf(records[j])))
          ++with[i], ++with[j];
    const std::size_t ends = std::accumulate(with.begin(), with.end(), std::size_t{0});
    const std::size_t others = records.size() - 1;
    const auto hub = std::find(with.begin(), with.end(), others);
    if (ends == records.size() * others) return;
    twins.ties = Twins::Ties::some;
    if (ends != 2 * others || hub == with.end()) return;
    twins.ties = Twins::Ties::one;
    twins.hub = records[static_cast<std::size_t>(hub - with.begin())];
  }

  void sayFeatures(Twins& twins) {
    std::map<std::pair<std::int64_t, RecordIndex>, std::size_t> times;
    for (const RecordIndex record : twins.records)
      for (const Recorded& one : rowOf(record)) ++times[{effortOf(all_, one.feature), one.feature}];
    for (const auto& [feature, count] : times)
      (count == twins.records.size() ? twins.shared : twins.wanting).push_back(feature.second);
  }

  const Collection& all_;
  Looks looks_;
  std::vector<Place> places_;
  std::unordered_map<RecordIndex, Row> rows_;
  std::unordered_map<RecordIndex, RecordIndex> heads_;
};

}  // namespace

std::vector<Twins> twins(const Collection& collection) {
  return Search(collection).run();
}

}  // namespace saggar::study
