#pragma once
#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "linking/link.h"
#include "reading/guide_reader.h"
#include "talks/order.h"
#include "talks/spoken.h"
#include "talks/timing.h"

// A guide of a few lines in memory that holds the talk `t`. All data is invented.
namespace saggar::talks::testing {

class Small {
 public:
  explicit Small(const std::string& records, const std::string& guide = "guide: An example\n") {
    source::MemoryFiles world;
    world.put("guide/guide.yaml", guide);
    world.put("guide/records.yaml", records);
    diagnostics::Settings settings;
    collection = linking::link(reading::readGuide(world, "guide", findings), findings, settings);
    const auto found = collection.find("talk:t");
    REQUIRE(found.has_value());
    index = found.value_or(0);
    times = timesOf(collection, index);
  }

  // What is said in the first segment.
  std::string spoken() const {
    REQUIRE(!times.segments.empty());
    const records::Value* say = times.segments[0].segment->find("say"_f);
    REQUIRE(say != nullptr);
    return spokenText(collection, collection[index], *say);
  }

  diagnostics::Findings findings;
  linking::Collection collection;
  linking::RecordIndex index = 0;
  TalkTimes times;
};

inline std::string words(int count) {
  std::string all;
  for (int i = 0; i < count; ++i) all += (i == 0 ? "" : " ") + std::string("word");
  return all;
}

// The talk `t`, its segments typed one after the other with four blanks in front.
inline std::string talk(const std::string& segments, const std::string& more = {}) {
  return "- talk: t\n  title: T\n" + more + "  segments:\n" + segments;
}

inline std::string say(const std::string& markdown) {
  std::string lines;
  std::size_t at = 0;
  while (at <= markdown.size()) {
    const std::size_t end = std::min(markdown.find('\n', at), markdown.size());
    lines += "        " + markdown.substr(at, end - at) + '\n';
    at = end + 1;
  }
  return talk("    - title: One\n      say: |\n" + lines);
}

// With the blanks that blocks leave between them drawn together.
inline std::string drawnTogether(const std::string& text) {
  std::string out;
  for (char c : text)
    if (c != ' ' || (!out.empty() && out.back() != ' ')) out += c;
  while (!out.empty() && out.back() == ' ') out.pop_back();
  return out;
}

}  // namespace saggar::talks::testing
