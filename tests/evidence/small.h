#pragma once
#include <doctest/doctest.h>

#include <string>

#include "evidence/evidence.h"
#include "linking/link.h"
#include "reading/guide_reader.h"
#include "records/tables.h"

// A guide of a few lines in memory, read, linked and weighed. All data is invented.
namespace saggar::evidence::testing {

class Small {
 public:
  explicit Small(const std::string& records) {
    source::MemoryFiles world;
    world.put("guide/guide.yaml", "guide: An example\n");
    world.put("guide/records.yaml", records);
    diagnostics::Settings settings;
    collection = linking::link(reading::readGuide(world, "guide", findings), findings, settings);
    weights = std::make_unique<Weights>(collection);
  }

  RecordIndex at(std::string_view reference) const {
    const auto found = collection.find(reference);
    REQUIRE_MESSAGE(found, reference);
    return *found;
  }
  const Value& value(std::string_view reference, records::Field field) const {
    const Value* found = collection[at(reference)].find(field);
    REQUIRE(found != nullptr);
    return *found;
  }
  Weighed weigh(std::string_view reference, records::Field field) const {
    return weights->weigh(at(reference), value(reference, field));
  }
  // "documented", "disputed suggested" …
  std::string standing(std::string_view reference, records::Field field) const {
    const Weighed weighed = weigh(reference, field);
    return (weighed.disputed ? "disputed " : "") + std::string(word(weighed.standing));
  }
  std::string inWords(std::string_view reference, records::Field field) const {
    return weights->inWords(weigh(reference, field));
  }
  bool independent(std::string_view one, std::string_view other) const {
    return weights->witnesses().independent(at(one), at(other));
  }

  diagnostics::Findings findings;
  linking::Collection collection;
  std::unique_ptr<Weights> weights;
};

inline std::string cited(const std::string& id, const std::string& type, const std::string& more = {}) {
  return "- {source: " + id + ", type: " + type + (more.empty() ? "" : ", " + more) + "}\n";
}

}  // namespace saggar::evidence::testing
