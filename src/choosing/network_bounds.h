#pragma once
#include "choosing/condition.h"
#include "chronology/chronology.h"

namespace saggar::choosing {

// The days of events as the network of dates has them.
class NetworkBounds final : public Bounds {
 public:
  NetworkBounds(const chronology::Chronology& chronology, chronology::BoundsOf which)
      : chronology_(chronology), which_(which) {}
  dates::Bounds of(RecordIndex record, records::Field field, End end) const override;

 private:
  const chronology::Chronology& chronology_;
  chronology::BoundsOf which_;
};

}  // namespace saggar::choosing
