#include "talks/order.h"

#include <algorithm>
#include <string>

#include "base/text.h"

namespace saggar::talks {

using records::Value;

namespace {

constexpr records::Field kTitle = "title"_f;
constexpr records::Field kAfter = "after"_f;
constexpr records::Field kKeep = "keep"_f;

std::string titleOf(const SegmentTime& segment) {
  const Value* title = segment.segment->find(kTitle);
  return title == nullptr || !title->said() ? std::string() : base::folded(base::trimmed(title->text));
}

// The segment of that title that stands nearest before `segment`; else the first that stands elsewhere.
std::optional<std::size_t> named(const std::vector<std::string>& titles, std::string_view typed,
                                 std::size_t segment) {
  const std::string wanted = base::folded(base::trimmed(typed));
  std::optional<std::size_t> found;
  for (std::size_t i = 0; i < titles.size(); ++i)
    if (titles[i] == wanted && (i < segment || !found)) found = i;
  return found;
}

std::vector<std::string> titlesOf(const TalkTimes& times) {
  std::vector<std::string> titles;
  for (const SegmentTime& one : times.segments) titles.push_back(titleOf(one));
  return titles;
}

template <class Take>
void forEachAfter(const SegmentTime& segment, Take&& take) {
  const Value* after = segment.segment->find(kAfter);
  if (after == nullptr || !after->said()) return;
  for (const Value& one : after->each())
    if (one.said() && !one.text.empty()) take(one);
}

}  // namespace

std::vector<OrderFault> orderFaults(const TalkTimes& times) {
  const std::vector<std::string> titles = titlesOf(times);
  std::vector<OrderFault> faults;
  for (std::size_t i = 0; i < times.segments.size(); ++i)
    forEachAfter(times.segments[i], [&](const Value& one) {
      const auto stands = named(titles, one.text, i);
      if (!stands || *stands >= i) faults.push_back({i, &one, stands});
    });
  return faults;
}

std::vector<std::size_t> buildsOn(const TalkTimes& times, std::size_t segment) {
  const std::vector<std::string> titles = titlesOf(times);
  std::vector<std::size_t> out;
  forEachAfter(times.segments[segment], [&](const Value& one) {
    if (const auto stands = named(titles, one.text, segment); stands && *stands != segment)
      out.push_back(*stands);
  });
  return out;
}

Keep keepOf(const SegmentTime& segment) {
  const Value* keep = segment.segment->find(kKeep);
  if (keep == nullptr || !keep->said()) return Keep::must;
  return keep->text == "may" ? Keep::may : keep->text == "should" ? Keep::should : Keep::must;
}

std::vector<std::size_t> whatGoesFirst(const TalkTimes& times) {
  std::vector<std::size_t> out;
  for (const Keep keep : {Keep::may, Keep::should})
    for (std::size_t i = times.segments.size(); i-- > 0;)
      if (keepOf(times.segments[i]) == keep) out.push_back(i);
  return out;
}

}  // namespace saggar::talks
