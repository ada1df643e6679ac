#pragma once
#include <doctest/doctest.h>

#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "choosing/choose.h"
#include "choosing/code_readings.h"
#include "choosing/network_bounds.h"
#include "chronology/chronology.h"
#include "linking/link.h"
#include "reading/guide_reader.h"

// A few records typed in a test, read, linked and reasoned about. All data is invented.
namespace saggar::study::testing {

class Records {
 public:
  explicit Records(std::string text) {
    records::ReadGuide read;
    diagnostics::Findings findings;
    diagnostics::Settings settings;
    reading::readRecords(read, "records.yaml", std::move(text), findings);
    collection = linking::link(std::move(read), findings, settings);
    for (const diagnostics::Finding& one : findings.all()) MESSAGE(one.message);
    weights = std::make_unique<evidence::Weights>(collection);
    ownBounds_ = std::make_unique<choosing::OwnBounds>(collection, dates::Reading::Plain);
    reader_ = std::make_unique<choosing::Chooser>(collection, *ownBounds_);
    codes = choosing::CodeReadings::read(*reader_, findings);
    chronology = chronology::Chronology::reason(collection, *weights, *codes.days());
    bounds_ = std::make_unique<choosing::NetworkBounds>(chronology, chronology::BoundsOf::likely);
    chooser = std::make_unique<choosing::Chooser>(collection, *bounds_);
    REQUIRE(findings.empty());
  }

  records::RecordIndex at(std::string_view reference) const {
    const auto found = collection.find(reference);
    REQUIRE_MESSAGE(found.has_value(), std::string(reference));
    return found.value_or(0);
  }
  std::vector<records::RecordIndex> all(records::Kind kind) const {
    const auto of = collection.ofKind(kind);
    return {of.begin(), of.end()};
  }
  // "a b c"
  std::string ids(const std::vector<records::RecordIndex>& records) const {
    std::string out;
    for (const records::RecordIndex one : records)
      out += (out.empty() ? "" : " ") + std::string(collection[one].id);
    return out;
  }

  linking::Collection collection;
  std::unique_ptr<evidence::Weights> weights;
  choosing::CodeReadings codes;
  chronology::Chronology chronology;
  std::unique_ptr<choosing::Chooser> chooser;

 private:
  std::unique_ptr<choosing::Bounds> ownBounds_;
  std::unique_ptr<choosing::Chooser> reader_;
  std::unique_ptr<choosing::Bounds> bounds_;
};

}  // namespace saggar::study::testing
