#pragma once
#include <algorithm>
#include <cstdint>
#include <map>
#include <string>
#include <vector>

// Random records and conditions with a second implementation that knows nothing but the sentences of the semantics and
// works on what was generated, not on what was read.
namespace saggar::choosing::testing {

class Random {
 public:
  explicit Random(std::uint64_t seed) : state_(seed) {}
  int below(int limit) {
    state_ += 0x9E3779B97F4A7C15ULL;
    std::uint64_t mixed = state_;
    mixed = (mixed ^ (mixed >> 30)) * 0xBF58476D1CE4E5B9ULL;
    mixed = (mixed ^ (mixed >> 27)) * 0x94D049BB133111EBULL;
    return static_cast<int>((mixed ^ (mixed >> 31)) % static_cast<std::uint64_t>(limit));
  }
  bool oneIn(int count) { return below(count) == 0; }

 private:
  std::uint64_t state_;
};

// What one field says: left out, `unknown`, `none`, or values that are a list, perhaps one that leaves nothing out.
struct Said {
  enum { absent, unknown, none, values } what = absent;
  std::vector<std::string> list;
  bool isList = false;
  bool complete = false;
  bool perhaps = false;  // one of the list, nobody knows which

  bool says() const { return what == values || what == none; }
  bool hasAnyOf(const Said& other) const {
    if (what == none || other.what == none) return what == other.what;
    for (const std::string& word : other.list)
      for (const std::string& own : list)
        if (own == word) return true;
    return false;
  }
};

inline Said anything(Random& random, const std::vector<std::string>& words, bool lists, bool mayBeNone) {
  Said said;
  const int kind = random.below(8);
  if (kind == 0) return said;
  if (kind == 1)
    said.what = Said::unknown;
  else if (kind == 2 && mayBeNone)
    said.what = Said::none;
  else {
    said.what = Said::values;
    said.isList = lists && random.oneIn(2);
    for (const std::string& word : words)
      if (random.oneIn(3)) said.list.push_back(word);
    if (said.list.empty())
      said.list.push_back(words[static_cast<std::size_t>(random.below(static_cast<int>(words.size())))]);
    if (!said.isList) said.list.resize(1);
    said.complete = said.isList && random.oneIn(2);
  }
  return said;
}

inline std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : ", ") + word;
  return all;
}

inline std::string typed(std::string_view field, const Said& said, bool look = false) {
  const std::string start = "  " + std::string(field) + ": ";
  switch (said.what) {
    case Said::absent: return {};
    case Said::unknown: return start + "unknown\n";
    case Said::none: return start + "none\n";
    case Said::values: break;
  }
  if (!said.isList) return start + said.list[0] + '\n';
  if (look || !said.complete) return start + '[' + joined(said.list) + "]\n";
  return start + "{is: [" + joined(said.list) + "], complete: yes}\n";
}

struct World {
  std::map<std::string, std::map<std::string, Said>> shapes;      // maker, prefix
  std::map<std::string, std::map<std::string, Said>> treatments;  // shape, motif, code, edge
  std::map<std::string, std::vector<Said>> pieces;                // of a treatment: the edge of each
};

// The semantics again: 0 no, 1 maybe, 2 yes.
using Reading = std::vector<Said>;  // what all members of a path's last step say

inline int askWord(const Reading& reading, const std::string& word) {
  bool said = false, none = false, unknown = false, onlyAbsent = true;
  for (const Said& one : reading) {
    said |= one.what == Said::values;
    none |= one.what == Said::none;
    unknown |= one.what == Said::unknown;
    onlyAbsent &= one.what == Said::absent;
  }
  const bool is = word == "known" ? said : word == "none" ? none : word == "unknown" ? unknown : onlyAbsent;
  return is ? 2 : 0;
}

inline int askValue(const Reading& reading, const std::string& value, bool openList) {
  int best = openList ? 1 : 0;
  for (const Said& one : reading) {
    int answer = 0;
    if (one.what == Said::absent || one.what == Said::unknown) answer = 1;
    if (one.what == Said::values) {
      for (const std::string& member : one.list) answer = member == value ? 2 : answer;
      if (one.perhaps) answer = std::min(answer, 1);
      if (answer == 0 && one.isList && !one.complete) answer = 1;
    }
    best = std::max(best, answer);
  }
  return best;
}

struct Asked {
  std::string text;
  int answer = 0;
};

inline bool isWord(const std::string& value) {
  return value == "known" || value == "none" || value == "unknown" || value == "absent";
}

// The names of what is reached over a reference that may be a list.
inline Reading over(const Said& reference, const std::map<std::string, std::map<std::string, Said>>& to,
                    const std::string& field) {
  if (reference.what != Said::values) return {Said{reference.what, {}, false, false}};
  Reading reading;
  for (const std::string& id : reference.list) reading.push_back(to.at(id).at(field));
  return reading;
}

// A treatment as one of its pieces has it: the edge that the piece shows, unless (`newsOnly`) the treatment is known to
// have it.
struct View {
  Said piece;
  bool newsOnly = false;
};

inline Reading edgeOf(const World& world, const std::string& treatment, const View* view) {
  Said own = world.treatments.at(treatment).at("edge");
  const bool shows =
      view != nullptr && view->piece.says() && !(view->newsOnly && own.says() && own.hasAnyOf(view->piece));
  if (shows) return {view->piece};
  if (view != nullptr && !view->newsOnly) {
    own.perhaps = own.list.size() > 1;
    return {own};
  }
  Reading reading{own};
  if (const auto pieces = world.pieces.find(treatment); pieces != world.pieces.end())
    for (const Said& piece : pieces->second)
      if (piece.says()) reading.push_back(piece);
  return reading;
}

inline Asked leaf(Random& random, const World& world, const std::string& treatment, const View* view) {
  static const std::vector<std::string> paths = {"shape",     "motif",       "code",
                                                 "look.edge", "shape.maker", "shape.prefix"};
  static const std::map<std::string, std::vector<std::string>> values = {
      {"shape", {"s0", "s1", "s2"}},  {"motif", {"m0", "m1"}},       {"code", {"A-1", "A-2", "A-3"}},
      {"look.edge", {"gold", "red"}}, {"shape.maker", {"k0", "k1"}}, {"shape.prefix", {"P", "Q"}}};
  const std::string& path = paths[static_cast<std::size_t>(random.below(6))];
  const auto& fields = world.treatments.at(treatment);
  Reading reading;
  bool openList = false;
  if (path.starts_with("shape.")) {
    reading = over(fields.at("shape"), world.shapes, path.substr(6));
    openList = fields.at("shape").isList && !fields.at("shape").complete;
  } else {
    reading = path == "look.edge" ? edgeOf(world, treatment, view) : Reading{fields.at(path)};
  }
  std::vector<std::string> wanted;
  const int count = 1 + random.below(3);
  for (int i = 0; i < count; ++i) {
    static const std::vector<std::string> words = {"known", "none", "unknown", "absent"};
    const auto& own = values.at(path);
    wanted.push_back(random.oneIn(4)
                         ? words[static_cast<std::size_t>(random.below(4))]
                         : own[static_cast<std::size_t>(random.below(static_cast<int>(own.size())))]);
  }
  Asked asked;
  for (const std::string& one : wanted)
    asked.answer =
        std::max(asked.answer, isWord(one) ? askWord(reading, one) : askValue(reading, one, openList));
  asked.text = path + ": " + (wanted.size() == 1 ? wanted[0] : "[" + joined(wanted) + "]");
  return asked;
}

// A mapping in braces.
inline Asked mapping(Random& random, const World& world, const std::string& treatment, int depth,
                     const View* view = nullptr) {
  Asked all{"{", 2};
  const int keys = 1 + random.below(2);
  std::map<std::string, bool> used;
  for (int i = 0; i < keys; ++i) {
    Asked one;
    const int kind = depth == 0 ? 2 : random.below(4);
    std::string key;
    if (kind == 0) {
      const Asked inner = mapping(random, world, treatment, depth - 1, view);
      one = {"not: " + inner.text, 2 - inner.answer};
      key = "not";
    } else if (kind == 1) {
      one.text = "any: [";
      const int alternatives = 1 + random.below(3);
      for (int j = 0; j < alternatives; ++j) {
        const Asked inner = mapping(random, world, treatment, depth - 1, view);
        one.text += (j == 0 ? "" : ", ") + inner.text;
        one.answer = std::max(one.answer, inner.answer);
      }
      one.text += ']';
      key = "any";
    } else {
      one = leaf(random, world, treatment, view);
      key = one.text.substr(0, one.text.find(':'));
    }
    if (used[key]) continue;
    used[key] = true;
    all.text += (all.text.size() == 1 ? "" : ", ") + one.text;
    all.answer = std::min(all.answer, one.answer);
  }
  all.text += '}';
  return all;
}

// A world and its records as typed.
inline World anyWorld(Random& random, std::string& records) {
  World world;
  records =
      "- maker: k0\n- maker: k1\n- motif: m0\n- motif: m1\n- feature: edge\n  of: treatment\n"
      "  values: {gold: gold, red: red}\n";
  for (int i = 0; i < 3; ++i) {
    const std::string id = "s" + std::to_string(i);
    auto& shape = world.shapes[id];
    shape["maker"] = anything(random, {"k0", "k1"}, false, true);
    shape["prefix"] = anything(random, {"P", "Q"}, true, true);
    records += "- shape: " + id + '\n' + typed("maker", shape["maker"]) + typed("prefix", shape["prefix"]);
  }
  for (int i = 0; i < 12; ++i) {
    const std::string id = "t" + std::to_string(i);
    auto& treatment = world.treatments[id];
    treatment["shape"] = anything(random, {"s0", "s1", "s2"}, true, true);
    treatment["motif"] = anything(random, {"m0", "m1"}, false, true);
    treatment["code"] = anything(random, {"A-1", "A-2", "A-3"}, true, true);
    treatment["edge"] = anything(random, {"gold", "red"}, true, true);
    treatment["edge"].complete = true;  // a look says all that it varies between
    records += "- treatment: " + id + '\n' + typed("shape", treatment["shape"]) +
               typed("motif", treatment["motif"]) + typed("code", treatment["code"]);
    const std::string edge = typed("edge", treatment["edge"], true);
    if (!edge.empty()) records += "  look:\n  " + edge;
  }
  return world;
}

// Pieces of its treatments, each with an edge or none.
inline void addPieces(Random& random, World& world, std::string& records) {
  for (int i = 0; i < 10; ++i) {
    const std::string treatment = "t" + std::to_string(random.below(12));
    Said edge = anything(random, {"gold", "red"}, true, true);
    edge.complete = true;
    edge.perhaps = edge.list.size() > 1;
    const std::string look = typed("edge", edge, true);
    records += "- specimen: p" + std::to_string(i) + "\n  treatment: " + treatment +
               "\n  seen: {on: 2019, how: in-hand}\n" + (look.empty() ? "" : "  look:\n  " + look);
    world.pieces[treatment].push_back(std::move(edge));
  }
}

}  // namespace saggar::choosing::testing
