#include "talks/timing.h"

#include <algorithm>

#include "base/text.h"
#include "talks/spoken.h"

namespace saggar::talks {

using records::Value;

namespace {

constexpr std::int64_t kLongest = std::int64_t{366} * 24 * 3600;

std::int64_t estimateOf(const SegmentTime& segment, std::int64_t pace) {
  const auto words = static_cast<std::int64_t>(segment.words);
  const auto pieces = static_cast<std::int64_t>(segment.pieces);
  return std::min((words * 60 + pace / 2) / pace + kSecondsAPiece * pieces, kLongest);
}

}  // namespace

TalkTimes timesOf(const linking::Collection& collection, linking::RecordIndex talk) {
  const records::Record& record = collection[talk];
  TalkTimes times;
  times.pace = collection.settings().pace;
  if (const Value* pace = record.find("pace"_f); pace != nullptr && pace->number() > 0)
    times.pace = pace->number();
  times.pace = std::clamp<std::int64_t>(times.pace, 1, 1'000'000);
  const Value* segments = record.find("segments"_f);
  if (segments == nullptr || !segments->said()) return times;
  for (const Value& segment : segments->each()) {
    if (segment.type != records::ValueType::mapping) continue;
    SegmentTime one;
    one.segment = &segment;
    one.start = times.total;
    one.startGiven = times.allGiven;
    if (const Value* say = segment.find("say"_f); say != nullptr && say->said())
      one.words = spokenWords(collection, record, *say);
    if (const Value* show = segment.find("show"_f); show != nullptr && show->said())
      one.pieces = show->each().size();
    one.estimate = estimateOf(one, times.pace);
    if (const Value* time = segment.find("time"_f);
        time != nullptr && time->type == records::ValueType::number) {
      one.length = std::clamp<std::int64_t>(time->number(), 0, kLongest);
      one.given = true;
    } else {
      one.length = one.estimate;
      times.allGiven = false;
    }
    times.total += one.length;
    times.segments.push_back(one);
  }
  return times;
}

std::size_t spokenWords(const linking::Collection& collection, const records::Record& talk,
                        const Value& say) {
  return countWords(spokenText(collection, talk, say));
}

std::string asClock(std::int64_t seconds) {
  auto two = [](std::int64_t value) { return (value < 10 ? "0" : "") + std::to_string(value); };
  const std::int64_t hours = seconds / 3600;
  const std::int64_t minutes = seconds / 60 % 60;
  if (hours == 0) return std::to_string(minutes) + ':' + two(seconds % 60);
  return std::to_string(hours) + ':' + two(minutes) + ':' + two(seconds % 60);
}

}  // namespace saggar::talks
