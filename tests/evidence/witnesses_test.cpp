// Who is whose witness: against a second, naive implementation on random graphs of `draws-on`, rings included.
#include <algorithm>
#include <random>
#include <set>

#include "small.h"

using namespace saggar;
using namespace saggar::evidence;
using namespace saggar::evidence::testing;

namespace {

// Everything worked out the long way, from what was typed.
struct Naive {
  std::size_t count = 0;
  std::vector<std::vector<std::size_t>> drawsOn;
  std::vector<std::string> by;
  std::vector<std::string> types;
  std::vector<std::vector<bool>> reaches;  // with itself

  void close() {
    reaches.assign(count, std::vector<bool>(count));
    for (std::size_t i = 0; i < count; ++i) {
      reaches[i][i] = true;
      for (std::size_t j : drawsOn[i]) reaches[i][j] = true;
    }
    for (std::size_t k = 0; k < count; ++k)
      for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = 0; j < count; ++j)
          if (reaches[i][k] && reaches[k][j]) reaches[i][j] = true;
  }
  bool independent(std::size_t a, std::size_t b) const {
    if (a == b || (!by[a].empty() && by[a] == by[b])) return false;
    for (std::size_t k = 0; k < count; ++k)
      if (reaches[a][k] && reaches[b][k]) return false;
    return true;
  }
  std::set<std::set<std::size_t>> rings() const {
    std::set<std::set<std::size_t>> all;
    for (std::size_t i = 0; i < count; ++i) {
      std::set<std::size_t> ring;
      for (std::size_t j = 0; j < count; ++j)
        if (j != i && reaches[i][j] && reaches[j][i]) ring.insert(j);
      if (!ring.empty() || std::find(drawsOn[i].begin(), drawsOn[i].end(), i) != drawsOn[i].end()) {
        ring.insert(i);
        all.insert(ring);
      }
    }
    return all;
  }
  std::string standing(const std::vector<std::size_t>& cites) const {
    bool supported = false;
    for (std::size_t one : cites) {
      if (types[one] == "ledger") return "documented";
      supported |= types[one] == "directory" || types[one] == "copy" || types[one] == "interview";
      for (std::size_t other : cites) supported |= independent(one, other);
    }
    return supported ? "supported" : cites.empty() ? "uncited" : "suggested";
  }
  std::size_t most(const std::vector<std::size_t>& cites) const {
    std::size_t best = 0;
    for (std::uint32_t chosen = 0; chosen < 1U << cites.size(); ++chosen) {
      std::size_t size = 0;
      bool all = true;
      for (std::size_t i = 0; i < cites.size() && all; ++i) {
        if ((chosen >> i & 1) == 0) continue;
        ++size;
        for (std::size_t j = 0; j < i && all; ++j)
          if ((chosen >> j & 1) != 0) all = independent(cites[i], cites[j]);
      }
      if (all) best = std::max(best, size);
    }
    return best;
  }
};

std::string id(std::size_t number) {
  return "s" + std::to_string(number);
}

void compare(std::mt19937& random, std::size_t count, std::size_t edges, bool downhill) {
  const auto upTo = [&](std::size_t most) {
    return std::uniform_int_distribution<std::size_t>(0, most - 1)(random);
  };
  Naive naive;
  naive.count = count;
  naive.drawsOn.resize(count);
  for (std::size_t i = 0; i < edges; ++i) {
    std::size_t from = upTo(count), to = upTo(count);
    if (downhill && from < to) std::swap(from, to);
    if (downhill && from == to) continue;
    naive.drawsOn[from].push_back(to);
  }
  const char* const kTypes[] = {"book",      "newsletter", "website",   "sale",
                                "directory", "copy",       "interview", "ledger"};
  std::string text;
  for (std::size_t i = 0; i < count; ++i) {
    naive.types.push_back(kTypes[upTo(3) == 0 ? upTo(8) : upTo(4)]);
    naive.by.push_back(upTo(3) == 0 ? "Writer " + std::to_string(upTo(4)) : std::string());
    std::string more;
    if (!naive.by[i].empty()) more = "by: " + naive.by[i];
    if (!naive.drawsOn[i].empty()) {
      more += std::string(more.empty() ? "" : ", ") + "draws-on: [";
      for (std::size_t k = 0; k < naive.drawsOn[i].size(); ++k)
        more += (k == 0 ? "" : ", ") + id(naive.drawsOn[i][k]);
      more += "]";
    }
    text += cited(id(i), naive.types[i], more);
  }
  naive.close();
  std::vector<std::vector<std::size_t>> facts(6);
  for (std::size_t i = 0; i < facts.size(); ++i) {
    text += "- {shape: f" + std::to_string(i) + ", introduced: {is: 1932, cite: [";
    for (std::size_t k = 0; k <= upTo(7); ++k) {
      facts[i].push_back(upTo(count));
      text += (k == 0 ? "" : ", ") + id(facts[i].back());
    }
    text += "]}}\n";
  }
  const Small guide(text);
  INFO(text);
  REQUIRE(guide.findings.empty());
  std::vector<RecordIndex> records;
  for (std::size_t i = 0; i < count; ++i) records.push_back(guide.at("source:" + id(i)));
  bool same = true;
  for (std::size_t a = 0; a < count; ++a)
    for (std::size_t b = 0; b < count; ++b) {
      const bool independent = guide.weights->witnesses().independent(records[a], records[b]);
      if (independent != naive.independent(a, b)) {
        INFO(id(a) << " and " << id(b));
        CHECK(independent == naive.independent(a, b));
        same = false;
      }
      if (a == b) continue;
      const RecordIndex common = guide.weights->witnesses().commonTo(records[a], records[b]);
      bool any = false;
      for (std::size_t k = 0; k < count; ++k) any |= naive.reaches[a][k] && naive.reaches[b][k];
      same &= any == (common != records::kNoRecord);
      if (common != records::kNoRecord) {
        const std::size_t k =
            static_cast<std::size_t>(std::find(records.begin(), records.end(), common) - records.begin());
        same &= k < count && naive.reaches[a][k] && naive.reaches[b][k];
      }
    }
  CHECK(same);
  std::set<std::set<std::size_t>> rings;
  for (const auto& ring : guide.weights->witnesses().rings()) {
    std::set<std::size_t> one;
    for (RecordIndex record : ring)
      one.insert(
          static_cast<std::size_t>(std::find(records.begin(), records.end(), record) - records.begin()));
    rings.insert(one);
  }
  CHECK((rings == naive.rings()));
  for (std::size_t i = 0; i < facts.size(); ++i) {
    const std::string shape = "shape:f" + std::to_string(i);
    INFO(shape);
    CHECK(guide.standing(shape, "introduced"_f) == naive.standing(facts[i]));
    CHECK(guide.weights->independentCitations(
              guide.value(shape, "introduced"_f),
              guide.weights->backingOf(guide.at(shape), guide.value(shape, "introduced"_f))) ==
          naive.most(facts[i]));
    const Weighed weighed = guide.weigh(shape, "introduced"_f);
    CHECK(weighed.countedTwice == (naive.standing(facts[i]) == "suggested" && facts[i].size() > 1));
  }
}

}  // namespace

TEST_CASE("a thousand random graphs of sources") {
  std::mt19937 random(19230722);
  for (int i = 0; i < 700; ++i) {
    const std::size_t count = 2 + random() % 14;
    compare(random, count, random() % (count * 2), i % 3 == 0);
  }
  // Sources that come from more things than are kept.
  for (int i = 0; i < 300; ++i) compare(random, 60, 40 + random() % 120, i % 4 != 0);
}

TEST_CASE("the sources of the invented pottery") {
  const Small guide(cited("dunnavick", "book", "by: hesper-dunnavick") +
                    cited("kettlebray", "newsletter", "by: lorn-kettlebray, draws-on: dunnavick") +
                    cited("house-sale", "sale", "draws-on: kettlebray") +
                    cited("orrowick", "interview", "by: Tamsen Orrowick") +
                    cited("letter", "letter", "by: [Hesper  Dunnavick, somebody]") +
                    cited("second", "book", "by: HESPER DUNNAVICK") +
                    cited("note", "book", "by: Miss Dunnavick") +
                    "- {person: hesper-dunnavick, name: Hesper Dunnavick, also: [Miss Dunnavick]}\n"
                    "- {person: lorn-kettlebray, name: Lorn Kettlebray}\n");
  CHECK_FALSE(guide.independent("source:kettlebray", "source:dunnavick"));
  CHECK_FALSE(guide.independent("source:house-sale", "source:dunnavick"));
  CHECK(guide.independent("source:orrowick", "source:dunnavick"));
  CHECK(guide.independent("source:orrowick", "source:house-sale"));
  // A person is the same by id, by name in any letters, and by another name on record.
  CHECK_FALSE(guide.independent("source:second", "source:dunnavick"));
  CHECK_FALSE(guide.independent("source:note", "source:dunnavick"));
  CHECK_FALSE(guide.independent("source:note", "source:second"));
}

TEST_CASE("nobody named is not the same as the same person; one of several is") {
  const Small guide(cited("a", "book") + cited("b", "book") + cited("c", "book", "by: [X, Y]") +
                    cited("d", "book", "by: [Y, Z]") + cited("e", "book", "by: unknown") +
                    cited("f", "book", "by: unknown"));
  CHECK(guide.independent("source:a", "source:b"));
  CHECK_FALSE(guide.independent("source:c", "source:d"));
  CHECK(guide.independent("source:e", "source:f"));
}

TEST_CASE("pieces are witnesses of their own; photos go back to what they show; reports to who reported") {
  const Small guide(
      "- {photo: p, file: images/p.png, shows: specimen:a}\n- {photo: q, file: images/q.png}\n- {photo: r, "
      "file: "
      "images/r.png, shows: [specimen:b]}\n"
      "- {specimen: a, seen: {on: 1997, by: odile}, photo: q}\n- {specimen: b, seen: {on: 1997, by: odile}}\n"
      "- {specimen: c, seen: {on: 1997, by: a dealer, how: reported}}\n- {specimen: d, seen: {on: 1998, by: "
      "A "
      "Dealer, how: reported}}\n" +
      cited("by-dealer", "post", "by: a dealer"));
  CHECK(guide.independent("specimen:a", "specimen:b"));
  CHECK_FALSE(guide.independent("photo:p", "specimen:a"));
  CHECK_FALSE(guide.independent("photo:q", "specimen:a"));
  CHECK_FALSE(guide.independent("photo:q", "photo:p"));
  CHECK(guide.independent("photo:p", "photo:r"));
  CHECK_FALSE(guide.independent("specimen:c", "specimen:d"));
  CHECK_FALSE(guide.independent("specimen:c", "source:by-dealer"));
  CHECK(guide.independent("specimen:c", "specimen:a"));
}

TEST_CASE("a photo of more pieces than a source keeps roots") {
  std::string text = "- {photo: p, file: images/p.png, shows: [";
  for (int i = 0; i < 40; ++i) text += (i == 0 ? "specimen:x" : ", specimen:x") + std::to_string(i);
  text += "]}\n";
  for (int i = 0; i < 41; ++i) text += "- {specimen: x" + std::to_string(i) + ", seen: 1997}\n";
  const Small guide(text);
  CHECK_FALSE(guide.independent("photo:p", "specimen:x0"));
  CHECK_FALSE(guide.independent("photo:p", "specimen:x39"));
  CHECK(guide.independent("photo:p", "specimen:x40"));
}

TEST_CASE("a row of sources that is very long, and a ring of them") {
  constexpr std::size_t kMany = 50000;
  std::string text;
  for (std::size_t i = 0; i < kMany; ++i)
    text += cited(id(i), "book", i == 0 ? std::string() : "draws-on: " + id(i - 1));
  text += cited("alone", "book");
  {
    const Small guide(text);
    CHECK_FALSE(guide.independent("source:s0", "source:" + id(kMany - 1)));
    CHECK(guide.independent("source:alone", "source:" + id(kMany - 1)));
    CHECK(guide.weights->witnesses().rings().empty());
  }
  const Small ring(text + cited("last", "book", "draws-on: " + id(kMany - 1)) +
                   cited("again", "book", "draws-on: again"));
  CHECK(ring.weights->witnesses().rings().size() == 1);
}
