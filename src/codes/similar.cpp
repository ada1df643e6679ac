#include <deque>
#include <unordered_set>

#include "codes/rule_impl.h"

namespace saggar::codes {
namespace {

constexpr std::size_t kMostTried = 2'000;

struct Exchanged {
  std::string done;      // the text up to `next`, with what was exchanged
  std::size_t next = 0;  // the sign from which further ones may be exchanged
  int exchanges = 0;
};

bool standsAt(std::span<const Sign> signs, std::size_t at, const std::u32string& text) {
  if (at + text.size() > signs.size()) return false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (signs[at + i].folded != text[i]) return false;
  }
  return true;
}

}  // namespace

Similars Rule::similar(std::string_view text, std::size_t most) const {
  Similars found;
  const std::vector<Sign> signs = toSigns(text, Questions::anySign);
  if (impl_->alike.empty() || unfit(signs)) return found;
  const std::size_t end = signs.back().end;
  std::unordered_set<std::string> tried = {foldedKey(text)};
  std::deque<Exchanged> queue = {{std::string(text.substr(0, signs[0].begin)), 0, 0}};
  std::size_t work = 0;
  while (!queue.empty()) {
    const Exchanged state = std::move(queue.front());
    queue.pop_front();
    for (std::size_t at = state.next; at < signs.size(); ++at) {
      const std::size_t kept = state.next < signs.size() ? signs[state.next].begin : end;
      for (std::size_t g = 0; g < impl_->alike.size(); ++g) {
        const std::vector<std::u32string>& group = impl_->alike[g];
        for (std::size_t seen = 0; seen < group.size(); ++seen) {
          if (!standsAt(signs, at, group[seen])) continue;
          const std::size_t after = at + group[seen].size();
          for (std::size_t other = 0; other < group.size(); ++other) {
            if (group[other] == group[seen]) continue;
            if (++work > kMostTried || found.all.size() >= most) {
              found.more = true;
              return found;
            }
            Exchanged next = state;
            next.done += text.substr(kept, signs[at].begin - kept);
            next.done += (*impl_->spec.alike)[g][other];
            next.next = after;
            ++next.exchanges;
            std::string whole = next.done;
            if (after < signs.size()) whole += text.substr(signs[after].begin, end - signs[after].begin);
            if (tried.insert(foldedKey(whole)).second) {
              Readings readings = read(whole);
              if (!readings.all.empty())
                found.all.push_back({whole, next.exchanges, std::move(readings.all)});
            }
            queue.push_back(std::move(next));
          }
        }
      }
    }
  }
  return found;
}

}  // namespace saggar::codes
