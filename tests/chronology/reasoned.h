#pragma once
#include "../evidence/small.h"
#include "choosing/code_readings.h"
#include "chronology/reasons.h"

// A guide of a few lines in memory, read, linked, weighed, its codes read, and reasoned about.
namespace saggar::chronology::testing {

class Reasoned : public evidence::testing::Small {
 public:
  explicit Reasoned(const std::string& records)
      : Small(records),
        own_(collection, dates::Reading::Plain),
        chooser_(collection, own_),
        codes(choosing::CodeReadings::read(chooser_, findings)),
        days_(codes.days()),
        chronology(Chronology::reason(collection, *weights, *days_)),
        reasons(collection, *weights, chronology, Reasons::Naming::ids) {}

  Node node(std::string_view record, records::Field field, EventEnd end = EventEnd::moment) const {
    return chronology.events().nodeOf(at(record), field, end);
  }
  // "1932-01-01 … 1932-12-31"
  std::string days(Node event, BoundsOf which) const {
    const dates::Bounds bounds = chronology.bounds(event, which);
    return bounds.earliest.toString() + " … " + bounds.latest.toString();
  }
  // "`a` was introduced in 1936 (documented); …"
  std::string because(Node event, BoundsOf which, dates::End end) const {
    std::string out;
    for (const FactId fact : chronology.because(event, which, end))
      out += (out.empty() ? "" : "; ") + reasons.says(fact) + " (" + reasons.standing(fact) + ')';
    return out;
  }

 private:
  choosing::OwnBounds own_;
  choosing::Chooser chooser_;

 public:
  choosing::CodeReadings codes;

 private:
  std::unique_ptr<CodeDates> days_;

 public:
  Chronology chronology;
  Reasons reasons;
};

}  // namespace saggar::chronology::testing
